"""A gauge glass in time: cocks as they stand, water as it moves, and the record of its height."""

from dataclasses import dataclass

from ..physics.cock_state import CockState
from ..physics.cocks import GlassHistory
from ..physics.drain_blow import DRY, WET
from .canvas import Canvas
from .cock_gauge import (
    GaugePlace,
    draw_cock,
    draw_column,
    draw_drum,
    draw_fittings,
    draw_leak,
    draw_pipes,
    draw_plume,
    draw_scale,
)
from .film import film
from .parts import number_block
from .strip_chart import Axes, draw_axes, draw_curve, draw_dot, draw_key

HEIGHT = 330
_PLACE = GaugePlace(wall=112, glass=250, steam=40, water=236, left=18)
_COCK_X = 178
_CHART = (352, 790)
_BLOCK, _BLOCK_WIDTH = 822, 268


@dataclass(frozen=True, slots=True)
class CocksView:
    """One run of a gauge glass.

    Attributes
    ----------
    state : CockState [Pa, m, 1]
        At the start of the run.
    history : GlassHistory [s, m, Pa, kg/s]
        What happens.
    true_height : float [m]
        Where a healthy glass would show this drum level; may lie outside the glass.
    expected : tuple of (str, array [m]) or None
        Name and heights of a closed form to hold against the run.
    fault : str
        What is wrong, in words.
    rows : tuple of tuple of (str, str)
        Names and numbers of the block, for each frame.
    """

    state: CockState
    history: GlassHistory
    true_height: float
    expected: object
    fault: str
    rows: tuple


def cocks_film(view, look, show_run=True):
    """Return the film of a gauge glass.

    Parameters
    ----------
    view : CocksView [s, m, Pa, kg/s]
        The run.
    look : Look
        Screen, projector or print.
    show_run : bool
        False shows the start only: what comes is still to be predicted.

    Returns
    -------
    Film
        The picture and what changes in it.
    """
    frames = range(len(view.history.time)) if show_run else range(1)
    back, middle, front = _still_parts(view, look, show_run)
    canvases, words = [], []
    for frame in frames:
        canvas = Canvas(look, HEIGHT)
        canvas.stamp(back)
        draw_column(canvas, _PLACE, float(view.history.height[frame]), _top(view))
        canvas.stamp(middle)
        _draw_blow(canvas, view.history.blow[frame])
        _draw_moment(canvas, view, frame)
        canvas.stamp(front)
        canvases.append(canvas)
        words.append(describe_cocks(view, frame))
    times = [float(view.history.time[frame]) for frame in frames]
    return film(canvases, times, "A gauge glass and its cocks", words)


def _top(view):
    return view.state.fitting.steam_connection


def _axes(view):
    span = float(view.history.time[-1])
    unit = 60.0 if span > 300 else 1.0
    return Axes(_CHART[0], _PLACE.steam, _CHART[1], _PLACE.water, (0.0, span / unit),
                (0.0, 1000 * _top(view))), unit


def _still_parts(view, look, show_run):
    """What no frame moves: behind the water, behind the moving pen, and in front of all."""
    back, middle, front = (Canvas(look, HEIGHT) for _ in range(3))
    state, cocks, font = view.state, view.state.cocks, look.font
    draw_drum(back, _PLACE, state.drum.level, _top(view), foot=62)
    per_metre = (_PLACE.water - _PLACE.steam) / _top(view)
    draw_pipes(back, _PLACE, state.drum.level > state.fitting.pipe_lip,
               state.fitting.pipe_lip * per_metre)
    draw_fittings(middle, _PLACE)
    _draw_faults(middle, state.faults, state.fitting.pipe_lip * per_metre)
    lift = state.fitting.pipe_lip * per_metre
    for name, x, y, opening in (("S", _COCK_X, _PLACE.steam, cocks.steam),
                                ("W", _COCK_X, _PLACE.water - lift, cocks.water)):
        draw_cock(middle, x, y, opening)
        middle.text(x, y - 16, f"{name} {_opening(opening)}", "middle", bold=True)
    draw_cock(middle, _PLACE.glass, _PLACE.drain, cocks.drain, vertical=True)
    middle.text(_PLACE.glass - 18, _PLACE.drain + 12 + 0.35 * font,
                f"D {_opening(cocks.drain)}", "end", bold=True)
    y = _PLACE.to_y(state.drum.level, _top(view))
    if _PLACE.steam - 26 < y < _PLACE.water + 62:
        middle.line(_PLACE.left, y, _PLACE.wall, y, "true")
        middle.text(_PLACE.left + 4, y - 6, f"{1000 * state.drum.level:.0f} mm".replace(
            "-", "\u2212"), bold=True)
    _draw_chart(middle, view, show_run)
    axes, _ = _axes(view)
    front.rect(axes.left, axes.top, axes.right - axes.left, axes.bottom - axes.top, None, "thin")
    return back.fragment(), middle.fragment(), front.fragment()


def _draw_faults(canvas, faults, lift):
    """Show scale in a way, and what leaks at the joints."""
    for y, choke in ((_PLACE.steam, faults.steam_choke), (_PLACE.water - lift, faults.water_choke)):
        draw_scale(canvas, 212, y, choke)
    draw_scale(canvas, _PLACE.glass, _PLACE.drain - 20, faults.drain_choke, upright=True)
    for y, area in ((_PLACE.steam, faults.top_leak_area), (_PLACE.water, faults.bottom_leak_area)):
        draw_leak(canvas, _PLACE.glass + 16, y, area > 0)


def _opening(opening):
    return {0.0: "shut", 1.0: "open"}.get(opening, f"{100 * opening:.0f} %")


def _draw_chart(canvas, view, show_run):
    axes, unit = _axes(view)
    across = "min" if unit > 1 else "s"
    draw_axes(canvas, axes, (across, ""), x_most=7, y_most=4)
    times = view.history.time / unit
    entries = [("in the glass, mm", "outline")]
    if 0.0 <= view.true_height <= _top(view):
        level = 1000 * view.true_height
        draw_curve(canvas, axes, (times[0], times[-1]), (level, level), "true-thin")
        entries.append(("all clear", "true-thin"))
    if show_run:
        draw_curve(canvas, axes, list(times), list(1000 * view.history.height), "outline")
        if view.expected is not None:
            draw_curve(canvas, axes, list(times), list(1000 * view.expected[1]), "indicated")
            entries.append((view.expected[0], "indicated"))
    else:
        canvas.text((axes.left + axes.right) / 2, (axes.top + axes.bottom) / 2, "what happens?",
                    "middle", 1.5, bold=True)
    draw_key(canvas, axes.left, axes.top - 0.8 * canvas.look.font,
             entries if canvas.look.detail else entries[:1])


def _draw_blow(canvas, blow):
    share = min(blow.share, 1.0) ** 0.5 if blow.nature else 0.0
    draw_plume(canvas, _PLACE, share * (blow.nature == WET), share * (blow.nature == DRY))
    x, y = _PLACE.outlet
    canvas.text(x + 190, y + 0.35 * canvas.look.font, blow_in_words(blow), bold=True)


def _blow(blow):
    return f"{blow.strength} {blow.nature.upper()} blow" if blow.nature else "drain quiet"


def blow_in_words(blow):
    """Return what is seen and heard at the drain."""
    sound = {WET: ": heavy, white, low pitch", DRY: ": clear at the mouth, high pitch", "": ""}
    return _blow(blow) + sound[blow.nature]


def _draw_moment(canvas, view, frame):
    """Cover what is still to come, and put the pen where the run stands."""
    axes, unit = _axes(view)
    time, height = view.history.time[frame] / unit, float(view.history.height[frame])
    x = axes.to_x(time)
    canvas.rect(x, axes.top, axes.right - x, axes.bottom - axes.top, "paper")
    y = axes.to_y(1000 * height)
    canvas.line(_PLACE.glass + 13, y, x, y, "limit")
    draw_dot(canvas, axes, time, 1000 * height, "outline")
    below = number_block(canvas, _BLOCK, 8, _BLOCK_WIDTH,
                         [(name, value, "outline") for name, value in view.rows[frame]],
                         view.fault)
    for line, text in enumerate(verdict(view, frame)):
        canvas.text(_BLOCK + _BLOCK_WIDTH / 2, below + (1.9 + 1.6 * line) * canvas.look.font, text,
                    "middle", 1.25, bold=True, pen="error")


def verdict(view, frame):
    """Return in two lines what a watchkeeper would make of the glass, and the truth of it."""
    history, top = view.history, _top(view)
    height = float(history.height[frame])
    if history.blow[frame].strength == "strong":
        return "blowing:", "no level to read"
    shown = "FULL" if height > top - 0.004 else "EMPTY" if height < 0.004 else \
        f"{1000 * height:.0f} mm"
    error = height - min(max(view.true_height, 0.0), top)
    if abs(error) < 0.001:
        return f"shows {shown}", "as it should"
    return f"shows {shown}", f"{1000 * abs(error):.0f} mm {'LOW' if error < 0 else 'HIGH'}"


def describe_cocks(view, frame):
    """Return what a frame shows, in a sentence or two."""
    cocks, history = view.state.cocks, view.history
    stand = ", ".join(f"{name} {_opening(opening)}" for name, opening in (
        ("steam cock", cocks.steam), ("water cock", cocks.water), ("drain", cocks.drain)))
    first, second = verdict(view, frame)
    shown = "blows, there is no level to read" if first == "blowing:" else f"{first}, {second}"
    return (f"After {history.time[frame]:.1f} s, {view.fault}: {stand}. The glass {shown}; "
            f"{_blow(history.blow[frame])}.")
