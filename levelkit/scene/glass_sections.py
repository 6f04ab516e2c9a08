"""Gauge glasses cut across and seen from above: what lies between the water and the eye."""

from ..physics.glass_choice import PLATE, REFLEX, TUBULAR
from .balloons import Balloon
from .parts import draw_eye

_X = 546  # line of sight
_EYE = 268


def draw_section(canvas, kind):
    """Draw the cut through the gauge of that name; return the balloons of its parts."""
    canvas.line(_X, 14, _X, _EYE - 14, "centre")
    balloons = {TUBULAR: _tubular, REFLEX: _reflex, PLATE: _plate}[kind](canvas)
    _eye(canvas)
    return balloons


def _eye(canvas):
    draw_eye(canvas, _X, _EYE)


def _lamp(canvas, x, y, to_x, to_y):
    """Draw a lamp and the light it throws."""
    canvas.circle(x, y, 11, "paper", "outline")
    canvas.line(x - 8, y - 8, x + 8, y + 8, "thin")
    canvas.line(x - 8, y + 8, x + 8, y - 8, "thin")
    for aside in (-9, 9):
        length = ((to_x - x) ** 2 + (to_y - y) ** 2) ** 0.5
        ux, uy = (to_x - x) / length, (to_y - y) / length
        canvas.arrow(x + 15 * ux - aside * uy * 0.6, y + 15 * uy + aside * ux * 0.6,
                     to_x - aside * uy, to_y + aside * ux, "thin", 7)


def _bolt(canvas, x, top, bottom):
    canvas.rect(x - 3.5, top, 7, bottom - top, "paper", "outline")
    for y in (top, bottom):
        canvas.rect(x - 8, y - 4.5, 16, 9, "paper", "outline")


def _tubular(canvas):
    y = 136
    canvas.rect(_X - 96, 46, 192, 12, "metal", "outline")
    for step in range(13):  # edge of the striped face
        canvas.line(_X - 92 + 15 * step, 58, _X - 84 + 15 * step, 63, "outline")
    canvas.circle(_X, y, 44, "paper", "outline")
    canvas.circle(_X, y, 30, "glass water", "outline")
    for x, top, width, height in ((_X - 84, 92, 10, 112), (_X + 74, 92, 10, 112),
                                  (_X - 84, 204, 168, 10)):
        canvas.rect(x, top, width, height, "paper", "outline")
    _lamp(canvas, _X + 126, 122, _X + 70, 72)
    return [
        Balloon("guard", (_X - 79, 180), (410, 200)),
        Balloon("striped backing plate", (_X - 70, 60), (410, 80)),
        Balloon("lamp", (_X + 126, 122), (_X + 150, 170)),
    ]


def _reflex(canvas):
    canvas.polygon([(_X - 118, 40), (_X + 118, 40), (_X + 118, 142), (_X + 34, 142),
                    (_X + 34, 78), (_X - 34, 78), (_X - 34, 142), (_X - 118, 142)],
                   "metal", "outline")
    canvas.rect(_X - 34, 78, 68, 66, "glass water")
    grooves = [(_X - 30 + 10 * i, 150 - 10 * (i % 2)) for i in range(7)]
    canvas.polygon([(_X - 72, 150), *grooves, (_X + 72, 150), (_X + 72, 186), (_X - 72, 186)],
                   "paper", "outline")
    for side in (-1, 1):
        canvas.rect(_X + side * 53 - 19, 142, 38, 8, "fluid", "outline")
        canvas.rect(_X + side * 80 - 38, 186, 76, 18, "metal", "outline")
        _bolt(canvas, _X + side * 96, 30, 212)
    canvas.line(_X - 34, 78, _X - 34, 142)
    canvas.line(_X + 34, 78, _X + 34, 142)
    _lamp(canvas, _X - 58, 252, _X - 12, 196)
    return [
        Balloon("grooved glass", (_X + 6, 166), (_X + 150, 166)),
        Balloon("frame and chamber", (_X - 80, 70), (400, 70)),
        Balloon("gasket", (_X - 60, 146), (400, 132)),
        Balloon("cover and bolts", (_X + 96, 212), (_X + 150, 222)),
        Balloon("front light", (_X - 66, 252), (410, 252)),
    ]


def _plate(canvas):
    top, bottom = 128, 166  # of the centre piece
    for side, edge in ((-1, top), (1, bottom)):
        gasket = edge if side > 0 else edge - 5
        mica = edge + 5 if side > 0 else edge - 9
        glass = edge + 9 if side > 0 else edge - 31
        clamp = edge + 31 if side > 0 else edge - 45
        for flank in (-1, 1):
            canvas.rect(_X + flank * 56 - 22, gasket, 44, 5, "fluid", "outline")
            canvas.rect(_X + flank * 78 - 44, clamp, 88, 14, "metal", "outline")
        canvas.rect(_X - 34, gasket, 68, 5, "glass water")
        canvas.rect(_X - 78, mica, 156, 4, "hidden", "outline")
        canvas.rect(_X - 78, glass, 156, 22, "paper", "outline")
    for flank in (-1, 1):
        canvas.rect(_X + flank * 78 - 44, top, 88, bottom - top, "metal", "outline")
        _bolt(canvas, _X + flank * 104, 78, 216)
    canvas.rect(_X - 34, top, 68, bottom - top, "glass water")
    for edge in (-34, 34):
        canvas.line(_X + edge, top - 5, _X + edge, bottom + 5)
    canvas.rect(_X - 38, 54, 76, 18, "paper", "thin")
    for step in range(7):  # slats that throw the light up
        canvas.line(_X - 34 + 10 * step, 70, _X - 26 + 10 * step, 56, "outline")
    _lamp(canvas, _X, 24, _X, 52)
    return [
        Balloon("centre piece", (_X - 84, 146), (396, 146)),
        Balloon("gaskets", (_X + 66, 168), (_X + 152, 196)),
        Balloon("mica sheets", (_X + 76, 121), (_X + 152, 152)),
        Balloon("glass plates", (_X + 60, 108), (_X + 152, 108)),
        Balloon("clamp plates and bolts", (_X - 104, 216), (396, 216)),
        Balloon("louvre or light slope", (_X - 36, 63), (420, 63)),
        Balloon("back light", (_X + 4, 24), (_X + 84, 24)),
    ]
