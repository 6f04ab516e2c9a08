"""Water and steam in equilibrium: the saturation line from 0.01 to 200 bar absolute."""

from dataclasses import dataclass
from functools import cache

import numpy as np

from ..errors import checked
from . import _if97

LOWEST_PRESSURE = _if97.LOWEST_PRESSURE * 1e6
HIGHEST_PRESSURE = _if97.HIGHEST_PRESSURE * 1e6


@dataclass(frozen=True, slots=True)
class SaturationState:
    """What a water level needs to know of water and steam in equilibrium.

    Attributes
    ----------
    pressure : float or array [Pa]
        Absolute pressure.
    temperature : float or array [K]
        Saturation temperature.
    water_density : float or array [kg/m3]
        Density of saturated water.
    steam_density : float or array [kg/m3]
        Density of saturated steam.
    """

    pressure: object
    temperature: object
    water_density: object
    steam_density: object


@dataclass(frozen=True, slots=True)
class SaturationHeat:
    """Heat and entropy of water and steam in equilibrium.

    Attributes
    ----------
    water_enthalpy, steam_enthalpy, latent_heat : float or array [J/kg]
        Specific enthalpies and their difference.
    water_entropy, steam_entropy : float or array [J/(kg K)]
        Specific entropies.
    water_heat_capacity : float or array [J/(kg K)]
        Isobaric heat capacity of saturated water.
    """

    water_enthalpy: object
    steam_enthalpy: object
    latent_heat: object
    water_entropy: object
    steam_entropy: object
    water_heat_capacity: object


@dataclass(frozen=True, slots=True)
class SaturationSlopes:
    """Derivatives along the saturation line with respect to pressure.

    Attributes
    ----------
    temperature : float or array [K/Pa]
        dT_s/dp.
    water_density, steam_density : float or array [kg/(m3 Pa)]
        Slopes of the two densities.
    water_enthalpy, steam_enthalpy : float or array [J/(kg Pa)]
        Slopes of the two enthalpies.
    """

    temperature: object
    water_density: object
    steam_density: object
    water_enthalpy: object
    steam_enthalpy: object


def _checked_pressure(pressure):
    return checked(
        "absolute pressure", pressure, LOWEST_PRESSURE, HIGHEST_PRESSURE, "Pa",
        "That is 0.01 to 200 bar absolute: add the barometer to a gauge pressure "
        "and give pascal (7 bar gauge is 801 325 Pa).",
    )


def _checked_temperature(temperature):
    lowest, highest = _temperature_ends()
    return checked(
        "saturation temperature", temperature, lowest, highest, "K",
        "Give kelvin: 100 degrees Celsius is 373.15 K.",
    )


@cache
def _temperature_ends():
    spline = _if97.saturation_pressure_spline()
    return float(spline.x[0]), float(spline.x[-1])


def _columns(spline, pressure, derivative=0):
    values = spline(np.log(np.multiply(pressure, 1e-6)), derivative)
    if values.ndim == 1:
        return values.tolist()
    return [values[..., column] for column in range(values.shape[-1])]


def saturation_at_pressure(pressure):
    """Return temperature and both densities on the saturation line.

    Cubic spline in ln p through IAPWS-IF97, relative error at most 1e-6.

    Parameters
    ----------
    pressure : float or array [Pa]
        Absolute pressure, 0.01 to 200 bar; any shape.

    Returns
    -------
    SaturationState
        Pressure [Pa], temperature [K], densities [kg/m3], each of the shape of `pressure`.

    Raises
    ------
    InputError
        Outside the range, NaN, text: never an extrapolation.

    Notes
    -----
    At 165.29 bar IAPWS-IF97 passes from region 1 to region 3 with a small step of
    its own; the spline has a seam there.

    References
    ----------
    [IAPWS-R7-97] regions 1 to 4.

    Examples
    --------
    >>> state = saturation_at_pressure(800_000.0)
    >>> f"{state.water_density:.2f} {state.steam_density:.3f} kg/m3"
    '897.03 4.161 kg/m3'
    """
    pressure = _checked_pressure(pressure)
    return SaturationState(pressure, *_columns(_if97.saturation_splines()[0], pressure))


def saturation_at_temperature(temperature):
    """Return pressure and both densities at a saturation temperature.

    Parameters
    ----------
    temperature : float or array [K]
        Saturation temperature, 280.12 to 638.90 K; any shape.

    Returns
    -------
    SaturationState
        Pressure [Pa], temperature [K], densities [kg/m3], each of the shape of `temperature`.

    Raises
    ------
    InputError
        Outside the range, NaN, text.

    References
    ----------
    [IAPWS-R7-97] region 4.

    Examples
    --------
    >>> state = saturation_at_temperature(373.15)
    >>> f"{state.pressure:.0f} Pa"
    '101418 Pa'
    """
    temperature = _checked_temperature(temperature)
    pressure = _pressure_of(temperature)
    _, water_density, steam_density = _columns(_if97.saturation_splines()[0], pressure)
    return SaturationState(pressure, temperature, water_density, steam_density)


def _pressure_of(temperature):
    spline = _if97.saturation_pressure_spline()
    pressure = np.clip(np.exp(spline(temperature)) * 1e6, LOWEST_PRESSURE, HIGHEST_PRESSURE)
    return pressure if np.ndim(temperature) else float(pressure)


def saturation_temperature(pressure):
    """Return the saturation temperature.

    Parameters
    ----------
    pressure : float or array [Pa]
        Absolute pressure, 0.01 to 200 bar; any shape.

    Returns
    -------
    float or array [K]
        Saturation temperature, same shape.

    Raises
    ------
    InputError
        Outside the range, NaN, text.

    References
    ----------
    [IAPWS-R7-97] region 4.

    Examples
    --------
    >>> round(saturation_temperature(800_000.0) - 273.15, 2)
    170.41
    """
    return saturation_at_pressure(pressure).temperature


def saturation_pressure(temperature):
    """Return the saturation pressure.

    Parameters
    ----------
    temperature : float or array [K]
        Temperature, 280.12 to 638.90 K; any shape.

    Returns
    -------
    float or array [Pa]
        Absolute saturation pressure, same shape.

    Raises
    ------
    InputError
        Outside the range, NaN, text.

    References
    ----------
    [IAPWS-R7-97] region 4.

    Examples
    --------
    >>> round(saturation_pressure(423.15) / 1e5, 2)
    4.76
    """
    return _pressure_of(_checked_temperature(temperature))


def saturation_heat(pressure):
    """Return enthalpies, entropies and heat capacity on the saturation line.

    Parameters
    ----------
    pressure : float or array [Pa]
        Absolute pressure, 0.01 to 200 bar; any shape.

    Returns
    -------
    SaturationHeat
        Enthalpies [J/kg], entropies and heat capacity [J/(kg K)], of the shape of `pressure`.

    Raises
    ------
    InputError
        Outside the range, NaN, text.

    References
    ----------
    [IAPWS-R7-97] regions 1 to 4.

    Examples
    --------
    >>> heat = saturation_heat(800_000.0)
    >>> f"{heat.water_enthalpy / 1e3:.1f} {heat.latent_heat / 1e3:.1f} kJ/kg"
    '721.0 2047.3 kJ/kg'
    """
    pressure = _checked_pressure(pressure)
    water_h, steam_h, water_s, steam_s, water_cp = (
        column * 1e3 for column in _columns(_if97.saturation_splines()[1], pressure)
    )
    return SaturationHeat(water_h, steam_h, steam_h - water_h, water_s, steam_s, water_cp)



def saturation_slopes(pressure):
    """Return the slopes of the saturation properties with pressure.

    ``dX/dp = (dX/d ln p) / p``

    Parameters
    ----------
    pressure : float or array [Pa]
        Absolute pressure, 0.01 to 200 bar; any shape.

    Returns
    -------
    SaturationSlopes
        dT/dp [K/Pa], density slopes [kg/(m3 Pa)], enthalpy slopes [J/(kg Pa)], of the
        shape of `pressure`.

    Raises
    ------
    InputError
        Outside the range, NaN, text.

    References
    ----------
    [IAPWS-R7-97] regions 1 to 4, differentiated through the spline.

    Examples
    --------
    >>> round(saturation_slopes(800_000.0).temperature * 1e5, 2)  # K per bar
    5.18
    """
    pressure = _checked_pressure(pressure)
    level, heat = _if97.saturation_splines()
    temperature, water, steam = (x / pressure for x in _columns(level, pressure, 1))
    water_h, steam_h = (1e3 * x / pressure for x in _columns(heat, pressure, 1)[:2])
    return SaturationSlopes(temperature, water, steam, water_h, steam_h)
