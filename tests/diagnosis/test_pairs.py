"""Two faults at once: sums of signatures are what the bench shows, and singles come before."""

from random import Random

import numpy as np
import pytest
from bench_states import setting

from levelkit.diagnosis.cases import LOW_WATER
from levelkit.diagnosis.faulty import NO_FAULT, Placed
from levelkit.diagnosis.observing import observed, seeded_case, seeded_pair, with_noise
from levelkit.diagnosis.pairs import SINGLES, Pairs, look_alikes_of_pair, ranked_together
from levelkit.diagnosis.ranking import square_misfits
from levelkit.diagnosis.readings import bench_result
from levelkit.diagnosis.setting import GLASS_A, SHARED, TRANSMITTER_1, U_TUBE
from levelkit.diagnosis.signatures import Signatures

CHECKS = ("readings", "movement")


def test_every_pair_is_counted_once(pairs):
    """By hand: 74 faults make 2,701 pairs, less the one of both levels out of sight."""
    count = len(pairs.signatures.suspects) - 1
    assert len(pairs.apart) + len(pairs.meeting) == count * (count - 1) // 2 - 1
    assert len({frozenset(pair) for pair in pairs.all}) == len(pairs.all)
    assert {LOW_WATER in pair for pair in pairs.together} == {True, False}


def test_the_sum_of_two_signatures_is_what_the_bench_shows_with_both_faults(pairs):
    """The other route: the bench with both faults, at levels that are no knots."""
    signatures, random = pairs.signatures, Random(5)
    for i, j in random.sample(pairs.apart, 12):
        faults = signatures.suspects[i], signatures.suspects[j]
        level = float(random.choice(signatures.fine))
        exact = observed(bench_result(setting(level=level, arrangement=SHARED), faults), CHECKS)
        singles = square_misfits(signatures, exact, CHECKS)
        assert (singles[i] + singles[j] - singles[0]).min() < 6.0, faults


def shares(pairs, cases):
    """Return how many that can be told apart came first, of how many; and so for the rest."""
    first = apart = among = alike = 0
    for seed, (faults, result) in cases:
        exact = observed(result, CHECKS)
        best = ranked_together(pairs, with_noise(exact, Random(seed)), CHECKS)[0].faults
        others = look_alikes_of_pair(pairs, faults, exact, CHECKS)
        if others:
            alike, among = alike + 1, among + (best in (faults, *others))
        else:
            apart, first = apart + 1, first + (best == faults)
    return first, apart, among, alike


def test_pairs_come_first_where_they_can_be_told_apart(pairs):
    seeds = range(60)
    first, apart, among, alike = shares(
        pairs, [(seed, seeded_pair(pairs.signatures, pairs.all, seed)) for seed in seeds])
    print(f"pairs on arrival: {first} of {apart} first, {among} of {alike} in the group")
    assert apart >= 10 and first >= 0.95 * apart and among >= 0.95 * alike


def test_single_faults_are_not_drowned_by_pairs(pairs):
    def single(seed):
        placed, result = seeded_case(pairs.signatures, seed)
        return (placed,), result
    first, apart, among, alike = shares(pairs, [(seed, single(seed)) for seed in range(40)])
    assert apart >= 20 and first >= 0.95 * apart and among >= 0.85 * alike


def test_a_pair_pays_for_being_two(pairs):
    """By hand: without any observation of use, the prior is all there is."""
    seen = {("list", "ship"): 0.0, ("roll", "ship"): 0.0}
    suspects = ranked_together(pairs, seen, ("clinometer",))
    alone = next(item for item in suspects if item.faults == (NO_FAULT,))
    two = next(item for item in suspects if item.faults == pairs.all[0])
    count = len(pairs.signatures.suspects)
    assert alone.chance / two.chance == pytest.approx(
        SINGLES / count / ((1 - SINGLES) / len(pairs.all)), rel=1e-6)


def test_a_lost_leg_over_low_water_is_named_with_the_low_water(pairs):
    faults = (Placed("common-leg-lost", "common leg"), LOW_WATER)
    result = bench_result(setting(arrangement=SHARED), faults)
    checks = (*CHECKS, "blow A")
    likely = ranked_together(pairs, observed(result, checks), checks)[:2]
    assert all(LOW_WATER in item.faults and len(item.faults) == 2 for item in likely)
    assert np.isnan(likely[0].level)


def test_two_faults_that_meet_in_one_instrument_are_ranked_when_asked_for(signatures):
    two = (Placed("glass-drain-leaking", GLASS_A), Placed("top-joint-leaking", GLASS_A))
    two = tuple(item for item in signatures.suspects if item in two)
    three = Pairs(signatures, also=(two,))
    assert two in three.meeting and two in three.all
    result = bench_result(setting(level=0.3, arrangement=SHARED), two)
    checks = (*CHECKS, "leaks")
    assert ranked_together(three, observed(result, checks), checks)[0].faults == two


def test_faults_on_one_leg_meet_there():
    """A valve that passes on the U-tube takes the water of everybody on the common leg."""
    shared = Pairs(Signatures(setting(arrangement=SHARED)))
    two = {Placed("equaliser-passing", U_TUBE), Placed("reference-leg-warm", "common leg")}
    assert any(set(pair) == two for pair in shared.meeting)
    assert not any(TRANSMITTER_1 in (shared.signatures.suspects[i].place,
                                     shared.signatures.suspects[j].place)
                   and shared.signatures.suspects[i].place == shared.signatures.suspects[j].place
                   for i, j in shared.apart)
