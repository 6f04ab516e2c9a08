"""Faults 1 to 16: every direction computed from the states, and the trade's numbers beside them."""

from dataclasses import replace
from math import radians, tan

import pytest
from remote_states import transmitter, two_fluid

from levelkit.check.cocks import tubular_state
from levelkit.constants import CAUTION
from levelkit.faults import (
    EMPTY,
    FAILED,
    FROZEN,
    FULL,
    GLASS,
    HIGH,
    LOW,
    TRANSMITTER,
    TWO_FLUID,
    UNAFFECTED,
    Effect,
    fault_named,
    hides_low_water,
    instrument_of,
    observed_effect,
)
from levelkit.faults import glass_changes as sizes
from levelkit.faults.glass_faults import GLASS_FAULTS
from levelkit.physics.cock_state import CockState
from levelkit.physics.cocks import glass_after, glass_history
from levelkit.physics.columns import Column, balancing_height, path_difference
from levelkit.physics.glass import GaugeGlassState, GlassMounting
from levelkit.physics.motion import apparent_list, level_shift
from levelkit.physics.u_tube import DRUM_LIMB

COCKS = {"glass, 7 bar gauge": tubular_state(), "glass, 16 bar": tubular_state(17e5),
         "glass, 60 bar": tubular_state(61e5, water_density=860.0),
         "plate glass, 60 bar": tubular_state(
             61e5, bore_area=240e-6, dry_heat_loss=3.0, steam_connection=0.5,
             ambient_temperature=318.15, water_density=860.0)}
AT_REST = GaugeGlassState(0.25, 756.12, 31.38, 960.0, GlassMounting(0.5, 0.07, 0.43))
REMOTE = {"two-fluid": two_fluid(0.4), "two-fluid, inverted": two_fluid(0.4, DRUM_LIMB),
          "DP": transmitter(0.4)}
STATES = COCKS | REMOTE
by_fault = pytest.mark.parametrize("fault", GLASS_FAULTS, ids=lambda f: f"{f.number}-{f.key}")
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


@pytest.mark.parametrize("fault", GLASS_FAULTS[8:], ids=lambda f: f"{f.number}-{f.key}")
def test_a_glass_at_rest_shows_faults_9_to_16_as_one_with_cocks_does(fault):
    assert observed_effect(fault, AT_REST) == fault.effect_on(GLASS)


TRADE = {  # what the trade says the glass does, by number
    1: FULL, 2: FROZEN, 3: FROZEN, 4: LOW, 5: EMPTY, 6: HIGH, 7: FAILED, 8: FROZEN, 9: LOW,
    10: EMPTY, 11: FULL, 13: HIGH, 14: LOW, 15: HIGH, 16: HIGH}
UNSAFE_IN_THE_TRADE = {1, 2, 3}


def test_the_catalogue_agrees_with_the_trade_on_the_glass():
    assert {fault.number: fault.effect_on(GLASS).now for fault in GLASS_FAULTS
            if fault.number != 12} == TRADE
    assert fault_named("water-way-choked").effect_on(GLASS).later == HIGH
    hiding = {fault.number for fault in GLASS_FAULTS if GLASS in fault.hides_low_water}
    assert hiding >= UNSAFE_IN_THE_TRADE
    assert hiding == {1, 2, 3, 5, 6, 8}  # and three that the trade does not mark


def test_faults_of_the_glass_leave_the_remote_instruments_alone():
    for fault in GLASS_FAULTS[:9]:
        for state in REMOTE.values():
            assert fault.apply(state) is state
            assert fault.effect_on(TWO_FLUID) == fault.effect_on(TRANSMITTER) == Effect()
        if fault.number < 9:
            assert fault.apply(AT_REST) is AT_REST


def test_numbers_keys_and_words_are_complete():
    assert [fault.number for fault in GLASS_FAULTS] == list(range(1, 17))
    for fault in GLASS_FAULTS:
        assert fault.name and fault.cause.endswith(".") and fault.alarms.endswith(".")
        assert fault.safe_action.endswith(".") and fault.advice.endswith(CAUTION)
        assert fault_named(fault.key) is fault
        assert fault.apply("something else") == "something else"
        for state in STATES.values():
            assert type(fault.apply(state)) is type(state)


# ---- single rows, with their own numbers


def height_after(key, seconds=0.0, state=None):
    faulty = fault_named(key).apply(state or tubular_state())
    return (glass_after(faulty, seconds) if seconds else faulty).contents.height


def test_row_1_fills_in_seconds_and_row_2_in_minutes():
    state, times = tubular_state(), {}
    for row, fault in ((1, {"steam_choke": 1.0}), (2, {"water_choke": 1.0})):
        choked = replace(state, faults=replace(state.faults, **fault))
        run = glass_history(choked, 4000.0, points=4001)
        times[row] = next(t for t, y in zip(run.time, run.height, strict=True) if y > 0.30)
    assert times[1] < 10 and 600 < times[2] < 2400


def test_row_3_stays_believable_for_an_hour():
    before = tubular_state().contents.height
    assert height_after("both-ways-choked", 3600.0) == pytest.approx(before, abs=0.002)


def test_row_4_stays_lively_and_row_8_does_not_move():
    for key, follows in (("glass-drain-leaking", True), ("false-line", False)):
        state = tubular_state()
        faulty = fault_named(key).apply(state)
        look = instrument_of(faulty)
        higher = look.at_share(faulty, look.shown(faulty).true_share + 0.1)
        moved = look.shown(higher).share - look.shown(faulty).share
        assert moved == pytest.approx(0.093 if follows else 0.0, abs=0.002)


def test_row_5_creeps_up_from_empty_and_the_ball_drops_on_shutting_the_cock():
    assert height_after("ball-seated") == 0.0
    assert 0.05 < height_after("ball-seated", 600.0) < 0.2


def test_row_7_both_ends_blow():
    broken = fault_named("glass-broken").apply(tubular_state())
    run = glass_history(broken, 2.0, points=3)
    assert run.height[-1] < 0.02 and run.water_flow[-1] > 0.05 and run.steam_flow[-1] > 0.01


def test_row_10_a_false_short_column_stands_where_the_pipe_dips():
    held = tubular_state(level=0.2, pipe_lip=0.03)
    low = fault_named("level-below-connection").apply(held)
    lower = replace(low, drum=replace(low.drum, level=low.drum.level - 0.3))
    stands = [glass_after(state, 60.0).contents.height for state in (low, lower)]
    assert stands == pytest.approx([0.03, 0.03], abs=1e-3)


def froth_head(surface, void, water, steam):
    """Collapsed height of a frothing stretch, by the column list in a hundred slices."""
    slices = [Column((1 - void) * water + void * steam, surface * i / 100, surface * (i + 1) / 100)
              for i in range(100)]
    return balancing_height(lambda z: path_difference(
        [*slices, Column(steam, surface, surface)],
        [Column(water, 0.0, z), Column(steam, z, surface)]))


def test_row_12_instruments_show_the_collapsed_level_below_the_froth():
    state = tubular_state()
    frothing = fault_named("froth").apply(state)
    collapsed = froth_head(state.drum.level, sizes.FROTH, state.drum.water_density,
                           state.drum.steam_density)
    assert collapsed == pytest.approx((1 - sizes.FROTH) * state.drum.level, rel=1e-9)
    clear = glass_after(replace(state, drum=replace(state.drum, level=collapsed)), 60.0)
    assert frothing.contents.height == pytest.approx(clear.contents.height, abs=1e-3)


@pytest.mark.parametrize("void, direction", [(0.15, HIGH), (0.05, LOW)])
def test_rows_13_and_14_bubbles_below_the_connection_move_the_collapsed_level(void, direction):
    """Own slab: the same water, voids 10 % before; what stands above a connection at 0.6 m."""
    water, connection = 1.0, 0.6

    def above(voids):
        surface = water / (1 - voids)
        return (surface - connection) * (1 - voids)

    change = above(void) - above(0.10)
    assert (change > 0) == (direction == HIGH)
    assert abs(change) == pytest.approx(0.05 * connection)
    assert pytest.approx(0.05 * connection) == sizes.SWELL  # the size the catalogue takes


def test_row_15_the_other_end_is_out_by_the_same_and_the_mean_is_right():
    state = AT_REST
    high = fault_named("list").apply(state).level - state.level
    assert high == pytest.approx(sizes.ARM * tan(radians(2.0)))
    other = level_shift(-sizes.ARM, sizes.LIST)
    assert high + other == pytest.approx(0.0, abs=1e-12)


def test_row_16_swings_more_than_the_same_list_and_both_ways():
    at_end = fault_named("rolling").apply(AT_REST).level - AT_REST.level
    back = level_shift(sizes.ARM, apparent_list(-sizes.ROLL, sizes.ROLL_PERIOD,
                                                sizes.ABOVE_ROLL_AXIS))
    assert at_end == pytest.approx(-back) and at_end > level_shift(sizes.ARM, sizes.ROLL)


def test_the_list_of_kinds_knows_a_glass_with_cocks():
    state = tubular_state()
    assert isinstance(state, CockState) and instrument_of(state).name(state) == GLASS
    assert observed_effect(fault_named("equaliser-open"), state).now == UNAFFECTED
