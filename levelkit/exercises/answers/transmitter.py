"""DP transmitter on a constant-head leg: range, reading, bench check."""

from ...physics.differential import level_of_differential, reference_differential
from ...physics.signal import FULL_CURRENT, fraction_of_current, signal_current
from ...physics.transmitter_check import differential_at, loop_error
from ...physics.transmitter_range import (
    DIRECT,
    TransmitterRange,
    transmitter_range,
    upside_down,
    zeroed_at_equaliser,
)
from .printed import GRAVITY, refuse_outside

SPAN = 0.016  # A


def direct_range(work, weir, water_density, steam_density, leg_density):
    """LRV, URV and span of a transmitter in direct connection."""
    found = transmitter_range(weir, water_density, steam_density, leg_density, DIRECT,
                              gravity=GRAVITY)
    lower = work.step("lower", found.lower_value)
    upper = work.step("upper", found.upper_value)
    work.step("span", upper - lower)
    work.slip("open_tank_lower", 0.0)
    work.slip("steam_forgotten", -leg_density * GRAVITY * weir)
    work.slip("sign_lost", -found.lower_value)
    work.slip("open_tank_upper", water_density * GRAVITY * weir)
    work.slip("sign_lost_upper", -found.upper_value)
    work.slip("span_of_upper", abs(upper))


def reversed_reading(work, level, weir, water_density, steam_density, leg_density, lower, upper):
    """Differential, fraction and current of a reversed, reverse-acting transmitter."""
    differential = work.step("differential", reference_differential(
        level, weir, water_density, steam_density, leg_density, GRAVITY))
    fraction = work.step("fraction", (lower - differential) / (lower - upper))
    work.step("current", signal_current(fraction))
    work.slip("upside_down", signal_current(1 - fraction))
    work.slip("by_lower", signal_current(differential / lower))
    work.slip("no_live_zero", FULL_CURRENT * fraction)
    work.slip("head_of_level",
              (leg_density - steam_density) * GRAVITY * (weir - level))


def level_from_differential(work, differential, current, weir, water_density, steam_density,
                            leg_density):
    """True level from a test gauge, and the error of the loop."""
    level = work.step("level", level_of_differential(
        differential, weir, water_density, steam_density, leg_density, GRAVITY))
    refuse_outside(work, level, weir)
    fraction = work.step("fraction", level / weir)
    right = work.step("right_current", signal_current(fraction))
    work.step("loop_error", loop_error(current, fraction))
    drum = (water_density - steam_density) * GRAVITY
    work.slip("steam_forgotten", level * drum / (water_density * GRAVITY))
    work.slip("differential_as_level", differential / drum)
    work.slip("error_on_reading", (current - right) / right)
    work.slip("no_live_zero", FULL_CURRENT * fraction)


def bench_check(work, lower, upper, current_25, current_50, current_75):
    """Applied differentials of a bench check and errors of the output."""
    calibration = TransmitterRange(lower, upper, 0.0, 1.0)
    work.step("applied_25", differential_at(calibration, 0.25))
    work.step("applied_75", differential_at(calibration, 0.75))
    errors = {}
    for per_cent, current in ((25, current_25), (50, current_50), (75, current_75)):
        errors[per_cent] = work.step(f"error_{per_cent}", loop_error(current, per_cent / 100))
        work.slip(f"on_20_mA_{per_cent}", errors[per_cent] * SPAN / FULL_CURRENT)
    failed = [str(per_cent) for per_cent, error in errors.items() if abs(error) > 0.005]
    work.step("fails", "others" if "25" in failed else "_".join(failed) or "none")
    work.refuse(any(abs(abs(error) - 0.005) < 0.0004 for error in errors.values()),
                "an error lies too close to the limit")
    work.slip("applied_from_zero", 0.25 * (lower - upper))
    work.slip("applied_rising", differential_at(calibration, 0.75))
    work.slip("applied_from_zero_75", 0.75 * (lower - upper))


def range_upside_down(work, level, weir, lower, upper):
    """What a panel shows whose range was entered the wrong way round."""
    fraction = level / weir
    calibration = TransmitterRange(lower, upper, 0.0, weir)
    right = work.step("right_current", signal_current(fraction))
    differential = differential_at(calibration, fraction)
    wrong = upside_down(calibration)
    shown = work.step("shown_current", signal_current(
        (differential - wrong.lower_value) / (wrong.upper_value - wrong.lower_value)))
    work.step("shown_level", weir * fraction_of_current(shown))
    work.slip("no_live_zero", FULL_CURRENT * fraction)
    work.slip("mirrored_at_20", FULL_CURRENT - right)
    work.slip("still_right", right)


def zeroed_with_equaliser(work, level, weir, lower, upper):
    """What a transmitter shows after its zero was "set" with the equaliser open."""
    calibration = TransmitterRange(lower, upper, 0.0, weir)
    moved = zeroed_at_equaliser(calibration)
    shift = work.step("shift", moved.lower_value - calibration.lower_value)
    differential = work.step("differential", differential_at(calibration, level / weir))
    shown = work.step("shown_fraction", (differential - (lower + shift)) / (upper - lower))
    work.slip("shift_by_span", -(lower - upper))
    work.slip("unchanged", level / weir)
    work.slip("wrong_way", level / weir + lower / (lower - upper))
    work.slip("limited", min(max(shown, 0.0), 1.0))
