"""The diagnosis panel without a browser: hidden cases, the lecturer's own, hands, advice."""

import csv
import io
from html import unescape

import pytest
from handling import nothing_swallowed, redraws

from levelkit.constants import CAUTION
from levelkit.diagnosis.checks import CHECKS
from levelkit.diagnosis.correction import corrected_readings
from levelkit.diagnosis.decisions import ASSUME_LOW, DECISIONS, RAISE_FEED
from levelkit.diagnosis.faulty import NO_FAULT, Placed
from levelkit.diagnosis.setting import SHARED, TRANSMITTER_1
from levelkit.lesson import diagnosis_panel
from levelkit.panels.bench_controls import BY_LECTURER, BY_SEED, BY_WATCH

LOST = Placed("reference-leg-lost", TRANSMITTER_1)


@pytest.fixture()
def panel(caplog):
    """A panel; an exception swallowed by a callback fails the test."""
    with nothing_swallowed(caplog):
        yield diagnosis_panel("water_tube")


def said(panel):
    return unescape(panel.said.value)


def test_a_lecturers_state_is_one_redraw_and_shows_what_the_bench_computes(panel):
    seen = redraws(panel)
    panel.set(source=BY_LECTURER, level=180, pressure=30, first=LOST)
    assert len(seen) <= 2 and panel._problem.value == ""
    result = panel.result.game.case.result
    assert result.faults == (LOST,) and result.true_level == pytest.approx(0.18)
    for reading in result.readings.values():
        assert reading.text in panel.drawing.words
    assert "hidden" in panel.drawing.words


def test_correcting_puts_the_corrected_levels_into_picture_and_readings(panel):
    panel.set(source=BY_LECTURER, level=180, first=LOST)
    assert "±" not in panel.drawing.words
    panel.correct()
    right = corrected_readings(panel.result.game.case.result)
    assert f"{1000 * right['glass A'].level:.0f} ± " in panel.drawing.words
    assert "Most of the ± comes from glass water density (glass A" in panel.drawing.words
    panel.readings.record()
    row = next(csv.DictReader(io.StringIO(panel.readings.text())))
    assert float(row["transmitter 1, drum level [mm]"]) == pytest.approx(
        1000 * right[TRANSMITTER_1].level, abs=0.051)


def test_every_decision_and_check_speaks_with_the_caution_beside_it(panel):
    assert CAUTION in said(panel)
    for key in DECISIONS:
        panel.decide(key)
        assert CAUTION in said(panel) and "afe" in said(panel)
    for key in list(CHECKS)[1:]:
        panel.check(key)
        assert CAUTION in said(panel)


def test_a_whole_play_ends_with_truth_replay_and_points(panel):
    panel.set(source=BY_LECTURER, level=180, first=LOST)
    panel.correct()
    panel.compare()
    panel.decide(ASSUME_LOW)
    panel.suspect.value = LOST
    panel.diagnose()
    assert "It was: reference leg partly lost, transmitter 1." in said(panel)
    assert "Replay." in said(panel) and "of 100" in said(panel)
    assert panel.truth.value and "180 mm" in panel.drawing.words


def test_feeding_blind_with_the_level_out_of_sight_low_scores_nothing(panel):
    panel.set(source=BY_LECTURER, level=-40, first=LOST)
    panel.correct()
    panel.decide(RAISE_FEED)
    panel.suspect.value = LOST
    panel.diagnose()
    assert "0 points" in said(panel) and "out of sight low" in said(panel)


def test_hands_are_counted_and_decide_nothing(panel):
    panel.counting.value = True
    for key in (ASSUME_LOW, ASSUME_LOW, RAISE_FEED, ASSUME_LOW):
        panel.decide(key)
    assert "4 hands. assume low: 3 (75 %); raise feed: 1 (25 %)." in said(panel)
    assert panel.result.game.decisions == []
    panel.counting.value = False
    panel.decide(ASSUME_LOW)
    assert len(panel.result.game.decisions) == 1


def test_the_number_makes_the_case_and_start_again_begins_it_anew(panel):
    first = panel.result.game.case
    panel.check("movement")
    panel.start_again()
    assert panel.result.game.minutes == 0.5 and panel.result.game.case.faults == first.faults
    panel.next_case()
    assert panel.controls["seed"].value == 2 and panel.result.game.case.seed == 2


def test_a_common_leg_offers_its_own_faults_and_drops_the_others(panel):
    panel.set(source=BY_LECTURER, first=LOST)
    panel.set(arrangement=SHARED)
    assert panel.controls["first"].value == NO_FAULT
    keys = {item.key for _, item in panel.controls["first"].options}
    assert "common-leg-lost" in keys and panel._problem.value == ""


def test_twenty_hidden_cases_are_drawn_without_a_word_of_what_is_wrong(panel):
    for seed in range(20):
        panel.set(seed=seed)
        assert panel._problem.value == ""
        for item in panel.result.game.case.faults:
            assert item.text not in panel.drawing.words + said(panel)


def test_a_watch_runs_its_clock_and_its_corrected_levels_move_with_it(panel):
    panel.set(source=BY_WATCH, watch="gland-job")
    assert "An invented watch." in said(panel) and CAUTION in said(panel)
    panel.correct()
    before = panel.result.corrected["glass A"].level
    panel.wait()
    assert panel._problem.value == "" and panel._game.minutes == 2.5
    assert panel.result.corrected["glass A"].level < before - 0.03
    assert "ALARM high level" in said(panel)
    panel.readings.record()
    row = next(csv.DictReader(io.StringIO(panel.readings.text())))
    assert row["case"] == "gland-job"


def test_controls_of_other_cases_are_out_of_the_way(panel):
    def shown(control):
        return control.layout.display != "none"
    for source, mine in ((BY_SEED, "seed"), (BY_WATCH, "watch"), (BY_LECTURER, "first")):
        panel.set(source=source)
        names = [name for name in ("seed", "watch", "first") if shown(panel.controls[name])]
        assert names == [mine]
        assert shown(panel.waiting) == (source == BY_WATCH)


def test_the_next_case_of_a_watch_is_the_next_watch(panel):
    panel.set(source=BY_WATCH, watch="slow-ahead")
    panel.next_case()
    assert panel.controls["watch"].value == "gland-job" and panel._game.minutes == 0.5
    assert panel.suspect.value == NO_FAULT
