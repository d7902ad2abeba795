"""Names of Europe in encodings of one byte a letter and in UTF-16, by Python's codecs (Python 3.11, Debian 12).

usage: encodings.py; prints a line a file: its codec, its words as Unicode (parted by blanks) and its bytes in hexadecimal,
parted by tabs. Names are invented. A name that a codec lacks is left out of its file.
"""

NAMES = {
    "fr": "Hélène François Noël Zoë Château Besançon crêpe Thérèse André Où",
    "es": "Núñez José María Peña Ramón Íñiguez cumpleaños Begoña",
    "pt": "João São Conceição Inês Antônio",
    "de": "Jürgen Käthe Mühlgraben Größe Björn Schröder Straußen",
    "nordic": "Bjørn Åse Søren Kierkegård Håkan Öberg",
    "is": "Þórdís Hallgrímsdóttir Æðarnes Sigurður",
    "it": "Nicolò Perù Città",
    "pl": "Łukasz Żaneta Lipą Grześ Paweł Wójcik Małgorzata",
    "cs": "Dvořák Jiří Němec Růžena Tomáš Novák Řeháková",
    "sk": "Ľuboš Kľačany Ďuro Žofia Ťažký",
    "hu": "Erdős Béla Győr Szőke Ödön Kovács Ágnes",
    "hr": "Kovačević Đurđica Ćosić Željko Šarić",
    "ro": "Ionuţ Dănilă Ştefan Brânduşa Căsuţa",
    "tr": "Çağla Işık İğde Ayşe",
    "lt": "Jūratė Žydrūnas Eglė Šiauliai",
    "ru": "Дом мельницы Семья Ручьёвых Анна Иван Петров",
    "uk": "Їжакова Джерельна Євген Ґанна",
    "el": "Καλώς ορίσατε Ευανθία Μαρία",
}
CODECS = ("cp1252 cp1250 cp1251 cp1253 cp1254 cp1257 mac_roman mac_latin2 mac_cyrillic iso8859-2 iso8859-5 koi8-r "
          "cp850 cp852 utf-8 utf-8-sig utf-16 utf-16-le utf-16-be").split()


def fits(name, codec):
    try:
        name.encode(codec)
        return True
    except UnicodeEncodeError:
        return False


for language, names in NAMES.items():
    for codec in CODECS:
        words = [name for name in names.split() if fits(name, codec)]
        if len(words) < 3:
            continue
        text = "Order,Text\n" + "".join(f"{1000 + i},{word}\n" for i, word in enumerate(words))
        print(codec, language, " ".join(words), text.encode(codec).hex(), sep="\t")
