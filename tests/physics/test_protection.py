"""Level switches against a plain clock, and the time to the trip against an integration."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from outside import outside_values

from levelkit.check.computed import computed_value
from levelkit.errors import InputError
from levelkit.physics.drum_geometry import Drum, surface_area
from levelkit.physics.level_filter import delay_against_roll, filter_against_roll, filtered
from levelkit.physics.protection import (
    LevelSwitch,
    ProtectionLevels,
    boiler_switches,
    switch_record,
    time_to_level,
)

DRUM = Drum(0.65, 5.6)
LEVELS = ProtectionLevels(-0.24, -0.16, 0.0, 0.16, 0.24)


@pytest.mark.parametrize("row", outside_values("protection"))
def test_outside_value(row):
    assert computed_value(row) == pytest.approx(row.expected, rel=0, abs=row.allowed)


@pytest.mark.parametrize("head", ["flat", "torispherical"])
def test_time_to_level_equals_the_integrated_mass_balance(head):
    from scipy.integrate import quad

    drum, water, steam, loss = Drum(0.65, 5.6, 0.1, head), 756.1, 31.4, 9.5
    summed, _ = quad(lambda level: (water - steam) * surface_area(drum, level) / loss, -0.24, 0.0)
    assert time_to_level(drum, 0.0, -0.24, water, steam, loss) == pytest.approx(summed, rel=1e-8)


def test_shrink_and_the_steam_that_takes_the_place_shorten_the_time():
    plain = time_to_level(DRUM, 0.0, -0.24, 756.1, 0.0, 9.5)
    assert time_to_level(DRUM, 0.0, -0.24, 756.1, 31.4, 9.5) == pytest.approx(
        plain * (756.1 - 31.4) / 756.1)
    shrunk = time_to_level(DRUM, 0.0, -0.24, 756.1, 0.0, 9.5, shrink=0.05)
    assert shrunk == pytest.approx(time_to_level(DRUM, -0.05, -0.24, 756.1, 0.0, 9.5))
    assert time_to_level(DRUM, 0.0, -0.04, 756.1, 0.0, 9.5, shrink=0.05) == 0.0
    both = time_to_level(DRUM, 0.0, np.array([-0.16, -0.24]), 756.1, 0.0, 9.5)
    assert both[1] == plain and both[0] < plain


def by_clock(times, levels, switch, step):
    """The same switch run by a clock in small steps: on and off, nothing else."""
    clock = np.arange(times[0], times[-1], step)
    level = np.interp(clock, times, levels)
    held, inside, came_in = 0.0, False, []
    for now, height in zip(clock, level, strict=True):
        margin = height - switch.setpoint if switch.falling else switch.setpoint - height
        held = held + step if margin <= 0 else 0.0
        if not inside and margin <= 0 and held > switch.delay:
            inside = True
            came_in.append(now)
        if inside and not switch.latching and margin > switch.hysteresis:
            inside = False
    return came_in


@settings(max_examples=60, deadline=None)
@given(st.lists(st.integers(-30, 30), min_size=3, max_size=12), st.booleans(), st.booleans(),
       st.sampled_from([0.0, 1.5, 4.0]), st.sampled_from([0.0, 0.055]))
def test_switch_equals_a_clock(centimetres, falling, latching, delay, hysteresis):
    times = 2.0 * np.arange(len(centimetres))
    levels = np.array(centimetres) / 100
    switch = LevelSwitch("test", 0.0051, falling, hysteresis, delay, latching)
    found = switch_record(times, levels, switch).came_in
    clocked = by_clock(times, levels, switch, 0.002)
    assert len(found) == len(clocked) or _grazes(times, levels, switch)
    if len(found) == len(clocked):
        assert found == pytest.approx(clocked, abs=0.01)


def _grazes(times, levels, switch):
    """Whether a stretch is so near the delay that the clock's step decides."""
    fine = np.arange(times[0], times[-1], 0.002)
    margin = np.interp(fine, times, levels) - switch.setpoint
    margin = margin if switch.falling else -margin
    edges = np.flatnonzero(np.diff(np.r_[False, margin <= 0, False].astype(int)))
    lengths = (edges[1::2] - edges[::2]) * 0.002
    return bool(np.any(np.abs(lengths - switch.delay) < 0.02))


def test_hysteresis_keeps_an_alarm_in_and_lock_out_keeps_a_trip_in():
    times = np.array([0.0, 10.0, 20.0, 30.0, 40.0])
    levels = np.array([0.0, -0.17, -0.155, -0.17, 0.0])
    wide = switch_record(times, levels, LevelSwitch("low", -0.16, hysteresis=0.010))
    narrow = switch_record(times, levels, LevelSwitch("low", -0.16, hysteresis=0.001))
    assert len(wide.came_in) == 1 and len(narrow.came_in) == 2
    assert wide.active.tolist() == [False, True, True, True, False]
    locked = switch_record(times, levels, LevelSwitch("trip", -0.16, latching=True))
    assert locked.active.tolist() == [False, True, True, True, True]


def test_switch_that_starts_beyond_its_set_point():
    low = LevelSwitch("low", -0.16)
    assert switch_record([0.0, 1.0], [-0.2, -0.2], low).came_in == (0.0,)
    assert switch_record([0.0, 1.0], [-0.2, -0.2], low).active.tolist() == [True, True]
    assert switch_record([0.0, 1.0], [0.0, 0.0], low).came_in == ()


def test_a_rising_switch_mirrors_a_falling_one():
    times, levels = np.array([0.0, 50.0, 100.0]), np.array([0.0, 0.3, 0.0])
    rising = switch_record(times, levels, LevelSwitch("high", 0.16, falling=False, delay=2.0))
    falling = switch_record(times, -levels, LevelSwitch("low", -0.16, delay=2.0))
    assert rising.came_in == falling.came_in == pytest.approx((50 * 0.16 / 0.3 + 2.0,))


def test_filter_and_delay_keep_a_rolling_level_quiet_and_make_a_real_loss_later():
    times = np.linspace(0, 300, 15_001)
    roll = 0.3 * np.sin(2 * np.pi * times / 9.0)
    bare = LevelSwitch("low", -0.16)
    assert len(switch_record(times, roll, bare).came_in) > 30
    delay = delay_against_roll(0.3, 0.16, 9.0)
    assert switch_record(times, roll, LevelSwitch("low", -0.16, delay=1.01 * delay)).came_in == ()
    constant = filter_against_roll(0.3, 0.16, 9.0)
    settled = times > 60
    quiet = filtered(times, roll, 1.02 * constant)[settled]
    assert switch_record(times[settled], quiet, bare).came_in == ()
    loss = -0.0018 * times
    plain = switch_record(times, loss, bare).came_in[0]
    late = switch_record(times, filtered(times, loss, constant), bare).came_in[0]
    assert late - plain == pytest.approx(constant, rel=1e-3)


def test_boiler_switches_stand_in_order():
    switches = boiler_switches(LEVELS)
    assert [switch.setpoint for switch in switches] == [-0.24, -0.16, 0.16, 0.24]
    assert [switch.latching for switch in switches] == [True, False, False, False]
    assert [switch.falling for switch in switches] == [True, True, False, False]
    fall = -0.24 * np.array([0.0, 1.0, 1.001])
    times = np.array([0.0, 136.0, 200.0])
    trip, alarm = (switch_record(times, fall, switch).came_in for switch in switches[:2])
    assert alarm[0] < trip[0] == pytest.approx(136.0 + 5.0)


@pytest.mark.parametrize("call, words", [
    (lambda: ProtectionLevels(-0.16, -0.24, 0.0, 0.16, 0.24), "order from below"),
    (lambda: LevelSwitch("low", -0.16, delay=-1.0), "delay of low"),
    (lambda: switch_record([0, 0], [0.0, 0.0], LevelSwitch("low", -0.16)), "each time later"),
    (lambda: time_to_level(DRUM, 0.0, 0.1, 756.1, 0.0, 9.5), "end lies below"),
    (lambda: time_to_level(DRUM, 0.0, -0.1, 756.1, 0.0, 0.0), "Steam less feed"),
])
def test_unusable_values_say_what_to_do(call, words):
    with pytest.raises(InputError, match=words):
        call()
