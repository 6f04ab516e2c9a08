"""The DP transmitter: identities, closed forms, compensation, what is refused, and its speed."""

from dataclasses import replace
from math import cos, radians, sin

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from remote_states import drum_and_legs, transmitter

from levelkit.constants import STANDARD_GRAVITY as G
from levelkit.errors import InputError
from levelkit.physics.differential import (
    indicated_level,
    level_of_differential,
    reference_differential,
    right_level,
)
from levelkit.physics.leg_state import DrumContents, LegsState
from levelkit.physics.loop_power import LoopState
from levelkit.physics.motion import vertical_height
from levelkit.physics.signal import FAILURE_HIGH, FAILURE_LOW, fraction_of_current
from levelkit.physics.transmitter import transmitter_reading
from levelkit.physics.transmitter_check import current_at_no_differential, differential_at
from levelkit.physics.transmitter_range import (
    DIRECT,
    REVERSED,
    ZERO_BASED,
    TransmitterRange,
    transmitter_range,
    upside_down,
    zero_kind,
    zeroed_at_equaliser,
)
from levelkit.physics.transmitter_state import PNEUMATIC, AirLine, Compensation
from levelkit.physics.wet_legs import leg_pressures
from levelkit.properties import saturation_at_pressure

connections = st.sampled_from([DIRECT, REVERSED])
shares = st.floats(0.0, 1.0)
pressures = st.floats(2e5, 1.2e7)
waters, steams, legs_water = st.floats(600.0, 950.0), st.floats(0.5, 90.0), st.floats(955.0, 1005.0)


@given(shares, connections, pressures, st.floats(0.2, 3.0), st.floats(0.0, 20.0))
def test_level_to_differential_to_current_to_level(share, connection, pressure, weir, depth):
    state = transmitter(share * weir, connection, pressure=pressure, weir=weir, depth=depth)
    result = transmitter_reading(state)
    assert result.current == pytest.approx(0.004 + 0.016 * share, abs=1e-12)
    back = weir * fraction_of_current(result.current)
    assert back == pytest.approx(share * weir, abs=1e-9)
    sign = -1.0 if connection == DIRECT else 1.0
    assert np.sign(result.differential) == sign
    assert result.indicated_level == pytest.approx(share * weir, abs=1e-9)


@given(shares, waters, steams, legs_water, st.floats(9.7, 9.9))
def test_differential_by_its_closed_form_and_back(share, water, steam, leg, gravity):
    level = 0.8 * share
    pressure = reference_differential(level, 0.8, water, steam, leg, gravity)
    assert pressure == pytest.approx(gravity * ((leg - steam) * 0.8 - (water - steam) * level))
    assert level_of_differential(pressure, 0.8, water, steam, leg, gravity) == (
        pytest.approx(level, abs=1e-12))


@given(shares, st.floats(0.0, 30.0), legs_water, legs_water, legs_water,
       st.floats(0.0, 0.4), st.floats(0.0, 0.3))
def test_legs_by_their_closed_form(share, depth, leg, run, drum_run, loss, gas):
    drum, _ = drum_and_legs(0.8 * share)
    legs = LegsState(0.8, depth, leg, run, drum_run, reference_loss=loss, reference_gas=gas,
                     drum_gas=0.2 * depth, gas_density=5.0)
    feet = leg_pressures(drum, legs)
    rho_f, rho_g = drum.water_density, drum.steam_density
    expected = G * ((leg - rho_g) * 0.8 - (rho_f - rho_g) * drum.level + (run - drum_run) * depth
                    - loss * (leg - rho_g) - gas * (leg - 5.0) + 0.2 * depth * (drum_run - 5.0))
    assert feet.reference - feet.drum_side == pytest.approx(expected, abs=1e-6)
    assert feet.drum_side == pytest.approx(
        drum.pressure + G * (rho_f * drum.level + rho_g * (0.8 - drum.level)
                             + 0.8 * depth * drum_run + 0.2 * depth * 5.0), rel=1e-12)


@given(shares, connections, st.floats(0.0, 40.0), st.floats(0.0, 40.0))
def test_depth_changes_nothing_while_the_legs_are_alike(share, connection, depth, other):
    one, two = (transmitter_reading(transmitter(0.8 * share, connection, depth=d))
                for d in (depth, other))
    assert one.differential == pytest.approx(two.differential, abs=1e-6)
    assert one.current == pytest.approx(two.current, abs=1e-12)


@given(st.floats(0.0, 20.0), st.floats(-10.0, 10.0))
def test_depth_counts_with_the_difference_of_the_runs(depth, change):
    state = transmitter(0.4, depth=depth)
    legs = replace(state.legs, reference_run_density=state.legs.drum_run_density + change)
    moved = transmitter_reading(replace(state, legs=legs))
    assert moved.differential - transmitter_reading(state).differential == pytest.approx(
        change * G * depth, abs=1e-6)


@given(shares, pressures, st.floats(290.0, 350.0))
def test_uncompensated_reading_by_its_closed_form(share, pressure, leg):
    state = transmitter(0.4, pressure=6.1e6)
    drum, legs = drum_and_legs(0.8 * share, pressure=pressure, leg=leg)
    hot, hot_leg = state.drum, state.legs.reference_density
    rho_r, rho_f, rho_g = legs.reference_density, drum.water_density, drum.steam_density
    expected = ((hot_leg - hot.steam_density) * 0.8 - (rho_r - rho_g) * 0.8
                + (rho_f - rho_g) * drum.level) / (hot.water_density - hot.steam_density)
    result = transmitter_reading(replace(state, drum=drum, legs=legs))
    assert result.fraction * 0.8 == pytest.approx(expected, abs=1e-9)
    assert indicated_level(drum.level, 0.8, rho_f, rho_g, rho_r, hot.water_density,
                           hot.steam_density, hot_leg) == pytest.approx(expected, abs=1e-12)


@given(st.floats(2e5, 5.5e6))
def test_at_the_right_level_there_is_no_error(pressure):
    hot, hot_legs = drum_and_legs()
    low, low_legs = drum_and_legs(pressure=pressure)
    real = low.water_density, low.steam_density, low_legs.reference_density
    assumed = hot.water_density, hot.steam_density, hot_legs.reference_density
    level = right_level(0.8, *real, *assumed)
    assert 0.0 < level < 0.25
    assert indicated_level(level, 0.8, *real, *assumed) == pytest.approx(level, abs=1e-9)
    assert indicated_level(0.8, 0.8, *real, *assumed) > 0.8 > 0.0
    assert indicated_level(0.0, 0.8, *real, *assumed) < 0.0


@given(shares, st.floats(5e5, 1e7), connections)
def test_compensation_cures_pressure_but_not_the_leg(share, pressure, connection):
    drum, legs = drum_and_legs(0.8 * share, pressure=pressure)
    steam = saturation_at_pressure(pressure)
    state = replace(transmitter(0.4, connection), drum=drum, legs=legs, compensation=Compensation(
        steam.water_density, steam.steam_density, legs.reference_density))
    assert transmitter_reading(state).indicated_level == pytest.approx(0.8 * share, abs=1e-9)
    lighter = replace(legs, reference_density=legs.reference_density - 10.0)
    warm = transmitter_reading(replace(state, legs=lighter))
    assert warm.fraction - share == pytest.approx(
        10.0 / (steam.water_density - steam.steam_density))


@given(connections, shares)
def test_ports_crossed_read_full_at_every_level(connection, share):
    result = transmitter_reading(replace(transmitter(0.8 * share, connection), ports_crossed=True))
    assert result.current == 0.0205 and result.saturated


@given(connections, shares)
def test_range_upside_down_gives_24_milliampere_less_the_right_current(connection, share):
    state = transmitter(0.8 * share, connection)
    wrong = replace(state, calibration=upside_down(state.calibration))
    assert transmitter_reading(wrong).current == pytest.approx(
        0.024 - transmitter_reading(state).current, abs=1e-12)


@given(shares, st.floats(0.0, 0.75), st.floats(-1.0, 1.0))
def test_list_by_its_closed_form(share, angle, offset):
    state = transmitter(0.8 * share)
    legs = replace(state.legs, list_angle=angle, chamber_offset=offset)
    drum, rho_r = state.drum, state.legs.reference_density
    rho_f, rho_g = drum.water_density, drum.steam_density
    expected = G * ((rho_r - rho_g) * (0.8 * cos(angle) + offset * sin(angle))
                    - (rho_f - rho_g) * drum.level * cos(angle))
    result = transmitter_reading(replace(state, legs=legs))
    assert result.differential == pytest.approx(expected, abs=1e-6)
    assert vertical_height(0.8, to_port=offset, list_angle=-angle) == pytest.approx(
        0.8 * cos(angle) + offset * sin(angle))


def test_level_below_the_connection_is_not_seen():
    bottom, deep = (transmitter_reading(transmitter(level)) for level in (0.0, -0.4))
    assert deep.current == pytest.approx(bottom.current) == pytest.approx(0.004)
    assert deep.below_connection and deep.error == pytest.approx(0.4)


def test_pneumatic_signal_ends_at_its_supply():
    state = replace(transmitter(), ports_crossed=True, receiver=PNEUMATIC)
    assert transmitter_reading(state).air_signal == 140e3
    weak = replace(transmitter(0.8), receiver=PNEUMATIC, air=AirLine(supply_pressure=60e3))
    assert transmitter_reading(weak).shown_fraction == pytest.approx(0.5)


def test_failure_signals_are_named_as_such():
    high, low = (transmitter_reading(replace(transmitter(), health=health))
                 for health in ("fails high", "fails low"))
    assert (high.band, low.band) == (FAILURE_HIGH, FAILURE_LOW)
    assert not high.saturated
    assert transmitter_reading(replace(transmitter(), health="fails low",
                                       receiver=PNEUMATIC)).shown_fraction < 0.0


@pytest.mark.parametrize("health, current", [("fails low", 0.0035), ("fails high", 0.0215)])
def test_a_failed_transmitter_sends_its_failure_signal_at_zero_of_the_range_too(health, current):
    state = transmitter()
    middle = transmitter_reading(state).differential
    zeroed = TransmitterRange(middle, middle - 6000.0, 0.0, 0.8)
    result = transmitter_reading(replace(state, calibration=zeroed, health=health))
    assert result.fraction == 0.0
    assert result.current == pytest.approx(current)


@given(connections)
def test_zero_trimmed_at_the_equaliser_spoils_every_reading(connection):
    state = transmitter(0.4, connection)
    spoilt = replace(state, calibration=zeroed_at_equaliser(state.calibration))
    assert spoilt.calibration.span == pytest.approx(state.calibration.span)
    assert current_at_no_differential(spoilt.calibration).current == 0.004
    assert transmitter_reading(spoilt).current == 0.0038
    assert current_at_no_differential(state.calibration).current == 0.0205


@pytest.mark.parametrize("lower, upper, current", [
    (-2000.0, 6000.0, 0.008),  # a quarter of the range lies below nothing
    (3000.0, -9000.0, 0.008),
    (-5000.0, 5000.0, 0.012), (0.0, 5930.0, 0.004), (-5930.0, 0.0, 0.020),
])
def test_no_differential_shows_its_place_in_an_elevated_range(lower, upper, current):
    shown = current_at_no_differential(TransmitterRange(lower, upper, 0.0, 0.8))
    assert shown.current == pytest.approx(current) and not shown.saturated


def test_ends_of_the_range_give_4_and_20_milliampere():
    calibration = transmitter().calibration
    assert differential_at(calibration, 0.0) == calibration.lower_value
    assert differential_at(calibration, 1.0) == pytest.approx(calibration.upper_value)
    assert zero_kind(TransmitterRange(0.0, 5930.0, 0.0, 0.8)) == ZERO_BASED


def test_an_array_reads_as_its_members():
    levels = np.linspace(-0.1, 0.8, 7)
    state = replace(transmitter(), ports_crossed=False, loop=LoopState(supply_voltage=14.0))
    together = transmitter_reading(replace(state, drum=replace(state.drum, level=levels)))
    for place, level in enumerate(levels):
        one = transmitter_reading(replace(state, drum=replace(state.drum, level=float(level))))
        for name in ("current", "indicated_level", "differential", "air_signal", "starved",
                     "saturated", "band", "voltage", "below_connection"):
            assert np.ravel(getattr(together, name))[place] == pytest.approx(
                getattr(one, name)) if name != "band" else together.band[place] == one.band
    assert together.starved.any() and not together.starved.all()


def test_a_sweep_of_pressures_is_an_array_too():
    steam = saturation_at_pressure(np.array([2e5, 2e6, 6.1e6]))
    state = transmitter(0.4)
    drum = DrumContents(0.4, steam.pressure, steam.water_density, steam.steam_density)
    shown = transmitter_reading(replace(state, drum=drum)).shown_fraction
    assert shown[0] > shown[1] > shown[2] == pytest.approx(0.5)


@pytest.mark.parametrize("call, message", [
    (lambda: TransmitterRange(5.0, 5.0, 0.0, 0.8), r"both 5 Pa; the span must not be 0 Pa"),
    (lambda: TransmitterRange(5.0, 6.0, 0.8, 0.8), r"level of 20 mA is 0\.8 m; the allowed"),
    (lambda: transmitter(0.81), r"drum level is 0\.81 m|allowed range is -5 to 0\.8 m"),
    (lambda: reference_differential(0.9, 0.8, 756.0, 31.0, 990.0),
     r"drum level is 0\.9 m; the allowed range is 0 to 0\.8 m"),
    (lambda: reference_differential(-0.1, 0.8, 756.0, 31.0, 990.0), r"drum level is -0\.1 m"),
    (lambda: transmitter_range(0.8, 31.0, 756.0, 990.0), r"\(31 kg/m3\) is not denser"),
    (lambda: transmitter_range(0.8, 756.0, 31.0, 990.0, "backwards"), "'backwards'; it must be"),
    (lambda: replace(transmitter(), health="poorly"), "health of the transmitter is 'poorly'"),
    (lambda: replace(transmitter(), receiver="ear"), "receiver is 'ear'"),
    (lambda: replace(transmitter(), damping=-1.0), r"damping is -1 s; the allowed range is 0"),
    (lambda: replace(transmitter().legs, list_angle=radians(46.0)),
     r"list is 0\.802851 rad; the allowed range is -0\.785398 to"),
    (lambda: AirLine(leak=1.5), r"leak of the signal tube is 1\.5; the allowed range is 0 to 1"),
    (lambda: right_level(0.8, 756.0, 31.0, 990.0, 756.0, 31.0, 980.0), "same density"),
])
def test_impossible_transmitter_is_refused_with_value_and_range(call, message):
    with pytest.raises(InputError, match=message):
        state = call()
        transmitter_reading(state)
