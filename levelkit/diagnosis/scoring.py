"""Points for a play: safe action before certain diagnosis, correcting before comparing."""

from dataclasses import dataclass

from .decisions import CARRY_ON, NOT_PROVED, safe_decisions
from .faulty import DRUM, NO_FAULT

FOR_SAFE, FOR_CORRECTING, FOR_DIAGNOSIS, FOR_TIME = 40, 20, 30, 10
QUICK, SLOW = 8.0, 30.0
"""Minutes up to which time costs nothing, and from which it is worth nothing."""


@dataclass(frozen=True, slots=True)
class Taken:
    """A decision as it was taken.

    Attributes
    ----------
    key : str
        The decision.
    zone : str
        What was proved at that moment.
    after_diagnosis : bool
        Whether the fault had been named already.
    blown : tuple of str
        Glasses that had been blown through.
    """

    key: str
    zone: str
    after_diagnosis: bool
    blown: tuple


NOTHING = Taken(CARRY_ON, NOT_PROVED, True, ())
"""Whoever decides nothing has carried on."""


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


def points(faults, taken, corrected_first, named, minutes, unsafe):
    """Return the points of a play.

    40 for the safe first decision (half of it after the diagnosis), 20 for correcting before
    comparing, 30 for the diagnosis, 10 for time; and nothing at all if at any moment a boiler
    with its level out of sight low was fed or kept on fire.

    Parameters
    ----------
    faults : tuple of Placed [-]
        What is wrong.
    taken : sequence of Taken [-]
        Decisions in their order.
    corrected_first : bool
        Whether readings were corrected before they were compared.
    named : tuple of Placed [-]
        The diagnosis; empty if none.
    minutes : float [min]
        On the clock at the end.
    unsafe : bool
        Whether a boiler with its level out of sight low was fed or kept on fire.

    Returns
    -------
    Score [1]
        0 to 100 points and what for.

    References
    ----------
    [PRACTICE-DIAGNOSIS] own choice of weights.

    Examples
    --------
    >>> points((), (), True, (), 5.0, False).points
    20
    """
    first = taken[0] if taken else NOTHING
    safe = FOR_SAFE if first.key in safe_decisions(first.zone) else 0
    if first.after_diagnosis:
        safe //= 2
    right = share_right(named, faults)
    quick = min(max((SLOW - minutes) / (SLOW - QUICK), 0.0), 1.0)
    parts = (("safe action before diagnosis", safe, FOR_SAFE),
             ("corrected before comparing", FOR_CORRECTING * corrected_first, FOR_CORRECTING),
             ("diagnosis", round(FOR_DIAGNOSIS * right), FOR_DIAGNOSIS),
             ("time", round(FOR_TIME * quick * (right > 0)), FOR_TIME))
    return Score(0 if unsafe else sum(got for _, got, _ in parts), parts, unsafe)


def share_right(diagnosed, faults):
    """Return the share of a diagnosis that is right: half for the right place; more costs.

    Parameters
    ----------
    diagnosed, faults : tuple of Placed [-]
        What was named, and what is wrong; a sound boiler has no fault, and is named NO_FAULT.

    Returns
    -------
    float [1]
        0 to 1.

    References
    ----------
    Own choice, for teaching.

    Examples
    --------
    >>> share_right((NO_FAULT,), ())
    1.0
    """
    faults = faults or (NO_FAULT,)
    if not diagnosed:
        return 0.0
    got = 0.0
    for fault in faults:
        if fault in diagnosed:
            got += 1.0
        elif any(item.place == fault.place and item.place != DRUM for item in diagnosed):
            got += 0.5
    return got / max(len(faults), len(diagnosed))
