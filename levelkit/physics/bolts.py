"""Tightening the bolts of a plate gauge: the order, and what an order does to the gasket.

Teaching model: the cover is a beam on a gasket that takes a set, the bolts are springs.
Turning one nut presses the gasket there and slackens the neighbours. Where the gasket was
squeezed first it springs back least, and is left with the least load.
"""

from dataclasses import dataclass

import numpy as np

from ..errors import InputError, checked
from ._cover_beam import CoverBeam

LEFT, RIGHT = "left", "right"


@dataclass(frozen=True, slots=True)
class BoltStep:
    """One pull of the spanner.

    Attributes
    ----------
    pair : int
        Bolt pair, 1 at one end of the cover.
    side : str
        "left" or "right".
    share : float [1]
        Load pulled up to, as a share of the full bolt load.
    """

    pair: int
    side: str
    share: float


@dataclass(frozen=True, slots=True)
class GaugeCover:
    """Cover, gasket and bolts of a plate gauge; the defaults are an invented gauge.

    Attributes
    ----------
    pairs : int
        Number of bolt pairs, evenly spaced, half a pitch from the ends.
    pitch : float [m]
        Distance from pair to pair.
    bending_stiffness : float [N m2]
        Modulus times second moment of area of the cover.
    gasket_stiffness : float [N/m2]
        Force per metre of cover for a metre of first compression, both edges together.
    gasket_set : float [1]
        How many times stiffer the gasket is on the way back; 1 takes no set.
    bolt_stiffness : float [N/m]
        Pull of one bolt per metre of stretch.
    bolt_load : float [N]
        Full load of one bolt.
    """

    pairs: int = 8
    pitch: float = 0.05
    bending_stiffness: float = 16e3
    gasket_stiffness: float = 5e9
    gasket_set: float = 5.0
    bolt_stiffness: float = 1.7e8
    bolt_load: float = 15e3

    def __post_init__(self):
        _checked_pairs(self.pairs)
        for name, low, high, unit in (("pitch", 0.005, 1.0, "m"),
                                      ("bending_stiffness", 1.0, 1e8, "N m2"),
                                      ("gasket_stiffness", 1e4, 1e13, "N/m2"),
                                      ("gasket_set", 1.0, 100.0, ""),
                                      ("bolt_stiffness", 1e3, 1e12, "N/m"),
                                      ("bolt_load", 1.0, 1e7, "N")):
            checked(name.replace("_", " "), getattr(self, name), low, high, unit)


@dataclass(frozen=True, slots=True)
class TighteningResult:
    """What an order leaves behind.

    Attributes
    ----------
    place : array [m]
        Places along the cover.
    gasket_load : array [N/m]
        Gasket load there at the end; 0 where the cover has lifted.
    bolt_loads : array [N]
        Shape (pairs, 2): left and right bolts at the end; 0 where a bolt is slack.
    evenness : array [1]
        After each step, least over mean gasket load: 1 is even, 0 lifted somewhere or not
        yet pressed.
    bending_moment : array [N m]
        After each step, the largest bending moment in the cover.
    """

    place: object
    gasket_load: object
    bolt_loads: object
    evenness: object
    bending_moment: object


def tightening_order(pairs, shares=(0.3, 0.6, 1.0)):
    """Return the order from the middle outwards, diagonally, in stages.

    Parameters
    ----------
    pairs : int
        Number of bolt pairs, 2 to 40.
    shares : tuple of float [1]
        Share of the full load pulled up to in each stage, rising.

    Returns
    -------
    tuple of BoltStep [1]
        Every bolt once in every stage.

    Raises
    ------
    InputError
        Too few or too many pairs, or shares that do not rise within 0 to 1.

    Notes
    -----
    Teaching order; the maker's order and torque come first.

    References
    ----------
    [PRACTICE-GLASS] from the middle outwards, diagonally, in stages.

    Examples
    --------
    >>> [(step.pair, step.side[0]) for step in tightening_order(3, shares=(1.0,))]
    [(2, 'l'), (2, 'r'), (3, 'l'), (1, 'r'), (3, 'r'), (1, 'l')]
    """
    middle = (_checked_pairs(pairs) + 1) / 2
    rings = sorted({abs(pair - middle) for pair in range(1, pairs + 1)})
    one_round = []
    for ring in rings:
        near, far = round(middle - ring), round(middle + ring)
        if near == far:
            one_round += [(near, LEFT), (near, RIGHT)]
        else:
            one_round += [(far, LEFT), (near, RIGHT), (far, RIGHT), (near, LEFT)]
    return _in_stages(one_round, shares)


def end_first_order(pairs, shares=(1.0,)):
    """Return the order a hurried hand takes: from one end to the other.

    Parameters
    ----------
    pairs : int
        Number of bolt pairs, 2 to 40.
    shares : tuple of float [1]
        Share of the full load pulled up to in each stage, rising.

    Returns
    -------
    tuple of BoltStep [1]
        Every bolt once in every stage.

    Raises
    ------
    InputError
        Too few or too many pairs, or shares that do not rise within 0 to 1.

    References
    ----------
    [PRACTICE-GLASS] named there as the wrong order.

    Examples
    --------
    >>> [(step.pair, step.side[0]) for step in end_first_order(2)]
    [(1, 'l'), (1, 'r'), (2, 'l'), (2, 'r')]
    """
    return _in_stages([(pair, side) for pair in range(1, _checked_pairs(pairs) + 1)
                       for side in (LEFT, RIGHT)], shares)


def tightening_result(cover, order):
    """Return bolt and gasket loads after tightening in an order, and on the way.

    ``EI d4w/dx4 + q(w) = bolt pulls``; gasket: ``q = k w`` on first compression,
    ``q = k w_max - r k (w_max - w)`` on the way back, never below 0; each step pulls one
    bolt to its load while the other nuts stay where they are

    Parameters
    ----------
    cover : GaugeCover [m, N m2, N/m2, N/m, N]
        Cover, gasket and bolts.
    order : sequence of BoltStep [1]
        The steps, any order, any number.

    Returns
    -------
    TighteningResult [m, N/m, N, 1, N m]
        Loads at the end; evenness and bending moment after each step.

    Raises
    ------
    InputError
        No step, or a step for a bolt that the cover does not have.

    Notes
    -----
    No friction, no creep; both bolts of a pair press at one place (no twist). A very soft
    gasket is not made even by one round of any order: it needs more rounds.

    References
    ----------
    [BOLT-MODEL] own derivation; [BEAM-ON-FOUNDATION] beam by cubic elements.

    Examples
    --------
    >>> cover = GaugeCover()
    >>> good = tightening_result(cover, tightening_order(8))
    >>> bad = tightening_result(cover, end_first_order(8))
    >>> f"{good.evenness[-1]:.2f} against {bad.evenness[-1]:.2f}"
    '0.91 against 0.62'
    """
    if not order:
        raise InputError("The order holds 0 steps; give at least one BoltStep.")
    beam = CoverBeam(cover)
    shape, squeezed = np.zeros(2 * beam.nodes), np.zeros(beam.nodes)
    advance = np.zeros(2 * cover.pairs)
    evenness, bending = [], []
    for step in order:
        bolt = _bolt_index(step, cover.pairs)
        pull = step.share * cover.bolt_load
        shape = beam.settled(shape, squeezed, advance, bolt, pull)
        advance[bolt] = pull / cover.bolt_stiffness + shape[2 * beam.bolt_nodes[bolt]]
        load = beam.gasket(shape, squeezed)[0]
        squeezed = np.maximum(squeezed, shape[0::2])
        mean = load.mean()
        evenness.append(load.min() / mean if mean > 0 else 0.0)
        bending.append(beam.largest_moment(shape))
    pulls = beam.bolts(shape, advance)[0].reshape(-1, 2)
    return TighteningResult(beam.element_length * np.arange(beam.nodes), load, pulls,
                            np.array(evenness), np.array(bending))


def _bolt_index(step, pairs):
    checked("number of a bolt pair", step.pair, 1, 40, "", "Pairs count from 1.")
    if step.side not in (LEFT, RIGHT) or not 1 <= step.pair <= pairs:
        raise InputError(f"The step names pair {step.pair}, {step.side!r}; the cover has pairs 1 "
                         f"to {pairs}, {LEFT!r} and {RIGHT!r}.")
    checked("share of the bolt load", step.share, 0.0, 1.5, "", "1 is the full load.")
    return 2 * (step.pair - 1) + (step.side == RIGHT)


def _checked_pairs(pairs):
    if isinstance(pairs, bool) or not isinstance(pairs, (int, np.integer)) or not 2 <= pairs <= 40:
        raise InputError(f"The number of bolt pairs is {pairs!r}; the allowed range is 2 to 40, "
                         "a whole number.")
    return pairs


def _in_stages(one_round, shares):
    shares = tuple(checked("stage share", share, 0.01, 1.0, "", "1 is the full load.")
                   for share in shares)
    if not shares or any(b <= a for a, b in zip(shares, shares[1:], strict=False)):
        raise InputError(f"The stage shares are {shares}; give rising shares within 0.01 to 1.")
    return tuple(BoltStep(pair, side, share) for share in shares for pair, side in one_round)
