"""Answers worked by hand before the code existed: the worked examples give them, slips too."""

import tomllib
from decimal import Decimal
from pathlib import Path

import pytest

from levelkit.exercises import example, families, inconsistencies, with_data

QUESTIONS = tomllib.loads(
    Path(__file__).with_name("hand_worked.toml").read_text(encoding="utf-8"))["question"]


def last_digit(text):
    """Weight of the last printed digit."""
    return float(Decimal(1).scaleb(Decimal(text).as_tuple().exponent))


def test_all_forty_three_are_there():
    assert len(QUESTIONS) == len({question["family"] for question in QUESTIONS}) == 43
    assert {question["family"] for question in QUESTIONS} <= set(families())


@pytest.mark.parametrize("question", QUESTIONS, ids=lambda question: question["family"])
def test_the_example_gives_the_answer_worked_by_hand(question):
    one = example(question["family"])
    assert one.family.marks == question["marks"]
    for name, printed in question["answers"].items():
        step = one.family.step(name)
        value = step.si.from_si(one.solution.steps[name])
        assert value == pytest.approx(float(printed), abs=question["within"][name]), name
        assert value == pytest.approx(float(printed), abs=1.001 * last_digit(printed)), name


@pytest.mark.parametrize("question", QUESTIONS, ids=lambda question: question["family"])
def test_the_example_gives_the_wrong_answers_worked_by_hand(question):
    one = example(question["family"])
    for name, printed in question["slips"].items():
        step = one.family.step(one.family.slip(name).step)
        value = step.si.from_si(one.solution.slips[name])
        assert value == pytest.approx(float(printed), abs=1.001 * last_digit(printed)), name


@pytest.mark.parametrize("family_id", sorted(families()))
def test_the_data_of_every_example_agree_with_the_steam_table(family_id):
    assert inconsistencies(example(family_id)) == ()


@pytest.mark.parametrize("currents, bands", [
    ((3.5, 3.7, 12.0, 20.8, 21.5), ("failure", "between", "measuring", "between", "failure")),
    ((0.0, 3.8, 12.0, 20.5, 21.5), ("failure", "measuring", "measuring", "measuring", "failure")),
    ((3.95, 3.8, 12.0, 20.3, 21.0), ("measuring", "measuring", "measuring", "measuring",
                                     "failure")),
])
def test_the_ten_currents_lie_in_their_bands(currents, bands):
    one = with_data("namur-bands", **{f"current_{n}": c for n, c in enumerate(currents, 1)})
    assert tuple(one.solution.steps[f"band_{n}"] for n in range(1, 6)) == bands


def test_the_lost_factor_of_the_drag_law_makes_the_ball_lighter_to_lift():
    """The hand-worked sheet gives 2.38 m/s for a lost factor of one half; it is 1.19 m/s.

    Drag with the half is half rho V2 C A. Without it the drag at a velocity is twice as
    large, so the velocity that balances the same weight is smaller by the root of two.
    """
    from math import pi, sqrt

    weight = (7800 - 897.0) * 9.81 * pi * 0.0127**3 / 6
    area = pi * 0.0127**2 / 4
    without_half = sqrt(weight / (0.45 * 897.0 * area))
    one = example("ball-check")
    assert one.solution.slips["half_lost"] == pytest.approx(without_half, rel=1e-9)
    assert without_half == pytest.approx(1.19, abs=0.005)
    assert 2 * without_half == pytest.approx(2.38, abs=0.01)
