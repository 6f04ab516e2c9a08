"""Constant-head chamber and the two legs: the upper half of both remote instruments."""

from .drum import DATUM, draw_drum, draw_level, nozzle, outside
from .sheet import WIDTH

WEIR, CHAMBER, DRUM_LEG, REFERENCE_LEG = 66, 262, 212, 290
_FOOT = WEIR + 26


def draw_legs(sheet, foot, leg_symbol):
    """Draw drum, chamber with weir, both legs down to `foot`, and the height of the weir."""
    draw_drum(sheet)
    draw_level(sheet)
    nozzle(sheet, WEIR, CHAMBER, 7)
    sheet.rect(CHAMBER, WEIR - 22, 56, 48, "steam", "outline")
    sheet.rect(CHAMBER + 14, WEIR, 42, 26, "glass water", "outline")
    sheet.rect(CHAMBER, WEIR + 7, 14, 19, "metal", "outline")
    sheet.rect(CHAMBER - 2, WEIR - 6, 4, 12, "steam")
    for x, top in ((REFERENCE_LEG, _FOOT), (DRUM_LEG, DATUM)):
        sheet.rect(x - 5, top, 10, foot - top, "glass water", "outline")
    x = outside(DATUM)
    sheet.rect(x, DATUM - 5, DRUM_LEG + 5 - x, 10, "glass water", "outline")
    end = WIDTH - 150
    sheet.line(CHAMBER + 58, WEIR, end + 8, WEIR, "thin")
    sheet.datum(DRUM_LEG + 8, end + 8, DATUM, "")
    sheet.text(REFERENCE_LEG + 12, DATUM + 18, "datum: lower connection", scale=0.85)
    sheet.height_of(end, DATUM, WEIR, "H", "right")
    sheet.text(CHAMBER + 28, WEIR - 30, "constant-head chamber", "middle", 0.85)
    sheet.symbol(REFERENCE_LEG + 10, (WEIR + DATUM) / 2 + 24, leg_symbol)
    sheet.text(REFERENCE_LEG + 10, (WEIR + DATUM) / 2 + 4, "reference leg", scale=0.85)


WORDS = ("A drum with steam over water, its level h above the lower connection. A constant-head "
         "chamber keeps a weir at height H; from it the reference leg runs down, and the drum-side "
         "leg from the lower connection. ")
