"""The whole saturation line at one pressure: properties and their slopes, in one object.

For models that step through time and need all of it thousands of times. A caller of
such a model hands over :func:`saturation_line`; the model itself knows no steam table.
"""

from dataclasses import dataclass
from functools import lru_cache

from . import _if97
from .saturation import _checked_pressure, _columns


@dataclass(frozen=True, slots=True)
class SaturationLine:
    """Water and steam in equilibrium, and how they change along the saturation line.

    Attributes
    ----------
    pressure : float or array [Pa]
        Absolute pressure.
    temperature : float or array [K]
        Saturation temperature.
    water_density, steam_density : float or array [kg/m3]
        Densities.
    water_enthalpy, steam_enthalpy, latent_heat : float or array [J/kg]
        Specific enthalpies and their difference.
    temperature_slope : float or array [K/Pa]
        dT/dp along the line, as all slopes.
    water_density_slope, steam_density_slope : float or array [kg/(m3 Pa)]
        Slopes of the densities.
    water_enthalpy_slope, steam_enthalpy_slope : float or array [J/(kg Pa)]
        Slopes of the enthalpies.
    """

    pressure: object
    temperature: object
    water_density: object
    steam_density: object
    water_enthalpy: object
    steam_enthalpy: object
    latent_heat: object
    temperature_slope: object
    water_density_slope: object
    steam_density_slope: object
    water_enthalpy_slope: object
    steam_enthalpy_slope: object


def saturation_line(pressure):
    """Return properties and slopes of water and steam in equilibrium.

    Parameters
    ----------
    pressure : float or array [Pa]
        Absolute pressure, 0.01 to 200 bar; any shape.

    Returns
    -------
    SaturationLine
        Temperature [K], densities [kg/m3], enthalpies [J/kg] and slopes [per Pa].

    Raises
    ------
    InputError
        Outside the range, NaN, text.

    References
    ----------
    [IAPWS-R7-97] regions 1 to 4, slopes through the spline.

    Examples
    --------
    >>> line = saturation_line(8_500_000.0)
    >>> f"{line.latent_heat / 1e3:.1f} kJ/kg, {line.temperature_slope * 1e5:.3f} K per bar"
    '1410.3 kJ/kg, 0.833 K per bar'
    """
    pressure = _checked_pressure(pressure)
    return _line(pressure) if isinstance(pressure, float) else _line.__wrapped__(pressure)


@lru_cache(maxsize=256)  # a model asks more than once at each of its steps
def _line(pressure):
    level, heat = _if97.saturation_splines()
    temperature, water, steam = _columns(level, pressure)
    water_h, steam_h = (1e3 * x for x in _columns(heat, pressure)[:2])
    slopes = [x / pressure for x in _columns(level, pressure, 1)]
    slopes += [1e3 * x / pressure for x in _columns(heat, pressure, 1)[:2]]
    return SaturationLine(pressure, temperature, water, steam, water_h, steam_h,
                          steam_h - water_h, *slopes)
