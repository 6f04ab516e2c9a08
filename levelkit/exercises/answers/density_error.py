"""A transmitter that meets other densities than it was calibrated for."""

from ...physics.differential import (
    indicated_level,
    level_of_differential,
    reference_differential,
    right_level,
)
from ...physics.signal import FULL_CURRENT, signal_current
from .printed import GRAVITY, refuse_outside


def hot_read_cold(work, level, weir, cold_density, air_density, water_density, steam_density,
                  leg_density):
    """Calibrated hot, read cold: differential, shown level, per cent and current."""
    differential = work.step("differential", reference_differential(
        level, weir, cold_density, air_density, cold_density, GRAVITY))
    shown = work.step("shown", level_of_differential(
        differential, weir, water_density, steam_density, leg_density, GRAVITY))
    refuse_outside(work, shown, weir, "the reading")
    fraction = work.step("fraction", shown / weir)
    work.step("current", signal_current(fraction))
    work.slip("level_itself", level)
    work.slip("mirrored", 2 * level - shown)
    work.slip("gain_only", level * (cold_density - air_density) / (water_density - steam_density))
    work.slip("true_fraction", level / weir)
    work.slip("mirrored_fraction", (2 * level - shown) / weir)
    work.slip("gain_only_fraction",
              level * (cold_density - air_density) / (water_density - steam_density) / weir)
    work.slip("no_live_zero", FULL_CURRENT * fraction)


def part_pressure(work, level, weir, water_density, steam_density, leg_density, water_calibrated,
                  steam_calibrated, leg_calibrated):
    """Slow steaming at part pressure with the constants of full pressure."""
    differential = work.step("differential", reference_differential(
        level, weir, water_density, steam_density, leg_density, GRAVITY))
    shown = work.step("shown", level_of_differential(
        differential, weir, water_calibrated, steam_calibrated, leg_calibrated, GRAVITY))
    refuse_outside(work, shown, weir, "the reading")
    work.step("error", shown - level)
    work.slip("level_itself", level)
    work.slip("gain_only", level * (water_density - steam_density)
              / (water_calibrated - steam_calibrated))
    work.slip("mirrored", 2 * level - shown)


def compensated(work, differential, weir, water_density, steam_density, leg_density,
                water_calibrated, steam_calibrated, leg_calibrated):
    """Level with and without compensation from one differential."""
    level = work.step("level", level_of_differential(
        differential, weir, water_density, steam_density, leg_density, GRAVITY))
    refuse_outside(work, level, weir)
    work.step("uncompensated", level_of_differential(
        differential, weir, water_calibrated, steam_calibrated, leg_calibrated, GRAVITY))
    head = (leg_density - steam_density) * GRAVITY * weir - differential
    hot_head = (leg_calibrated - steam_calibrated) * GRAVITY * weir - differential
    work.slip("steam_forgotten", head / (water_density * GRAVITY))
    work.slip("denominator_only", hot_head / ((water_density - steam_density) * GRAVITY))
    work.slip("not_compensated",
              hot_head / ((water_calibrated - steam_calibrated) * GRAVITY))


def level_of_no_error(work, weir, water_density, steam_density, leg_density, water_calibrated,
                      steam_calibrated, leg_calibrated):
    """Where an uncompensated instrument is right after all, and its error at half."""
    now = (water_density, steam_density, leg_density)
    then = (water_calibrated, steam_calibrated, leg_calibrated)
    work.step("right_level", right_level(weir, *now, *then))
    work.step("error_at_half", indicated_level(weir / 2, weir, *now, *then) - weir / 2)
    work.slip("bottom", 0.0)
    work.slip("half", weir / 2)
    work.slip("gain_only", weir / 2 * ((water_density - steam_density)
                                       / (water_calibrated - steam_calibrated) - 1))
