"""Drum, constant-head chamber and the two legs: the upper half of a remote indicator's picture.

The legs leave the sheet at its foot with the tags 1 (reference leg) and 2 (drum-side leg);
whatever hangs on them begins with the same tags.
"""

from dataclasses import dataclass
from functools import lru_cache
from math import sqrt

from ..units import format_number
from .canvas import Canvas
from .parts import break_line, error_bracket, level_line, side_labels
from .water_legs import LegFills, LegPlaces, draw_water_legs, leg_tag, pipe_break

TOP, BOTTOM, LEFT = 10, 340, 18
_WALL, _DEEPEST_INSET = 130, 44
_DRUM_LEG, _REFERENCE_LEG = 174, 234
_LINES_END, _LABELS = 274, 300
_BREAK = 28


@dataclass(frozen=True, slots=True)
class DrumAndLegs:
    """What stands still, heights above the lower connection.

    Attributes
    ----------
    name : str
        Name of the boiler.
    inside_diameter : float [m]
        Of the drum.
    centre_height : float [m]
        Centre line of the drum.
    topmost_tube : float [m]
        Topmost heated tube.
    weir_height : float [m]
        Weir of the constant-head chamber.
    low_alarm : float [m]
        Low alarm level.
    """

    name: str
    inside_diameter: float
    centre_height: float
    topmost_tube: float
    weir_height: float
    low_alarm: float


@dataclass(frozen=True, slots=True)
class LegsView:
    """What moves in this half of the picture.

    Attributes
    ----------
    level : float [m]
        True level.
    indicated : float [m]
        Level that the instrument shows, beyond the ends of its scale too.
    shows : str
        The same as a short text.
    legs : LegsState [m]
        Chamber and legs, with what stands in them.
    steaming : bool
        Steam above the water, or air.
    show_truth : bool
        False draws a cover over the drum.
    """

    level: float
    indicated: float
    shows: str
    legs: object
    steaming: bool = True
    show_truth: bool = True


def _frame(still):
    """Lowest and highest height shown, and the scale in units per metre."""
    low, high = min(still.topmost_tube, 0.0) - 0.10, still.weir_height + 0.085
    return low, high, (BOTTOM - TOP) / (high - low)


def _to_y(still):
    low, _, per_metre = _frame(still)
    return lambda height: BOTTOM - (height - low) * per_metre


def _edge(still, height):
    """Inside of the drum wall; the sheet is too narrow for its true curve, so it is flattened."""
    _, _, per_metre = _frame(still)
    radius = still.inside_diameter / 2

    def inset(z):
        return (radius - sqrt(max(radius ** 2 - (z - still.centre_height) ** 2, 0.0))) * per_metre

    most = max(inset(still.weir_height), inset(0.0), 1.0)
    return _WALL - inset(height) * min(1.0, _DEEPEST_INSET / most)


@lru_cache(maxsize=32)
def _outline(still, points=40):
    low, high, _ = _frame(still)
    radius, to_y = still.inside_diameter / 2, _to_y(still)
    low = max(low, still.centre_height - radius)
    high = min(high, still.centre_height + radius)
    heights = [low + (high - low) * i / points for i in range(points + 1)]
    right = [(max(_edge(still, z), LEFT + 1), to_y(z)) for z in heights]
    return [(LEFT, right[0][1]), *right, (LEFT, right[-1][1])], right


@lru_cache(maxsize=32)
def _still_part(still, look):
    """Wall, tubes and pipes, drawn once."""
    canvas, to_y = Canvas(look, BOTTOM), _to_y(still)
    _, right = _outline(still)
    canvas.polygon(right + [(x + 10, y) for x, y in right[::-1]], "metal", "outline")
    break_line(canvas, LEFT, TOP, BOTTOM)
    for row in range(3):
        y = to_y(still.topmost_tube) + 9 + 19 * row
        room = int(_edge(still, still.topmost_tube - 0.045 * (row + 1))) - 12
        for x in range(LEFT + 20 + 17 * (row % 2), room, 34):
            if y < BOTTOM - 6:
                canvas.circle(x, y, 8, "paper", "thin")
    return canvas.fragment()


def draw_drum_and_legs(canvas, still, view):
    """Draw this half on a canvas."""
    to_y = _to_y(still)
    outline, _ = _outline(still)
    canvas.clip("drum", outline)
    y_true = to_y(view.level)
    space = "steam" if view.steaming else "air"
    if view.show_truth:
        canvas.clipped_rect("drum", 0, 0, _WALL + 20, y_true, space)
        canvas.clipped_rect("drum", 0, y_true, _WALL + 20, BOTTOM - y_true, "water")
    else:
        canvas.clipped_rect("drum", 0, 0, _WALL + 20, BOTTOM, "hidden")
    labels = _draw_lines(canvas, still, view, to_y)
    canvas.stamp(_still_part(still, canvas.look))
    draw_water_legs(canvas, view.legs, _places(still, to_y), LegFills(space))
    if canvas.look.detail:
        canvas.text(_REFERENCE_LEG + 14, TOP - 1 + 0.35 * canvas.look.font,
                    "constant-head chamber", "end", 0.85)
    for tag, x in (("1", _REFERENCE_LEG), ("2", _DRUM_LEG)):
        pipe_break(canvas, x, BOTTOM - _BREAK)
        leg_tag(canvas, x, BOTTOM - 11, tag)
    _draw_words(canvas, still, view, to_y, space)
    side_labels(canvas, _LINES_END, _LABELS, labels, TOP + 4, BOTTOM - 4)


def _places(still, to_y):
    _, _, per_metre = _frame(still)
    return LegPlaces(_DRUM_LEG, _REFERENCE_LEG, _edge(still, still.weir_height) + 10,
                     _edge(still, 0.0) + 10, to_y(still.weir_height), to_y(0.0), BOTTOM - _BREAK,
                     per_metre)


def _draw_words(canvas, still, view, to_y, space):
    font, y_true = canvas.look.font, to_y(view.level)
    if not view.show_truth:
        middle = (LEFT + _WALL) / 2
        for index, word in enumerate(("true level", "hidden")):
            canvas.text(middle, (TOP + BOTTOM) / 2 + (index - 0.5) * 1.3 * font, word, "middle",
                        0.9, bold=True)
        return
    level_line(canvas, LEFT, _edge(still, view.level) - 9, y_true, "true")
    if y_true - TOP > 2.2 * font:
        canvas.text(LEFT + 8, (y_true + TOP) / 2 + 0.35 * font, space)
    if to_y(still.topmost_tube) - y_true > 2.2 * font:
        canvas.text(LEFT + 8, (y_true + to_y(still.topmost_tube)) / 2 + 0.35 * font, "water")


def _draw_lines(canvas, still, view, to_y):
    """Draw the lines that run from the drum to the labels; return the labels."""
    low, high, _ = _frame(still)
    labels = [(to_y(still.topmost_tube), "topmost tube", "thin", False)]
    canvas.line(_WALL, labels[0][0], _LINES_END, labels[0][0], "limit")
    if canvas.look.detail:
        more = [(still.weir_height, f"weir {1000 * still.weir_height:.0f} mm"),
                (0.0, "connection = 0"), (still.low_alarm, "low alarm")]
        for height, name in more:
            labels.append((to_y(height), name, "thin", False))
            canvas.line(_DRUM_LEG, to_y(height), _LINES_END, to_y(height), "limit")
    y_true = to_y(view.level)
    y_shown = to_y(min(max(view.indicated, low + 0.03), high))
    if view.show_truth:
        canvas.line(_edge(still, view.level) + 12, y_true, _LINES_END, y_true, "true-thin")
        labels.append((y_true, f"drum {format_number(1000 * view.level)} mm", "true", True))
        if abs(y_true - y_shown) > 1.0:
            error_bracket(canvas, _LINES_END - 6, y_true, y_shown, 5)
    canvas.line(_REFERENCE_LEG + 16, y_shown, _LINES_END, y_shown, "indicated")
    labels.append((y_shown, view.shows, "error", True))
    return labels
