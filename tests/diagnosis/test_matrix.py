"""The matrix of 45 faults, computed, beside what the trade's table says."""

import pytest
from bench_states import BOILER, SHIP

from levelkit.diagnosis.matrix import (
    COLUMNS,
    LEVEL_SHARES,
    PRESSURES_BAR,
    differences,
    fault_matrix,
    printed_matrix,
    trade_table,
)


@pytest.fixture(scope="module")
def rows():
    return fault_matrix(BOILER, SHIP.barometer)


def test_all_45_faults_at_three_pressures_and_two_levels(rows):
    assert [row.number for row in rows] == list(range(1, 46))
    assert len(PRESSURES_BAR) == 3 and len(LEVEL_SHARES) == 2
    assert all(len(row.cells[column]) == 6 for row in rows for column in COLUMNS)


def test_every_difference_from_the_trade_is_explained_and_no_other(rows):
    found = {(number, column) for number, column, *_ in differences(rows)}
    explained = {(number, column) for number, row in trade_table().items()
                 for column in row.get("difference", {})}
    assert found == explained
    for row in trade_table().values():
        assert all(len(text) > 40 for text in row.get("difference", {}).values())


def test_nothing_that_the_trade_marks_unsafe_is_computed_as_safe(rows):
    for row in rows:
        assert set(trade_table()[row.number]["unsafe"]) <= set(row.hides), row.name


def test_a_wrong_table_is_found(rows):
    number = 19
    told = trade_table()[number]
    before = dict(told)
    try:
        told["transmitter"] = "L"
        assert (number, "transmitter", "L", "high, then low; high") in differences(rows)
    finally:
        told.update(before)


def test_the_print_has_a_line_for_every_fault(rows):
    lines = printed_matrix(rows)
    assert len(lines) == 46 and lines[0].startswith("no")
    assert "frozen" in lines[25] and "*" in lines[23]
