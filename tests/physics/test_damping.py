"""Swings behind a cock or a filter, against integrations of the plain equations."""

from math import exp, pi, sin, sqrt

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from levelkit.errors import InputError
from levelkit.physics.damping import first_order_swing, throttled_swing
from levelkit.physics.level_filter import (
    delay_against_roll,
    filter_against_roll,
    filtered,
    ramp_lag,
)


@pytest.mark.parametrize("opening", [2e-6, 5e-6, 20e-6])
def test_throttled_swing_equals_the_integrated_glass(opening):
    from scipy.integrate import solve_ivp

    glass, period, amplitude = 113e-6, 9.0, 0.1

    def rate(time, height):
        gap = amplitude * sin(2 * pi * time / period) - height[0]
        return [0.6 * opening / glass * sqrt(2 * 9.80665 * abs(gap)) * (1 if gap > 0 else -1)]

    run = solve_ivp(rate, (0, 8 * period), [0.0], max_step=0.03, rtol=1e-5)
    times = np.linspace(7 * period, 8 * period, 1801)
    height = np.interp(times, run.t, run.y[0])
    turn = np.exp(2j * pi * times / period)
    first = abs(np.trapezoid(height * turn, times)) * 2 / period  # first harmonic
    swing = throttled_swing(amplitude, period, glass, opening)
    assert swing.amplitude == pytest.approx(first, rel=0.02)
    assert np.ptp(height) / 2 == pytest.approx(swing.amplitude, rel=0.08)  # sharper peaks


def test_a_cock_damps_a_large_roll_more_than_a_small_one_and_wide_open_hardly():
    large, small = (throttled_swing(a, 9.0, 113e-6, 5e-6) for a in (0.2, 0.02))
    assert large.share < small.share < 1
    assert throttled_swing(0.1, 9.0, 113e-6, 78e-6).share > 0.99
    assert throttled_swing(0.0, 9.0, 113e-6, 5e-6).amplitude == 0.0


@pytest.mark.parametrize("amplitude", [0.25, 1.0, 4.0])
def test_a_swing_four_times_as_large_behind_a_bore_half_as_wide_is_damped_alike(amplitude):
    """Only area times root of swing counts; a swing of one metre is no exception."""
    one = throttled_swing(amplitude, 9.0, 113e-6, 20e-6)
    like = throttled_swing(amplitude / 4, 9.0, 226e-6, 20e-6)
    assert one.share == pytest.approx(like.share, rel=1e-9) and one.share < 0.95
    assert one.lag == pytest.approx(like.lag, rel=1e-9)


@given(st.floats(1.0, 60.0), st.floats(0.1, 60.0))
def test_first_order_swing_satisfies_its_equation(period, constant):
    swing = first_order_swing(1.0, period, constant)
    omega = 2 * pi / period
    for time in (0.0, 0.3 * period):
        shown = swing.amplitude * sin(omega * (time - swing.lag))
        slope = swing.amplitude * omega * sin(omega * (time - swing.lag) + pi / 2)
        assert constant * slope + shown == pytest.approx(sin(omega * time), abs=1e-9)


def test_filter_answers_a_step_as_an_exponential_and_a_ramp_with_its_lag():
    times = np.linspace(0, 100, 1001)
    step = filtered(np.r_[0.0, 1e-9, times[1:]], np.r_[0.0, np.ones(1001)], 10.0)
    assert step[101] == pytest.approx(1 - exp(-1.0), abs=1e-8)
    ramp = filtered(times, -0.0018 * times, 10.0)
    assert ramp[-1] + 0.0018 * 100 == pytest.approx(ramp_lag(-0.0018, 10.0), rel=1e-4)


@given(st.floats(0.11, 1.0), st.floats(5.0, 20.0))
def test_filter_and_delay_just_keep_the_alarm_quiet(swing, period):
    margin = 0.1
    constant = filter_against_roll(swing, margin, period)
    assert first_order_swing(swing, period, constant).amplitude == pytest.approx(margin)
    times = np.linspace(0, period, 20_001)
    below = np.mean(-swing * np.sin(2 * pi * times / period) > margin) * period
    assert delay_against_roll(swing, margin, period) == pytest.approx(below, abs=2e-3)


def test_a_swing_within_the_margin_needs_neither():
    assert filter_against_roll(0.05, 0.1, 9.0) == 0.0
    assert delay_against_roll(0.05, 0.1, 9.0) == 0.0


@pytest.mark.parametrize("call, words", [
    (lambda: throttled_swing(0.1, 9.0, 113.0, 5e-6), "113 mm2 is 113e-6"),
    (lambda: filtered([0, 1, 1], [0, 0, 0], 5.0), "each time later"),
    (lambda: filtered([0, 1], [0, 0, 0], 5.0), "2 times and 3 levels"),
    (lambda: filter_against_roll(0.5, 0.0, 9.0), "margin"),
])
def test_unusable_values_say_what_to_do(call, words):
    with pytest.raises(InputError, match=words):
        call()
