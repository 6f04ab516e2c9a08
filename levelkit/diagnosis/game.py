"""The bench as a game with a hidden fault: log, checks that cost time, decision, score."""

from dataclasses import dataclass, replace
from random import Random

from ..constants import CAUTION
from ..errors import InputError
from .checks import CHECKS, SPREAD
from .correction import agreement, corrected_readings
from .decisions import (
    CARRY_ON,
    DECISIONS,
    consequence,
    is_unsafe,
    proved,
    safe_decisions,
)
from .faulty import DRUM, NO_FAULT, Placed, SettingKey, candidates, reached
from .ranking import with_noise
from .readings import bench_result, movement_word
from .setting import (
    GLASS_A,
    GLASS_B,
    NAMES,
    SEPARATE,
    SHARED,
    BenchSetting,
    healthy_instruments,
)

FOR_SAFE, FOR_CORRECTING, FOR_DIAGNOSIS, FOR_TIME = 40, 20, 30, 10
QUICK, SLOW = 8.0, 30.0
"""Minutes up to which time costs nothing, and from which it is worth nothing."""
LOW_WATER = Placed("level-below-connection", DRUM)
_GLASS_OF_CHECK = {"blow A": GLASS_A, "blow B": GLASS_B}
_WORK = {"equaliser-open": "a transmitter was taken out of service and put back",
         "ports-crossed": "a transmitter was fitted anew", "range-upside-down":
         "a transmitter was ranged anew", "fluid-overfilled": "the U-tube was topped up",
         "drum-isolator-shut": "the impulse lines were worked on", "reference-isolator-shut":
         "the impulse lines were worked on", "chamber-isolated": "a chamber was drained",
         "ball-seated": "a gauge glass was blown through", "both-ways-choked":
         "a gauge glass was repacked", "glass-chilled": "the lagging of a glass was changed",
         "receiver-shunted": "a second indicator was wired in",
         "swell": "steam demand rose sharply", "shrink": "steam demand fell sharply",
         "list": "the ship took a list", "rolling": "she began to roll",
         "reference-leg-flashes": "the pressure fell fast", "cold-drum": "the fires are out, the "
         "boiler is cold"}
_OTHER_WORK = ("the watch was handed over", "a lamp was changed behind glass B",
               "the feed pump was changed over", "soot was blown")


@dataclass(frozen=True, slots=True)
class BenchCase:
    """A hidden state of the boiler.

    Attributes
    ----------
    seed : int
        What it was made from; -1 for one set by the lecturer.
    result : BenchResult
        Everything that is so.
    log : tuple of str
        Events and alarms, oldest first.
    """

    seed: int
    result: object
    log: tuple

    @property
    def faults(self):
        """What is wrong, as Placed; NO_FAULT alone for a sound boiler."""
        return self.result.faults or (NO_FAULT,)


def seeded_bench(boiler, barometer, seed):
    """Return the hidden case of a seed: one fault or two, one in four with low water as well."""
    random = Random(f"bench {seed}")
    setting = BenchSetting(
        boiler, barometer, random.choice((1.0, 1.0, 0.5)) * boiler.working_pressure_bar,
        boiler.levels.normal, round(random.uniform(boiler.levels.low_trip,
                                                   boiler.levels.high_alarm), 3),
        random.choice((60.0, 300.0)), random.choice((SEPARATE, SHARED)))
    pool = candidates(SettingKey(setting))
    own = [item for item in pool if item.place != DRUM]
    kind = random.random()
    if kind < 0.5:
        faults = (random.choice(pool),)
    elif kind < 0.75:
        faults = _two(own, setting, random)
    else:
        faults = (random.choice(own), LOW_WATER)
    return bench_case(setting, faults, seed)


def _two(own, setting, random):
    """Two faults on instruments that have nothing to do with each other."""
    healthy = healthy_instruments(setting, setting.level_before)
    first = random.choice(own)
    touched = set(reached(first, setting.arrangement, healthy))
    others = [item for item in own
              if not touched & set(reached(item, setting.arrangement, healthy))]
    return (first, random.choice(others))


def bench_case(setting, faults, seed=-1):
    """Return a case as set: what is so, and the log that a person finds on arrival."""
    result = bench_result(setting, faults)
    return BenchCase(seed, result, _log(result, Random(f"log {seed}")))


def _log(result, random):
    setting = result.setting
    lines = [f"Last entry: all agreed, {1000 * setting.level_before:.0f} mm, "
             f"{setting.gauge_pressure_bar:.0f} bar."]
    work = [_WORK[item.key] for item in result.faults if item.key in _WORK]
    work.append(random.choice(_OTHER_WORK))
    random.shuffle(work)
    lines += [f"Since then {text}." for text in work]
    alarms = result.alarms
    lines += [text for given, text in (
        (alarms.trip, "ALARM low-low trip: fires out."), (alarms.low, "ALARM low level."),
        (alarms.high, "ALARM high level."), (alarms.bad_input, "ALARM bad input.")) if given]
    return (*lines, f"Controller: {alarms.feed}.")


@dataclass(frozen=True, slots=True)
class Entry:
    """One thing done: what, minutes on the clock after it, and what came of it."""

    kind: str
    what: str
    minutes: float
    said: str


@dataclass(frozen=True, slots=True)
class Score:
    """Points for a play, and why.

    Attributes
    ----------
    points : int
        0 to 100; 0 where a boiler with its level out of sight low was fed or kept on fire.
    parts : tuple of (str, int, int)
        What for, points got, points there were.
    unsafe : bool
        True where the whole is nothing for that reason.
    """

    points: int
    parts: tuple
    unsafe: bool


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
        return self._enter("check", check.name, self._words(key, seen))

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
        self.decisions.append((key, self.zone, bool(self.diagnosed), tuple(self.blown)))
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
        key, blown = (self.decisions[-1][0], self.decisions[-1][3]) if self.decisions else (
            CARRY_ON, ())
        return consequence(key, self.case.result, blown)

    def score(self):
        """Return the points. Whoever decides nothing has carried on."""
        result = self.case.result
        taken = self.decisions or [(CARRY_ON, self.zone, True, tuple(self.blown))]
        unsafe = any(is_unsafe(key, result, blown) for key, _, _, blown in taken)
        first, zone, after_diagnosis, _ = taken[0]
        safe = FOR_SAFE if first in safe_decisions(zone) else 0
        if after_diagnosis:
            safe //= 2
        corrected = FOR_CORRECTING if self.corrected_first else 0
        right = _share_right(self.diagnosed, self.case.faults)
        quick = min(max((SLOW - self.minutes) / (SLOW - QUICK), 0.0), 1.0)
        parts = (("safe action before diagnosis", safe, FOR_SAFE),
                 ("corrected before comparing", corrected, FOR_CORRECTING),
                 ("diagnosis", round(FOR_DIAGNOSIS * right), FOR_DIAGNOSIS),
                 ("time", round(FOR_TIME * quick * (right > 0)), FOR_TIME))
        return Score(0 if unsafe else sum(got for _, got, _ in parts), parts, unsafe)

    def _enter(self, kind, what, said):
        self.entries.append(Entry(kind, what, self.minutes, said))
        return said

    def _words(self, key, seen):
        if key == "readings":
            return "; ".join(f"{name} {reading.text}"
                             for name, reading in self.case.result.readings.items()) + "."
        if key == "later":
            later = replace(self.case.result.setting,
                            seconds=self.case.result.setting.seconds + 600.0)
            after = bench_result(later, self.case.result.faults)
            return "Ten minutes later: " + "; ".join(
                f"{name} {reading.text}" for name, reading in after.readings.items()) + "."
        if key == "movement":
            return "; ".join(f"{name} {movement_word(seen['moves', name])}" for name in NAMES) + "."
        return _unusual(key, seen, self._sound(key))

    def _sound(self, key):
        """The same check on a sound boiler: what a person is used to."""
        return CHECKS[key].observe(bench_result(self.case.result.setting), self._memory)


_PLAIN = {"steam way": "steam blow", "water way": "water blow", "wet": "water at the water cock",
          "line stays": "line left in the empty glass", "valve": "position", "leak": "leaks",
          "way": "LRV below URV", "moves": "moves"}
_UNITS = {"chamber": "\u00b0C", "leg": "\u00b0C", "run": "K warmer than the drum side",
          "fluid": "\u00b0C", "glass temperature": "\u00b0C", "answer to pressure": "mm",
          "loop": "mA", "volts": "V", "supply": "bar", "differential": "kPa", "gas": "mm of gas",
          "list": "\u00b0", "roll": "\u00b0", "assumed density": "kg/m\u00b3"}


def _unusual(key, seen, sound):
    """Say what is not as usual; a single reading's noise of four spreads is not news."""
    news = []
    for (what, where), value in seen.items():
        usual = sound[what, where]
        if abs(value - usual) < 4.0 * SPREAD[what] or what == "differential" and (
                abs(value - usual) < 1.0):
            continue
        if what in _UNITS:
            news.append(f"{where}: {value:.3g} {_UNITS[what]} (usual {usual:.3g})")
        elif what == "mark":
            news.append(f"{where}: filling {100 * value:+.0f} % off its mark")
        else:
            state = "NO" if value < 0.3 else "yes" if value > 0.7 else "weak"
            news.append(f"{where}: {_PLAIN[what]} {state}")
    text = "; ".join(news) if news else "all as usual"
    return f"{CHECKS[key].name}: {text}.".replace("-", "\u2212")


def _share_right(diagnosed, faults):
    """Share of the diagnosis that is right: half for the right place; naming more costs."""
    if not diagnosed:
        return 0.0
    got = 0.0
    for fault in faults:
        if fault in diagnosed:
            got += 1.0
        elif any(item.place == fault.place and item.place != DRUM for item in diagnosed):
            got += 0.5
    return got / max(len(faults), len(diagnosed))


