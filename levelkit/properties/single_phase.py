"""Water below its boiling point and steam above it, at a pressure and a temperature."""

import numpy as np

from ..errors import InputError, checked
from . import _if97
from .saturation import HIGHEST_PRESSURE as TOP_OF_LINE
from .saturation import LOWEST_PRESSURE as FOOT_OF_LINE
from .saturation import saturation_temperature

LOWEST_TEMPERATURE, HIGHEST_WATER_TEMPERATURE = 273.15, 623.15
HIGHEST_STEAM_TEMPERATURE = 1073.15
HIGHEST_PRESSURE = 1e8
MARGIN = 0.05  # K: a boiling point rounded as steam tables print it stays on its own side


def _checked_state(pressure, temperature, lowest_pressure, highest_temperature):
    pressure = checked(
        "absolute pressure", pressure, lowest_pressure, HIGHEST_PRESSURE, "Pa",
        "Add the barometer to a gauge pressure and give pascal (7 bar gauge is 801 325 Pa).",
    )
    temperature = checked(
        "temperature", temperature, LOWEST_TEMPERATURE, highest_temperature, "K",
        "Give kelvin: 100 degrees Celsius is 373.15 K.",
    )
    return pressure, temperature


def _boiling(pressure):
    """Saturation temperature, held at the ends of the saturation line."""
    return saturation_temperature(np.clip(pressure, FOOT_OF_LINE, TOP_OF_LINE))


def _checked_water(pressure, temperature):
    pressure, temperature = _checked_state(
        pressure, temperature, FOOT_OF_LINE, HIGHEST_WATER_TEMPERATURE)
    if np.any(temperature > _boiling(pressure) + MARGIN):
        p, t, boils = _first(temperature > _boiling(pressure) + MARGIN,
                             pressure, temperature, _boiling(pressure))
        raise InputError(
            f"water temperature is {t - 273.15:.2f} degC at {p / 1e5:.4g} bar absolute; the "
            f"allowed range is 0 to {boils - 273.15:.2f} degC there, because hotter water boils. "
            "Lower the temperature or raise the pressure."
        )
    return pressure / 1e6, temperature


def _checked_steam(pressure, temperature):
    pressure, temperature = _checked_state(pressure, temperature, 1.0, HIGHEST_STEAM_TEMPERATURE)
    lowest = np.where(
        np.asarray(pressure) <= 16.529164e6,
        _boiling(np.minimum(pressure, 16.529164e6)),
        _if97.region_2_bottom_temperature(np.maximum(pressure, 16.529164e6) / 1e6),
    )
    if np.any(temperature < lowest - MARGIN):
        p, t, dew = _first(temperature < lowest - MARGIN, pressure, temperature, lowest)
        raise InputError(
            f"steam temperature is {t - 273.15:.2f} degC at {p / 1e5:.4g} bar absolute; the "
            f"allowed range is {dew - 273.15:.2f} to 800 degC there, because cooler steam "
            "condenses. Raise the temperature or lower the pressure."
        )
    return pressure / 1e6, temperature


def _first(where, *arrays):
    """The first values at which a condition holds."""
    arrays = np.broadcast_arrays(where, *arrays)
    index = np.flatnonzero(arrays[0])[0]
    return [float(array.flat[index]) for array in arrays[1:]]


def _plain(value):
    return value if np.ndim(value) else float(value)


def compressed_water_density(pressure, temperature):
    """Return the density of water that does not boil.

    Parameters
    ----------
    pressure : float or array [Pa]
        Absolute pressure, 0.01 to 1000 bar; broadcast with `temperature`.
    temperature : float or array [K]
        Temperature, 273.15 K to the boiling point, at most 623.15 K.

    Returns
    -------
    float or array [kg/m3]
        Density, of the broadcast shape.

    Raises
    ------
    InputError
        Outside the range, or a state in which water would boil.

    References
    ----------
    [IAPWS-R7-97] region 1.

    Examples
    --------
    >>> round(compressed_water_density(6_100_000.0, 373.15), 2)
    961.14
    """
    return _plain(1 / _if97.region_1_volume(*_checked_water(pressure, temperature)))


def compressed_water_enthalpy(pressure, temperature):
    """Return the specific enthalpy of water that does not boil.

    Parameters
    ----------
    pressure : float or array [Pa]
        Absolute pressure, 0.01 to 1000 bar; broadcast with `temperature`.
    temperature : float or array [K]
        Temperature, 273.15 K to the boiling point, at most 623.15 K.

    Returns
    -------
    float or array [J/kg]
        Specific enthalpy, of the broadcast shape.

    Raises
    ------
    InputError
        Outside the range, or a state in which water would boil.

    References
    ----------
    [IAPWS-R7-97] region 1.

    Examples
    --------
    >>> round(compressed_water_enthalpy(3_000_000.0, 300.0))
    115331
    """
    return _plain(1e3 * _if97.region_1(*_checked_water(pressure, temperature))["h"])


def compressed_water_entropy(pressure, temperature):
    """Return the specific entropy of water that does not boil.

    Parameters
    ----------
    pressure : float or array [Pa]
        Absolute pressure, 0.01 to 1000 bar; broadcast with `temperature`.
    temperature : float or array [K]
        Temperature, 273.15 K to the boiling point, at most 623.15 K.

    Returns
    -------
    float or array [J/(kg K)]
        Specific entropy, of the broadcast shape.

    Raises
    ------
    InputError
        Outside the range, or a state in which water would boil.

    References
    ----------
    [IAPWS-R7-97] region 1.

    Examples
    --------
    >>> round(compressed_water_entropy(80_000_000.0, 300.0), 3)
    368.564
    """
    return _plain(1e3 * _if97.region_1(*_checked_water(pressure, temperature))["s"])


def compressed_water_heat_capacity(pressure, temperature):
    """Return the isobaric heat capacity of water that does not boil.

    Parameters
    ----------
    pressure : float or array [Pa]
        Absolute pressure, 0.01 to 1000 bar; broadcast with `temperature`.
    temperature : float or array [K]
        Temperature, 273.15 K to the boiling point, at most 623.15 K.

    Returns
    -------
    float or array [J/(kg K)]
        Isobaric heat capacity, of the broadcast shape.

    Raises
    ------
    InputError
        Outside the range, or a state in which water would boil.

    References
    ----------
    [IAPWS-R7-97] region 1.

    Examples
    --------
    >>> round(compressed_water_heat_capacity(3_000_000.0, 300.0), 1)
    4173.0
    """
    return _plain(1e3 * _if97.region_1(*_checked_water(pressure, temperature))["cp"])


def steam_density(pressure, temperature):
    """Return the density of steam that does not condense.

    Parameters
    ----------
    pressure : float or array [Pa]
        Absolute pressure, 1 Pa to 1000 bar; broadcast with `temperature`.
    temperature : float or array [K]
        Temperature, from the dew point to 1073.15 K.

    Returns
    -------
    float or array [kg/m3]
        Density, of the broadcast shape.

    Raises
    ------
    InputError
        Outside the range, or a state in which steam would condense.

    References
    ----------
    [IAPWS-R7-97] region 2.

    Examples
    --------
    >>> round(steam_density(30_000_000.0, 700.0), 3)
    184.18
    """
    return _plain(1 / _if97.region_2(*_checked_steam(pressure, temperature))["v"])


def steam_enthalpy(pressure, temperature):
    """Return the specific enthalpy of steam that does not condense.

    Parameters
    ----------
    pressure : float or array [Pa]
        Absolute pressure, 1 Pa to 1000 bar; broadcast with `temperature`.
    temperature : float or array [K]
        Temperature, from the dew point to 1073.15 K.

    Returns
    -------
    float or array [J/kg]
        Specific enthalpy, of the broadcast shape.

    Raises
    ------
    InputError
        Outside the range, or a state in which steam would condense.

    References
    ----------
    [IAPWS-R7-97] region 2.

    Examples
    --------
    >>> round(steam_enthalpy(30_000_000.0, 700.0))
    2631495
    """
    return _plain(1e3 * _if97.region_2(*_checked_steam(pressure, temperature))["h"])
