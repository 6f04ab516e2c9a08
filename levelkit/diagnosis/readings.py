"""What the bench shows: six readings from one drum, and the alarms that hang on them."""

from dataclasses import dataclass

from ..constants import BAR
from ..errors import InputError
from ..faults import instrument_of
from ..faults.glass_changes import FROTH, LIST, ROLL
from ..physics.cock_state import CockState
from ..physics.glass import GaugeGlassState
from ..physics.signal import FAILURE_HIGH, FAILURE_LOW, damped
from ..physics.transmitter import transmitter_reading
from ..physics.two_fluid_state import TwoFluidState
from ..physics.voting import vote
from .faulty import DRUM, faulty_instruments
from .setting import AIR_RECEIVER, NAMES, TRANSMITTER_1, TRANSMITTER_2

READS, FULL, EMPTY, FAILED = "reads", "full", "empty", "failed"
NUDGE_TIME = 5.0
"""Time [s] that a reading has to follow a small, quick movement."""
DEAD_BAND = 0.010
"""Difference from normal level [m] within which the controller leaves the feed as it is."""

PRESSURE_TREND = {"swell": -1, "reference-leg-flashes": -1, "shrink": 1}
"""Which way drum pressure is moving, by the cause of each of these faults."""
LISTS = {"list": LIST}
ROLLS = {"rolling": ROLL}


@dataclass(frozen=True, slots=True)
class Reading:
    """What one instrument shows.

    Attributes
    ----------
    name : str
        The instrument.
    shown : float [m]
        Level that its pointer, surface or current stands for; may lie beyond its scale.
    status : str
        "reads", "full", "empty" or "failed": at an end of its scale it is no number.
    text : str
        What stands on the dial, with its unit.
    current : float or None [A]
        Of a transmitter.
    """

    name: str
    shown: float
    status: str
    text: str
    current: float | None = None


@dataclass(frozen=True, slots=True)
class Alarms:
    """What hangs on the transmitters.

    Attributes
    ----------
    low, high, bad_input : bool
        Low and high alarm of transmitter 1; a failure signal of either.
    trip : bool
        Low-low trip of the burner: either transmitter at or below it (1oo2), a failed one
        votes to trip.
    feed : str
        What the single-element controller on transmitter 1 does with the feed.
    feed_share : float [1]
        Feed over steam flow that it goes to: 0 shut in, 1 balanced, 1.5 overfeeding.
    """

    low: bool
    high: bool
    bad_input: bool
    trip: bool
    feed: str
    feed_share: float


@dataclass(frozen=True, slots=True)
class BenchResult:
    """One drum and everything that it drives.

    Attributes
    ----------
    setting : BenchSetting
        The boiler.
    faults : tuple of Placed
        What is wrong.
    states : mapping of str to state
        The instruments as they are, by name.
    readings : mapping of str to Reading
        What each shows, by name.
    alarms : Alarms
        Alarms, trip and feed.
    true_level : float [m]
        Collapsed level at the middle of the drum.
    pressure : float [Pa]
        Absolute drum pressure.
    pressure_trend : int
        -1 falling, 0 steady, 1 rising.
    list_angle, roll_angle : float [rad]
        Steady list, and angle of roll to each side.
    """

    setting: object
    faults: tuple
    states: dict
    readings: dict
    alarms: Alarms
    true_level: float
    pressure: float
    pressure_trend: int
    list_angle: float
    roll_angle: float


def bench_result(setting, faults=()):
    """Return everything that a boiler shows with these faults: the one owner of all readings.

    Parameters
    ----------
    setting : BenchSetting [m, bar, s]
        The boiler state.
    faults : tuple of Placed [-]
        What is wrong.

    Returns
    -------
    BenchResult [m, Pa]
        Instruments, readings, alarms.

    References
    ----------
    [PRACTICE-DIAGNOSIS] what hangs on what.

    Examples
    --------
    >>> from levelkit.diagnosis.example import example_setting
    >>> bench_result(example_setting()).readings["transmitter 1"].text
    '12.0 mA'
    """
    states = faulty_instruments(setting, faults)
    readings = {name: read(name, states[name], setting) for name in NAMES}
    keys = [placed.key for placed in faults]
    drum_keys = [placed.key for placed in faults if placed.place == DRUM]
    return BenchResult(
        setting, tuple(faults), states, readings, _alarms(readings, setting.boiler.levels),
        _true_level(states[TRANSMITTER_1], setting, drum_keys),
        states[TRANSMITTER_1].drum.pressure,
        next((PRESSURE_TREND[key] for key in keys if key in PRESSURE_TREND), 0),
        next((LISTS[key] for key in keys if key in LISTS), 0.0),
        next((ROLLS[key] for key in keys if key in ROLLS), 0.0))


def _true_level(state, setting, drum_keys):
    """Level at mid-drum: the ends differ from it under list and roll."""
    if "level-above-glass" in drum_keys:
        return setting.boiler.glass.mounting.steam_connection * 1.3
    if "froth" in drum_keys:  # what is left of it when the bubbles are counted out
        return (1.0 - FROTH) * state.drum.level
    return setting.level if not drum_keys or set(drum_keys) & {*LISTS, *ROLLS} else (
        state.drum.level)


def read(name, state, setting):
    """Return what an instrument shows in a state.

    Parameters
    ----------
    name : str
        The instrument.
    state : any [-]
        Of the instrument.
    setting : BenchSetting [m, bar, s]
        The boiler state.

    Returns
    -------
    Reading [m]
        Where its pointer or surface stands, and what is on the dial.

    References
    ----------
    None: each instrument has its own formula in physics.

    Examples
    --------
    >>> from levelkit.diagnosis.example import example_setting
    >>> setting = example_setting()
    >>> read("glass A", faulty_instruments(setting)["glass A"], setting).status
    'reads'
    """
    if isinstance(state, (CockState, GaugeGlassState)):
        return _read_glass(name, state, setting.boiler.glass.mounting)
    shown = seen_level(state)
    if shown is None:
        return Reading(name, state.legs.weir_height, FAILED, "FLUID BLOWN")
    level = shown.share * state.legs.weir_height
    if shown.response_time > NUDGE_TIME:
        # it has not yet followed the level all the way
        before = seen_level(instrument_of(state).at_share(
            state, setting.level_before / state.legs.weir_height)).share * state.legs.weir_height
        level = damped(before, level, setting.seconds, min(shown.response_time, 1e6))
    if isinstance(state, TwoFluidState):
        status = FULL if level > state.legs.weir_height else EMPTY if level < 0 else READS
        return Reading(name, level, status, _mm(level) if status == READS else status.upper())
    return _read_transmitter(name, state, level)


def seen_level(state):
    """Return what an instrument shows, or None for a U-tube whose fluid has been blown over.

    Parameters
    ----------
    state : any [-]
        Of the instrument.

    Returns
    -------
    Shown or None [1]
        Share of its height.

    References
    ----------
    None: each instrument has its own formula in physics.

    Examples
    --------
    >>> from levelkit.diagnosis.example import example_setting
    >>> state = faulty_instruments(example_setting())["transmitter 1"]
    >>> round(seen_level(state).share, 3)
    0.5
    """
    try:
        return instrument_of(state).shown(state)
    except InputError:
        if isinstance(state, TwoFluidState):  # the only refusal of a state built from a sound one
            return None
        raise


def _read_glass(name, state, mounting):
    shown = instrument_of(state).shown(state)
    height = shown.share * mounting.steam_connection
    if shown.failed:
        return Reading(name, 0.0, FAILED, "BROKEN")
    if height >= mounting.visible_top:
        return Reading(name, mounting.visible_top, FULL, "FULL")
    if height <= mounting.visible_bottom:
        return Reading(name, mounting.visible_bottom, EMPTY, "EMPTY")
    return Reading(name, height, READS, _mm(height))


def _read_transmitter(name, state, level):
    result, weir = transmitter_reading(state), state.legs.weir_height
    if name == AIR_RECEIVER:
        signal = result.air_signal / BAR
        status = EMPTY if level < 0 else FULL if level > weir else READS
        return Reading(name, level, status, f"{signal:.2f} bar")
    current = (result.current if result.response_time <= NUDGE_TIME or result.current < 3.6e-3
               else 0.004 + 0.016 * level / weir)
    status = (FAILED if result.band in (FAILURE_LOW, FAILURE_HIGH)
              else EMPTY if level < 0 else FULL if level > weir else READS)
    return Reading(name, level, status, f"{1e3 * current:.1f} mA", current)


def _mm(level):
    return f"{1000 * level:.0f} mm".replace("-", "\u2212")


def _alarms(readings, levels):
    one, two = readings[TRANSMITTER_1], readings[TRANSMITTER_2]
    good = [one.status != FAILED, two.status != FAILED]
    tripped = vote("1oo2", [one.shown, two.shown], levels.low_trip, good)
    if not good[0]:
        feed, share = "bad input: the valve holds its last position", 1.0
    elif one.shown < levels.normal - DEAD_BAND:
        feed, share = "opening the feed valve", 1.5
    elif one.shown > levels.normal + DEAD_BAND:
        feed, share = "shutting the feed in", 0.0
    else:
        feed, share = "feed follows steam", 1.0
    return Alarms(good[0] and one.shown <= levels.low_alarm,
                  good[0] and one.shown >= levels.high_alarm, not all(good), tripped.trips,
                  feed, share)
