"""Manifold, signals and loop power: equaliser, isolators, 4-20 mA, 0.2-1.0 bar, supply."""

from dataclasses import replace

from ...physics.loop_power import (
    LoopState,
    Receiver,
    cable_resistance,
    greatest_current,
    greatest_load,
    loop_reading,
)
from ...physics.manifold import (
    ManifoldState,
    TrappedWater,
    port_pressures,
    valve_resistance,
)
from ...physics.signal import (
    FULL_CURRENT,
    HIGH_SIGNAL_PRESSURE,
    current_band,
    fraction_of_current,
    fraction_of_pressure,
    receiver_voltage,
    signal_current,
    signal_pressure,
)
from ...physics.transmitter_check import current_at_no_differential
from ...physics.transmitter_range import transmitter_range
from .printed import GRAVITY

FAILURE_SIGNAL = 0.022  # A: the largest current that the questions allow for
FEET = 6.1e6  # Pa: foot pressure of the drum side; only the difference counts


def equaliser_open(work, weir, water_density, steam_density, leg_density):
    """Reading and current with the equaliser wide open."""
    calibration = transmitter_range(weir, water_density, steam_density, leg_density,
                                    gravity=GRAVITY)
    work.step("fraction", calibration.lower_value / calibration.span)
    work.step("current", current_at_no_differential(calibration).current)
    work.slip("nought", 0.0)
    work.slip("middle", 0.5)
    work.slip("by_leg", (water_density - steam_density) / (leg_density - steam_density))
    work.slip("empty", 0.004)
    work.slip("half", 0.012)
    work.slip("failure", 0.021)


def equaliser_passing(work, differential, opening):
    """Differential that is left when the equaliser passes a little."""
    resistance = work.step("resistance", valve_resistance(opening))
    ports = port_pressures(FEET + differential, FEET, ManifoldState(equaliser=opening))
    work.step("measured", ports.reference - ports.drum_side)
    work.slip("one_line", differential * resistance / (resistance + 1.0))
    work.slip("unchanged", differential)


def isolator_shut(work, span):
    """How far drum pressure must move to drive the reading off either end from half."""
    open_to_drum = port_pressures(FEET + span / 2, FEET, ManifoldState())
    shut = ManifoldState(drum_isolator=0.0, drum_trapped=TrappedWater(
        open_to_drum.drum_side, open_to_drum.reference))

    def differential(change):
        ports = port_pressures(FEET + span / 2 + change, FEET + change, shut)
        return ports.reference - ports.drum_side

    half = work.step("half", span / 2)
    work.step("rise_to", "0" if differential(half) > differential(0.0) else "100")
    work.step("fall_to", "0" if differential(-half) > differential(0.0) else "100")
    work.slip("whole_span", span)
    work.slip("bar_for_kilopascal", 50.0 * span)


def conversions(work, per_cent, current, pressure, second_current):
    """Level to signals and back."""
    sent = work.step("level_current", signal_current(per_cent))
    work.step("level_pressure", signal_pressure(per_cent))
    work.step("voltage", receiver_voltage(sent))
    work.step("of_current", fraction_of_current(current))
    work.step("of_pressure", fraction_of_pressure(pressure))
    work.step("current_to_pressure", signal_pressure(fraction_of_current(second_current)))
    work.slip("no_live_zero", FULL_CURRENT * per_cent)
    work.slip("no_live_zero_bar", HIGH_SIGNAL_PRESSURE * per_cent)
    work.slip("of_20_mA", current / FULL_CURRENT)
    work.slip("of_1_bar", pressure / HIGH_SIGNAL_PRESSURE)
    work.slip("bar_from_zero", HIGH_SIGNAL_PRESSURE * fraction_of_current(second_current))


def loop_load(work, supply, minimum, receiver, indicator, length, core_area, resistivity):
    """Greatest load, load and terminal voltage of a loop."""
    allowed = work.step("allowed", greatest_load(supply, minimum, FAILURE_SIGNAL))
    cable = work.step("cable", cable_resistance(length, core_area, resistivity))
    loop = LoopState(supply, (Receiver("receiver", receiver), Receiver("indicator", indicator)),
                     cable, minimum)
    load = work.step("load", loop.load)
    work.step("sound", "sound" if load < allowed else "starved")
    work.refuse(abs(load - allowed) < 0.05 * allowed, "the choice lies on a knife's edge")
    forced = replace(loop, minimum_terminal_voltage=0.0)  # as if the signal flowed in any case
    work.step("terminal", loop_reading(forced, FAILURE_SIGNAL).terminal_voltage)
    work.slip("at_20_mA", greatest_load(supply, minimum, FULL_CURRENT))
    work.slip("no_minimum", supply / FAILURE_SIGNAL)
    work.slip("one_core", cable / 2)
    work.slip("terminal_at_20", supply - FULL_CURRENT * load)


def starved_loop(work, supply, minimum, receiver, cable):
    """Current at which a short supply starves the transmitter."""
    loop = LoopState(supply, (Receiver("receiver", receiver),), cable, minimum)
    current = work.step("current", greatest_current(loop))
    work.step("level", fraction_of_current(current))
    work.step("allowed", greatest_load(supply, minimum, FAILURE_SIGNAL))
    work.slip("no_minimum", supply / loop.load)
    work.slip("full", FULL_CURRENT)
    work.slip("no_live_zero", current / FULL_CURRENT)
    work.slip("at_20_mA", greatest_load(supply, minimum, FULL_CURRENT))


def bands(work, current_1, current_2, current_3, current_4, current_5):
    """Which band of NE 43 each current lies in, and the level of the third one."""
    names = {"measuring": "measuring", "failure, low": "failure", "failure, high": "failure",
             "between the bands": "between"}
    for number, current in enumerate((current_1, current_2, current_3, current_4, current_5), 1):
        work.step(f"band_{number}", names[current_band(current)])
    work.step("level", fraction_of_current(current_3))
    work.slip("of_20_mA", current_3 / FULL_CURRENT)


def pneumatic(work, sent, received):
    """True and indicated level of a pneumatic receiver that loses pressure."""
    work.refuse(received > sent - 3e3, "the receiver loses no pressure worth the question")
    true = work.step("true", fraction_of_pressure(sent))
    shown = work.step("shown", fraction_of_pressure(received))
    work.step("error", shown - true)
    work.step("failed", fraction_of_pressure(0.0))
    work.slip("of_1_bar", sent / HIGH_SIGNAL_PRESSURE)
    work.slip("not_rescaled", (sent - 2e4) / HIGH_SIGNAL_PRESSURE)
    work.slip("shown_of_1_bar", received / HIGH_SIGNAL_PRESSURE)
    work.slip("error_of_1_bar", (received - sent) / HIGH_SIGNAL_PRESSURE)


def parallel_receivers(work, fraction, receiver, second):
    """What a receiver shows with another one wired across it by mistake."""
    sent = work.step("sent", signal_current(fraction))
    loop = LoopState(24.0, (Receiver("receiver", receiver, second),), 7.5, 10.5)
    own = work.step("own", loop_reading(loop, sent).receiver_current)
    work.step("shown", fraction_of_current(own))
    work.slip("no_live_zero", FULL_CURRENT * fraction)
    work.slip("series_thought", sent)
    work.slip("other_share", sent * receiver / (receiver + second))
    work.slip("half_scale", fraction * second / (receiver + second))


def five_volt_input(work, voltage, resistance, lower_level, upper_level):
    """Level from the voltage over a receiver, with engineering limits."""
    current = work.step("current", voltage / receiver_voltage(1.0, resistance))
    fraction = work.step("fraction", fraction_of_current(current))
    work.step("level", lower_level + fraction * (upper_level - lower_level))
    work.slip("no_live_zero", current / FULL_CURRENT)
    work.slip("level_no_live_zero",
              lower_level + current / FULL_CURRENT * (upper_level - lower_level))
    work.slip("offset_forgotten", fraction * (upper_level - lower_level))


def reference_isolator_shut(work, differential, lower, upper, drum_change):
    """Reading after a change of drum pressure with the reference isolator shut."""
    fraction = work.step("before", (lower - differential) / (lower - upper))
    shut = ManifoldState(reference_isolator=0.0,
                         reference_trapped=TrappedWater(FEET + differential, FEET))
    ports = port_pressures(FEET + differential + drum_change, FEET + drum_change, shut)
    after = work.step("after", ports.reference - ports.drum_side)
    work.step("shown", (lower - after) / (lower - upper))
    work.slip("other_side", (lower - (differential + drum_change)) / (lower - upper))
    work.slip("frozen", fraction)
    work.slip("as_drum_side", differential + drum_change)
