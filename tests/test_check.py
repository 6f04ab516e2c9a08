"""The check page passes, and each way in which it could lie makes it fail."""

import pytest

from levelkit.check import check_page, page
from levelkit.check.water import computed_value
from levelkit.cli import main
from levelkit.constants import CAUTION


def test_the_page_passes_and_shows_what_was_compared():
    text, passed = check_page()
    assert passed
    assert f"All {len(page.SELECTED)} values agree." in text
    assert len(page.SELECTED) >= 40 and len(set(page.SELECTED)) == len(page.SELECTED)
    assert text.count("  ok\n") == len(page.SELECTED)
    assert text.count("FAILS, as it must") == 1
    for word in ("levelkit 0", "Python 3", "iapws 1", "numpy ", "scipy ", "jupyterlab ",
                 "IAPWS-R7-97", "(seen)", "(from memory)", "(computed outside levelkit)", CAUTION):
        assert word in text


@pytest.mark.parametrize("name", ["IF97-r1-300K-3MPa-v", "GLASS-60bar-circulating",
                                  "EXAMPLE-40bar-cold"])
def test_one_wrong_formula_is_noticed(name):
    text, passed = check_page(
        lambda row: computed_value(row) * (1.05 if row.id == name else 1.0))
    assert not passed
    assert f"1 of {len(page.SELECTED)} values do NOT agree: {name}." in text


def test_a_value_that_is_not_a_number_fails():
    text, passed = check_page(lambda row: float("nan"))
    count = len(page.SELECTED)
    assert not passed and f"{count} of {count} values do NOT agree" in text


def test_a_check_that_cannot_fail_is_noticed():
    text, passed = check_page(lambda row: row.expected)  # agrees with anything, even a lie
    assert not passed
    assert "NOT caught: do not trust this check" in text


def test_exit_status(capsys, monkeypatch):
    assert main(["check"]) == 0
    assert "The planted wrong value was caught." in capsys.readouterr().out
    monkeypatch.setattr("levelkit.check.check_page", lambda: ("a page", False))
    assert main(["check"]) == 1
    assert capsys.readouterr().out == "a page\n"
