"""Prints the width in ems of one character's glyph, from the font's own points, by fontTools."""
import sys
from fontTools.pens.boundsPen import BoundsPen
from fontTools.ttLib import TTFont

font = TTFont(sys.argv[1])
glyphs = font.getGlyphSet()
pen = BoundsPen(glyphs)
glyphs[font.getBestCmap()[ord(sys.argv[2])]].draw(pen)
print((pen.bounds[2] - pen.bounds[0]) / font["head"].unitsPerEm)
