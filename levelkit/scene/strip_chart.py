"""A small chart inside a drawing: axes with round numbers, curves, a cursor that can move."""

from dataclasses import dataclass
from itertools import pairwise
from math import ceil, floor, log10

import numpy as np

from .lettering import text_width


@dataclass(frozen=True, slots=True)
class Axes:
    """Where a chart lies on the sheet, and what it spans.

    Attributes
    ----------
    left, top, right, bottom : float [viewBox units]
        Edges of its field.
    x_range, y_range : tuple of float [as drawn]
        Lowest and highest number on each axis.
    """

    left: float
    top: float
    right: float
    bottom: float
    x_range: tuple
    y_range: tuple

    def to_x(self, value):
        """Horizontal place of a number."""
        low, high = self.x_range
        return self.left + (value - low) / (high - low) * (self.right - self.left)

    def to_y(self, value):
        """Vertical place of a number."""
        low, high = self.y_range
        return self.bottom - (value - low) / (high - low) * (self.bottom - self.top)


def round_step(span, most):
    """Return the smallest round step (1, 2 or 5 of a power of ten) with at most so many in a span.

    The steps lie between the ends, which count too.
    """
    power = 10.0 ** floor(log10(span / most))
    return next(power * factor for factor in (1, 2, 5, 10)
                if span / (power * factor) <= most + 1e-9)


def round_range(low, high, most=4, least=1e-6):
    """Return a range with round ends that holds all numbers from low to high."""
    if high - low < least:
        middle = 0.5 * (high + low)
        low, high = middle - 0.5 * least, middle + 0.5 * least
    step = round_step(high - low, most)
    return floor(low / step + 1e-9) * step, ceil(high / step - 1e-9) * step


def ticks(span, most):
    """Return the round numbers inside a range."""
    low, high = span
    step = round_step(high - low, most)
    first = ceil(low / step - 1e-9)
    return [step * i for i in range(first, floor(high / step + 1e-9) + 1)]


def draw_axes(canvas, axes, names, x_most=8, y_most=3, number_x=True):
    """Draw the field of a chart: frame, thin lines at round numbers, the numbers, two names.

    `names` are what runs across and what runs up; the second stands above the field.
    """
    font, small = canvas.look.font, 0.85
    canvas.rect(axes.left, axes.top, axes.right - axes.left, axes.bottom - axes.top, "paper")
    for value in ticks(axes.y_range, y_most):
        y = axes.to_y(value)
        canvas.line(axes.left, y, axes.right, y, "limit" if value == 0 else "hair")
        canvas.text(axes.left - 6, y + 0.3 * font, _number(value), "end", small)
    across, up = names
    end = axes.right - text_width(across, small * font) - 8
    for value in ticks(axes.x_range, x_most):
        x = axes.to_x(value)
        canvas.line(x, axes.top, x, axes.bottom, "hair")
        text = _number(value)
        if number_x and x + text_width(text, small * font) / 2 < end:
            canvas.text(x, axes.bottom + 1.05 * small * font, text, "middle", small)
    if number_x:
        canvas.text(axes.right, axes.bottom + 1.05 * small * font, across, "end", small)
    if up:
        canvas.text(axes.left, axes.top - 0.35 * font, up, "start", small)
    canvas.rect(axes.left, axes.top, axes.right - axes.left, axes.bottom - axes.top, None, "thin")


def _number(value):
    value += 0.0  # takes the sign from a zero
    return (f"{value:.0f}" if abs(value) >= 1e4 else f"{value:.4g}").replace("-", "\u2212")


def draw_curve(canvas, axes, xs, ys, pen):
    """Draw a curve where it runs inside the field; where it leaves, it ends at the edge."""
    xs, ys, (low, high) = np.asarray(xs, float), np.asarray(ys, float), axes.y_range
    if len(ys) > 1 and low <= ys.min() and ys.max() <= high:
        _draw_run(canvas, axes, np.column_stack([xs, ys]), pen)
        return
    run = []
    for start, end in pairwise(zip(xs.tolist(), ys.tolist(), strict=True)):
        part = _part_inside(start, end, low, high)
        if part is None:
            _draw_run(canvas, axes, run, pen)
            run = []
            continue
        if run and run[-1] != part[0]:
            _draw_run(canvas, axes, run, pen)
            run = []
        run += part if not run else part[1:]
    _draw_run(canvas, axes, run, pen)


def _part_inside(start, end, low, high):
    """The part of a straight line between two heights, or None."""
    if max(start[1], end[1]) < low or min(start[1], end[1]) > high:
        return None
    found = []
    for (x, y), (other_x, other_y) in ((start, end), (end, start)):
        limit = min(max(y, low), high)
        share = 0.0 if other_y == y else (limit - y) / (other_y - y)
        found.append((x + share * (other_x - x), limit))
    return found


def _draw_run(canvas, axes, run, pen):
    if len(run) > 1:
        xs, ys = np.asarray(run).T
        canvas.polyline(np.column_stack([axes.to_x(xs), axes.to_y(ys)]), pen)


def draw_key(canvas, x, y, entries, gap=22):
    """Draw what the lines of a chart mean in one row; return its right end.

    `entries` is a list of (name, pen).
    """
    font, scale = canvas.look.font, 0.9
    for name, pen in entries:
        canvas.line(x, y - 0.3 * font, x + 30, y - 0.3 * font, pen)
        canvas.text(x + 35, y, name, "start", scale)
        x += 35 + text_width(name, scale * font) + gap
    return x - gap


def draw_dot(canvas, axes, x, y, pen, filled=True, radius=4.5):
    """Draw a point of a curve; outside the field it shrinks to nothing."""
    low, high = axes.y_range
    canvas.dot(axes.to_x(x), axes.to_y(min(max(y, low), high)),
               radius if low <= y <= high else 0, pen, filled)
