"""Line drawing of a drum with its differential-pressure transmitter."""

from .legs import DRUM_LEG, REFERENCE_LEG, WORDS, draw_legs
from .sheet import Sheet

_CAPSULE, _FOOT = 300, 336


def draw_transmitter(labelled):
    """Return the drawing; which port is the high-pressure one is said in the question."""
    sheet = Sheet(370, labelled)
    draw_legs(sheet, _CAPSULE, "ρ_r")
    left, right = DRUM_LEG - 18, REFERENCE_LEG + 18
    middle = (left + right) / 2
    sheet.rect(left, _CAPSULE, right - left, _FOOT - _CAPSULE, "paper", "outline")
    sheet.rect(middle - 4, _CAPSULE, 8, _FOOT - _CAPSULE, "metal", "outline")
    sheet.rect(middle - 5, _FOOT, 10, 14, "paper", "outline")
    sheet.text(middle, _FOOT + 29, "signal", "middle", 0.85)
    sheet.text(right + 10, (_CAPSULE + _FOOT) / 2 + 5, "differential-pressure transmitter",
               scale=0.85)
    sheet.text(left - 8, 290, "drum-side leg", "end", 0.85)
    return sheet.drawing("Drum and transmitter", WORDS + (
        "Both end at the two sides of a differential-pressure transmitter's sensing capsule."))
