"""A drum as a listed ship carries it: its outline, the tilted water, the tubes left dry.

Distances along the drum count from mid-length towards its left end on the sheet, port or aft.
"""

from functools import lru_cache

import numpy as np

from ..physics.drum_outline import section_radius
from .end_glass import to_y

SHOWN = 197
"""Baseline of what is written under the drum [viewBox units]."""
_LEFT, _RIGHT, _MIDDLE = 128, 682, 96
_TALLEST = 132
_POINTS = np.linspace(-1.0, 1.0, 401)
_HEAD = np.sin(np.linspace(0.0, np.pi / 2, 16))


def _place(still):
    """Scale [units per metre] and the functions that put a point of the drum on the sheet."""
    drum, centre = still.drum, (_LEFT + _RIGHT) / 2
    scale = min((_RIGHT - _LEFT) / (2 * drum.half_length), _TALLEST / (2 * drum.radius))
    return (scale, lambda along: centre - along * scale,
            lambda height: _MIDDLE - (height - drum.axis_height) * scale)


def _outline(still, wall=0.0):
    """The inside of the drum as a closed line, or a line so far outside it."""
    scale, to_x, to_z = _place(still)
    drum, shell = still.drum, still.drum.length / 2
    head = shell + (drum.half_length - shell) * _HEAD
    along = np.concatenate([-head[::-1], head])
    stretch = 1 + wall / (drum.half_length * scale)
    upper = [(to_x(x * stretch), to_z(drum.axis_height + r) - wall)
             for x, r in zip(along, section_radius(drum, along), strict=True)]
    return upper + [(x, 2 * _MIDDLE - y) for x, y in reversed(upper)]


def draw_shell(canvas, still, show_truth):
    """Draw what lies behind the water: wall and steam space, or a cover."""
    outline = _outline(still)
    canvas.clip("drum", outline)
    canvas.polygon(_outline(still, 6), "metal", "outline")
    canvas.polygon(outline, "steam" if show_truth else "hidden")


def draw_marks(canvas, still, show_truth):
    """Draw what lies before the water: the inner edge, tubes, centre line and upright level."""
    scale, to_x, to_z = _place(still)
    drum, font = still.drum, canvas.look.font
    canvas.polygon(_outline(still), None, "outline")
    left, right = to_x(drum.length / 2), to_x(-drum.length / 2)
    canvas.line(left, to_z(still.topmost_tube), right, to_z(still.topmost_tube), "limit")
    reach = drum.radius * scale + 14
    canvas.line(to_x(0), _MIDDLE - reach, to_x(0), _MIDDLE + reach, "centre")
    if canvas.look.detail and show_truth:
        canvas.text(to_x(0) + 10, to_z(still.topmost_tube) + 0.95 * font, "topmost tubes",
                    scale=0.85)
    if show_truth:
        canvas.line(left, to_z(still.upright_level), right, to_z(still.upright_level),
                    "true-thin")
    else:
        canvas.text(to_x(0), _MIDDLE - 0.6 * font, "what the drum holds is hidden", "middle",
                    bold=True)


def draw_window(canvas, still, edge, sign, top, bottom):
    """Mark the window of a glass on the drum, and lead it to the enlarged one beside it."""
    scale, to_x, to_z = _place(still)
    x, half = to_x(sign * still.distance / 2), max(2.0, 0.02 * scale)
    place, window = to_y(still.mounting, top, bottom), (still.mounting.visible_bottom,
                                                        still.mounting.visible_top)
    for height in window:
        canvas.line(edge, place(height), x, to_z(height), "limit")
    canvas.rect(x - half, to_z(window[1]), 2 * half, to_z(window[0]) - to_z(window[1]), "paper",
                "outline")


def draw_water(canvas, still, frame, foot):
    """Draw the water under its tilted plane, down to the foot of the sheet."""
    _, to_x, to_z = _place(still)
    reach = still.drum.half_length
    ends = [(to_x(x), to_z(frame.mid_level + frame.slope * x)) for x in (reach, -reach)]
    canvas.clipped_polygon("drum", [*ends, (ends[1][0], foot), (ends[0][0], foot)], "water")


@lru_cache(maxsize=32)
def _profile(drum):
    """Places along a drum, and the radius at each."""
    along = _POINTS * drum.half_length
    return along, section_radius(drum, along)


def shores(still, frames):
    """Return where the water plane of each frame meets the wall, left and right [m along]."""
    along, radius = _profile(still.drum)
    level, slope = (np.array([[getattr(frame, name)] for frame in frames])
                    for name in ("mid_level", "slope"))
    wet = np.abs(level + slope * along - still.drum.axis_height) <= radius
    first, last = wet.argmax(axis=1), len(along) - 1 - wet[:, ::-1].argmax(axis=1)
    middle = ~wet.any(axis=1)  # no shore at all, full or empty: a line of no length
    first[middle] = last[middle] = len(along) // 2
    return list(zip(along[last].tolist(), along[first].tolist(), strict=True))


def draw_levels(canvas, still, frame, shore):
    """Draw the water plane from wall to wall, its middle, and the tubes that it leaves dry."""
    scale, to_x, to_z = _place(still)
    left, right = ((to_x(x), to_z(frame.mid_level + frame.slope * x)) for x in shore)
    canvas.line(*left, *right, "true")
    x, y = to_x(0), to_z(frame.mid_level)
    canvas.mark([(x, y), (x - 6, y - 9), (x + 6, y - 9)], "true", filled=True)
    high = 1 if frame.slope > 0 else -1
    dry_end = to_x(-high * still.drum.length / 2)
    y = to_z(still.topmost_tube)
    canvas.line(dry_end, y, dry_end - high * frame.dry_tubes * scale, y, "dry")
    text = f"tubes dry over {frame.dry_tubes:.2f} m" if frame.dry_tubes >= 0.005 else ""
    canvas.text(to_x(0), SHOWN, text, "middle", bold=True, pen="error")
