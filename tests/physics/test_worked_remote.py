"""Examination-style worked examples of the trade (source WORKED-EXAMPLES): from the rounded data
that they print to the answers that they print, each within the printed tolerance."""

from dataclasses import replace
from math import pi, radians

import pytest

from levelkit.physics.chamber import make_up_transient
from levelkit.physics.differential import (
    indicated_level,
    level_of_differential,
    reference_differential,
)
from levelkit.physics.fluid_balance import fluid_difference, level_of_fluid_difference
from levelkit.physics.glass import drum_level
from levelkit.physics.indicating_fluids import IndicatingFluid
from levelkit.physics.leg_state import DrumContents, LegsState
from levelkit.physics.loop_power import (
    LoopState,
    Receiver,
    cable_resistance,
    greatest_current,
    greatest_load,
    loop_reading,
)
from levelkit.physics.manifold import ManifoldState
from levelkit.physics.reference_leg import flash_drum_pressure
from levelkit.physics.signal import (
    FAILURE_HIGH,
    FAILURE_LOW,
    MEASURING,
    NOT_USED,
    current_band,
    fraction_of_current,
    fraction_of_pressure,
    receiver_voltage,
    signal_current,
    signal_pressure,
)
from levelkit.physics.transmitter import transmitter_reading
from levelkit.physics.transmitter_check import (
    current_at_no_differential,
    differential_at,
    loop_error,
)
from levelkit.physics.transmitter_range import (
    DIRECT,
    ELEVATED_ZERO,
    SUPPRESSED_ZERO,
    transmitter_range,
    zero_kind,
)
from levelkit.physics.transmitter_state import (
    PNEUMATIC,
    AirLine,
    Compensation,
    calibrated_transmitter,
)
from levelkit.physics.trapped_water import moved_valve
from levelkit.physics.two_fluid import two_fluid_reading
from levelkit.physics.two_fluid_design import (
    filling_shift,
    fluid_density_for_scale,
    scale_ratio,
    surface_share,
    two_fluid_range,
)
from levelkit.physics.two_fluid_state import drawn_two_fluid
from levelkit.physics.u_tube import DRUM_LIMB, REFERENCE_LIMB, UTube
from levelkit.physics.wet_legs import instrument_ports
from levelkit.units import gauge_pressure_bar

G = 9.81
AT_45_BAR = (785.5, 23.2, 992.2)  # drum water, steam, legs at 45 degC
AT_60_BAR = (756.1, 31.4, 990.6)  # drum water, steam, leg at 50 degC
COLD = (998.2, 1.2, 998.2)


def area(bore):
    return pi * bore**2 / 4


def transmitter(level=0.4, **legs):
    """The transmitter of the examples: reversed connection, 60 bar gauge, tappings 0.8 m apart."""
    water, steam, leg = AT_60_BAR
    healthy = calibrated_transmitter(DrumContents(level, 61e5, water, steam),
                                     LegsState(0.8, 2.0, leg, leg, leg), gravity=G)
    return replace(healthy, legs=replace(healthy.legs, **legs))


def reading(state):
    return transmitter_reading(state, gravity=G)


# ---- two-fluid indicator


def test_difference_of_fluid_levels():
    assert 1e3 * fluid_difference(0.300, 0.500, *AT_45_BAR, 1400.0, G) == pytest.approx(627, abs=3)


def indicator(level, fluid=1400.0, visible=REFERENCE_LIMB, bores=(0.008, 0.008), volume=7e-5):
    water, steam, leg = AT_45_BAR
    return drawn_two_fluid(DrumContents(level, 46e5, water, steam),
                           LegsState(0.5, 3.0, leg, leg, leg),
                           UTube(*bores, 5.0, 1.9, visible_limb=visible),
                           IndicatingFluid("exercise", fluid), 293.15, volume)


def test_lower_surface_is_in_the_constant_head_limb():
    result = two_fluid_reading(indicator(0.300), gravity=G)
    assert result.difference == pytest.approx(0.627, abs=0.003)
    assert result.reference_surface < result.drum_surface


def test_fluid_for_a_full_size_scale():
    assert fluid_density_for_scale(1.0, *AT_45_BAR) / 1000 == pytest.approx(1.373, abs=0.003)


def test_range_and_limb_length():
    found = two_fluid_range(0.500, *AT_45_BAR, 1373.0, area(0.008), area(0.008), 0.060)
    assert 1e3 * found.greatest_difference == pytest.approx(1272, abs=4)
    assert 1e3 * found.least_difference == pytest.approx(271, abs=4)
    assert 1e3 * found.reference_travel == pytest.approx(500.5, abs=1)
    assert 1e3 * found.drum_travel == pytest.approx(500.5, abs=1)
    assert 1e3 * found.least_limb_height == pytest.approx(1332, abs=4)


@pytest.mark.parametrize("visible, error", [(REFERENCE_LIMB, 60), (DRUM_LIMB, -60)])
def test_overfilled(visible, error):
    assert 1e3 * filling_shift(6e-6, area(0.008), area(0.008)) == pytest.approx(60, abs=1)
    fluid = fluid_density_for_scale(1.0, *AT_45_BAR)
    healthy = indicator(0.25, fluid, visible)
    faulty = replace(healthy, filling=healthy.filling + 6e-6)
    assert 1e3 * two_fluid_reading(faulty).error == pytest.approx(error, abs=1)


def test_fluid_lost_from_unequal_bores():
    shift = filling_shift(-4e-6, area(0.008), area(0.014))
    assert 1e3 * shift == pytest.approx(-19.6, abs=0.7)
    assert 1e3 * shift / 1.255 == pytest.approx(-15.6, abs=0.7)
    # the whole indicator, with the fluid that gives the printed scale ratio
    share = surface_share(area(0.008), area(0.014))
    fluid = fluid_density_for_scale(1.255, *AT_45_BAR, share)
    assert scale_ratio(*AT_45_BAR, fluid, share) == pytest.approx(1.255)
    healthy = indicator(0.25, fluid, bores=(0.008, 0.014), volume=1.8e-4)
    faulty = replace(healthy, filling=healthy.filling - 4e-6)
    before, after = two_fluid_reading(healthy), two_fluid_reading(faulty)
    assert 1e3 * (after.reference_surface - before.reference_surface) == pytest.approx(-19.6,
                                                                                       abs=0.7)
    assert 1e3 * after.error == pytest.approx(-15.6, abs=0.7)


def test_cold_boiler_on_a_two_fluid_indicator():
    difference = fluid_difference(0.250, 0.500, *COLD, 1373.0)
    assert difference == pytest.approx(0.6650, abs=0.001)
    shown = level_of_fluid_difference(difference, 0.500, *AT_45_BAR, 1373.0)
    assert 1e3 * shown == pytest.approx(303, abs=3)
    assert 1e3 * (shown - 0.250) == pytest.approx(53, abs=3)


def test_make_up_after_a_falling_level():
    change = make_up_transient(0.120, area(0.008), 1800e-6, 992.2, 40.0, 1668.5e3)
    assert 1e9 * change.volume == pytest.approx(6032, rel=0.01)
    assert 1e3 * change.head_fall == pytest.approx(3.4, rel=0.03)
    assert change.time == pytest.approx(250, rel=0.03)


# ---- DP transmitter


def test_ranging_direct():
    found = transmitter_range(0.8, *AT_60_BAR, DIRECT, gravity=G)
    assert found.lower_value / 1e3 == pytest.approx(-7.53, abs=0.02)
    assert found.upper_value / 1e3 == pytest.approx(-1.84, abs=0.02)
    assert found.span / 1e3 == pytest.approx(5.69, abs=0.02)
    assert zero_kind(found) == ELEVATED_ZERO
    assert zero_kind(transmitter_range(0.8, *AT_60_BAR, gravity=G)) == SUPPRESSED_ZERO


def test_reversed_connection_reverse_acting():
    result = reading(transmitter(0.520))
    assert result.differential / 1e3 == pytest.approx(3.831, abs=0.01)
    assert 1e3 * result.current == pytest.approx(14.40, abs=0.03)
    assert transmitter().calibration.reverse_acting


def test_level_from_a_measured_differential():
    level = level_of_differential(4300.0, 0.8, *AT_60_BAR, G)
    assert 1e3 * level == pytest.approx(454, abs=2)
    assert 1e3 * signal_current(level / 0.8) == pytest.approx(13.08, abs=0.04)
    assert 100 * loop_error(0.0111, level / 0.8) == pytest.approx(-12.4, abs=0.3)


def test_calibrated_hot_read_cold():
    cold = replace(transmitter(), drum=DrumContents(0.4, 1e5, *COLD[:2]),
                   legs=LegsState(0.8, 2.0, *3 * (COLD[2],)))
    result = reading(cold)
    assert 100 * result.shown_fraction == pytest.approx(63.6, abs=0.5)
    assert 1e3 * result.current == pytest.approx(14.17, abs=0.1)


def test_slow_steaming_at_half_pressure():
    half = (819.4, 15.5, 989.3)
    assert reference_differential(0.36, 0.8, *half, G) == pytest.approx(4803, abs=2)
    shown = indicated_level(0.360, 0.8, *half, *AT_60_BAR)
    assert 1e3 * shown == pytest.approx(383, abs=3)
    assert 1e3 * (shown - 0.36) == pytest.approx(23, abs=3)


def test_pressure_compensation():
    at_20_bar = (846.7, 10.5, 988.9)
    right = level_of_differential(4950.0, 0.8, *at_20_bar, G)
    assert 1e3 * right == pytest.approx(332.6, abs=1)
    assert 1e3 * level_of_differential(4950.0, 0.8, *AT_60_BAR, G) == pytest.approx(362.6, abs=1)
    water, steam, leg = at_20_bar
    compensated = replace(transmitter(), drum=DrumContents(right, 21e5, water, steam),
                          legs=LegsState(0.8, 2.0, leg, leg, leg),
                          compensation=Compensation(water, steam, leg))
    assert reading(compensated).differential == pytest.approx(4950.0)
    assert 1e3 * reading(compensated).indicated_level == pytest.approx(332.6, abs=1)
    plain = reading(replace(compensated, compensation=None))
    assert 1e3 * plain.indicated_level == pytest.approx(362.6, abs=1)


def test_reference_leg_warmed():
    change = reading(transmitter(reference_density=964.6)).indicated_level - 0.4
    assert 1e3 * change == pytest.approx(28.7, abs=0.7)
    assert 100 * change / 0.8 == pytest.approx(3.6, abs=0.1)


def test_part_of_the_reference_leg_lost():
    result = reading(transmitter(0.30, reference_loss=0.120))
    assert 1e3 * result.indicated_level == pytest.approx(459, abs=1)


def test_equaliser_left_open():
    result = reading(transmitter(manifold=ManifoldState(equaliser=1.0)))
    assert 100 * result.fraction == pytest.approx(132, abs=1)
    assert result.current == current_at_no_differential(transmitter().calibration).current == 0.0205
    assert result.saturated and result.band == MEASURING


@pytest.mark.parametrize("change, end", [(2844.0, 0.0), (-2844.0, 1.0)])
def test_drum_leg_isolator_shut(change, end):
    state = transmitter()
    ports = instrument_ports(state.drum, state.legs, gravity=G)
    shut = moved_valve(state.legs.manifold, "drum_isolator", 0.0, ports)
    held = replace(state, legs=replace(state.legs, manifold=shut))
    moved = replace(held, drum=replace(held.drum, pressure=held.drum.pressure + change))
    assert reading(held).fraction == pytest.approx(0.5, abs=1e-9)
    assert reading(moved).fraction == pytest.approx(end, abs=0.02 / 5.687)
    assert state.calibration.span / 2e3 == pytest.approx(2.84, abs=0.02)


def test_will_the_reference_leg_flash():
    begins = flash_drum_pressure(4.76e5)
    assert gauge_pressure_bar(begins, barometer=1.01e5) == pytest.approx(3.75, abs=0.05)
    assert begins > 3.0e5 + 1.01e5  # it flashes at 3.0 bar gauge


def test_transmitter_under_list():
    result = reading(transmitter(list_angle=radians(12.0)))
    assert result.differential == pytest.approx(4582, abs=2)
    assert 1e3 * result.indicated_level == pytest.approx(414, abs=1.5)
    assert 1e3 * result.error == pytest.approx(14, abs=1.5)


def test_five_point_bench_check():
    calibration = transmitter().calibration
    points = [0.0, 0.25, 0.5, 0.75, 1.0]
    applied = [differential_at(calibration, x) / 1e3 for x in points]
    assert applied == pytest.approx([7.528, 6.106, 4.684, 3.262, 1.840], abs=0.001)
    read = [4.02, 8.05, 12.09, 16.09, 20.06]
    errors = [100 * loop_error(i / 1e3, x) for i, x in zip(read, points, strict=True)]
    assert errors == pytest.approx([0.12, 0.31, 0.56, 0.56, 0.37], abs=0.02)
    assert [abs(error) > 0.5 for error in errors] == [False, False, True, True, False]


# ---- signals and loop


def test_signal_conversions():
    assert 1e3 * signal_current(0.375) == pytest.approx(10.00, abs=0.02)
    assert signal_pressure(0.375) / 1e5 == pytest.approx(0.500, abs=0.005)
    assert receiver_voltage(0.010) == pytest.approx(2.50, abs=0.005)
    assert 100 * fraction_of_current(0.0096) == pytest.approx(35.0, abs=0.2)
    assert 100 * fraction_of_pressure(0.74e5) == pytest.approx(67.5, abs=0.2)
    assert signal_pressure(fraction_of_current(0.015)) / 1e5 == pytest.approx(0.750, abs=0.005)


def test_will_the_loop_drive_its_load():
    cable = cable_resistance(320.0, 1.5e-6, 0.0175e-6)
    assert cable == pytest.approx(7.47, abs=0.01)
    loop = LoopState(24.0, (Receiver("input", 250.0), Receiver("indicator", 120.0)), cable, 10.5)
    assert greatest_load(24.0, 10.5, 0.022) == pytest.approx(614, abs=2)
    assert loop.load == pytest.approx(377.5, abs=0.1)
    result = loop_reading(loop, 0.022)
    assert not result.starved
    assert result.terminal_voltage == pytest.approx(15.70, abs=0.1)


def test_the_same_transmitter_on_a_12_volt_battery():
    loop = LoopState(12.0, (Receiver("input", 250.0),), 7.5, 10.5)
    assert 1e3 * greatest_current(loop) == pytest.approx(5.83, abs=0.05)
    assert 100 * fraction_of_current(greatest_current(loop)) == pytest.approx(11.4, abs=0.3)
    assert greatest_load(12.0, 10.5, 0.022) == pytest.approx(68, abs=1)
    high, low = (reading(replace(transmitter(share * 0.8), loop=loop)) for share in (0.9, 0.05))
    assert high.starved and 100 * high.shown_fraction == pytest.approx(11.4, abs=0.3)
    assert not low.starved and low.shown_fraction == pytest.approx(0.05)
    failing = replace(transmitter(), loop=loop, health="fails high")
    assert reading(failing).band != FAILURE_HIGH  # the failure signal cannot come through


@pytest.mark.parametrize("milliamperes, band, percent", [
    (3.5, FAILURE_LOW, None), (3.7, NOT_USED, None), (3.8, MEASURING, -1.25),
    (3.95, MEASURING, -0.3), (12.0, MEASURING, 50.0), (20.3, MEASURING, 101.9),
    (20.5, MEASURING, 103.1), (20.8, NOT_USED, None), (21.5, FAILURE_HIGH, None),
    (0.0, FAILURE_LOW, None)])
def test_currents_by_their_bands(milliamperes, band, percent):
    assert current_band(milliamperes / 1e3) == band
    if percent is not None:
        assert 100 * fraction_of_current(milliamperes / 1e3) == pytest.approx(percent, abs=0.05)


def test_pneumatic_remote_indicator():
    assert 100 * fraction_of_pressure(0.68e5) == pytest.approx(60.0, abs=0.3)
    assert 100 * fraction_of_pressure(0.62e5) == pytest.approx(52.5, abs=0.3)
    state = replace(transmitter(0.6 * 0.8), receiver=PNEUMATIC, air=AirLine(leak=1 - 0.62 / 0.68))
    assert 100 * reading(state).error / 0.8 == pytest.approx(-7.5, abs=0.3)
    failed = replace(state, air=AirLine(supply_pressure=0.0))
    assert 100 * reading(failed).shown_fraction == pytest.approx(-25.0)


def test_three_indicators_disagree():
    glass = drum_level(0.300, 756.1, 31.4, 920.2)
    assert 1e3 * glass == pytest.approx(368, abs=2)
    assert abs(glass - 0.372) < 0.025 < 0.562 - 0.372
    odd = 1e3 * (0.562 - 0.372)
    per_millimetre = reading(transmitter(0.372, reference_loss=0.001)).error / 0.001
    assert odd / per_millimetre == pytest.approx(144, abs=4)
    assert 1e3 * reading(transmitter(0.372, reference_loss=0.144)).indicated_level == (
        pytest.approx(562, abs=4))
