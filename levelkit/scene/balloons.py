"""Numbered balloons: a part of a drawing, its number, and a thin line between them."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Balloon:
    """Where a part is pointed at.

    Attributes
    ----------
    part : str
        Name of the part.
    at : tuple of (float, float) [viewBox units]
        A point on the part.
    place : tuple of (float, float) [viewBox units]
        Centre of the balloon.
    """

    part: str
    at: tuple
    place: tuple


def draw_balloons(canvas, balloons, numbers, asked=None):
    """Draw every balloon; the one asked for gets a heavy double ring."""
    for balloon in balloons:
        _draw_balloon(canvas, balloon, numbers[balloon.part], balloon.part == asked)


def _draw_balloon(canvas, balloon, number, asked):
    font, (x, y), (to_x, to_y) = canvas.look.font, balloon.place, balloon.at
    radius = (0.86 if canvas.look.detail else 0.72) * font
    length = max(((to_x - x) ** 2 + (to_y - y) ** 2) ** 0.5, 1e-9)
    start = radius / length
    pen = "error" if asked else "thin"
    canvas.line(x + start * (to_x - x), y + start * (to_y - y), to_x, to_y, pen)
    canvas.mark([(to_x - 2, to_y - 2), (to_x + 2, to_y - 2), (to_x + 2, to_y + 2),
                 (to_x - 2, to_y + 2)], "outline", filled=True)
    if asked:
        canvas.circle(x, y, radius + 4, "paper", "error")
    canvas.circle(x, y, radius, "paper", "error" if asked else "outline")
    canvas.text(x, y + 0.34 * font, str(number), "middle", 0.92 if canvas.look.detail else 0.8,
                bold=True, pen="error" if asked else "outline")
