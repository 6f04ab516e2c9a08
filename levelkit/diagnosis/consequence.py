"""What then happens to the level: a mass balance of the drum after a decision."""

from dataclasses import dataclass, replace

import numpy as np

from ..physics.drum_geometry import level_from_volume, water_volume
from .decisions import ASSUME_LOW, STOP_FIRING, feed_share, is_unsafe, sound_glass
from .readings import bench_result

TO_THE_TRIP = 120.0
"""Time [s] in which the drum without feed goes from normal level to the low-low trip: this
makes the steam flow of the replay. Own choice, for teaching."""
HORIZON, STEP = 480.0, 5.0


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


def steam_for_water(setting):
    """Return what a cubic metre of water weighs more than the steam that takes its place.

    Parameters
    ----------
    setting : BenchSetting [m, bar, s]
        The boiler.

    Returns
    -------
    float [kg/m3]
        ``rho_f - rho_g``.

    References
    ----------
    [IAPWS-R7-97] saturation.

    Examples
    --------
    >>> from levelkit.diagnosis.example import example_setting
    >>> round(steam_for_water(example_setting()), 1)
    724.7
    """
    drum = sound_glass(setting).drum
    return drum.water_density - drum.steam_density


def full_steam_flow(setting):
    """Return the steam flow that takes the drum from normal level to the trip in 120 s.

    Parameters
    ----------
    setting : BenchSetting [m, bar, s]
        The boiler.

    Returns
    -------
    float [kg/s]
        Full load of the bench.

    References
    ----------
    Own choice, for teaching.

    Examples
    --------
    >>> from levelkit.diagnosis.example import example_setting
    >>> 5.0 < full_steam_flow(example_setting()) < 10.0
    True
    """
    shape, levels = setting.boiler.drum.shape, setting.boiler.levels
    water = water_volume(shape, levels.normal) - water_volume(shape, levels.low_trip)
    return steam_for_water(setting) * water / TO_THE_TRIP


def consequence(decision, result, blown=()):
    """Return how the true level goes on after a decision, by mass balance.

    ``(rho_f - rho_g) dV/dt = feed - steam``; the drum of the boiler makes V into a level

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
    Consequence [s, m]
        Level through time, and what happens.

    References
    ----------
    [HYDROSTATICS] mass balance of the drum; own choice of steam flow.

    Examples
    --------
    >>> from levelkit.diagnosis.example import example_setting
    >>> from levelkit.diagnosis.readings import bench_result
    >>> consequence("carry on", bench_result(example_setting())).unsafe
    False
    """
    boiler = result.setting.boiler
    levels, shape = boiler.levels, boiler.drum.shape
    weight, steam = steam_for_water(result.setting), full_steam_flow(result.setting)
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
