"""Voting, spurious trips, and readings that disagree."""

from ...physics.differential import indicated_level, level_of_differential
from ...physics.glass import drum_level, glass_column_height
from ...physics.leg_state import DrumContents, LegsState
from ...physics.uncertainty import agreement_band
from ...physics.voting import failure_on_demand, spurious_trip_rate
from ...physics.wet_legs import leg_pressures
from .printed import GRAVITY, refuse_outside

YEAR = 8760 * 3600.0  # s


def two_of_three(work, rate, interval, common_cause):
    """Failure on demand of one, two of two and two of three, without and with common cause."""
    one = work.step("one", failure_on_demand("1oo1", rate, interval))
    work.step("both", failure_on_demand("2oo2", rate, interval))
    work.step("voted", failure_on_demand("2oo3", rate, interval))
    work.step("common", failure_on_demand("2oo3", rate, interval, common_cause))
    work.slip("third", one / 3)
    work.slip("three_times", 3 * one)
    work.slip("square_of_mean", one**2)
    work.slip("no_common", failure_on_demand("2oo3", rate, interval))
    work.slip("both_safer", one**2)


def shared_leg(work, rate, interval, leg_rate):
    """Failure on demand of two of three on legs of their own and on one leg."""
    alone = work.step("alone", failure_on_demand("2oo3", rate, interval))
    shared = work.step("shared", failure_on_demand("2oo3", rate, interval,
                                                   shared_leg_rate=leg_rate))
    work.step("times", shared / alone)
    work.slip("leg_voted", alone + (leg_rate * interval) ** 2)
    work.slip("leg_whole", alone + leg_rate * interval)


def spurious(work, rate, repair):
    """False trips in a year of one of two and of two of three."""
    either = work.step("either", spurious_trip_rate("1oo2", rate, repair) * YEAR)
    voted = work.step("voted", spurious_trip_rate("2oo3", rate, repair) * YEAR)
    work.step("times", either / voted)
    work.slip("one", rate * YEAR)
    work.slip("one_pair", 2 * rate**2 * repair * YEAR)
    work.slip("three", 3 * rate * YEAR)


def three_readings(work, glass, two_fluid, transmitter, water_density, steam_density,
                   glass_density, leg_density, weir):
    """The odd one of three indicators, and the loss of leg water that explains it."""
    level = work.step("corrected", drum_level(glass, water_density, steam_density, glass_density))
    excess = work.step("excess", transmitter - two_fluid)
    # the loss from the same balance as the transmitter's: a leg shorter by a metre
    drum = DrumContents(weir / 2, 6.0e6, water_density, steam_density)
    legs = LegsState(weir, 0.0, leg_density, leg_density, leg_density, reference_loss=0.1)
    feet = leg_pressures(drum, legs, GRAVITY)
    shown = level_of_differential(feet.reference - feet.drum_side, weir, water_density,
                                  steam_density, leg_density, GRAVITY)
    work.step("loss", 0.1 * excess / (shown - weir / 2))
    work.refuse(abs(level - two_fluid) > 0.012, "the two sound indicators do not agree")
    ratio = (leg_density - steam_density) / (water_density - steam_density)
    work.slip("not_corrected", glass)
    work.slip("ratio_inverted", excess * ratio)
    work.slip("one_to_one", excess)
    work.slip("glass_inverted",
              glass * (water_density - steam_density) / (glass_density - steam_density))


def do_they_agree(work, glass, transmitter, glass_uncertainty, transmitter_uncertainty):
    """Whether two indicators agree within their uncertainties."""
    gap = work.step("gap", transmitter - glass)
    band = work.step("band", agreement_band(glass_uncertainty, transmitter_uncertainty))
    work.step("agree", "yes" if abs(gap) <= band else "no")
    work.refuse(abs(abs(gap) - band) < 0.08 * band, "the choice lies on a knife's edge")
    work.slip("added", glass_uncertainty + transmitter_uncertainty)
    work.slip("larger", max(glass_uncertainty, transmitter_uncertainty))


def glass_and_transmitter(work, level, weir, water_density, steam_density, leg_density,
                          water_calibrated, steam_calibrated, leg_calibrated, glass_density):
    """Glass and uncompensated transmitter on one drum at part pressure."""
    now = (water_density, steam_density, leg_density)
    then = (water_calibrated, steam_calibrated, leg_calibrated)
    shown = work.step("transmitter", indicated_level(level, weir, *now, *then))
    refuse_outside(work, shown, weir, "the reading")
    glass = work.step("glass", glass_column_height(level, water_density, steam_density,
                                                   glass_density))
    work.step("apart", shown - glass)
    work.slip("level_itself", level)
    work.slip("glass_level", level)
    work.slip("mirrored", 2 * level - shown)
