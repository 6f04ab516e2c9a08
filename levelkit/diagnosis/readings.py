"""What the bench shows: six readings from one drum, and the alarms that hang on them."""

from dataclasses import dataclass, replace

from ..constants import BAR
from ..errors import InputError
from ..faults import instrument_of
from ..faults.glass_changes import FROTH, LIST, ROLL
from ..physics.cock_state import CockState
from ..physics.glass import GaugeGlassState
from ..physics.signal import FAILURE_HIGH, FAILURE_LOW, damped
from ..physics.transmitter import transmitter_reading
from ..physics.transmitter_state import PNEUMATIC, TransmitterState
from ..physics.two_fluid_state import TwoFluidState
from ..physics.voting import vote
from .faulty import DRUM, faulty_instruments
from .setting import AIR_RECEIVER, GLASSES, NAMES, TRANSMITTER_1, TRANSMITTER_2

READS, FULL, EMPTY, FAILED = "reads", "full", "empty", "failed"
LIVELY, STILL, SLUGGISH, REVERSED = "lively", "still", "sluggish", "moves the wrong way"
NUDGE = 0.010
"""Small rise and fall of the level [m] in service, by which a reading shows that it lives."""
NUDGE_TIME = 5.0
"""Time [s] that a reading has to follow it."""
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
    """Return everything that a boiler shows with these faults: the one owner of all readings."""
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
    """Return what an instrument shows in a state."""
    if isinstance(state, (CockState, GaugeGlassState)):
        return _read_glass(name, state, setting.boiler.glass.mounting)
    shown = _seen(state)
    if shown is None:
        return Reading(name, state.legs.weir_height, FAILED, "FLUID BLOWN")
    level = shown.share * state.legs.weir_height
    if shown.response_time > NUDGE_TIME:
        # it has not yet followed the level all the way
        before = _seen(instrument_of(state).at_share(
            state, setting.level_before / state.legs.weir_height)).share * state.legs.weir_height
        level = damped(before, level, setting.seconds, min(shown.response_time, 1e6))
    if isinstance(state, TwoFluidState):
        status = FULL if level > state.legs.weir_height else EMPTY if level < 0 else READS
        return Reading(name, level, status, _mm(level) if status == READS else status.upper())
    return _read_transmitter(name, state, level)


def _seen(state):
    """What an instrument shows, or None for a U-tube whose fluid has been blown over."""
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


def movement(name, state, setting):
    """Return which share of a small, quick movement of the level an instrument shows [1].

    1 is lively, 0 still, negative the wrong way; what follows late shows only a part of it.
    """
    if isinstance(state, GaugeGlassState):
        return 1.0
    if isinstance(state, TransmitterState) and state.receiver != PNEUMATIC and (
            transmitter_reading(state).band in (FAILURE_LOW, FAILURE_HIGH)):
        return 0.0
    look, seen = instrument_of(state), _seen(state)
    if seen is None:
        return 0.0
    height = (state.fitting.steam_connection if isinstance(state, CockState)
              else state.legs.weir_height)
    level = seen.true_share * height
    ends = []
    for step in (NUDGE, -NUDGE):
        share = min(level + step, height) / height
        ends.append(read(name, look.at_share(state, share), replace(setting, seconds=1e7)).shown)
    shift = (ends[0] - ends[1]) / (min(level + NUDGE, height) - (level - NUDGE))
    return float(shift * damped(0.0, 1.0, NUDGE_TIME, min(seen.response_time, 1e6)
                                if seen.response_time > NUDGE_TIME else 0.0))


def movement_word(share):
    """Return "lively", "sluggish", "still" or "moves the wrong way"."""
    if share < -0.3:
        return REVERSED
    return LIVELY if share > 0.5 else SLUGGISH if share > 0.15 else STILL


def proved_level(result, glass):
    """Return what blowing a glass through proves: the level [m] if it lies in the window.

    Raises InputError where nothing is proved: a way is choked, or the glass is broken.
    """
    if glass not in GLASSES:
        raise InputError(f"{glass!r} is no gauge glass; give one of {', '.join(GLASSES)}.")
    state = result.states[glass]
    if isinstance(state, GaugeGlassState):
        return state.level
    faults = state.faults
    broken = result.readings[glass].status == FAILED
    if broken or faults.steam_choke > 0 or faults.water_choke > 0:
        raise InputError(f"{glass} proves nothing: a way is not clear, or the glass is gone.")
    return state.drum.level
