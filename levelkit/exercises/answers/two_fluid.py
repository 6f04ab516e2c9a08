"""Two-fluid remote indicator: difference of surfaces, fluid, range, filling, pressure."""

from math import pi

from ...physics.chamber import make_up_transient
from ...physics.fluid_balance import fluid_difference, level_of_fluid_difference
from ...physics.indicating_fluids import IndicatingFluid, fluid_density
from ...physics.two_fluid_design import (
    filling_shift,
    fluid_density_for_scale,
    scale_ratio,
    surface_share,
    two_fluid_range,
)
from .printed import refuse_outside

COLD_WATER = 1000.0  # kg/m3: what a relative density refers to
SENSIBLE_HEAT = 4.19e3 * 20.0  # J/kg: a cooling by 20 K taken for the latent heat


def bore_area(diameter):
    """Area of a round bore."""
    return pi * diameter**2 / 4


def surfaces(work, level, weir, water_density, steam_density, leg_density, fluid):
    """Difference of the two fluid surfaces for a drum level."""
    work.step("difference", fluid_difference(
        level, weir, water_density, steam_density, leg_density, fluid))
    reference, drum = ((leg_density - steam_density) * weir,
                       (water_density - steam_density) * level)
    work.slip("by_fluid", (reference - drum) / fluid)
    work.slip("steam_forgotten",
              (leg_density * weir - water_density * level) / (fluid - leg_density))
    work.slip("heads_added", (reference + drum) / (fluid - leg_density))


def level_from_surfaces(work, difference, weir, water_density, steam_density, leg_density, fluid):
    """Drum level from the difference of the two fluid surfaces."""
    level = work.step("level", level_of_fluid_difference(
        difference, weir, water_density, steam_density, leg_density, fluid))
    refuse_outside(work, level, weir)
    head, drum = (leg_density - steam_density) * weir, water_density - steam_density
    work.slip("by_fluid", (head - fluid * difference) / drum)
    work.slip("steam_forgotten",
              (leg_density * weir - (fluid - leg_density) * difference) / water_density)
    work.slip("heads_added", (head + (fluid - leg_density) * difference) / drum)
    work.slip("difference_itself", difference)


def full_size_fluid(work, water_density, steam_density, leg_density):
    """Fluid for a full-size scale with limbs of equal bore."""
    density = work.step("density", fluid_density_for_scale(
        1.0, water_density, steam_density, leg_density))
    work.step("relative", density / COLD_WATER)
    wrong = {"one_surface": leg_density + water_density - steam_density,
             "difference_only": (water_density - steam_density) / 2,
             "steam_forgotten": leg_density + water_density / 2}
    for name, value in wrong.items():
        work.slip(name, value)
        work.slip(f"{name}_relative", value / COLD_WATER)


def range_and_limb(work, weir, water_density, steam_density, leg_density, fluid, fluid_left):
    """Ends of the difference, travel of one surface and the limb that is needed."""
    found = two_fluid_range(weir, water_density, steam_density, leg_density, fluid, 1.0, 1.0,
                            fluid_left)
    most = work.step("most", found.greatest_difference)
    least = work.step("least", found.least_difference)
    work.step("travel", (most - least) * surface_share(1.0, 1.0))
    work.step("limb", fluid_left + most)
    work.slip("by_fluid", (leg_density - steam_density) * weir / fluid)
    work.slip("equal_when_full", 0.0)
    work.slip("one_surface", most - least)
    work.slip("half_of_most", fluid_left + most / 2)


def overfilled(work, bore, extra):
    """Rise of both surfaces when fluid is added to limbs of equal bore."""
    area = work.step("area", 2 * bore_area(bore))
    work.step("rise", filling_shift(extra, area / 2, area / 2))
    work.slip("one_limb_area", area / 2)
    work.slip("one_limb", 2 * extra / area)


def fluid_lost(work, visible_bore, other_bore, lost, ratio):
    """Fall of the surfaces and error of the level when fluid is lost."""
    visible, other = bore_area(visible_bore), bore_area(other_bore)
    area = work.step("area", visible + other)
    fall = work.step("fall", -filling_shift(-lost, area / 2, area / 2))
    work.step("error", -fall / ratio)
    work.slip("visible_only", lost / visible)
    work.slip("times_scale", -fall * ratio)
    work.slip("surface_itself", -fall)


def cold_boiler(work, level, weir, cold_density, air_density, fluid, water_density, steam_density,
                leg_density):
    """What an indicator drawn for a hot boiler shows on a cold one."""
    difference = work.step("difference", fluid_difference(
        level, weir, cold_density, air_density, cold_density, fluid))
    shown = work.step("shown", level_of_fluid_difference(
        difference, weir, water_density, steam_density, leg_density, fluid))
    refuse_outside(work, shown, weir, "the reading")
    work.step("error", shown - level)
    work.slip("level_itself", level)
    work.slip("mirrored", 2 * level - shown)
    work.slip("gain_only",
              level * (cold_density - air_density) / (water_density - steam_density))


def make_up(work, bore, fall, chamber_area, heat_loss, latent_heat, leg_density):
    """Volume drawn from the chamber, its fall of head, and the time to make it up."""
    change = make_up_transient(fall, bore_area(bore), chamber_area, leg_density, heat_loss,
                               latent_heat)
    volume = work.step("volume", change.volume)
    work.step("head", volume / chamber_area)
    mass = work.step("mass", leg_density * volume)
    work.step("time", mass * latent_heat / heat_loss)
    work.slip("constant", 0.0)
    work.slip("sensible", mass * SENSIBLE_HEAT / heat_loss)


def unequal_bores(work, visible_bore, other_bore, water_density, steam_density, leg_density, fluid,
                  change):
    """Scale ratio of limbs of unequal bore, and the way of the visible surface."""
    share = work.step("share", surface_share(bore_area(visible_bore), bore_area(other_bore)))
    ratio = work.step("ratio", scale_ratio(water_density, steam_density, leg_density, fluid,
                                           share))
    work.step("travel", ratio * change)
    drum = water_density - steam_density
    work.slip("bores_for_areas", other_bore / (visible_bore + other_bore))
    work.slip("other_limb", 1 - share)
    work.slip("one_surface", drum / (fluid - leg_density))
    work.slip("by_fluid", drum * share / fluid)


def fluid_warmed(work, level, weir, water_density, steam_density, leg_density, cool_fluid,
                 expansion, warming):
    """What a scale shows whose indicating fluid has warmed."""
    warm = work.step("warm_fluid", fluid_density(
        IndicatingFluid("exercise", cool_fluid, expansion), 293.15 + warming))
    difference = work.step("difference", fluid_difference(
        level, weir, water_density, steam_density, leg_density, warm))
    shown = work.step("shown", level_of_fluid_difference(
        difference, weir, water_density, steam_density, leg_density, cool_fluid))
    refuse_outside(work, shown, weir, "the reading")
    work.step("error", shown - level)
    work.slip("level_itself", level)
    work.slip("denser", cool_fluid * (1 + expansion * warming))
