"""What can be done first, what a proved glass makes safe, and what then happens to the level."""

from dataclasses import dataclass, replace

import numpy as np

from ..errors import InputError
from ..physics.cock_state import CockState
from ..physics.drum_geometry import level_from_volume, water_volume
from ..physics.glass import drum_level
from .correction import corrected_readings
from .readings import FAILED, FULL, READS, bench_result
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
TO_THE_TRIP = 120.0
"""Time [s] in which the drum without feed goes from normal level to the low-low trip: this
makes the steam flow of the replay. Own choice, for teaching."""
HORIZON, STEP = 480.0, 5.0
OVERFEED, HAND_GAIN = 1.5, 5.0
"""Feed over steam flow when it is raised; change of it for each metre off normal level."""


@dataclass(frozen=True, slots=True)
class Consequence:
    """What happens after a decision if nothing else is done.

    Attributes
    ----------
    times : array [s]
        From the decision on.
    levels : array [m]
        True level.
    feed_share : float [1]
        Feed over steam flow at the beginning.
    events : tuple of (float, str)
        Time [s] and what happened.
    unsafe : bool
        True where a boiler with its level out of sight low was fed, or kept on fire.
    """

    times: object
    levels: object
    feed_share: float
    events: tuple
    unsafe: bool


def lowest_in_sight(result):
    """Return the true level that belongs to the bottom of the visible glass [m]."""
    glass = _sound_glass(result.setting)
    return drum_level(result.setting.boiler.glass.mounting.visible_bottom,
                      glass.drum.water_density, glass.drum.steam_density,
                      glass.fitting.water_density)


def _sound_glass(setting):
    return healthy_instruments(setting, setting.level_before)[GLASS_A]


def out_of_sight_low(result):
    """Return whether the true level stands below what any sound glass shows."""
    return result.true_level < lowest_in_sight(result)


def proves(result, glass):
    """Return what blowing a glass through proves: one of the four words of this module.

    A way that is not clear, a drain or joint that leaks, or a line that stays in the empty
    glass prove nothing.
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
    """Return what the glasses blown so far prove together: low outranks all else."""
    found = {proves(result, glass) for glass in blown}
    for word in (LOW, HIGH, IN_SIGHT):
        if word in found:
            return word
    return NOT_PROVED


def safe_decisions(zone):
    """Return the decisions that are safe with what is proved; best first.

    With nothing proved the standing one is to assume low water.
    """
    return _SAFE[zone]


def feed_share(decision, result, blown=()):
    """Return the feed over the steam flow that a decision gives [1]."""
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
    """
    if not out_of_sight_low(result):
        return False
    return decision not in (ASSUME_LOW, STOP_FIRING) or feed_share(decision, result, blown) > 0


def consequence(decision, result, blown=()):
    """Return how the true level goes on after a decision, by mass balance.

    ``(rho_f - rho_g) dV/dt = feed - steam``; the drum of the boiler makes V into a level
    """
    boiler = result.setting.boiler
    levels, shape = boiler.levels, boiler.drum.shape
    sound = _sound_glass(result.setting).drum
    weight = sound.water_density - sound.steam_density
    steam = weight * (water_volume(shape, levels.normal)
                      - water_volume(shape, levels.low_trip)) / TO_THE_TRIP
    share = feed_share(decision, result, blown)
    trips = _trip_comes(result)
    firing, level = decision != STOP_FIRING, result.true_level
    volume, times, course, events = water_volume(shape, level), [0.0], [level], []
    told = set()

    def tell(moment, text):
        if text not in told:
            told.add(text)
            events.append((moment, text))

    for moment in np.arange(STEP, HORIZON + STEP / 2, STEP):
        if decision == ASSUME_LOW and moment > 60.0:
            if firing:
                tell(moment, "No glass proved within the minute: the fires are out.")
            firing = False
        going = steam if firing else 0.0
        feed = share * steam
        volume = min(max(volume + (feed - going) * STEP / weight, 0.0), shape.volume)
        level = float(level_from_volume(shape, volume))
        times.append(float(moment))
        course.append(level)
        if level <= levels.low_trip and firing:
            if trips:
                firing = False
                tell(moment, "The low-low trip puts the fires out.")
            else:
                tell(moment, "Past the low-low trip level, and the trip does not come: its "
                             "transmitters show more.")
        if level <= boiler.drum.topmost_tube and firing:
            tell(moment, "The topmost tubes are dry, and the fires are in.")
        if level >= boiler.legs.chamber_height:
            tell(moment, "Water goes over with the steam.")
    if is_unsafe(decision, result, blown):
        tell(0.0, "The level was out of sight low, and the boiler was fed or kept on fire.")
    if not events:
        tell(HORIZON, f"After {HORIZON:.0f} s the level stands at {1000 * level:.0f} mm.".replace(
            "-", "\u2212"))
    return Consequence(np.array(times), np.array(course), share, tuple(sorted(events)),
                       is_unsafe(decision, result, blown))


def _trip_comes(result):
    """Whether the voted low-low trip comes with the level just below it, faults as they are."""
    faults = tuple(item for item in result.faults if not item.fault.moves_level)
    low = replace(result.setting, level=result.setting.boiler.levels.low_trip - 0.005)
    return bench_result(low, faults).alarms.trip
