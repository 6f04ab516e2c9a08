"""The one rule: a list of fluid columns, and the pressure it makes.

Down is plus, up is minus. Only vertical extent counts; bore, slope and horizontal
run do not.
"""

from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from ..constants import STANDARD_GRAVITY
from ..errors import InputError, checked
from ._scalar import checked_gravity

_LARGEST = 1e12


@dataclass(frozen=True, slots=True)
class Column:
    """A stretch of one fluid at rest.

    Attributes
    ----------
    density : float or array [kg/m3]
        Density of the fluid.
    lower_height : float or array [m]
        Height of its lower end above the datum.
    upper_height : float or array [m]
        Height of its upper end above the datum.
    name : str
        What it is, for a drawing or a worked line.
    """

    density: object
    lower_height: object
    upper_height: object
    name: str = ""

    def __post_init__(self):
        for name, value, unit in (("density of a column", self.density, "kg/m3"),
                                  ("lower end of a column", self.lower_height, "m"),
                                  ("upper end of a column", self.upper_height, "m")):
            # columns are made thousands of times in a loop: a plain number passes at once
            if not (isinstance(value, float) and -_LARGEST < value < _LARGEST):
                checked(name, value, -_LARGEST, _LARGEST, unit)


def column_head(columns, gravity=STANDARD_GRAVITY):
    """Return the pressure by which the foot of a stack of columns exceeds its top.

    ``p_foot - p_top = sum of rho g (z_upper - z_lower)``

    Parameters
    ----------
    columns : sequence of Column [kg/m3, m]
        The columns, in any order; their numbers may be arrays that broadcast.
    gravity : float [m/s2]
        Acceleration of gravity.

    Returns
    -------
    float or array [Pa]
        Pressure difference; 0 for no column.

    Notes
    -----
    A column whose upper end lies below its lower one counts negative: that keeps
    the rule linear, which :func:`balancing_height` needs.

    References
    ----------
    [HYDROSTATICS] fluid at rest.

    Examples
    --------
    >>> round(column_head([Column(1000.0, 0.0, 1.0)]))
    9807
    """
    gravity = checked_gravity(gravity)
    head = 0.0
    for column in columns:
        head = head + column.density * gravity * (column.upper_height - column.lower_height)
    return head


def path_difference(down, up, gravity=STANDARD_GRAVITY):
    """Return the pressure at the end of an open path less the pressure at its start.

    ``p_end - p_start = sum over the way down - sum over the way up``

    Parameters
    ----------
    down : sequence of Column [kg/m3, m]
        Columns walked downwards.
    up : sequence of Column [kg/m3, m]
        Columns walked upwards.
    gravity : float [m/s2]
        Acceleration of gravity.

    Returns
    -------
    float or array [Pa]
        Pressure difference; zero where the path closes on itself.

    References
    ----------
    [HYDROSTATICS] fluid at rest.

    Examples
    --------
    >>> path_difference([Column(997.0, 0.0, 0.5)], [Column(997.0, 0.0, 0.5)])
    0.0
    """
    return column_head(down, gravity) - column_head(up, gravity)


def pressure_at(height, pressure_above, columns, gravity=STANDARD_GRAVITY):
    """Return the pressure at a height inside a stack of columns.

    ``p(z) = p_top + sum of rho g (part of each column above z)``

    Parameters
    ----------
    height : float or array [m]
        Where the pressure is wanted, within the stack.
    pressure_above : float or array [Pa]
        Pressure on top of the stack.
    columns : sequence of Column [kg/m3, m]
        Columns that stand on each other without a gap, in any order.
    gravity : float [m/s2]
        Acceleration of gravity.

    Returns
    -------
    float or array [Pa]
        Pressure at `height`.

    Raises
    ------
    InputError
        No column, a gap between columns, or a height outside the stack.

    References
    ----------
    [HYDROSTATICS] fluid at rest.

    Examples
    --------
    >>> stack = [Column(4.0, 0.25, 0.5, "steam"), Column(900.0, 0.0, 0.25, "water")]
    >>> round(pressure_at(0.0, 800_000.0, stack))
    802216
    """
    if not columns:
        raise InputError("The column list is empty; give at least one column of density, lower "
                         "and upper height in metres.")
    ordered = sorted(columns, key=lambda column: np.mean(column.lower_height))
    for below, above in pairwise(ordered):
        if not np.allclose(below.upper_height, above.lower_height, atol=1e-9):
            raise InputError(
                f"The column list has a gap: one column ends at {np.mean(below.upper_height):.4g} "
                f"m and the next begins at {np.mean(above.lower_height):.4g} m. Let them meet."
            )
    foot, top = ordered[0].lower_height, ordered[-1].upper_height
    height = checked("height", height, -_LARGEST, _LARGEST, "m")
    above = checked("pressure above", pressure_above, -_LARGEST, _LARGEST, "Pa")
    if np.any(np.less(height, foot)) or np.any(np.greater(height, top)):
        raise InputError(
            f"The height {np.mean(height):.4g} m is outside the columns; the allowed range is "
            f"{np.mean(foot):.4g} to {np.mean(top):.4g} m."
        )
    parts = [Column(column.density, np.clip(height, column.lower_height, column.upper_height),
                    column.upper_height) for column in columns]
    pressure = above + column_head(parts, gravity)
    return pressure if np.ndim(pressure) else float(pressure)


def balancing_height(difference):
    """Return the height at which a path difference vanishes.

    A path difference is linear in any one height, so two evaluations give the root:
    ``z = d(0) / (d(0) - d(1 m))``

    Parameters
    ----------
    difference : callable [m -> Pa]
        Path difference as a function of the unknown height.

    Returns
    -------
    float or array [m]
        The height that closes the path.

    Raises
    ------
    InputError
        The height does not change the pressure: both fluids have one density.

    References
    ----------
    [HYDROSTATICS] fluid at rest.

    Examples
    --------
    >>> drum = [Column(900.0, 0.0, 0.2)]
    >>> round(balancing_height(lambda y: path_difference(drum, [Column(1000.0, 0.0, y)])), 3)
    0.18
    """
    at_zero, at_one = difference(0.0), difference(1.0)
    slope = at_zero - at_one
    if np.any(np.equal(slope, 0.0)):
        raise InputError("The two fluids have the same density (difference 0 kg/m3), so their "
                         "surface has no height to find. Give two different densities.")
    return at_zero / slope
