"""The ledger of a blow-through drill: what has been proved, disproved, or is still open."""

from dataclasses import dataclass

from .blow_glass import BELOW, CHOKED, CLEAR, IN_SIGHT, ZONES

PROVED, DISPROVED, OPEN_QUESTION = "proved", "disproved", "open"

STATEMENTS = {
    "nothing passes the shut steam cock": lambda c: c.steam_way == CHOKED or (
        c.steam_holds and c.steam_plug),
    "nothing passes the shut water cock": lambda c: c.water_way == CHOKED or (
        c.water_holds and c.water_plug),
    "drain clear": lambda c: c.drain_way == CLEAR,
    "water way clear": lambda c: c.water_way == CLEAR and c.water_plug,
    "steam way clear": lambda c: c.steam_way == CLEAR and c.steam_plug,
    "nothing passes the shut drain": lambda c: c.drain_way == CHOKED or c.drain_holds,
    "level at or above the water connection": lambda c: c.zone != BELOW,
    "level in the visible glass": lambda c: c.zone == IN_SIGHT,
}
"""What a drill can prove, each a test of a condition."""


@dataclass(frozen=True, slots=True)
class Proof:
    """One line of the ledger.

    Attributes
    ----------
    statement : str
        One of `STATEMENTS`.
    verdict : str
        "proved", "disproved" or "open".
    move : int or None
        Number of the move that settled it; 0 for what was seen at the start.
    """

    statement: str
    verdict: str
    move: object


def ledger(drill):
    """Return what the drill has proved so far.

    Parameters
    ----------
    drill : BlowDrill [-]
        The drill.

    Returns
    -------
    tuple of Proof [-]
        One line for each statement, in the order of `STATEMENTS`.

    References
    ----------
    [PRACTICE-BLOWING].

    Examples
    --------
    >>> from levelkit.physics.blow_through import new_drill
    >>> drill = new_drill(7, fault="steam way choked", zone="in the visible glass")
    >>> {line.statement: line.verdict for line in ledger(drill)}["steam way clear"]
    'open'
    """
    settled = {}
    for entry in drill.entries:
        settled |= {name: Proof(name, PROVED, entry.number) for name in entry.newly_proved}
        settled |= {name: Proof(name, DISPROVED, entry.number) for name in entry.newly_disproved}
    return tuple(settled.get(name, Proof(name, OPEN_QUESTION, None)) for name in STATEMENTS)


def proved_zones(drill):
    """Return every place where the level can still be; a single one is proved.

    Parameters
    ----------
    drill : BlowDrill [-]
        The drill.

    Returns
    -------
    tuple of str
        Zones not ruled out, from below upwards.

    References
    ----------
    [PRACTICE-BLOWING].

    Examples
    --------
    >>> from levelkit.physics.blow_through import new_drill
    >>> len(proved_zones(new_drill(7, fault="none", zone="in the visible glass")))
    4
    """
    left = {condition.zone for condition, _ in drill.possible}
    return tuple(zone for zone in ZONES if zone in left)
