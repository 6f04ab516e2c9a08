"""What is seen at a gauge glass when a cock is turned: plain logic, no seconds.

Each move is followed by a wait long enough for the glass to come to rest (half a minute).
The time-resolved model of :mod:`levelkit.physics.cocks` shows the same, and a test holds the
two together; this one is quick enough to try thousands of hidden conditions at every move.
"""

from dataclasses import dataclass, replace
from functools import cache
from itertools import product

from ..errors import InputError

STEAM, WATER, DRAIN = "steam", "water", "drain"
OPEN, OPEN_GENTLY, SHUT = "open", "open gently", "shut"
BELOW, BETWEEN = "below the water connection", "between the connection and the visible glass"
IN_SIGHT, ABOVE = "in the visible glass", "above the visible glass"
ZONES = (BELOW, BETWEEN, IN_SIGHT, ABOVE)

STRONG, WEAK, DIES_AWAY, NO_BLOW = "strong", "weak", "dies away", "none"
WET, DRY = "wet", "dry"
CLEAR, NARROWED, CHOKED = "clear", "narrowed", "choked"
EMPTY, LEVEL, NEARLY_FULL, FULL, FOAMING = "empty", "a level", "nearly full", "full", "foaming"

_NONE, _LITTLE, _ALL = 0, 1, 2


@dataclass(frozen=True, slots=True)
class GaugeCondition:
    """What nobody sees: the state of the ways, of the cocks, and the drum level.

    Attributes
    ----------
    steam_way, water_way, drain_way : str
        "clear", "narrowed" or "choked".
    steam_holds, water_holds, drain_holds : bool
        True where the cock is tight when its port is shut.
    steam_plug, water_plug : bool
        True where the handle tells the truth about the port; False where the plug has
        been refitted a quarter turn out.
    ball_free : bool
        True where the ball stays down when a cock is snatched open.
    zone : str
        Where the drum level is, one of `ZONES`.
    found : str
        What a glass whose water way is shut off held when it was found: "empty",
        "a level" or "full".
    """

    steam_way: str = CLEAR
    water_way: str = CLEAR
    drain_way: str = CLEAR
    steam_holds: bool = True
    water_holds: bool = True
    drain_holds: bool = True
    steam_plug: bool = True
    water_plug: bool = True
    ball_free: bool = True
    zone: str = IN_SIGHT
    found: str = LEVEL


@dataclass(frozen=True, slots=True)
class DrillMove:
    """One cock turned.

    Attributes
    ----------
    cock : str
        "steam", "water" or "drain".
    action : str
        "open", "open gently" or "shut".
    """

    cock: str
    action: str

    def __post_init__(self):
        if self.cock not in (STEAM, WATER, DRAIN) or self.action not in (OPEN, OPEN_GENTLY, SHUT):
            raise InputError(f"The move {self.cock!r}, {self.action!r} is not known; give steam, "
                             f"water or drain and {OPEN!r}, {OPEN_GENTLY!r} or {SHUT!r}.")


@dataclass(frozen=True, slots=True)
class Sight:
    """What is seen and heard after a move.

    Attributes
    ----------
    blow : str
        "strong", "weak", "dies away" or "none".
    nature : str
        "wet", "dry" or "" for a blow that lasts.
    glass : str
        "empty", "a level", "nearly full", "full" or "foaming".
    """

    blow: str
    nature: str
    glass: str


@dataclass(frozen=True, slots=True)
class GlassInside:
    """Handles, and what the glass holds, at rest between moves.

    Attributes
    ----------
    steam_handle, water_handle, drain_handle : bool
        True for a handle in the open position.
    glass : str
        As in :class:`Sight`.
    charged : bool
        Whether water or steam under pressure is in the glass.
    air : bool
        Whether air has come in through the drain.
    ball_seated : bool
        Whether the ball shuts the water way.
    """

    steam_handle: bool = True
    water_handle: bool = True
    drain_handle: bool = False
    glass: str = LEVEL
    charged: bool = True
    air: bool = False
    ball_seated: bool = False


@cache
def all_conditions():
    """Return every condition a gauge can be in: what has to be ruled out.

    Conditions that nobody could tell apart (whether a choked cock would hold) count once.

    Returns
    -------
    tuple of GaugeCondition [-]
        6300 conditions: double and triple faults included.

    References
    ----------
    [PRACTICE-BLOWING].

    Examples
    --------
    >>> len(all_conditions())
    6300
    """
    both = (True, False)
    open_ways = (CLEAR, NARROWED)
    steam_ways = [(CHOKED, True, True), *product(open_ways, both, both)]
    water_ways = [(CHOKED, True, True, True, found) for found in (EMPTY, LEVEL, FULL)]
    water_ways += [(*way, True, ball, LEVEL) for *way, ball in product(open_ways, both, both)]
    water_ways += [(*way, False, ball, found) for *way, ball, found in product(
        open_ways, both, both, (EMPTY, LEVEL, FULL))]
    drain_ways = [(CHOKED, True), *product(open_ways, both)]
    return tuple(
        GaugeCondition(steam, water, drain, steam_holds, water_holds, drain_holds, steam_plug,
                       water_plug, ball, zone, found)
        for (steam, steam_holds, steam_plug), (water, water_holds, water_plug, ball, found),
        (drain, drain_holds), zone in product(steam_ways, water_ways, drain_ways, ZONES))


def in_service(condition):
    """Return the glass as it is found, and what is seen: both cocks open, drain shut.

    Parameters
    ----------
    condition : GaugeCondition [-]
        The hidden truth.

    Returns
    -------
    tuple of GlassInside and Sight [-]
        Inside, and what is seen.

    Notes
    -----
    A glass whose water way is shut off may hold anything; one whose steam way is choked
    is full. A calm sea is assumed: a level that does not move proves nothing.

    References
    ----------
    [PRACTICE-BLOWING]; [COCK-MODEL].

    Examples
    --------
    >>> in_service(GaugeCondition(steam_way=CHOKED))[1].glass
    'full'
    """
    # an empty glass with both ways shut has had time to lose its pressure
    return _settled(condition, GlassInside(glass=condition.found,
                                           charged=condition.found != EMPTY))


def after_move(condition, inside, move):
    """Return the glass after one move, and what is seen.

    Parameters
    ----------
    condition : GaugeCondition [-]
        The hidden truth.
    inside : GlassInside [-]
        Before the move.
    move : DrillMove [-]
        The cock turned.

    Returns
    -------
    tuple of GlassInside and Sight [-]
        Inside, and what is seen.

    References
    ----------
    [PRACTICE-BLOWING]; [COCK-MODEL].

    Examples
    --------
    >>> truth = GaugeCondition()
    >>> inside, _ = in_service(truth)
    >>> inside, sight = after_move(truth, inside, DrillMove("drain", "open gently"))
    >>> sight.blow, sight.nature, sight.glass
    ('strong', 'wet', 'foaming')
    """
    opened = move.action != SHUT
    inside = replace(inside, **{f"{move.cock}_handle": opened})
    if move.cock == WATER and not opened:  # pressures beside a seated ball even out: it drops
        inside = replace(inside, ball_seated=False)
    if move.action == OPEN and move.cock in (WATER, DRAIN) and not condition.ball_free:
        _, water, drain = _ways(condition, inside)
        if water == _ALL and drain == _ALL and condition.zone != BELOW:
            inside = replace(inside, ball_seated=True)
    return _settled(condition, inside)


def _ways(condition, inside):
    """How much each way passes: nothing, little, or all."""
    def way(state, port_open, holds):
        if state == CHOKED or not port_open and holds:
            return _NONE
        return _ALL if port_open and state == CLEAR else _LITTLE

    return (way(condition.steam_way, inside.steam_handle == condition.steam_plug,
                condition.steam_holds),
            way(CHOKED if inside.ball_seated else condition.water_way,
                inside.water_handle == condition.water_plug, condition.water_holds),
            way(condition.drain_way, inside.drain_handle, condition.drain_holds))


def _settled(condition, inside):
    steam, water, drain = _ways(condition, inside)
    covered = condition.zone != BELOW
    if drain == _ALL:
        return _blowing(inside, steam, water, covered)
    glass, charged, air = _filled(condition, inside, steam, water)
    if drain == _NONE or not charged:
        return _seen(inside, glass, charged, air, NO_BLOW, "")
    # the drain weeps: it shows whatever stands over it, and empties what nothing feeds
    if water and covered:
        return _seen(inside, glass, True, air, WEAK, WET)
    if water or steam:
        return _seen(inside, EMPTY, True, False, WEAK, DRY)
    return _seen(inside, EMPTY, False, True, DIES_AWAY, "")


def _blowing(inside, steam, water, covered):
    wet_supply, dry_supply = (water if covered else _NONE), max(steam, _NONE if covered else water)
    strongest = max(wet_supply, dry_supply)
    if strongest == _NONE:
        return _seen(inside, EMPTY, False, True, DIES_AWAY if inside.charged else NO_BLOW, "")
    # steam that blows with a little water froths like steam with much: nothing tells them apart
    foams = strongest == _ALL and wet_supply != _NONE
    return _seen(inside, FOAMING if foams else EMPTY, True, False,
                 STRONG if strongest == _ALL else WEAK, WET if wet_supply else DRY)


def _filled(condition, inside, steam, water):
    """What a glass with a tight drain comes to hold: glass, charged, air."""
    if steam and water:
        # steam that squeezes through takes pressure from the glass, which then reads HIGH
        between = LEVEL if steam == _LITTLE else EMPTY
        shown = {BELOW: EMPTY, BETWEEN: between, IN_SIGHT: LEVEL, ABOVE: FULL}[condition.zone]
        return shown, True, False
    if water:
        if condition.zone == BELOW:
            return EMPTY, True, inside.air
        return (NEARLY_FULL if inside.air else FULL), True, inside.air
    # froth that nothing blows through any more falls together below the visible part
    held = EMPTY if inside.glass == FOAMING else inside.glass
    if steam:
        return (FULL if held == NEARLY_FULL else held), True, False
    return held, inside.charged, inside.air


def _seen(inside, glass, charged, air, blow, nature):
    return (replace(inside, glass=glass, charged=charged, air=air), Sight(blow, nature, glass))
