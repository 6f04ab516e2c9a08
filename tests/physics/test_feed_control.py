"""One element against three on the same boiler: the lesson, and the controllers' own sums."""

import numpy as np
import pytest

from levelkit.errors import InputError
from levelkit.physics.feed_control import (
    FeedController,
    FiringController,
    controlled_transient,
)
from levelkit.physics.natural_circulation import BoilerPlant, boiler_equilibrium
from levelkit.physics.transients import single_step
from levelkit.properties import saturation_line


def controlled(elements, steam=1.2, share=0.0, duration=900.0, points=901, **settings):
    rest = boiler_equilibrium(saturation_line, BoilerPlant(bubbles_below_connection=share))
    steps = single_step(rest.inputs, 10.0, steam_flow=steam * rest.inputs.steam_flow)
    return rest, controlled_transient(rest, FeedController(elements, **settings), steps, duration,
                                      saturation_line, points=points)


@pytest.mark.parametrize("share", [0.0, 0.5, 1.0])
def test_one_element_moves_the_feed_the_wrong_way_and_three_do_not(share):
    rest, one = controlled(1, share=share)
    _, three = controlled(3, share=share)
    before = rest.inputs.feed_flow
    assert one.boiler.feed_flow.min() < before - 0.9
    assert three.boiler.feed_flow.min() > before - 0.01
    assert one.boiler.mass.min() < three.boiler.mass.min() < three.boiler.mass[0]
    assert one.boiler.collapsed_change.min() < 2 * three.boiler.collapsed_change.min()


def test_load_down_is_the_mirror_image():
    rest, one = controlled(1, steam=0.8)
    _, three = controlled(3, steam=0.8)
    assert one.boiler.feed_flow.max() > rest.inputs.feed_flow + 0.9
    assert three.boiler.feed_flow.max() < rest.inputs.feed_flow + 0.01
    assert one.boiler.collapsed_change.max() > 2 * three.boiler.collapsed_change.max()


def test_the_more_the_transmitter_sees_of_the_swell_the_further_one_element_goes_wrong():
    lowest = [controlled(1, share=share)[1].boiler.feed_flow.min() for share in (0.0, 0.5, 1.0)]
    assert lowest[0] > lowest[1] > lowest[2]


@pytest.mark.parametrize("elements", [1, 3])
def test_level_pressure_and_feed_settle_where_they_belong(elements):
    rest, run = controlled(elements, duration=4000.0)
    end = run.boiler
    assert end.ended == "ran to the end"
    assert end.collapsed_change[-1] == pytest.approx(0.0, abs=2e-4)
    assert end.pressure[-1] == pytest.approx(rest.pressure, abs=500.0)
    assert end.feed_flow[-1] == pytest.approx(1.2 * rest.inputs.steam_flow, rel=1e-3)
    line = saturation_line(rest.pressure)
    needed = end.feed_flow[-1] * (line.steam_enthalpy - rest.inputs.feed_enthalpy)
    assert run.heat[-1] == pytest.approx(needed, rel=2e-3)


def test_mass_is_the_sum_of_feed_less_steam():
    _, run = controlled(1, points=9001)
    boiler = run.boiler
    net = boiler.feed_flow - boiler.steam_flow
    summed = np.concatenate([[0.0], np.cumsum(0.5 * (net[1:] + net[:-1]) * np.diff(boiler.time))])
    assert boiler.mass - boiler.mass[0] == pytest.approx(summed, abs=1.5)


def test_valve_follows_its_equation():
    rest, run = controlled(1, duration=120.0, points=12_001)
    shown, feed, time_ = run.shown_change, run.boiler.feed_flow, run.boiler.time
    level_sum = np.concatenate(
        [[0.0], np.cumsum(-0.5 * (shown[1:] + shown[:-1]) * np.diff(time_))])
    wanted = rest.inputs.feed_flow + 150.0 * (-shown + level_sum / 300.0)
    slope = np.gradient(feed, time_)
    assert slope[10:-10] == pytest.approx((wanted - feed)[10:-10] / 5.0, abs=2e-3)


def test_a_transmitter_that_reads_high_empties_the_drum_and_shows_the_wanted_level():
    _, run = controlled(3, steam=1.0, signal_error=0.3)
    assert run.shown_change[-1] == pytest.approx(0.0, abs=0.01)
    assert run.boiler.collapsed_change[-1] == pytest.approx(-0.3, abs=0.01)


def test_valve_stops_at_shut_and_at_full_and_the_integral_waits():
    _, run = controlled(1, steam=1.0, signal_error=1.0, gain=5000.0, duration=60.0)
    assert run.boiler.feed_flow.min() == pytest.approx(0.0, abs=1e-3)
    assert run.boiler.feed_flow.min() > -1e-3
    rest, run = controlled(1, steam=1.3, greatest_flow=55.0, duration=300.0)
    assert run.boiler.feed_flow.max() <= 55.0 + 1e-3
    _, back = controlled(1, steam=1.0, signal_error=-0.05, greatest_flow=51.0, duration=3000.0)
    assert back.boiler.collapsed_change.max() < 0.06  # no wind-up: hardly any overshoot


def test_firing_has_its_limit_too():
    rest = boiler_equilibrium(saturation_line)
    steps = single_step(rest.inputs, 10.0, steam_flow=60.0)
    weak = FiringController(greatest_heat=90e6)
    run = controlled_transient(rest, FeedController(3), steps, 300.0, saturation_line, weak)
    assert run.heat.max() <= 90e6 * (1 + 1e-6)
    assert run.boiler.pressure[-1] < rest.pressure - 5e5


@pytest.mark.parametrize("call, words", [
    (lambda: FeedController(2), "1 and 3"),
    (lambda: FeedController(1, gain=-1.0), "gain"),
    (lambda: controlled(1, greatest_flow=40.0), "must be able to pass"),
    (lambda: FiringController(firing_time=0.0), "firing time"),
])
def test_unusable_values_say_what_to_do(call, words):
    with pytest.raises(InputError, match=words):
        call()


@pytest.mark.parametrize("greatest", [0.0, -1.0, float("nan"), 1e11])
def test_a_burner_gives_some_heat_and_not_all(greatest):
    with pytest.raises(InputError, match="greatest heat"):
        FiringController(greatest_heat=greatest)
