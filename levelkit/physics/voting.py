"""Trips that vote: what a vote decides, how often it fails, how often it cries wolf.

"2oo3" is two out of three: two low signals trip. A dangerous failure is one that hides
a low level, a spurious one trips without need. All for the low-low trip.
"""

from dataclasses import dataclass
from math import inf

import numpy as np

from ..errors import InputError, checked

HOUR = 3600.0
"""One hour [s]: failure rates are quoted per hour."""
ARCHITECTURES = {"1oo1": (1, 1), "1oo2": (1, 2), "2oo2": (2, 2), "2oo3": (2, 3), "median": (2, 3)}
"""Votes needed and inputs of each arrangement; a median below the set point means two are."""
BAD_INPUT = {
    "trip": "A bad input votes to trip: two out of three becomes one out of two. "
            "Safe, but two bad inputs trip.",
    "healthy": "A bad input votes to stay: two out of three becomes two out of two. "
               "Steady, but two bad inputs blind the trip.",
    "removed": "A bad input is left out and one vote less is needed, as long as one input is "
               "left; with none left it trips.",
}
"""What can be done with an input known to be bad, and what that means."""


@dataclass(frozen=True, slots=True)
class VoteResult:
    """What a vote decided.

    Attributes
    ----------
    trips : bool
        Whether the trip comes.
    votes, needed : int
        Votes to trip, and how many it takes.
    inputs : int
        Inputs that were counted.
    selected : float [m]
        Level that median select goes by; NaN for the other arrangements or with no input.
    """

    trips: bool
    votes: int
    needed: int
    inputs: int
    selected: float


def vote(architecture, levels, setpoint, good=None, bad_input="trip"):
    """Return what an arrangement of level signals decides at a low-low set point.

    Parameters
    ----------
    architecture : str
        "1oo1", "1oo2", "2oo2", "2oo3" or "median".
    levels : sequence of float [m]
        Shown levels, one per input; those of bad inputs do not count.
    setpoint : float [m]
        Low-low level: at or below it an input votes to trip.
    good : sequence of bool [one per input]
        Whether each input is good; all of them by default.
    bad_input : str
        What a bad input does: "trip", "healthy" or "removed", see `BAD_INPUT`.

    Returns
    -------
    VoteResult
        The decision, the votes, the selected level [m].

    Raises
    ------
    InputError
        An unknown word, or as many levels as the arrangement does not have.

    Notes
    -----
    Median select is two out of three on one set point: the median is low exactly where
    two are. It rejects one wild transmitter, not two that share a reference leg. Of two
    inputs left by "removed" it takes the lower.

    References
    ----------
    [IEC-61508-6] arrangements; [NRC-IN-84-70] shared leg.

    Examples
    --------
    >>> vote("2oo3", [0.30, -0.25, 0.31], -0.24).trips  # one wild transmitter
    False
    >>> vote("2oo3", [0.30, -0.25, -0.26], -0.24, good=[False, True, True]).trips
    True
    """
    needed, count = _arrangement(architecture)
    levels = list(levels)
    good = [True] * len(levels) if good is None else list(good)
    if len(levels) != count or len(good) != count:
        raise InputError(f"{architecture} takes {count} inputs; given are {len(levels)} levels "
                         f"[m] and {len(good)} marks. Give {count} of each.")
    if bad_input not in BAD_INPUT:
        raise InputError(f"bad_input is {bad_input!r}; the allowed words are "
                         f"{', '.join(BAD_INPUT)} (no unit). Choose one.")
    setpoint = checked("set point", setpoint, -10.0, 10.0, "m", "Give metres.")
    shown = [checked("level", level, -50.0, 50.0, "m", "Give metres.")
             for level, well in zip(levels, good, strict=True) if well]
    bad = count - len(shown)
    if bad_input == "removed":
        needed = max(1, needed - bad)
    else:
        shown += [-inf if bad_input == "trip" else inf] * bad
    votes = sum(level <= setpoint for level in shown)
    selected = sorted(shown)[needed - 1] if architecture == "median" and shown else np.nan
    return VoteResult(not shown or votes >= needed, votes, needed, len(shown), float(selected))


def failure_on_demand(architecture, failure_rate, test_interval, common_cause=0.0,
                      shared_leg_rate=0.0):
    """Return the mean probability that a voted trip fails when it is needed.

    With ``x = (1 - beta) lambda T``: 1oo1 ``x/2``, 1oo2 ``x^2/3``, 2oo2 ``x``, 2oo3 and
    median ``x^2``; to each ``beta lambda T / 2 + lambda_leg T / 2``

    Parameters
    ----------
    architecture : str
        "1oo1", "1oo2", "2oo2", "2oo3" or "median".
    failure_rate : float or array [1/s]
        Dangerous failures of one transmitter that only a proof test finds.
    test_interval : float or array [s]
        Time between proof tests; the product with the rate at most 0.2.
    common_cause : float or array [1]
        Share of the failures that hits all transmitters at once, 0 to 1.
    shared_leg_rate : float or array [1/s]
        Losses of a reference leg that all transmitters share.

    Returns
    -------
    float or array [1]
        Probability of failure on demand, mean over the interval.

    Raises
    ------
    InputError
        An unknown arrangement, or a value outside its range.

    Notes
    -----
    Simplified forms for rare failures; repair in no time. A lost leg makes every
    transmitter on it read high: voting buys nothing against it.

    References
    ----------
    [IEC-61508-6] simplified forms, from memory; [NRC-IN-84-70] shared leg.

    Examples
    --------
    >>> f"{failure_on_demand('2oo3', 2e-6 / HOUR, 8760 * HOUR, common_cause=0.05):.2e}"
    '7.15e-04'
    """
    needed, count = _arrangement(architecture)
    rate = checked("failure rate", failure_rate, 0.0, 1.0, "1/s",
                   "Give failures per second: 2e-6 per hour is 2e-6 / 3600.")
    interval = checked("test interval", test_interval, 1.0, 1e10, "s",
                       "Give seconds: a year is 8760 x 3600.")
    share = checked("common-cause share", common_cause, 0.0, 1.0, "", "Give a share of one.")
    leg = checked("rate of leg loss", shared_leg_rate, 0.0, 1.0, "1/s", "Give losses per second.")
    checked("failure rate times test interval", rate * interval, 0.0, 0.2, "",
            "The simplified forms are for rare failures: test more often.")
    checked("leg-loss rate times test interval", leg * interval, 0.0, 0.2, "",
            "The simplified forms are for rare failures: test more often.")
    alone = (1 - share) * rate * interval
    independent = {(1, 1): alone / 2, (1, 2): alone ** 2 / 3, (2, 2): alone,
                   (2, 3): alone ** 2}[needed, count]
    return independent + share * rate * interval / 2 + leg * interval / 2


def spurious_trip_rate(architecture, failure_rate, repair_time):
    """Return how often a voted trip comes without need.

    1oo1 ``lambda``, 1oo2 ``2 lambda``, 2oo2 ``2 lambda^2 tau``, 2oo3 and median
    ``6 lambda^2 tau``

    Parameters
    ----------
    architecture : str
        "1oo1", "1oo2", "2oo2", "2oo3" or "median".
    failure_rate : float or array [1/s]
        Failures of one transmitter that show as a false low level.
    repair_time : float or array [s]
        Time from such a failure to the repair; the product with the rate at most 0.1.

    Returns
    -------
    float or array [1/s]
        Spurious trips per second.

    Raises
    ------
    InputError
        An unknown arrangement, or a value outside its range.

    Notes
    -----
    A lost reference leg reads high, so it adds no spurious low trip: it is silent.

    References
    ----------
    [IEC-61508-6] simplified forms, from memory.

    Examples
    --------
    >>> year = 8760 * HOUR
    >>> round(spurious_trip_rate("1oo2", 1e-5 / HOUR, 24 * HOUR) * year, 3)  # per year
    0.175
    """
    arrangement = _arrangement(architecture)
    rate = checked("spurious failure rate", failure_rate, 0.0, 1.0, "1/s",
                   "Give failures per second: 1e-5 per hour is 1e-5 / 3600.")
    repair = checked("repair time", repair_time, 0.0, 1e9, "s", "Give seconds.")
    checked("failure rate times repair time", rate * repair, 0.0, 0.1, "",
            "The simplified forms are for failures that are rare beside the repair.")
    pairs = rate ** 2 * repair
    return {(1, 1): rate, (1, 2): 2 * rate, (2, 2): 2 * pairs, (2, 3): 6 * pairs}[arrangement]


def _arrangement(name):
    if name not in ARCHITECTURES:
        raise InputError(f"{name!r} is no arrangement; the allowed names are "
                         f"{', '.join(ARCHITECTURES)} (no unit). Choose one.")
    return ARCHITECTURES[name]
