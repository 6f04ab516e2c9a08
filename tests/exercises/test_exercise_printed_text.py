"""Examples and marks as text: what lesson 15 prints."""

import pytest

from levelkit.constants import CAUTION
from levelkit.exercises import FULL, PARTLY, example, families, mark
from levelkit.exercises.printed_text import WIDTH, example_text, marks_text


@pytest.mark.parametrize("family_id", sorted(families()))
def test_an_example_in_text_holds_question_caution_and_every_step(family_id):
    one = example(family_id)
    text = example_text(one, FULL)
    question, lines = text.split("\n\n")
    assert one.text in " ".join(question.split("\n"))
    assert (CAUTION in question) == one.family.advises_action
    assert len(lines.split("\n")) == len(one.family.steps)
    for step in one.family.value_steps:
        assert one.answer(step.id).split(",")[0] in lines
    assert text != example_text(one, PARTLY)


def test_the_marks_in_text_are_those_of_the_marking():
    one = example("glass-reads-low")
    answers = {"height": "214.6 mm", "error": "high 14.6 mm"}
    text, result = marks_text(one, answers), mark(one, answers)
    assert text.endswith(f"{result.marks} of {result.maximum} marks") and result.marks == 6
    assert [int(line.split(" of ")[0][-1]) for line in text.split("\n")
            if " of " in line] == [3, 1, 2, 6]
    assert "upside down" in text and "follow-through" in text
    assert all(len(line) <= WIDTH for line in text.split("\n"))


def test_nothing_shown_earns_nothing_and_is_said():
    text = marks_text(example("glass-reads-low"), {})
    assert "No value after it shows the method" in text and text.endswith("0 of 7 marks")
