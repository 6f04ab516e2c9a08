"""The check page passes, and each way in which it could lie makes it fail."""

import re
import time

import pytest

from levelkit.check import check_page
from levelkit.check.computed import computed_value
from levelkit.check.page import PLANTED
from levelkit.check.sections import SECTIONS, evidence
from levelkit.check.values import check_values, discrepancies, documents
from levelkit.cli import main
from levelkit.constants import CAUTION
from levelkit.resources import shipped_folder

COUNT = len(check_values())


def test_the_page_passes_and_shows_what_was_compared():
    began = time.monotonic()
    text, passed = check_page()
    assert time.monotonic() - began < 60
    assert passed
    assert f"All {COUNT} values agree." in text and COUNT >= 700
    assert len(re.findall(r" ok +(seen|from memory|computed) ", text)) == COUNT
    assert text.count("FAILS, as it must") == 1
    for word in ("levelkit 0", "Python 3", "iapws 1", "numpy ", "scipy ", "jupyterlab ",
                 "IAPWS-R7-97", "seen", "from memory", "SELF-CONSISTENT", CAUTION,
                 *(section.upper() for section in SECTIONS)):
        assert word in text


def test_every_line_names_value_unit_difference_tolerance_source_and_how_it_is_known():
    text, _ = check_page()
    line = next(line for line in text.splitlines() if line.startswith("BOOK-SAT-1bar-t_s"))
    assert re.search(r" 99\.60592 +99\.63 C +-2\.4e-02 +1\.1e-01 +ok +from memory +REPRODUCED +"
                     r"STEAM-TABLES-SI +boiling point \(p 1 bar absolute\)", line), line


@pytest.mark.parametrize("name", ["IF97-r1-300K-3MPa-v", "GLASS-60bar-circulating",
                                  "EXAMPLE-40bar-cold", "DB-qs", "RULE-two-means"])
def test_one_wrong_formula_is_noticed(name):
    text, passed = check_page(
        lambda row: computed_value(row) * (1.05 if row.id == name else 1.0))
    assert not passed
    assert f"1 of {COUNT} values do NOT agree: {name}." in text


def test_a_value_that_is_not_a_number_fails():
    text, passed = check_page(lambda row: float("nan"))
    assert not passed and f"{COUNT} of {COUNT} values do NOT agree" in text


def test_a_check_that_cannot_fail_is_noticed():
    text, passed = check_page(lambda row: row.expected)  # agrees with anything, even a lie
    assert not passed
    assert "NOT caught: do not trust this check" in text


@pytest.mark.parametrize("name", discrepancies())
def test_known_discrepancy_is_still_one_and_no_larger_than_explained(name):
    item = discrepancies()[name]
    assert item.stands(computed_value(item.value)), item.explanation
    assert not item.stands(item.value.expected)  # healed: the row has to go
    assert not item.stands(item.value.expected + 1.01 * item.at_most)
    assert not item.stands(float("nan"))
    assert len(item.explanation) > 30 and item.explanation.endswith(".")


def test_a_vanished_discrepancy_fails_the_page():
    name, item = next(iter(discrepancies().items()))
    text, passed = check_page(lambda row: (item.value.expected if row.id == name
                                           else computed_value(row)))
    assert not passed and f"discrepancies are NOT as explained: {name}." in text


def test_every_row_can_be_judged():
    rows = [*check_values().values(), *(item.value for item in discrepancies().values())]
    assert len({row.id for row in rows}) == len(rows)
    listed = documents()
    for row in rows:
        assert row.source in listed, row.id
        assert row.allowed > 0 and row.known in {"seen", "from memory", "computed"}, row.id
    assert {row.topic for row in rows} == {t for topics in SECTIONS.values() for t in topics}
    assert PLANTED in check_values()


def test_published_and_worked_values_lie_in_the_file_of_their_kind():
    from levelkit.check import values

    kinds = {name: {row["seen_or_memory"].startswith("computed") for row in values._rows(name)}
             for name in (values.PUBLISHED, values.WORKED)}
    assert kinds == {values.PUBLISHED: {False}, values.WORKED: {True}}


@pytest.mark.parametrize("section", [part for part in evidence() if part.count("seen") >= 3],
                         ids=lambda part: part.section)
def test_a_value_off_by_ten_tolerances_is_refused(section):
    for row in section.rows:
        computed = computed_value(row)
        assert row.agrees(computed) and not row.agrees(computed + 10 * row.allowed)


def evidence_table():
    """The table of DEVELOPERS.md, made from the data."""
    lines = ["| topic | values | seen | from memory | computed outside | sources |",
             "|---|---:|---:|---:|---:|---|"]
    for part in evidence():
        cells = (part.section, len(part.rows), part.count("seen"), part.count("from memory"),
                 part.count("computed"), ", ".join(part.sources))
        lines.append(f"| {' | '.join(map(str, cells))} |")
    return "\n".join(lines)


def test_the_table_for_developers_is_what_the_data_say():
    guide = (shipped_folder("data").parent / "DEVELOPERS.md").read_text(encoding="utf-8")
    assert evidence_table() in guide, evidence_table()


def test_the_guide_to_the_data_names_every_file():
    folder = shipped_folder("data")
    guide = (folder / "README.md").read_text(encoding="utf-8")
    assert {path.name for path in folder.iterdir()} - {"README.md"} == set(
        re.findall(r"^\| `([\w.]+\.csv)`", guide, re.M))


def test_exit_status(capsys, monkeypatch):
    assert main(["check"]) == 0
    assert "The planted wrong value was caught." in capsys.readouterr().out
    monkeypatch.setattr("levelkit.check.check_page", lambda: ("a page", False))
    assert main(["check"]) == 1
    assert capsys.readouterr().out == "a page\n"
