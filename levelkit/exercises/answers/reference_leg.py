"""The reference leg: warm, leaking, boiling, inclined, and unequal runs below."""

from math import cos

from ...physics.chamber import condensing_rate
from ...physics.differential import level_of_differential
from ...physics.leg_state import DrumContents, LegsState
from ...physics.reference_leg import flash_drum_pressure, mean_leg_temperature
from ...physics.wet_legs import leg_pressures
from ...properties import compressed_water_density
from .printed import GRAVITY, refuse_outside

PRESSURE = 6.0e6  # Pa: any drum pressure; it acts on both legs alike


def _differential(level, water_density, steam_density, weir, leg_density, depth=0.0, **fault):
    """What the transmitter sees on one pair of legs."""
    runs = {"reference_run_density": leg_density, "drum_run_density": leg_density}
    legs = LegsState(weir, depth, leg_density, **(runs | fault))
    feet = leg_pressures(DrumContents(level, PRESSURE, water_density, steam_density), legs, GRAVITY)
    return feet.reference - feet.drum_side


def _shown(differential, weir, water_density, steam_density, leg_density):
    return level_of_differential(differential, weir, water_density, steam_density, leg_density,
                                 GRAVITY)


def leg_warmed(work, weir, water_density, steam_density, leg_density, warm_density):
    """Change of the reading when the reference leg warms."""
    level = weir / 2  # any: the change does not depend on it
    cool = _differential(level, water_density, steam_density, weir, leg_density)
    warm = _differential(level, water_density, steam_density, weir, warm_density)
    change = work.step("differential_change", cool - warm)
    shift = work.step("shift", _shown(cool - change, weir, water_density, steam_density,
                                      leg_density) - level)
    work.step("share", shift / weir)
    work.slip("by_leg", (leg_density - warm_density) * weir / leg_density)
    work.slip("cancels", 0.0)
    work.slip("no_change", 0.0)


def leg_lost(work, level, loss, weir, water_density, steam_density, leg_density):
    """Reading when the top of the reference leg is empty."""
    full = _differential(level, water_density, steam_density, weir, leg_density)
    short = _differential(level, water_density, steam_density, weir, leg_density,
                          reference_loss=loss)
    head = work.step("head", full - short)
    drum = (water_density - steam_density) * GRAVITY
    rise = work.step("rise", _shown(full - head, weir, water_density, steam_density,
                                    leg_density) - level)
    refuse_outside(work, work.step("shown", level + rise), weir, "the reading")
    work.slip("reads_low", level - loss * (leg_density - steam_density) * GRAVITY / drum)
    work.slip("one_to_one", level + loss)
    work.slip("gap_empty", level + loss * leg_density * GRAVITY / drum)
    work.slip("rise_one_to_one", loss)


def gas_in_leg(work, gas, weir, water_density, steam_density, leg_density, gas_density):
    """Error when a length of the reference leg holds gas."""
    level = weir / 2
    full = _differential(level, water_density, steam_density, weir, leg_density)
    gassy = _differential(level, water_density, steam_density, weir, leg_density,
                          reference_gas=gas, gas_density=gas_density)
    head = work.step("head", full - gassy)
    work.step("error", _shown(full - head, weir, water_density, steam_density, leg_density) - level)
    work.slip("one_to_one", gas)
    work.slip("by_leg", gas * (leg_density - gas_density) / leg_density)
    work.slip("no_effect", 0.0)


def deep_run_warmed(work, depth, weir, water_density, steam_density, leg_density, warm_density):
    """Error when one leg alone is warmer below the lower connection."""
    level = weir / 2
    alike = _differential(level, water_density, steam_density, weir, leg_density, depth)
    warm = _differential(level, water_density, steam_density, weir, leg_density, depth,
                         reference_run_density=warm_density)
    change = work.step("differential_change", alike - warm)
    error = work.step("error", _shown(alike - change, weir, water_density, steam_density,
                                      leg_density) - level)
    work.step("per_metre", error / depth)
    work.slip("cancels", 0.0)
    work.slip("no_error", 0.0)
    work.slip("by_weir", (leg_density - warm_density) * weir / (water_density - steam_density))


def will_flash(work, leg_saturation_pressure, barometer, final_gauge_pressure):
    """Gauge pressure at which the leg begins to boil, and whether it is reached."""
    begins = work.step("begins", flash_drum_pressure(leg_saturation_pressure) - barometer)
    final = work.step("final", final_gauge_pressure + barometer)
    work.step("flashes", "yes" if final < begins + barometer else "no")
    work.refuse(abs(final - begins - barometer) < 0.2e5, "the choice lies on a knife's edge")
    work.slip("absolute_kept", leg_saturation_pressure)
    work.slip("gauge_kept", final_gauge_pressure)


def under_list(work, level, weir, list_angle, water_density, steam_density, leg_density):
    """Reading of a transmitter in a listing ship."""
    differential = work.step("differential", _differential(
        level, water_density, steam_density, weir, leg_density, list_angle=list_angle))
    shown = work.step("shown", _shown(differential, weir, water_density, steam_density,
                                      leg_density))
    work.step("error", shown - level)
    work.slip("no_effect", level)
    work.slip("reading_times_cosine", level * cos(list_angle))
    work.slip("reading_over_cosine", level / cos(list_angle))


def make_up_against_weep(work, heat_loss, latent_heat, weep):
    """What a chamber condenses against what a joint weeps."""
    rate = work.step("rate", condensing_rate(heat_loss, latent_heat))
    work.step("spare", rate - weep)
    work.step("holds", "holds" if rate > weep else "falls")
    work.slip("sensible", heat_loss / (4.19e3 * 100.0))
    work.refuse(abs(rate - weep) < 0.05 * weep, "the choice lies on a knife's edge")


def conducted_heat(work, weir, absolute_pressure, top_temperature, air_temperature, decay_length,
                   water_density, steam_density, air_leg_density):
    """Mean temperature of a leg warmed by conduction, and what ignoring it costs."""
    mean = work.step("mean", mean_leg_temperature(weir, top_temperature, air_temperature,
                                                  decay_length))
    density = work.step("density", compressed_water_density(absolute_pressure, mean))
    level = weir / 2
    differential = _differential(level, water_density, steam_density, weir, density)
    work.step("error", _shown(differential, weir, water_density, steam_density,
                              air_leg_density) - level)
    work.slip("at_air", air_temperature)
    work.slip("half_way", (top_temperature + air_temperature) / 2)
