"""Line drawing of a drum with its two-fluid U-tube indicator, surfaces left open."""

from .legs import DRUM_LEG, REFERENCE_LEG, WORDS, draw_legs
from .sheet import Sheet

_LIMB_TOP, _BEND, _FOOT, _FLUID = 268, 372, 390, 346
_HALF = 9


def draw_two_fluid(labelled):
    """Return the drawing; the fluid stands in the bend only, its surfaces are asked for."""
    sheet = Sheet(410, labelled)
    draw_legs(sheet, _LIMB_TOP, "ρ_w")
    left, right = DRUM_LEG - _HALF, REFERENCE_LEG + _HALF
    for x in (DRUM_LEG, REFERENCE_LEG):
        sheet.rect(x - _HALF, _LIMB_TOP, 2 * _HALF, _BEND - _LIMB_TOP, "paper")
        sheet.rect(x - _HALF, _FLUID, 2 * _HALF, _BEND - _FLUID, "fluid")
    sheet.rect(left, _BEND, right - left, _FOOT - _BEND, "fluid")
    sheet.polyline([(left, _LIMB_TOP), (left, _FOOT), (right, _FOOT), (right, _LIMB_TOP)])
    sheet.polyline([(left + 2 * _HALF, _LIMB_TOP), (left + 2 * _HALF, _BEND),
                    (right - 2 * _HALF, _BEND), (right - 2 * _HALF, _LIMB_TOP)])
    for x in (DRUM_LEG, REFERENCE_LEG):
        for side in (-_HALF, _HALF):
            sheet.line(x + side, _LIMB_TOP, x + side / 1.8, _LIMB_TOP)
    sheet.symbol(right + 8, _FOOT - 2, "ρ_m")
    sheet.text(right + 36, _FOOT - 2, "indicating fluid,", scale=0.85)
    sheet.text(right + 36, _FOOT + 14, "surfaces not drawn", scale=0.85)
    sheet.text(left - 8, 300, "drum-side limb", "end", 0.85)
    sheet.text(right + 8, 300, "constant-head limb", scale=0.85)
    return sheet.drawing("Drum and two-fluid indicator", WORDS + (
        "Both end in a U-tube with the indicating fluid in its bend; its surfaces are not drawn."))
