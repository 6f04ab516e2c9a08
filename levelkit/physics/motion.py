"""A drum in a rolling ship: apparent gravity, slosh, and heights that list has shortened."""

from math import pi, radians

import numpy as np

from ..constants import STANDARD_GRAVITY
from ..errors import InputError, checked
from ._scalar import checked_gravity

STATIC_LIST, ROLL = radians(15.0), radians(22.5)
"""List and roll at which machinery must work [rad] (source EU-2009-45)."""
STATIC_TRIM, PITCH = radians(5.0), radians(7.5)
"""Trim and pitch at which machinery must work [rad] (source SOLAS-II-1-26, from memory)."""

_STEEP = radians(89.0)
_RADIANS = "Give radians: 10 degrees is 0.1745."


def apparent_list(roll_angle, roll_period, height_above_axis, gravity=STANDARD_GRAVITY):
    """Return the list of a surface that stays square to apparent gravity while the ship rolls.

    ``theta_app = phi (1 + omega^2 z / g)``, ``omega = 2 pi / T``

    Parameters
    ----------
    roll_angle : float or array [rad]
        Roll at an instant, or its amplitude; -0.7 to 0.7.
    roll_period : float or array [s]
        Period of the roll, 1 to 120.
    height_above_axis : float or array [m]
        Height of the drum above the roll axis, negative below; -60 to 60.
    gravity : float [m/s2]
        Acceleration of gravity.

    Returns
    -------
    float or array [rad]
        List of the surface relative to the drum, of the sign of the roll unless the
        drum lies deep below the axis.

    Raises
    ------
    InputError
        A value outside its range.

    Notes
    -----
    Small angles, a sinusoidal roll, and a roll slow beside the slosh period: otherwise
    see :func:`swing_amplification`. Above the axis the surface swings more than the ship.

    References
    ----------
    [SMALL-ROLL] transverse acceleration of a point that rolls.

    Examples
    --------
    >>> from math import degrees, radians
    >>> round(degrees(apparent_list(radians(10.0), 9.0, 6.0, gravity=9.81)), 2)
    12.98
    """
    roll = checked("roll angle", roll_angle, -0.7, 0.7, "rad", _RADIANS)
    period = checked("roll period", roll_period, 1.0, 120.0, "s", "Give seconds.")
    height = checked("height above the roll axis", height_above_axis, -60.0, 60.0, "m",
                     "Give metres, negative below the axis.")
    gravity = checked_gravity(gravity)
    return roll * (1 + (2 * pi / period) ** 2 * height / gravity)


def level_shift(distance, angle):
    """Return how far an inclined surface stands above its level at mid-drum.

    ``shift = y tan(angle)``

    Parameters
    ----------
    distance : float or array [m]
        Distance from mid-drum towards the low side, negative towards the high side;
        -50 to 50.
    angle : float or array [rad]
        List of the surface relative to the drum, 89 degrees at most either way.

    Returns
    -------
    float or array [m]
        Shift of the level there, measured square to the drum.

    Raises
    ------
    InputError
        A value outside its range.

    References
    ----------
    [MENSURATION] a plane.

    Examples
    --------
    >>> from math import radians
    >>> round(level_shift(2.0, radians(15.0)), 4)
    0.5359
    """
    distance = checked("distance from mid-drum", distance, -50.0, 50.0, "m", "Give metres.")
    angle = checked("angle", angle, -_STEEP, _STEEP, "rad", _RADIANS)
    shift = distance * np.tan(angle)
    return shift if np.ndim(shift) else float(shift)


def slosh_period(length, depth, gravity=STANDARD_GRAVITY):
    """Return the longest period in which water swings to and fro in a rectangular pool.

    ``omega^2 = (pi g / L) tanh(pi d / L)``, ``T = 2 pi / omega``

    Parameters
    ----------
    length : float or array [m]
        Length of the pool in the direction of the swing, 0.05 to 50.
    depth : float or array [m]
        Depth of the water, 0.001 to 20.
    gravity : float [m/s2]
        Acceleration of gravity.

    Returns
    -------
    float or array [s]
        Period.

    Raises
    ------
    InputError
        A value outside its range.

    Notes
    -----
    A drum is not rectangular and its baffles slow and damp the swing: an estimate.
    Shallow water gives ``2 L / sqrt(g d)``.

    References
    ----------
    [WAVES-LINEAR]

    Examples
    --------
    >>> round(slosh_period(5.4, 0.62, gravity=9.81), 2)
    4.47
    """
    length = checked("pool length", length, 0.05, 50.0, "m", "Give metres.")
    depth = checked("water depth", depth, 0.001, 20.0, "m", "Give metres.")
    gravity = checked_gravity(gravity)
    squared = pi * gravity / length * np.tanh(pi * depth / length)
    period = 2 * pi / np.sqrt(squared)
    return period if np.ndim(period) else float(period)


def swing_amplification(forcing_period, natural_period):
    """Return by how much slosh enlarges the level swing of a slow roll.

    ``gain = 1 / (1 - (T_n / T)^2)``

    Parameters
    ----------
    forcing_period : float or array [s]
        Period of the roll or pitch, 0.1 to 1000.
    natural_period : float or array [s]
        Slosh period, 0.1 to 1000.

    Returns
    -------
    float or array [1]
        Amplification; negative where the roll is the quicker, the water then swinging
        against it.

    Raises
    ------
    InputError
        A value outside its range, or periods within 2 % of each other: without damping
        the swing there has no bound.

    References
    ----------
    [WAVES-LINEAR] an undamped oscillator driven by a sinusoid.

    Examples
    --------
    >>> round(swing_amplification(8.0, 4.47), 2)
    1.45
    """
    forcing = checked("forcing period", forcing_period, 0.1, 1000.0, "s", "Give seconds.")
    natural = checked("slosh period", natural_period, 0.1, 1000.0, "s", "Give seconds.")
    ratio = natural / forcing
    if np.any(np.abs(ratio - 1) < 0.02):
        raise InputError(
            f"The roll period ({np.mean(forcing):.4g} s) is the slosh period "
            f"({np.mean(natural):.4g} s) within 2 %: resonance, where the swing without damping "
            "has no bound. Allowed is a ratio below 0.98 or above 1.02. Change the period, the "
            "depth or the length.")
    return 1 / (1 - ratio ** 2)


def roll_period(beam, metacentric_height, factor=0.8):
    """Return the natural rolling period of a ship.

    ``T = f B / sqrt(GM)``

    Parameters
    ----------
    beam : float or array [m]
        Breadth, 1 to 80.
    metacentric_height : float or array [m]
        Metacentric height, 0.05 to 20.
    factor : float [s/m^0.5]
        Factor of the loading, about 0.75 to 0.88 in small ships; 0.6 to 1.

    Returns
    -------
    float or array [s]
        Period of a whole roll, out and back.

    Raises
    ------
    InputError
        A value outside its range.

    References
    ----------
    [IMO-IS-CODE-2008] rolling-period test, factor from memory.

    Examples
    --------
    >>> round(roll_period(10.0, 0.64), 1)
    10.0
    """
    beam = checked("beam", beam, 1.0, 80.0, "m", "Give metres.")
    height = checked("metacentric height", metacentric_height, 0.05, 20.0, "m",
                     "Give metres; the ship must be stable.")
    factor = checked("rolling factor", factor, 0.6, 1.0, "s/m^0.5", "About 0.8.")
    return factor * beam / height ** 0.5


def vertical_height(height, to_port=0.0, aft=0.0, list_angle=0.0, trim_angle=0.0):
    """Return the true vertical height of a place that is fixed in an inclined ship.

    ``z_v = (z - y tan list - x tan trim) / sqrt(1 + tan^2 list + tan^2 trim)``

    Parameters
    ----------
    height : float or array [m]
        Height above the water connection, measured square to the drum.
    to_port, aft : float or array [m]
        Distance of the place to port and aft of the water connection.
    list_angle, trim_angle : float or array [rad]
        List positive to port, trim positive by the stern, as clinometers show them.

    Returns
    -------
    float or array [m]
        Vertical height above the water connection.

    Raises
    ------
    InputError
        An angle beyond 89 degrees or a distance beyond 50 m.

    Notes
    -----
    For a remote instrument: give its column list the vertical heights of weir, surface
    and tapping instead of the upright ones, and cosine and offset are both in it.

    References
    ----------
    [MENSURATION] projection on the vertical.

    Examples
    --------
    >>> from math import radians
    >>> round(vertical_height(0.8, list_angle=radians(12.0)) / 0.8, 4)
    0.9781
    """
    height = checked("height", height, -50.0, 50.0, "m", "Give metres.")
    to_port = checked("distance to port", to_port, -50.0, 50.0, "m", "Give metres.")
    aft = checked("distance aft", aft, -50.0, 50.0, "m", "Give metres.")
    list_slope = np.tan(checked("list", list_angle, -_STEEP, _STEEP, "rad", _RADIANS))
    trim_slope = np.tan(checked("trim", trim_angle, -_STEEP, _STEEP, "rad", _RADIANS))
    vertical = ((height - to_port * list_slope - aft * trim_slope)
                / np.sqrt(1 + list_slope ** 2 + trim_slope ** 2))
    return vertical if np.ndim(vertical) else float(vertical)
