"""The manifold drill without a browser: every move is judged, shown, logged; none can crash it."""

import csv
import io
import re
from html import unescape

import pytest
from handling import nothing_swallowed
from hypothesis import given, settings
from hypothesis import strategies as st

from levelkit.constants import CAUTION
from levelkit.lesson import manifold_panel
from levelkit.panels.manifold_panel import NOT_ASKED
from levelkit.panels.manifold_tasks import TASKS

VALVES = ("drum_isolator", "reference_isolator", "equaliser", "drum_drain", "reference_drain",
          "drum_vent", "reference_vent", "chamber_steam_valve")


@pytest.fixture()
def panel(caplog):
    """A panel; an exception swallowed by a callback fails the test."""
    with nothing_swallowed(caplog):
        yield manifold_panel("water_tube")


def said(panel):
    return unescape(re.sub("<[^>]+>", "", panel.said.value))


def follow(panel, task):
    for move in TASKS[task].way:
        panel.set(seconds=move.seconds)
        panel.valves[move.valve].click()


@pytest.mark.parametrize("boiler", ["auxiliary", "composite", "water_tube"])
@pytest.mark.parametrize("task", TASKS)
def test_the_worked_way_reaches_its_goal_without_a_wrong_move(boiler, task):
    panel = manifold_panel(boiler)
    panel.set(task=task)
    assert not panel.result.reached
    follow(panel, task)
    assert panel.result.reached and panel.wrong_moves() == 0
    assert "GOAL REACHED" in panel._picture.value


def test_both_isolators_and_the_equaliser_open_is_wrong_and_the_leg_is_lost(panel):
    panel.set(level=150, seconds=60)
    panel.valves["equaliser"].click()
    assert panel.result.entries[-1].verdict == "wrong"
    assert "runs out" in said(panel) and CAUTION in said(panel)
    assert panel.result.state.legs.reference_loss > 0.1
    panel.valves["equaliser"].click()
    reading = panel.result.reading
    assert reading.indicated_level > 0.15 + 0.1, "shutting it does not bring the leg back"


def test_the_indicator_shows_at_once_and_after_the_wait(panel):
    panel.set(seconds=600)
    panel.valves["chamber_steam_valve"].click()
    entry = panel.result.entries[-1]
    assert f"{1e3 * entry.at_once.current:.2f} mA at once" in said(panel)
    assert f"{1e3 * entry.later.current:.2f} mA after 600 s" in said(panel)
    assert entry.later.indicated_level > entry.at_once.indicated_level


def test_a_shut_drum_isolator_lets_the_reading_run_off_with_the_pressure(panel):
    """Half a span of 3.55 kPa either way: 60 bar g give and take 2 kPa."""
    panel.valves["drum_isolator"].click()
    panel.set(level=120)
    assert panel.result.reading.indicated_level == pytest.approx(0.250, abs=1e-9)
    panel.set(pressure=60.02)
    assert panel.result.reading.shown_fraction < 0
    panel.set(pressure=59.98)
    assert panel.result.reading.shown_fraction > 1


def test_the_zero_check_is_a_trap_for_whoever_expects_four_milliampere(panel):
    panel.set(zero=0.004)
    assert "needs 0 Pa" in said(panel)
    panel.set(zero=NOT_ASKED)
    follow(panel, "take out of service")
    panel.set(zero=0.004)
    assert said(panel).startswith("Wrong") and "20.50 mA" in said(panel) and CAUTION in said(panel)
    panel.set(zero=0.0205)
    assert said(panel).startswith("Right")


def test_help_leads_along_the_way_and_says_so_when_it_is_left(panel):
    panel.hint.click()
    assert "shut the drum isolator" in said(panel) and CAUTION in said(panel)
    panel.valves["drum_isolator"].click()
    panel.hint.click()
    assert "shut the reference isolator" in said(panel)
    panel.valves["drum_vent"].click()
    panel.hint.click()
    assert "a way of your own" in said(panel)


def test_buttons_say_what_they_will_do(panel):
    button = panel.valves["equaliser"]
    assert button.description == "Open equaliser"
    panel.valves["drum_isolator"].click()
    button.click()
    assert button.description == "Shut equaliser"
    assert panel.valves["drum_isolator"].description == "Open drum isolator"


def test_a_new_task_and_start_again_begin_with_an_empty_log(panel):
    start = panel._picture.value
    panel.valves["drum_drain"].click()
    assert len(panel.readings.rows) == 1 and panel.controls["zero"].value == NOT_ASKED
    panel.set(task="put into service")
    assert panel.result.entries == () and panel.readings.rows == []
    panel.reset()
    assert re.sub(r"lk\d+-", "", panel._picture.value) == re.sub(r"lk\d+-", "", start)
    panel.valves["drum_drain"].click()
    panel.reset()
    assert panel.result.entries == ()


def test_the_log_is_saved_with_units_verdicts_and_reasons(panel, tmp_path):
    panel.valves["reference_drain"].click()
    panel.wait.click()
    rows = list(csv.DictReader(io.StringIO(panel.readings.save(tmp_path).read_text("utf-8"))))
    assert [row["what"] for row in rows] == ["reference drain open", "waited 10 s"]
    assert rows[0]["verdict"] == "wrong" and "hot water" in rows[0]["why"]
    assert float(rows[0]["lost from leg [mm]"]) > 0
    assert float(rows[1]["after the wait [mA]"]) == pytest.approx(
        1e3 * panel.result.reading.current, abs=0.0051)


@given(st.lists(st.sampled_from((*VALVES, "wait", "pressure", "level")), max_size=12),
       st.sampled_from(list(TASKS)))
@settings(max_examples=60)
def test_no_order_of_moves_breaks_the_panel(moves, task):
    panel = manifold_panel("water_tube")
    panel.set(task=task)
    for number, move in enumerate(moves):
        if move == "wait":
            panel.wait.click()
        elif move in ("pressure", "level"):
            panel.set(**{move: (0, 30, 60.01, 100)[number % 4]})
        else:
            panel.move(move)
        assert panel._problem.value == ""
        assert panel.result.reading.current >= 0
