"""Orals: drawn by seed, topic and rank; a critical point missed refers whatever the score."""

import pytest

from levelkit.constants import CAUTION
from levelkit.errors import InputError
from levelkit.exercises.misconceptions import misconception, misconceptions, safety_critical
from levelkit.exercises.oral import ENTRY, MANAGEMENT, draw_questions, oral_questions
from levelkit.exercises.oral_record import (
    OralRecord,
    begun,
    finished,
    oral_result,
    pair_turns,
    record_rows,
)

QUESTIONS = oral_questions()


def answered(question, reached, dangerous=(), candidate="A"):
    return finished(begun(OralRecord(question, candidate), 100.0), 190.0, reached, dangerous)


def test_the_bank_of_orals_is_whole():
    assert len(QUESTIONS) == 40
    for question in QUESTIONS.values():
        assert question.rank in (ENTRY, MANAGEMENT) and len(question.points) >= 2
        assert question.ask.endswith(("?", ".")) and question.follow_ups
        assert not question.then or question.then in QUESTIONS
        assert not any(point.text.startswith("!") for point in question.points)
    assert sum(bool(question.critical) for question in QUESTIONS.values()) == 8


def test_a_question_that_advises_action_carries_the_caution():
    words = ("stop firing", "shut the", "stop the feed", "feed in hand", "feed with caution",
             "isolate first", "do not", "never", "open the drain", "compare with", "use the",
             "prove the", "is proved after", "check ", "blow down")
    for question in QUESTIONS.values():
        told = any(f" {word}" in f" {point.text.lower()} " for point in question.points
                   for word in words)
        assert not told or question.caution == CAUTION, question.id


def test_the_draw_is_seeded_and_the_next_candidate_gets_another():
    first = draw_questions(4, "secret", "monday", "A", rank=ENTRY)
    assert first == draw_questions(4, "secret", "monday", "A", rank=ENTRY)
    assert all(question.rank == ENTRY for question in first)
    taken = {question.id for question in first}
    second = draw_questions(4, "secret", "monday", "B", rank=ENTRY, without=taken)
    assert not taken & {question.id for question in second}


def test_a_draw_by_topic():
    assert {question.topic for question in draw_questions(3, "s", topic="manifold")} == {"manifold"}


@pytest.mark.parametrize("arguments, complaint", [
    ({"topic": "reference leg"}, "Only 2"), ({"rank": "captain"}, "no rank")])
def test_a_wish_that_cannot_be_met_gets_a_sentence(arguments, complaint):
    with pytest.raises(InputError, match=complaint):
        draw_questions(9, "s", **arguments)


def test_a_missed_critical_point_refers_at_any_score():
    others = range(1, len(QUESTIONS["reference-leg-loss"].points))
    result = oral_result([answered("reference-leg-loss", others)], "A")
    assert result.outcome == "referred" and result.referred_for == ("High",)
    assert result.score == result.maximum - 1 and result.seconds == 90.0


def test_a_contradicted_critical_point_refers_even_if_ticked():
    every = range(len(QUESTIONS["no-water"].points))
    assert oral_result([answered("no-water", every)], "A").outcome == "passed"
    result = oral_result([answered("no-water", every, dangerous=[2])], "A")
    assert result.outcome == "referred" and result.referred_for == ("Do not feed",)


def test_too_few_points_are_not_yet_enough():
    result = oral_result([answered("glass-true", [0, 1])], "A")
    assert result.outcome == "not yet" and len(result.missed) == 3


def test_a_pair_takes_turns_and_each_has_a_result():
    turns = pair_turns(draw_questions(4, "pair"), "A", "B")
    assert [turn.candidate for turn in turns] == ["A", "B", "A", "B"]
    assert [turn.examiner for turn in turns] == ["B", "A", "B", "A"]
    done = [finished(begun(turn, 0.0), 30.0, []) for turn in turns]
    assert oral_result(done, "B").seconds == 60.0
    assert record_rows(done)[0]["elapsed_s"] == 30.0


def test_wrong_numbers_and_names_get_a_sentence():
    with pytest.raises(InputError, match="Point 9"):
        answered("glass-true", [9])
    with pytest.raises(InputError, match="no oral record"):
        oral_result([], "A")


def test_misconceptions_are_all_there():
    assert list(misconceptions()) == [f"MC{number:02}" for number in range(1, 26)]
    assert all(one.belief and one.demonstration and one.bench and one.lesson
               for one in misconceptions().values())
    assert len(safety_critical()) == 6
    with pytest.raises(InputError, match="MC99"):
        misconception("MC99")
