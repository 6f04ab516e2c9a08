"""Manifold and lines: every fault by what it does to the reading, trapped pressure, the drill."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from remote_states import drum_and_legs, transmitter

from levelkit.constants import CAUTION
from levelkit.errors import InputError
from levelkit.physics.leg_state import DrumContents
from levelkit.physics.leg_water import filling_time, gas_compliance, legs_after
from levelkit.physics.manifold import VALVES, ManifoldState, port_pressures
from levelkit.physics.manifold_drill import (
    CAREFUL,
    FILL_THROUGH_EQUALISER,
    PUT_INTO_SERVICE,
    SOUND,
    STEAM_VALVE,
    TAKE_OUT_OF_SERVICE,
    WRONG,
    Move,
    made_move,
    made_moves,
    zero_check,
)
from levelkit.physics.transmitter import transmitter_reading
from levelkit.physics.transmitter_range import DIRECT, REVERSED
from levelkit.physics.trapped_water import moved_valve, shut_in, trapped_pressure_slope
from levelkit.physics.wet_legs import instrument_ports
from levelkit.properties import compressed_water_density

openings = st.floats(0.01, 0.999)
connections = pytest.mark.parametrize("connection", [DIRECT, REVERSED])


def with_valve(state, valve, opening):
    ports = instrument_ports(state.drum, state.legs, state.capsule_give)
    manifold = moved_valve(state.legs.manifold, valve, opening, ports)
    return replace(state, legs=replace(state.legs, manifold=manifold))


def with_level(state, level):
    return replace(state, drum=replace(state.drum, level=level))


def with_pressure(state, change):
    return replace(state, drum=replace(state.drum, pressure=state.drum.pressure + change))


def fraction(state):
    return transmitter_reading(state).fraction


# ---- the network


@given(st.floats(1e6, 7e6), st.floats(-2e4, 2e4), openings, openings, openings,
       st.floats(0.0, 0.9), st.floats(0.0, 0.9), st.floats(0.0, 0.9), st.floats(0.0, 0.9))
def test_flows_balance_at_every_junction(pressure, across, iso_1, iso_2, equaliser,
                                         drain_1, drain_2, vent_1, vent_2):
    """The four junctions solved as one linear system: another route to the same pressures."""
    air, manifold = 1e5, ManifoldState(iso_1, iso_2, equaliser, drain_1, drain_2, vent_1, vent_2)
    found = port_pressures(pressure + across, pressure, manifold, barometer=air)

    def conductance(opening):  # of a valve, in open lines, without its line
        return opening / (1.0 - opening)

    matrix, right = np.zeros((4, 4)), np.zeros(4)  # reference foot, drum foot, ports

    def link(a, b, g):
        matrix[a, a] += g
        matrix[b, b] += g
        matrix[a, b] -= g
        matrix[b, a] -= g

    def to(a, source, g):
        matrix[a, a] += g
        right[a] += g * source

    for place, source, drain, isolator, vent in ((0, pressure + across, drain_1, iso_1, vent_1),
                                                 (1, pressure, drain_2, iso_2, vent_2)):
        to(place, source, 1.0)
        to(place, air, conductance(drain))
        link(place, place + 2, conductance(isolator))
        to(place + 2, air, conductance(vent))
    link(2, 3, conductance(equaliser))
    foot_1, _, port_1, port_2 = np.linalg.solve(matrix, right)
    assert found.reference == pytest.approx(port_1, abs=1e-3 * (1 + abs(port_1) * 1e-6))
    assert found.drum_side == pytest.approx(port_2, abs=1e-3 * (1 + abs(port_2) * 1e-6))
    assert found.reference_flow == pytest.approx(pressure + across - foot_1, abs=1.0)


@given(st.just(0.0) | st.floats(1e-6, 0.99), st.floats(-1e4, 1e4))
def test_equaliser_passing_by_its_closed_form(opening, across):
    """dp = dp_legs R_E / (R_E + 2 R_L)"""
    ports = port_pressures(6e6 + across, 6e6, ManifoldState(equaliser=opening))
    through = (1 - opening) / opening if opening else float("inf")
    share = through / (through + 2.0) if opening else 1.0
    assert ports.reference - ports.drum_side == pytest.approx(share * across, abs=1e-6)


# ---- the fault table of manifold and lines, for both connections


@connections
def test_equaliser_open(connection):
    state = transmitter(0.2, connection)
    faulty = with_valve(state, "equaliser", 1.0)
    assert transmitter_reading(faulty).current == 0.0205
    assert fraction(with_level(faulty, 0.7)) == pytest.approx(fraction(faulty))
    drained = replace(faulty, legs=legs_after(faulty.drum, faulty.legs, 600.0))
    shut_again = with_valve(drained, "equaliser", 0.0)
    assert transmitter_reading(shut_again).current == 0.0205  # it stays wrong


@connections
def test_equaliser_passing(connection):
    state = transmitter(0.4, connection)
    faulty = with_valve(state, "equaliser", 0.05)
    later = replace(faulty, legs=legs_after(faulty.drum, faulty.legs, 5.0))
    assert 0.5 < fraction(faulty) < fraction(later)


@connections
def test_drum_side_valve_shut(connection):
    faulty = with_valve(transmitter(0.4, connection), "drum_isolator", 0.0)
    assert fraction(faulty) == pytest.approx(0.5)
    assert fraction(with_level(faulty, 0.1)) == pytest.approx(0.5)
    assert transmitter_reading(with_pressure(faulty, 3e3)).current == 0.0038
    assert transmitter_reading(with_pressure(faulty, -3.2e3)).current == 0.0205


@connections
def test_reference_valve_shut(connection):
    faulty = with_valve(transmitter(0.4, connection), "reference_isolator", 0.0)
    assert fraction(faulty) == pytest.approx(0.5)
    assert transmitter_reading(with_pressure(faulty, 3.2e3)).current == 0.0205
    assert transmitter_reading(with_pressure(faulty, -3e3)).current == 0.0038
    # at an exactly steady pressure it still follows: only the drum side moves
    assert fraction(with_level(faulty, 0.1)) == pytest.approx(0.125)


@pytest.mark.parametrize("valve", ["drum_isolator", "reference_isolator"])
def test_a_capsule_that_yields_freezes_the_reading(valve):
    state = replace(transmitter(0.4), capsule_give=1.0)
    faulty = with_valve(state, valve, 0.0)
    assert fraction(with_level(faulty, 0.1)) == pytest.approx(0.5)
    assert fraction(with_pressure(faulty, -5e4)) == pytest.approx(0.5, abs=1e-6)


@pytest.mark.parametrize("valve, trapped, sign", [("drum_isolator", "drum_trapped", -1),
                                                  ("reference_isolator", "reference_trapped", 1)])
def test_warming_of_trapped_water_drives_the_reading_off_scale(valve, trapped, sign):
    pressure, step = 6.1e6, 0.5
    low, high = (compressed_water_density(pressure, 313.15 + dt) for dt in (-step, step))
    mean = compressed_water_density(pressure, 313.15)
    expansion = (low - high) / (2 * step * mean)
    thick, thin = (compressed_water_density(pressure + dp, 313.15) for dp in (1e5, -1e5))
    slope = trapped_pressure_slope(expansion, (thick - thin) / (2e5 * mean))
    assert 7e5 < slope < 12e5  # 7 to 12 bar/K of the trade, for 30 to 60 degC
    faulty = with_valve(transmitter(0.4), valve, 0.0)
    manifold = faulty.legs.manifold
    water = getattr(manifold, trapped)
    warmed = replace(manifold, **{trapped: replace(water, pressure=water.pressure + 0.01 * slope)})
    moved = replace(faulty, legs=replace(faulty.legs, manifold=warmed))
    # reference side warmer: more differential, LOW; drum side warmer: HIGH
    assert (fraction(moved) - 0.5) * -sign > 0.5


@connections
def test_leaking_drains(connection):
    state = transmitter(0.4, connection)
    assert fraction(with_valve(state, "drum_drain", 1e-4)) < 0.45
    faulty = with_valve(state, "reference_drain", 1e-4)
    later = replace(faulty, legs=legs_after(faulty.drum, faulty.legs, 5.0))
    assert 0.55 < fraction(faulty) < fraction(later)


def test_a_small_weep_is_made_up_and_a_larger_one_is_not():
    state = transmitter(0.4)
    for weep, lost in ((1e-5, False), (1e-4, True)):
        legs = legs_after(state.drum, replace(state.legs, weep=weep), 3600.0)
        assert (legs.reference_loss > 0.0) is lost
    # a lost leg comes back at the rate of the make-up
    gap = replace(state.legs, reference_loss=0.1)
    filled = legs_after(state.drum, gap, 300.0)
    per_metre = gap.reference_density * gap.leg_area
    assert 0.1 - filled.reference_loss == pytest.approx(300.0 * gap.chamber.make_up / per_metre)
    assert legs_after(state.drum, gap, 1e5).reference_loss == 0.0


def test_choked_line_is_slow_and_right_at_rest():
    healthy, faulty = transmitter(0.4), with_valve(transmitter(0.4), "drum_isolator", 1e-6)
    assert fraction(faulty) == pytest.approx(0.5, abs=1e-9)
    assert transmitter_reading(faulty).response_time > 60.0
    assert transmitter_reading(healthy).response_time < 1.0
    assert filling_time(healthy.legs, 1e-9, 2.0) == pytest.approx(
        1e-9 * healthy.legs.reference_run_density * 2.0 / healthy.legs.line_conductance)


@connections
def test_gas_in_a_leg(connection):
    state = transmitter(0.4, connection)
    rho = state.legs.reference_density
    drum = state.drum.water_density - state.drum.steam_density
    for name, sign in (("reference_gas", 1), ("drum_gas", -1)):
        legs = replace(state.legs, **{name: 0.1, "gas_density": 40.0})
        change = 0.8 * (fraction(replace(state, legs=legs)) - 0.5)
        assert change == pytest.approx(sign * 0.1 * (rho - 40.0) / drum)


def test_air_left_after_fitting_is_an_offset_that_venting_cures():
    state = transmitter(0.4)
    aired = replace(state, legs=replace(state.legs, drum_gas=0.1))
    assert fraction(aired) < 0.40  # reads LOW
    assert fraction(replace(aired, legs=replace(aired.legs, drum_gas=0.0))) == fraction(state)


def test_gas_behind_a_choked_line_makes_it_slower_the_more_the_lower_the_pressure():
    choked = with_valve(transmitter(0.4), "drum_isolator", 1e-5)
    aired = replace(choked, legs=replace(choked.legs, drum_gas=0.1))
    plain, slow = (transmitter_reading(state).response_time - state.damping
                   for state in (choked, aired))
    # by hand: 20 ml at 61 bar beside 1.3e-12 m3/Pa of the capsule
    assert slow / plain == pytest.approx(1 + 0.1 * 2.0e-4 / 6.1e6 / 1.3e-12, rel=1e-6)
    assert gas_compliance(1e5, aired.legs) == pytest.approx(61 * gas_compliance(6.1e6, aired.legs))
    with pytest.raises(InputError, match=r"absolute pressure is 6\.1 Pa"):
        gas_compliance(6.1, aired.legs)


def test_frozen_leg_is_a_shut_valve():
    iced = with_valve(transmitter(0.4), "drum_isolator", 0.0)
    assert transmitter_reading(iced).shut_in == ("drum side",)


# ---- trapped pressures


def test_shut_isolator_without_a_record_is_refused():
    state = transmitter()
    legs = replace(state.legs, manifold=ManifoldState(drum_isolator=0.0))
    with pytest.raises(InputError, match=r"isolator is at 0 \(shut\).*pressure in Pa"):
        transmitter_reading(replace(state, legs=legs))


def test_trapped_pressure_is_kept_and_let_go():
    state = with_valve(with_valve(transmitter(), "drum_isolator", 0.0), "reference_isolator", 0.0)
    assert shut_in(state.legs.manifold) == ("reference", "drum side")
    far = with_pressure(state, -5e6)
    assert fraction(far) == pytest.approx(0.5)
    equalised = with_valve(far, "equaliser", 1.0)
    assert transmitter_reading(equalised).differential == 0.0
    first, second = state.legs.manifold.reference_trapped, state.legs.manifold.drum_trapped
    assert transmitter_reading(equalised).reference_pressure == pytest.approx(
        (first.pressure + second.pressure) / 2)
    again = with_valve(with_valve(with_valve(equalised, "equaliser", 0.0), "drum_isolator", 1.0),
                       "reference_isolator", 1.0)
    assert again.legs.manifold == ManifoldState()


def test_vent_brings_an_isolated_port_to_the_pressure_of_the_air():
    state = with_valve(with_valve(transmitter(), "drum_isolator", 0.0), "drum_vent", 0.3)
    result = transmitter_reading(state)
    assert result.drum_side_pressure == pytest.approx(state.legs.barometer)
    closed = with_valve(state, "drum_vent", 0.0)
    assert transmitter_reading(closed).drum_side_pressure == pytest.approx(101_325.0)


@pytest.mark.parametrize("call, message", [
    (lambda: ManifoldState(equaliser=1.2), r"equaliser is 1\.2; the allowed range is 0 to 1"),
    (lambda: moved_valve(ManifoldState(), "tap", 1.0, None), "no valve 'tap'"),
    (lambda: made_move(transmitter(), Move("tap", 1.0)), "no valve 'tap'"),
    (lambda: made_move(transmitter(), Move("equaliser", 1.0, -5.0)), r"time after the move is -5"),
    (lambda: zero_check(transmitter(), 0.004), r"capsule still sees \d+ Pa; .* needs 0 Pa"),
])
def test_impossible_manifold_is_refused(call, message):
    with pytest.raises(InputError, match=message):
        call()


def test_run_of_time_takes_one_leg():
    drum, legs = drum_and_legs()
    with pytest.raises(InputError, match="drum level is an array of 2 values"):
        legs_after(replace(drum, level=np.array([0.1, 0.2])), legs, 1.0)


# ---- the drill


def test_out_of_service_and_back_loses_nothing():
    steps = made_moves(transmitter(0.3), TAKE_OUT_OF_SERVICE + PUT_INTO_SERVICE)
    assert {step.verdict for step in steps} <= {SOUND, CAREFUL}
    assert [round(1e3 * step.reading.current, 2) for step in steps[2:5]] == [20.5] * 3
    last = steps[-1]
    assert last.reading.indicated_level == pytest.approx(0.3)
    assert last.state.legs.reference_loss == 0.0
    assert all(CAUTION in step.advice for step in steps)


@pytest.mark.parametrize("moves", [
    [Move("reference_isolator", 0.0), Move("drum_isolator", 0.0), Move("equaliser", 1.0)],
    [Move("drum_isolator", 0.0), Move("equaliser", 1.0), Move("reference_isolator", 0.0)],
    [Move("reference_isolator", 0.0), Move("equaliser", 1.0), Move("drum_isolator", 0.0)],
])
def test_other_sound_orders_pass(moves):
    assert WRONG not in {step.verdict for step in made_moves(transmitter(), moves)}


def test_both_isolators_and_equaliser_open_is_wrong_and_costs_the_leg():
    step = made_move(transmitter(0.3), Move("equaliser", 1.0, 60.0))
    assert step.verdict == WRONG and "runs out" in step.advice
    assert step.state.legs.reference_loss > 0.3
    shut = made_move(step.state, Move("equaliser", 0.0))
    assert shut.verdict == CAREFUL and "lacks" in shut.advice
    assert shut.reading.error > 0.3


@pytest.mark.parametrize("valve", ["reference_drain", "drum_drain", "reference_vent", "drum_vent"])
def test_opening_a_drain_or_vent_under_pressure_is_wrong(valve):
    assert made_move(transmitter(), Move(valve, 0.2, 0.0)).verdict == WRONG


def test_vent_of_an_isolated_capsule_is_not_wrong_but_one_sided_pressure_is_pointed_out():
    steps = made_moves(transmitter(), (*TAKE_OUT_OF_SERVICE, Move("drum_vent", 1.0),
                                       Move("drum_vent", 0.0), Move("equaliser", 0.0),
                                       Move("reference_isolator", 1.0)))
    assert WRONG not in {step.verdict for step in steps}
    assert "60 bar alone" in steps[-1].advice
    better = made_moves(steps[4].state, PUT_INTO_SERVICE)
    assert all("bar alone" not in step.advice for step in better)


def test_filling_through_the_equaliser_with_the_steam_side_shut():
    state = transmitter(0.3)
    lost = replace(state, legs=replace(state.legs, reference_loss=0.35))
    steps = made_moves(lost, FILL_THROUGH_EQUALISER)
    assert WRONG not in {step.verdict for step in steps}
    assert [step.move.valve for step in steps] == [STEAM_VALVE, "equaliser", "equaliser",
                                                   STEAM_VALVE]
    # the indicator shows FULL all the while, and the level only at the end
    assert [round(1e3 * step.reading.current, 2) for step in steps[:3]] == [20.5] * 3
    assert steps[1].state.legs.reference_loss == 0.0
    assert steps[-1].reading.indicated_level == pytest.approx(0.3)


def test_filling_with_the_steam_side_open_drains_instead():
    state = transmitter(0.3)
    lost = replace(state, legs=replace(state.legs, reference_loss=0.1))
    step = made_move(lost, Move("equaliser", 1.0, 60.0))
    assert step.verdict == WRONG and step.state.legs.reference_loss > 0.1


def test_shut_chamber_reads_high_as_it_cools():
    step = made_move(transmitter(0.3), Move(STEAM_VALVE, 0.0, 30.0))
    assert step.at_once.indicated_level == pytest.approx(0.3)
    assert step.reading.current == 0.0205 and step.verdict == CAREFUL


def test_zero_check_trap():
    out = made_moves(transmitter(), TAKE_OUT_OF_SERVICE)[-1].state
    assert zero_check(out, 0.0205).startswith("Right")
    trap = zero_check(out, 0.004)
    assert trap.startswith("Wrong") and "20.50 mA (off scale)" in trap and CAUTION in trap


def test_valves_have_names_of_fields():
    assert all(hasattr(ManifoldState(), valve) for valve in VALVES)


def test_a_leaking_equaliser_is_wrong_exactly_where_the_leg_cannot_be_made_up():
    """Judged at once; whether the leg is lost is found by waiting for a day."""
    verdicts = set()
    for opening in (1e-6, 1e-5, 1e-4, 1e-3, 0.01, 1.0):
        step = made_move(transmitter(0.3), Move("equaliser", opening, 0.0))
        later = legs_after(step.state.drum, step.state.legs, 86_400.0).reference_loss
        assert (step.verdict == WRONG) == (later > 0.0)
        verdicts.add(step.verdict)
    assert verdicts == {WRONG, CAREFUL}


def test_a_drain_of_a_cold_boiler_may_be_opened():
    cold = DrumContents(0.3, 101_325.0 + 5e3, 998.2, 0.6)
    _, legs = drum_and_legs()
    state = replace(transmitter(), drum=cold, legs=legs)
    assert made_move(state, Move("drum_drain", 1.0, 0.0)).verdict != WRONG
    warm = replace(state, drum=replace(cold, pressure=101_325.0 + 15e3))
    assert made_move(warm, Move("drum_drain", 1.0, 0.0)).verdict == WRONG


@pytest.mark.parametrize("start", [0.0, 0.15])
def test_the_leg_runs_out_as_a_sum_of_short_steps(start):
    drum, legs = drum_and_legs(0.3)
    legs = replace(legs, manifold=ManifoldState(equaliser=1.0), reference_loss=start)
    lost, step = start, 0.01
    for number in range(400):
        flow = instrument_ports(drum, replace(legs, reference_loss=lost)).reference_flow
        lost += step * (flow * legs.line_conductance - legs.chamber.make_up) / (
            legs.reference_density * legs.leg_area)
        if number + 1 in (1, 100, 400):
            seconds = step * (number + 1)
            assert legs_after(drum, legs, seconds).reference_loss == pytest.approx(lost, rel=0.01)


def test_a_chamber_filled_from_the_drum_comes_to_rest():
    """With the steam valve shut and the leg full, the chamber takes the pressure of no flow."""
    drum, legs = drum_and_legs(0.3)
    legs = replace(legs, manifold=ManifoldState(equaliser=1.0), reference_loss=0.3,
                   chamber=replace(legs.chamber, isolated_pressure=drum.pressure - 1e5))
    assert instrument_ports(drum, legs).reference_flow < 0.0  # water runs up the leg
    filled = legs_after(drum, legs, 600.0)
    assert filled.reference_loss == 0.0
    assert instrument_ports(drum, filled).reference_flow == pytest.approx(0.0, abs=1e-3)
    # the head of 0.8 m of leg less that of 0.3 m of drum water and 0.5 m of steam, by hand
    head = 9.80665 * (0.8 * legs.reference_density - 0.3 * drum.water_density
                      - 0.5 * drum.steam_density)
    assert drum.pressure - filled.chamber.isolated_pressure == pytest.approx(head, rel=1e-3)


def test_nothing_is_said_of_a_leg_that_lacks_nothing():
    steps = made_moves(transmitter(0.3), TAKE_OUT_OF_SERVICE + PUT_INTO_SERVICE)
    assert not any("lacks" in step.advice for step in steps)
    state = transmitter(0.3)
    for lost, said in ((0.004, False), (0.006, True)):
        short = replace(state, legs=replace(state.legs, reference_loss=lost))
        advice = made_move(short, Move("drum_isolator", 1.0, 0.0)).advice
        assert ("lacks" in advice) is said


def test_twice_the_gravity_drains_the_leg_in_half_the_time():
    drum, legs = drum_and_legs(0.3)
    legs = replace(legs, manifold=ManifoldState(equaliser=1.0),
                   chamber=replace(legs.chamber, make_up=0.0))
    assert legs_after(drum, legs, 2.0, 2 * 9.80665).reference_loss == pytest.approx(
        legs_after(drum, legs, 4.0).reference_loss, rel=1e-6)


def test_a_shut_chamber_cools_to_a_third_in_its_cooling_time():
    drum, legs = drum_and_legs(0.3)
    start = drum.pressure
    legs = replace(legs, chamber=replace(legs.chamber, isolated_pressure=start))
    later = legs_after(drum, legs, legs.chamber.cooling_time)
    excess = later.chamber.isolated_pressure - legs.barometer
    assert excess == pytest.approx((start - legs.barometer) / np.e, rel=1e-9)


def test_trapped_water_of_several_temperatures_at_once():
    """Expansion over compressibility: 2.1e-4 / 4.6e-10 is 4.57 bar for each kelvin."""
    many = trapped_pressure_slope(np.array([2.1e-4, 4.2e-4]), 4.6e-10)
    assert many == pytest.approx([2.1e-4 / 4.6e-10, 4.2e-4 / 4.6e-10])
    assert trapped_pressure_slope(2.1e-4, np.array([4.6e-10])) == pytest.approx([456_522.0])
