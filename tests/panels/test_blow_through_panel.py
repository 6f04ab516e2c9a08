"""The drill without a browser: proof not recitation, ledger, judgement, replay, record."""

import csv
import io
import logging
from html import unescape

import pytest

from levelkit.constants import CAUTION
from levelkit.lesson import blow_through_panel
from levelkit.physics.blow_decision import CONTINUE, NOT_PROVED, PROVE_ANOTHER, STOP_FIRING
from levelkit.physics.blow_glass import (
    BELOW,
    DRAIN,
    IN_SIGHT,
    OPEN,
    OPEN_GENTLY,
    SHUT,
    STEAM,
    STRONG,
    WATER,
    WET,
)
from levelkit.physics.blow_through import PLATE_DRILL

RECITED = ((STEAM, SHUT), (WATER, SHUT), (DRAIN, OPEN_GENTLY), (WATER, OPEN_GENTLY), (WATER, SHUT),
           (STEAM, OPEN_GENTLY), (STEAM, SHUT), (DRAIN, SHUT), (WATER, OPEN_GENTLY),
           (STEAM, OPEN_GENTLY))
HEALTHY, BELOW_CONNECTION, LYING, PLUG_OUT = 4, 18, 25, 15


@pytest.fixture()
def panel(caplog):
    made = blow_through_panel()
    yield made
    assert not [r for r in caplog.records if r.name in ("traitlets", "levelkit")
                and r.levelno >= logging.ERROR]


def run(panel, seed, moves=RECITED):
    panel.set(seed=seed)
    for key in moves:
        panel.turns[key].click()


def declare(panel, zone, action):
    panel.claims.zone.value, panel.claims.action.value = zone, action
    panel.claims.declare.click()


def test_a_healthy_drill_is_borne_out_and_then_shows_what_was_hidden(panel):
    run(panel, HEALTHY)
    assert "-hidden)" in panel._picture.value.split("</defs>")[1]
    for tick in panel.claims.ticks.values():
        tick.value = True
    declare(panel, IN_SIGHT, CONTINUE)
    assert panel.judgement.passed and "BORNE OUT" in panel.said.value
    assert "no fault" in panel.said.value and CAUTION in unescape(panel.said.value)
    assert "-hidden)" not in panel._picture.value.split("</defs>")[1]
    assert panel.moves.layout.display == "none"


@pytest.mark.parametrize("seed", [BELOW_CONNECTION, LYING, PLUG_OUT, 13, 17])
def test_the_recited_order_and_verdict_do_not_pass_a_gauge_that_lies(panel, seed):
    run(panel, seed)
    declare(panel, IN_SIGHT, CONTINUE)
    assert not panel.judgement.passed and "NOT BORNE OUT" in panel.said.value


def test_no_water_through_a_clear_way_stops_the_firing(panel):
    run(panel, BELOW_CONNECTION)
    declare(panel, BELOW, STOP_FIRING)
    assert panel.judgement.passed and "do not feed" in panel.said.value


def test_nothing_proved_is_a_good_answer_only_while_it_is_so(panel):
    panel.set(seed=HEALTHY)
    declare(panel, NOT_PROVED, PROVE_ANOTHER)
    assert not panel.judgement.passed and "steam way were not let blow alone" in panel.said.value
    run(panel, LYING)
    declare(panel, NOT_PROVED, PROVE_ANOTHER)
    assert panel.judgement.passed
    run(panel, HEALTHY)
    declare(panel, NOT_PROVED, PROVE_ANOTHER)
    assert not panel.judgement.passed


def test_a_claim_that_nothing_proves_fails_a_right_level(panel):
    run(panel, HEALTHY, ((DRAIN, OPEN_GENTLY), (DRAIN, SHUT)))
    panel.claims.ticks["steam way clear"].value = True
    declare(panel, NOT_PROVED, PROVE_ANOTHER)
    assert not panel.judgement.passed and "proves: steam way clear" in panel.said.value


def test_the_ledger_is_shown_only_up_to_what_was_compared(panel):
    run(panel, HEALTHY, RECITED[:4])
    assert ">yes, " not in panel._picture.value
    panel.claims.ticks["drain clear"].value = True
    panel.claims.ticks["steam way clear"].value = True
    panel.claims.compare.click()
    assert "1 of 2 ticks are borne out" in panel.said.value
    assert "Nothing seen so far proves: steam way clear" in panel.said.value
    assert ">yes, 4<" in panel._picture.value and ">not yet<" in panel._picture.value
    for key in RECITED[4:6]:
        panel.turns[key].click()
    assert ">yes, 6<" not in panel._picture.value, "the next proof is asked for again"
    panel.claims.compare.click()
    assert ">yes, 6<" in panel._picture.value


def test_what_was_expected_is_answered_and_asked_again(panel):
    run(panel, BELOW_CONNECTION, RECITED[:3])
    panel.expected_blow.value = (STRONG, WET)
    panel.turns[WATER, OPEN_GENTLY].click()
    assert "You expected strong wet blow: so what does it tell you?" in panel.said.value
    assert panel.expected_blow.value == ()
    panel.turns[WATER, SHUT].click()
    assert "did not say what you expected" in panel.said.value
    run(panel, HEALTHY, RECITED[:3])
    panel.expected_blow.value = (STRONG, WET)
    panel.turns[WATER, OPEN_GENTLY].click()
    assert "As you expected" in panel.said.value


def test_the_run_is_looked_back_at_move_by_move(panel):
    run(panel, HEALTHY)
    panel.claims.compare.click()
    last = panel.drawing.words
    assert panel.later.disabled and "Move 10" in last
    for _ in range(7):
        panel.earlier.click()
    assert "Move 3" in panel.drawing.words and ">yes, 6<" not in panel._picture.value
    for _ in range(3):
        panel.earlier.click()
    assert "As found" in panel.drawing.words and panel.earlier.disabled
    for _ in range(10):
        panel.later.click()
    assert panel.drawing.words == last


def test_the_record_holds_moves_expectations_and_verdict_and_not_the_truth(panel, tmp_path):
    panel.set(seed=LYING)
    panel.expected_blow.value = (STRONG, WET)
    panel.turns[DRAIN, OPEN_GENTLY].click()
    declare(panel, NOT_PROVED, STOP_FIRING)
    path = panel.save(tmp_path)
    text = path.read_text("utf-8")
    rows = list(csv.DictReader(io.StringIO(text)))
    assert len(rows) == 2 and rows[0]["action"] == "as found"
    assert rows[1]["expected blow"] == "strong wet" and rows[1]["as expected"] in ("yes", "no")
    assert rows[1]["declared"].endswith("borne out") and rows[0]["declared"] == ""
    assert "water way choked" not in text
    assert panel.save(tmp_path) != path, "nothing is overwritten"


def test_the_same_number_hides_the_same_gauge_and_a_new_one_begins_clean(panel):
    run(panel, LYING)
    hidden = panel.drill.condition
    declare(panel, IN_SIGHT, CONTINUE)
    panel.next_drill()
    assert panel.controls["seed"].value == LYING + 1 and len(panel.drill.entries) == 1
    assert panel.judgement is None and panel.claims.claimed == () and not panel.claims.zone.value
    panel.set(seed=LYING)
    assert panel.drill.condition == hidden and len(panel.drill.entries) == 1
    assert panel.moves.layout.display == ""


def test_a_drill_that_is_over_takes_no_more_moves(panel):
    run(panel, HEALTHY, RECITED[:2])
    declare(panel, NOT_PROVED, STOP_FIRING)
    panel.turns[DRAIN, OPEN].click()
    assert len(panel.drill.entries) == 3 and "over" in panel.said.value


def test_declaring_half_a_decision_is_a_sentence(panel):
    panel.claims.zone.value = IN_SIGHT
    panel.claims.declare.click()
    assert panel.judgement is None and "Say where the level is" in panel.said.value


def test_a_plate_glass_blown_like_a_tube_is_not_passed(panel):
    panel.set(seed=HEALTHY, variant=PLATE_DRILL)
    for cock, action in RECITED:
        panel.turns[cock, OPEN if action == OPEN_GENTLY else action].click()
    declare(panel, IN_SIGHT, CONTINUE)
    assert not panel.judgement.passed and "snatched" in panel.said.value
