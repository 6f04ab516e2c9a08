"""Which fault explains what was seen, how sure that is, and which cannot be told apart.

An observation is off by its own spread, independent of the others, so for a suspect and a
level ``chi2 = sum [(seen - expected) / spread]^2``. The level is unknown, every level in
sight as likely as another; the chance of a suspect is then

``P(suspect | seen) = P(suspect) mean over level of exp(-chi2 / 2) / (the same for all)``

No rule has more hits than this one, for that noise and those priors: what it misses, the
observations do not hold.
"""

from dataclasses import dataclass

import numpy as np

from .checks import CHECKS
from .faulty import is_out_of_sight
from .signatures import in_spreads

SEPARABLE = 5.0
"""Two signatures this many spreads apart, or more, are told apart: fewer than one in a
hundred readings would then point to the wrong one of the two."""
NEARLY = 1.0 / 90.0
"""A suspect stays in the running down to this share of the chance of the likeliest."""


@dataclass(frozen=True, slots=True)
class Suspect:
    """One fault, or two, and how well they explain what was seen.

    Attributes
    ----------
    faults : tuple of Placed
        Fault and place, one or two; NO_FAULT alone for a sound boiler.
    chance : float [1]
        Of all that were ranked together, given what was seen.
    misfit : float [1]
        Mean square deviation in spreads at the best level: about 1 where it explains all.
    level : float [m]
        Drum level that suits it best; NaN where the fault itself says where the level is.
    """

    faults: tuple
    chance: float
    misfit: float
    level: float

    @property
    def text(self):
        """The faults in words."""
        return " and ".join(placed.text for placed in self.faults)


def square_misfits(signatures, seen, checks):
    """Return how far what was seen lies from every signature at every level.

    ``chi2 = sum [(seen - expected) / spread]^2``

    Parameters
    ----------
    signatures : Signatures [-]
        Of the boiler state.
    seen : mapping of tuple to float [mm, degC, mA and so on]
        Observations.
    checks : tuple of str
        Keys of the checks that were done.

    Returns
    -------
    array [square spreads]
        Suspects by fine levels.

    References
    ----------
    [GUM] deviations in units of their standard uncertainty.

    Examples
    --------
    >>> from levelkit.diagnosis.example import signatures
    >>> seen = {("list", "ship"): 0.6, ("roll", "ship"): 0.0}
    >>> float(square_misfits(signatures(), seen, ("clinometer",))[0, 0].round(6))
    4.0
    """
    middle, table, squares = signatures.table(checks)
    off = in_spreads(signatures, seen, checks) - middle
    return np.maximum(squares - 2.0 * (table @ off) + off @ off, 0.0)


def evidence(square):
    """Return the logarithm of the mean of exp(-chi2/2) over the level, along the last axis.

    Parameters
    ----------
    square : array [square spreads]
        chi2 at the fine levels.

    Returns
    -------
    array or float [1]
        Without the last axis.

    References
    ----------
    Own derivation: total probability with every level in sight as likely as another.

    Examples
    --------
    >>> round(float(evidence(np.array([4.0, 4.0]))), 6)
    -2.0
    """
    least = square.min(axis=-1)
    return np.log(np.exp(-0.5 * (square - least[..., None])).mean(axis=-1)) - 0.5 * least


def ranked(signatures, seen, checks):
    """Return all single faults, the one that is likeliest from what was seen first.

    Before anything was seen, every one is as likely as another.

    Parameters
    ----------
    signatures : Signatures [-]
        Of the boiler state.
    seen : mapping of tuple to float [mm, degC, mA and so on]
        Observations.
    checks : tuple of str
        Keys of the checks that were done.

    Returns
    -------
    list of Suspect [1]
        Falling chance; those with the same chance in the order of the catalogue.

    References
    ----------
    Own derivation: the chances of causes from what they cause, see the head of this module.

    Examples
    --------
    >>> from levelkit.diagnosis.example import signatures
    >>> seen = {("list", "ship"): 5.0, ("roll", "ship"): 0.0}
    >>> ranked(signatures(), seen, ("clinometer",))[0].text
    'list or trim, instrument at the low side, drum'
    """
    square = square_misfits(signatures, seen, checks)
    weight = evidence(square)
    chance = np.exp(weight - weight.max())
    chance /= chance.sum()
    names = len(signatures.names(checks))
    found = []
    for i in np.argsort(-chance, kind="stable"):
        placed = signatures.suspects[i]
        best = int(np.argmin(square[i]))
        level = np.nan if is_out_of_sight(placed.key) else float(signatures.fine[best])
        found.append(Suspect((placed,), float(chance[i]), float(square[i, best]) / names, level))
    return found


def in_the_running(suspects):
    """Return the suspects that are nearly as likely as the first: who cannot be told apart yet.

    Parameters
    ----------
    suspects : list of Suspect [1]
        As ranked.

    Returns
    -------
    tuple of Suspect [1]
        Those with at least 1/90 of the chance of the first.

    References
    ----------
    Own choice: three spreads of one observation make that much.

    Examples
    --------
    >>> first, second = (Suspect((), chance, 1.0, 0.2) for chance in (0.95, 0.001))
    >>> in_the_running([first, second]) == (first,)
    True
    """
    return tuple(item for item in suspects if item.chance >= NEARLY * suspects[0].chance)


def distance(signatures, first, second, checks):
    """Return how far apart two explanations are by some checks, at their most alike.

    Each is given the level at which it looks most like the other.

    Parameters
    ----------
    signatures : Signatures [-]
        Of the boiler state.
    first, second : tuple of Placed [-]
        One fault or two each.
    checks : tuple of str
        Keys of the checks.

    Returns
    -------
    float [spreads]
        Root of the least sum of squares.

    References
    ----------
    [GUM] deviations in units of their standard uncertainty.

    Examples
    --------
    >>> from levelkit.diagnosis.example import signatures
    >>> from levelkit.diagnosis.faulty import NO_FAULT, Placed
    >>> listing = (Placed("list", "drum"),)
    >>> round(distance(signatures(), (NO_FAULT,), listing, ("clinometer",)), 3)
    6.667
    """
    one, two = (signatures.signature(faults, checks) for faults in (first, second))
    middle = one.mean(axis=0)
    one, two = one - middle, two - middle
    square = ((one ** 2).sum(axis=1)[:, None] + (two ** 2).sum(axis=1)[None, :]
              - 2.0 * one @ two.T)
    return float(np.sqrt(max(square.min(), 0.0)))


def look_alikes(signatures, placed, exact, checks):
    """Return the other suspects that would show the same, so nearly that noise hides the rest.

    Parameters
    ----------
    signatures : Signatures [-]
        Of the boiler state.
    placed : Placed [-]
        The fault that is there.
    exact : mapping of tuple to float [mm, degC, mA and so on]
        What it shows, without noise.
    checks : tuple of str
        Keys of the checks.

    Returns
    -------
    tuple of Placed [-]
        Those within SEPARABLE spreads at a level of their own choice.

    References
    ----------
    [GUM] deviations in units of their standard uncertainty.

    Examples
    --------
    >>> from levelkit.diagnosis.example import signatures
    >>> from levelkit.diagnosis.faulty import NO_FAULT, Placed
    >>> level = {("list", "ship"): 0.0, ("roll", "ship"): 0.0}
    >>> listing = Placed("list", "drum")
    >>> listing in look_alikes(signatures(), NO_FAULT, level, ("clinometer",))
    False
    """
    least = square_misfits(signatures, exact, checks).min(axis=1)
    return tuple(other for other, square in zip(signatures.suspects, least, strict=True)
                 if other != placed and square < SEPARABLE ** 2)


def separating_checks(signatures, first, second):
    """Return the checks that tell two explanations apart, together with the readings.

    Parameters
    ----------
    signatures : Signatures [-]
        Of the boiler state.
    first, second : tuple of Placed [-]
        One fault or two each.

    Returns
    -------
    tuple of str
        Keys of checks, quickest first; none where no check tells them apart.

    References
    ----------
    [PRACTICE-DIAGNOSIS] times and spreads of the checks.

    Examples
    --------
    >>> from levelkit.diagnosis.example import signatures
    >>> from levelkit.diagnosis.faulty import NO_FAULT
    >>> separating_checks(signatures(), (NO_FAULT,), (NO_FAULT,))
    ()
    """
    usable = [key for key in CHECKS
              if distance(signatures, first, second, tuple(dict.fromkeys(("readings", key))))
              >= SEPARABLE]
    return tuple(sorted(usable, key=lambda key: CHECKS[key].minutes))
