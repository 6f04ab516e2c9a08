"""Quantities that depend on others, so that the data of a question agree with each other.

Each takes SI values and returns an SI value; the bank names them in `from`. Their
numbers are rounded as printed before anything is computed with them.
"""

from functools import cache

from .. import properties
from ..constants import BAR
from ..physics.critical_flow import STEAM, WATER, critical_flow


def absolute_of_gauge(gauge_pressure):
    """Absolute pressure with a barometer of 1.00 bar, as the questions state it."""
    return gauge_pressure + BAR


def absolute_with_barometer(gauge_pressure, barometer):
    """Absolute pressure with the barometer that the question gives."""
    return gauge_pressure + barometer


def saturated_water_density(pressure):
    """Density of saturated water at an absolute pressure."""
    return properties.saturation_at_pressure(pressure).water_density


def saturated_steam_density(pressure):
    """Density of saturated steam at an absolute pressure."""
    return properties.saturation_at_pressure(pressure).steam_density


def saturation_temperature(pressure):
    """Saturation temperature at an absolute pressure."""
    return properties.saturation_temperature(pressure)


def saturation_pressure(temperature):
    """Saturation pressure at a temperature."""
    return properties.saturation_pressure(temperature)


def latent_heat(pressure):
    """Latent heat at an absolute pressure."""
    return properties.saturation_heat(pressure).latent_heat


def saturated_water_enthalpy(pressure):
    """Enthalpy of saturated water at an absolute pressure."""
    return properties.saturation_heat(pressure).water_enthalpy


def water_density(pressure, temperature):
    """Density of water below its boiling point at a pressure and a temperature."""
    return properties.compressed_water_density(pressure, temperature)


def cold_water_density(temperature):
    """Density of water in a drum open to the air."""
    return properties.cold_drum_fluids(temperature).water_density


def cold_air_density(temperature):
    """Density of the air above it."""
    return properties.cold_drum_fluids(temperature).steam_density


@cache
def water_break_flux(pressure):
    """Flow of saturated water through a square metre of open bore."""
    return critical_flow(pressure, WATER, properties.saturated_fluid).mass_flux


@cache
def steam_break_flux(pressure):
    """Flow of saturated steam through a square metre of open bore."""
    return critical_flow(pressure, STEAM, properties.saturated_fluid).mass_flux


def source(name):
    """Return one of these functions by its name in the bank, or None."""
    functions = (absolute_of_gauge, absolute_with_barometer, saturated_water_density,
                 saturated_steam_density, saturation_temperature, saturation_pressure,
                 latent_heat, saturated_water_enthalpy, water_density, cold_water_density,
                 cold_air_density, water_break_flux, steam_break_flux)
    return next((function for function in functions if function.__name__ == name), None)
