"""Signatures: what every check shows for every fault, at every level, worked out once.

The level is not known to the watch, so a signature is a curve: each observation against the
drum level. It is worked out at a row of levels, closer where a curve bends, and taken as
straight between them.
"""

from dataclasses import replace

import numpy as np

from .checks import CHECKS, SPREAD
from .decisions import lowest_in_sight
from .faulty import NO_FAULT, SettingKey, candidates, is_out_of_sight
from .movement import NUDGE
from .readings import bench_result

SHARES = (0.04, 0.5, 0.95)
"""Levels as a share of the chamber height where every signature is worked out."""
FINE = 0.001
"""Step of the levels [m] at which signatures are compared."""
BEND, CLOSEST = 0.5, 0.006
"""A curve that departs this many spreads from its chord is worked out again between, until
the levels lie this close [m]."""


class Signatures:
    """The signatures of all single faults of one boiler state, worked out when asked for.

    Attributes
    ----------
    setting : BenchSetting
        The boiler state; its true level is not looked at.
    suspects : tuple of Placed
        Every single fault that it can have, NO_FAULT first.
    fine : array [m]
        The drum levels at which signatures are compared.
    """

    def __init__(self, setting):
        self.setting = setting
        self.suspects = (NO_FAULT, *candidates(SettingKey(setting)))
        weir = setting.boiler.legs.chamber_height
        sight = lowest_in_sight(bench_result(setting))
        self.knots = tuple(sorted({*(share * weir for share in SHARES), sight - NUDGE, sight,
                                   sight + NUDGE}))
        steps = round((self.knots[-1] - self.knots[0]) / FINE)
        self.fine = np.linspace(self.knots[0], self.knots[-1], steps + 1)
        self._results, self._seen, self._memory = {}, {}, {}
        self._blocks, self._tables = {}, {}

    def seen_at(self, faults, check, level):
        """Return the observations of one check at one level [m]: (what, instrument) to number."""
        key = (faults, check, level)
        if key not in self._seen:
            if (faults, level) not in self._results:
                self._results[faults, level] = bench_result(
                    replace(self.setting, level=level), faults)
            self._seen[key] = CHECKS[check].observe(self._results[faults, level], self._memory)
        return self._seen[key]

    def block(self, faults, check):
        """Return what a check shows with some faults: array of fine levels by names, in spreads.

        A fault that says itself where the level is has one row, the same for all levels.
        """
        faults = tuple(placed for placed in faults if placed != NO_FAULT)
        key = (faults, check)
        if key not in self._blocks:
            if any(is_out_of_sight(placed.key) for placed in faults):
                row = self._row(faults, check, self.setting.level_before)
                self._blocks[key] = np.broadcast_to(row, (len(self.fine), len(row)))
            else:
                self._blocks[key] = self._curve(faults, check)
        return self._blocks[key]

    def _row(self, faults, check, level):
        seen = self.seen_at(faults, check, level)
        return np.array([value / SPREAD[name[0]] for name, value in seen.items()])

    def _curve(self, faults, check):
        rows = {level: self._row(faults, check, level) for level in self.knots}
        spans = list(zip(self.knots, self.knots[1:], strict=False))
        while spans:
            low, high = spans.pop()
            if high - low < 2 * CLOSEST:
                continue
            middle = (low + high) / 2
            rows[middle] = self._row(faults, check, middle)
            if np.abs(rows[middle] - (rows[low] + rows[high]) / 2).max() > BEND:
                spans += [(low, middle), (middle, high)]
        levels = sorted(rows)
        columns = np.array([rows[level] for level in levels]).T
        return np.column_stack([np.interp(self.fine, levels, column) for column in columns])

    def names(self, checks):
        """Return the names of the observations of some checks, in the order of the tables."""
        level = self.knots[0]
        return tuple(name for check in checks for name in self.seen_at((), check, level))

    def signature(self, faults, checks):
        """Return what some checks show with some faults: fine levels by names, in spreads."""
        return np.hstack([self.block(faults, check) for check in checks])

    def table(self, checks):
        """Return the signatures of all suspects, ready to be compared.

        They are given less the middle of the sound one, so that no digits are lost in sums of
        squares: that middle, the array of suspects by fine levels by names, and its squares
        summed over the names; all in spreads.
        """
        if checks not in self._tables:
            whole = np.stack([self.signature((placed,), checks)
                              for placed in self.suspects])
            middle = whole[0].mean(axis=0)
            whole -= middle
            self._tables[checks] = (middle, whole, np.einsum("slc,slc->sl", whole, whole))
        return self._tables[checks]


def in_spreads(signatures, seen, checks):
    """Return observations in the order and unit of the tables.

    Parameters
    ----------
    signatures : Signatures [-]
        Gives the order.
    seen : mapping of tuple to float [mm, degC, mA and so on]
        Observations: (what, instrument) to number.
    checks : tuple of str
        Keys of the checks that were done.

    Returns
    -------
    array [spreads of each observation]
        One number for each observation of these checks.

    Raises
    ------
    KeyError
        A check was not done.

    References
    ----------
    [PRACTICE-DIAGNOSIS] spreads.

    Examples
    --------
    >>> from levelkit.diagnosis.example import signatures
    >>> seen = {("list", "ship"): 3.0, ("roll", "ship"): 0.0}
    >>> in_spreads(signatures(), seen, ("clinometer",)).round(6).tolist()
    [10.0, 0.0]
    """
    return np.array([seen[name] / SPREAD[name[0]] for name in signatures.names(checks)])
