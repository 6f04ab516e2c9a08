"""How much water lies below a plane in a horizontal drum, and the way back.

Levels are heights above the water connection, measured square to the drum.
"""

from math import sqrt

import numpy as np

from ..errors import checked
from .drum_outline import Drum, sum_over_sections

__all__ = ["Drum", "level_for", "level_from_volume", "surface_area", "water_volume"]


def _segment(radius, line):
    """Area of a circle below a line at `line` radii above its centre."""
    half_angle = np.arccos(-line)
    return radius ** 2 * (half_angle - np.sin(half_angle) * np.cos(half_angle))


def _chord(radius, line):
    return 2 * radius * np.sqrt(1 - line ** 2)


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
    slope_along, slope_across : float [m/m]
        Rise of the plane per metre along and across the axis, -60 to 60.

    Returns
    -------
    float or array [m3]
        Volume of water, same shape as `level`.

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
    _check_slopes(slope_along, slope_across)
    return _each(lambda at: _volume(drum, at, slope_along, slope_across), level)


def _check_slopes(along, across):
    for name, slope in (("slope along the drum", along), ("slope across the drum", across)):
        checked(name, slope, -60.0, 60.0, "m/m", "Give the tangent of an angle below 89 degrees.")


def _volume(drum, level, along, across):
    upright = 1 / sqrt(1 + across ** 2)
    return sum_over_sections(drum, (level - drum.axis_height) * upright, along * upright, _segment)


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
    return _each(lambda height: sum_over_sections(drum, height, 0.0, _chord),
                 level - drum.axis_height)


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
    [MENSURATION] inverse of the volume by scipy's brentq.

    Examples
    --------
    >>> drum = Drum(0.65, 5.6, axis_height=0.2, head="ellipsoidal")
    >>> round(level_from_volume(drum, water_volume(drum, 0.31)), 9)
    0.31
    """
    return _each(lambda wanted: level_for(drum, wanted), _checked_volume(drum, volume))


def _checked_volume(drum, volume):
    return checked("water volume", volume, 0.0, drum.volume, "m3",
                   "The drum cannot hold more than its own volume.")


def level_for(drum, volume, slope_along=0.0, slope_across=0.0):
    """Return the height at mid-length of a plane of given slopes that holds a volume.

    Parameters
    ----------
    drum : Drum [m]
        Radius, length, ends.
    volume : float [m3]
        Water in the drum, 0 to the whole volume.
    slope_along, slope_across : float [m/m]
        Rise of the plane per metre along and across the axis.

    Returns
    -------
    float [m]
        Height above the water connection at mid-length, on the upright mid-plane.

    Raises
    ------
    InputError
        A slope outside its range, or more water than the drum holds.

    References
    ----------
    [MENSURATION] inverse of the volume by scipy's brentq.

    Examples
    --------
    >>> drum = Drum(0.65, 5.6)
    >>> round(level_for(drum, drum.volume / 2, slope_along=0.2), 9) == 0.0
    True
    """
    from scipy.optimize import brentq

    _check_slopes(slope_along, slope_across)
    volume = _checked_volume(drum, volume)
    reach = drum.radius * sqrt(1 + slope_across ** 2) + abs(slope_along) * drum.half_length
    low, high = drum.axis_height - reach, drum.axis_height + reach

    def surplus(level):
        return _volume(drum, level, slope_along, slope_across) - volume

    for end, reached in ((low, surplus(low) >= 0), (high, surplus(high) <= 0)):
        if reached:  # empty or brim-full, but for the last digit
            return end
    return brentq(surplus, low, high, xtol=1e-13, rtol=1e-14)


def _each(function, values):
    """`function` of a number, or of every number of an array."""
    if not np.ndim(values):
        return function(float(values))
    return np.array([function(value) for value in values.ravel()]).reshape(np.shape(values))
