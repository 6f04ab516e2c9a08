"""Broken glass: the ball in the water way, what blows out, how long the level stays in sight."""

from math import pi, sqrt

from ...physics.ball_check import ball_lift_flow, ball_lift_velocity
from ...physics.breakage import broken_glass, time_to_lose_level
from .printed import GRAVITY


def ball_check(work, ball_diameter, ball_density, drag, passage_diameter, water_density,
               steam_density):
    """Velocity that lifts the ball in water and in steam, and the flow it takes."""
    water = work.step("water_velocity", ball_lift_velocity(
        ball_diameter, water_density, ball_density, drag, GRAVITY))
    work.step("flow", ball_lift_flow(water, water_density, passage_diameter))
    work.step("steam_velocity", ball_lift_velocity(
        ball_diameter, steam_density, ball_density, drag, GRAVITY))
    work.slip("no_buoyancy", sqrt(4 * ball_density * GRAVITY * ball_diameter
                                  / (3 * drag * water_density)))
    work.slip("half_lost", water / sqrt(2))
    work.slip("ball_bore", water_density * water * pi * ball_diameter**2 / 4)
    work.slip("same_in_steam", water)


def level_lost(work, bore_diameter, water_flux, steam_flux, water_density, height, surface_area):
    """Flow at both ends of a broken glass and the time until the level is out of sight."""
    broken = broken_glass(bore_diameter, water_flux, steam_flux, 0.0)
    water = work.step("water_flow", broken.water_flow)
    steam = work.step("steam_flow", broken.steam_flow)
    work.step("ratio", water / steam)
    time = work.step("time", time_to_lose_level(height, surface_area, water_density,
                                                water + steam))
    work.slip("radius", 4 * water)
    work.slip("cold_water", time * 1000.0 / water_density)
    work.slip("water_end_only", time * (water + steam) / water)
