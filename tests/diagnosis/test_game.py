"""The bench: safe action first, and no path that pays for feeding a boiler out of sight low."""

from itertools import product

import pytest
from bench_states import BOILER, SHIP, setting

from levelkit.constants import CAUTION
from levelkit.diagnosis.cases import LOW_WATER, bench_case, seeded_bench
from levelkit.diagnosis.checks import CHECKS
from levelkit.diagnosis.consequence import consequence
from levelkit.diagnosis.decisions import (
    ASSUME_LOW,
    BY_GLASS,
    CARRY_ON,
    CUT_FEED,
    DECISIONS,
    HIGH,
    IN_SIGHT,
    LOW,
    NOT_PROVED,
    STOP_FIRING,
    feed_share,
    is_unsafe,
    lowest_in_sight,
    out_of_sight_low,
    proved,
    safe_decisions,
)
from levelkit.diagnosis.faulty import NO_FAULT, Placed, SettingKey, candidates
from levelkit.diagnosis.game import BenchGame
from levelkit.diagnosis.readings import bench_result
from levelkit.diagnosis.setting import GLASS_A, GLASS_B, SHARED, TRANSMITTER_1
from levelkit.errors import InputError
from levelkit.physics.protection import time_to_level


def low_cases():
    """Every fault of the boiler with the level below the connection, or just out of sight."""
    state = setting(arrangement=SHARED)
    for item in candidates(SettingKey(state)):
        if item.place != "drum":
            yield bench_case(state, (item, LOW_WATER))
    for level in (0.02, 0.06):
        yield bench_case(setting(level=level), ())
        yield bench_case(setting(level=level), (Placed("equaliser-open", TRANSMITTER_1),))


LOW_CASES = list(low_cases())


def play(case, *moves):
    """Play moves ("check", "blow A") and so on; return the game."""
    game = BenchGame(case)
    for name, *arguments in moves:
        getattr(game, name)(*arguments)
    return game


def test_no_path_rewards_feeding_a_boiler_whose_level_is_out_of_sight_low():
    """All decisions, alone and after or before any other, blown or not, diagnosis right."""
    tried = 0
    for case in LOW_CASES:
        assert out_of_sight_low(case.result)
        for first, second, blown in product(DECISIONS, (None, *DECISIONS), ((), ("blow A",))):
            moves = [("correct",), *(("check", key) for key in blown),
                     ("decide", first)]
            if second:
                moves.append(("decide", second))
            game = play(case, *moves, ("diagnose", *case.faults))
            fed = any(feed_share(key, case.result, tuple(game.blown)) > 0
                      for key in (first, second) if key)
            harmless = {first, second} <= {None, ASSUME_LOW, STOP_FIRING}
            score = game.score()
            if fed or not harmless:
                assert score.points == 0 and score.unsafe
                tried += 1
            else:
                assert score.points > 0 and not score.unsafe
    assert tried > 1000


def test_deciding_nothing_is_carrying_on():
    game = play(LOW_CASES[0], ("correct",), ("diagnose", *LOW_CASES[0].faults))
    assert game.score().points == 0 and game.score().unsafe


def test_assume_low_water_is_the_standing_first_action_while_nothing_is_proved():
    assert safe_decisions(NOT_PROVED)[0] == ASSUME_LOW
    assert set(safe_decisions(NOT_PROVED)) == {ASSUME_LOW, STOP_FIRING}
    for seed in range(40):
        case = seeded_bench(BOILER, SHIP.barometer, seed)
        points = {key: play(case, ("correct",), ("decide", key), ("diagnose", *case.faults)
                            ).score().points for key in DECISIONS}
        assert points[ASSUME_LOW] == max(points.values())
        for key in set(DECISIONS) - {ASSUME_LOW, STOP_FIRING}:
            assert points[key] < points[ASSUME_LOW]


@pytest.mark.parametrize("level, faults, blown, zone", [
    (0.25, (), (), NOT_PROVED), (0.25, (), (GLASS_A,), IN_SIGHT),
    (-0.05, (), (GLASS_A,), LOW), (0.05, (), (GLASS_B,), LOW), (0.25, ("level-above-glass", "drum"),
                                                                (GLASS_A,), HIGH),
    (0.25, ("steam-way-choked", GLASS_A), (GLASS_A,), NOT_PROVED),
    (0.25, ("steam-way-choked", GLASS_A), (GLASS_A, GLASS_B), IN_SIGHT),
    (0.25, ("false-line", GLASS_A), (GLASS_A,), NOT_PROVED),
    (0.25, ("glass-drain-leaking", GLASS_A), (GLASS_A,), NOT_PROVED),
    (0.25, ("glass-broken", GLASS_A), (GLASS_A,), NOT_PROVED)])
def test_what_a_blow_through_proves(level, faults, blown, zone):
    placed = (Placed(*faults),) if faults else ()
    assert proved(bench_result(setting(level=level), placed), blown) == zone


def test_a_proved_glass_opens_the_way_to_feeding_by_it():
    case = bench_case(setting(level=0.2), (Placed("equaliser-open", TRANSMITTER_1),))
    moves = [("correct",), ("compare",), ("check", "blow A"), ("decide", BY_GLASS),
             ("diagnose", *case.faults)]
    score = play(case, *moves).score()
    assert score.points >= 95
    unproved = play(case, *[move for move in moves if move[0] != "check"]).score()
    assert unproved.points <= score.points - 35


def test_correcting_before_comparing_and_acting_before_diagnosing_are_paid():
    case = bench_case(setting(level=0.2), (Placed("reference-leg-lost", TRANSMITTER_1),))
    best = play(case, ("correct",), ("compare",), ("decide", ASSUME_LOW),
                ("diagnose", *case.faults)).score().points
    hasty = play(case, ("compare",), ("correct",), ("decide", ASSUME_LOW),
                 ("diagnose", *case.faults)).score().points
    late = play(case, ("correct",), ("diagnose", *case.faults), ("decide", ASSUME_LOW)
                ).score().points
    assert (best - hasty, best - late) == (20, 20)


def test_a_wrong_diagnosis_with_the_safe_action_beats_the_right_one_without():
    case = bench_case(setting(level=0.2), (Placed("reference-leg-lost", TRANSMITTER_1),))
    wrong = play(case, ("correct",), ("decide", ASSUME_LOW), ("diagnose", NO_FAULT))
    right = play(case, ("correct",), ("decide", CARRY_ON), ("diagnose", *case.faults))
    assert wrong.score().points >= right.score().points


def test_time_is_paid_only_with_some_of_the_diagnosis():
    case = bench_case(setting(level=0.2), (Placed("reference-leg-lost", TRANSMITTER_1),))
    slow = play(case, *[("check", key) for key in CHECKS], ("diagnose", *case.faults))
    quick = play(case, ("diagnose", NO_FAULT))
    assert dict((name, got) for name, got, _ in slow.score().parts)["time"] == 0
    assert dict((name, got) for name, got, _ in quick.score().parts)["time"] == 0
    assert slow.minutes == pytest.approx(0.5 + sum(check.minutes for check in CHECKS.values()))


@pytest.mark.parametrize("seed", range(0, 60, 6))
def test_a_seed_is_a_case_and_every_check_says_something(seed):
    case, again = (seeded_bench(BOILER, SHIP.barometer, seed) for _ in range(2))
    assert case.faults == again.faults and case.log == again.log
    assert case.log[0].startswith("Last entry") and case.log[-1].startswith("Controller")
    game = play(case, *[("check", key) for key in CHECKS], ("correct",), ("compare",))
    assert all(entry.said.endswith(".") for entry in game.entries)
    said = game.decide(ASSUME_LOW)
    assert CAUTION in said


def test_seeds_make_one_fault_two_faults_and_hidden_low_water():
    cases = [seeded_bench(BOILER, SHIP.barometer, seed) for seed in range(60)]
    assert {len(case.faults) for case in cases} == {1, 2}
    assert 5 < sum(out_of_sight_low(case.result) for case in cases) < 30
    assert len({case.faults for case in cases}) > 40


def test_with_the_feed_shut_in_the_level_reaches_the_trip_in_the_time_of_the_mass_balance():
    """By another route: the closed form of the protection module with the same steam flow."""
    result = bench_result(setting(level=0.25), (Placed("equaliser-open", TRANSMITTER_1),))
    run = consequence(CARRY_ON, result)
    assert run.feed_share == 0.0
    reached = float(run.times[run.levels <= BOILER.levels.low_trip][0])
    drum = result.states[TRANSMITTER_1].drum
    steam = (drum.water_density - drum.steam_density) * 1.0
    whole = time_to_level(BOILER.drum.shape, 0.25, 0.12, drum.water_density, drum.steam_density,
                          steam)
    assert whole > 0 and reached == pytest.approx(120.0, abs=5.0)


def test_a_shared_lost_leg_blinds_the_trip_and_the_tubes_run_dry():
    blind = bench_result(setting(level=0.25, arrangement=SHARED),
                         (Placed("common-leg-lost", "common leg"),))
    texts = " ".join(text for _, text in consequence(CARRY_ON, blind).events)
    assert "trip does not come" in texts and "tubes are dry" in texts
    own = bench_result(setting(level=0.25), (Placed("equaliser-open", TRANSMITTER_1),))
    texts = " ".join(text for _, text in consequence(CARRY_ON, own).events)
    assert "trip puts the fires out" in texts and "tubes are dry" not in texts


def test_assuming_low_water_feeds_nothing_blind_and_stops_within_the_minute():
    low = bench_result(setting(level=-0.05))
    blind = bench_result(setting(level=-0.05, arrangement=SHARED),
                         (Placed("common-leg-lost", "common leg"),))
    for case, words in ((low, "trip puts the fires out"), (blind, "fires are out")):
        run = consequence(ASSUME_LOW, case)
        assert run.feed_share == 0.0 and not run.unsafe
        assert any(words in text and moment <= 70 for moment, text in run.events)
    assert consequence(CARRY_ON, low).unsafe and is_unsafe(CUT_FEED, low)


def test_the_bottom_of_the_visible_glass_as_a_level():
    """Hand calculation: 70 mm of 961 kg/m3 on 756 kg/m3, steam 31.4 kg/m3."""
    assert lowest_in_sight(bench_result(setting())) == pytest.approx(
        0.070 * (961.2 - 31.4) / (756.1 - 31.4), abs=5e-4)


def test_unknown_words_are_refused():
    game = BenchGame(bench_case(setting(), ()))
    for method in (game.check, game.decide):
        with pytest.raises(InputError, match="choose one of"):
            method("guess")
    with pytest.raises(InputError, match="one or two"):
        game.diagnose()
