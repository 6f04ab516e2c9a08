"""Compare: which corrected readings agree, and how many independent witnesses that makes."""

from dataclasses import dataclass
from itertools import combinations

from ..errors import InputError
from ..physics.uncertainty import agreement_band
from .setting import GLASSES, legs_group


@dataclass(frozen=True, slots=True)
class Agreement:
    """Which instruments agree.

    Attributes
    ----------
    parties : tuple of tuple of str
        Sets of instruments of which each agrees with each, largest first.
    witnesses : tuple of int
        How many independent witnesses each party has: those on one leg count as one.
    no_number : tuple of str
        Instruments that show no number to compare.
    """

    parties: tuple
    witnesses: tuple
    no_number: tuple

    @property
    def all_agree(self):
        """Whether every instrument shows a number and all are one party."""
        return len(self.parties) == 1 and not self.no_number


def agree(first, second):
    """Return whether two corrected readings differ by no more than both are known.

    ``|h_1 - h_2| <= sqrt(u_1^2 + u_2^2)``

    Parameters
    ----------
    first, second : Corrected [m]
        Two corrected readings.

    Returns
    -------
    bool
        True within the root of the sum of the squares.

    Raises
    ------
    InputError
        One of them shows no number.

    References
    ----------
    [GUM] uncertainty of a difference.

    Examples
    --------
    >>> from levelkit.diagnosis.correction import Corrected
    >>> agree(Corrected("one", 0.300, 0.006), Corrected("two", 0.309, 0.008))
    True
    """
    if first.level is None or second.level is None:
        raise InputError(f"{first.name} or {second.name} shows no number: only numbers agree.")
    band = agreement_band(first.uncertainty, second.uncertainty)
    return abs(first.level - second.level) <= band


def agreement(corrected, arrangement):
    """Return which of the corrected readings agree, and how many witnesses that makes.

    Parameters
    ----------
    corrected : mapping of str to Corrected [m]
        By instrument.
    arrangement : str
        What the remote instruments hang on.

    Returns
    -------
    Agreement [-]
        Parties, largest first, and their witnesses.

    References
    ----------
    [PRACTICE-DIAGNOSIS] instruments on one leg are one witness.

    Examples
    --------
    >>> from levelkit.diagnosis.correction import Corrected
    >>> levels = {name: Corrected(name, 0.25, 0.01) for name in ("transmitter 1", "transmitter 2")}
    >>> agreement(levels, "one common leg").witnesses
    (1,)
    """
    numbers = [item for item in corrected.values() if item.level is not None]
    parties = []
    for size in range(len(numbers), 0, -1):
        for group in combinations(numbers, size):
            names = tuple(item.name for item in group)
            if any(set(names) <= set(party) for party in parties):
                continue
            if all(agree(a, b) for a, b in combinations(group, 2)):
                parties.append(names)
    witnesses = tuple(len({name if name in GLASSES else legs_group(name, arrangement)
                           for name in party}) for party in parties)
    silent = tuple(item.name for item in corrected.values() if item.level is None)
    return Agreement(tuple(parties), witnesses, silent)

