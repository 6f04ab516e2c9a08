"""What can be done first, what a proved glass makes safe, and what then happens to the level."""


import numpy as np

from ..errors import InputError
from ..physics.cock_state import CockState
from ..physics.glass import drum_level
from .correction import corrected_readings
from .readings import FAILED, FULL, READS
from .setting import GLASS_A, GLASS_B, GLASSES, healthy_instruments

CARRY_ON, MEAN, RAISE_FEED = "carry on", "mean", "raise feed"
CUT_FEED, BY_GLASS, ASSUME_LOW, STOP_FIRING = "cut feed", "by glass", "assume low", "stop firing"
DECISIONS = {
    ASSUME_LOW: "Assume low water: feed in hand, no blind feed, ready to stop firing",
    BY_GLASS: "Feed by hand, by the gauge glass",
    CARRY_ON: "Carry on: leave the feed on automatic",
    MEAN: "Feed by the mean of all readings",
    RAISE_FEED: "Raise the feed",
    CUT_FEED: "Stop the feed, ease the load",
    STOP_FIRING: "Stop firing, do not feed, ease steam, report",
}
"""Short name to what a button says."""
NOT_PROVED, IN_SIGHT = "not proved", "proved in sight"
LOW, HIGH = "proved low, out of sight", "proved high, out of sight"
_SAFE = {NOT_PROVED: (ASSUME_LOW, STOP_FIRING), IN_SIGHT: (BY_GLASS, ASSUME_LOW),
         LOW: (STOP_FIRING,), HIGH: (CUT_FEED,)}
OVERFEED, HAND_GAIN = 1.5, 5.0
"""Feed over steam flow when it is raised; change of it for each metre off normal level."""


def lowest_in_sight(result):
    """Return the true level that belongs to the bottom of the visible glass [m].

    Parameters
    ----------
    result : BenchResult [-]
        The bench.

    Returns
    -------
    float [m]
        Collapsed drum level.

    References
    ----------
    [HYDROSTATICS] the balance of a gauge glass.

    Examples
    --------
    >>> from levelkit.diagnosis.example import example_setting
    >>> from levelkit.diagnosis.readings import bench_result
    >>> round(lowest_in_sight(bench_result(example_setting())), 3)
    0.09
    """
    glass = sound_glass(result.setting)
    return drum_level(result.setting.boiler.glass.mounting.visible_bottom,
                      glass.drum.water_density, glass.drum.steam_density,
                      glass.fitting.water_density)


def sound_glass(setting):
    """Return the state of a sound gauge glass.

    Parameters
    ----------
    setting : BenchSetting [m, bar, s]
        The boiler state.

    Returns
    -------
    CockState [-]
        At the level before.

    References
    ----------
    None: a look-up.

    Examples
    --------
    >>> from levelkit.diagnosis.example import example_setting
    >>> round(sound_glass(example_setting()).drum.level, 2)
    0.25
    """
    return healthy_instruments(setting, setting.level_before)[GLASS_A]


def out_of_sight_low(result):
    """Return whether the true level stands below what any sound glass shows.

    Parameters
    ----------
    result : BenchResult [-]
        The bench.

    Returns
    -------
    bool
        True where low water cannot be seen.

    References
    ----------
    [PRACTICE-DIAGNOSIS] what low water is.

    Examples
    --------
    >>> from levelkit.diagnosis.example import example_setting
    >>> from levelkit.diagnosis.readings import bench_result
    >>> out_of_sight_low(bench_result(example_setting(level=0.05)))
    True
    """
    return result.true_level < lowest_in_sight(result)


def proves(result, glass):
    """Return what blowing a glass through proves: one of the four words of this module.

    A way that is not clear, a drain or joint that leaks, or a line that stays in the empty
    glass prove nothing.

    Parameters
    ----------
    result : BenchResult [-]
        The bench.
    glass : str
        A gauge glass.

    Returns
    -------
    str
        NOT_PROVED, IN_SIGHT, LOW or HIGH.

    Raises
    ------
    InputError
        No gauge glass of that name.

    References
    ----------
    [PRACTICE-BLOWING] what a blow-through proves.

    Examples
    --------
    >>> from levelkit.diagnosis.example import example_setting
    >>> from levelkit.diagnosis.readings import bench_result
    >>> proves(bench_result(example_setting()), GLASS_A)
    'proved in sight'
    """
    if glass not in GLASSES:
        raise InputError(f"{glass!r} is no gauge glass: give {GLASS_A!r} or {GLASS_B!r}.")
    state, reading = result.states[glass], result.readings[glass]
    if reading.status == FAILED:
        return NOT_PROVED
    if isinstance(state, CockState) and state.faults != type(state.faults)():
        return NOT_PROVED
    level = state.drum.level if isinstance(state, CockState) else state.level
    if level < lowest_in_sight(result):
        return LOW
    return HIGH if reading.status == FULL else IN_SIGHT


def proved(result, blown):
    """Return what the glasses blown so far prove together: low outranks all else.

    Parameters
    ----------
    result : BenchResult [-]
        The bench.
    blown : tuple of str
        Glasses that were blown through.

    Returns
    -------
    str
        NOT_PROVED, IN_SIGHT, LOW or HIGH.

    References
    ----------
    [PRACTICE-BLOWING] what a blow-through proves.

    Examples
    --------
    >>> from levelkit.diagnosis.example import example_setting
    >>> from levelkit.diagnosis.readings import bench_result
    >>> proved(bench_result(example_setting()), ())
    'not proved'
    """
    found = {proves(result, glass) for glass in blown}
    for word in (LOW, HIGH, IN_SIGHT):
        if word in found:
            return word
    return NOT_PROVED


def safe_decisions(zone):
    """Return the decisions that are safe with what is proved; best first.

    With nothing proved the standing one is to assume low water.

    Parameters
    ----------
    zone : str
        What is proved.

    Returns
    -------
    tuple of str
        Keys of DECISIONS.

    References
    ----------
    [PRACTICE-DIAGNOSIS] first actions.

    Examples
    --------
    >>> safe_decisions(NOT_PROVED)[0]
    'assume low'
    """
    return _SAFE[zone]


def feed_share(decision, result, blown=()):
    """Return the feed over the steam flow that a decision gives [1].

    Parameters
    ----------
    decision : str
        A key of DECISIONS.
    result : BenchResult [-]
        The bench.
    blown : tuple of str
        Glasses that were blown through.

    Returns
    -------
    float [1]
        0 without feed, 1 balanced, up to 1.5.

    References
    ----------
    [PRACTICE-DIAGNOSIS] own choice of gain.

    Examples
    --------
    >>> from levelkit.diagnosis.example import example_setting
    >>> from levelkit.diagnosis.readings import bench_result
    >>> feed_share(ASSUME_LOW, bench_result(example_setting()))
    0.0
    """
    normal = result.setting.boiler.levels.normal
    if decision in (ASSUME_LOW, STOP_FIRING, CUT_FEED):
        return 0.0
    if decision == CARRY_ON:
        return result.alarms.feed_share
    if decision == RAISE_FEED:
        return OVERFEED
    if decision == MEAN:
        level = float(np.mean([reading.shown for reading in result.readings.values()]))
    else:
        glasses = [glass for glass in GLASSES if glass in blown] or [GLASS_A]
        reading = result.readings[glasses[0]]
        level = (corrected_readings(result)[glasses[0]].level if reading.status == READS
                 else reading.shown)
    return float(min(max(1.0 + HAND_GAIN * (normal - level), 0.0), OVERFEED))


def is_unsafe(decision, result, blown=()):
    """Return whether a decision feeds, or keeps on fire, a boiler out of sight low.

    Assuming low water is not: no feed goes in blind, and the fires go out if no glass is
    proved within the minute.

    Parameters
    ----------
    decision : str
        A key of DECISIONS.
    result : BenchResult [-]
        The bench.
    blown : tuple of str
        Glasses that were blown through.

    Returns
    -------
    bool
        True only where the level is out of sight low.

    References
    ----------
    [PRACTICE-DIAGNOSIS] never feed a boiler whose level is out of sight low.

    Examples
    --------
    >>> from levelkit.diagnosis.example import example_setting
    >>> from levelkit.diagnosis.readings import bench_result
    >>> is_unsafe(CARRY_ON, bench_result(example_setting(level=0.05)))
    True
    """
    if not out_of_sight_low(result):
        return False
    return decision not in (ASSUME_LOW, STOP_FIRING) or feed_share(decision, result, blown) > 0
