"""A control: typed numbers with comma or point, refusals in a sentence, nothing lost."""

import pytest

from levelkit.errors import InputError
from levelkit.panels.control import Control


@pytest.fixture()
def control():
    return Control("Drum pressure", "bar g", 0, 100, 0.5, 7, 1)


def type_in(control, text):
    control.typed = {"text": text, "serial": id(text)}


@pytest.mark.parametrize("text, number", [("12.5", 12.5), ("12,5", 12.5), (" 60 ", 60.0),
                                          ("+3", 3.0), ("1e1", 10.0), ("0,25", 0.25)])
def test_typed_numbers_are_taken(control, text, number):
    type_in(control, text)
    assert control.value == number and control.message == ""


@pytest.mark.parametrize("text, part", [
    ("", "Nothing is typed"), ("abc", "not one number"), ("1.2.3", "not one number"),
    ("1,234,5", "not one number"), ("1e400", "too large"), ("101", "outside 0.0 to 100.0 bar g"),
    ("\u22125", "outside 0.0 to 100.0 bar g"), ("nan", "not one number"),
    ("7 bar", "not one number")])
def test_bad_entries_get_a_sentence_and_the_last_value_stays(control, text, part):
    type_in(control, text)
    assert part in control.message and control.value == 7


def test_a_good_number_clears_the_message(control):
    type_in(control, "200")
    type_in(control, "20")
    assert control.message == "" and control.value == 20


def test_a_slider_value_is_rounded_but_never_clamped(control):
    control.value = 10.000000000000002
    assert control.value == 10.0
    with pytest.raises(InputError, match="outside"):
        control.value = 100.5


def test_decimal_comma_is_shown(control):
    control.decimal_mark = ","
    assert control.shown() == "7,0 bar g"
