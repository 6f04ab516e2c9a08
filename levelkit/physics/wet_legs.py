"""The two water legs of a remote level indicator, as column lists.

The constant-head chamber keeps the reference leg full to its weir; the drum-side leg
runs from the lower connection. Both end at the manifold, `depth` below the lower
connection. Two-fluid indicator and DP transmitter hang on the same legs.
"""

from dataclasses import dataclass
from math import cos, sin

import numpy as np

from ..constants import STANDARD_GRAVITY
from .columns import Column, column_head
from .leg_state import checked_contents
from .manifold import port_pressures


@dataclass(frozen=True, slots=True)
class LegColumns:
    """The two ways down from the steam space to the manifold.

    Attributes
    ----------
    reference, drum_side : tuple of Column [kg/m3, m]
        Columns from the level of the weir down; vertical extents.
    """

    reference: tuple
    drum_side: tuple


@dataclass(frozen=True, slots=True)
class LegPressures:
    """Pressures at the feet of both legs at rest.

    Attributes
    ----------
    reference, drum_side : float or array [Pa]
        Absolute pressures at manifold depth.
    """

    reference: object
    drum_side: object


def leg_columns(drum, legs):
    """Return the columns from the steam space down both legs to the manifold.

    Parameters
    ----------
    drum : DrumContents [m, Pa, kg/m3]
        Level, pressure, densities; numbers may be arrays.
    legs : LegsState [m, kg/m3]
        The legs.

    Returns
    -------
    LegColumns
        Columns of vertical extent [m] and density [kg/m3].

    Raises
    ------
    InputError
        A value outside its range, or a level above the weir.

    Notes
    -----
    Under list every length counts with the cosine, and a chamber that stands off to one
    side is lifted by its offset times the sine. With the level below the lower connection
    the drum-side leg stays full to the tapping: the instrument no longer sees the level.

    References
    ----------
    [HYDROSTATICS] only vertical extents count.

    Examples
    --------
    >>> from levelkit.physics.leg_state import DrumContents, LegsState
    >>> legs = LegsState(0.8, 2.0, 990.6, 990.6, 990.6, reference_loss=0.12)
    >>> columns = leg_columns(DrumContents(0.3, 6.1e6, 756.1, 31.4), legs)
    >>> [(c.name, round(c.lower_height, 2)) for c in columns.reference]
    [('steam', 0.68), ('gas', 0.68), ('reference leg', 0.0), ('reference run', -2.0)]
    """
    drum = checked_contents(drum, legs.weir_height)
    upright = cos(legs.list_angle)
    weir = legs.weir_height * upright + legs.chamber_offset * sin(legs.list_angle)
    level = upright * (np.maximum(drum.level, 0.0) if np.ndim(drum.level) else
                       max(drum.level, 0.0))
    surface = weir - legs.reference_loss * upright
    below_gas = surface - legs.reference_gas * upright
    foot = -legs.depth * upright
    reference = (Column(drum.steam_density, surface, weir, "steam"),
                 Column(legs.gas_density, below_gas, surface, "gas"),
                 Column(legs.reference_density, 0.0, below_gas, "reference leg"),
                 Column(legs.reference_run_density, foot, 0.0, "reference run"))
    gas_foot = -legs.drum_gas * upright
    drum_side = (Column(drum.steam_density, level, weir, "steam"),
                 Column(drum.water_density, 0.0, level, "drum water"),
                 Column(legs.gas_density, gas_foot, 0.0, "gas"),
                 Column(legs.drum_run_density, foot, gas_foot, "drum-side run"))
    return LegColumns(reference, drum_side)


def leg_pressures(drum, legs, gravity=STANDARD_GRAVITY):
    """Return the pressures at the feet of both legs at rest.

    ``p_ref - p_drum = g [(rho_r - rho_g) H - (rho_f - rho_g) h + (rho_r - rho_c) d]``
    for full legs, upright

    Parameters
    ----------
    drum : DrumContents [m, Pa, kg/m3]
        Level, pressure, densities; numbers may be arrays.
    legs : LegsState [m, kg/m3]
        The legs.
    gravity : float [m/s2]
        Acceleration of gravity.

    Returns
    -------
    LegPressures
        Absolute pressures [Pa].

    Raises
    ------
    InputError
        A value outside its range, or a level above the weir.

    References
    ----------
    [HYDROSTATICS] column list down each leg.

    Examples
    --------
    >>> from levelkit.physics.leg_state import DrumContents, LegsState
    >>> legs = LegsState(0.8, 2.0, 990.6, 990.6, 990.6)
    >>> feet = leg_pressures(DrumContents(0.52, 6.1e6, 756.1, 31.4), legs, gravity=9.81)
    >>> round(feet.reference - feet.drum_side)
    3831
    """
    columns = leg_columns(drum, legs)
    isolated = legs.chamber.isolated_pressure
    above = drum.pressure if isolated is None else isolated
    return LegPressures(above + column_head(columns.reference, gravity),
                        drum.pressure + column_head(columns.drum_side, gravity))


def instrument_ports(drum, legs, capsule_give=0.0, gravity=STANDARD_GRAVITY):
    """Return the pressures at the ports of the instrument that hangs on the legs.

    Parameters
    ----------
    drum : DrumContents [m, Pa, kg/m3]
        Level, pressure, densities; numbers may be arrays.
    legs : LegsState [m, kg/m3]
        The legs with their valves.
    capsule_give : float [1]
        Share of a pressure change that the instrument hands on to trapped water.
    gravity : float [m/s2]
        Acceleration of gravity.

    Returns
    -------
    PortPressures
        Port pressures [Pa] and flow out of the reference leg [Pa].

    Raises
    ------
    InputError
        A value outside its range, a level above the weir, or a shut isolator without a
        record of the pressure behind it.

    References
    ----------
    [HYDROSTATICS] legs; [MANIFOLD-MODEL] valves.

    Examples
    --------
    >>> from levelkit.physics.leg_state import DrumContents, LegsState
    >>> from levelkit.physics.manifold import ManifoldState
    >>> legs = LegsState(0.8, 2.0, 990.6, 990.6, 990.6, manifold=ManifoldState(equaliser=1.0))
    >>> ports = instrument_ports(DrumContents(0.4, 6.1e6, 756.1, 31.4), legs)
    >>> ports.reference == ports.drum_side
    True
    """
    feet = leg_pressures(drum, legs, gravity)
    return port_pressures(feet.reference, feet.drum_side, legs.manifold, capsule_give,
                          legs.barometer)
