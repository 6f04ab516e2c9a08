"""Every family of the bank: marks add up, slips are told apart, the working is true."""

import re

import pytest
from working_value import working_value

from levelkit.exercises import bank, example, families, family, mark, variant
from levelkit.exercises.acceptance import CLEARANCE
from levelkit.exercises.family import CHOICE, METHOD, VALUE, BankError, marks_by_kind
from levelkit.exercises.templates import number_text, working_text
from levelkit.exercises.variants import good_share
from levelkit.exercises.verdicts import fits

FAMILIES = sorted(families())
SEEDS = range(6)


def variants(family_id, seeds=SEEDS):
    return [variant(family_id, "test", "bank", seed) for seed in seeds]


def typed(step, value):
    """A value as a person would type it."""
    text = number_text(step.si.from_si(value), step.decimals, step.power)
    if step.direction:
        word = step.direction[0 if value < 0 else 1]
        return f"{word} {text.lstrip('−')} {step.si.shown}"
    return f"{text} {step.si.shown}"


def right_answers(one):
    return {step.id: one.solution.steps[step.id] if step.kind == CHOICE
            else typed(step, one.solution.steps[step.id]) for step in one.family.asked_steps}


@pytest.mark.parametrize("family_id", FAMILIES)
def test_in_two_hundred_variants_every_slip_is_clear_of_the_answer_and_found(family_id):
    """Made, solved by physics and marked: right answers earn all, each slip its own diagnosis."""
    seen = set()
    for one in variants(family_id, range(200)):
        seen.add(one.text)
        complete = mark(one, right_answers(one))
        assert complete.marks == sum(step.of for step in complete.steps) == one.family.marks
        for slip in one.family.slips:
            step = one.family.step(slip.step)
            right, wrong = one.solution.steps[step.id], one.solution.slips[slip.id]
            found = mark(one, {step.id: typed(step, wrong)}).step(step.id)
            assert (found.slip, found.misconception) == (slip.id, slip.misconception)
            if step.direction:
                right, wrong = abs(right), abs(wrong)
            assert abs(right - wrong) > CLEARANCE * step.allowed(right), slip.id
    assert len(seen) > 150 or len(seen) > 0.35 * good_combinations(family_id)


@pytest.mark.parametrize("family_id", FAMILIES)
def test_no_slip_is_worked_out_that_no_one_can_be_told_of(family_id):
    one = example(family_id)
    assert set(one.solution.slips) == {slip.id for slip in one.family.slips}


def good_combinations(family_id):
    from levelkit.exercises.selection import space_size

    return space_size(family(family_id)) * good_share(family_id, 200)


@pytest.mark.parametrize("family_id", FAMILIES)
def test_ranges_suit_the_slips(family_id):
    assert good_share(family_id, 100) >= 0.3


@pytest.mark.parametrize("family_id", FAMILIES)
def test_right_answers_earn_every_mark(family_id):
    for one in [example(family_id), *variants(family_id)]:
        result = mark(one, right_answers(one))
        assert (result.marks, result.maximum) == (one.family.marks, one.family.marks), (
            result.messages)
        assert result.complete and not result.slip


@pytest.mark.parametrize("family_id", FAMILIES)
def test_every_slip_is_recognised_and_the_answer_kept_back(family_id):
    for one in variants(family_id):
        for slip in one.family.slips:
            step = one.family.step(slip.step)
            result = mark(one, {step.id: typed(step, one.solution.slips[slip.id])})
            got = result.step(step.id)
            assert got.slip == slip.id, (slip.id, got)
            assert got.message == slip.sentence and got.marks < got.of
            assert got.misconception == slip.misconception
        for step in one.family.steps:
            for option in step.options:
                result = mark(one, {step.id: option.id})
                right = option.id == one.solution.steps[step.id]
                assert result.step(step.id).marks == (step.mark_count if right else 0)
                if not right:
                    assert result.step(step.id).misconception == option.misconception
                    assert result.step(step.id).message == option.sentence


@pytest.mark.parametrize("family_id", FAMILIES)
def test_no_sentence_gives_the_number_away(family_id):
    for one in variants(family_id):
        answers = {one.numbers[step.id].lstrip("−") for step in one.family.value_steps
                   if not step.fixed and len(one.numbers[step.id].strip("−.")) > 2}
        for sentence in [slip.sentence for slip in one.family.slips] + [
                option.sentence for step in one.family.steps for option in step.options] + [
                step.hint for step in one.family.steps]:
            assert not any(answer in sentence.split() for answer in answers), sentence


@pytest.mark.parametrize("family_id", FAMILIES)
def test_a_wrong_direction_loses_its_mark_and_no_other(family_id):
    for one in variants(family_id):
        for step in one.family.value_steps:
            if step.direction:
                value = one.solution.steps[step.id]
                wrong = mark(one, {step.id: typed(step, -value)}).step(step.id)
                assert wrong.marks == step.mark_count - step.mark_kinds["B"]
                assert wrong.misconception and wrong.slip == "direction"
                unsaid = mark(one, {step.id: typed(step, value).split(" ", 1)[1]}).step(step.id)
                assert unsaid.marks == wrong.marks and "State the direction" in unsaid.message


@pytest.mark.parametrize("family_id", FAMILIES)
def test_the_printed_working_evaluates_to_the_printed_answer(family_id):
    """The line of numbers is closed-form arithmetic; the answer comes from physics."""
    for one in [example(family_id), *variants(family_id)]:
        for step in one.family.value_steps:
            if step.formula:
                value = working_value(working_text(step.formula, one.numbers))
                assert fits(step, step.si.to_si(value), one.solution.steps[step.id]), (
                    step.id, value, one.numbers[step.id])


RELATION = re.compile(r"[^=<,:]+ = [^=<,:]+")  # two sides and no words between

UNKNOWN_IN_SI = {  # the relation finds m or a share, the answer is in mm or per cent
    ("hot-read-cold", "hot_constants"): 1e3, ("part-pressure", "constants"): 1e3,
    ("warm-reference-leg", "equivalent"): 1e3, ("residual-air", "law"): 1e2}


def relations(one):
    """Method lines in numbers, each symbol of a value step replaced by its printed value."""
    values = {step.symbol: one.numbers[step.id] + ("°" if step.unit == "deg" else "")
              for step in one.family.value_steps}
    for step in one.family.steps:
        line = working_text(step.formula, one.numbers)
        if step.kind == METHOD and RELATION.fullmatch(line):
            for symbol in sorted(values, key=len, reverse=True):
                line = re.sub(rf"(?<![\w_]){re.escape(symbol)}(?![\w_(])",
                              f"({values[symbol]})", line)
            yield step.id, line.split(" = ")


@pytest.mark.parametrize("family_id", FAMILIES)
def test_the_two_sides_of_a_printed_relation_agree(family_id):
    """A relation with the printed answer put in balances to its last digit but one."""
    for one in [example(family_id), *variants(family_id)]:
        for name, sides in relations(one):
            try:
                left, right = map(working_value, sides)
            except (NameError, SyntaxError):
                continue  # a symbol that is no step, such as the bore's own coordinate
            scale = UNKNOWN_IN_SI.get((family_id, name), 1.0)
            assert left / right == pytest.approx(scale, rel=0.02), (name, sides)


@pytest.mark.parametrize("family_id, relation, left, right", [
    ("drain-leaks", 0, 0.012, 0.012), ("drain-leaks", 1, 277, 277),
    ("both-cocks-shut", 0, None, None), ("drum-from-glass", 0, None, None)])
def test_relations_are_found_and_read(family_id, relation, left, right):
    sides = [working_value(side) for side in list(relations(example(family_id)))[relation][1]]
    assert sides[0] == pytest.approx(sides[1], rel=5e-3)
    if left is not None:
        assert sides == pytest.approx([left, right], rel=5e-3)


@pytest.mark.parametrize("family_id", FAMILIES)
def test_a_value_without_formula_is_read_from_a_table(family_id):
    for step in family(family_id).value_steps:
        assert step.formula or "table" in step.hint.lower(), step.id


@pytest.mark.parametrize("family_id", FAMILIES)
def test_texts_are_complete(family_id):
    one = family(family_id)
    assert one.marks == sum(step.mark_count for step in one.steps) >= 4
    assert 1 <= one.difficulty <= 3 and one.outcomes and one.trap
    for step in one.steps:
        assert step.hint.endswith((".", "?")), step.id
        assert step.kind == METHOD or step.ask
        assert step.kind != VALUE or step.symbol
    for made in variants(family_id, range(2)):
        assert "{" not in made.text and "{" not in " ".join(
            line for worked in made.hints() for line in (worked.formula, worked.working))
    assert one.misconceptions or one.slips or any(step.options for step in one.steps)


GOOD = """
topic = "t"
lesson = "03"
[[family]]
id = "x"
title = "x"
difficulty = 1
marks = 1
outcomes = ["A"]
trap = "x"
answer = "glass.normal_plate"
text = "{level} {water_density} {steam_density} {glass_density}"
[family.given]
level = { symbol = "h", unit = "mm", decimals = 0, low = 200, high = 300, step = 10 }
water_density = { symbol = "a", unit = "kg/m3", decimals = 0, values = [800] }
steam_density = { symbol = "b", unit = "kg/m3", decimals = 0, values = [20] }
glass_density = { symbol = "c", unit = "kg/m3", decimals = 0, values = [950] }
[family.example]
level = 250
water_density = 800
steam_density = 20
glass_density = 950
[[family.step]]
id = "height"
ask = "height"
marks = "A1"
symbol = "h_g"
unit = "mm"
tolerance = 1.0
hint = "?"
formula = "{level}"
"""
LAST_LINE = 'formula = "{level}"\n'
CHOICE_WITHOUT_SENTENCE = """
[[family.step]]
id = "way"
kind = "choice"
marks = "A0"
ask = "which"
hint = "?"
right = "high"
options = [{ id = "high", text = "HIGH" }, { id = "low", text = "LOW" }]
"""
SLIP_OF_NO_STEP = """
[[family.slip]]
id = "lost"
step = "way"
sentence = "s"
misconception = "MC01"
"""
METHOD_TO_NOWHERE = """
[[family.step]]
id = "last"
kind = "method"
marks = "A0"
hint = "?"
formula = "{level}"
"""


def read(tmp_path, text):
    path = tmp_path / "planted.toml"
    path.write_text(text, encoding="utf-8")
    return bank.read_families(path)


def test_a_sound_family_is_read(tmp_path):
    assert read(tmp_path, GOOD)[0].marks == 1


@pytest.mark.parametrize("old, new, complaint", [
    ("glass.normal_plate", "glass.nothing", "no answer function"),
    ('marks = "A1"', 'marks = "5"', "not written like"),
    ("marks = 1", "marks = 2", "add up to 1 marks and it states 2"),
    ("tolerance = 1.0", "", "needs one of tolerance"),
    ('unit = "mm"\ntolerance', 'unit = "furlongs/bar/bar/"\ntolerance', "no unit"),
    ('formula = "{level}"', 'formula = "{depth}"', "neither given nor an earlier step"),
    ("[family.example]\nlevel = 250", "[family.example]", "lacks level"),
    ('text = "{level}', 'text = "{depth}', "which is not given"),
    ("level = { symbol", "depth = { symbol", "asks for level"),
    ("difficulty = 1", "difficulty = 1\nhardness = 2", "hardness is not known"),
    ('marks = "A1"', 'marks = "A1 B1"', "B mark is that for the direction"),
    ("trap = \"x\"\n", "", "trap"),
    ("values = [950]", 'from = "magic", of = []', "no derived quantity"),
    ("[family.example]", "[family.example", "Correct the file"),
    ("decimals = 0, values = [800]", "decimals = 0", "needs either values"),
    ("values = [800]", 'values = [800], from = "saturated_water_density", of = []',
     "needs either values"),
    ("[family.example]", 'depth = { symbol = "d", unit = "m", decimals = 0, values = [1] }\n'
     "[family.example]", "depth is given and used nowhere"),
    ("level = 250", "level = 250\ndepth = 1", "the example holds depth"),
    ("values = [800]", 'from = "saturated_water_density", of = ["steam_density"]',
     "depends on a quantity that is not given before it"),
    ('id = "height"', 'id = "level"', "the name level stands twice"),
    ('ask = "height"', 'kind = "riddle"\nask = "height"', "of no known kind (value, choice, "
     "method)"),
    ('ask = "height"', 'kind = "choice"\nright = "a"\nask = "height"', "at least two options"),
    ('hint = "?"', 'hint = "?"\ncolour = "red"', "colour is not known"),
    (LAST_LINE, LAST_LINE + CHOICE_WITHOUT_SENTENCE, "option low needs a sentence"),
    (LAST_LINE, LAST_LINE + SLIP_OF_NO_STEP, "slip lost belongs to no value step"),
    (LAST_LINE, LAST_LINE + METHOD_TO_NOWHERE, "leads to no value step"),
])
def test_a_planted_fault_in_the_bank_is_named(tmp_path, old, new, complaint):
    assert old in GOOD
    with pytest.raises(BankError, match="planted.toml") as caught:
        read(tmp_path, GOOD.replace(old, new, 1))
    assert complaint in str(caught.value)


def test_a_range_runs_from_low_to_high_by_its_step():
    """As written in the bank: 5.0 to 18.0 bar by 0.5, and 140 to 320 mm by 5."""
    family = families()["glass-reads-low"]
    pressures, levels = (family.given(name).values for name in ("gauge_pressure", "level"))
    assert pressures[:3] == (5.0, 5.5, 6.0) and pressures[-1] == 18.0 and len(pressures) == 27
    assert levels[:3] == (140.0, 145.0, 150.0) and levels[-1] == 320.0 and len(levels) == 37


@pytest.mark.parametrize("text", ["", "M1 X2", "two", "M1 A"])
def test_marks_that_are_not_written_as_in_a_scheme_are_refused(text):
    with pytest.raises(bank.BankError, match="not written like"):
        marks_by_kind(text)
    assert marks_by_kind("M2 A1 M1") == {"M": 3, "A": 1, "B": 0}
