"""Parts quiz, installation check, bolts and the order drill, without a browser."""


import pytest
from handling import nothing_swallowed

from levelkit.constants import CAUTION
from levelkit.lesson import (
    bolts_panel,
    glass_types_panel,
    installation_check,
    isolation_drill,
    warming_drill,
)
from levelkit.panels.bolts_panel import AT_ONCE, BY_STAGES
from levelkit.physics.bolts import end_first_order, tightening_order, tightening_result
from levelkit.physics.breakage import ISOLATION_DRILL
from levelkit.physics.glass_choice import PLATE, TUBULAR, TYPES


@pytest.fixture(autouse=True)
def nothing_is_swallowed(caplog):
    """An exception swallowed by a callback fails the test."""
    with nothing_swallowed(caplog):
        yield


def test_the_quiz_names_every_part_once_and_answers_each_slip():
    panel = glass_types_panel()
    panel.truth.value = False
    quiz = panel.quiz
    assert quiz.answer.label == "choose a name"
    parts = {part.name: part for part in TYPES[TUBULAR].parts}
    for count in range(len(parts)):
        asked = quiz.asked
        wrong = next(name for name in parts if name != asked)
        quiz.answer.value = wrong
        quiz.check.click()
        assert parts[wrong].purpose in quiz.said and parts[asked].purpose in quiz.said
        assert asked not in quiz.said.replace(parts[asked].purpose, "").replace(
            parts[wrong].purpose, "").replace(wrong, ""), "a slip does not give the name away"
        assert len(quiz.named) == count
        quiz.answer.value = asked
        quiz.check.click()
        assert quiz.named[-1] == asked and asked in panel.drawing.svg
    assert quiz.asked is None and quiz.check.disabled
    assert f"All {len(parts)} parts are named, {len(parts)} slips" in quiz.said


def test_the_quiz_begins_anew_for_another_gauge_and_the_twin_does_not_disturb_it():
    panel = glass_types_panel()
    panel.truth.value = False
    panel.quiz.answer.value = panel.quiz.asked
    panel.quiz.check.click()
    panel.draw(panel.result, panel.look, True)
    assert len(panel.quiz.named) == 1
    panel.set(kind=PLATE)
    assert panel.quiz.named == () and len(panel.quiz.parts) == len(TYPES[PLATE].parts)
    assert "which part is this?" in panel.drawing.svg
    panel.quiz.check.click()
    assert "Choose a name first" in panel.quiz.said


def test_the_glass_of_every_boiler_bears_its_pressure():
    panel = glass_types_panel()
    for values in panel.presets.values():
        panel.set(**values)
        assert panel.result.kind.highest_pressure >= panel.result.working_pressure
        assert "it suits" in panel.drawing.words
    panel.set(kind=TUBULAR)
    assert "NOT for" in panel.drawing.words and "mica is wanted" in panel.drawing.words


def test_the_installation_of_every_boiler_is_complete_until_it_is_spoilt():
    card = installation_check()
    for _, name in card.boiler.options:
        card.boiler.value = name
        assert all(line.met for line in card.findings), name
        assert "every line is met" in card._table.value and CAUTION in card._table.value
    card.boiler.value = "water_tube"
    card.glass.value, card.means.value, card.lamp.value = TUBULAR, 1, False
    broken = {line.requirement for line in card.findings if not line.met}
    assert len(broken) == 4 and "4 lines are NOT met" in card._table.value
    for source in ("SOLAS II-1/32.6", "46 CFR 52.01-110", "common practice, no source"):
        assert source in card._table.value
    card.boiler.value = "auxiliary"
    assert all(line.met for line in card.findings), "another boiler stands as built"


def test_bolts_pressed_and_typed_are_one_order():
    panel = bolts_panel()
    for name in ("4L", "5R", "4L"):
        panel.pull(name)
    assert [(step.pair, step.side, step.share) for step in panel.result.order] == [
        (4, "left", 0.3), (5, "right", 0.3), (4, "left", 0.6)]
    panel.set(order="4l, 5R;4L")
    assert len(panel.result.order) == 3


def test_the_drill_tells_a_bad_order_from_the_recommended_one():
    panel = bolts_panel()
    panel.set(**panel.presets["from the middle outwards"])
    assert panel.result.order == tightening_order(8, (0.3, 0.6, 1.0))
    best = tightening_result(panel.cover, tightening_order(8)).evenness[-1]
    assert panel.result.result.evenness[-1] == pytest.approx(best)
    assert "as even as from" in panel.drawing.svg
    panel.set(**panel.presets["end first"])
    worst = tightening_result(panel.cover, end_first_order(8)).evenness[-1]
    assert panel.result.result.evenness[-1] == pytest.approx(worst) and worst < 0.8 * best
    assert "too little load" in panel.drawing.svg
    assert f"{100 * worst:.0f} % of the mean" in panel.drawing.words


def test_an_unfinished_order_and_an_unknown_bolt_are_said():
    panel = bolts_panel()
    assert "No bolt" in panel.drawing.words
    panel.set(order="4L", pull=AT_ONCE)
    assert "not finished" in panel.drawing.svg
    picture = panel._picture.value
    panel.set(order="4L 9R", pull=BY_STAGES)
    assert "'9R'" in panel._problem.value and "1L to 8R" in panel._problem.value
    assert panel._picture.value == picture


def test_isolation_is_pressed_in_order_and_a_slip_is_answered_with_a_reason():
    drill = isolation_drill()
    drill.press(ISOLATION_DRILL[2].action)
    assert drill.slips == 1 and ISOLATION_DRILL[0].reason in drill.said
    assert ISOLATION_DRILL[0].action not in drill.said
    for step in ISOLATION_DRILL:
        drill.buttons[step.action].click()
        assert step.reason in drill.said and drill.buttons[step.action].disabled
    assert "All 6 steps done, 1 slip" in drill.said
    assert CAUTION in drill._list.value
    order = [drill._list.value.index(step.action) for step in ISOLATION_DRILL]
    assert order == sorted(order)
    drill.restart()
    assert drill.slips == 0 and not drill.buttons[ISOLATION_DRILL[0].action].disabled


def test_the_water_cock_comes_before_the_steam_cock_and_warming_begins_with_the_drain():
    drill = isolation_drill()
    water, steam = (next(step.action for step in ISOLATION_DRILL if f"{cock} cock" in step.action)
                    for cock in ("water", "steam"))
    drill.press(ISOLATION_DRILL[0].action)
    drill.press(steam)
    assert drill.slips == 1
    drill.press(water)
    drill.press(steam)
    assert drill.slips == 1
    warming = warming_drill()
    warming.press("crack the steam cock and wait")
    assert warming.slips == 1
    warming.press("open the drain")
    warming.press("crack the steam cock and wait")
    assert warming.slips == 1
