"""Watches: data that is checked, a clock that runs, and no path that pays for blind feeding."""

from itertools import product

import pytest
from bench_states import BOILER, SHIP

from levelkit.constants import CAUTION
from levelkit.diagnosis.consequence import TO_THE_TRIP
from levelkit.diagnosis.decisions import (
    ASSUME_LOW,
    CARRY_ON,
    CUT_FEED,
    DECISIONS,
    STOP_FIRING,
    out_of_sight_low,
)
from levelkit.diagnosis.faulty import NO_FAULT, SettingKey, candidates
from levelkit.diagnosis.watch_course import Course
from levelkit.diagnosis.watch_game import WatchGame
from levelkit.diagnosis.watches import read_watch, watches
from levelkit.errors import InputError

WATCHES = watches()
ROW = {"id": "quiet", "title": "A quiet watch (invented)", "story": "All is well.",
       "arrangement": "one common leg", "gauge_pressure_bar": 60, "minutes": 10,
       "lesson": "None.", "event": [{"minute": 2, "text": "Tea."}]}


def game(name):
    return WatchGame(WATCHES[name], BOILER, SHIP.barometer)


def run(play, minutes):
    for _ in range(minutes):
        play.wait()
    return play


def test_there_are_at_least_four_and_every_fault_has_its_place_on_that_boiler():
    assert len(WATCHES) >= 4
    for watch in WATCHES.values():
        pool = set(candidates(SettingKey(Course(watch, BOILER, SHIP.barometer).setting)))
        assert {event.begins for event in watch.events} - {None} <= pool, watch.id
        assert sum(event.load is not None or event.begins is not None
                   for event in watch.events) >= 1


@pytest.mark.parametrize("change, complaint", [
    ({"title": "A quiet watch"}, "invented"), ({"arrangement": "two legs"}, "choose"),
    ({"event": [{"minute": 11, "text": "Late."}]}, "order of the clock"),
    ({"event": [{"minute": 3, "text": "a"}, {"minute": 2, "text": "b"}]}, "order of the clock"),
    ({"event": [{"minute": 3, "text": "a", "ends": ["swell", "drum"]}]}, "never began"),
    ({"event": [{"minute": 3, "text": "a", "begins": ["gremlin", "drum"]}]}, "gremlin")])
def test_a_wrong_watch_is_refused(change, complaint):
    assert read_watch(ROW).minutes == 10
    with pytest.raises(InputError, match=complaint):
        read_watch(ROW | change)


def test_nothing_happens_on_a_quiet_watch():
    play = run(WatchGame(read_watch(ROW), BOILER, SHIP.barometer), 4)
    play.diagnose(NO_FAULT)
    assert play.log() == ("2.0 min: Tea.",)
    assert max(play.course.levels) - min(play.course.levels) < 1e-9
    assert not play.score().unsafe


def test_the_level_falls_by_the_mass_balance_once_the_feed_is_stopped():
    """By hand: full load takes normal level to the trip in 120 s, by the choice of full load."""
    course = Course(read_watch(ROW), BOILER, SHIP.barometer)
    course.advance(150.0, CUT_FEED, ())
    reached = next(moment for moment, level in zip(course.times, course.levels, strict=True)
                   if level <= BOILER.levels.low_trip)
    assert reached == pytest.approx(TO_THE_TRIP, abs=5.0)
    assert not course.firing and "trip puts the fires out" in course.news[-1].text + (
        course.news[-2].text)


def test_alarms_come_from_the_instruments_and_a_lost_common_leg_blinds_the_trip():
    play = run(game("gland-job"), 8)
    text = " ".join(play.log())
    assert "ALARM high level" in text and "ALARM low level" not in text
    assert "trip does not come" in text and "tubes are dry" in text
    own = " ".join(run(game("slow-ahead"), 8).log())
    assert "trip puts the fires out" in own and "tubes are dry" not in own
    assert "trip does not come" not in own


def test_assuming_low_water_puts_the_fires_out_within_the_minute_and_keeps_the_water():
    play = run(game("gland-job"), 1)
    play.decide(ASSUME_LOW)
    run(play, 6)
    assert "No glass proved within the minute" in " ".join(play.log())
    assert not play.course.firing and not out_of_sight_low(play.course.result)


def test_a_held_valve_floods_a_drum_whose_fires_are_out():
    play = run(game("broken-wire"), 10)
    text = " ".join(play.log())
    assert "ALARM bad input" in text and "Water goes over with the steam" in text


def test_checks_take_time_in_which_things_happen_and_a_proof_ends_with_the_next_fault():
    play = game("slow-ahead")
    said = play.check("chamber")
    assert "Full ahead is rung" in said and play.minutes == 1.5
    play.blown.append("glass A")
    play.wait()
    assert play.course.trouble is not None and play.blown == []


def test_a_safe_quick_play_earns_nearly_all_and_a_late_one_less():
    def play(first):
        one = run(game("gland-job"), 1)
        one.correct()
        one.compare()
        one.decide(first)
        one.diagnose(*one.case.faults)
        return one.score().points
    assert play(ASSUME_LOW) >= 95 and play(CARRY_ON) <= play(ASSUME_LOW) - 40


@pytest.mark.parametrize("name", list(WATCHES))
def test_no_path_of_a_watch_rewards_feeding_a_boiler_out_of_sight_low(name):
    """Every decision, and where the water runs away another after it."""
    tried, runs_away = 0, name == "gland-job"
    for first, second in product(DECISIONS, (ASSUME_LOW, CUT_FEED) if runs_away else (CUT_FEED,)):
        course = Course(WATCHES[name], BOILER, SHIP.barometer)
        fed = False
        for order, until in ((CARRY_ON, 90.0), (first, 330.0 if runs_away else 160.0),
                             (second, 420.0 if runs_away else 0.0)):
            while course.seconds < until:
                course.advance(course.seconds + 30.0, order, ())
                fed |= out_of_sight_low(course.result) and course.firing and order not in (
                    ASSUME_LOW, STOP_FIRING)
        assert course.unsafe or not fed, (first, second)
        tried += fed
    assert tried > 0 or not runs_away


def test_an_unsafe_watch_scores_nothing_and_says_so():
    play = run(game("gland-job"), 6)
    play.correct()
    said = play.diagnose(*play.case.faults)
    assert play.score().points == 0 and play.score().unsafe
    assert WATCHES["gland-job"].lesson in said
    assert any("fed or kept on fire" in text for _, text in play.replay().events)


def test_every_decision_on_a_watch_carries_the_caution():
    play = game("slow-ahead")
    assert all(CAUTION in play.decide(key) for key in DECISIONS)
