"""Communicating vessels: joined at their feet."""

from ...constants import STANDARD_BAROMETER
from ...physics.vessels import Layer, Vessel, joined_vessels

BORE = 1e-3  # m2, equal on both sides: it does not matter which


def two_liquids(work, water_density, oil_density, water_height, oil_height, right_height):
    """Water with oil on it, joined to plain water."""
    left = Vessel(BORE, STANDARD_BAROMETER, (Layer("water", water_density, water_height),
                                             Layer("oil", oil_density, oil_height)))
    right = Vessel(BORE, STANDARD_BAROMETER, (Layer("water", water_density, right_height),))
    total = water_height + oil_height + right_height
    level = work.step("right_level", joined_vessels((left, right)).levels[1])
    left_level = work.step("left_level", total - level)
    work.step("difference", left_level - level)
    work.slip("stands_level", total / 2)
    work.slip("oil_ignored", (water_height + right_height) / 2)
    work.slip("ratio_inverted",
              (water_height + right_height + oil_height * water_density / oil_density) / 2)
