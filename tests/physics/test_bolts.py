"""Tightening: the order itself, the balance of forces, and what a wrong order does."""

from math import cos, exp, pi, sin

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from levelkit.errors import InputError
from levelkit.physics.bolts import (
    LEFT,
    RIGHT,
    BoltStep,
    GaugeCover,
    end_first_order,
    tightening_order,
    tightening_result,
)

pair_counts = st.integers(2, 40)


@given(pair_counts)
def test_every_bolt_comes_once_in_every_stage(pairs):
    for order in (tightening_order(pairs), end_first_order(pairs, (0.3, 0.6, 1.0))):
        for number, share in enumerate((0.3, 0.6, 1.0)):
            stage = order[2 * pairs * number:2 * pairs * (number + 1)]
            assert {step.share for step in stage} == {share}
            assert len({(step.pair, step.side) for step in stage}) == 2 * pairs


@given(pair_counts)
def test_the_order_runs_from_the_middle_outwards_and_crosses_over(pairs):
    stage = tightening_order(pairs, (1.0,))
    distance = [abs(step.pair - (pairs + 1) / 2) for step in stage]
    assert distance == sorted(distance)
    for before, after in zip(stage[::2], stage[1::2], strict=True):
        assert before.side != after.side  # each couple of pulls lies across the cover
        assert before.pair + after.pair == pairs + 1


def test_end_first_starts_at_the_end():
    assert end_first_order(4)[0] == BoltStep(1, LEFT, 1.0)
    assert end_first_order(4)[-1] == BoltStep(4, RIGHT, 1.0)


ORDERS = {"middle outwards": tightening_order(8), "end first": end_first_order(8),
          "middle, one stage": tightening_order(8, (1.0,))}


@pytest.mark.parametrize("order", ORDERS.values(), ids=ORDERS)
def test_the_gasket_carries_what_the_bolts_pull(order):
    cover = GaugeCover()
    result = tightening_result(cover, order)
    spacing = result.place[1] - result.place[0]
    carried = spacing * (result.gasket_load.sum()
                         - (result.gasket_load[0] + result.gasket_load[-1]) / 2)
    assert carried == pytest.approx(result.bolt_loads.sum(), rel=1e-6)
    turning = spacing * (result.gasket_load * result.place).sum()
    centres = cover.pitch * (np.arange(cover.pairs) + 0.5)
    assert turning - spacing / 2 * result.gasket_load[-1] * result.place[-1] == pytest.approx(
        (result.bolt_loads.sum(axis=1) * centres).sum(), rel=1e-6)


def test_the_last_bolt_has_its_load_and_a_neighbour_tightened_before_has_lost_some():
    result = tightening_result(GaugeCover(), end_first_order(8))
    assert result.bolt_loads[-1, 1] == pytest.approx(15e3)
    assert result.bolt_loads[0, 0] < 0.6 * 15e3


def test_end_first_leaves_the_first_end_slack_and_the_middle_order_does_not():
    middle, end = (tightening_result(GaugeCover(), ORDERS[name])
                   for name in ("middle outwards", "end first"))
    assert middle.evenness[-1] > 0.9 > 0.7 > end.evenness[-1]
    assert np.argmin(end.gasket_load) == 0  # where the spanner began
    assert middle.gasket_load[0] == pytest.approx(middle.gasket_load[-1], rel=0.02)


def test_without_set_the_order_hardly_matters():
    cover = GaugeCover(gasket_set=1.0)
    good, bad = (tightening_result(cover, ORDERS[name]).evenness[-1]
                 for name in ("middle outwards", "end first"))
    assert abs(good - bad) < 0.03


def test_stages_keep_more_of_the_load():
    one, three = (tightening_result(GaugeCover(), tightening_order(8, shares)).bolt_loads.mean()
                  for shares in ((1.0,), (0.3, 0.6, 1.0)))
    assert three > 1.1 * one


def decay(stiffness, gasket):
    return (gasket / (4 * stiffness)) ** 0.25


def test_one_bolt_in_the_middle_presses_like_a_long_beam_on_a_foundation():
    """BEAM-ON-FOUNDATION: w = P b/(2k) e^-bx (cos bx + sin bx), M = P/(4b), before it lifts."""
    cover = GaugeCover(pairs=39, pitch=0.02, bending_stiffness=16e3, gasket_stiffness=5e9)
    result = tightening_result(cover, [BoltStep(20, LEFT, 1.0)])
    rate, load = decay(16e3, 5e9), 15e3
    distance = np.abs(result.place - result.place[-1] / 2)
    near = distance < 0.5 * pi / rate
    exact = np.array([load * rate / 2 * exp(-rate * x) * (cos(rate * x) + sin(rate * x))
                      for x in distance[near]])
    assert result.gasket_load[near] == pytest.approx(exact, abs=0.02 * exact.max())
    assert result.bending_moment[0] == pytest.approx(load / (4 * rate), rel=0.03)


def test_one_bolt_at_the_end_presses_four_times_as_hard():
    """BEAM-ON-FOUNDATION, end load: 2 P b against P b/2."""
    cover = GaugeCover(pairs=40, pitch=0.005)
    end, middle = (tightening_result(cover, [BoltStep(pair, LEFT, 1.0)]).gasket_load.max()
                   for pair in (1, 20))
    assert end / middle == pytest.approx(4.0, rel=0.15)


def test_a_rigid_cover_spreads_its_load_evenly():
    cover = GaugeCover(bending_stiffness=1e8, gasket_stiffness=1e8, bolt_stiffness=1e4,
                       gasket_set=1.0)
    result = tightening_result(cover, tightening_order(8))
    assert result.evenness[-1] > 0.99  # soft bolts keep their load, so nothing tilts
    assert result.bolt_loads == pytest.approx(np.full((8, 2), 15e3), rel=0.01)


@pytest.mark.parametrize("call, words", [
    (lambda: tightening_order(1), "2 to 40"),
    (lambda: tightening_order(8, (0.6, 0.3)), "rising shares"),
    (lambda: tightening_order(8, ()), "rising shares"),
    (lambda: tightening_result(GaugeCover(), []), "0 steps"),
    (lambda: tightening_result(GaugeCover(), [BoltStep(9, LEFT, 1.0)]), "pairs 1 to 8"),
    (lambda: tightening_result(GaugeCover(), [BoltStep(1, LEFT, 60.0)]),
     r"share of the bolt load is 60; the allowed range is 0 to 1\.5"),
    (lambda: GaugeCover(bolt_load=-1.0), "bolt load"),
])
def test_impossible_orders_are_refused(call, words):
    with pytest.raises(InputError, match=words):
        call()


@pytest.mark.parametrize("order", [tightening_order, end_first_order])
def test_pairs_of_bolts_are_counted_from_2_to_40(order):
    assert len(order(40)) > len(order(2))
    for wrong in (1, 41, 4.5):
        with pytest.raises(InputError, match="2 to 40"):
            order(wrong)


def test_nuts_put_on_by_hand_press_nothing_evenly():
    assert list(tightening_result(GaugeCover(), [BoltStep(1, LEFT, 0.0)]).evenness) == [0.0]
