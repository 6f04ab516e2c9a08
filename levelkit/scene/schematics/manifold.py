"""Line drawing of a five-valve manifold between the two legs and a transmitter."""

from ..parts import cock
from .sheet import Sheet

_DRUM, _REFERENCE, _TOP, _CAPSULE = 190, 370, 24, 206
_ISOLATOR, _EQUALISER, _DRAIN = 66, 116, 160


def draw_manifold(labelled):
    """Return the drawing: two isolators, equaliser, two drains, all drawn open."""
    sheet = Sheet(276, labelled)
    sheet.pipe([(_DRUM, _EQUALISER), (_REFERENCE, _EQUALISER)])
    for x, out in ((_DRUM, _DRUM - 80), (_REFERENCE, _REFERENCE + 80)):
        sheet.pipe([(x, _DRAIN), (out, _DRAIN)])
    for x in (_DRUM, _REFERENCE):
        sheet.pipe([(x, _TOP), (x, _CAPSULE)])
        cock(sheet, x, _ISOLATOR, size=11, vertical=True)
    middle = (_DRUM + _REFERENCE) / 2
    cock(sheet, middle, _EQUALISER, size=11)
    for x in (_DRUM - 45, _REFERENCE + 45):
        cock(sheet, x, _DRAIN, size=11)
    sheet.rect(_DRUM - 20, _CAPSULE, _REFERENCE - _DRUM + 40, 40, "paper", "outline")
    sheet.rect(middle - 5, _CAPSULE, 10, 40, "metal", "outline")
    sheet.text(_DRUM - 14, _TOP + 8, "drum-side leg", "end", 0.85)
    sheet.text(_REFERENCE + 14, _TOP + 8, "reference leg", scale=0.85)
    sheet.text(_DRUM - 18, _ISOLATOR + 5, "isolator", "end", 0.85)
    sheet.text(_REFERENCE + 18, _ISOLATOR + 5, "isolator", scale=0.85)
    sheet.text(middle, _EQUALISER - 18, "equaliser", "middle", 0.85)
    sheet.text(_DRUM - 45, _DRAIN + 28, "drain", "middle", 0.85)
    sheet.text(_REFERENCE + 45, _DRAIN + 28, "drain", "middle", 0.85)
    sheet.text(middle, _CAPSULE + 58, "differential-pressure transmitter", "middle", 0.85)
    return sheet.drawing("Five-valve manifold", (
        "Drum-side leg and reference leg come down through an isolator each to the two sides of a "
        "differential-pressure transmitter. An equaliser joins them; each side has a drain."))
