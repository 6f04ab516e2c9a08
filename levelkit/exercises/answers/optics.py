"""What the eye sees: total reflection in a grooved glass."""

from math import asin, pi

from ...physics.optics import critical_angle


def groove_angles(work, glass_index, water_index, steam_index):
    """Critical angles of a grooved glass towards steam and towards water."""
    steam = work.step("steam_angle", critical_angle(glass_index, steam_index))
    water = work.step("water_angle", critical_angle(glass_index, water_index))
    groove = pi / 4
    work.step("steam_part", "bright" if steam < groove else "dark")
    work.step("water_part", "bright" if water < groove else "dark")
    work.slip("from_the_surface", pi / 2 - steam)
    work.slip("cold_water", asin(1.333 / glass_index))
    work.slip("water_from_surface", pi / 2 - water)
