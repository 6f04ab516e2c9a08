"""Saturated steam as a table of numbers, for models that look it up at every small step."""

from dataclasses import dataclass, field
from math import exp, log
from typing import NamedTuple

import numpy as np

from ..errors import checked
from .critical_flow import STEAM, WATER, critical_flow

KNOTS = 160
_FLOW_FLOOR = 5e4  # Pa: nothing blows out below the barometer, so fluxes need no true value there


@dataclass(frozen=True, slots=True)
class SteamTable:
    """Saturated steam over an even grid of ln p, for quick look-up while stepping.

    Attributes
    ----------
    first, step : float [1]
        First value and spacing of ln(pressure in Pa).
    temperature : tuple of float [K]
        Saturation temperature.
    log_density : tuple of float [1]
        ln(steam density in kg/m3).
    latent_heat : tuple of float [J/kg]
        Heat of evaporation.
    water_flux, steam_flux : tuple of float [kg/(s m2)]
        Critical mass flux of saturated water and steam.
    """

    first: float
    step: float
    temperature: tuple = field(repr=False)
    log_density: tuple = field(repr=False)
    latent_heat: tuple = field(repr=False)
    water_flux: tuple = field(repr=False)
    steam_flux: tuple = field(repr=False)


class SteamAt(NamedTuple):
    """Saturated steam at one pressure: a named tuple, because a solver makes millions.

    Attributes
    ----------
    temperature, temperature_slope : float [K, K/Pa]
        Saturation temperature and its slope with pressure.
    density, density_slope : float [kg/m3, kg/(m3 Pa)]
        Steam density and its slope with pressure.
    latent_heat : float [J/kg]
        Heat of evaporation.
    water_flux, steam_flux : float [kg/(s m2)]
        Critical mass fluxes.
    """

    temperature: float
    temperature_slope: float
    density: float
    density_slope: float
    latent_heat: float
    water_flux: float
    steam_flux: float


def steam_table(highest_pressure, saturation):
    """Return saturated steam from 10 mbar to above a drum pressure, for quick look-up.

    Parameters
    ----------
    highest_pressure : float [Pa]
        Absolute drum pressure.
    saturation : callable [Pa -> K, kg/m3, J/kg, J/(kg K)]
        Gives temperature, densities, enthalpies and entropies for an array of pressures,
        such as ``levelkit.properties.saturated_fluid``.

    Returns
    -------
    SteamTable [K, kg/m3, J/kg, kg/(s m2)]
        160 knots evenly spaced in ln p.

    Raises
    ------
    InputError
        A pressure outside its range.

    References
    ----------
    [CRITICAL-FLOW] for the two fluxes.

    Examples
    --------
    >>> from levelkit.properties import saturated_fluid
    >>> len(steam_table(8e5, saturated_fluid).temperature)
    160
    """
    top = 1.1 * checked("drum pressure", highest_pressure, 1.05e5, 1.8e7, "Pa")
    logs = np.linspace(np.log(1001.0), np.log(top), KNOTS)
    pressure = np.exp(logs)
    fluid = saturation(pressure)
    blowing = np.maximum(pressure, _FLOW_FLOOR)
    fluxes = [critical_flow(blowing, start, saturation).mass_flux for start in (WATER, STEAM)]
    columns = (fluid.temperature, np.log(fluid.steam_density),
               fluid.steam_enthalpy - fluid.water_enthalpy, *fluxes)
    return SteamTable(float(logs[0]), float(logs[1] - logs[0]),
                      *(tuple(map(float, column)) for column in columns))


def steam_at(table, pressure):
    """Return saturated steam at a pressure from a table.

    Straight lines in ln p between the knots; beyond the ends the last line goes on.

    Parameters
    ----------
    table : SteamTable [K, kg/m3, J/kg, kg/(s m2)]
        From :func:`steam_table`.
    pressure : float [Pa]
        Absolute pressure; anything below 1 Pa counts as 1 Pa, where a solver may try it.

    Returns
    -------
    SteamAt [K, K/Pa, kg/m3, kg/(m3 Pa), J/kg, kg/(s m2)]
        Temperature, density, their slopes, latent heat, critical fluxes.

    Notes
    -----
    Values are not checked here, for a solver calls it thousands of times: its caller checks them.

    References
    ----------
    [CRITICAL-FLOW] for the fluxes; the rest as the callable that made the table.

    Examples
    --------
    >>> from levelkit.properties import saturated_fluid
    >>> round(steam_at(steam_table(8e5, saturated_fluid), 8e5).temperature - 273.15, 1)
    170.4
    """
    pressure = max(pressure, 1.0)
    place = (log(pressure) - table.first) / table.step
    index = min(max(int(place), 0), KNOTS - 2)
    part = place - index
    t0, t1 = table.temperature[index:index + 2]
    d0, d1 = table.log_density[index:index + 2]
    l0, l1 = table.latent_heat[index:index + 2]
    w0, w1 = table.water_flux[index:index + 2]
    s0, s1 = table.steam_flux[index:index + 2]
    density = exp(d0 + part * (d1 - d0))
    per_pascal = 1 / (table.step * pressure)
    return SteamAt(t0 + part * (t1 - t0), (t1 - t0) * per_pascal, density,
                   density * (d1 - d0) * per_pascal, l0 + part * (l1 - l0),
                   w0 + part * (w1 - w0), s0 + part * (s1 - s0))


def steam_temperature_pressure(table, temperature):
    """Return the saturation pressure at a temperature from a table.

    Parameters
    ----------
    table : SteamTable [K]
        From :func:`steam_table`.
    temperature : float [K]
        Saturation temperature within the table.

    Returns
    -------
    float [Pa]
        Absolute pressure.

    Raises
    ------
    InputError
        A temperature outside the table.

    References
    ----------
    [IAPWS-R7-97] through the callable that made the table.

    Examples
    --------
    >>> from levelkit.properties import saturated_fluid
    >>> round(steam_temperature_pressure(steam_table(8e5, saturated_fluid), 373.15), -2)
    101400.0
    """
    warm = checked("temperature", temperature, table.temperature[0], table.temperature[-1], "K",
                   "Give kelvin, within the steam table.")
    knots = table.first + table.step * np.arange(KNOTS)
    return float(np.exp(np.interp(warm, table.temperature, knots)))
