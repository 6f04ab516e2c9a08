"""The balance of a two-fluid U-tube with both legs alike: level to R and R to level."""

import numpy as np

from ..constants import STANDARD_GRAVITY
from ..errors import InputError, checked
from ._scalar import anywhere
from .columns import Column, balancing_height, path_difference
from .differential import level_of_differential, reference_differential


def fluid_difference(level, weir_height, water_density, steam_density, leg_density,
                     fluid_density, gravity=STANDARD_GRAVITY):
    """Return the difference of the two fluid surfaces for a drum level.

    ``R = [(rho_w - rho_g) H - (rho_f - rho_g) h] / (rho_m - rho_w)``

    Parameters
    ----------
    level : float or array [m]
        True level above the lower connection, 0 to `weir_height`.
    weir_height : float [m]
        Height of the weir.
    water_density, steam_density, leg_density : float or array [kg/m3]
        Drum and legs, both legs alike.
    fluid_density : float or array [kg/m3]
        Indicating fluid, denser than the leg water.
    gravity : float [m/s2]
        Acceleration of gravity; it cancels.

    Returns
    -------
    float or array [m]
        R, positive: the fluid stands lower in the constant-head limb.

    Raises
    ------
    InputError
        A value outside its range, or a fluid no denser than the leg water.

    Notes
    -----
    It is the difference of densities that counts, because water stands on the fluid. The
    other textbook form, ``H = h + s x`` with heights measured to the lower surface, needs
    the density of the fluid relative to the leg water.

    References
    ----------
    [HYDROSTATICS] round the loop drum, reference leg, fluid, drum-side leg.

    Examples
    --------
    >>> round(1e3 * fluid_difference(0.3, 0.5, 785.5, 23.2, 992.2, 1400.0), 1)
    627.3
    """
    fluid = _checked_fluid(fluid_density, leg_density)
    across = reference_differential(level, weir_height, water_density, steam_density,
                                    leg_density, gravity)
    return balancing_height(lambda difference: across + path_difference(
        [Column(leg_density, 0.0, difference)], [Column(fluid, 0.0, difference)], gravity))


def level_of_fluid_difference(difference, weir_height, water_density, steam_density,
                              leg_density, fluid_density):
    """Return the drum level for a difference of the two fluid surfaces.

    ``h = [(rho_w - rho_g) H - (rho_m - rho_w) R] / (rho_f - rho_g)``

    Parameters
    ----------
    difference : float or array [m]
        R, positive where the fluid stands lower in the constant-head limb; -10 to 10.
    weir_height : float [m]
        Height of the weir.
    water_density, steam_density, leg_density, fluid_density : float or array [kg/m3]
        Drum, legs (alike) and indicating fluid.

    Returns
    -------
    float or array [m]
        Level above the lower connection; outside 0 to the weir where R belongs to none.

    Raises
    ------
    InputError
        A value outside its range, or a fluid no denser than the leg water.

    References
    ----------
    [HYDROSTATICS] round the loop drum, reference leg, fluid, drum-side leg.

    Examples
    --------
    >>> round(level_of_fluid_difference(0.665, 0.5, 785.5, 23.2, 992.2, 1373.0), 4)
    0.3034
    """
    difference = checked("difference of the surfaces", difference, -10.0, 10.0, "m",
                         "Give metres: 627 mm is 0.627.")
    fluid = _checked_fluid(fluid_density, leg_density)
    weight = path_difference([Column(fluid, 0.0, difference)],
                             [Column(leg_density, 0.0, difference)])
    return level_of_differential(weight, weir_height, water_density, steam_density, leg_density)


def _checked_fluid(fluid_density, leg_density):
    fluid = checked("density of the indicating fluid", fluid_density, 1.0, 20000.0, "kg/m3",
                    "It must be denser than the leg water.")
    leg_density = checked("leg water density", leg_density, 1.0, 1100.0, "kg/m3")
    if anywhere(fluid <= leg_density):
        raise InputError(
            f"The indicating fluid ({np.min(fluid):.4g} kg/m3) is not denser than the leg water "
            f"({np.max(leg_density):.4g} kg/m3); the allowed range begins above that density.")
    return fluid
