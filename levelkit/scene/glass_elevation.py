"""A gauge glass from the side: cocks, ball check, drain, plugs, and the glass between them."""

from ..physics.glass_choice import PLATE, REFLEX, TUBULAR
from .balloons import Balloon

LEFT, RIGHT, TOP, FOOT = 12, 352, 8, 392
_GLASS, _STEAM, _WATER = 226, 84, 296
_MIDDLE = (_STEAM + _WATER) / 2
_SHELL, _PIPE = 46, 7
_COCK_STEAM, _COCK_WATER, _BALL = 104, 96, 158
_DRAIN_COCK, _DRAIN_END = 352, 386
_CHAIN, _CHAIN_END = 72, 372
_WET = _MIDDLE + 6


def draw_elevation(canvas, kind):
    """Draw the gauge of that name from the side; return the balloons of its parts."""
    _draw_shell(canvas)
    _draw_remote_gear(canvas)
    _draw_pipes(canvas)
    {TUBULAR: _draw_tube, REFLEX: _draw_grooved, PLATE: _draw_plate}[kind](canvas)
    _draw_fittings(canvas)
    balloons = [
        Balloon("steam cock", (_COCK_STEAM, _STEAM - 12), (118, 26)),
        Balloon("water cock", (_COCK_WATER + 4, _WATER - 12), (128, 248)),
        Balloon("drain cock", (_GLASS + 12, _DRAIN_COCK), (290, 372)),
        Balloon("ball check", (_BALL, _WATER + 4), (158, 366)),
        Balloon("cleaning plugs", (_GLASS + 50, _STEAM), (314, 58)),
        Balloon("remote shut-off gear", (_CHAIN - 5, _CHAIN_END + 5), (30, 382)),
    ]
    return balloons + {TUBULAR: _tube_balloons, REFLEX: list, PLATE: list}[kind]()


def _draw_shell(canvas):
    canvas.rect(LEFT, TOP + 14, _SHELL - LEFT - 12, FOOT - TOP - 60, "steam")
    canvas.rect(LEFT, _WET - 6, _SHELL - LEFT - 12, FOOT - 40 - _WET, "water")
    canvas.rect(_SHELL - 12, TOP + 6, 12, FOOT - TOP - 44, "metal", "outline")


def _draw_remote_gear(canvas):
    """Draw the chain from both cock levers down to where a man can stand."""
    for x, y in ((_COCK_STEAM, _STEAM), (_COCK_WATER, _WATER)):
        canvas.line(x, y + 44, _CHAIN, y + 44, "outline")
    for y in range(_STEAM + 48, _CHAIN_END, 7):
        canvas.circle(_CHAIN, y, 2.4, None, "thin")
    canvas.circle(_CHAIN, _CHAIN_END + 5, 6, None, "outline")


def _draw_pipes(canvas):
    for y in (_STEAM, _WATER):
        canvas.rect(_SHELL, y - _PIPE, _GLASS - 22 - _SHELL, 2 * _PIPE,
                    "steam" if y == _STEAM else "water", "outline")
    # the water way runs up behind the ball: a rush carries the ball to the seat
    canvas.rect(_BALL - 17, _WATER - 15, 34, 32, "water", "outline")
    canvas.line(_BALL + 13, _WATER - 15, _BALL + 17, _WATER - 5)
    canvas.line(_BALL + 13, _WATER + 17, _BALL + 17, _WATER + 5)
    canvas.circle(_BALL - 4, _WATER + 9, 7, "metal", "outline")
    for x, y in ((_COCK_STEAM, _STEAM), (_COCK_WATER, _WATER)):
        _plug_cock(canvas, x, y)


def _plug_cock(canvas, x, y):
    """Draw a plug cock whose lever hangs down: the working position."""
    canvas.rect(x - 17, y - 14, 34, 28, "metal", "outline")
    canvas.circle(x, y, 10, "paper", "outline")
    canvas.rect(x - 4, y, 8, 46, "paper", "outline")
    canvas.line(x - 10, y, x + 10, y, "thin")


def _draw_fittings(canvas):
    for y, out in ((_STEAM, -1), (_WATER, 1)):
        canvas.rect(_GLASS - 22, y - 17, 44, 34, "metal", "outline")
        canvas.rect(_GLASS + 22, y - 9, 12, 18, "metal", "outline")  # plug opposite the cock
        canvas.rect(_GLASS + 34, y - 13, 18, 26, "paper", "outline")
        canvas.line(_GLASS + 34, y - 4, _GLASS + 52, y - 4, "thin")
        canvas.line(_GLASS + 34, y + 4, _GLASS + 52, y + 4, "thin")
        if out < 0:
            canvas.rect(_GLASS - 11, y - 31, 22, 14, "paper", "outline")
            canvas.line(_GLASS - 4, y - 31, _GLASS - 4, y - 17, "thin")
            canvas.line(_GLASS + 4, y - 31, _GLASS + 4, y - 17, "thin")
    canvas.rect(_GLASS - 6, _WATER + 17, 12, _DRAIN_END - _WATER - 17, "paper", "outline")
    canvas.rect(_GLASS - 13, _DRAIN_COCK - 13, 26, 26, "metal", "outline")
    canvas.circle(_GLASS, _DRAIN_COCK, 9, "paper", "outline")
    canvas.rect(_GLASS - 3.5, _DRAIN_COCK, 7, 30, "paper", "outline")


def _fluids(canvas, half, top, bottom):
    canvas.rect(_GLASS - half, top, 2 * half, bottom - top, "steam", "outline")
    canvas.rect(_GLASS - half, _WET, 2 * half, bottom - _WET, "glass water", "outline")


def _draw_tube(canvas):
    top, bottom = _STEAM + 17, _WATER - 17
    canvas.rect(_GLASS - 30, top + 26, 60, bottom - top - 52, "paper", "thin")
    for step in range(8):  # the striped plate behind the tube
        y = top + 44 + 15 * step
        canvas.line(_GLASS - 30, y, _GLASS + 30, y - 15, "thin")
    _fluids(canvas, 8, top, bottom)
    for edge in (-11, 11):
        canvas.line(_GLASS + edge, top, _GLASS + edge, bottom, "outline")
    for y in (top, bottom - 20):  # gland nuts over their packing
        canvas.rect(_GLASS - 19, y, 38, 20, "metal", "outline")
        for side in (-1, 1):
            canvas.rect(_GLASS + side * 14.5 - 3.5, y + 3, 7, 14, "fluid")
    canvas.rect(_GLASS - 42, top + 22, 6, bottom - top - 44, "paper", "outline")
    canvas.rect(_GLASS + 36, top + 22, 6, bottom - top - 44, "paper", "outline")


def _draw_block(canvas, half):
    top, bottom = _STEAM + 17, _WATER - 17
    canvas.rect(_GLASS - half, top + 12, 2 * half, bottom - top - 24, "metal", "outline")
    for y in (top, bottom - 12):
        canvas.rect(_GLASS - 12, y, 24, 12, "metal", "outline")
    _fluids(canvas, 12, top + 30, bottom - 30)
    for step in range(5):
        for side in (-1, 1):
            y = top + 30 + step * (bottom - top - 60) / 4
            canvas.circle(_GLASS + side * (half - 8), y, 5, "paper", "outline")


def _draw_grooved(canvas):
    _draw_block(canvas, 34)
    for x in (-8, -4, 0, 4, 8):
        canvas.line(_GLASS + x, _STEAM + 47, _GLASS + x, _WATER - 47, "thin")


def _draw_plate(canvas):
    _draw_block(canvas, 38)


def _tube_balloons():
    return [Balloon("packing and gland nuts", (_GLASS + 15, _STEAM + 28), (314, 118)),
            Balloon("glass tube", (_GLASS - 10, _MIDDLE + 30), (158, _MIDDLE + 8))]
