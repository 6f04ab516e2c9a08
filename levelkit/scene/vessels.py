"""Drawing of two vessels joined at their feet: levels, their difference, and why they differ."""

from dataclasses import dataclass
from math import pi, sqrt

from ..physics.vessels import Vessel
from .canvas import Canvas
from .parts import cock, dimension, number_block

HEIGHT = 332
VESSEL_HEIGHT = 0.6
"""Inside height of both vessels [m]."""
_TOP, _FEET, _PIPE, _WALL = 38, 266, 14, 5
_CENTRES = (215, 580)
_MIDDLE = sum(_CENTRES) / 2
_BLOCK, _BLOCK_WIDTH = 784, 304
_PER_METRE = (_FEET - _TOP) / VESSEL_HEIGHT
_DENSEST_FIRST = ((1010.0, "brine"), (985.0, "water"), (900.0, "hot water"), (0.0, "light fluid"))


@dataclass(frozen=True, slots=True)
class VesselView:
    """One vessel as it stands.

    Attributes
    ----------
    name : str
        One letter.
    vessel : Vessel [m2, m, kg/m3]
        Its fluids as they stand now.
    filled : float [m]
        Level before the valve was opened.
    lines : tuple of str
        What is written under it: the fluid and its density.
    above : str
        The pressure above it, as a text.
    """

    name: str
    vessel: Vessel
    filled: float
    lines: tuple
    above: str


@dataclass(frozen=True, slots=True)
class VesselsView:
    """What moves in the picture.

    Attributes
    ----------
    pair : tuple of VesselView
        The two vessels, left and right.
    is_open : bool
        The valve between the feet.
    steam_above : bool
        Steam above the fluids, or air.
    rows : tuple of (str, str)
        Names and numbers of the block, already with units.
    conditions : tuple of (str, bool)
        The three conditions for equal levels, and whether each holds.
    broken : tuple of str
        A sentence for each broken condition.
    show_truth : bool
        False covers what stands in the vessels.
    """

    pair: tuple
    is_open: bool
    steam_above: bool
    rows: tuple
    conditions: tuple
    broken: tuple
    show_truth: bool = True


def draw_vessels(view, look):
    """Return the picture of two vessels joined at their feet and the same in words.

    Parameters
    ----------
    view : VesselsView [m]
        What moves.
    look : Look
        Screen, projector or print.

    Returns
    -------
    Drawing
        SVG text, words, and the boxes of the lettering.
    """
    canvas = Canvas(look, HEIGHT)
    fills = _fillings(view.pair)
    for x, part in zip(_CENTRES, view.pair, strict=True):
        _draw_vessel(canvas, x, part, view, fills)
    _draw_pipe(canvas, view, fills)
    if view.show_truth:
        _draw_levels(canvas, view)
        _draw_difference(canvas, view)
    below = number_block(canvas, _BLOCK, 8, _BLOCK_WIDTH,
                         [(name, value, "outline") for name, value in view.rows])
    below = number_block(canvas, _BLOCK, below + 8, _BLOCK_WIDTH,
                         _checklist(view), "Equal levels need")
    _draw_verdict(canvas, view, below)
    return canvas.drawing("Two vessels joined at their feet", describe_vessels(view))


def _to_y(height):
    return _FEET - height * _PER_METRE


def _half(part):
    """Half the bore in the scale of the heights."""
    return sqrt(part.vessel.bore_area / pi) * _PER_METRE


def _fillings(pair):
    """A filling for every density: closer marks for a denser fluid, never the same for two."""
    densities = sorted({layer.density for part in pair for layer in part.vessel.layers},
                       reverse=True)
    names = [name for _, name in _DENSEST_FIRST]
    fills, lowest = {}, 0
    for index, density in enumerate(densities):
        wanted = next(i for i, (floor, _) in enumerate(_DENSEST_FIRST) if density >= floor)
        left = len(densities) - index - 1
        place = min(max(wanted, lowest), len(names) - 1 - left)
        fills[density], lowest = names[place], place + 1
    return fills


def _draw_vessel(canvas, x, part, view, fills):
    half, top = _half(part), _TOP
    canvas.rect(x - half - _WALL, top - _WALL, 2 * (half + _WALL), _FEET - top + 2 * _WALL,
                "metal", "outline")
    canvas.rect(x - 3, top - _WALL - 7, 6, _WALL + 9, "paper", "outline")
    if view.show_truth:
        canvas.rect(x - half, top, 2 * half, _FEET - top, "steam" if view.steam_above else "air",
                    "outline")
        foot = _FEET
        for layer in part.vessel.layers:
            height = layer.height * _PER_METRE
            canvas.rect(x - half, foot - height, 2 * half, height, fills[layer.density], "outline")
            foot -= height
        y = _to_y(part.filled)
        if view.is_open and abs(part.filled - part.vessel.level) > 5e-5:
            canvas.line(x - half - _WALL - 7, y, x + half + _WALL + 7, y, "limit")
    else:
        canvas.rect(x - half, top, 2 * half, _FEET - top, "hidden", "outline")
    font = canvas.look.font
    canvas.text(x - half - _WALL - 8, top + 0.5 * font, part.name, "end", 1.2, bold=True)
    canvas.text(x + 10, top - _WALL - 8, part.above)
    for index, line in enumerate(part.lines):
        canvas.text(x, _FEET + _WALL + (1.15 + 1.2 * index) * font, line, "middle")


def _draw_pipe(canvas, view, fills):
    """Draw the connecting pipe with its cock, filled with whatever stands at its two ends."""
    left, right = (x + sign * _half(part)
                   for x, part, sign in zip(_CENTRES, view.pair, (1, -1), strict=True))
    y = _FEET - _PIPE
    canvas.rect(left, y - 3, right - left, _PIPE + 6, "metal", "outline")
    for start, end, part in ((left, _MIDDLE, view.pair[0]), (_MIDDLE, right, view.pair[1])):
        fill = fills[part.vessel.layers[0].density] if view.show_truth else "hidden"
        canvas.rect(start, y, end - start, _PIPE, fill)
    for edge in (y, _FEET):
        canvas.line(left, edge, right, edge)
    cock(canvas, _MIDDLE, y + _PIPE / 2, view.is_open, size=13)
    canvas.text(_MIDDLE, _FEET + _WALL + 2.35 * canvas.look.font,
                "valve open" if view.is_open else "valve SHUT", "middle", bold=not view.is_open)


def _draw_levels(canvas, view):
    """Give each level its line across the vessel and its dimension from the foot, outside."""
    for x, part, sign, side in zip(_CENTRES, view.pair, (-1, 1), ("left", "right"), strict=True):
        half, y = _half(part), _to_y(part.vessel.level)
        canvas.line(x - half, y, x + half, y, "true")
        outer, reach = x + sign * (half + _WALL), x + sign * (half + _WALL + 22)
        for height in (y, _FEET):
            canvas.line(outer, height, reach + sign * 5, height, "thin")
        dimension(canvas, reach, y, _FEET, _millimetres(part.vessel.level), side)


def _draw_difference(canvas, view):
    a, b = view.pair
    y_a, y_b = (_to_y(part.vessel.level) for part in view.pair)
    x = _MIDDLE - 40
    canvas.line(_CENTRES[0] + _half(a) + _WALL, y_a, x + 6, y_a, "true-thin")
    canvas.line(_CENTRES[1] - _half(b) - _WALL, y_b, x - 6, y_b, "true-thin")
    if abs(_difference(view)) >= 5e-5:
        dimension(canvas, x, y_a, y_b, _millimetres(abs(_difference(view))), "right")


def _checklist(view):
    if not view.show_truth:
        return [(name, "?", "outline") for name, _ in view.conditions]
    return [(name, "yes" if holds else "NO", "outline" if holds else "error")
            for name, holds in view.conditions]


def _draw_verdict(canvas, view, below):
    """Say in large letters which vessel stands higher, and by how much."""
    if not view.show_truth:
        lines = ("levels hidden",)
    elif abs(_difference(view)) < 5e-5:
        lines = ("levels are equal",)
    else:
        lines = (f"{view.pair[_difference(view) < 0].name} is HIGHER by",
                 _millimetres(abs(_difference(view))))
    for index, line in enumerate(lines):
        canvas.text(_BLOCK + _BLOCK_WIDTH / 2, below + (1.75 + 1.6 * index) * canvas.look.font,
                    line, "middle", 1.4, bold=True, pen="error")


def _difference(view):
    a, b = view.pair
    return a.vessel.level - b.vessel.level


def _millimetres(height):
    return f"{1000 * height:.1f} mm"


def describe_vessels(view):
    """Return what the picture shows, in a sentence or two."""
    valve = "The valve is open." if view.is_open else "The valve is shut."
    if not view.show_truth:
        return f"{valve} What stands in the vessels is hidden."
    a, b = view.pair
    levels = (f"{a.name} stands at {_millimetres(a.vessel.level)}, "
              f"{b.name} at {_millimetres(b.vessel.level)}")
    difference = _difference(view)
    if abs(difference) < 5e-5:
        verdict = "the levels are equal."
    else:
        verdict = (f"{view.pair[difference < 0].name} is {_millimetres(abs(difference))} HIGHER.")
    return " ".join((f"{levels}: {verdict}", *view.broken))
