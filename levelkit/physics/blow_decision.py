"""The end of a blow-through drill: is the level known, and what is done about it?

Every action here is advised only beside :data:`levelkit.constants.CAUTION`.
"""

from dataclasses import dataclass

from ..constants import CAUTION
from ..errors import InputError
from .blow_glass import (
    ABOVE,
    BELOW,
    BETWEEN,
    DRAIN,
    IN_SIGHT,
    OPEN,
    SHUT,
    STEAM,
    STRONG,
    WATER,
    ZONES,
)
from .blow_ledger import PROVED, STATEMENTS, ledger, proved_zones
from .blow_through import PLATE_DRILL

NOT_PROVED = "not proved"
CONTINUE = "carry on steaming"
FEED_CAUTIOUSLY = "stop firing, find out why, feed cautiously only if procedures allow"
STOP_FEED = "stop the feed, ease firing and steam, blow down as permitted"
STOP_FIRING = "stop firing, do not feed, ease off steam, let it cool, report"
PROVE_ANOTHER = ("assume low water: do not feed on this glass, prove another, be ready to "
                 "stop firing")
ACTIONS = (CONTINUE, FEED_CAUTIOUSLY, STOP_FEED, STOP_FIRING, PROVE_ANOTHER)
PLATE_BLOWS = 2


@dataclass(frozen=True, slots=True)
class Decision:
    """What a proved level asks for.

    Attributes
    ----------
    zone : str
        Where the level is, or "not proved".
    action : str
        What to do.
    reason : str
        Why.
    caution : str
        Stands beside the action.
    source : str
        Where it comes from.
    """

    zone: str
    action: str
    reason: str
    caution: str
    source: str


_PRACTICE = "common practice, no source; several open marine texts agree"
DECISIONS = {row.zone: row for row in (
    Decision(IN_SIGHT, CONTINUE, "water came, and settled in the glass", CAUTION, _PRACTICE),
    Decision(BETWEEN, FEED_CAUTIOUSLY, "water came, but fell out of sight when steam was let in: "
             "low, yet it covers the connection", CAUTION, _PRACTICE),
    Decision(ABOVE, STOP_FEED, "water came, and the glass stayed full with both ways proved clear",
             CAUTION, _PRACTICE),
    Decision(BELOW, STOP_FIRING, "no water came through a way proved clear: below the connection, "
             "nobody knows how far", CAUTION, _PRACTICE),
    Decision(NOT_PROVED, PROVE_ANOTHER, "a glass that is not proved is no witness; low water is "
             "the case that kills", CAUTION, _PRACTICE),
)}
"""The decision table by zone."""


@dataclass(frozen=True, slots=True)
class Declaration:
    """What the candidate says at the end.

    Attributes
    ----------
    zone : str
        Where the level is, or "not proved".
    action : str
        One of `ACTIONS`.
    claims : tuple of str
        Statements of the ledger that the candidate holds to be proved.
    """

    zone: str
    action: str
    claims: tuple = ()

    def __post_init__(self):
        for value, known in ((self.zone, (*ZONES, NOT_PROVED)), (self.action, ACTIONS),
                             *((claim, tuple(STATEMENTS)) for claim in self.claims)):
            if value not in known:
                raise InputError(f"{value!r} is not known; give one of {', '.join(known)}.")


@dataclass(frozen=True, slots=True)
class Judgement:
    """How a drill ended.

    Attributes
    ----------
    passed : bool
        Whether level, action and claims are borne out by what was seen.
    reasons : tuple of str
        What was wrong, in sentences; empty where passed.
    remarks : tuple of str
        Good practice that does not decide: the order of returning to service.
    decision : Decision
        What the proofs asked for.
    """

    passed: bool
    reasons: tuple
    remarks: tuple
    decision: Decision


def judged(drill, declaration):
    """Return whether a declaration is borne out by the proofs of the drill.

    Parameters
    ----------
    drill : BlowDrill [-]
        The drill at its end.
    declaration : Declaration [-]
        What the candidate says.

    Returns
    -------
    Judgement [-]
        Passed or not, reasons, remarks, the decision that the proofs asked for.

    Notes
    -----
    The hidden truth is not looked at: a lucky guess does not pass, and a level declared
    "not proved" passes only while it is not and each way has been let blow alone: to turn
    away from a glass untried proves nothing about it. Where nothing is proved, stopping the
    firing is as right as proving another glass. On a high-pressure plate glass blowing harder or
    more often than needed fails as well.

    References
    ----------
    [PRACTICE-BLOWING].

    Examples
    --------
    >>> from levelkit.physics.blow_through import new_drill
    >>> drill = new_drill(7, fault="none", zone="in the visible glass")
    >>> judged(drill, Declaration("in the visible glass", "carry on steaming")).passed
    False
    """
    zones = proved_zones(drill)
    zone = zones[0] if len(zones) == 1 else NOT_PROVED
    decision, reasons = DECISIONS[zone], []
    if declaration.zone != zone:
        if zone == NOT_PROVED:
            reasons.append(f"The level is not proved {declaration.zone}: from what was seen it "
                           f"could be {', or '.join(zones)}.")
        else:
            reasons.append(f"What was seen proves the level {zone}.")
    right = {decision.action} | ({STOP_FIRING} if zone == NOT_PROVED else set())
    if declaration.action not in right:
        reasons.append(f"The action for a level {zone} is: {decision.action}. {CAUTION}")
    verdicts = {line.statement: line.verdict for line in ledger(drill)}
    if zone == declaration.zone == NOT_PROVED:
        reasons += _not_tried(drill)
    unproved = [claim for claim in declaration.claims if verdicts[claim] != PROVED]
    if unproved:
        reasons.append(f"Nothing seen so far proves: {', '.join(unproved)}.")
    inside = drill.entries[-1].inside
    in_use = inside.steam_handle and inside.water_handle and not inside.drain_handle
    if declaration.action == CONTINUE and not in_use:
        reasons.append("The glass is not back in service: steam and water cock open, drain shut.")
    if drill.variant == PLATE_DRILL:
        reasons += plate_harm(drill)
    return Judgement(not reasons, tuple(reasons), returning_remarks(drill), decision)


def _not_tried(drill):
    """What a glass that is called not proved has not been asked yet."""
    looks = {(inside.steam_handle, inside.water_handle)
             for inside in (entry.inside for entry in drill.entries) if inside.drain_handle}
    ways = [way for way, alone in (("water way", (False, True)), ("steam way", (True, False)))
            if alone not in looks]
    if not ways:
        return []
    return [f"The {' and the '.join(ways)} {'was' if len(ways) == 1 else 'were'} not let blow "
            "alone: a glass untried is not yet a glass not proved."]


def returning_remarks(drill):
    """Return remarks on the order in which the glass was put back into service.

    Parameters
    ----------
    drill : BlowDrill [-]
        The drill.

    Returns
    -------
    tuple of str
        Sentences; empty where the order was good or the glass was never shut.

    Notes
    -----
    Tubular: drain shut, water cock (water goes to the top), then steam cock (it falls to
    the level). Plate: steam cock first with the drain cracked to warm the glass, then
    water cock, then drain shut. Published orders differ, so this does not decide.

    References
    ----------
    [PRACTICE-BLOWING]; [PRACTICE-BREAKAGE].

    Examples
    --------
    >>> from levelkit.physics.blow_glass import DrillMove
    >>> from levelkit.physics.blow_replay import replayed
    >>> moves = [DrillMove("water", "shut"), DrillMove("steam", "shut"),
    ...          DrillMove("steam", "open"), DrillMove("water", "open")]
    >>> returning_remarks(replayed(7, moves))[0][:32]
    'The steam cock was opened before'
    """
    last = {cock: None for cock in (STEAM, WATER, DRAIN)}
    for entry in drill.entries[1:]:
        opened = entry.move.action != SHUT
        if opened == (entry.move.cock != DRAIN):  # the moves that put a cock into service
            last[entry.move.cock] = entry.number
    steam, water, drain = (last[cock] for cock in (STEAM, WATER, DRAIN))
    remarks = []
    if drill.variant == PLATE_DRILL:
        if steam and water and water < steam:
            remarks.append("The water cock was opened before the steam cock: steam should have "
                           "warmed the plates first.")
        if drain and water and drain < water:
            remarks.append("The drain was shut before the water cock was opened: condensate could "
                           "not run off while the plates warmed.")
        return tuple(remarks)
    if steam and water and steam < water:
        remarks.append("The steam cock was opened before the water cock: water that goes to the "
                       "top first proves more.")
    if drain and water and drain > water:
        remarks.append("The water cock was opened before the drain was shut.")
    return tuple(remarks)


def plate_harm(drill):
    """Return what a drill did to a high-pressure plate glass.

    Parameters
    ----------
    drill : BlowDrill [-]
        The drill.

    Returns
    -------
    tuple of str
        Sentences; empty where the glass was blown gently and no more than needed.

    Notes
    -----
    Blowing erodes the mica and shocks the plates: only when necessary, by the maker's
    method. At most two strong blows: one for each way.

    References
    ----------
    [PRACTICE-BLOWING].

    Examples
    --------
    >>> from levelkit.physics.blow_glass import DrillMove
    >>> from levelkit.physics.blow_replay import replayed
    >>> drill = replayed(7, [DrillMove("drain", "open")], fault="none",
    ...                  zone="in the visible glass")
    >>> len(plate_harm(drill))
    1
    """
    harm, strong = [], 0
    for entry in drill.entries[1:]:
        blowing = entry.sight.blow == STRONG
        strong += blowing
        if blowing and entry.move.action == OPEN:
            harm.append(f"Move {entry.number} snatched the {entry.move.cock} cock open into a "
                        "strong blow: crack it, the mica and the plates suffer.")
    if strong > PLATE_BLOWS:
        harm.append(f"{strong} strong blows where {PLATE_BLOWS} prove both ways: blow a plate "
                    "glass only when necessary, by the maker's method.")
    return tuple(harm)
