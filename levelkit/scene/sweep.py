"""A live curve of indicated against true level, with the present level as a moving point."""

from dataclasses import dataclass

from ..units import format_number
from .canvas import Canvas
from .parts import number_block

HEIGHT = 330
CHART_WIDTH = 826
_BLOCK, _BLOCK_WIDTH, _TOP = 836, 250, 8


@dataclass(frozen=True, slots=True)
class SweepView:
    """What the picture shows, levels above the lower connection.

    Attributes
    ----------
    name : str
        Name of the boiler.
    levels, indicated : array [m]
        The curve.
    level, shown : float [m]
        The point.
    off_scale : bool
        Whether the indicator stands at an end of its signal there.
    low_alarm : float [m]
        Set level of the low alarm.
    rows : tuple of (str, str)
        Names and numbers of the block, already with units.
    show_truth : bool
        False leaves only what the indicator shows.
    """

    name: str
    levels: object
    indicated: object
    level: float
    shown: float
    off_scale: bool
    low_alarm: float
    rows: tuple
    show_truth: bool = True


def draw_sweep(view, frame, look):
    """Return the picture of a sweep in a typeset frame and the same in words.

    Parameters
    ----------
    view : SweepView [m]
        Curve and point.
    frame : chart frame [mm]
        Fragment of the axes, and where their data lie on the sheet.
    look : Look
        Screen, projector or print.

    Returns
    -------
    Drawing
        SVG text, words, and the boxes of the lettering.
    """
    canvas = Canvas(look, HEIGHT)
    if not view.show_truth:
        canvas.rect(frame.left, frame.top, frame.right - frame.left, frame.bottom - frame.top,
                    "hidden")
    else:
        _draw_silent(canvas, view, frame)
    canvas.stamp(frame.part)
    (_draw_curve if view.show_truth else _draw_shown)(canvas, view, frame)
    below = number_block(canvas, _BLOCK, _TOP, _BLOCK_WIDTH,
                         [(name, value, "outline") for name, value in view.rows], view.name)
    _draw_verdict(canvas, view, below)
    return canvas.drawing(f"{view.name}: indicated against true level", describe_sweep(view))


def _draw_silent(canvas, view, frame):
    """Hatch where the drum is low and an alarm on the indicator says nothing."""
    alarm, font = 1000 * view.low_alarm, canvas.look.font
    x, y = frame.to_x(alarm), frame.to_y(alarm)
    canvas.rect(frame.left, frame.top, x - frame.left, y - frame.top, "hidden")
    canvas.line(x, frame.top, x, frame.bottom, "limit")
    canvas.line(frame.left, y, frame.right, y, "limit")
    for index, line in enumerate(("drum low,", "alarm silent")):
        canvas.text(frame.left + 10, frame.top + (1.3 + 1.2 * index) * font, line, bold=True,
                    pen="thin")
    canvas.text(frame.right - 8, y + 1.1 * font, "low alarm", "end", 0.85, pen="thin")


def _draw_curve(canvas, view, frame):
    canvas.line(frame.to_x(frame.x_range[0]), frame.to_y(frame.x_range[0]),
                frame.to_x(frame.x_range[1]), frame.to_y(frame.x_range[1]), "true")
    canvas.polyline(list(zip(frame.to_x(1000 * view.levels), frame.to_y(1000 * view.indicated),
                             strict=True)), "indicated")
    font = canvas.look.font
    canvas.text(frame.right - 10, frame.bottom - 0.8 * font, "solid: indicated = true", "end", 0.9)
    x, y_true, y_shown = (frame.to_x(1000 * view.level), frame.to_y(1000 * view.level),
                          frame.to_y(1000 * view.shown))
    if abs(y_true - y_shown) > 1.0:
        canvas.line(x, y_true, x, y_shown, "error")
        for y in (y_true, y_shown):
            canvas.line(x - 5, y, x + 5, y, "error")
    canvas.mark([(x, y_true - 6), (x + 6, y_true), (x, y_true + 6), (x - 6, y_true)], "true",
                filled=True)
    canvas.mark([(x, y_shown - 6), (x + 6, y_shown), (x, y_shown + 6), (x - 6, y_shown)],
                "indicated", filled=False)
    if abs(y_true - y_shown) > 1.5 * font:
        side = "start" if x < frame.right - 7 * font else "end"
        canvas.text(x + (11 if side == "start" else -11), (y_true + y_shown) / 2 + 0.35 * font,
                    _signed(view), side, bold=True, pen="error")


def _draw_shown(canvas, view, frame):
    y = frame.to_y(1000 * view.shown)
    canvas.line(frame.left, y, frame.right, y, "indicated")
    canvas.text((frame.left + frame.right) / 2, (frame.top + frame.bottom) / 2,
                "true level hidden", "middle", bold=True)


def _draw_verdict(canvas, view, below):
    """Write the error in large letters under the block of numbers."""
    error = view.shown - view.level
    if not view.show_truth:
        lines = ("indicator shows", f"{format_number(1000 * view.shown, 1)} mm")
    elif abs(error) < 5e-5:
        lines = ("indicator agrees", "with the drum")
    else:
        lines = (f"{1000 * abs(error):.1f} mm", "reads LOW" if error < 0 else "reads HIGH")
    for index, line in enumerate(lines):
        canvas.text(_BLOCK + _BLOCK_WIDTH / 2, below + (1.9 + 1.65 * index) * canvas.look.font,
                    line, anchor="middle", scale=1.4, bold=True, pen="error")


def _signed(view):
    error = 1000 * (view.shown - view.level)
    return f"{'+' if error > 0 else ''}{format_number(error, 1)} mm"


def describe_sweep(view):
    """Return what the picture shows, in a sentence or two."""
    shown = f"The indicator shows {format_number(1000 * view.shown, 1)} mm"
    shown += ", the end of its signal." if view.off_scale else "."
    if not view.show_truth:
        return f"{shown} The true level is hidden."
    error = view.shown - view.level
    verdict = ("The two agree." if abs(error) < 5e-5 else
               f"It reads {1000 * abs(error):.1f} mm {'LOW' if error < 0 else 'HIGH'}.")
    silent = (" A low alarm on this signal stays SILENT."
              if view.level < view.low_alarm < view.shown else "")
    return (f"{shown} The drum holds {format_number(1000 * view.level, 1)} mm. {verdict}{silent}")
