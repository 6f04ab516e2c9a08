"""The bank as a whole: no widgets, every misconception reachable, follow-through everywhere."""

import shutil
import subprocess
import sys

import conventions
import pytest

from levelkit.constants import CAUTION
from levelkit.exercises import example, families, mark, outcomes, variant
from levelkit.exercises.data import in_si
from levelkit.exercises.family import CHOICE
from levelkit.exercises.misconceptions import misconceptions
from levelkit.exercises.solution import solved_family
from levelkit.exercises.templates import number_text

ADVICE = ("stop firing", "do not feed", "shut the", "feed in hand", "in hand on the glass",
          "use the gauge glass", "open the drain gently", "act first", "should have been done",
          "before acting", "blowing the glass through", "repeat with", "which one leads",
          "should the level be read")


def test_there_are_at_least_sixty_families_over_all_topics():
    topics = {one.topic for one in families().values()}
    assert len(families()) >= 60 and len(topics) == 15


def test_every_misconception_can_be_found_by_a_family():
    codes = {code for one in families().values() for code in one.misconceptions}
    assert codes == set(misconceptions())


def test_every_outcome_is_listed_and_used():
    used = {code for one in families().values() for code in one.outcomes}
    assert used == set(outcomes())


def test_families_that_set_one_trap_say_so():
    traps = [one.trap for one in families().values()]
    assert traps.count("live-zero") == 3 and len(set(traps)) > 50


@pytest.mark.parametrize("family_id", sorted(families()))
def test_advice_to_act_carries_the_caution(family_id):
    one = families()[family_id]
    texts = " ".join([one.text] + [text for step in one.steps for text in (step.hint, step.ask)] + [
        option.text for step in one.steps for option in step.options]).lower()
    if any(word in texts for word in ADVICE):
        assert one.advises_action
    assert example(family_id).caution == (CAUTION if one.advises_action else "")


def typed(step, value):
    if step.kind == CHOICE:
        return value
    text = number_text(step.si.from_si(value), step.decimals + 2, step.power)
    if step.direction:
        return f"{step.direction[0 if value < 0 else 1]} {text.lstrip('−')} {step.si.text}"
    return f"{text} {'' if step.unit == '1' else step.si.text}"


@pytest.mark.parametrize("family_id", sorted(families()))
def test_one_wrong_value_costs_its_own_step_and_nothing_after_it(family_id):
    """The later steps are worked on from the wrong value, as an honest candidate would."""
    one = variant(family_id, "test", "follow-through")
    family, followed = one.family, 0
    for step in family.value_steps[:-1]:
        right = one.solution.steps[step.id]
        own = {step.id: right * 1.31 + 5 * step.allowed(right)}
        try:
            worked_on = solved_family(family, in_si(family, one.data), own)
        except (ArithmeticError, ValueError):  # that value cannot be carried further
            continue
        answers = {asked.id: typed(asked, worked_on.steps[asked.id])
                   for asked in family.asked_steps}
        answers[step.id] = typed(step, own[step.id])
        result = mark(one, answers)
        own_lines = {step.id} | {line.id for line in family.steps if line.shown_by == step.id}
        lost = [line for line in result.steps if line.marks < line.of]
        assert {line.step for line in lost} <= own_lines, (step.id, lost)
        followed += result.maximum - result.marks > 0
    assert followed or len(family.value_steps) == 1


@pytest.mark.parametrize("text", ["0", "-1", "1e300", "-1e300", "1e-300", "7", "1e400", "abc"])
def test_no_number_however_odd_stops_the_marking(text):
    for family_id in families():
        one = variant(family_id, "test", "odd")
        assert mark(one, {step.id: text for step in one.family.asked_steps}).messages


def test_exercises_load_neither_widgets_nor_drawing():
    code = ("import sys, levelkit.exercises, levelkit.exercises.sheet, levelkit.exercises.oral, "
            "levelkit.exercises.progress; levelkit.exercises.families(); "
            "heavy = ('matplotlib', 'ipywidgets', 'IPython', 'anywidget'); "
            "print([m for m in heavy if m in sys.modules])")
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"


@pytest.mark.parametrize("line, complaint", [
    ("import ipywidgets", "exercises must not import ipywidgets"),
    ("from ..panels import control", "exercises must not import panels"),
    ("from ..scene import look", "exercises must not import scene"),
])
def test_a_planted_widget_in_the_exercises_is_caught(tmp_path, line, complaint):
    package = tmp_path / "levelkit"
    shutil.copytree(conventions.PACKAGE / "exercises", package / "exercises",
                    ignore=shutil.ignore_patterns("__pycache__"))
    file = package / "exercises" / "marking.py"
    file.write_text(file.read_text(encoding="utf-8") + f"\n{line}\n", encoding="utf-8")
    assert any(complaint in fault for fault in conventions.wrong_imports(package))
    assert conventions.wrong_imports(package) != []
