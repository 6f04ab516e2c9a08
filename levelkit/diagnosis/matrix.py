"""The matrix of all faults: what each indicator shows, computed at several pressures and levels."""

from dataclasses import dataclass, replace

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
from .alarm_column import alarm_words
from .faulty import COMMON_LEG, DRUM, SettingKey, candidates
from .movement import movement
from .readings import FAILED as OUT_OF_ORDER
from .readings import NUDGE_TIME, READS, bench_result
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
    alarms : tuple of str
        What it does to alarms, trip and feed at working pressure.
    """

    number: int
    key: str
    name: str
    cells: dict
    hides: tuple
    alarms: tuple

    def words(self, column):
        """The words of a column at all pressures and levels, each once."""
        found = {}
        for cell in self.cells[column]:
            later = f", then {cell.later}" if cell.later != UNAFFECTED else ""
            found[cell.word + later] = None
        return tuple(found)


def instrument_of_column(column, fault_key):
    """Return the instrument that stands for a column: air and compensation have their own.

    Parameters
    ----------
    column : str
        One of COLUMNS.
    fault_key : str
        Of the catalogue.

    Returns
    -------
    str
        Name of an instrument.

    References
    ----------
    None: a look-up.

    Examples
    --------
    >>> instrument_of_column("transmitter", "air-failed")
    'air receiver'
    """
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
    """Return what a fault does to an instrument, read on the bench just after it came.

    Parameters
    ----------
    setting : BenchSetting [m, bar, s]
        The boiler state.
    fault : Fault [-]
        Of the catalogue.
    instrument : str
        Its name.

    Returns
    -------
    Cell [m]
        Word, creep, shift and error.

    References
    ----------
    [PRACTICE-DIAGNOSIS] a change counts from 1 % of the height.

    Examples
    --------
    >>> from levelkit.diagnosis.example import example_setting
    >>> from levelkit.faults import fault_named
    >>> matrix_cell(example_setting(), fault_named("equaliser-open"), TRANSMITTER_1).word
    'full at every level'
    """
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


def fault_matrix(boiler, barometer, pressures=PRESSURES_BAR, shares=LEVEL_SHARES,
                 faults=FAULTS):
    """Return one row for each of the faults of the catalogue, everything computed.

    All remote instruments hang on one leg, so that every fault has its place.

    Parameters
    ----------
    boiler : Boiler [m, K]
        One of the ship's boilers.
    barometer : float [Pa]
        Pressure of the air.
    pressures : sequence of float [bar]
        Gauge pressures.
    shares : sequence of float [1]
        Levels over the chamber height.
    faults : sequence of Fault [-]
        All of the catalogue, or some.

    Returns
    -------
    tuple of Row [m]
        In the order of the catalogue.

    References
    ----------
    [PRACTICE-DIAGNOSIS] the faults.

    Examples
    --------
    >>> from levelkit.scenario import load_ship
    >>> ship = load_ship()
    >>> boiler, air = ship.boilers["water_tube"], ship.barometer
    >>> fault_matrix(boiler, air, (60.0,), (0.5,), FAULTS[38:39])[0].words("transmitter")
    ('failure signal',)
    """
    settings = []
    for bar in pressures:
        for share in shares:
            level = share * boiler.legs.chamber_height
            settings.append(BenchSetting(boiler, barometer, bar, level, level, 0.0, SHARED))
    return tuple(_row(fault, settings, alarm_words(boiler, barometer, fault.key))
                 for fault in faults)


def _row(fault, settings, alarms):
    cells, hides = {}, []
    for column in COLUMNS:
        instrument = instrument_of_column(column, fault.key)
        cells[column] = tuple(matrix_cell(setting, fault, instrument) for setting in settings)
        sound = healthy_instruments(settings[0], settings[0].level_before)[instrument]
        if hides_low_water(fault, sound):
            hides.append(column)
    return Row(fault.number, fault.key, fault.name, cells, tuple(hides), alarms)
