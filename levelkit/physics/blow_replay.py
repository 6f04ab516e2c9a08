"""A blow-through drill played again, asked ahead, and written down."""

from .blow_glass import ZONES, GaugeCondition, after_move, in_service
from .blow_through import TUBULAR_DRILL, moved, new_drill


def replayed(seed, moves, variant=TUBULAR_DRILL, fault=None, zone=None):
    """Return the drill that a list of moves leads to.

    Parameters
    ----------
    seed : int
        As in :func:`new_drill`.
    moves : sequence of DrillMove [-]
        The moves in order.
    variant : str
        As in :func:`new_drill`.
    fault, zone : str or None
        As in :func:`new_drill`.

    Returns
    -------
    BlowDrill [-]
        After the last move.

    Raises
    ------
    InputError
        As in :func:`new_drill`.

    References
    ----------
    [PRACTICE-BLOWING].

    Examples
    --------
    >>> from levelkit.physics.blow_glass import DrillMove
    >>> len(replayed(7, [DrillMove("steam", "shut")]).entries)
    2
    """
    drill = new_drill(seed, variant, fault, zone)
    for move in moves:
        drill = moved(drill, move)
    return drill


def expected_sights(drill, move):
    """Return what a healthy gauge would show after a move, for each place of the level.

    Parameters
    ----------
    drill : BlowDrill [-]
        Before the move.
    move : DrillMove [-]
        The move asked about.

    Returns
    -------
    dict of str to Sight [-]
        One sight for each zone.

    References
    ----------
    [PRACTICE-BLOWING].

    Examples
    --------
    >>> from levelkit.physics.blow_glass import DrillMove
    >>> seen = expected_sights(new_drill(7), DrillMove("drain", "open gently"))
    >>> seen["below the water connection"].nature
    'dry'
    """
    sights = {}
    for zone in ZONES:
        healthy = GaugeCondition(zone=zone)
        inside, _ = in_service(healthy)
        for entry in drill.entries[1:]:
            inside, _ = after_move(healthy, inside, entry.move)
        sights[zone] = after_move(healthy, inside, move)[1]
    return sights


def record_rows(drill):
    """Return the drill as rows for a spreadsheet, the hidden truth left out.

    Parameters
    ----------
    drill : BlowDrill [-]
        The drill.

    Returns
    -------
    tuple of dict
        One row for each entry; every value is text or a whole number [-].

    References
    ----------
    [PRACTICE-BLOWING].

    Examples
    --------
    >>> record_rows(new_drill(7, fault="none"))[0]["move"]
    0
    """
    return tuple({
        "seed": drill.seed, "variant": drill.variant, "move": entry.number,
        "cock": entry.move.cock if entry.move else "", "action": entry.move.action
        if entry.move else "as found",
        "steam handle": _handle(entry.inside.steam_handle),
        "water handle": _handle(entry.inside.water_handle),
        "drain handle": _handle(entry.inside.drain_handle),
        "blow": entry.sight.blow, "nature": entry.sight.nature, "glass": entry.sight.glass,
        "proved": "; ".join(entry.newly_proved), "disproved": "; ".join(entry.newly_disproved),
    } for entry in drill.entries)


def _handle(is_open):
    return "open" if is_open else "shut"
