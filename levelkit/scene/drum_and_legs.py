"""Drum, constant-head chamber and the two legs: the upper half of a remote indicator's picture.

The legs leave the sheet at its foot with the tags 1 (reference leg) and 2 (drum-side leg);
whatever hangs on them begins with the same tags.
"""

from dataclasses import dataclass
from functools import lru_cache
from math import sqrt

from ..units import format_number
from .canvas import Canvas
from .parts import break_line, cock, error_bracket, level_line, side_labels

TOP, BOTTOM, LEFT = 10, 340, 18
_WALL, _DEEPEST_INSET = 130, 44
_DRUM_LEG, _REFERENCE_LEG, _PIPE = 174, 234, 10
_CHAMBER, _CHAMBER_END, _WEIR, _CHAMBER_DOWN = 200, 254, 216, 24
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
    columns : LegColumns [m]
        What stands in both legs.
    chamber_open : bool
        False with the chamber's steam valve shut.
    steaming : bool
        Steam above the water, or air.
    show_truth : bool
        False draws a cover over the drum.
    """

    level: float
    indicated: float
    shows: str
    columns: object
    chamber_open: bool = True
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
    _draw_chamber(canvas, still, view, to_y, space)
    in_the_drum = ("steam", "drum water")
    _draw_leg(canvas, _REFERENCE_LEG, to_y(still.weir_height) + _CHAMBER_DOWN,
              view.columns.reference, to_y)
    _draw_leg(canvas, _DRUM_LEG, to_y(0.0) + _PIPE / 2,
              [c for c in view.columns.drum_side if c.name not in in_the_drum], to_y)
    _draw_lower_connection(canvas, still, to_y)
    for tag, x in (("1", _REFERENCE_LEG), ("2", _DRUM_LEG)):
        pipe_break(canvas, x, BOTTOM - _BREAK)
        leg_tag(canvas, x, BOTTOM - 11, tag)
    _draw_words(canvas, still, view, to_y, space)
    side_labels(canvas, _LINES_END, _LABELS, labels, TOP + 4, BOTTOM - 4)


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


def _draw_chamber(canvas, still, view, to_y, space):
    """Draw the constant-head chamber, its weir and the pipe that brings steam and drains it."""
    y_weir = to_y(still.weir_height)
    surface = view.columns.reference[0].lower_height
    top, foot, pipe = y_weir - 20, y_weir + _CHAMBER_DOWN, 7
    x = _edge(still, still.weir_height) + 10
    canvas.rect(x, y_weir - pipe, _CHAMBER - x, 2 * pipe, space, "outline")
    cock(canvas, (x + _CHAMBER) / 2, y_weir, view.chamber_open)
    canvas.rect(_CHAMBER, top, _CHAMBER_END - _CHAMBER, foot - top, space, "outline")
    canvas.rect(_CHAMBER, y_weir + pipe, _WEIR - _CHAMBER, foot - y_weir - pipe, "metal",
                "outline")
    y = min(max(to_y(surface), y_weir), foot)
    canvas.rect(_WEIR, y, _CHAMBER_END - _WEIR, foot - y, "glass water")
    canvas.rect(_WEIR - 3, y_weir, 4, foot - y_weir, "metal", "outline")
    canvas.rect(_CHAMBER - 2, y_weir - pipe + 1, 4, 2 * pipe - 2, space)
    canvas.line(_CHAMBER, foot, _CHAMBER_END, foot, "outline")
    canvas.line(_CHAMBER_END, top, _CHAMBER_END, foot, "outline")
    if y < foot - 1:
        canvas.line(_WEIR + 1, y, _CHAMBER_END, y, "thin")
    if canvas.look.detail:
        canvas.text(_CHAMBER_END - 6, top - 6, "constant-head chamber", "end", 0.85)


def _draw_leg(canvas, x, start, columns, to_y):
    """Draw a leg from `start` down: water, and over it whatever steam or gas stands in it.

    Gas in a full leg is drawn below the chamber: where in the leg it stands does not matter.
    """
    end = BOTTOM - _BREAK
    canvas.rect(x - _PIPE / 2, start, _PIPE, end - start, "glass water")
    for column in columns:
        length = to_y(column.lower_height) - to_y(column.upper_height)
        top = max(to_y(column.upper_height), start)
        foot = top + length if column.name == "gas" else to_y(column.lower_height)
        foot = min(foot, end)
        if column.name not in ("steam", "gas") or foot <= top:
            continue
        fill = "air" if column.name == "gas" else "steam"
        canvas.rect(x - _PIPE / 2, top, _PIPE, foot - top, fill)
        canvas.line(x - _PIPE / 2, foot, x + _PIPE / 2, foot, "thin")
        if column.name == "gas":
            canvas.text(x - 9, (top + foot) / 2 + 5, "gas", "end", bold=True, pen="error")
    for side in (-_PIPE / 2, _PIPE / 2):
        canvas.line(x + side, start, x + side, end)


def _draw_lower_connection(canvas, still, to_y):
    x, y = _edge(still, 0.0) + 10, to_y(0.0)
    canvas.rect(x, y - _PIPE / 2, _DRUM_LEG + _PIPE / 2 - x, _PIPE, "glass water", "outline")


def pipe_break(canvas, x, y):
    """Draw the two strokes of a pipe that goes on elsewhere."""
    for shift in (-2.5, 2.5):
        canvas.line(x - 10, y + 4 + shift, x + 10, y - 4 + shift, "outline")


def leg_tag(canvas, x, y, tag):
    """Draw the ringed number of a leg."""
    canvas.circle(x, y, 10.5, "paper", "outline")
    canvas.text(x, y + 4.8, tag, "middle", 13.0 / canvas.look.font, bold=True)
