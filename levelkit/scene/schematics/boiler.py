"""Line drawing of a drum with three witnesses: gauge glass, two-fluid indicator, transmitter."""

from ..parts import cock
from .drum import DATUM
from .legs import DRUM_LEG, REFERENCE_LEG, WORDS, draw_legs
from .sheet import Sheet

_SPLIT, _FOOT, _REMOTE = 286, 336, 430


def draw_boiler(labelled):
    """Return the drawing; what each of the three shows is said in the question."""
    sheet = Sheet(388, labelled)
    draw_legs(sheet, _FOOT, "ρ_r")
    sheet.pipe([(DRUM_LEG, _SPLIT), (_REMOTE - 14, _SPLIT), (_REMOTE - 14, _FOOT - 10)])
    sheet.pipe([(REFERENCE_LEG, _SPLIT - 20), (_REMOTE + 14, _SPLIT - 20),
                (_REMOTE + 14, _FOOT - 10)])
    left, right = DRUM_LEG - 18, REFERENCE_LEG + 18
    sheet.rect(left, _FOOT, right - left, 28, "paper", "outline")
    sheet.rect((left + right) / 2 - 4, _FOOT, 8, 28, "metal", "outline")
    sheet.text(left - 8, _FOOT + 19, "transmitter", "end", 0.85)
    sheet.polyline([(_REMOTE - 22, _FOOT - 10), (_REMOTE - 22, _FOOT + 28),
                    (_REMOTE + 22, _FOOT + 28), (_REMOTE + 22, _FOOT - 10)])
    sheet.polyline([(_REMOTE - 6, _FOOT - 10), (_REMOTE - 6, _FOOT + 14),
                    (_REMOTE + 6, _FOOT + 14), (_REMOTE + 6, _FOOT - 10)])
    sheet.rect(_REMOTE - 21, _FOOT + 15, 42, 12, "fluid")
    sheet.text(_REMOTE - 16, _FOOT + 42, "two-fluid indicator", "middle", 0.85)
    _draw_glass(sheet)
    return sheet.drawing("Drum with three indicators", WORDS + (
        "A gauge glass stands beside the drum; a two-fluid indicator and a transmitter hang on the "
        "same two legs. None of the three readings is drawn."))


def _draw_glass(sheet):
    """Draw the glass in front of the drum's end, where it hides no leg."""
    x, top = 76, 84
    sheet.rect(x - 9, top, 18, DATUM - top + 12, "paper", "outline")
    for y in (top, DATUM):
        sheet.rect(x - 14, y - 7, 28, 16, "metal", "outline")
    cock(sheet, x, DATUM + 24, size=9, vertical=True)
    sheet.text(x - 44, 278, "gauge glass", scale=0.85)
