"""Line drawing of a drum with its gauge glass, steam, water and drain cock."""

from ..parts import cock
from .drum import BOTTOM, DATUM, draw_drum, draw_level, nozzle, outside
from .sheet import Sheet

_HEIGHT = 300
_STEAM, _GLASS, _HALF = 58, 290, 12
_VISIBLE_TOP, _VISIBLE_BOTTOM = 84, 188


def draw_gauge_glass(labelled):
    """Return the drawing; no level stands in the glass, for that is what is asked for."""
    sheet = Sheet(_HEIGHT, labelled)
    draw_drum(sheet)
    draw_level(sheet)
    for y in (_STEAM, DATUM):
        nozzle(sheet, y, _GLASS - 22)
        cock(sheet, (outside(y) + _GLASS - 22) / 2, y, size=11)
        sheet.rect(_GLASS - 22, y - 14, 44, 28, "metal", "outline")
    for top, bottom in ((_STEAM + 14, _VISIBLE_TOP), (_VISIBLE_BOTTOM, DATUM - 14)):
        sheet.rect(_GLASS - 18, top, 36, bottom - top, "metal", "outline")
    sheet.rect(_GLASS - _HALF, _STEAM, 2 * _HALF, DATUM - _STEAM, "paper", "outline")
    sheet.rect(_GLASS - 5, DATUM + 14, 10, 40, "paper", "outline")
    cock(sheet, _GLASS, DATUM + 34, size=11, vertical=True)
    middle = (outside(_STEAM) + _GLASS - 22) / 2
    sheet.text(middle, _STEAM - 18, "steam cock", "middle", 0.85)
    sheet.text(middle, DATUM + 30, "water cock", "middle", 0.85)
    sheet.text(_GLASS - 18, DATUM + 52, "drain cock", "end", 0.85)
    for y, words in ((_VISIBLE_TOP, "upper visible end"), (_VISIBLE_BOTTOM, "lower visible end")):
        sheet.text(_GLASS + 30, y - 5, words, scale=0.85)
    for y in (_VISIBLE_TOP, _VISIBLE_BOTTOM):
        sheet.line(_GLASS + 18, y, _GLASS + 170, y, "thin")
    sheet.height_of(_GLASS + 164, DATUM, _VISIBLE_BOTTOM, "z_0", "right")
    sheet.datum(_GLASS + 24, _GLASS + 164, DATUM, "")
    sheet.text(_GLASS + 150, DATUM + 20, "datum: water connection", "middle", 0.85)
    sheet.symbol(_GLASS + 30, (_VISIBLE_TOP + _VISIBLE_BOTTOM) / 2 + 10, "ρ_w")
    sheet.text(_GLASS + 58, (_VISIBLE_TOP + _VISIBLE_BOTTOM) / 2 + 10, "water in the glass,",
               scale=0.85)
    sheet.text(_GLASS + 58, (_VISIBLE_TOP + _VISIBLE_BOTTOM) / 2 + 26, "level not drawn",
               scale=0.85)
    sheet.text(70, BOTTOM + 18, "drum", "middle", 0.85)
    return sheet.drawing("Drum and gauge glass", (
        "A drum with steam over water, its level h above the water connection. A gauge glass joins "
        "it by a steam cock above and a water cock below, with a drain cock at its foot. The lower "
        "visible end of the glass lies above the water connection. No level is drawn in the glass."
    ))
