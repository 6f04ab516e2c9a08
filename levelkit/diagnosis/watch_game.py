"""A watch as a game: the bench of :mod:`game`, while the clock runs and the boiler goes on."""

import numpy as np

from .cases import bench_case
from .consequence import Consequence
from .decisions import CARRY_ON
from .faulty import DRUM, NO_FAULT
from .game import BenchGame
from .scoring import points
from .watch_course import Course


class WatchGame(BenchGame):
    """One play of one watch: checks and waiting take time, and in that time things happen.

    A decision stays in force until another is taken. What was proved before an instrument
    went wrong proves nothing after.
    """

    def __init__(self, watch, boiler, barometer):
        self.watch, self.course = watch, Course(watch, boiler, barometer)
        self._before_trouble = 0
        case = bench_case(self.course.setting, ())
        found = ("An invented watch.", watch.story, *case.log)
        super().__init__(_with(case, self.course.result, found))

    @property
    def order(self):
        """The decision in force."""
        return self.decisions[-1].key if self.decisions else CARRY_ON

    @property
    def over(self):
        """Whether the watch has come to its end."""
        return self.minutes >= self.watch.minutes

    def wait(self, minutes=1.0):
        """Let the clock run; return what happened."""
        self.minutes += minutes
        return self._enter("wait", "Waited", "")

    def log(self):
        """Return everything that the log holds, with minutes."""
        return tuple(f"{news.seconds / 60:.1f} min: {news.text}" for news in self.course.news)

    def replay(self):
        """Return the true level through the watch, and what came of the decisions."""
        course = self.course
        told = [(news.seconds, news.text) for news in course.news if news.outcome]
        level = f"{1000 * course.levels[-1]:.0f}".replace("-", "\u2212")
        told.append((course.seconds, f"The level stands at {level} mm, the fires are "
                                     f"{'in' if course.firing else 'out'}."))
        return Consequence(np.array(course.times), np.array(course.levels), 1.0, tuple(told),
                           course.unsafe)

    def score(self):
        """Return the points; decisions count from the moment that something went wrong."""
        since = (self.course.trouble or 0.0) / 60.0
        named = self.diagnosed and (_instruments(self.diagnosed) or (NO_FAULT,))
        return points(_instruments(self.case.faults), self.decisions[self._before_trouble:],
                      bool(self.corrected_first), named, self.minutes - since,
                      self.course.unsafe)

    def _enter(self, kind, what, said):
        sound = self.course.trouble is None
        news = [] if self.diagnosed else self.course.advance(60.0 * self.minutes, self.order,
                                                             tuple(self.blown))
        self.case = _with(self.case, self.course.result, self.case.log)
        if sound and self.course.trouble is not None:
            self.blown.clear()
            self._before_trouble = len(self.decisions)
        happened = " ".join(item.text for item in news) or ("Nothing new." if not said else "")
        if self.over or kind == "diagnose":
            happened += f" The watch is over. {self.watch.lesson}"
        return super()._enter(kind, what, f"{said} {happened}".strip())


def _instruments(faults):
    """Faults to be found: the drum's own states stand in the log."""
    return tuple(item for item in faults if item.place not in (DRUM, NO_FAULT.place))


def _with(case, result, log):
    return type(case)(case.seed, result, log)
