"""The bench as a game with a hidden fault: checks that cost time, decision, diagnosis."""

from dataclasses import dataclass
from random import Random

from ..constants import CAUTION
from ..errors import InputError
from .agreement import agreement
from .checks import CHECKS
from .consequence import consequence
from .correction import corrected_readings
from .decisions import DECISIONS, is_unsafe, proved, safe_decisions
from .observing import with_noise
from .scoring import NOTHING, Taken, points
from .setting import GLASS_A, GLASS_B
from .wording import words_of_check

_GLASS_OF_CHECK = {"blow A": GLASS_A, "blow B": GLASS_B}


@dataclass(frozen=True, slots=True)
class Entry:
    """One thing done: what, minutes on the clock after it, and what came of it."""

    kind: str
    what: str
    minutes: float
    said: str


class BenchGame:
    """One play of one case; it only ever grows."""

    def __init__(self, case):
        self.case, self.entries = case, []
        self.seen, self.minutes = {}, 0.0
        self._random, self._memory = Random(f"noise {case.seed}"), {}
        self.checked, self.blown = [], []
        self.corrected_first = None
        self.diagnosed, self.decisions = (), []
        self.check("readings")

    def check(self, key):
        """Do a check: time passes, observations come in; return what they say."""
        if key not in CHECKS:
            raise InputError(f"There is no check {key!r}; choose one of {', '.join(CHECKS)}.")
        check = CHECKS[key]
        exact = check.observe(self.case.result, self._memory)
        seen = with_noise(exact, self._random)
        self.seen |= seen
        self.checked.append(key)
        if key in _GLASS_OF_CHECK:
            self.blown.append(_GLASS_OF_CHECK[key])
        self.minutes += check.minutes
        return self._enter("check", check.name, words_of_check(
            key, seen, self.case.result, self._memory))

    def correct(self):
        """Reduce every reading to drum level; return the corrected readings by name."""
        if self.corrected_first is None:
            self.corrected_first = True
        self.minutes += 1.0
        self._enter("correct", "Reduced to drum level", "Every reading is now a drum level.")
        return corrected_readings(self.case.result)

    def compare(self):
        """Compare the readings; with corrected ones this is the agreement test."""
        if not self.corrected_first:
            self.corrected_first = False
            return self._enter("compare", "Compared as read", "Readings of a glass and of a "
                               "transmitter are not the same thing: correct them first.")
        found = agreement(corrected_readings(self.case.result),
                          self.case.result.setting.arrangement)
        parts = [f"{' + '.join(party)} ({count} witness{'es' * (count != 1)})"
                 for party, count in zip(found.parties, found.witnesses, strict=True)]
        silent = f" No number: {', '.join(found.no_number)}." if found.no_number else ""
        return self._enter("compare", "Compared", f"Agree: {'; '.join(parts)}.{silent}")

    @property
    def zone(self):
        """What the glasses blown so far prove."""
        return proved(self.case.result, self.blown)

    def decide(self, key):
        """Take a decision; return what it means, with the caution."""
        if key not in DECISIONS:
            raise InputError(f"There is no decision {key!r}; choose one of "
                             f"{', '.join(DECISIONS)}.")
        good = key in safe_decisions(self.zone)
        self.decisions.append(Taken(key, self.zone, bool(self.diagnosed), tuple(self.blown)))
        verdict = (f"Safe: the level is {self.zone}." if good else
                   f"Not the safe one: the level is {self.zone}.")
        return self._enter("decide", DECISIONS[key], f"{verdict} {CAUTION}")

    def diagnose(self, *placed):
        """Name what is wrong, one fault or two; ends the play. Return what was wrong."""
        if not placed:
            raise InputError("No fault is named; give one or two, or NO_FAULT.")
        if self.corrected_first is None:
            self.corrected_first = False
        self.diagnosed = tuple(placed)
        truth = "; ".join(item.text for item in self.case.faults)
        return self._enter("diagnose", " and ".join(item.text for item in placed),
                           f"It was: {truth}.")

    def replay(self):
        """Return the consequence of the last decision; without one the feed stayed as it was."""
        last = self.decisions[-1] if self.decisions else NOTHING
        return consequence(last.key, self.case.result, last.blown)

    def score(self):
        """Return the points."""
        result = self.case.result
        unsafe = any(is_unsafe(item.key, result, item.blown)
                     for item in self.decisions or [NOTHING])
        return points(result.faults, self.decisions, bool(self.corrected_first), self.diagnosed,
                      self.minutes, unsafe)

    def _enter(self, kind, what, said):
        self.entries.append(Entry(kind, what, self.minutes, said))
        return said
