"""Two faults at once: their signatures, and singles and pairs ranked together.

Where two faults touch no observation in common, nothing new has to be worked out: each
observation is that of the one fault that touches it, so at every level

``chi2(pair) = chi2(first) + chi2(second) - chi2(sound boiler)``

which makes a thousand pairs a sum of two rows each. Where they meet in one instrument or on one
leg, or one of them is a state of the whole drum, the bench itself is asked for both together.
"""

from itertools import combinations

import numpy as np

from .faulty import NO_FAULT, is_out_of_sight, reached
from .ranking import Suspect, evidence, square_misfits
from .setting import REMOTES, healthy_instruments, legs_group
from .signatures import in_spreads

SINGLES = 0.9
"""Share of all cases with one fault or none, before anything was seen; the pairs share the
rest evenly. Own choice, for teaching."""


class Pairs:
    """All pairs of faults of one boiler state, and how their signatures are had.

    Ranked are the pairs that sit apart, and those of a fault with the level out of sight: what
    the bench hides. Others that meet are ranked when they are named in `also`, for each of
    them costs as much as a single fault.

    Attributes
    ----------
    signatures : Signatures
        Of the single faults.
    apart : tuple of (int, int)
        Places in `signatures.suspects` of two faults on different instruments.
    meeting : tuple of tuple of Placed
        Pairs that the bench works out together: both on one instrument or one leg, or one of
        them a state of the drum.
    together : tuple of tuple of Placed
        Those of them that are ranked.
    """

    def __init__(self, signatures, also=()):
        self.signatures = signatures
        reach = [_acts_on(item, signatures.setting) for item in signatures.suspects]
        apart, meeting = [], []
        for i, j in combinations(range(1, len(reach)), 2):
            if reach[i] & reach[j]:
                meeting.append((signatures.suspects[i], signatures.suspects[j]))
            else:
                apart.append((i, j))
        self.apart = tuple(apart)
        self.meeting = tuple(pair for pair in meeting if _blind(pair) < 2)
        self.together = (*(pair for pair in self.meeting if _blind(pair)), *also)
        self._tables = {}

    @property
    def all(self):
        """Every pair that is ranked, as Placed."""
        suspects = self.signatures.suspects
        return (*((suspects[i], suspects[j]) for i, j in self.apart), *self.together)

    def square_misfits(self, seen, checks, singles):
        """Return chi2 of every pair of `all` at every fine level, given that of the singles."""
        first, second = np.array(self.apart).T
        sums = singles[first] + singles[second] - singles[0]
        if not self.together:
            return sums
        if checks not in self._tables:
            self._tables[checks] = [self._compact(pair, checks) for pair in self.together]
        point = in_spreads(self.signatures, seen, checks)
        rows = [((table - point) ** 2).sum(axis=1) for table in self._tables[checks]]
        return np.vstack([sums, [np.broadcast_to(row, sums.shape[1]) for row in rows]])

    def _compact(self, pair, checks):
        """The signature of a pair; one row where it is the same at all levels."""
        whole = self.signatures.signature(pair, checks)
        return whole[:1] if _blind(pair) else whole


def _acts_on(placed, setting):
    """Instruments that a fault acts on; with a leg, all that hang on the water of that leg."""
    if placed == NO_FAULT:
        return set()
    healthy = healthy_instruments(setting, setting.level_before)
    found = set(reached(placed, setting.arrangement, healthy))
    for name in found & set(REMOTES):
        if placed.fault.apply(healthy[name]).legs != healthy[name].legs:
            found |= set(legs_group(name, setting.arrangement))
    return found


def _blind(pair):
    """How many of two faults say themselves where the level is; two cannot both be so."""
    return sum(is_out_of_sight(item.key) for item in pair)


def ranked_together(pairs, seen, checks):
    """Return single faults and pairs ranked together, the likeliest first.

    ``P = 0.9 / number of singles`` or ``0.1 / number of pairs`` before anything was seen: a
    pair must explain what was seen better, by about ten in chi2 on this bench, than a single
    fault, before it is believed.

    Parameters
    ----------
    pairs : Pairs [-]
        Of the boiler state.
    seen : mapping of tuple to float [mm, degC, mA and so on]
        Observations.
    checks : tuple of str
        Keys of the checks that were done.

    Returns
    -------
    list of Suspect [1]
        Falling chance.

    References
    ----------
    Own derivation: the chances of causes from what they cause; own choice of the prior.

    Examples
    --------
    >>> from levelkit.diagnosis.example import pairs
    >>> seen = {("list", "ship"): 0.0, ("roll", "ship"): 0.0}
    >>> best = ranked_together(pairs(), seen, ("clinometer",))[0]
    >>> len(best.faults)
    1
    """
    signatures = pairs.signatures
    singles = square_misfits(signatures, seen, checks)
    square = np.vstack([singles, pairs.square_misfits(seen, checks, singles)])
    explained = [*((item,) for item in signatures.suspects), *pairs.all]
    weight = evidence(square)
    weight[:len(singles)] += np.log(SINGLES / len(singles))
    weight[len(singles):] += np.log((1.0 - SINGLES) / len(pairs.all))
    chance = np.exp(weight - weight.max())
    chance /= chance.sum()
    best = square.argmin(axis=1)
    count = len(signatures.names(checks))
    found = []
    for i in np.argsort(-chance, kind="stable"):
        level = np.nan if _blind(explained[i]) else float(signatures.fine[best[i]])
        found.append(Suspect(explained[i], float(chance[i]),
                             float(square[i, best[i]]) / count, level))
    return found


def look_alikes_of_pair(pairs, faults, exact, checks):
    """Return what else would show the same as one fault or two, so nearly that noise hides it.

    With a prior the border moves: another explanation at distance d passes for the true one
    when noise makes up ``(d^2 + 2 ln(P_true / P_other)) / (2 d)`` spreads, and 2.5 of them are
    taken as out of reach, as between singles.

    Parameters
    ----------
    pairs : Pairs [-]
        Of the boiler state.
    faults : tuple of Placed [-]
        What is there.
    exact : mapping of tuple to float [mm, degC, mA and so on]
        What it shows, without noise.
    checks : tuple of str
        Keys of the checks.

    Returns
    -------
    tuple of tuple of Placed [-]
        The other singles and pairs that cannot be told from it.

    References
    ----------
    [GUM] deviations in units of their standard uncertainty.

    Examples
    --------
    >>> from levelkit.diagnosis.example import pairs
    >>> from levelkit.diagnosis.faulty import NO_FAULT, Placed
    >>> level = {("list", "ship"): 0.0, ("roll", "ship"): 0.0}
    >>> listing = (Placed("list", "drum"),)
    >>> listing in look_alikes_of_pair(pairs(), (NO_FAULT,), level, ("clinometer",))
    False
    """
    singles = square_misfits(pairs.signatures, exact, checks)
    least = np.vstack([singles, pairs.square_misfits(exact, checks, singles)]).min(axis=1)
    explained = [*((item,) for item in pairs.signatures.suspects), *pairs.all]
    prior = np.full(len(least), (1.0 - SINGLES) / len(pairs.all))
    prior[:len(singles)] = SINGLES / len(singles)
    own = prior[explained.index(tuple(faults))]
    far = np.sqrt(np.maximum(least, 1e-12))
    margin = (far ** 2 + 2.0 * np.log(own / prior)) / (2.0 * far)
    return tuple(item for item, spreads in zip(explained, margin, strict=True)
                 if item != tuple(faults) and spreads < 2.5)
