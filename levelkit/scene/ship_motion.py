"""Drawing of a drum in a ship that lists, trims or rolls: its water plane and its end glasses.

The drum is drawn as the ship carries it, so that the water tilts; a small ship beside it
shows which way is down.
"""

from ..physics.glass import IN_SIGHT
from .canvas import Canvas
from .end_glass import HALF_BORE, draw_glass_water, draw_still_glass
from .film import film
from .lettering import text_width
from .listed_drum import (
    SHOWN,
    draw_levels,
    draw_marks,
    draw_shell,
    draw_water,
    draw_window,
    shores,
)
from .parts import block_names, block_values, widest_rows
from .ship_inset import draw_sea, draw_ship
from .strip_chart import Axes, draw_axes, draw_curve, draw_dot, draw_key

HEIGHT = 330
_GLASSES = {"left": 68, "right": 742}
_TOP, _BOTTOM = 30, 168
_CHART = (68, 233, 792, 303)
_BLOCK, _BLOCK_WIDTH, _VERDICT = 836, 250, 217
_SEA, _REACH, _SHIP = (961, 283), (125, 42), 52


def motion_film(still, chart, frames, times, look, show_truth=True):
    """Return the film of a drum at sea.

    Parameters
    ----------
    still : DrumAtSea [m]
        What stands still.
    chart : MotionChart [mm]
        The chart under the drum.
    frames : sequence of MotionFrame [m, rad]
        What moves.
    times : sequence of float [s]
        Instant of each frame.
    look : Look
        Screen, projector or print.
    show_truth : bool
        False covers what stands in the drum.

    Returns
    -------
    Film
        The picture and what changes in it.
    """
    back, front = _still_parts(still, chart, frames, look, show_truth)
    canvases = []
    for frame, shore in zip(frames, shores(still, frames), strict=True):
        canvas = Canvas(look, HEIGHT)
        canvas.stamp(back)
        if show_truth:
            draw_water(canvas, still, frame, HEIGHT)
        for x, glass in zip(_GLASSES.values(), frame.glasses, strict=True):
            draw_glass_water(canvas, still.mounting, x, _TOP, _BOTTOM, glass.indicated_level)
        canvas.stamp(front)
        if show_truth:
            draw_levels(canvas, still, frame, shore)
        _draw_readings(canvas, frame)
        _draw_cursor(canvas, chart, frame, show_truth)
        block_values(canvas, _BLOCK, 8, _BLOCK_WIDTH,
                     [(name, value, "outline") for name, value in frame.rows], still.name)
        draw_ship(canvas, *_SEA, _SHIP, frame.ship_angle, still.lies)
        fit = _BLOCK_WIDTH / text_width(frame.verdict, look.font, bold=True)
        canvas.text(_SEA[0], _VERDICT, frame.verdict, "middle", min(1.15, fit), bold=True,
                    pen="error")
        canvases.append(canvas)
    words = [describe_motion(still, frame, show_truth) for frame in frames]
    return film(canvases, times, f"{still.name}: a drum at sea", words)


def _still_parts(still, chart, frames, look, show_truth):
    """What no frame moves: the part behind the water, and the part in front of it."""
    back, front = Canvas(look, HEIGHT), Canvas(look, HEIGHT)
    draw_shell(back, still, show_truth)
    draw_sea(back, *_SEA, *_REACH)
    _draw_chart(back, still, chart, show_truth)
    draw_marks(front, still, show_truth)
    for (side, x), name, sign in zip(_GLASSES.items(), still.ends, (1, -1), strict=True):
        draw_window(front, still, x + sign * (HALF_BORE + 6), sign, _TOP, _BOTTOM)
        draw_still_glass(front, still.mounting, x, _TOP, _BOTTOM, side)
        front.text(x, _TOP - 14, name, "middle", bold=True)
    block_names(front, _BLOCK, 8, _BLOCK_WIDTH, widest_rows([f.rows for f in frames]),
                still.name)
    return back.fragment(), front.fragment()


def _draw_chart(canvas, still, chart, show_truth):
    axes = _axes(chart)
    draw_axes(canvas, axes, (chart.across, "mm"), x_most=10, y_most=3)
    window = [1000 * still.mounting.visible_bottom, 1000 * still.mounting.visible_top]
    for height in window:
        draw_curve(canvas, axes, chart.x_range, (height, height), "limit")
    if show_truth:
        for _, levels, pen in chart.curves:
            draw_curve(canvas, axes, chart.xs, levels, pen)
        draw_key(canvas, _CHART[0] + 62, _CHART[1] - 0.5 * canvas.look.font,
                 [(name, pen) for name, _, pen in chart.curves]
                 + [("window", "limit")] * canvas.look.detail)


def _axes(chart):
    left, top, right, bottom = _CHART
    return Axes(left, top, right, bottom, chart.x_range, chart.y_range)


def _draw_readings(canvas, frame):
    for x, anchor, glass in zip((18, 800), ("start", "end"), frame.glasses, strict=True):
        canvas.text(x, SHOWN, shown_text(glass), anchor, bold=True, pen="error")


def shown_text(glass):
    """Return what a person reads from a glass."""
    if glass.visibility == IN_SIGHT:
        return f"{1000 * glass.indicated_level:.0f} mm"
    return glass.visibility


def _draw_cursor(canvas, chart, frame, show_truth):
    axes = _axes(chart)
    x = axes.to_x(frame.cursor)
    canvas.line(x, axes.top, x, axes.bottom, "dimension")
    levels = [1000 * glass.indicated_level for glass in frame.glasses]
    for level, filled in zip(levels, (False, True), strict=True):
        draw_dot(canvas, axes, frame.cursor, level, "error", filled)
    if show_truth:
        draw_dot(canvas, axes, frame.cursor, sum(levels) / 2, "true")


def describe_motion(still, frame, show_truth=True):
    """Return what a frame shows, in a sentence or two."""
    shown = ", ".join(f"{name} glass {shown_text(glass)}"
                      for name, glass in zip(still.ends, frame.glasses, strict=True))
    sentence = f"{frame.attitude[0].upper()}{frame.attitude[1:]}: {shown}."
    if not show_truth:
        return f"{sentence} What the drum holds is hidden."
    dry = (f" The topmost tubes are dry over {frame.dry_tubes:.2f} m."
           if frame.dry_tubes >= 0.005 else "")
    return (f"{sentence} The water stands at {1000 * frame.mid_level:.0f} mm at mid-drum, "
            f"{1000 * still.upright_level:.0f} mm in an upright ship.{dry}")
