"""Help from one source, piece by piece; a worked example that fades."""

import pytest

from levelkit.exercises import BLANK, FULL, PARTLY, example, faded, families, variant
from levelkit.exercises.templates import formula_text, number_text, printed, working_text
from levelkit.exercises.working import GAP


@pytest.mark.parametrize("family_id", sorted(families()))
def test_a_worked_example_fades(family_id):
    one = variant(family_id, "test", "fading")
    full, partly, blank = (faded(one, amount) for amount in (FULL, PARTLY, BLANK))
    assert len(full) == len(partly) == len(blank) == len(one.family.steps)
    half = len(full) // 2
    assert partly[:half] == full[:half]
    asked_late = [line for step, line in zip(one.family.steps, partly, strict=True)
                  if step.kind != "method"][-1]
    assert GAP in asked_late
    for step, whole, part, empty in zip(one.family.steps, full, partly, blank, strict=True):
        assert all(line.endswith(f"[{step.marks}]") for line in (whole, part, empty))
        if step.kind != "method":
            assert GAP in empty and GAP not in whole
            assert one.answer(step.id) not in empty.removesuffix(f"[{step.marks}]")


def test_help_comes_as_hint_then_formula_then_working():
    height = example("glass-reads-low").hints()[1]
    assert height.hint.startswith("The water in the glass is denser")
    assert height.formula == "h_g = h × (ρ_f − ρ_g) / (ρ_w − ρ_g)"
    assert height.working == "h_g = 200 × (897.0 − 4.16) / (962.2 − 4.16) = 186.4 mm"


def test_formula_and_numbers_come_from_one_template():
    template = "({a} − {b})[[ / 1000]] × {c}"
    assert formula_text(template, {"a": "p", "b": "q", "c": "r"}) == "(p − q) × r"
    assert working_text(template, {"a": "5", "b": "−2", "c": "1.0 × 10⁻³"}) == (
        "(5 − (−2)) / 1000 × (1.0 × 10⁻³)")


def test_numbers_as_printed():
    assert number_text(-0.04, 1) == "0.0" and number_text(-13.649, 1) == "−13.6"
    assert printed(0.18641, 3) == 0.186 and printed(8.7612e-3, 2, power=True) == 8.76e-3


def test_of_an_odd_number_of_steps_the_later_and_larger_half_is_left_out():
    odd = [one for one in map(example, families()) if len(one.family.steps) % 2]
    assert len(odd) > 10
    for one in odd:
        full, partly = faded(one, FULL), faded(one, PARTLY)
        half = len(full) // 2
        same = [a == b for a, b in zip(full, partly, strict=True)]
        assert all(same[:half]) and not same[half], one.family.id
