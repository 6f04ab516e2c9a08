"""The blow-through drill: turn cocks in any order, see, and rule out what it cannot be.

Proof, not recitation: every condition the gauge could be in is tried against what was
seen, and a statement is proved when it holds in all conditions that are left. No order is
asked for, and no order helps that the sights do not bear out.
"""

import random
from dataclasses import dataclass, replace
from functools import cache

from ..errors import InputError
from .blow_glass import (
    ABOVE,
    BELOW,
    BETWEEN,
    CHOKED,
    FULL,
    IN_SIGHT,
    NARROWED,
    NEARLY_FULL,
    ZONES,
    GaugeCondition,
    after_move,
    all_conditions,
    in_service,
)
from .blow_ledger import STATEMENTS

TUBULAR_DRILL, PLATE_DRILL = "tubular glass", "high-pressure plate glass"

FAULTS = {
    "none": {},
    "steam way choked": {"steam_way": CHOKED},
    "steam way narrowed": {"steam_way": NARROWED},
    "water way choked": {"water_way": CHOKED},
    "water way narrowed": {"water_way": NARROWED},
    "both ways choked": {"steam_way": CHOKED, "water_way": CHOKED},
    "drain choked": {"drain_way": CHOKED},
    "steam cock passes": {"steam_holds": False},
    "water cock passes": {"water_holds": False},
    "drain cock passes": {"drain_holds": False},
    "ball seats on a rush": {"ball_free": False},
    "steam plug refitted a quarter turn out": {"steam_plug": False},
    "water plug refitted a quarter turn out": {"water_plug": False},
}
"""Faults that a drill may hide, by name, as changes of a healthy condition."""


@dataclass(frozen=True, slots=True)
class DrillEntry:
    """One move and what came of it.

    Attributes
    ----------
    number : int
        1 for the first move; 0 for the glass as found.
    move : DrillMove or None
        The cock turned.
    sight : Sight
        What was seen.
    inside : GlassInside [-]
        Handles and glass afterwards; what the handles show is no secret.
    newly_proved, newly_disproved : tuple of str
        Statements settled by this move.
    """

    number: int
    move: object
    sight: object
    inside: object
    newly_proved: tuple
    newly_disproved: tuple


@dataclass(frozen=True, slots=True)
class BlowDrill:
    """A drill so far.

    Attributes
    ----------
    seed : int
        Shown to everybody: the same seed hides the same fault and level.
    variant : str
        "tubular glass" or "high-pressure plate glass".
    fault : str
        Name of the hidden fault.
    condition : GaugeCondition [-]
        The hidden truth.
    entries : tuple of DrillEntry
        The glass as found, then every move.
    possible : tuple of GaugeCondition and GlassInside
        Conditions not yet ruled out, each with its inside.
    """

    seed: int
    variant: str
    fault: str
    condition: object
    entries: tuple
    possible: tuple


def new_drill(seed, variant=TUBULAR_DRILL, fault=None, zone=None):
    """Return a drill whose fault and level are hidden behind a seed.

    Parameters
    ----------
    seed : int
        Any whole number.
    variant : str
        "tubular glass" or "high-pressure plate glass".
    fault : str or None
        A name in `FAULTS` to set instead of drawing one.
    zone : str or None
        A zone to set instead of drawing one.

    Returns
    -------
    BlowDrill [-]
        With the glass as found as its first entry.

    Raises
    ------
    InputError
        A seed that is no whole number, or an unknown variant, fault or zone.

    Notes
    -----
    A quarter of the drills are healthy, half have the level in sight.

    References
    ----------
    [PRACTICE-BLOWING].

    Examples
    --------
    >>> drill = new_drill(7, fault="none", zone="in the visible glass")
    >>> drill.entries[0].sight.glass
    'a level'
    """
    if isinstance(seed, bool) or not isinstance(seed, int):
        raise InputError(f"The seed is {seed!r}; the allowed range is any whole number.")
    draw = random.Random(seed)  # random() of a given seed is the same on every Python
    names = list(FAULTS)
    drawn_fault, drawn_zone = draw.random(), draw.random()
    if fault is None:
        fault = "none" if drawn_fault < 0.25 else names[
            1 + int((drawn_fault - 0.25) / 0.75 * (len(names) - 1))]
    if zone is None:
        zone = IN_SIGHT if drawn_zone < 0.5 else (BELOW, BETWEEN, ABOVE)[
            int((drawn_zone - 0.5) / 0.5 * 3)]
    for value, known in ((variant, (TUBULAR_DRILL, PLATE_DRILL)), (fault, names), (zone, ZONES)):
        if value not in known:
            raise InputError(f"{value!r} is not known; give one of {', '.join(known)}.")
    condition = replace(GaugeCondition(zone=zone), **FAULTS[fault])
    inside, sight = in_service(condition)
    possible = _found_alike()[_kind(sight)]
    blank = BlowDrill(seed, variant, fault, condition, (), possible)
    return _entered(blank, None, sight, inside, possible)


def moved(drill, move):
    """Return the drill after one move.

    Parameters
    ----------
    drill : BlowDrill [-]
        Before.
    move : DrillMove [-]
        The cock turned.

    Returns
    -------
    BlowDrill [-]
        With one more entry, and fewer possible conditions.

    References
    ----------
    [PRACTICE-BLOWING].

    Examples
    --------
    >>> from levelkit.physics.blow_glass import DrillMove
    >>> drill = new_drill(7, fault="none", zone="in the visible glass")
    >>> for cock, action in (("steam", "shut"), ("water", "shut"), ("drain", "open gently")):
    ...     drill = moved(drill, DrillMove(cock, action))
    >>> drill.entries[-1].newly_proved
    ('nothing passes the shut water cock',)
    """
    inside, sight = after_move(drill.condition, drill.entries[-1].inside, move)
    seen, possible = _kind(sight), []
    for condition, before in drill.possible:
        after, would_see = after_move(condition, before, move)
        if _kind(would_see) == seen:
            possible.append((condition, after))
    return _entered(drill, move, sight, inside, tuple(possible))


def _kind(sight):
    """A sight as far as it counts as evidence: nearly full and full are told apart by nobody."""
    return sight.blow, sight.nature, FULL if sight.glass == NEARLY_FULL else sight.glass


@cache
def _found_alike():
    """All conditions by how the glass is found, so that a drill begins at once."""
    groups = {}
    for condition in all_conditions():
        inside, sight = in_service(condition)
        groups.setdefault(_kind(sight), []).append((condition, inside))
    return {kind: tuple(group) for kind, group in groups.items()}


def _entered(drill, move, sight, inside, possible):
    settled = {name for entry in drill.entries
               for name in (*entry.newly_proved, *entry.newly_disproved)}
    proved, disproved = [], []
    for name, holds in STATEMENTS.items():
        if name in settled:
            continue
        verdicts = {holds(condition) for condition, _ in possible}
        if verdicts == {True}:
            proved.append(name)
        elif verdicts == {False}:
            disproved.append(name)
    entry = DrillEntry(len(drill.entries), move, sight, inside, tuple(proved), tuple(disproved))
    return replace(drill, entries=(*drill.entries, entry), possible=possible)
