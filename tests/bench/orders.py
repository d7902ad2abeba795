#!/usr/bin/env python3
"""Invented Latin plaque orders as CSV (Order, Text): orders.py COUNT [--seed SEED] > orders.csv

People, houses, animals and dates are all made up here, put together from the word lists below; a likeness to anyone is
chance. The same count and seed give the same bytes: of `random` only random() is used, whose sequence Python promises
to keep. Surnames and places are compounds, so that few lines come twice and no cache of whole lines wins by luck.
"""
import argparse
import random
import sys

FIRST_NAMES = """Ada Agnes Alasdair Alma Anton Astrid Barnaby Beatrix Benoît Bláthnaid Bruno Cecily Chloë Clément Cormac
Dagny Dorothea Dušan Edith Eilidh Elías Émile Esmé Ewan Fergus Fiadh Flora Françoise Greta Håkon Hannah Hugo Ida Ingrid
Inês Isobel Jarek Jonas Juniper Kaya Klára Lachlan Leopold Linnéa Lucía Ludwig Maeve Marek Margit Matilda Mirela Nadia
Nils Noémie Odette Oisín Orla Oskar Percy Petra Quentin Ragnar Réka Rosalind Rufus Saoirse Séraphine Silvio Sofía Søren
Tamsin Theodora Tomáš Tuula Ulrike Ursula Valentín Vera Viggo Wilfred Winifred Xanthe Yannick Yvette Zdenka Zoë""".split()

SURNAME_HEADS = """Alder Ash Barley Birch Black Bramble Brook Cobble Crab Dapple Elder Fallow Fern Flint Gorse Hazel Heather
Hollow Iron Kestrel Lark Linden Loam Maple Marsh Mill Moss Nettle Oak Otter Pebble Pike Quill Reed Rook Rowan Rush Sedge
Silver Sorrel Thistle Thorn Tumble Wether Whin Willow Winter Wren Yarrow""".split()
SURNAME_TAILS = "bank beck by combe cott croft dale don field ford garth gate ham holm hurst ley low mere more ney ridge " \
                "shaw son stead stow ton wade wick wood worth".split()
ABROAD = """Ångmyr Błoński Çelebrok Dvořánek Fjeldsø Grünwiesel Häkkilä Íberos Jørholt Kőhegyi Lindqvärn Müllroth Nørkær
Ödbring Peñasola Râmnel Šternov Țepeluș Übelhör Vrânceni Ystgård Želmír""".split()

HOUSES = "Barn Cottage Farm Forge Grange House Lodge Loft Mill Rest View Yard".split()
WATERS = "beck brook harbour leat mere mill pond river shore tide weir".split()
TREES = "apple beech birch cherry hazel lime medlar oak pear quince rowan walnut".split()
ANIMALS = "Biscuit Bramble Bruno Clover Dash Fig Hopper Juno Mischief Nutmeg Olive Pickle Pippin Rolo Sooty Tuppence".split()
DEEDS = ["fished", "knew", "loved", "mended", "painted", "rowed", "sang by", "tended", "walked", "watched"]
SERVICES = ["baking", "bell-ringing", "bookkeeping", "caretaking", "careful work", "good company", "patient teaching",
            "quiet kindness", "steady hands", "winter grinding"]
CRAFTS = "Allotment Bakers Bell Boat Choir Darts Fell Garden Oarsmen Quoits Reading Stitchers".split()
MONTHS = "January February March April May June July August September October November December".split()


class Draw:
    """Random choices, by random() alone."""

    def __init__(self, seed):
        self.random = random.Random(seed).random

    def below(self, n):
        return int(self.random() * n)

    def one(self, words):
        return words[self.below(len(words))]

    def chance(self, share):
        return self.random() < share


def surname(draw):
    return draw.one(ABROAD) if draw.chance(0.2) else draw.one(SURNAME_HEADS) + draw.one(SURNAME_TAILS)


def first_name(draw):
    return draw.one(FIRST_NAMES)


def full_name(draw):
    initial = f" {chr(65 + draw.below(26))}." if draw.chance(0.15) else ""
    return f"{first_name(draw)}{initial} {surname(draw)}"


def place(draw):
    return draw.one(SURNAME_HEADS) + draw.one(SURNAME_TAILS)


def date(draw):
    return f"{1 + draw.below(28)} {draw.one(MONTHS)} {1994 + draw.below(33)}"


def years(draw):
    born = 1910 + draw.below(70)
    return f"{born} – {born + 30 + draw.below(60)}"


def house(draw):
    lines = [f"{place(draw)} {draw.one(HOUSES)}"]
    return [f"No. {1 + draw.below(240)}"] + lines if draw.chance(0.5) else lines


def memorial(draw):
    lines = [draw.one(["In loving memory of", "Remembering", "In fond memory of"]), full_name(draw), years(draw)]
    return lines + [f"who {draw.one(DEEDS)} this {draw.one(WATERS)}"] if draw.chance(0.6) else lines


def wedding(draw):
    lines = [f"{first_name(draw)} & {first_name(draw)}", date(draw)]
    return lines + [place(draw)] if draw.chance(0.5) else lines


def thanks(draw):
    return ["Presented to", full_name(draw), f"for {2 + draw.below(50)} years of", draw.one(SERVICES)]


def tree(draw):
    return [f"This {draw.one(TREES)} was planted", f"by {full_name(draw)}", date(draw)]


def animal(draw):
    lines = [draw.one(ANIMALS)]
    if draw.chance(0.7):
        lines.append(draw.one(["a good dog", "the best of cats", "gone to the meadow", "always hungry"]))
    return lines + [years(draw)] if draw.chance(0.4) else lines


def prize(draw):
    return [f"{place(draw)} {draw.one(CRAFTS)}", draw.one(["First Prize", "Second Prize", "Best in Show"]), full_name(draw)]


def family(draw):
    return [f"The {surname(draw)}s"] if draw.chance(0.5) else ["The family", surname(draw)]


KINDS = [house, house, memorial, memorial, memorial, wedding, wedding, thanks, tree, animal, prize, family]


def orders(count, seed):
    draw = Draw(seed)
    for number in range(1, count + 1):
        yield 100000 + number, draw.one(KINDS)(draw)


def record(number, lines):
    """One record of RFC 4180: the text quoted, its quotes doubled, its lines parted by LF."""
    text = "\n".join(lines).replace('"', '""')
    return f'{number},"{text}"\r\n'


def main():
    parser = argparse.ArgumentParser(description="Invented Latin plaque orders, as CSV on stdout.")
    parser.add_argument("count", type=int)
    parser.add_argument("--seed", type=int, default=1086)
    arguments = parser.parse_args()
    out = sys.stdout.buffer
    out.write(b"Order,Text\r\n")
    for number, lines in orders(arguments.count, arguments.seed):
        out.write(record(number, lines).encode())


if __name__ == "__main__":
    main()
