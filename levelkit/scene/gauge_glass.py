"""Drawing of a drum and its gauge glass: true level, indicated level, and the error between."""

from dataclasses import dataclass
from functools import lru_cache
from math import isnan, sqrt

from ..physics.glass import GaugeGlassResult, GlassMounting
from .canvas import Canvas
from .parts import (
    break_line,
    cock,
    error_bracket,
    level_line,
    number_block,
    scale_bar,
    side_labels,
)

HEIGHT = 356
_TOP, _BOTTOM, _LEFT = 12, 346, 18
_WALL = 405
_GLASS, _HALF_BORE = 505, 13
_LABELS = 624
_BLOCK, _BLOCK_WIDTH = 822, 264


@dataclass(frozen=True, slots=True)
class DrumAndGlass:
    """What stands still in the picture, heights above the water connection.

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
    mounting : GlassMounting [m]
        Connections and visible part of the glass.
    normal_level, low_alarm, high_alarm : float [m]
        Set levels.
    """

    name: str
    inside_diameter: float
    centre_height: float
    topmost_tube: float
    mounting: GlassMounting
    normal_level: float
    low_alarm: float
    high_alarm: float


@dataclass(frozen=True, slots=True)
class GlassView:
    """What moves in the picture.

    Attributes
    ----------
    level : float [m]
        True level.
    result : GaugeGlassResult
        What the glass shows.
    rows : tuple of (str, str)
        Names and numbers of the block, already with units.
    steaming : bool
        Steam above the water, or air.
    show_truth : bool
        False draws a cover over the drum.
    """

    level: float
    result: GaugeGlassResult
    rows: tuple
    steaming: bool = True
    show_truth: bool = True


def _frame(still):
    """Lowest height shown, highest height shown, and the scale in units per metre."""
    low = min(still.topmost_tube, 0.0) - 0.07
    high = still.mounting.steam_connection + 0.10
    return low, high, (_BOTTOM - _TOP) / (high - low)


def _to_y(still):
    low, _, per_metre = _frame(still)
    return lambda height: _BOTTOM - (height - low) * per_metre


def _centre_line(still):
    """Horizontal position of the drum's centre line; it may lie left of the sheet."""
    return _WALL - still.inside_diameter / 2 * _frame(still)[2]


def _drum_edge(still, height):
    """Horizontal position of the inside of the drum wall, right of the centre line."""
    radius = still.inside_diameter / 2
    reach = radius ** 2 - (height - still.centre_height) ** 2
    return _centre_line(still) + _frame(still)[2] * sqrt(max(reach, 0.0))


def _outline(still, points=60):
    """The part of the drum's inside that the sheet shows, as a closed line."""
    low, high, _ = _frame(still)
    radius, to_y = still.inside_diameter / 2, _to_y(still)
    low = max(low, still.centre_height - radius)
    high = min(high, still.centre_height + radius)
    heights = [low + (high - low) * i / points for i in range(points + 1)]
    centre = _centre_line(still)
    right = [(_drum_edge(still, z), to_y(z)) for z in heights]
    left = [(max(_LEFT, 2 * centre - x), y) for x, y in right]
    return right + left[::-1], right


@lru_cache(maxsize=32)
def _still_part(still, look):
    """Everything that no slider moves, drawn once."""
    canvas, to_y, mounting = Canvas(look, HEIGHT), _to_y(still), still.mounting
    _, right = _outline(still)
    wall = [(x + 11, y) for x, y in right]
    canvas.polygon(right + wall[::-1], "metal", "outline")
    break_line(canvas, _LEFT, _TOP, _BOTTOM)
    centre = _centre_line(still)
    if centre > _LEFT + 10:
        canvas.line(centre, _TOP - 6, centre, _BOTTOM + 6, "centre")
    _draw_tubes(canvas, still, to_y)
    for height in (0.0, mounting.steam_connection):
        x, y = _drum_edge(still, height) + 11, to_y(height)
        canvas.rect(x, y - 6, _GLASS - 24 - x, 12, "paper", "outline")
        canvas.rect(_GLASS - 24, y - 15, 48, 30, "metal", "outline")
        cock(canvas, (x + _GLASS - 24) / 2, y)
    bottom, top = to_y(mounting.visible_bottom), to_y(mounting.visible_top)
    for upper, lower in ((to_y(mounting.steam_connection) + 15, top), (bottom, to_y(0.0) - 15)):
        canvas.rect(_GLASS - 20, upper, 40, lower - upper, "metal", "outline")
    steps = range(0, int(mounting.steam_connection / 0.025 + 1e-9) + 1)
    scale_bar(canvas, _GLASS + 26, [0.025 * step for step in steps], to_y, 4)
    return canvas.fragment()


def _draw_tubes(canvas, still, to_y):
    """Draw the ends of the heated tubes below the topmost one."""
    right = int(_drum_edge(still, still.topmost_tube - 0.03)) - 16
    for row in range(3):
        y = to_y(still.topmost_tube) + 9 + 19 * row
        for x in range(_LEFT + 22 + 17 * (row % 2), right, 34):
            if y < _BOTTOM:
                canvas.circle(x, y, 8, "paper", "thin")


def draw_gauge_glass(still, view, look):
    """Return the picture of a drum with its gauge glass and the same in words.

    Parameters
    ----------
    still : DrumAndGlass [m]
        What stands still.
    view : GlassView [m]
        What moves.
    look : Look
        Screen, projector or print.

    Returns
    -------
    Drawing
        SVG text, words, and the boxes of the lettering.
    """
    canvas, to_y = Canvas(look, HEIGHT), _to_y(still)
    outline, _ = _outline(still)
    canvas.clip("drum", outline)
    y_true = to_y(view.level)
    space = "steam" if view.steaming else "air"
    if view.show_truth:
        canvas.clipped_rect("drum", 0, 0, 480, y_true, space)
        canvas.clipped_rect("drum", 0, y_true, 480, HEIGHT - y_true, "water")
    else:
        canvas.clipped_rect("drum", 0, 0, 480, HEIGHT, "hidden")
    _draw_glass_fluids(canvas, still, view, to_y, space)
    labels = _draw_levels(canvas, still, view, to_y)
    canvas.stamp(_still_part(still, look))
    if view.show_truth:
        level_line(canvas, _LEFT, _drum_edge(still, view.level) - 10, y_true, "true")
        if y_true - _TOP > 2 * look.font:
            canvas.text(28, (y_true + _TOP) / 2, space)
        canvas.text(28, (y_true + to_y(still.topmost_tube)) / 2, "water")
    else:
        canvas.text((_LEFT + _WALL) / 2, (_TOP + _BOTTOM) / 2, "true level hidden",
                    anchor="middle", bold=True)
    if not isnan(view.result.reading):
        y_shown = to_y(view.result.indicated_level)
        canvas.line(_GLASS - 34, y_shown, _GLASS + 24, y_shown, "indicated")
    side_labels(canvas, _GLASS + 86, _LABELS, labels, _TOP + 4, _BOTTOM - 4)
    below = number_block(canvas, _BLOCK, _TOP, _BLOCK_WIDTH,
                         [(name, value, "outline") for name, value in view.rows], still.name)
    _draw_verdict(canvas, view, below)
    return canvas.drawing(f"{still.name}: drum and gauge glass", describe_gauge_glass(view))


def _draw_glass_fluids(canvas, still, view, to_y, space):
    mounting = still.mounting
    height = min(max(view.result.indicated_level, 0.0), mounting.steam_connection)
    top, bottom = to_y(mounting.steam_connection), to_y(0.0)
    canvas.rect(_GLASS - _HALF_BORE, top, 2 * _HALF_BORE, bottom - top, space, "outline")
    canvas.rect(_GLASS - _HALF_BORE, to_y(height), 2 * _HALF_BORE, bottom - to_y(height),
                "glass water", "outline")


def _draw_levels(canvas, still, view, to_y):
    """Draw the level lines outside drum and glass; return the labels that belong to them."""
    mounting, result, x_end = still.mounting, view.result, _GLASS + 86
    labels = [(to_y(still.topmost_tube), "topmost tube", "thin", False)]
    if canvas.look.detail:
        labels += [(to_y(height), name, "thin", False) for height, name in (
            (mounting.steam_connection, "steam connection"), (0.0, "water connection = 0"),
            (still.high_alarm, "high alarm"), (still.normal_level, "normal level"),
            (still.low_alarm, "low alarm"))]
    for y, *_ in labels:
        canvas.line(_GLASS + 30, y, x_end, y, "limit")
    canvas.line(_drum_edge(still, still.topmost_tube) + 14, labels[0][0], _GLASS + 30,
                labels[0][0], "limit")
    y_true, y_shown = to_y(view.level), to_y(result.indicated_level)
    seen = not isnan(result.reading)
    if seen:
        canvas.line(_GLASS + 24, y_shown, x_end, y_shown, "indicated")
        labels.append((y_shown, f"glass {1000 * result.indicated_level:.1f} mm", "error", True))
    else:
        too_high = result.indicated_level > mounting.visible_top
        y_shown = to_y(mounting.visible_top if too_high else mounting.visible_bottom)
        labels.append((y_shown, result.visibility, "error", True))
    if view.show_truth:
        canvas.line(_drum_edge(still, view.level) + 14, y_true, x_end, y_true, "true-thin")
        labels.append((y_true, f"drum {1000 * view.level:.1f} mm", "true", True))
        if seen and abs(y_true - y_shown) > 1.0:
            error_bracket(canvas, x_end - 5, y_true, y_shown, 5)
    return labels


def _draw_verdict(canvas, view, below):
    """Write the error in large letters under the block of numbers."""
    result, size = view.result, 1.55
    if isnan(result.reading):
        lines = ("nothing to read:", result.visibility)
    elif not view.show_truth:
        lines = ("glass shows", f"{1000 * result.indicated_level:.1f} mm")
    elif abs(result.error) < 5e-5:
        lines = ("glass agrees", "with the drum")
    else:
        lines = (f"{1000 * abs(result.error):.1f} mm",
                 "reads LOW" if result.error < 0 else "reads HIGH")
    for index, line in enumerate(lines):
        canvas.text(_BLOCK + _BLOCK_WIDTH / 2, below + (2.4 + 1.9 * index) * canvas.look.font,
                    line, anchor="middle", scale=size, bold=True, pen="error")


def describe_gauge_glass(view):
    """Return what the picture shows, in a sentence or two."""
    result = view.result
    if isnan(result.reading):
        shown = f"The gauge glass shows no level: {result.visibility}."
    else:
        shown = (f"The gauge glass shows {1000 * result.indicated_level:.1f} mm above the water "
                 "connection.")
    if not view.show_truth:
        return f"{shown} The true level is hidden."
    return f"{shown} The drum holds {1000 * view.level:.1f} mm. {error_in_words(result.error)}"


def error_in_words(error):
    """Return size and direction of an error [m] as a sentence."""
    size = f"{abs(1000 * error):.1f}"
    if size == "0.0":
        return "The glass agrees with the drum."
    return f"The glass reads {size} mm {'LOW' if error < 0 else 'HIGH'}."
