"""Line drawing of two vessels joined at their feet, the right-hand one not yet filled in."""

from ..parts import cock
from .sheet import Sheet

_TOP, _FOOT, _HALF = 30, 220, 52
_LEFT, _RIGHT = 150, 400
_INTERFACE, _SURFACE = 150, 70


def draw_vessels(labelled):
    """Return the drawing: two liquids in the left vessel, water in the right one."""
    sheet = Sheet(262, labelled)
    for x in (_LEFT, _RIGHT):
        sheet.rect(x - _HALF - 5, _TOP - 5, 2 * _HALF + 10, _FOOT - _TOP + 10, "metal", "outline")
        sheet.rect(x - _HALF, _TOP - 5, 2 * _HALF, _FOOT - _TOP + 5, "paper", "outline")
    sheet.rect(_LEFT + _HALF, _FOOT - 16, _RIGHT - _LEFT - 2 * _HALF, 16, "water", "outline")
    cock(sheet, (_LEFT + _RIGHT) / 2, _FOOT - 8, size=12)
    sheet.rect(_LEFT - _HALF, _SURFACE, 2 * _HALF, _INTERFACE - _SURFACE, "light fluid", "outline")
    sheet.rect(_LEFT - _HALF, _INTERFACE, 2 * _HALF, _FOOT - _INTERFACE, "water", "outline")
    sheet.rect(_RIGHT - _HALF, _FOOT - 24, 2 * _HALF, 24, "water")
    for x in (_RIGHT - _HALF, _RIGHT + _HALF):
        sheet.line(x, _FOOT - 24, x, _FOOT)
    sheet.line(_RIGHT - _HALF, _FOOT, _RIGHT + _HALF, _FOOT)
    out = _LEFT - _HALF - 26
    for y in (_SURFACE, _INTERFACE, _FOOT):
        sheet.line(out - 6, y, _LEFT - _HALF - 6, y, "thin")
    sheet.height_of(out, _INTERFACE, _SURFACE, "b")
    sheet.height_of(out, _FOOT, _INTERFACE, "a")
    sheet.symbol(_LEFT - 12, (_SURFACE + _INTERFACE) / 2 + 5, "ρ_o")
    sheet.symbol(_LEFT - 12, (_FOOT + _INTERFACE) / 2 + 5, "ρ_w")
    sheet.text(_RIGHT, 120, "level not", "middle", 0.85)
    sheet.text(_RIGHT, 138, "drawn", "middle", 0.85)
    sheet.datum(_RIGHT + _HALF + 8, _RIGHT + _HALF + 40, _FOOT, "feet")
    return sheet.drawing("Two vessels joined at their feet", (
        "The left vessel holds a lighter liquid, b high, over water, a high. A pipe with a valve "
        "joins it to the right vessel, whose level is not drawn. Heights count from the feet."))
