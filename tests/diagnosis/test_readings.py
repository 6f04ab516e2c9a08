"""One drum drives six instruments: all readings belong to one level, corrected or not."""

import pytest
from bench_states import setting

from levelkit.diagnosis.agreement import agree, agreement
from levelkit.diagnosis.correction import Corrected, corrected_readings
from levelkit.diagnosis.faulty import Placed, SettingKey, candidates
from levelkit.diagnosis.movement import movement, movement_word
from levelkit.diagnosis.readings import (
    EMPTY,
    FAILED,
    FULL,
    READS,
    bench_result,
)
from levelkit.diagnosis.setting import (
    AIR_RECEIVER,
    GLASS_A,
    GLASS_B,
    NAMES,
    REMOTES,
    SEPARATE,
    SHARED,
    TRANSMITTER_1,
    TRANSMITTER_2,
    U_TUBE,
)
from levelkit.errors import InputError
from levelkit.faults import FAULTS
from levelkit.physics.differential import indicated_level
from levelkit.properties import compressed_water_density, steaming_drum_fluids
from levelkit.units import absolute_pressure, kelvin

BARS, LEVELS = (60.0, 30.0, 10.0), (0.15, 0.25, 0.35)


def fluids(bar):
    state = steaming_drum_fluids(absolute_pressure(bar, 101_325.0))
    return (state.water_density, state.steam_density,
            compressed_water_density(state.pressure, kelvin(50.0)))


@pytest.mark.parametrize("bar", BARS)
@pytest.mark.parametrize("level", LEVELS)
@pytest.mark.parametrize("arrangement", [SEPARATE, SHARED])
def test_sound_instruments_corrected_show_the_true_level(bar, level, arrangement):
    result = bench_result(setting(bar, level, arrangement=arrangement))
    for name, item in corrected_readings(result).items():
        assert item.level == pytest.approx(level, abs=1e-3), name
        assert 0.001 < item.uncertainty < 0.012


@pytest.mark.parametrize("bar", BARS)
def test_uncorrected_they_show_what_the_textbook_balance_says(bar):
    """By another route: the closed form of an instrument with other densities."""
    result = bench_result(setting(bar, 0.3))
    wrong = indicated_level(0.3, 0.5, *fluids(bar), *fluids(60.0))
    assert result.readings[TRANSMITTER_1].shown == pytest.approx(wrong, abs=1e-6)
    assert result.readings[AIR_RECEIVER].shown == pytest.approx(wrong, abs=1e-6)
    assert result.readings[TRANSMITTER_2].shown == pytest.approx(0.3, abs=1e-6)
    water, steam, _ = fluids(bar)
    warm = compressed_water_density(absolute_pressure(bar, 101_325.0), kelvin(100.0))
    assert result.readings[GLASS_A].shown == pytest.approx(
        0.3 * (water - steam) / (warm - steam), abs=2e-4)


def test_the_worked_example_of_three_indicators_comes_out():
    """Hand calculation (examination question): 144 mm of leg make a transmitter 190 mm high."""
    water, steam, leg = 756.1, 31.4, 990.6
    assert indicated_level(0.372, 0.8, water, steam, leg, water, steam, leg) == pytest.approx(0.372)
    excess = 0.144 * (leg - steam) / (water - steam)
    assert excess == pytest.approx(0.190, abs=1e-3)
    lost = Placed("reference-leg-lost", TRANSMITTER_1)
    result = bench_result(setting(seconds=0.0), (lost,))
    ours = fluids(60.0)
    expected = 0.25 + 0.075 * (ours[2] - ours[1]) / (ours[0] - ours[1])
    assert result.readings[TRANSMITTER_1].shown == pytest.approx(expected, abs=1e-6)


def test_every_fault_has_a_place_and_touches_only_what_hangs_there():
    shared = candidates(SettingKey(setting(arrangement=SHARED)))
    own = candidates(SettingKey(setting(arrangement=SEPARATE)))
    assert {item.key for item in shared} == {fault.key for fault in FAULTS}
    assert {fault.key for fault in FAULTS} - {item.key for item in own} == {"common-leg-lost"}
    sound = bench_result(setting(seconds=0.0))
    for item in own:
        result = bench_result(setting(seconds=0.0), (item,))
        moved = {name for name in NAMES
                 if abs(result.readings[name].shown - sound.readings[name].shown) > 1e-3}
        if item.place in (GLASS_A, GLASS_B, U_TUBE, TRANSMITTER_2, AIR_RECEIVER):
            assert moved <= {item.place}, item.text
        elif item.place == TRANSMITTER_1:
            assert moved <= {TRANSMITTER_1, AIR_RECEIVER}, item.text


def test_lost_leg_water_is_lost_for_everybody_on_that_leg():
    drain = Placed("equaliser-passing", U_TUBE)
    apart = bench_result(setting(arrangement=SEPARATE), (drain,))
    together = bench_result(setting(arrangement=SHARED), (drain,))
    for name in REMOTES[1:]:
        assert apart.readings[name].shown == pytest.approx(0.25, abs=1e-3)
        assert together.readings[name].shown > 0.35


def test_list_lifts_one_end_and_lowers_the_other_and_the_mean_is_right():
    result = bench_result(setting(), (Placed("list", "drum"),))
    levels = corrected_readings(result)
    assert levels[GLASS_A].level - levels[GLASS_B].level > 0.12
    mean = (levels[GLASS_A].level + levels[GLASS_B].level) / 2
    assert mean == pytest.approx(result.true_level, abs=1e-3)


def test_a_cold_drum_corrected_agrees():
    result = bench_result(setting(), (Placed("cold-drum", "drum"),))
    assert result.readings[TRANSMITTER_1].shown > 0.31
    assert agreement(corrected_readings(result), SEPARATE).all_agree


def test_froth_is_shown_as_the_collapsed_level():
    result = bench_result(setting(), (Placed("froth", "drum"),))
    assert result.true_level == pytest.approx(0.2)
    assert result.readings[TRANSMITTER_1].shown == pytest.approx(0.2, abs=2e-3)


@pytest.mark.parametrize("key, place, status, word", [
    ("steam-way-choked", GLASS_A, FULL, "still"), ("false-line", GLASS_A, READS, "still"),
    ("glass-drain-leaking", GLASS_A, READS, "lively"), ("glass-broken", GLASS_B, FAILED, "still"),
    ("equaliser-open", U_TUBE, FULL, "still"), ("line-choked", U_TUBE, READS, "still"),
    ("wire-broken", TRANSMITTER_1, FAILED, "still"),
    ("range-upside-down", TRANSMITTER_1, READS, "moves the wrong way"),
    ("drum-isolator-shut", TRANSMITTER_2, READS, "still"),
    ("air-failed", AIR_RECEIVER, EMPTY, "still"), ("tube-leaks", AIR_RECEIVER, READS, "lively")])
def test_status_and_movement_are_what_a_watch_sees(key, place, status, word):
    result = bench_result(setting(), (Placed(key, place),))
    assert result.readings[place].status == status
    assert movement_word(movement(place, result.states[place], result.setting)) == word


def test_alarms_and_feed_follow_the_transmitter_and_not_the_level():
    low = setting(level=0.10)
    honest, blind = bench_result(low), bench_result(low, (Placed("equaliser-open",
                                                                 TRANSMITTER_1),))
    assert honest.alarms.low and honest.alarms.trip and honest.alarms.feed_share > 1
    assert not blind.alarms.low and blind.alarms.high and blind.alarms.feed_share == 0
    assert blind.alarms.trip  # the other transmitter has a leg of its own and one vote is enough
    together = bench_result(setting(level=0.10, arrangement=SHARED),
                            (Placed("common-leg-lost", "common leg"),))
    assert not together.alarms.trip
    assert bench_result(setting(), (Placed("wire-broken", TRANSMITTER_1),)).alarms.bad_input


def test_agreement_counts_witnesses_by_leg():
    for arrangement, witnesses in ((SEPARATE, 5), (SHARED, 3)):
        found = agreement(corrected_readings(bench_result(setting(arrangement=arrangement))),
                          arrangement)
        assert found.all_agree and found.witnesses == (witnesses,)
    lost = bench_result(setting(arrangement=SHARED), (Placed("reference-leg-lost", "common leg"),))
    found = agreement(corrected_readings(lost), SHARED)
    assert set(found.parties) == {(GLASS_A, GLASS_B), REMOTES}
    assert dict(zip(found.parties, found.witnesses, strict=True)) == {
        (GLASS_A, GLASS_B): 2, REMOTES: 1}


def test_the_band_is_the_root_of_the_squares():
    first = Corrected("one", 0.300, 0.006)
    assert agree(first, Corrected("two", 0.3099, 0.008))
    assert not agree(first, Corrected("two", 0.3101, 0.008))
    with pytest.raises(InputError, match="shows no number"):
        agree(first, Corrected("two", None, None))
