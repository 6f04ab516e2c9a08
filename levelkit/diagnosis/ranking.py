"""Which fault explains what was seen: signatures worked out, not looked up.

For every fault that the boiler can have, every check is worked out at a row of drum levels.
The level is not known to the watch, so each fault is given the level that suits it best:

``fit = min over level of sum [(seen - expected) / spread]^2``
"""

from dataclasses import dataclass, replace
from random import Random

import numpy as np

from .checks import CHECKS, SPREAD
from .faulty import NO_FAULT, Placed, SettingKey, candidates, is_out_of_sight
from .readings import bench_result

SEPARABLE = 5.0
"""Two signatures this many spreads apart, or more, are told apart: fewer than one in a
hundred readings would then point to the wrong one of the two."""
KNOTS = (0.04, 0.2, 0.4, 0.6, 0.8, 0.95)
FINE = 92


@dataclass(frozen=True, slots=True)
class Suspect:
    """A fault and how well it explains what was seen.

    Attributes
    ----------
    placed : Placed
        Fault and place; NO_FAULT for a sound boiler.
    misfit : float [1]
        Mean square deviation in spreads: about 1 or less where it explains everything.
    level : float [m]
        Drum level that suits it best.
    """

    placed: Placed
    misfit: float
    level: float


class Signatures:
    """The signatures of all single faults of one boiler state, worked out when asked for."""

    def __init__(self, setting):
        self.setting = setting
        self.suspects = (NO_FAULT, *candidates(SettingKey(setting)))
        weir = setting.boiler.legs.chamber_height
        self.levels = tuple(share * weir for share in KNOTS)
        self._results, self._blocks, self._tables, self._memory = {}, {}, {}, {}

    def expected(self, suspect, check):
        """Return what a check shows for a suspect: names, and an array of levels by names."""
        key = (suspect, check)
        if key not in self._blocks:
            rows = [CHECKS[check].observe(result, self._memory)
                    for result in self._at_levels(suspect)]
            names = tuple(rows[0])
            self._blocks[key] = (names, np.array([[row[name] for name in names]
                                                  for row in rows]))
        return self._blocks[key]

    def _at_levels(self, suspect):
        if suspect not in self._results:
            levels = self.levels
            if is_out_of_sight(suspect.key):
                levels = (self.setting.level_before,)  # the fault says where the level is
            faults = () if suspect == NO_FAULT else (suspect,)
            self._results[suspect] = [bench_result(replace(self.setting, level=level), faults)
                                      for level in levels]
        return self._results[suspect]

    def table(self, suspect, checks):
        """Return fine levels, names, spreads and expected values of several checks together."""
        key = (suspect, checks)
        if key not in self._tables:
            self._tables[key] = self._made_table(suspect, checks)
        return self._tables[key]

    def _made_table(self, suspect, checks):
        blocks = [self.expected(suspect, check) for check in checks]
        names = tuple(name for block in blocks for name in block[0])
        knots = np.hstack([block[1] for block in blocks])
        spreads = np.array([SPREAD[name[0]] for name in names])
        if len(knots) == 1:
            return np.array([np.nan]), names, spreads, knots
        fine = np.linspace(self.levels[0], self.levels[-1], FINE)
        values = np.column_stack([np.interp(fine, self.levels, column) for column in knots.T])
        return fine, names, spreads, self._on_scale(names, values)

    def _on_scale(self, names, values):
        """Cut readings of glasses at the ends of the window after interpolating."""
        mounting = self.setting.boiler.glass.mounting
        for column, (what, _) in enumerate(names):
            if what == "glass":
                values[:, column] = np.clip(values[:, column], 1000 * mounting.visible_bottom,
                                            1000 * mounting.visible_top)
        return values


def observed(result, checks, memory=None):
    """Return what checks show on a bench, without noise: (what, instrument) to number."""
    memory = {} if memory is None else memory
    seen = {}
    for check in checks:
        seen |= CHECKS[check].observe(result, memory)
    return seen


def with_noise(seen, random):
    """Return observations as a person would read them: each off by its spread."""
    return {name: value + random.gauss(0.0, SPREAD[name[0]]) for name, value in seen.items()}


def ranked(signatures, seen, checks):
    """Return all suspects, the one that explains best what was seen first."""
    suspects = []
    for suspect in signatures.suspects:
        fine, names, spreads, values = signatures.table(suspect, checks)
        seen_values = np.array([seen[name] for name in names])
        misfit = (((values - seen_values) / spreads) ** 2).sum(axis=1)
        best = int(np.argmin(misfit))
        suspects.append(Suspect(suspect, float(misfit[best]) / len(names), float(fine[best])))
    return sorted(suspects, key=lambda item: item.misfit)


def distance(signatures, first, second, checks):
    """Return how far apart two suspects are by some checks, in spreads, at their most alike.

    Each is given the level at which it looks most like the other.
    """
    _, _, spreads, one = signatures.table(first, checks)
    _, _, _, two = signatures.table(second, checks)
    one, two = one / spreads, two / spreads
    square = ((one ** 2).sum(axis=1)[:, None] + (two ** 2).sum(axis=1)[None, :]
              - 2.0 * one @ two.T)
    return float(np.sqrt(max(square.min(), 0.0)))


def look_alikes(signatures, placed, exact, checks):
    """Return the other suspects that explain what a fault shows, without noise, as well.

    `exact` are the observations of the fault; as well means within SEPARABLE spreads.
    """
    return tuple(item.placed for item in ranked(signatures, exact, checks)
                 if item.placed != placed and item.misfit * len(exact) < SEPARABLE ** 2)


def in_the_running(suspects, count):
    """Return the suspects that explain `count` observations nearly as well as the best.

    Nearly: the sum of squares is larger by less than 9, three spreads of one observation.
    """
    best = suspects[0].misfit
    return tuple(item for item in suspects if (item.misfit - best) * count < 9.0)


def separating_checks(signatures, first, second):
    """Return the checks that tell two suspects apart, quickest first."""
    usable = [check.key for check in CHECKS.values()
              if distance(signatures, first, second, ("readings", check.key)
                          if check.key != "readings" else ("readings",)) >= SEPARABLE]
    return tuple(sorted(usable, key=lambda key: CHECKS[key].minutes))


def seeded_case(signatures, seed):
    """Return a single fault and a result with it, both drawn from a seed.

    Every suspect has the same chance, every centimetre of level within sight too.
    """
    random = Random(seed)
    placed = random.choice(signatures.suspects)
    low, high = signatures.levels[0], signatures.levels[-1]
    level = round(random.uniform(low, high), 2)
    if is_out_of_sight(placed.key):
        level = signatures.setting.level_before
    faults = () if placed == NO_FAULT else (placed,)
    return placed, bench_result(replace(signatures.setting, level=level), faults)
