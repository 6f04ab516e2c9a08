"""The three-state drum: its benchmark, its balances, the directions that are taught."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from outside import outside_values

from levelkit.check.computed import computed_value
from levelkit.errors import InputError
from levelkit.physics.swell import SwellDrum, drum_transient, steady_drum
from levelkit.physics.transients import InputStep, single_step
from levelkit.properties import compressed_water_enthalpy, saturation_line

FEED = compressed_water_enthalpy(61e5, 423.15)


def start(drum=None, flow=5.56):
    return steady_drum(drum or SwellDrum(), 61e5, 7.0, flow, FEED, saturation_line)


def run(duration=60.0, points=601, drum=None, at=0.0, **changes):
    begin = start(drum)
    return drum_transient(begin, single_step(begin.inputs, at, **changes), duration,
                          saturation_line, points)


@pytest.mark.parametrize("row", outside_values("swell"))
def test_outside_value(row):
    assert computed_value(row) == pytest.approx(row.expected, rel=0, abs=row.allowed)


def test_mass_falls_while_the_level_rises():
    swell = run(steam_flow=1.2 * 5.56)
    rising = swell.time <= 5.0
    assert np.all(np.diff(swell.surface_change[rising]) > 0)
    assert np.all(np.diff(swell.mass) < 0)
    assert np.all(np.diff(swell.collapsed_change) < 0)  # what the instruments see


@settings(max_examples=20, deadline=None)
@given(st.floats(0.7, 1.3), st.floats(0.7, 1.3), st.floats(0.8, 1.2))
def test_mass_and_energy_are_what_went_in_less_what_went_out(steam, feed, heat):
    begin = start()
    u = begin.inputs
    found = run(40.0, 801, steam_flow=steam * u.steam_flow, feed_flow=feed * u.feed_flow,
                heat=heat * u.heat)
    assert found.ended == "ran to the end"
    net = (feed - steam) * u.steam_flow * found.time
    assert found.mass - found.mass[0] == pytest.approx(net, abs=1e-3)
    line = saturation_line(found.pressure)
    water = begin.water_volume + 6.5 * found.collapsed_change
    stored = (line.water_density * water * line.water_enthalpy
              + line.steam_density * (12.0 - water) * line.steam_enthalpy
              - 12.0 * found.pressure + 25_000.0 * 500.0 * line.temperature)
    leaving = np.concatenate([[0.0], np.cumsum(
        0.5 * (line.steam_enthalpy[1:] + line.steam_enthalpy[:-1]) * np.diff(found.time)
        * steam * u.steam_flow)])
    entered = (heat * u.heat + feed * u.feed_flow * FEED) * found.time
    assert stored - stored[0] == pytest.approx(entered - leaving, abs=3e-6 * stored[0])


def test_a_steady_drum_stays_steady():
    still = run(300.0, 31)
    assert np.abs(still.surface_change).max() < 1e-7
    assert np.ptp(still.pressure) < 1.0


@pytest.mark.parametrize("changes, first, last", [
    ({"steam_flow": 6.7}, 1, -1),                     # load up: swell, then short of water
    ({"steam_flow": 4.4}, -1, 1),                     # load down: shrink
    ({"relief_conductance": 3.0 / 61e5}, 1, -1),      # safety valve sticks open
    ({"feed_enthalpy": 300e3}, -1, None),             # cold feed shrinks first
    ({"feed_flow": 0.0}, 1, -1),                      # feed lost: less cold water, more bubbles
])
def test_directions(changes, first, last):
    found = run(120.0, **changes)
    early = found.surface_change[(found.time > 0) & (found.time < 1.5)]
    assert np.all(np.sign(early) == first)
    if last:
        assert np.sign(found.surface_change[-1]) == last


def test_bubbles_below_the_connection_are_seen():
    blind, seeing = (run(10.0, drum=SwellDrum(bubbles_below_connection=share), steam_flow=6.7)
                     for share in (0.0, 1.0))
    assert seeing.collapsed_change == pytest.approx(seeing.surface_change)
    assert blind.surface_change == pytest.approx(seeing.surface_change)
    assert blind.collapsed_change.max() == 0.0 < seeing.collapsed_change.max()


@pytest.mark.parametrize("changes, sentence", [
    ({"feed_flow": 0.0}, "the water is gone"),
    ({"feed_flow": 20.0, "heat": 30e6}, "full of water"),
    ({"heat": 0.0, "steam_flow": 1.0, "feed_flow": 0.0}, "fell to 1 bar"),
    ({"heat": 16e6}, "rose to 190 bar"),
    ({"heat": 0.0, "steam_flow": 0.0}, "no bubbles"),
])
def test_the_run_stops_at_the_limits_of_the_model_and_says_so(changes, sentence):
    found = run(3000.0, 301, **changes)
    assert sentence in found.ended
    assert found.time[-1] < 3000.0
    assert np.all(np.isfinite(found.surface_change))


def test_a_step_shows_in_the_flows_from_its_instant_on():
    found = run(20.0, 21, at=10.0, steam_flow=6.7)
    assert found.time.tolist() == list(range(21))
    assert found.steam_flow[9] == 5.56 and found.steam_flow[10] == 6.7
    assert np.abs(found.surface_change[:10]).max() < 1e-8 < found.surface_change[12]


def test_two_steps_of_one_time_and_a_step_beyond_the_end():
    begin = start()
    other = single_step(begin.inputs, 500.0, feed_flow=0.0)
    found = drum_transient(begin, other, 20.0, saturation_line, 21)
    assert found.feed_flow[-1] == 5.56
    with pytest.raises(InputError, match="rising order"):
        drum_transient(begin, (InputStep(5.0, begin.inputs),), 20.0, saturation_line)


@pytest.mark.parametrize("call, words", [
    (lambda: start(flow=0.0), "no bubbles to swell"),
    (lambda: steady_drum(SwellDrum(), 61e5, 12.0, 5.56, FEED, saturation_line), "must fit"),
    (lambda: steady_drum(SwellDrum(), 61.0, 7.0, 5.56, FEED, saturation_line), "2 to 150 bar"),
    (lambda: run(steam_flow=-1.0), "steam flow"),
])
def test_unusable_values_say_what_to_do(call, words):
    with pytest.raises(InputError, match=words):
        call()


def test_the_drum_is_full_when_water_and_bubbles_take_its_volume():
    drum = SwellDrum()
    found = run(3000.0, 301, feed_flow=20.0, heat=30e6)
    line = saturation_line(found.pressure[-1])
    water = ((found.mass[-1] - line.steam_density * drum.volume)
             / (line.water_density - line.steam_density))
    assert "full of water" in found.ended
    assert water + found.bubble_volume[-1] == pytest.approx(drum.volume, rel=1e-6)


@pytest.mark.parametrize("changes, at_the_end", [
    ({"feed_flow": 0.0}, lambda water, found: water / (0.01 * SwellDrum().volume) - 1),
    ({"heat": 0.0, "steam_flow": 1.0, "feed_flow": 0.0},
     lambda water, found: found.pressure[-1] / 1e5 - 1),
    ({"heat": 16e6}, lambda water, found: found.pressure[-1] / 190e5 - 1),
    ({"heat": 0.0, "steam_flow": 0.0}, lambda water, found: found.bubble_volume[-1]),
])
def test_a_run_ends_on_the_limit_that_it_names(changes, at_the_end):
    """One hundredth of the drum is water, 1 bar, 190 bar, no bubbles."""
    found = run(3000.0, 301, **changes)
    line = saturation_line(found.pressure[-1])
    water = ((found.mass[-1] - line.steam_density * SwellDrum().volume)
             / (line.water_density - line.steam_density))
    assert at_the_end(water, found) == pytest.approx(0.0, abs=1e-5)
