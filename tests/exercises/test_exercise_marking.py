"""Marks by step: method apart from accuracy, direction apart from size, one slip costs once."""

import pytest

from levelkit.errors import InputError
from levelkit.exercises import example, mark, with_data

GLASS = example("glass-reads-low")  # 186.4 mm; 13.6 mm low
PLATE = example("from-the-connection")


def marked(answers, one=GLASS):
    return mark(one, answers)


def test_right_answers_in_any_dress():
    for height, error in (("186,4 mm", "low 13,6 mm"), ("0.1864 m", "-13.6"),
                          ("186.0", "13.9 mm low"), ("18.64 cm", "\u22120.0136 m")):
        assert marked({"height": height, "error": error}).complete, (height, error)


def test_tolerance_is_the_one_stated():
    right = GLASS.solution.steps["height"] * 1000
    assert marked({"height": f"{right + 0.499:.4f}"}).step("height").verdict == "right"
    assert marked({"height": f"{right + 0.501:.4f}"}).step("height").verdict != "right"
    assert marked({"height": f"{right - 0.501:.4f}"}).step("height").verdict != "right"


def test_a_slip_costs_once_and_the_rest_follows_through():
    result = marked({"height": "214.6 mm", "error": "high 14.6 mm"})
    assert result.slip == "ratio_inverted" and result.misconceptions == ("MC02",)
    assert result.step("error").verdict == "followed"
    assert result.step("error").marks == 2 and result.step("height").marks == 1
    assert result.marks == 6


def test_follow_through_needs_the_own_value():
    result = marked({"height": "150 mm", "error": "low 30 mm"})
    assert result.step("height").verdict == "wrong" and result.step("error").marks == 1
    assert "does not follow from your own earlier value" in result.step("error").message
    assert marked({"height": "150 mm", "error": "low 50 mm"}).step("error").marks == 2


def test_an_own_value_that_cannot_exist_does_not_stop_the_marking():
    result = marked({"height": "9999 m", "level": "1", "above_end": "127.8 mm"}, PLATE)
    assert result.step("above_end").verdict == "right"
    assert "cannot exist" in result.messages[0]


@pytest.mark.parametrize("text, other, written", [
    ("186.4 m", "mm", "m"), ("0.1864 mm", "m", "mm"), ("18.64 mm", "cm", "mm")])
def test_a_unit_slip_is_named_and_keeps_the_method(text, other, written):
    step = marked({"height": text}).step("height")
    assert step.verdict == "unit" and step.misconception == "MC18" and step.marks == 1
    assert f"fit in {other}" in step.message and f"as {written}." in step.message


def test_a_number_without_unit_that_fits_another_unit_is_named():
    step = marked({"height": "0.1864"}).step("height")
    assert step.verdict == "unit" and "asked for is mm" in step.message


def test_follow_through_ignores_a_unit_slip():
    assert marked({"height": "186.4 m", "error": "low 13.6 mm"}).step("error").marks == 2


def test_gauge_for_absolute_is_named():
    table = example("gauge-to-table")  # 7.0 bar gauge, 1010 mbar
    assert mark(table, {"pressure": "7.0 bar"}).step("pressure").misconception == "MC09"
    assert mark(table, {"pressure": "8.01 bar g"}).step("pressure").slip == "reference"
    assert mark(table, {"pressure": "8.01 bar abs"}).step("pressure").marks == 2
    assert mark(table, {"temperature": "165 °C"}).step("temperature").misconception == "MC09"
    after = mark(table, {"pressure": "7.0 bar", "temperature": "165 °C"})
    assert after.step("temperature").verdict == "followed" and after.misconceptions == ("MC09",)


def test_another_barometer_is_still_the_gauge_pressure():
    table = example("gauge-to-table")  # 8.01 bar: less 0.98 bar is no listed slip
    step = mark(table, {"pressure": "7.03 bar"}).step("pressure")
    assert step.slip == "reference" and "gauge pressure" in step.message and step.marks == 1
    leg = example("leg-flashes")  # 3.75 bar gauge
    assert mark(leg, {"begins": "4.765 bar g"}).step("begins").misconception == "MC09"
    assert mark(leg, {"begins": "5.9 bar"}).step("begins").verdict == "wrong"


def test_sign_and_size_are_marked_apart():
    errors = example("error-grows-with-pressure")
    step = mark(errors, {"error_1": "24.3 mm"}).step("error_1")
    assert step.verdict == "sign" and step.marks == 0 and step.misconception == "MC13"


def test_method_marks_hang_on_the_value_that_shows_the_method():
    assert marked({"height": "186.4 mm"}).step("balance").marks == 3
    assert marked({"height": "214.6 mm"}).step("balance").marks == 3  # the balance was right
    assert marked({"height": "200 mm"}).step("balance").marks == 0
    assert marked({}).marks == 0


def test_blank_and_unreadable_entries_say_so_and_keep_what_was_typed():
    result = marked({"height": "  ", "error": "fairly low"})
    assert "Nothing is entered" in result.step("height").message
    assert "holds no number" in result.step("error").message
    assert [step.entry for step in result.steps if step.step == "error"] == ["fairly low"]


@pytest.mark.parametrize("how", ["id", "letter", "number", "text"])
def test_a_choice_is_taken_by_id_letter_number_or_text(how):
    one = example("why-the-glass-reads-low")
    options = next(step for step in one.steps if step.id == "taller").options
    place = [option for option, _ in options].index("drum")
    typed = {"id": "drum", "letter": f"{'abc'[place]})", "number": str(place + 1),
             "text": options[place][1].upper()}[how]
    assert mark(one, {"taller": typed}).step("taller").marks == 1


def test_a_choice_not_offered_gets_a_sentence():
    step = mark(example("why-the-glass-reads-low"), {"taller": "the left one"}).step("taller")
    assert "not one of the answers offered" in step.message


def test_an_unknown_step_is_the_callers_fault():
    with pytest.raises(InputError, match="it asks for height, error"):
        mark(GLASS, {"depth": "1"})


def test_no_message_holds_a_right_number():
    for height in ("200 mm", "214.6", "179.7", "186.4 m", "5 bar", "", "1e400", "12"):
        text = " ".join(marked({"height": height, "error": "high 99 mm"}).messages)
        assert "186.4" not in text.replace(height, "") and "13.6" not in text


def test_own_data_can_be_marked_too():
    cold = with_data("glass-reads-low", gauge_pressure=7.0, glass_temperature=60, level=200)
    assert mark(cold, {"height": cold.answer("height"), "error": cold.answer("error")}).complete


def test_a_follow_through_of_nought_is_followed_and_not_called_a_slip():
    """Rounding leaves 1e-14 mm after the slip; the cadet types the 0 that is printed."""
    question = example("one-leg-warm-below")
    result = mark(question, {"differential_change": "0 Pa", "error": "0 mm",
                             "per_metre": "0 mm/m"})
    assert result.step("differential_change").slip == "cancels"
    assert result.step("error").verdict == "followed" and not result.step("error").slip
    assert "direction" not in result.step("error").message
    assert {mark(question, {"differential_change": "0 Pa", "error": f"0 mm{word}"})
            .step("error").marks for word in ("", " low", " high")} == {3}
    assert mark(question, {"error": "0 mm"}).step("error").slip == "no_error"


def test_a_wrong_direction_is_named_in_the_words_of_the_question():
    one = example("read-and-compare")
    right = one.answer("error")
    turned = right.replace("LOW", "HIGH") if "LOW" in right else right.replace("HIGH", "LOW")
    step = mark(one, {"error": turned}).step("error")
    assert step.message == ("The size is right; the direction is not. Is less shown than the drum "
                            "holds, or more?")
    assert step.slip == "direction" and step.marks < step.of


def test_where_nothing_is_expected_something_earns_no_mark_for_its_direction():
    question = example("one-leg-warm-below")
    answers = {"differential_change": "0 Pa", "error": "77 mm low"}
    assert mark(question, answers).step("error").marks == 0
