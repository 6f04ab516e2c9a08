"""Line drawing of a two-wire current loop: supply, transmitter, load."""

from .sheet import Sheet

_LEFT, _RIGHT, _TOP, _FOOT = 110, 430, 50, 190


def draw_current_loop(labelled):
    """Return the drawing of the loop with its symbols."""
    sheet = Sheet(240, labelled)
    sheet.polyline([(_LEFT, _TOP), (_RIGHT, _TOP), (_RIGHT, _FOOT), (_LEFT, _FOOT),
                    (_LEFT, _TOP)])
    middle = (_TOP + _FOOT) / 2
    sheet.rect(_LEFT - 24, middle - 12, 48, 24, "paper")
    for y, half in ((middle - 12, 24), (middle - 4, 12), (middle + 4, 24), (middle + 12, 12)):
        sheet.line(_LEFT - half, y, _LEFT + half, y, "outline")
    centre = (_LEFT + _RIGHT) / 2
    sheet.rect(centre - 46, _TOP - 22, 92, 44, "paper", "outline")
    sheet.rect(_RIGHT - 10, middle - 32, 20, 64, "paper", "outline")
    sheet.arrow(_LEFT + 70, _FOOT, _LEFT + 40, _FOOT, "true", 9)
    sheet.symbol(_LEFT + 52, _FOOT + 22, "I", "middle")
    sheet.text(centre, _TOP + 5, "transmitter", "middle", 0.85)
    sheet.text(_LEFT - 32, middle - 4, "supply", "end", 0.85)
    sheet.symbol(_LEFT - 32, middle + 16, "V", "end")
    sheet.text(_RIGHT + 18, middle - 4, "load and", scale=0.85)
    sheet.text(_RIGHT + 18, middle + 14, "cable", scale=0.85)
    return sheet.drawing("Two-wire current loop", (
        "A supply, a two-wire transmitter and the load with its cable stand in series; one current "
        "flows round the loop."))
