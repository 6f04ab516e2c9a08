"""What a fault does to alarms, trip and feed: found by moving the level, not looked up.

The fault comes at normal level and a minute passes, or the time after which it shows. The
level is then put just past each set level, where a sound boiler gives its alarm within seconds.
"""

from dataclasses import dataclass, replace

from ..faults import fault_named
from .faulty import COMMON_LEG, DRUM, SettingKey, candidates
from .readings import NUDGE_TIME, bench_result
from .setting import SHARED, TRANSMITTER_1, BenchSetting

ALARM_COLUMN = "alarms and feed"
PAST = 0.010
"""How far [m] past a set level the level is put."""
LOW_LATE, LOW_BLIND = "low alarm late", "low alarm blind"
TRIP_BLIND, HIGH_LOST = "trip blind", "high alarm lost"
FALSE_LOW, FALSE_HIGH = "false low alarm", "false high alarm"
TRIPPED, FALSE_TRIP = "low-low trip comes", "false trip"
LOW_CALL, HIGH_CALL = "low alarm comes", "high alarm comes"
BAD_INPUT = "bad-input alarm"
SHUT_IN, OVERFEEDS, HELD = "feed shut in", "overfeeds", "feed valve held"
NO_CHANGE = "unaffected"


@dataclass(frozen=True, slots=True)
class _Probe:
    """Alarms with the level at one place: low, high, bad input, trip, share of the feed."""

    low: bool
    high: bool
    bad_input: bool
    trip: bool
    feed: float


def alarm_words(boiler, barometer, fault_key):
    """Return what a fault does to alarms, trip and feed at working pressure.

    All remote instruments hang on one leg, the fault sits where it meets transmitter 1 if it
    can. Where the fault moves the level itself, what alarms and feed then do is told;
    otherwise, what they do differently from a sound boiler's.

    Parameters
    ----------
    boiler : Boiler [m, K]
        One of the ship's boilers.
    barometer : float [Pa]
        Pressure of the air.
    fault_key : str
        Of the catalogue.

    Returns
    -------
    tuple of str
        Words of this module; "unaffected" alone if there is nothing to tell.

    Raises
    ------
    InputError
        An unknown fault.

    References
    ----------
    [PRACTICE-DIAGNOSIS] one-out-of-two trip, single-element feed control.

    Examples
    --------
    >>> from levelkit.scenario import load_ship
    >>> ship = load_ship()
    >>> alarm_words(ship.boilers["water_tube"], ship.barometer, "wire-broken")[0]
    'bad-input alarm'
    """
    fault, normal = fault_named(fault_key), boiler.levels.normal
    seconds = max(60.0, fault.watch)
    setting = BenchSetting(boiler, barometer, boiler.working_pressure_bar, normal, normal,
                           seconds, SHARED)
    pool = [item for item in candidates(SettingKey(setting)) if item.key == fault.key]
    placed = next((item for item in pool if item.place in (TRANSMITTER_1, COMMON_LEG, DRUM)),
                  pool[0])
    at_normal = _probe(setting, (placed,))
    if placed.place == DRUM and fault.moves_level:
        words = [word for word, on in (
            (TRIPPED, at_normal.trip), (LOW_CALL, at_normal.low), (HIGH_CALL, at_normal.high),
            (SHUT_IN, at_normal.feed == 0.0), (OVERFEEDS, at_normal.feed > 1.0)) if on]
    else:
        words = _compared(setting, placed, at_normal)
    return tuple(words) or (NO_CHANGE,)


def _compared(setting, placed, now):
    levels = setting.boiler.levels
    low = replace(setting, level=levels.low_alarm - PAST)
    called = _probe(low, (placed,)).low and _probe(replace(low, seconds=NUDGE_TIME), (placed,)).low
    trip = _probe(replace(setting, level=levels.low_trip - PAST), (placed,))
    high = _probe(replace(setting, level=levels.high_alarm + PAST), (placed,))
    words = [word for word, on in (
        (BAD_INPUT, now.bad_input), (FALSE_TRIP, now.trip), (FALSE_LOW, now.low),
        (FALSE_HIGH, now.high), (LOW_BLIND, not trip.low), (LOW_LATE, trip.low and not called),
        (TRIP_BLIND, not trip.trip), (HIGH_LOST, not high.high)) if on]
    feed = (HELD if now.bad_input else SHUT_IN if now.feed == 0.0 else
            OVERFEEDS if now.feed > 1.0 else None)
    return words + ([feed] if feed else [])


def _probe(setting, faults):
    alarms = bench_result(setting, faults).alarms
    return _Probe(alarms.low, alarms.high, alarms.bad_input, alarms.trip, alarms.feed_share)
