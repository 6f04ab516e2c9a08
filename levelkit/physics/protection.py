"""Alarms and trips on a level: hysteresis, delay, lock-out, and the time that is left."""

from dataclasses import dataclass

import numpy as np

from ..errors import checked
from .drum_geometry import water_volume
from .level_filter import checked_record


@dataclass(frozen=True, slots=True)
class LevelSwitch:
    """A contact that comes in when a level passes its set point.

    Attributes
    ----------
    name : str
        What it is.
    setpoint : float [m]
        Level at which it comes in.
    falling : bool
        True where it comes in on a falling level, False on a rising one.
    hysteresis : float [m]
        How far the level must come back before it clears.
    delay : float [s]
        How long the level must stay beyond the set point first.
    latching : bool
        True where it stays in until reset by hand (lock-out).
    """

    name: str
    setpoint: float
    falling: bool = True
    hysteresis: float = 0.010
    delay: float = 0.0
    latching: bool = False

    def __post_init__(self):
        checked(f"set point of {self.name}", self.setpoint, -10.0, 10.0, "m", "Give metres.")
        checked(f"hysteresis of {self.name}", self.hysteresis, 0.0, 1.0, "m", "Give metres.")
        checked(f"delay of {self.name}", self.delay, 0.0, 600.0, "s", "Give seconds.")


@dataclass(frozen=True, slots=True)
class SwitchRecord:
    """What a level switch did.

    Attributes
    ----------
    active : array of bool
        Whether it was in, at each instant of the record.
    came_in : tuple of float [s]
        When it came in, each time.
    """

    active: object
    came_in: tuple


@dataclass(frozen=True, slots=True)
class ProtectionLevels:
    """The levels at which something happens, from below to above.

    Attributes
    ----------
    low_low, low, normal, high, high_high : float [m]
        Low-low trip, low alarm, normal level, high alarm, high-high.
    """

    low_low: float
    low: float
    normal: float
    high: float
    high_high: float

    def __post_init__(self):
        below = -10.0
        for name in ("low_low", "low", "normal", "high", "high_high"):
            level = getattr(self, name)
            below = checked(name.replace("_", "-") + " level", level, below, 10.0, "m",
                            "The order from below is low-low, low, normal, high, high-high.")


def boiler_switches(levels, hysteresis=0.010, alarm_delay=3.0, trip_delay=5.0):
    """Return the four switches of a boiler in the order low-low, low, high, high-high.

    Parameters
    ----------
    levels : ProtectionLevels [m]
        Where they act.
    hysteresis : float [m]
        Way back before an alarm clears, 0 to 1.
    alarm_delay, trip_delay : float [s]
        Delays against roll, 0 to 600.

    Returns
    -------
    tuple of LevelSwitch [m, s]
        The low-low trip locks out; the others clear by themselves.

    Raises
    ------
    InputError
        A value outside its range.

    Notes
    -----
    Low-low shuts off the fuel, high-high stops the feed. Sizes are plant-specific.

    References
    ----------
    [PRACTICE-TRIPS] common practice, no source.

    Examples
    --------
    >>> levels = ProtectionLevels(-0.24, -0.16, 0.0, 0.16, 0.24)
    >>> [switch.name for switch in boiler_switches(levels)]
    ['low-low trip', 'low alarm', 'high alarm', 'high-high feed stop']
    """
    return (
        LevelSwitch("low-low trip", levels.low_low, True, hysteresis, trip_delay, True),
        LevelSwitch("low alarm", levels.low, True, hysteresis, alarm_delay),
        LevelSwitch("high alarm", levels.high, False, hysteresis, alarm_delay),
        LevelSwitch("high-high feed stop", levels.high_high, False, hysteresis, trip_delay),
    )


def switch_record(times, levels, switch):
    """Return what a level switch does along a recorded level.

    It comes in once the level has stayed at or beyond the set point for the delay, and
    clears once the level is back by the hysteresis. Straight lines between the records.

    Parameters
    ----------
    times : array [s]
        Increasing instants.
    levels : array [m]
        Level at each, as the switch sees it.
    switch : LevelSwitch [m, s]
        The switch.

    Returns
    -------
    SwitchRecord
        Whether it was in at each instant, and when it came in [s].

    Raises
    ------
    InputError
        Times that do not increase, lengths that differ, a value outside its range.

    References
    ----------
    [PRACTICE-TRIPS] common practice, no source.

    Examples
    --------
    >>> falling = LevelSwitch("low alarm", -0.16, delay=3.0)
    >>> switch_record([0.0, 100.0], [0.0, -0.2], falling).came_in
    (83.0,)
    """
    times, levels = checked_record(times, levels)
    margin = levels - switch.setpoint if switch.falling else switch.setpoint - levels
    back = _stretches_within(times, margin, switch.hysteresis)
    came_in, active, clear = [], np.zeros(times.size, bool), -np.inf
    for begin, end in _stretches_within(times, margin, 0.0):
        if begin < clear or end - begin < switch.delay:
            continue
        came_in.append(begin + switch.delay)
        clear = np.inf
        until = next(until for since, until in back if since <= begin <= until)
        if not switch.latching and (until < times[-1] or margin[-1] > switch.hysteresis):
            clear = until
        active |= (times >= came_in[-1]) & (times < clear)
    return SwitchRecord(active, tuple(came_in))


def _stretches_within(times, margin, limit):
    """Beginnings and ends of the stretches of time in which the margin is at most `limit`."""
    within = margin <= limit
    change = np.flatnonzero(np.diff(within.astype(int)))
    share = (limit - margin[change]) / (margin[change + 1] - margin[change])
    edges = list(times[change] + share * np.diff(times)[change])
    if within[0]:
        edges.insert(0, times[0])
    if within[-1]:
        edges.append(times[-1])
    return [(float(a), float(b)) for a, b in zip(edges[::2], edges[1::2], strict=True)]


def time_to_level(drum, start_level, end_level, water_density, steam_density, net_loss,
                  shrink=0.0):
    """Return how long a drum takes to lose water from one level to a lower one.

    ``t = (rho_f - rho_g) [V(h_1 - shrink) - V(h_2)] / (m_steam - m_feed)``

    Parameters
    ----------
    drum : Drum [m]
        The drum.
    start_level, end_level : float or array [m]
        Levels, the end below the start; they broadcast.
    water_density, steam_density : float [kg/m3]
        Saturated water, and the steam that takes its place; 0 neglects the steam.
    net_loss : float [kg/s]
        Steam less feed, 1e-6 to 1e4.
    shrink : float [m]
        Fall of the level at once as bubbles collapse, 0 to 2.

    Returns
    -------
    float or array [s]
        Time; 0 where the shrink alone takes the level there.

    Raises
    ------
    InputError
        A value outside its range, an end above the start, or no net loss.

    Notes
    -----
    At constant pressure, the steam spaces elsewhere neglected. The steam that fills the
    place of the water shortens the time, by 4 % at 60 bar.

    References
    ----------
    [MENSURATION] volume of the drum; mass balance.

    Examples
    --------
    >>> from levelkit.physics.drum_geometry import Drum
    >>> round(time_to_level(Drum(0.65, 5.6), 0.0, -0.16, 756.1, 0.0, 9.5))
    92
    """
    water = checked("water density", water_density, 1.0, 1100.0, "kg/m3")
    steam = checked("steam density", steam_density, 0.0, water, "kg/m3", "Less than the water.")
    loss = checked("net loss of water", net_loss, 1e-6, 1e4, "kg/s",
                   "Steam less feed must be above 0, or the level does not fall.")
    shrink = checked("shrink", shrink, 0.0, 2.0, "m", "Give metres.")
    start = checked("start level", start_level, -10.0, 10.0, "m", "Give metres.")
    end = checked("end level", end_level, -10.0, float(np.min(start)), "m",
                  "The end lies below the start.")
    lost = water_volume(drum, start - shrink) - water_volume(drum, end)
    time = (water - steam) * np.maximum(lost, 0.0) / loss
    return time if np.ndim(time) else float(time)
