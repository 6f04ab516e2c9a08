"""A small ship on a level sea, heeled or trimmed as she lies."""

from math import cos, pi, sin

_SECTION = [(-0.46, 0.34), (-0.46, -0.20), (-0.36, -0.34), (0.36, -0.34), (0.46, -0.20),
            (0.46, 0.34), (0.20, 0.34), (0.20, 0.62), (-0.20, 0.62), (-0.20, 0.34)]
_PROFILE = [(-0.95, 0.22), (0.90, 0.16), (0.80, -0.22), (-0.72, -0.22), (-0.88, 0.0),
            (-0.95, 0.22), (-0.60, 0.22), (-0.60, 0.58), (-0.20, 0.58), (-0.20, 0.19)]


def draw_sea(canvas, x, y, reach, depth):
    """Draw the level sea: a line through the point about which the ship turns."""
    canvas.rect(x - reach, y, 2 * reach, depth, "water")
    canvas.line(x - reach, y, x + reach, y, "true")


def draw_ship(canvas, x, y, size, angle, lies):
    """Draw her turned by an angle [rad], positive where her left side on the sheet is low.

    An athwartships drum is seen from aft, so she shows her section and port is left; a
    fore-and-aft drum is seen from starboard with her stern at the left.
    """
    outline = _SECTION if lies == "athwartships" else _PROFILE
    canvas.polygon([_turned(x, y, size * px, size * py, angle) for px, py in outline], "paper",
                   "outline")
    drum = [(0.17 * cos(i * pi / 8), 0.07 * sin(i * pi / 8)) for i in range(16)]
    canvas.polygon([_turned(x, y, size * px, size * (py + 0.05), angle) for px, py in drum],
                   "metal", "outline")
    top, foot = (_turned(x, y, 0.0, size * height, angle) for height in (0.85, -0.30))
    canvas.line(*foot, *top, "thin")


def _turned(x, y, right, up, angle):
    """A point of the ship on the sheet; her left side goes down for a positive angle."""
    return (x + right * cos(angle) - up * sin(angle),
            y - right * sin(angle) - up * cos(angle))
