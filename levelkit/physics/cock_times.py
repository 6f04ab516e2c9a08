"""How fast a glass lies: closed forms for choked ways, to hold the full model against.

Each answers one question that a watchkeeper can time with a watch.
"""

import numpy as np

from ..constants import STANDARD_GRAVITY
from ..errors import checked
from ._scalar import checked_gravity


def pocket_time_constant(bore_area, latent_heat, density, heat_loss_per_metre,
                         temperature_difference):
    """Return the time constant with which condensation closes the steam space of a glass.

    ``tau = A h_fg rho / (U' dt)``: rho of steam for a choked steam cock (the steam that
    condenses leaves its volume), of water for a choked water cock (the condensate stays)

    Parameters
    ----------
    bore_area : float or array [m2]
        Bore of the glass.
    latent_heat : float or array [J/kg]
        Heat of evaporation.
    density : float or array [kg/m3]
        Of steam (steam cock choked) or of glass water (water cock choked).
    heat_loss_per_metre : float or array [W/(m K)]
        Heat loss of the steam part per metre.
    temperature_difference : float or array [K]
        Steam less air temperature.

    Returns
    -------
    float or array [s]
        Time constant; arguments broadcast together.

    Raises
    ------
    InputError
        A value outside its range.

    Notes
    -----
    The two constants stand in the ratio of the densities, 232 at 7 bar gauge.

    References
    ----------
    [COCK-MODEL] balance of the pocket with constant densities.

    Examples
    --------
    >>> round(pocket_time_constant(113e-6, 2047.3e3, 4.16, 0.95, 135.4), 2)
    7.48
    """
    area = checked("bore area", bore_area, 1e-8, 1.0, "m2", "113 mm2 is 113e-6 m2.")
    latent = checked("latent heat", latent_heat, 1e3, 1e7, "J/kg")
    density = checked("density", density, 1e-4, 1100.0, "kg/m3")
    loss = checked("heat loss per metre", heat_loss_per_metre, 1e-6, 1e4, "W/(m K)")
    excess = checked("temperature difference", temperature_difference, 1e-3, 700.0, "K")
    return area * latent * density / (loss * excess)


def choked_height(time, start_height, steam_connection, time_constant):
    """Return the height in a glass one of whose ways is choked, at a time.

    ``L - y = (L - y_0) exp(-t / tau)``

    Parameters
    ----------
    time : float or array [s]
        Time since the way choked.
    start_height, steam_connection : float or array [m]
        Height then, and height of the steam cock.
    time_constant : float or array [s]
        From :func:`pocket_time_constant`.

    Returns
    -------
    float or array [m]
        Height of the glass water; arguments broadcast together.

    Raises
    ------
    InputError
        A value outside its range.

    References
    ----------
    [COCK-MODEL].

    Examples
    --------
    >>> round(1000 * choked_height(10.0, 0.186, 0.400, 7.48))
    344
    """
    time = checked("time", time, 0.0, 1e7, "s")
    constant = checked("time constant", time_constant, 1e-6, 1e7, "s")
    top = checked("steam connection", steam_connection, 0.01, 5.0, "m")
    start = checked("start height", start_height, -5.0, np.max(top), "m")
    height = top - (top - start) * np.exp(-time / constant)
    return height if np.ndim(height) else float(height)


def narrow_water_way_time(bore_area, water_way_area, level_change, discharge_coefficient=0.6,
                          gravity=STANDARD_GRAVITY):
    """Return the time in which a glass takes up a change of level through a narrow water way.

    ``t = A/(C_d a_w) sqrt(2 dh / g)``

    Parameters
    ----------
    bore_area, water_way_area : float or array [m2]
        Bore of the glass, and free area of the water way.
    level_change : float or array [m]
        Sudden change of the drum level.
    discharge_coefficient : float [1]
        Contraction of the jet.
    gravity : float [m/s2]
        Acceleration of gravity.

    Returns
    -------
    float or array [s]
        Time to the new level; arguments broadcast together.

    Raises
    ------
    InputError
        A value outside its range.

    References
    ----------
    [ORIFICE-FLOW] emptying of a prismatic vessel.

    Examples
    --------
    >>> round(narrow_water_way_time(113e-6, 0.1e-6, 0.050), 0)
    190.0
    """
    bore = checked("bore area", bore_area, 1e-8, 1.0, "m2")
    way = checked("water way area", water_way_area, 1e-12, 1.0, "m2")
    change = checked("level change", level_change, 0.0, 5.0, "m", "Give metres, positive.")
    share = checked("discharge coefficient", discharge_coefficient, 0.1, 1.0, "")
    time = bore / (share * way) * np.sqrt(2 * change / checked_gravity(gravity))
    return time if np.ndim(time) else float(time)


def cooling_time_constant(heat_capacity_per_metre, heat_loss_per_metre):
    """Return the time constant with which a shut glass cools.

    ``tau = C' / U'``, for water alone ``C' = rho A c_p``

    Parameters
    ----------
    heat_capacity_per_metre : float or array [J/(m K)]
        Water or wall, per metre of glass.
    heat_loss_per_metre : float or array [W/(m K)]
        Heat loss per metre of glass.

    Returns
    -------
    float or array [s]
        Time constant; arguments broadcast together.

    Raises
    ------
    InputError
        A value outside its range.

    References
    ----------
    [FIN-THEORY] body of one temperature.

    Examples
    --------
    >>> round(cooling_time_constant(965.0 * 113e-6 * 4200.0, 0.95))
    482
    """
    capacity = checked("heat capacity per metre", heat_capacity_per_metre, 1e-3, 1e7, "J/(m K)")
    loss = checked("heat loss per metre", heat_loss_per_metre, 1e-6, 1e4, "W/(m K)")
    return capacity / loss


def residual_gas_share(start_pressure, start_temperature, end_pressure, end_temperature,
                       vapour_pressure=0.0):
    """Return the share of the glass that trapped gas keeps free of water.

    ``V_2/V_1 = p_1 / (p_2 - p_vapour) T_2 / T_1``

    Parameters
    ----------
    start_pressure, end_pressure : float or array [Pa]
        Absolute pressure when the glass was shut, and of the drum.
    start_temperature, end_temperature : float or array [K]
        Temperature of the gas then and at the end.
    vapour_pressure : float or array [Pa]
        Pressure of steam that stays with the gas at the end.

    Returns
    -------
    float or array [1]
        Share of the glass left free; 1 less it is the share that fills.

    Raises
    ------
    InputError
        A value outside its range, or steam alone already at the drum pressure.

    Notes
    -----
    So a healthy glass does not fill to the very top when the water cock alone is opened.

    References
    ----------
    [IDEAL-GAS].

    Examples
    --------
    >>> round(1 - residual_gas_share(101_300.0, 330.15, 800_000.0, 393.15), 2)
    0.85
    """
    first = checked("start pressure", start_pressure, 1.0, 2.5e7, "Pa", "Give it absolute.")
    warm = checked("start temperature", start_temperature, 200.0, 1000.0, "K", "Give kelvin.")
    last = checked("end pressure", end_pressure, 1.0, 2.5e7, "Pa", "Give it absolute.")
    end = checked("end temperature", end_temperature, 200.0, 1000.0, "K", "Give kelvin.")
    vapour = checked("vapour pressure", vapour_pressure, 0.0, np.min(last) * (1 - 1e-9), "Pa",
                     "It must be below the drum pressure.")
    return first / (last - vapour) * end / warm


def shut_in_height(height, steam_connection, hot_water_density, steam_density, cold_water_density,
                   cold_steam_density):
    """Return where the water of a glass stands that was shut off hot and has cooled.

    Mass kept: ``rho_h y + rho_g (L - y) = rho_c y' + rho_gc (L - y')``

    Parameters
    ----------
    height, steam_connection : float or array [m]
        Height when shut, and length of the glass between cocks.
    hot_water_density, steam_density : float or array [kg/m3]
        Water and steam when shut.
    cold_water_density, cold_steam_density : float or array [kg/m3]
        Water and vapour after cooling.

    Returns
    -------
    float or array [m]
        Height after cooling; arguments broadcast together.

    Raises
    ------
    InputError
        A value outside its range.

    Notes
    -----
    The steam adds less than a millimetre, the water shrinks by some: a frozen, believable
    level that sinks a little.

    References
    ----------
    [COCK-MODEL] mass of a shut glass.

    Examples
    --------
    >>> round(1000 * shut_in_height(0.186, 0.4, 965.3, 4.16, 994.0, 0.04), 1)
    181.5
    """
    top = checked("steam connection", steam_connection, 0.01, 5.0, "m")
    height = checked("height", height, 0.0, np.max(top), "m", "Give metres.")
    densities = [checked(name, density, 0.0, 1100.0, "kg/m3") for name, density in (
        ("hot water density", hot_water_density), ("steam density", steam_density),
        ("cold water density", cold_water_density), ("cold steam density", cold_steam_density))]
    hot, steam, cold, vapour = densities
    mass = hot * height + steam * (top - height)
    return (mass - vapour * top) / (cold - vapour)
