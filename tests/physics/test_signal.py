"""Signals and current loop: inverses, bands, starving, receivers in series and in parallel."""

from math import inf

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from levelkit.errors import InputError
from levelkit.physics.level_filter import ramp_lag
from levelkit.physics.loop_power import (
    LoopState,
    Receiver,
    cable_resistance,
    greatest_current,
    greatest_load,
    loop_reading,
)
from levelkit.physics.signal import (
    FAILURE_HIGH,
    FAILURE_LOW,
    MEASURING,
    NOT_USED,
    current_band,
    damped,
    fraction_of_current,
    fraction_of_pressure,
    limited_current,
    receiver_voltage,
    signal_current,
    signal_pressure,
)

fractions = st.floats(-0.3, 1.5)
loops = st.builds(
    lambda supply, ohms, cable, leak: LoopState(
        supply, tuple(Receiver(f"receiver {i}", r) for i, r in enumerate(ohms)), cable, 10.5,
        leakage_resistance=leak),
    st.floats(11.0, 40.0), st.lists(st.floats(50.0, 300.0), min_size=1, max_size=3),
    st.floats(0.0, 50.0), st.floats(3e3, 1e6) | st.just(inf))


@given(fractions)
def test_signals_and_back(fraction):
    assert fraction_of_current(signal_current(fraction)) == pytest.approx(fraction, abs=1e-12)
    assert fraction_of_pressure(signal_pressure(fraction)) == pytest.approx(fraction, abs=1e-12)
    volts = receiver_voltage(signal_current(fraction))
    assert (volts - 1.0) / 4.0 == pytest.approx(fraction, abs=1e-9)  # 1 to 5 V over 250 ohm


def test_half_scale_is_12_milliampere_and_0_6_bar():
    assert signal_current(0.5) == pytest.approx(0.012)
    assert signal_pressure(0.5) == pytest.approx(60e3)


@given(fractions)
def test_limits_of_a_healthy_transmitter(fraction):
    sent = limited_current(fraction)
    assert 0.0038 <= sent.current <= 0.0205
    assert sent.saturated == (not 0.0038 <= signal_current(fraction) <= 0.0205)
    assert current_band(sent.current) == MEASURING


@given(st.floats(0.0, 0.03))
def test_every_current_has_one_meaning(current):
    band = current_band(current)
    if current < 0.0036:
        assert band == FAILURE_LOW
    elif 0.0037 < current < 0.00379:
        assert band == NOT_USED
    elif 0.0039 < current < 0.0204:
        assert band == MEASURING
    elif current > 0.0211:
        assert band == FAILURE_HIGH


def test_bands_of_an_array():
    currents = np.array([0.0, 0.0037, 0.012, 0.0207, 0.022])
    assert list(current_band(currents)) == [current_band(float(i)) for i in currents]
    sent = limited_current(np.array([-1.0, 0.5, 2.0]))
    assert list(sent.saturated) == [True, False, True]


@given(loops, st.floats(0.0035, 0.0215))
def test_voltages_go_round_the_loop(loop, wanted):
    result = loop_reading(loop, wanted)
    through = result.current + result.terminal_voltage / loop.leakage_resistance
    assert result.terminal_voltage + through * loop.load == pytest.approx(loop.supply_voltage)
    if result.starved:
        assert result.current < wanted
        if result.current > 0.0:
            assert result.terminal_voltage == pytest.approx(10.5)
    else:
        assert result.current == wanted and result.terminal_voltage >= 10.5 - 1e-9


@given(loops)
def test_greatest_current_and_greatest_load_are_one_relation(loop):
    loop = LoopState(loop.supply_voltage, loop.receivers, loop.cable_resistance, 10.5)
    current = greatest_current(loop)
    if current >= 1e-3:
        assert greatest_load(loop.supply_voltage, 10.5, min(current, 1.0)) == pytest.approx(
            loop.load)


def test_starving_is_right_when_low_and_stuck_above():
    loop = LoopState(12.0)
    shown = [loop_reading(loop, signal_current(x)).receiver_current for x in (0.0, 0.05, 0.5, 1.0)]
    assert shown[0] == pytest.approx(0.004) and shown[1] == pytest.approx(0.0048)
    assert shown[2] == shown[3] == pytest.approx(1.5 / loop.load)


def test_series_receivers_share_voltage_and_parallel_receivers_share_current():
    series = LoopState(receivers=(Receiver("one"), Receiver("two", 100.0)), cable_resistance=0.0)
    assert series.load == pytest.approx(350.0)
    assert loop_reading(series, 0.012).receiver_current == pytest.approx(0.012)
    parallel = LoopState(receivers=(Receiver("one", 250.0, shunt=100.0),), cable_resistance=0.0)
    assert parallel.load == pytest.approx(250 * 100 / 350)
    assert loop_reading(parallel, 0.012).receiver_current == pytest.approx(0.012 * 100 / 350)


def test_leakage_reads_high_and_hides_a_broken_transmitter():
    leaking = LoopState(leakage_resistance=5e3)
    assert loop_reading(leaking, 0.012).receiver_current > 0.0155
    silent = loop_reading(leaking, 0.0)
    assert silent.receiver_current > 0.004  # no transmitter at all, and yet "4 mA"


def test_broken_wire_carries_nothing():
    result = loop_reading(LoopState(wire_broken=True), np.array([0.004, 0.012]))
    assert not result.receiver_current.any() and not result.starved.any()
    assert current_band(loop_reading(LoopState(wire_broken=True), 0.012).current) == FAILURE_LOW


@given(st.floats(-1.0, 2.0), st.floats(-1.0, 2.0), st.floats(0.0, 100.0), st.floats(0.1, 50.0))
def test_damping_steps_add_up(before, after, seconds, constant):
    half = damped(before, after, seconds / 2, constant)
    assert damped(half, after, seconds / 2, constant) == pytest.approx(
        damped(before, after, seconds, constant), abs=1e-12)
    assert damped(before, after, 0.0, constant) == pytest.approx(before)
    assert damped(before, after, 1.0, 0.0) == after


def test_damping_lags_a_ramp_by_rate_times_time_constant():
    shown, step, constant, rate = 0.0, 0.001, 2.0, -0.01
    for count in range(1, 20_001):
        shown = damped(shown, rate * (count - 0.5) * step, step, constant)
    assert shown - rate * 20.0 == pytest.approx(ramp_lag(rate, constant), rel=1e-3)


@pytest.mark.parametrize("call, message", [
    (lambda: current_band(12.0), r"loop current is 12 A; the allowed range is 0 to 1 A"),
    (lambda: current_band(-0.001), r"loop current is -0\.001 A"),
    (lambda: loop_reading(LoopState(), 12.0), r"wanted current is 12 A.*0\.012"),
    (lambda: LoopState(receivers=()), r"number of receivers is 0; the allowed range is 1"),
    (lambda: Receiver("coil", 0.0), r"resistance of the coil is 0 ohm"),
    (lambda: LoopState(supply_voltage=-24.0), r"supply voltage is -24 V"),
    (lambda: cable_resistance(320.0, 1.5), r"area of a core is 1\.5 m2"),
    (lambda: greatest_load(24.0, 10.5, 22.0), r"current is 22 A.*22 mA is 0\.022"),
    (lambda: damped(0.0, 1.0, -1.0, 1.0), r"time is -1 s"),
])
def test_impossible_loop_is_refused(call, message):
    with pytest.raises(InputError, match=message):
        call()


@pytest.mark.parametrize("seconds, constant", [(1.0, 1.0), (2.0, 1.0), (0.5, 2.0)])
def test_a_damped_step_by_the_exponential_function(seconds, constant):
    assert damped(2.0, 5.0, seconds, constant) == pytest.approx(
        5.0 - 3.0 * np.e ** (-seconds / constant))
