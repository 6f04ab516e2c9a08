"""Drawing of a drum that swells and shrinks: what stands in it, what a glass sees, and the curves.

Levels count from where they stood at the start, in the drum and in the glass alike: the
bubbly surface always stands higher than what the glass balances.
"""

from dataclasses import dataclass
from functools import lru_cache

from .canvas import Canvas
from .film import film
from .lettering import text_width
from .parts import block_names, block_values, break_line, widest_rows
from .strip_chart import Axes, draw_axes, draw_curve, draw_dot, draw_key, round_range, ticks

HEIGHT = 334
_TOP, _BOTTOM, _CHANGES = 30, 294, 323
_LEFT, _WALL, _GLASS, _HALF_BORE, _SCALE = 20, 148, 206, 11, 230
_CHARTS, _FIELD, _FIRST, _PITCH = (356, 806), 49, 26, 76
_BLOCK, _BLOCK_WIDTH = 836, 250
TONNES_FROM = 10_000.0
"""Change of mass [kg] from which its curve is drawn in tonnes: longer numbers have no room."""
_LEAST = {"level": 20.0, "mass": 100.0, "pressure": 1.0, "flow": 2.0}


@dataclass(frozen=True, slots=True)
class SwellCurves:
    """What happened, from the start to the end; arrays of one length.

    Attributes
    ----------
    time : array [s]
        Instants.
    surface, shown : array [mm]
        Rise of the bubbly surface, and of what the instruments show, since the start.
    mass : array [kg]
        Change of water and steam in the boiler.
    pressure : array [bar]
        Gauge pressure.
    steam, feed : array [kg/s]
        Steam leaving and feed entering.
    """

    time: object
    surface: object
    shown: object
    mass: object
    pressure: object
    steam: object
    feed: object


@dataclass(frozen=True, slots=True)
class SwellView:
    """The picture as a whole.

    Attributes
    ----------
    name, event : str
        The boiler, and what happens to it.
    curves : SwellCurves [s, mm, kg, bar, kg/s]
        What happened.
    records : tuple of int
        Index of each frame in the curves.
    rows : tuple of tuple of (str, str)
        Names and numbers of the block for each frame, already with units.
    verdicts : tuple of tuple of str
        The two large lines of each frame.
    notes : tuple of str
        Lines under it that do not change.
    """

    name: str
    event: str
    curves: SwellCurves
    records: tuple
    rows: tuple
    verdicts: tuple
    notes: tuple


def swell_film(view, look, show_truth=True):
    """Return the film of a drum that swells and shrinks.

    Parameters
    ----------
    view : SwellView [s, mm, kg, bar, kg/s]
        What happened and what is written beside it.
    look : Look
        Screen, projector or print.
    show_truth : bool
        False hides surface and mass, which no watchkeeper sees.

    Returns
    -------
    Film
        The picture and what changes in it.
    """
    curves, levels = view.curves, _level_range(view.curves)
    charts = _charts(curves, levels, show_truth)
    back, front = _still_parts(view, charts, levels, look, show_truth)
    to_y = _to_y(levels)
    canvases = []
    for i, rows, verdict in zip(view.records, view.rows, view.verdicts, strict=True):
        canvas = Canvas(look, HEIGHT)
        canvas.stamp(back)
        if show_truth:
            y = to_y(curves.surface[i])
            canvas.rect(_LEFT, y, _WALL - _LEFT, _BOTTOM - y, "bubbly water")
        y = to_y(curves.shown[i])
        canvas.rect(_GLASS - _HALF_BORE, y, 2 * _HALF_BORE, _BOTTOM - y, "glass water")
        canvas.stamp(front)
        _draw_levels(canvas, curves, i, to_y, show_truth)
        _draw_cursor(canvas, charts, curves.time[i], i)
        block_values(canvas, _BLOCK, 8, _BLOCK_WIDTH,
                     [(name, value, "outline") for name, value in rows], view.name)
        _draw_verdict(canvas, verdict, len(rows))
        canvases.append(canvas)
    words = [describe_swell(view, i, frame, show_truth) for frame, i in enumerate(view.records)]
    return film(canvases, [float(curves.time[i]) for i in view.records],
                f"{view.name}: {view.event}", words)


def _level_range(curves):
    low = min(curves.surface.min(), curves.shown.min())
    high = max(curves.surface.max(), curves.shown.max())
    return round_range(low - 0.1 * (high - low), high + 0.1 * (high - low), 5, _LEAST["level"])


def _to_y(levels):
    low, high = levels
    return lambda level: _BOTTOM - (level - low) / (high - low) * (_BOTTOM - _TOP)


def _charts(curves, levels, show_truth):
    """Axes, name and curves (name, values, pen) of each chart, from above to below."""
    surface = [("surface", curves.surface, "true")] if show_truth else []
    heavy = max(curves.mass.max(), -curves.mass.min()) >= TONNES_FROM
    unit = 1000.0 if heavy else 1.0
    mass = [("", curves.mass / unit, "true")] if show_truth else []
    plans = (
        ("level, mm", levels, [*surface, ("glass", curves.shown, "indicated")], "level"),
        ("water and steam, t" if heavy else "water and steam, kg", None, mass, "mass"),
        ("pressure, bar g", None, [("", curves.pressure, "outline")], "pressure"),
        ("kg/s", None, [("steam", curves.steam, "outline"), ("feed", curves.feed, "fluid")],
         "flow"),
    )
    charts = []
    for index, (name, span, lines, kind) in enumerate(plans):
        if span is None:
            values = [v for _, line, _ in lines for v in (line.min(), line.max())] or [0.0, 0.0]
            least = _LEAST[kind] / (unit if kind == "mass" else 1.0)
            span = round_range(min(values), max(values), 3, least)
        top = _FIRST + _PITCH * index
        axes = Axes(_CHARTS[0], top, _CHARTS[1], top + _FIELD,
                    (0.0, float(curves.time[-1])), span)
        charts.append((name, axes, lines))
    return charts


def _still_parts(view, charts, levels, look, show_truth):
    back, front, to_y = Canvas(look, HEIGHT), Canvas(look, HEIGHT), _to_y(levels)
    back.rect(_LEFT, _TOP, _WALL - _LEFT, _BOTTOM - _TOP, "steam" if show_truth else "hidden")
    back.rect(_GLASS - _HALF_BORE, _TOP, 2 * _HALF_BORE, _BOTTOM - _TOP, "steam")
    front.stamp(_body(look))
    block_names(front, _BLOCK, 8, _BLOCK_WIDTH, widest_rows(view.rows), view.name)
    for value in ticks(levels, 10):
        front.line(_SCALE, to_y(value), _SCALE + 6, to_y(value), "thin")
    for value in ticks(levels, 5):
        front.line(_WALL, to_y(value), _SCALE + 9, to_y(value), "limit" if not value else "hair")
        front.text(_SCALE + 13, to_y(value) + 0.3 * look.font, f"{value:+.0f}".replace(
            "-", "\u2212") if value else "0 mm", scale=0.85)
    if not show_truth:
        front.text((_LEFT + _WALL) / 2, (_TOP + _BOTTOM) / 2, "hidden", "middle", bold=True)
    for index, (name, axes, lines) in enumerate(charts):
        last = index == len(charts) - 1
        draw_axes(front, axes, ("s", ""), x_most=8, y_most=2, number_x=last)
        for _, values, pen in lines:
            draw_curve(front, axes, view.curves.time, values, pen)
        _draw_chart_name(front, axes, name, [(label, pen) for label, _, pen in lines if label])
        if not lines:
            front.text((axes.left + axes.right) / 2, axes.top + 0.65 * _FIELD, "hidden", "middle",
                       bold=True)
    for index, note in enumerate((view.event, *view.notes)):
        front.text(_BLOCK + _BLOCK_WIDTH / 2, HEIGHT - 10 - 1.3 * look.font
                   * (len(view.notes) - index), note, "middle", bold=not index,
                   scale=min(1.0, _BLOCK_WIDTH / text_width(note, look.font, bold=not index)))
    return back.fragment(), front.fragment()


def _draw_chart_name(canvas, axes, name, named):
    """Write what a chart shows above its right end, away from the numbers of its axis."""
    font, y = canvas.look.font, axes.top - 0.35 * canvas.look.font
    end = axes.right
    if named:
        end -= sum(57 + text_width(label, 0.9 * font) for label, _ in named) - 22
        draw_key(canvas, end, y, named)
        end -= 22
    canvas.text(end, y, name, "end", 0.85, bold=True)


@lru_cache(maxsize=8)
def _body(look):
    """Drum wall and glass, which nothing moves."""
    canvas = Canvas(look, HEIGHT)
    break_line(canvas, _LEFT, _TOP, _BOTTOM)
    canvas.rect(_WALL, _TOP, 9, _BOTTOM - _TOP, "metal", "outline")
    for y in (_TOP + 10, _BOTTOM - 10):
        canvas.rect(_WALL + 9, y - 5, _GLASS - _HALF_BORE - 6 - _WALL - 9, 10, "paper", "outline")
    for x in (_GLASS - _HALF_BORE - 6, _GLASS + _HALF_BORE):
        canvas.rect(x, _TOP - 4, 6, _BOTTOM - _TOP + 8, "metal", "outline")
    canvas.text((_LEFT + _WALL) / 2, _TOP - 11, "drum", "middle", bold=True)
    canvas.text(_GLASS, _TOP - 11, "glass", "middle", bold=True)
    return canvas.fragment()


def _draw_levels(canvas, curves, i, to_y, show_truth):
    """Draw the two levels, and below them their rise since the start."""
    if show_truth:
        y = to_y(curves.surface[i])
        canvas.line(_LEFT, y, _WALL, y, "true")
        canvas.text((_LEFT + _WALL) / 2, _CHANGES, signed(curves.surface[i], "mm"), "middle",
                    bold=True, pen="true")
    y = to_y(curves.shown[i])
    canvas.line(_GLASS - _HALF_BORE - 10, y, _GLASS + _HALF_BORE + 10, y, "indicated")
    canvas.text(_GLASS + 8, _CHANGES, signed(curves.shown[i], "mm"), "middle", bold=True,
                pen="error")


def _draw_cursor(canvas, charts, time, i):
    x = charts[0][1].to_x(time)
    canvas.line(x, charts[0][1].top, x, charts[-1][1].bottom, "dimension")
    for _, axes, lines in charts:
        for _, values, pen in lines:
            draw_dot(canvas, axes, time, values[i], "error" if pen == "indicated" else pen,
                     pen != "indicated", 4)


def _draw_verdict(canvas, verdict, rows):
    font = canvas.look.font
    y = 8 + 1.62 * font * (rows + 1)
    for index, line in enumerate(verdict):
        fit = _BLOCK_WIDTH / text_width(line, font, bold=True)
        canvas.text(_BLOCK + _BLOCK_WIDTH / 2, y + (1.75 + 1.5 * index) * font, line, "middle",
                    min(1.25, fit), bold=True, pen="error")


def signed(value, unit):
    """Return a change with its sign and unit; nothing has no sign."""
    if abs(value) < 0.5:
        return f"0 {unit}"
    return f"{value:+.0f} {unit}".replace("-", "\u2212")


def describe_swell(view, i, frame, show_truth=True):
    """Return what a frame shows, in a sentence or two."""
    curves = view.curves
    event = view.event[0].upper() + view.event[1:]
    seen = (f"{event}, at {curves.time[i]:.0f} s, {curves.pressure[i]:.1f} bar g: glass "
            f"{signed(curves.shown[i], 'mm')}")
    if not show_truth:
        return f"{seen}. Surface and mass are hidden."
    return (f"{seen}, surface {signed(curves.surface[i], 'mm')}, water and steam "
            f"{signed(curves.mass[i], 'kg')}: {', '.join(view.verdicts[frame])}.")
