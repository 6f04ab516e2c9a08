"""Faults 17 to 45: what the catalogue says is what the states compute, for every instrument."""

from dataclasses import replace

import pytest
from remote_states import transmitter, two_fluid

from levelkit.constants import CAUTION
from levelkit.errors import InputError, ScenarioError
from levelkit.faults import (
    FAULTS,
    FROZEN,
    FULL,
    GLASS,
    HIGH,
    INSTRUMENTS,
    LOW,
    TRANSMITTER,
    TWO_FLUID,
    TWO_FLUID_INVERTED,
    UNAFFECTED,
    Effect,
    fault_named,
    hides_low_water,
    instrument_of,
    observed_effect,
)
from levelkit.faults.loading import read_faults
from levelkit.faults.remote_changes import CHANGES
from levelkit.faults.remote_faults import REMOTE_FAULTS
from levelkit.physics.glass import GaugeGlassState, GlassMounting
from levelkit.physics.leg_water import legs_after
from levelkit.physics.signal import FAILURE_HIGH, FAILURE_LOW
from levelkit.physics.transmitter import transmitter_reading
from levelkit.physics.transmitter_range import DIRECT
from levelkit.physics.transmitter_state import Compensation
from levelkit.physics.two_fluid import two_fluid_reading
from levelkit.physics.u_tube import DRUM_LIMB
from levelkit.properties import compressed_water_density

GLASS_STATE = GaugeGlassState(0.25, 756.12, 31.38, compressed_water_density(6.1e6, 373.15),
                              GlassMounting(0.5, 0.07, 0.43))
STATES = {
    "glass": GLASS_STATE,
    "two-fluid": two_fluid(0.4),
    "two-fluid, inverted": two_fluid(0.4, DRUM_LIMB),
    "DP, reversed": transmitter(0.4),
    "DP, direct": transmitter(0.4, DIRECT),
    "DP, weir 0.5 m, run of 3 m": transmitter(0.25, weir=0.5, depth=3.0),
    "two-fluid, 45 bar": two_fluid(0.25, pressure=4.6e6, weir=0.5, depth=3.0),
}
by_fault = pytest.mark.parametrize("fault", REMOTE_FAULTS, ids=lambda f: f"{f.number}-{f.key}")
by_state = pytest.mark.parametrize("state", STATES.values(), ids=STATES)


@by_fault
@by_state
def test_effect_of_the_catalogue_is_the_effect_computed(fault, state):
    name = instrument_of(state).name(state)
    assert observed_effect(fault, state) == fault.effect_on(name)


@by_fault
@by_state
def test_what_may_hide_low_water_is_found_by_computing(fault, state):
    name = instrument_of(state).name(state)
    assert hides_low_water(fault, state) is (name in fault.hides_low_water)


UNSAFE_IN_THE_TRADE = {  # numbers that the trade marks as able to hide low water
    TRANSMITTER: {17, 18, 19, 20, 21, 23, 24, 28, 31, 36, 37, 45},
    TWO_FLUID: {18, 19, 23, 28, 31},
    TWO_FLUID_INVERTED: {32},
}


@pytest.mark.parametrize("instrument", UNSAFE_IN_THE_TRADE)
def test_nothing_that_the_trade_calls_unsafe_is_missing(instrument):
    found = {f.number for f in REMOTE_FAULTS if instrument in f.hides_low_water}
    assert UNSAFE_IN_THE_TRADE[instrument] <= found


def test_numbers_keys_and_words_are_complete():
    assert [fault.number for fault in REMOTE_FAULTS] == list(range(17, 46))
    keys = [fault.key for fault in FAULTS]
    assert len(set(keys)) == len(keys)
    numbers = [fault.number for fault in FAULTS]
    assert numbers == sorted(set(numbers)) and numbers[-1] == 45
    for fault in REMOTE_FAULTS:
        assert fault.name and fault.cause.endswith(".") and fault.alarms.endswith(".")
        assert fault.safe_action.endswith(".") and fault.advice.endswith(CAUTION)
        assert set(fault.effects) <= {GLASS, TWO_FLUID, TWO_FLUID_INVERTED, TRANSMITTER}
        assert fault_named(fault.key) is fault


@by_fault
def test_a_fault_gives_back_what_it_does_not_touch(fault):
    assert fault.apply("something else") == "something else"
    for state in STATES.values():
        assert type(fault.apply(state)) is type(state)


def test_glass_keeps_out_of_all_but_the_cold_drum():
    touched = [fault.key for fault in REMOTE_FAULTS if fault.apply(GLASS_STATE) != GLASS_STATE]
    assert touched == ["cold-drum"]


@by_fault
def test_every_fault_changes_a_remote_instrument(fault):
    healthy = [state for state in STATES.values() if state is not GLASS_STATE]
    assert any(fault.apply(state) != state for state in healthy)


# ---- single rows, in the numbers of the trade


def shown(state):
    return 100 * transmitter_reading(state).shown_fraction


def test_cold_boiler_shows_64_per_cent_for_50():
    assert shown(fault_named("cold-drum").apply(transmitter(0.4))) == pytest.approx(63.6, abs=0.1)


def test_compensated_transmitter_is_nearly_right_on_the_cold_boiler():
    state = transmitter(0.4)
    hot = Compensation(state.drum.water_density, state.drum.steam_density,
                       state.legs.reference_density)
    cold = fault_named("cold-drum").apply(replace(state, compensation=hot))
    # 4 % denser water than boiling water at that pressure, a little leg: no longer 13.6 %
    assert abs(shown(cold) - 50.0) < 3.0


def test_compensation_does_not_learn_that_the_leg_has_become_cold_too():
    state = transmitter(0.4)
    hot = Compensation(state.drum.water_density, state.drum.steam_density, 988.03)
    cold = fault_named("cold-drum").apply(replace(state, compensation=hot))
    # saturated at 1.01325 bar 958.37 and 0.598, water of 20 degC 998.21, air 1.20 kg/m3
    by_hand = 100 * (0.8 * (988.03 - 0.598) - 0.4 * (998.21 - 1.20)) / (0.8 * (958.37 - 0.598))
    assert shown(cold) == pytest.approx(by_hand, abs=0.05)


@pytest.mark.parametrize("key, current", [("equaliser-open", 20.5), ("ports-crossed", 20.5)])
def test_full_scale_is_a_healthy_signal(key, current):
    result = transmitter_reading(fault_named(key).apply(transmitter(0.1)))
    assert 1e3 * result.current == pytest.approx(current)
    assert result.band not in (FAILURE_LOW, FAILURE_HIGH)


def test_electrical_faults_say_so():
    bands = [transmitter_reading(fault_named(key).apply(transmitter(0.4))).band
             for key in ("wire-broken", "transmitter-failed")]
    assert bands == [FAILURE_LOW, FAILURE_HIGH]


def test_equaliser_stays_wrong_after_it_is_shut():
    state = fault_named("equaliser-open").apply(transmitter(0.2))
    drained = replace(state, legs=legs_after(state.drum, state.legs, 300.0))
    valves = replace(drained.legs.manifold, equaliser=0.0)
    shut = replace(drained, legs=replace(drained.legs, manifold=valves))
    assert shown(shut) == pytest.approx(103.1, abs=0.1)


@pytest.mark.parametrize("key", ["drum-isolator-shut", "reference-isolator-shut"])
def test_shut_valve_with_a_capsule_that_yields_is_frozen(key):
    soft = replace(transmitter(0.4), capsule_give=1.0)
    assert observed_effect(fault_named(key), soft) == Effect(FROZEN)


def test_three_transmitters_on_one_lost_leg_outvote_the_truth():
    one = fault_named("common-leg-lost").apply(transmitter(0.2))
    readings = sorted(shown(replace(one, damping=damping)) for damping in (0.2, 0.5, 1.0))
    assert readings[1] > 25.0 + 15.0  # the median of three is as wrong as each


def test_failed_pressure_input_is_wrong_either_way():
    low = fault_named("pressure-input-failed").apply(transmitter(0.7))
    assert shown(low) < 87.5 - 5.0
    empty = replace(low, drum=replace(low.drum, level=0.0))
    assert shown(empty) > 1.0


def test_shunted_receiver_shows_half_the_current():
    result = transmitter_reading(fault_named("receiver-shunted").apply(transmitter(0.4)))
    assert result.current == pytest.approx(0.006)


def test_leg_lost_costs_more_than_its_length():
    faulty = fault_named("reference-leg-lost").apply(two_fluid(0.3))
    gain = two_fluid_reading(faulty).error / faulty.legs.reference_loss
    assert gain == pytest.approx(1.324, abs=0.001)


# ---- the machinery can fail


@pytest.mark.parametrize("key, wrong", [
    ("equaliser-open", Effect(LOW)), ("reference-leg-lost", Effect(LOW)),
    ("drum-isolator-shut", Effect(FROZEN)), ("line-choked", Effect(UNAFFECTED)),
    ("low-supply", Effect(HIGH)), ("range-upside-down", Effect(FULL))])
def test_a_wrong_direction_is_noticed(key, wrong):
    assert observed_effect(fault_named(key), transmitter(0.4)) != wrong


def test_catalogue_refuses_what_does_not_fit():
    with pytest.raises(InputError, match="no fault 'gremlin'"):
        fault_named("gremlin")
    with pytest.raises(InputError, match="no instrument with a str"):
        instrument_of("glass")
    missing = {key: change for key, change in CHANGES.items() if key != "cold-drum"}
    with pytest.raises(ScenarioError, match="cold-drum"):
        read_faults("remote_faults.toml", missing)


def test_every_state_has_its_instrument():
    assert {type(state) for state in STATES.values()} <= set(INSTRUMENTS)
