"""Communicating vessels: joined at their feet."""

from ...constants import STANDARD_BAROMETER
from ...physics.columns import Column, balancing_height, path_difference
from ...physics.vessels import Layer, Vessel, joined_vessels
from .printed import GRAVITY

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


def pressure_above(work, density, left_pressure, right_pressure, height):
    """Levels of one liquid under two pressures."""
    left = Vessel(BORE, STANDARD_BAROMETER + left_pressure, (Layer("water", density, height),))
    right = Vessel(BORE, STANDARD_BAROMETER + right_pressure, (Layer("water", density, height),))
    levels = joined_vessels((left, right), GRAVITY).levels
    apart = work.step("apart", levels[0] - levels[1])
    work.step("left", height + apart / 2)
    work.slip("factor_of_100", 100 * apart)
    work.slip("factor_of_10", 10 * apart)
    work.slip("one_side", height + apart)
    work.slip("stands_level", height)


def u_tube_under_water(work, difference, fluid_density, water_density):
    """Deflection of a U-tube open to the air, and with water on both sides of its fluid."""
    def deflection(above):
        return balancing_height(lambda height: difference - path_difference(
            [Column(fluid_density, 0.0, height)], [Column(above, 0.0, height)], GRAVITY))

    air = work.step("open", deflection(0.0))
    water = work.step("under_water", deflection(water_density))
    work.step("times", water / air)
    work.slip("as_in_air", air)
    work.slip("added", difference / ((fluid_density + water_density) * GRAVITY))
    work.slip("factor_of_10", 10 * air)
    work.slip("by_water", difference / (water_density * GRAVITY))
