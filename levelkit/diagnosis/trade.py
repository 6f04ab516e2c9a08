"""The trade's table of faults, and where the computed matrix says otherwise."""

import tomllib
from functools import lru_cache
from pathlib import Path

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
from .alarm_column import (
    ALARM_COLUMN,
    BAD_INPUT,
    FALSE_HIGH,
    FALSE_LOW,
    HELD,
    HIGH_CALL,
    HIGH_LOST,
    LOW_BLIND,
    LOW_CALL,
    LOW_LATE,
    NO_CHANGE,
    OVERFEEDS,
    SHUT_IN,
    TRIP_BLIND,
    TRIPPED,
)
from .matrix import COLUMNS, RIGHT

_ALLOWED = {
    "A": {UNAFFECTED}, "H": {HIGH, FULL}, "L": {LOW, EMPTY}, "F": {FROZEN}, "full": {FULL},
    "empty": {EMPTY}, "lost": {FAILED}, "wrong way": {REVERSED}, "slow": {SLUGGISH},
    "right": {RIGHT, UNAFFECTED}, "small": {UNAFFECTED, HIGH, LOW, RIGHT}, "creeps H": {HIGH},
    "either": {HIGH, LOW, FULL, EMPTY, RIGHT}, "fault": {FAILED},
}
_ALARMS = {
    "A": lambda words: words == {NO_CHANGE},
    "mixed": lambda words: words != {NO_CHANGE},
    "trip": lambda words: TRIPPED in words,
    "high": lambda words: HIGH_CALL in words,
    "shut in": lambda words: SHUT_IN in words,
    "overfeeds": lambda words: OVERFEEDS in words,
    "false": lambda words: words & {LOW_CALL, HIGH_CALL, FALSE_LOW, FALSE_HIGH},
    "late": lambda words: words & {LOW_LATE, LOW_BLIND},
    "blind": lambda words: {LOW_BLIND, TRIP_BLIND} <= words,
    "useless": lambda words: TRIP_BLIND in words,
    "no response": lambda words: {LOW_BLIND, HIGH_LOST} <= words,
    "wrong way": lambda words: {LOW_BLIND, HIGH_LOST} <= words,
    "high lost": lambda words: HIGH_LOST in words,
    "bad input": lambda words: BAD_INPUT in words,
    "mismatch": lambda words: words == {NO_CHANGE},  # other receivers show it, nothing else does
    "fail position": lambda words: HELD in words,
}
"""What the computed words must hold for each of the trade's codes."""


@lru_cache(maxsize=1)
def trade_table():
    """Return the trade's table by fault number: a code for each column, and what is said of it.

    Codes: A unaffected, H high, L low, F frozen and so on; `unsafe` names the columns that
    the trade marks as hiding low water; `difference` explains, column by column, where the
    computed matrix says otherwise.
    """
    with open(Path(__file__).with_name("trade_table.toml"), "rb") as file:
        return {row["number"]: row for row in tomllib.load(file)["row"]}


def differences(rows):
    """Return where the computed matrix and the trade's table disagree.

    Parameters
    ----------
    rows : sequence of Row [-]
        As computed.

    Returns
    -------
    list of tuple of str [-]
        Number of the fault, column, the trade's code, computed words.

    References
    ----------
    [PRACTICE-DIAGNOSIS] the table.

    Examples
    --------
    >>> differences(())
    []
    """
    found = []
    for row in rows:
        told = trade_table()[row.number]
        for column in COLUMNS:
            code = told[column]
            if not all(_agrees(code, cell) for cell in row.cells[column]):
                found.append((row.number, column, code, "; ".join(row.words(column))))
        missing = [code for code in told[ALARM_COLUMN] if not _ALARMS[code](set(row.alarms))]
        if missing:
            found.append((row.number, ALARM_COLUMN, ", ".join(missing), ", ".join(row.alarms)))
        for column in sorted(set(COLUMNS) & (set(row.hides) ^ set(told["unsafe"]))):
            says = "hides low water" if column in row.hides else "does not hide low water"
            found.append((row.number, column, "unsafe" if column in told["unsafe"] else "safe",
                          says))
    return found


def _agrees(code, cell):
    if code == "creeps H":
        return HIGH in (cell.word, cell.later) or cell.word == FULL
    if code == "right":
        return abs(cell.error) < 0.01 or cell.word in _ALLOWED[code]
    if code in ("H", "L") and cell.word == RIGHT:  # its shift just makes up for an older error
        return (cell.shift > 0) == (code == "H")
    return cell.word in _ALLOWED[code]
