"""Quantities that depend on others, so that the data of a question agree with each other.

Each takes SI values and returns an SI value; the bank names them in `from`. Their
numbers are rounded as printed before anything is computed with them.
"""

from functools import cache

from .. import properties
from ..constants import BAR
from ..physics.critical_flow import STEAM, WATER, critical_flow
from ..physics.glass import drum_level
from ..physics.transmitter_range import transmitter_range
from .answers.printed import GRAVITY


def absolute_of_gauge(gauge_pressure):
    """Absolute pressure with a barometer of 1.00 bar, as the questions state it."""
    return gauge_pressure + BAR


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


def compressed_air_density(pressure, temperature):
    """Density of air at a pressure and a temperature, in proportion to that in the open."""
    in_the_open = properties.cold_drum_fluids(temperature)
    return in_the_open.steam_density * pressure / in_the_open.pressure


def lower_range_value(weir, water_density, steam_density, leg_density):
    """LRV of a reversed, reverse-acting transmitter, with g as the questions print it."""
    return transmitter_range(weir, water_density, steam_density, leg_density,
                             gravity=GRAVITY).lower_value


def upper_range_value(weir, water_density, steam_density, leg_density):
    """URV of a reversed, reverse-acting transmitter, with g as the questions print it."""
    return transmitter_range(weir, water_density, steam_density, leg_density,
                             gravity=GRAVITY).upper_value


def agreeing_level(glass, water_density, steam_density, glass_density, offset):
    """Level of a sound remote indicator: that behind the glass, a little off."""
    return drum_level(glass, water_density, steam_density, glass_density) + offset


def half_way_temperature(pressure, room_temperature):
    """Temperature half-way between boiling point and room."""
    return (properties.saturation_temperature(pressure) + room_temperature) / 2


def lowered_by(pressure, fall):
    """Pressure after a fall."""
    return pressure - fall


def source(name):
    """Return one of these functions by its name in the bank, or None."""
    functions = (absolute_of_gauge, saturated_water_density,
                 saturated_steam_density, saturation_temperature, saturation_pressure,
                 latent_heat, saturated_water_enthalpy, water_density, cold_water_density,
                 cold_air_density, compressed_air_density, water_break_flux, steam_break_flux,
                 lower_range_value, upper_range_value, agreeing_level, half_way_temperature,
                 lowered_by)
    return next((function for function in functions if function.__name__ == name), None)
