"""The matrix of 45 faults, computed, beside what the trade's table says."""

import pytest
from bench_states import BOILER, SHIP

from levelkit.diagnosis.alarm_column import (
    ALARM_COLUMN,
    HIGH_LOST,
    LOW_BLIND,
    NO_CHANGE,
    SHUT_IN,
    TRIP_BLIND,
    alarm_words,
)
from levelkit.diagnosis.matrix import COLUMNS, LEVEL_SHARES, PRESSURES_BAR, fault_matrix
from levelkit.diagnosis.printed_matrix import SIGNS, sheet_data, text_matrix
from levelkit.diagnosis.trade import differences, trade_table
from levelkit.faults import FAULTS


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
    lines = text_matrix(rows)
    assert len(lines) == 46 and lines[0].startswith("no")
    assert "frozen" in lines[25] and "*" in lines[23]


def test_every_row_of_alarms_and_feed_is_compared_with_the_trade(rows):
    """Three rows have no entry in the trade's table; all others have, and are held against it."""
    empty = [number for number, row in trade_table().items() if not row[ALARM_COLUMN]]
    assert empty == [22, 35, 44]
    told = {number: row[ALARM_COLUMN] for number, row in trade_table().items()}
    assert sum(codes == ["A"] for codes in told.values()) == 12
    for row in rows:
        assert row.alarms and (row.alarms == (NO_CHANGE,) or NO_CHANGE not in row.alarms)


def test_a_wrong_entry_of_alarms_is_found(rows):
    told = trade_table()[19]
    before = list(told[ALARM_COLUMN])
    try:
        told[ALARM_COLUMN] = ["overfeeds"]
        assert (19, ALARM_COLUMN, "overfeeds") in [item[:3] for item in differences(rows)]
    finally:
        told[ALARM_COLUMN] = before


@pytest.mark.parametrize("key, words", [
    ("reference-leg-lost", {LOW_BLIND, TRIP_BLIND, SHUT_IN}), ("fluid-lost", {NO_CHANGE}),
    ("steam-way-choked", {NO_CHANGE}), ("drum-isolator-shut", {LOW_BLIND, HIGH_LOST})])
def test_alarms_that_a_watch_would_expect(key, words):
    assert words <= set(alarm_words(BOILER, SHIP.barometer, key))


def test_the_printed_sheet_has_every_cell_and_every_difference(rows):
    data = sheet_data(rows)
    assert len(data["rows"]) == len(FAULTS) == 45
    assert all(len(row["cells"][column]) == 6 for row in data["rows"] for column in COLUMNS)
    found = {(str(number), column) for number, column, *_ in differences(rows)}
    assert {(number, column) for number, _, column, _ in data["notes"]} == found
    assert len(set(SIGNS.values())) == len(SIGNS)
    assert data["rows"][18]["cells"]["transmitter"][0].startswith("H")
