"""Line drawings of a lying drum: cut across, and seen from the end that rolls with the ship."""

from math import sqrt

from ..parts import level_line
from .sheet import Sheet

_X, _Y, _RADIUS, _WALL = 200, 150, 100, 9


def draw_drum_section(labelled):
    """Return a drum cut across, its normal level on the centre line."""
    sheet = Sheet(300, labelled)
    sheet.rect(_X - 8, 14, 16, _Y - _RADIUS - 10, "paper", "outline")
    sheet.circle(_X, _Y, _RADIUS + _WALL, "metal")
    sheet.circle(_X, _Y, _RADIUS, "steam")
    arc = [(_X - _RADIUS + _RADIUS * i / 20, 0.0) for i in range(41)]
    sheet.polygon([(x, _Y + sqrt(max(_RADIUS ** 2 - (x - _X) ** 2, 0.0))) for x, _ in arc],
                  "water", "outline")
    level_line(sheet, _X - _RADIUS, _X + _RADIUS - 10, _Y, "true")
    sheet.line(_X, _Y - _RADIUS - 24, _X, _Y + _RADIUS + 24, "centre")
    sheet.line(_X - _RADIUS - 26, _Y, _X + _RADIUS + 170, _Y, "centre")
    sheet.arrow(_X, 44, _X, 18, "true", 9)
    sheet.text(_X + 16, 26, "steam", scale=0.85)
    sheet.pipe([(_X - _RADIUS - 84, _Y + 40), (_X - _RADIUS + 30, _Y + 40)])
    sheet.arrow(_X - _RADIUS - 78, _Y + 40, _X - _RADIUS - 40, _Y + 40, "true", 9)
    sheet.text(_X - _RADIUS - 84, _Y + 66, "feed", scale=0.85)
    sheet.text(_X + _RADIUS + 22, _Y - 7, "normal level", scale=0.85)
    for y in (_Y - _RADIUS, _Y + _RADIUS):
        sheet.line(_X, y, _X + _RADIUS + 150, y, "thin")
    sheet.height_of(_X + _RADIUS + 140, _Y + _RADIUS, _Y - _RADIUS, "D", "right")
    sheet.symbol(_X + 26, _Y - 40, "ρ_g")
    sheet.symbol(_X + 26, _Y + 56, "ρ_f")
    return sheet.drawing("Drum, cut across", (
        "A lying drum of inside diameter D, water up to its centre line, steam above; feed enters "
        "below the level and steam leaves at the top."))


def draw_inclined_drum(labelled):
    """Return a drum athwartships with a glass at each end, drawn upright; no level is drawn."""
    sheet = Sheet(290, labelled)
    left, right, top, foot, middle = 96, 464, 60, 176, 280
    sheet.rect(left - 9, top - 9, right - left + 18, foot - top + 18, "metal", "outline")
    sheet.rect(left, top, right - left, foot - top, "paper", "outline")
    for x, out in ((left - 9, -1), (right + 9, 1)):
        glass = x + out * 34
        for y in (top + 18, foot - 18):
            sheet.rect(min(x, glass), y - 4, 34, 8, "paper", "outline")
        sheet.rect(glass - 8, top + 10, 16, foot - top - 20, "paper", "outline")
        sheet.line(glass, foot - 6, glass, 222, "thin")
    sheet.line(middle, 20, middle, 272, "centre")
    port, starboard = left - 43, right + 43
    sheet.arrow(middle, 214, port, 214)
    sheet.arrow(middle, 214, starboard, 214)
    sheet.symbol(middle + 12, 206, "L")
    sheet.text(port - 20, 34, "port", scale=0.85)
    sheet.text(starboard + 20, 34, "starboard", "end", 0.85)
    sheet.text(middle + 8, 34, "mid-drum", scale=0.85)
    sheet.text(middle, (top + foot) / 2 + 24, "level not drawn", "middle", 0.85)
    sheet.circle(middle, 262, 5, "paper")
    sheet.text(middle + 14, 267, "roll axis of the ship", scale=0.85)
    return sheet.drawing("Drum athwartships with two end glasses", (
        "A lying drum seen along the ship, a gauge glass at its port and its starboard end, L "
        "apart, mid-drum half-way between; the roll axis of the ship lies below. No level is "
        "drawn."))
