"""How much water lies below a plane in a horizontal drum, and the way back.

Levels are heights above the water connection, measured square to the drum.
"""

import numpy as np

from ..errors import checked
from .drum_outline import Drum, sum_over_sections

_MOST_STEPS = 120  # halving alone ends below 1e-13 m by then

__all__ = ["Drum", "level_for", "level_from_volume", "surface_area", "water_volume"]


def _segment(radius, line):
    """Area of a circle below a line at `line` radii above its centre."""
    return radius ** 2 * (np.arccos(-line) + line * np.sqrt(1 - line ** 2))


def _chord(radius, line):
    return 2 * radius * np.sqrt(1 - line ** 2)


def _segment_and_chord(radius, line):
    root = np.sqrt(1 - line ** 2)
    return np.stack([radius ** 2 * (np.arccos(-line) + line * root), 2 * radius * root])


def water_volume(drum, level, slope_along=0.0, slope_across=0.0):
    """Return the volume of water below a plane in a drum.

    ``V = integral along x of r^2 (a - sin a cos a)``, ``cos a = -d/r``, with the distance
    ``d = (level - axis + s_along x) / sqrt(1 + s_across^2)`` of the plane above the axis

    Parameters
    ----------
    drum : Drum [m]
        Radius, length, ends.
    level : float or array [m]
        Height of the plane above the water connection at mid-length, on the drum's
        upright mid-plane; -100 to 100, outside the drum it is empty or full.
    slope_along, slope_across : float or array [m/m]
        Rise of the plane per metre along and across the axis, -60 to 60; they broadcast.

    Returns
    -------
    float or array [m3]
        Volume of water, of the broadcast shape.

    Raises
    ------
    InputError
        A value outside its range.

    Notes
    -----
    Half full on the centre line is half the drum at any slope. Relative error below 1e-11.

    References
    ----------
    [MENSURATION] circular segment, summed over the sections.

    Examples
    --------
    >>> round(water_volume(Drum(0.65, 5.6), 0.0), 3)
    3.717
    """
    level = checked("level", level, -100.0, 100.0, "m", "Give metres: 250 mm is 0.25.")
    return _below(drum, level, *_checked_slopes(slope_along, slope_across), _segment)


def _checked_slopes(along, across):
    return (checked(name, slope, -60.0, 60.0, "m/m",
                    "Give the tangent of an angle below 89 degrees.")
            for name, slope in (("slope along the drum", along), ("slope across the drum", across)))


def _below(drum, level, along, across, of_section):
    """A quantity of the sections, cut by the plane, summed along the axis."""
    upright = 1 / (1 + across ** 2) ** 0.5
    return sum_over_sections(drum, (level - drum.axis_height) * upright, along * upright,
                             of_section)


def surface_area(drum, level):
    """Return the area of the level water surface in an upright drum.

    ``A = integral along x of 2 sqrt(r^2 - d^2) = dV/d(level)``

    Parameters
    ----------
    drum : Drum [m]
        Radius, length, ends.
    level : float or array [m]
        Level above the water connection, within the drum.

    Returns
    -------
    float or array [m2]
        Area of the surface, same shape.

    Raises
    ------
    InputError
        A level outside the drum.

    References
    ----------
    [MENSURATION] chord of a circle.

    Examples
    --------
    >>> round(surface_area(Drum(0.65, 5.6), 0.0), 2)
    7.28
    """
    level = checked("level", level, drum.axis_height - drum.radius,
                    drum.axis_height + drum.radius, "m", "The surface lies inside the drum.")
    return _below(drum, level, 0.0, 0.0, _chord)


def level_from_volume(drum, volume):
    """Return the level at which an upright drum holds a volume of water.

    Parameters
    ----------
    drum : Drum [m]
        Radius, length, ends.
    volume : float or array [m3]
        Water in the drum, 0 to the whole volume.

    Returns
    -------
    float or array [m]
        Level above the water connection, same shape.

    Raises
    ------
    InputError
        A negative volume, or more than the drum holds.

    References
    ----------
    [MENSURATION] inverse of the volume, by Newton's steps.

    Examples
    --------
    >>> drum = Drum(0.65, 5.6, axis_height=0.2, head="ellipsoidal")
    >>> round(level_from_volume(drum, water_volume(drum, 0.31)), 9)
    0.31
    """
    return level_for(drum, volume)


def level_for(drum, volume, slope_along=0.0, slope_across=0.0):
    """Return the height at mid-length of a plane of given slopes that holds a volume.

    Parameters
    ----------
    drum : Drum [m]
        Radius, length, ends.
    volume : float or array [m3]
        Water in the drum, 0 to the whole volume.
    slope_along, slope_across : float or array [m/m]
        Rise of the plane per metre along and across the axis; they broadcast.

    Returns
    -------
    float or array [m]
        Height above the water connection at mid-length, on the upright mid-plane.

    Raises
    ------
    InputError
        A slope outside its range, or more water than the drum holds.

    Notes
    -----
    Newton's steps, for the surface is the slope of the volume; a step that would leave
    the bracket halves it. All the planes of an array are found together.

    References
    ----------
    [MENSURATION] inverse of the volume.

    Examples
    --------
    >>> drum = Drum(0.65, 5.6)
    >>> round(level_for(drum, drum.volume / 2, slope_along=0.2), 9) == 0.0
    True
    """
    along, across = _checked_slopes(slope_along, slope_across)
    volume, along, across = np.broadcast_arrays(_checked_volume(drum, volume), along, across)
    reach = drum.radius * np.sqrt(1 + across ** 2) + np.abs(along) * drum.half_length
    low, high = drum.axis_height - reach, drum.axis_height + reach
    empty, full = volume <= 0, volume >= drum.volume
    level = 0.5 * (low + high)
    for _ in range(_MOST_STEPS):
        below, chords = _below(drum, level, along, across, _segment_and_chord)
        surplus = below - volume
        low, high = np.where(surplus <= 0, level, low), np.where(surplus >= 0, level, high)
        slope = chords / np.sqrt(1 + across ** 2)
        step = level - surplus / np.maximum(slope, 1e-12)
        inside = (step >= low) & (step <= high)
        before, level = level, np.where(inside, step, 0.5 * (low + high))
        if np.all(np.abs(level - before) < 1e-13):
            break
    level = np.where(empty, drum.axis_height - reach,
                     np.where(full, drum.axis_height + reach, level))
    return level if level.ndim else float(level)


def _checked_volume(drum, volume):
    brim = drum.volume * (1 + 1e-12)  # a full drum, added up in another order
    return checked("water volume", volume, 0.0, brim, "m3",
                   "The drum cannot hold more than its own volume.")
