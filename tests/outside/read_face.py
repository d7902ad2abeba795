"""What fontTools (Debian: python3-fonttools) reads in a font file, as JSON on stdout.

usage: read_face.py FILE TEXT...
  units_per_em, cap_height and x_height of the OS/2 table, axes as [tag, least, standard, most],
  bounds of every glyph as [left, bottom, right, top] or null where it is empty, in font units, by glyph number,
  lacking: for each TEXT the characters that the file has no glyph for.
"""
import json
import logging
import sys

from fontTools.pens.boundsPen import BoundsPen
from fontTools.ttLib import TTFont

logging.disable(logging.WARNING)  # a date before 1970 in a head table is no matter here
font = TTFont(sys.argv[1])


class Part:
    """A component of a TrueType glyph, where its points are. The glyph set of fontTools moves not only the glyph but each
    component, too, to its left bearing in the hmtx table, which in Routed Gothic is one unit off for 17 glyphs."""

    def __init__(self, name):
        self.name = name

    def draw(self, pen):
        font["glyf"][self.name].draw(pen, font["glyf"])


def draw(name, pen):
    if "glyf" in font:
        glyph = font["glyf"][name]
        glyph.draw(pen, font["glyf"], font["hmtx"][name][1] - getattr(glyph, "xMin", 0))
    else:
        glyphs[name].draw(pen)


order = font.getGlyphOrder()
glyphs = {name: Part(name) for name in order} if "glyf" in font else font.getGlyphSet()
bounds = []
for name in order:
    pen = BoundsPen(glyphs)
    draw(name, pen)
    bounds.append(pen.bounds)
characters = font.getBestCmap()
os2 = font["OS/2"]
json.dump(
    {
        "units_per_em": font["head"].unitsPerEm,
        "cap_height": getattr(os2, "sCapHeight", 0),
        "x_height": getattr(os2, "sxHeight", 0),
        "axes": [
            [axis.axisTag, axis.minValue, axis.defaultValue, axis.maxValue]
            for axis in (font["fvar"].axes if "fvar" in font else [])
        ],
        "bounds": bounds,
        "lacking": ["".join(c for c in text if ord(c) not in characters) for text in sys.argv[2:]],
    },
    sys.stdout,
)
