"""The matrix of all faults: what each indicator shows, computed, beside the trade's table."""

import tomllib
from dataclasses import dataclass, replace
from functools import lru_cache
from pathlib import Path

from ..faults import FAULTS, hides_low_water, instrument_of
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
from ..faults.observed import NOTICE
from .faulty import COMMON_LEG, DRUM, SettingKey, candidates
from .readings import FAILED as OUT_OF_ORDER
from .readings import NUDGE_TIME, READS, bench_result, movement
from .setting import (
    AIR_RECEIVER,
    GLASS_A,
    SHARED,
    TRANSMITTER_1,
    TRANSMITTER_2,
    U_TUBE,
    BenchSetting,
    healthy_instruments,
)

GLASS_COLUMN, TWO_FLUID_COLUMN, REMOTE_COLUMN = "direct glass", "two-fluid", "transmitter"
COLUMNS = (GLASS_COLUMN, TWO_FLUID_COLUMN, REMOTE_COLUMN)
PRESSURES_BAR = (60.0, 30.0, 10.0)
LEVEL_SHARES = (0.3, 0.7)
"""Gauge pressures [bar], and levels as a share of the chamber height, of the whole matrix."""
LONG_ENOUGH = 60.0
RIGHT = "right"

_ALLOWED = {
    "A": {UNAFFECTED}, "H": {HIGH, FULL}, "L": {LOW, EMPTY}, "F": {FROZEN}, "full": {FULL},
    "empty": {EMPTY}, "lost": {FAILED}, "wrong way": {REVERSED}, "slow": {SLUGGISH},
    "right": {RIGHT, UNAFFECTED}, "small": {UNAFFECTED, HIGH, LOW, RIGHT}, "creeps H": {HIGH},
    "either": {HIGH, LOW, FULL, EMPTY, RIGHT}, "fault": {FAILED},
}


@dataclass(frozen=True, slots=True)
class Cell:
    """What one fault does to one indicator at one pressure and level.

    Attributes
    ----------
    word : str
        As in the fault catalogue: "high", "low", "frozen" and so on.
    later : str
        Which way it creeps while the fault lasts: "high", "low" or "unaffected".
    shift, error : float [m]
        Reading with the fault less reading without it, and less the true level.
    """

    word: str
    later: str
    shift: float
    error: float


@dataclass(frozen=True, slots=True)
class Row:
    """One fault in the matrix.

    Attributes
    ----------
    number : int
        In the catalogue.
    key, name : str
        Of the fault.
    cells : mapping of str to tuple of Cell
        By column, one for each pressure and level.
    hides : tuple of str
        Columns on which it may hide low water, computed.
    """

    number: int
    key: str
    name: str
    cells: dict
    hides: tuple

    def words(self, column):
        """The words of a column at all pressures and levels, each once."""
        found = {}
        for cell in self.cells[column]:
            later = f", then {cell.later}" if cell.later != UNAFFECTED else ""
            found[cell.word + later] = None
        return tuple(found)


def instrument_of_column(column, fault_key):
    """Return the instrument that stands for a column: air and compensation have their own."""
    if column == REMOTE_COLUMN:
        return {"air-failed": AIR_RECEIVER, "tube-leaks": AIR_RECEIVER,
                "pressure-input-failed": TRANSMITTER_2}.get(fault_key, TRANSMITTER_1)
    return GLASS_A if column == GLASS_COLUMN else U_TUBE


def _placed(setting, fault_key, instrument):
    """The fault at the place where it meets an instrument, or anywhere else if it never does."""
    found = [item for item in candidates(SettingKey(setting)) if item.key == fault_key]
    own = [item for item in found if item.place in (instrument, DRUM, COMMON_LEG)]
    return (own or found)[0]


def matrix_cell(setting, fault, instrument):
    """Return what a fault does to an instrument, read on the bench just after it came."""
    now = replace(setting, seconds=0.0)
    placed = _placed(now, fault.key, instrument)
    sound, faulty = bench_result(now), bench_result(now, (placed,))
    before, after = sound.readings[instrument], faulty.readings[instrument]
    notice = NOTICE * setting.boiler.legs.chamber_height
    shift, error = after.shown - before.shown, after.shown - faulty.true_level
    watch = fault.watch or LONG_ENOUGH
    later = bench_result(replace(now, seconds=watch), (placed,)).readings[instrument]
    creep = later.shown - after.shown
    word = _word(instrument, after, faulty, shift, notice)
    if abs(error) < notice <= abs(before.shown - sound.true_level) and word in (HIGH, LOW):
        word = RIGHT
    drifts = watch > 0 and abs(creep) > notice and after.status == READS
    return Cell(word, (HIGH if creep > 0 else LOW) if drifts else UNAFFECTED, shift, error)


def _word(instrument, after, faulty, shift, notice):
    if after.status == OUT_OF_ORDER:
        return FAILED
    moves = movement(instrument, faulty.states[instrument], faulty.setting)
    end = {"full": FULL, "empty": EMPTY}.get(after.status)
    if moves < -0.3:
        return REVERSED
    if abs(moves) < 0.15:
        if end:
            return end
        if abs(shift) < notice:
            slow = _is_slow(instrument, faulty)
            return SLUGGISH if slow else FROZEN
    if abs(shift) >= notice:
        return HIGH if shift > 0 else LOW
    return SLUGGISH if moves < 0.5 else UNAFFECTED


def _is_slow(instrument, faulty):
    """Whether it stands still only because it takes longer than a nudge lasts."""
    state = faulty.states[instrument]
    return NUDGE_TIME < instrument_of(state).shown(state).response_time < 1e6


def fault_matrix(boiler, barometer, pressures=PRESSURES_BAR, shares=LEVEL_SHARES):
    """Return one row for each of the faults of the catalogue, everything computed.

    All remote instruments hang on one leg, so that every fault has its place.
    """
    settings = []
    for bar in pressures:
        for share in shares:
            level = share * boiler.legs.chamber_height
            settings.append(BenchSetting(boiler, barometer, bar, level, level, 0.0, SHARED))
    return tuple(_row(fault, settings) for fault in FAULTS)


def _row(fault, settings):
    cells, hides = {}, []
    for column in COLUMNS:
        instrument = instrument_of_column(column, fault.key)
        cells[column] = tuple(matrix_cell(setting, fault, instrument) for setting in settings)
        sound = healthy_instruments(settings[0], settings[0].level_before)[instrument]
        if hides_low_water(fault, sound):
            hides.append(column)
    return Row(fault.number, fault.key, fault.name, cells, tuple(hides))


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
    """Return (number, column, trade's code, computed words) wherever the two disagree."""
    found = []
    for row in rows:
        told = trade_table()[row.number]
        for column in COLUMNS:
            code = told[column]
            if not all(_agrees(code, cell) for cell in row.cells[column]):
                found.append((row.number, column, code, "; ".join(row.words(column))))
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


def printed_matrix(rows):
    """Return the matrix as lines of plain text, ready to print: a star marks low water hidden."""
    heads = ("no", "fault", *COLUMNS)
    lines = [heads]
    for row in rows:
        lines.append((str(row.number), row.name, *(
            "; ".join(row.words(column)) + (" *" if column in row.hides else "")
            for column in COLUMNS)))
    widths = [max(len(line[i]) for line in lines) for i in range(len(heads))]
    return ["  ".join(text.ljust(width) for text, width in zip(line, widths, strict=True)).rstrip()
            for line in lines]


