"""Cocks of a gauge glass: choked, leaking, shut, and what blows from the drain."""

from math import log, sqrt

from ...physics.cock_times import (
    narrow_water_way_time,
    pocket_time_constant,
    residual_gas_share,
    shut_in_height,
)
from ...physics.flashing import flash_share, flash_volume_ratio
from ...physics.passages import glass_height_with_drops, passage_drop, passage_flow
from .printed import GRAVITY

HOT_WATER = 965.6  # kg/m3, at 90 degC: what a slip takes for the water of a glass
LEVEL = 0.2  # m: a drum level; the fall by a leak does not depend on it


def steam_choked(work, bore_area, latent_heat, steam_density, heat_loss, saturation_temperature,
                 air_temperature):
    """Time constant of the shrinking steam space, and the time to 5 % of it."""
    excess = saturation_temperature - air_temperature
    constant = work.step("constant", pocket_time_constant(
        bore_area, latent_heat, steam_density, heat_loss, excess))
    work.step("to_5_per_cent", constant * log(20.0))
    work.slip("water_density", pocket_time_constant(
        bore_area, latent_heat, HOT_WATER, heat_loss, excess))
    work.slip("one_constant", constant)


def water_choked(work, bore_area, cock_distance, height, latent_heat, steam_density, water_density,
                 heat_loss, saturation_temperature, air_temperature):
    """Time constant and first rate of the creeping rise, against a choked steam cock."""
    excess = saturation_temperature - air_temperature
    constant = work.step("constant", pocket_time_constant(
        bore_area, latent_heat, water_density, heat_loss, excess))
    work.step("rate", (cock_distance - height) / constant)
    steam_constant = pocket_time_constant(bore_area, latent_heat, steam_density, heat_loss, excess)
    work.step("ratio", constant / steam_constant)
    work.slip("steam_density", steam_constant)
    work.slip("no_rise", 0.0)
    work.slip("rate_by_steam", (cock_distance - height) / steam_constant)
    work.slip("whole_glass", height / constant)
    work.slip("ratio_inverted", steam_constant / constant)


def drain_leaks(work, leak, way_area, discharge, water_density, steam_density):
    """Pressure drop over the water cock, and how much lower the glass reads."""
    drop = work.step("drop", passage_drop(leak, way_area, water_density, discharge))

    def height(drop):
        return glass_height_with_drops(LEVEL, water_density, steam_density, water_density, drop,
                                       0.0, GRAVITY)

    fall = work.step("fall", height(drop) - height(0.0))
    work.slip("no_discharge", drop * discharge**2)
    work.slip("half_lost", 2 * drop)
    work.slip("fall_no_discharge", fall * discharge**2)
    work.slip("fall_half_lost", 2 * fall)


def narrow_water_way(work, bore_area, way_area, change):
    """First speed and time to take up a change through a nearly choked water cock."""
    head = 1000.0 * GRAVITY * change  # any density: it cancels
    work.step("speed", passage_flow(way_area, 1000.0, head) / (1000.0 * bore_area))
    time = work.step("time", narrow_water_way_time(bore_area, way_area, change, gravity=GRAVITY))
    work.slip("first_speed_kept", time / 2)
    work.slip("no_discharge", 0.6 * time)
    work.slip("speed_no_discharge", way_area * sqrt(2 * GRAVITY * change) / bore_area)


def both_shut(work, height, cock_distance, hot_density, steam_density, cold_density, cold_steam):
    """Where the water of a glass stands that was shut off hot and has cooled."""
    shut = work.step("cold_height", shut_in_height(
        height, cock_distance, hot_density, steam_density, cold_density, cold_steam))
    work.step("change", shut - height)
    work.slip("frozen", height)
    work.slip("filled", cock_distance)
    work.slip("grown", height * cold_density / hot_density)


def flash_at_drain(work, water_enthalpy, water_density, boiler_latent_heat, air_water_enthalpy,
                   air_latent_heat, air_water_density, air_steam_density):
    """Share of water that flashes at the drain, and how much larger the blow is."""
    share = work.step("share", flash_share(water_enthalpy, air_water_enthalpy, air_latent_heat))
    work.step("growth", flash_volume_ratio(share, water_density, air_water_density,
                                           air_steam_density))
    work.slip("stays_water", 0.0)
    work.slip("latent_of_boiler", (water_enthalpy - air_water_enthalpy) / boiler_latent_heat)
    work.slip("datum_kept", water_enthalpy / air_latent_heat)
    work.slip("all_steam", water_density / air_steam_density)


def residual_air(work, air_pressure, air_temperature, boiler_pressure, end_temperature):
    """Share of the glass that fills with water over trapped air."""
    share = work.step("share", residual_gas_share(air_pressure, air_temperature, boiler_pressure,
                                                  end_temperature))
    work.step("filled", 1.0 - share)
    celsius = (end_temperature - 273.15) / (air_temperature - 273.15)
    kelvin = end_temperature / air_temperature
    work.slip("no_gas", 1.0)
    work.slip("gauge", 1.0 - air_pressure / (boiler_pressure - 1e5) * kelvin)
    work.slip("celsius", 1.0 - air_pressure / boiler_pressure * celsius)
    work.slip("share_celsius", air_pressure / boiler_pressure * celsius)
