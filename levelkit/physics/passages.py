"""What a cock passes, and what its resistance does to the level that a glass shows."""

import numpy as np

from ..constants import STANDARD_GRAVITY
from ..errors import InputError, checked
from .columns import Column, balancing_height, path_difference
from .relief_formulas import orifice_flux

DISCHARGE_COEFFICIENT = 0.6


def passage_flow(area, density, pressure_drop, discharge_coefficient=DISCHARGE_COEFFICIENT):
    """Return the mass flow through a cock for a small fall of pressure.

    ``m = C_d a sqrt(2 rho |dp|) sign(dp)``

    Parameters
    ----------
    area : float or array [m2]
        Free area of the way.
    density : float or array [kg/m3]
        What flows.
    pressure_drop : float or array [Pa]
        Pressure before less pressure behind; negative for flow the other way.
    discharge_coefficient : float [1]
        Contraction of the jet, 0.1 to 1.

    Returns
    -------
    float or array [kg/s]
        Mass flow with the sign of the fall; arguments broadcast together.

    Raises
    ------
    InputError
        A value outside its range.

    References
    ----------
    [ORIFICE-FLOW].

    Examples
    --------
    >>> round(passage_flow(28.3e-6, 900.0, 277.0), 4)
    0.012
    """
    area = checked("free area", area, 0.0, 1.0, "m2", "Give square metres: 28 mm2 is 28e-6.")
    share = checked("discharge coefficient", discharge_coefficient, 0.1, 1.0, "")
    drop = checked("pressure drop", pressure_drop, -1e9, 1e9, "Pa", "Give pascal.")
    flow = share * area * orifice_flux(density, np.abs(drop)) * np.sign(drop)
    return flow if np.ndim(flow) else float(flow)


def passage_drop(flow, area, density, discharge_coefficient=DISCHARGE_COEFFICIENT):
    """Return the fall of pressure that a flow takes from a cock.

    ``dp = (m / (C_d a))^2 / (2 rho) sign(m)``

    Parameters
    ----------
    flow : float or array [kg/s]
        Mass flow; negative for the other way.
    area : float or array [m2]
        Free area of the way, more than 0.
    density : float or array [kg/m3]
        What flows.
    discharge_coefficient : float [1]
        Contraction of the jet, 0.1 to 1.

    Returns
    -------
    float or array [Pa]
        Fall of pressure with the sign of the flow; arguments broadcast together.

    Raises
    ------
    InputError
        A value outside its range.

    References
    ----------
    [ORIFICE-FLOW].

    Examples
    --------
    >>> round(passage_drop(0.012, 28.3e-6, 900.0))
    277
    """
    flow = checked("mass flow", flow, -1e3, 1e3, "kg/s")
    area = checked("free area", area, 1e-12, 1.0, "m2", "A shut way has no steady flow.")
    density = checked("density", density, 1e-3, 2e4, "kg/m3")
    share = checked("discharge coefficient", discharge_coefficient, 0.1, 1.0, "")
    drop = (flow / (share * area)) ** 2 / (2 * density) * np.sign(flow)
    return drop if np.ndim(drop) else float(drop)


def glass_height_with_drops(level, drum_water_density, steam_density, glass_water_density,
                            water_way_drop, steam_way_drop, gravity=STANDARD_GRAVITY):
    """Return the height in a glass whose ways lose pressure.

    Round the loop: ``drum columns - dp_w - glass columns + dp_s = 0``

    Parameters
    ----------
    level : float or array [m]
        True drum level above the water connection, -5 to 5.
    drum_water_density, steam_density, glass_water_density : float or array [kg/m3]
        Densities.
    water_way_drop : float or array [Pa]
        Fall of pressure from the drum through the water way into the glass.
    steam_way_drop : float or array [Pa]
        Fall of pressure from the drum through the steam way into the glass.
    gravity : float [m/s2]
        Acceleration of gravity.

    Returns
    -------
    float or array [m]
        Height of the glass water; not limited to the glass. Arguments broadcast together.

    Raises
    ------
    InputError
        A level outside its range, or two fluids of one density.

    Notes
    -----
    A leaking drain takes pressure from the water way: LOW. Steam drawn through a nearly
    choked steam way takes it there: HIGH.

    References
    ----------
    [HYDROSTATICS] with a step at each cock.

    Examples
    --------
    >>> whole = glass_height_with_drops(0.2, 897.0, 4.16, 900.0, 0.0, 0.0)
    >>> leaking = glass_height_with_drops(0.2, 897.0, 4.16, 900.0, 277.0, 0.0)
    >>> round(1000 * (leaking - whole), 1)
    -31.5
    """
    level = checked("drum level", level, -5.0, 5.0, "m", "Give metres: 250 mm is 0.25.")
    water_drop, steam_drop = (checked(name, drop, -1e9, 1e9, "Pa", "Give pascal.")
                              for name, drop in (("drop over the water way", water_way_drop),
                                                 ("drop over the steam way", steam_way_drop)))

    def round_the_loop(height):
        drum = [Column(steam_density, level, 0.0), Column(drum_water_density, 0.0, level)]
        glass = [Column(steam_density, height, 0.0), Column(glass_water_density, 0.0, height)]
        return path_difference(drum, glass, gravity) - water_drop + steam_drop

    return balancing_height(round_the_loop)


def weeping_drain_height(leak, level, drum_water_density, steam_density, water_way_area,
                         saturation_temperature, ambient_temperature, heat_capacity,
                         wet_heat_loss, water_density, resting_temperature, mixing_share=0.2):
    """Return the height in a glass whose drain weeps, and whose water the leak warms.

    ``e m c_p (t_s - t_w) = U'_w y (t_w - t_rest)`` gives the warmer water, the fall over
    the water way takes height away again

    Parameters
    ----------
    leak : float [kg/s]
        Mass flow out of the drain, 0 to 0.1.
    level : float [m]
        True drum level above the water connection.
    drum_water_density, steam_density : float [kg/m3]
        Saturated water and steam.
    water_way_area : float [m2]
        Free area of the water cock.
    saturation_temperature, ambient_temperature : float [K]
        Drum and air.
    heat_capacity : float [J/(kg K)]
        Heat capacity of the water.
    wet_heat_loss : float [W/(m K)]
        Heat loss of the glass per metre of water.
    water_density : callable [K -> kg/m3]
        Density of water at drum pressure.
    resting_temperature : float [K]
        Mean glass temperature with no leak.
    mixing_share : float [1]
        Share of the leak that stirs up into the glass and exchanges its heat, 0 to 1.

    Returns
    -------
    float [m]
        Height of the glass water.

    Raises
    ------
    InputError
        A value outside its range.

    Notes
    -----
    Hot water below cold turns over, hence some mixing; how much is a guess of the
    teaching model. A small weep therefore makes the glass read slightly higher (nearer
    the truth), a larger one low.

    References
    ----------
    [COCK-MODEL] heat balance; [ORIFICE-FLOW].

    Examples
    --------
    >>> from levelkit.properties import compressed_water_density
    >>> def height(leak):
    ...     return weeping_drain_height(leak, 0.2, 897.0, 4.16, 28.3e-6, 443.5, 308.0, 4371.0,
    ...                                 0.95, lambda t: compressed_water_density(8e5, t), 364.0)
    >>> height(0.0) < height(0.001) > height(0.012)
    True
    """
    leak = checked("leak", leak, 0.0, 0.1, "kg/s")
    level = checked("drum level", level, -5.0, 5.0, "m", "Give metres: 250 mm is 0.25.")
    for name, value in (("air temperature", ambient_temperature),
                        ("saturation temperature", saturation_temperature)):
        checked(name, value, 200.0, 2000.0, "K", "Give kelvin.")
    checked("heat capacity", heat_capacity, 100.0, 1e6, "J/(kg K)")
    checked("heat loss of the wetted glass", wet_heat_loss, 1e-6, 1e4, "W/(m K)")
    share = checked("mixing share", mixing_share, 0.0, 1.0, "")
    rest = checked("resting temperature", resting_temperature, ambient_temperature,
                   saturation_temperature, "K", "It lies between air and steam.")
    drop = passage_drop(leak, water_way_area, drum_water_density)
    height = level
    for _ in range(40):  # the height itself sets the cooled length: settles by a tenth a turn
        gain, loss = share * leak * heat_capacity, wet_heat_loss * max(height, 1e-3)
        warm = (gain * saturation_temperature + loss * rest) / (gain + loss)
        before, height = height, glass_height_with_drops(
            level, drum_water_density, steam_density, float(water_density(warm)), drop, 0.0)
        if abs(height - before) < 1e-9:
            return float(height)
    raise InputError(f"No steady height found for a leak of {leak:.4g} kg/s; "
                     "use a smaller leak or a wider water way.")
