"""The computed matrix on paper: as plain text, and as cells for a printed sheet."""

from ..faults.fault import (
    EMPTY,
    FAILED,
    FROZEN,
    FULL,
    HIGH,
    LOW,
    REVERSED,
    SLUGGISH,
    UNAFFECTED,
)
from .alarm_column import ALARM_COLUMN
from .matrix import COLUMNS, LEVEL_SHARES, PRESSURES_BAR, RIGHT
from .trade import trade_table

SIGNS = {UNAFFECTED: "·", HIGH: "H", LOW: "L", FULL: "top", EMPTY: "bot", FROZEN: "F",
         SLUGGISH: "S", REVERSED: "R", FAILED: "X", RIGHT: "="}
"""What stands in a cell of the printed sheet."""
MEANING = {SIGNS[HIGH]: "reads high", SIGNS[LOW]: "reads low", SIGNS[UNAFFECTED]: "as without it",
           SIGNS[FROZEN]: "frozen", SIGNS[SLUGGISH]: "sluggish", SIGNS[REVERSED]: "moves the "
           "wrong way", SIGNS[FULL]: "at the top, still", SIGNS[EMPTY]: "at the bottom, still",
           SIGNS[FAILED]: "no reading or a failure signal", SIGNS[RIGHT]: "its shift just makes up "
           "for an older error", "↑ ↓": "and creeps that way while the fault lasts"}
_CREEPS = {HIGH: "↑", LOW: "↓", UNAFFECTED: ""}


def text_matrix(rows):
    """Return the matrix as lines of plain text; a star marks low water hidden.

    Parameters
    ----------
    rows : sequence of Row [-]
        As computed.

    Returns
    -------
    list of str [-]
        A heading and one line for each fault.

    References
    ----------
    None: a change of form.

    Examples
    --------
    >>> text_matrix(())[0].split()[:2]
    ['no', 'fault']
    """
    heads = ("no", "fault", *COLUMNS, ALARM_COLUMN)
    lines = [heads]
    for row in rows:
        lines.append((str(row.number), row.name, *(
            "; ".join(row.words(column)) + (" *" if column in row.hides else "")
            for column in COLUMNS), ", ".join(row.alarms)))
    widths = [max(len(line[i]) for line in lines) for i in range(len(heads))]
    return ["  ".join(text.ljust(width) for text, width in zip(line, widths, strict=True)).rstrip()
            for line in lines]


def sheet_cells(row):
    """Return the signs of one fault for a printed sheet.

    Parameters
    ----------
    row : Row [-]
        Of the computed matrix.

    Returns
    -------
    dict of str to list of str [-]
        By column: one sign for each pressure and level.

    References
    ----------
    None: a change of form.

    Examples
    --------
    >>> from levelkit.diagnosis.matrix import Cell, Row
    >>> cell = Cell(HIGH, LOW, 0.05, 0.05)
    >>> row = Row(19, "k", "n", {column: (cell,) for column in COLUMNS}, (), ())
    >>> sheet_cells(row)["transmitter"]
    ['H↓']
    """
    return {column: [SIGNS[cell.word] + _CREEPS[cell.later] for cell in row.cells[column]]
            for column in COLUMNS}


def sheet_data(rows):
    """Return everything that the printed sheet shows, as plain data.

    Parameters
    ----------
    rows : sequence of Row [-]
        Of the computed matrix.

    Returns
    -------
    dict [bar, mm]
        Heads, signs, rows, and the differences from the trade's table with their reasons.

    References
    ----------
    [PRACTICE-DIAGNOSIS] the trade's table.

    Examples
    --------
    >>> sheet_data(())["pressures"]
    ['60 bar', '30 bar', '10 bar']
    """
    notes = []
    for row in rows:
        for column, reason in trade_table()[row.number].get("difference", {}).items():
            notes.append([str(row.number), row.name, column, reason])
    return {
        "pressures": [f"{bar:.0f} bar" for bar in PRESSURES_BAR],
        "levels": [f"{100 * share:.0f}%" for share in LEVEL_SHARES],
        "columns": list(COLUMNS), "signs": [[sign, text] for sign, text in MEANING.items()],
        "rows": [{"number": row.number, "name": row.name, "cells": sheet_cells(row),
                  "hides": list(row.hides), "alarms": ", ".join(row.alarms)} for row in rows],
        "notes": notes}
