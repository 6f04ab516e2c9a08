"""Level and differential pressure of a constant-head leg: one balance, read both ways.

Both legs alike below the lower connection, so that the depth of the instrument does not
enter; :mod:`levelkit.physics.wet_legs` has the legs with everything that can go wrong.
"""

import numpy as np

from ..constants import STANDARD_GRAVITY
from ..errors import InputError, checked
from ._scalar import anywhere
from .columns import Column, balancing_height, path_difference


def reference_differential(level, weir_height, water_density, steam_density, leg_density,
                           gravity=STANDARD_GRAVITY):
    """Return by how much the reference leg outweighs the drum side.

    ``dp_r = g [(rho_r - rho_g) H - (rho_f - rho_g) h]``

    Parameters
    ----------
    level : float or array [m]
        True level above the lower connection, 0 to `weir_height`.
    weir_height : float [m]
        Height of the weir, 0.05 to 20.
    water_density, steam_density : float or array [kg/m3]
        Water and steam of the drum.
    leg_density : float or array [kg/m3]
        Water in the reference leg.
    gravity : float [m/s2]
        Acceleration of gravity.

    Returns
    -------
    float or array [Pa]
        p_reference - p_drum-side: positive in service, 0 with the equaliser open.

    Raises
    ------
    InputError
        A value outside its range, or a level above the weir.

    References
    ----------
    [HYDROSTATICS] round the loop drum, reference leg, instrument, drum-side leg.

    Examples
    --------
    >>> round(reference_differential(0.52, 0.8, 756.1, 31.4, 990.6, gravity=9.81))
    3831
    """
    weir = _checked_weir(weir_height)
    level = checked("drum level", level, 0.0, weir, "m",
                    "The instrument sees nothing above its upper tapping; give metres.")
    densities = _checked_densities(water_density, steam_density, leg_density)
    return _difference(level, weir, *densities, gravity)


def level_of_differential(differential, weir_height, water_density, steam_density, leg_density,
                          gravity=STANDARD_GRAVITY):
    """Return the level that a differential pressure stands for.

    ``h = [(rho_r - rho_g) g H - dp_r] / [(rho_f - rho_g) g]``

    Parameters
    ----------
    differential : float or array [Pa]
        p_reference - p_drum-side, -1e8 to 1e8.
    weir_height : float [m]
        Height of the weir, 0.05 to 20.
    water_density, steam_density, leg_density : float or array [kg/m3]
        Densities that the instrument assumes: those of the calibration, or those that a
        compensating instrument computes from the drum pressure.
    gravity : float [m/s2]
        Acceleration of gravity.

    Returns
    -------
    float or array [m]
        Level above the lower connection; outside 0 to the weir where the differential
        belongs to no level in the drum.

    Raises
    ------
    InputError
        A value outside its range, or water no denser than the steam.

    References
    ----------
    [HYDROSTATICS] round the loop drum, reference leg, instrument, drum-side leg.

    Examples
    --------
    >>> round(1e3 * level_of_differential(4300.0, 0.8, 756.1, 31.4, 990.6, gravity=9.81), 1)
    454.0
    """
    weir = _checked_weir(weir_height)
    differential = checked("differential pressure", differential, -1e8, 1e8, "Pa",
                           "Give pascal: 4.3 kPa is 4300.")
    densities = _checked_densities(water_density, steam_density, leg_density)
    return balancing_height(
        lambda level: _difference(level, weir, *densities, gravity) - differential)


def indicated_level(level, weir_height, water_density, steam_density, leg_density,
                    assumed_water_density, assumed_steam_density, assumed_leg_density):
    """Return what an instrument shows that assumes other densities than there are.

    ``h_i = [(rho_r0 - rho_g0) H - (rho_r - rho_g) H + (rho_f - rho_g) h] / (rho_f0 - rho_g0)``

    Parameters
    ----------
    level : float or array [m]
        True level above the lower connection, 0 to `weir_height`.
    weir_height : float [m]
        Height of the weir.
    water_density, steam_density, leg_density : float or array [kg/m3]
        Densities as they are.
    assumed_water_density, assumed_steam_density, assumed_leg_density : float [kg/m3]
        Densities of the calibration.

    Returns
    -------
    float or array [m]
        Indicated level, before the limits of scale or signal.

    Raises
    ------
    InputError
        A value outside its range.

    Notes
    -----
    Below the calibration pressure it reads HIGH but near the bottom. A two-fluid indicator
    of the same calibration shows the same as long as its legs keep their density; where
    they do not, its own factor (rho_m - rho_w0)/(rho_m - rho_w) comes on top.

    References
    ----------
    [HYDROSTATICS] the balance made with one set of densities and read with another.

    Examples
    --------
    >>> round(indicated_level(0.4, 0.8, 998.2, 1.2, 998.2, 756.1, 31.4, 990.6), 4)
    0.5086
    """
    differential = reference_differential(level, weir_height, water_density, steam_density,
                                          leg_density)
    return level_of_differential(differential, weir_height, assumed_water_density,
                                 assumed_steam_density, assumed_leg_density)


def right_level(weir_height, water_density, steam_density, leg_density, assumed_water_density,
                assumed_steam_density, assumed_leg_density):
    """Return the level at which an instrument with other densities is right after all.

    ``h* = H [(rho_r0 - rho_g0) - (rho_r - rho_g)] / [(rho_f0 - rho_g0) - (rho_f - rho_g)]``

    Parameters
    ----------
    weir_height : float [m]
        Height of the weir.
    water_density, steam_density, leg_density : float or array [kg/m3]
        Densities as they are.
    assumed_water_density, assumed_steam_density, assumed_leg_density : float [kg/m3]
        Densities of the calibration.

    Returns
    -------
    float or array [m]
        Level of no error; it may lie outside the range of the instrument.

    Raises
    ------
    InputError
        A value outside its range, or a drum as dense as at calibration: then the error is
        the same at every level.

    References
    ----------
    [HYDROSTATICS] root of the error, which is linear in the level.

    Examples
    --------
    >>> round(right_level(0.8, 998.2, 1.2, 998.2, 756.1, 31.4, 990.6), 3)
    0.111
    """
    weir = _checked_weir(weir_height)
    real = _checked_densities(water_density, steam_density, leg_density)
    assumed = _checked_densities(assumed_water_density, assumed_steam_density,
                                 assumed_leg_density)
    return balancing_height(lambda level: _difference(level, weir, *real, STANDARD_GRAVITY)
                            - _difference(level, weir, *assumed, STANDARD_GRAVITY))


def _difference(level, weir, water, steam, leg, gravity):
    """The balance itself; linear in `level`, which may lie anywhere."""
    return path_difference([Column(leg, 0.0, weir, "reference leg")],
                           [Column(water, 0.0, level, "drum water"),
                            Column(steam, level, weir, "steam")], gravity)


def _checked_weir(weir_height):
    return checked("weir height", weir_height, 0.05, 20.0, "m",
                   "Give the height of the chamber's weir above the lower connection.")


def _checked_densities(water_density, steam_density, leg_density):
    water = checked("drum water density", water_density, 1.0, 1100.0, "kg/m3")
    steam = checked("steam density", steam_density, 0.0, 900.0, "kg/m3")
    leg = checked("leg density", leg_density, 1.0, 1100.0, "kg/m3")
    if anywhere(water <= steam):
        raise InputError(
            f"The drum water ({np.min(water):.4g} kg/m3) is not denser than what stands above it "
            f"({np.max(steam):.4g} kg/m3); the allowed range begins above that density.")
    return water, steam, leg
