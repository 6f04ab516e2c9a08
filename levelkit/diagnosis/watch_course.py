"""How the boiler goes on through a watch: events, alarms, feed, fires, water in the drum.

``(rho_f - rho_g) dV/dt = feed - steam``; the feed follows the controller, or the decision in
force, and both read the instruments as they are. Instrument faults are counted from the first
of them: the level of that moment is where something frozen stays.
"""

from dataclasses import dataclass, replace

from ..physics.drum_geometry import level_from_volume, water_volume
from .consequence import full_steam_flow, steam_for_water
from .decisions import (
    ASSUME_LOW,
    BY_GLASS,
    CARRY_ON,
    IN_SIGHT,
    MEAN,
    STOP_FIRING,
    feed_share,
    out_of_sight_low,
    proved,
)
from .faulty import DRUM
from .readings import bench_result
from .setting import GLASSES, BenchSetting

STEP = 5.0
BY_THE_GLASSES = (BY_GLASS, MEAN, ASSUME_LOW)
"""Decisions for which the glasses are looked at all the time."""
PATIENCE = 60.0
"""Time [s] after which the fires are put out if low water is assumed and no glass is proved."""


@dataclass(frozen=True, slots=True)
class News:
    """Something for the log.

    Attributes
    ----------
    seconds : float [s]
        On the clock of the watch.
    text : str
        What is written down.
    outcome : bool
        Whether it is what came of a decision, and not an event or alarm.
    """

    seconds: float
    text: str
    outcome: bool = False


class Course:
    """A boiler on watch; time only goes forward.

    Attributes
    ----------
    result : BenchResult
        What is so now.
    seconds : float [s]
        On the clock.
    news : list of News
        Everything since the beginning.
    times, levels : list of float [s, m]
        The true level through time.
    firing, unsafe : bool
        Whether the fires are in; whether the boiler was ever fed, or kept on fire, with its
        level out of sight low.
    trouble : float or None [s]
        When the first fault of an instrument came.
    """

    def __init__(self, watch, boiler, barometer):
        self.watch = watch
        normal = boiler.levels.normal
        self.setting = BenchSetting(boiler, barometer, watch.gauge_pressure_bar, normal, normal,
                                    0.0, watch.arrangement)
        self.result = bench_result(self.setting)
        self.seconds, self.news, self.times, self.levels = 0.0, [], [0.0], [normal]
        self.firing, self.unsafe, self.trouble = True, False, None
        self._faults, self._load, self._todo = (), 1.0, list(watch.events)
        self._feed = full_steam_flow(self.setting)
        self._volume = water_volume(boiler.drum.shape, normal)
        self._calls, self._told, self._order = frozenset(), set(), (CARRY_ON, 0.0)

    def advance(self, until, order, blown):
        """Go on to a time [s] with a decision in force; return the news of that stretch."""
        if order != self._order[0]:
            self._order = (order, self.seconds)
        first = len(self.news)
        while self.seconds < min(until, 60.0 * self.watch.minutes) - 1e-9:
            step = min(STEP, until - self.seconds)
            self._happen()
            self._look(order, blown, order in BY_THE_GLASSES)
            self._flow(step)
        self._happen()
        self._look(order, blown, True)
        return self.news[first:]

    def _tell(self, text, outcome=False):
        self.news.append(News(self.seconds, text, outcome))

    def _tell_once(self, text):
        if text not in self._told:
            self._told.add(text)
            self._tell(text, True)

    def _happen(self):
        """Events that are due."""
        while self._todo and 60.0 * self._todo[0].minute <= self.seconds + 1e-9:
            event = self._todo.pop(0)
            self._tell(event.text)
            self._load = self._load if event.load is None else event.load
            kept = tuple(item for item in self._faults if item != event.ends)
            self._faults = kept if event.begins is None else (*kept, event.begins)
            begins_here = event.begins is not None and event.begins.place != DRUM
            if begins_here and self.trouble is None:
                self.trouble = self.seconds
                self.setting = replace(self.setting, level_before=self.setting.level)

    def _look(self, order, blown, glasses):
        """What the instruments show now, and the alarms that come with it.

        Faults of glasses are left out where nobody looks: no alarm hangs on a glass, and to
        follow a choked one takes long.
        """
        since = 0.0 if self.trouble is None else self.seconds - self.trouble
        self.setting = replace(self.setting, seconds=since)
        faults = self._faults if glasses else tuple(item for item in self._faults
                                                    if item.place not in GLASSES)
        self.result = bench_result(self.setting, faults)
        alarms = self.result.alarms
        calls = frozenset(text for text, on in (
            ("ALARM low level.", alarms.low), ("ALARM high level.", alarms.high),
            ("ALARM bad input.", alarms.bad_input)) if on)
        for text in sorted(calls - self._calls):
            self._tell(text)
        self._calls = calls
        if self.firing and not alarms.trip and (
                self.setting.level <= self.setting.boiler.levels.low_trip):
            self._tell_once("Past the low-low trip level, and the trip does not come: its "
                            "transmitters show more.")
        if self.firing and alarms.trip:
            self.firing = False
            self._tell_once("The low-low trip puts the fires out.")
        if self.firing and order == STOP_FIRING:
            self.firing = False
            self._tell_once("The fires are out.")
        waited = self.seconds - self._order[1]
        if self.firing and order == ASSUME_LOW and waited > PATIENCE and (
                proved(self.result, blown) != IN_SIGHT):
            self.firing = False
            self._tell_once("No glass proved within the minute: the fires are out.")
        self._feed_now(order, blown)

    def _feed_now(self, order, blown):
        """What the decision in force feeds, and whether that is safe."""
        share, full = feed_share(order, self.result, blown), full_steam_flow(self.setting)
        if order != CARRY_ON or not self.result.alarms.bad_input:
            self._feed = full * (share * self._load if self.firing else max(share - 1.0, 0.0))
        if out_of_sight_low(self.result) and (
                self._feed > 0.0 or self.firing and order != ASSUME_LOW):
            self.unsafe = True
            self._tell_once("The level was out of sight low, and the boiler was fed or kept on "
                            "fire.")

    def _flow(self, step):
        """Water through one step of time, and what it does."""
        boiler = self.setting.boiler
        steam = full_steam_flow(self.setting) * self._load if self.firing else 0.0
        shape = boiler.drum.shape
        change = (self._feed - steam) * step / steam_for_water(self.setting)
        self._volume = min(max(self._volume + change, 0.0), shape.volume)
        level = float(level_from_volume(shape, self._volume))
        self.seconds += step
        self.times.append(self.seconds)
        self.levels.append(level)
        self.setting = replace(self.setting, level=level)
        if level <= boiler.drum.topmost_tube and self.firing:
            self._tell_once("The topmost tubes are dry, and the fires are in.")
        if level >= boiler.legs.chamber_height:
            self._tell_once("Water goes over with the steam.")
