"""Swell on a sudden demand, and the time to alarm and trip."""

from ...physics.drum_geometry import Drum, water_volume
from ...physics.flashing import flash_share
from ...physics.protection import time_to_level
from ...physics.swell_estimates import bubble_expansion_rise

COLD_WATER = 998.0  # kg/m3


def sudden_demand(work, bubbles, surface, steam_before, steam_after, water, enthalpy_before,
                  enthalpy_after, latent_heat):
    """Rise by the bubbles that are there, and the steam that flashes."""
    growth = work.step("growth", surface * bubble_expansion_rise(
        bubbles, steam_before, steam_after, surface))
    work.step("rise", growth / surface)
    flashed = work.step("flashed", water * flash_share(enthalpy_before, enthalpy_after,
                                                       latent_heat))
    work.slip("whole_volume", bubbles / surface)
    work.slip("all_flash", flashed / steam_after / surface)
    work.slip("all_enthalpy", water * enthalpy_before / latent_heat)


def time_to_trip(work, diameter, length, water_density, steam_density, alarm, trip, steam_flow):
    """Volumes and times from normal level to alarm and trip when the feed stops."""
    drum = Drum(diameter / 2, length)
    to_alarm = work.step("volume_alarm", water_volume(drum, 0.0) - water_volume(drum, -alarm))
    to_trip = work.step("volume_trip", water_volume(drum, 0.0) - water_volume(drum, -trip))
    alarm_time = work.step("time_alarm", water_density * to_alarm / steam_flow)
    trip_time = work.step("time_trip", water_density * to_trip / steam_flow)
    work.step("between", trip_time - alarm_time)
    half = water_volume(drum, 0.0)
    work.slip("in_proportion", water_density * half * alarm / (diameter / 2) / steam_flow)
    work.slip("cold_water", COLD_WATER * to_alarm / steam_flow)
    work.slip("steam_leaves", steam_density * to_alarm / steam_flow)
    work.slip("volume_in_proportion", half * alarm / (diameter / 2))


def feed_reduced(work, diameter, length, water_density, steam_density, alarm, steam_flow,
                 feed_flow):
    """Time to the alarm with the feed reduced, counting the steam that takes the place."""
    net = work.step("net", steam_flow - feed_flow)
    time = work.step("time", time_to_level(Drum(diameter / 2, length), 0.0, -alarm, water_density,
                                           steam_density, net))
    work.slip("feed_added", steam_flow + feed_flow)
    work.slip("no_feed", time * net / steam_flow)
    work.slip("cold_water", time * COLD_WATER / (water_density - steam_density))
