"""Signatures are computed; noisy observations lead back to the fault that was there."""

from random import Random

import numpy as np
import pytest
from bench_states import setting

from levelkit.diagnosis.checks import CHECKS, SPREAD
from levelkit.diagnosis.faulty import NO_FAULT, Placed
from levelkit.diagnosis.observing import observed, seeded_case, with_noise
from levelkit.diagnosis.ranking import (
    SEPARABLE,
    distance,
    evidence,
    in_the_running,
    look_alikes,
    ranked,
    separating_checks,
    square_misfits,
)
from levelkit.diagnosis.readings import bench_result
from levelkit.diagnosis.setting import GLASS_A, SHARED, TRANSMITTER_1, TRANSMITTER_2, U_TUBE

ALL = tuple(CHECKS)
ON_ARRIVAL = ("readings", "movement")


def tried(signatures, checks, seeds):
    """Return a row for each seed: right, chance claimed, whether it has look-alikes, in group."""
    rows, memory = [], {}
    for seed in seeds:
        placed, result = seeded_case(signatures, seed)
        exact = observed(result, checks, memory)
        best = ranked(signatures, with_noise(exact, Random(seed)), checks)[0]
        others = look_alikes(signatures, placed, exact, checks)
        rows.append((best.faults == (placed,), best.chance, bool(others),
                     best.faults[0] in (placed, *others)))
    return np.array(rows)


@pytest.mark.parametrize("checks", [ON_ARRIVAL, ALL], ids=["on arrival", "all checks"])
def test_single_faults_come_first_where_physics_tells_them_apart(signatures, checks):
    """200 of the seeded cases; tests/bench/bench_diagnosis.py runs 2,000."""
    right, claimed, alike, among = tried(signatures, checks, range(200)).T
    apart = alike == 0
    assert apart.sum() > 80 and right[apart].mean() >= 0.98
    assert among[~apart].mean() >= 0.95
    # the rule knows how often it is right, so nothing is left in the observations to be had
    spread = np.sqrt((claimed * (1.0 - claimed)).sum())
    assert abs(right.sum() - claimed.sum()) < 3.0 * spread + 1.0


def test_no_other_rule_has_more_hits(signatures):
    """The bound: the mean chance of the likeliest. A rule by least misfit stays below it."""
    memory, hits, bound = {}, 0, 0.0
    for seed in range(150):
        placed, result = seeded_case(signatures, seed)
        seen = with_noise(observed(result, ON_ARRIVAL, memory), Random(seed))
        suspects = ranked(signatures, seen, ON_ARRIVAL)
        bound += suspects[0].chance
        hits += min(suspects, key=lambda item: item.misfit).faults == (placed,)
    assert 75 < hits <= bound + 3.0 * np.sqrt(bound * (1.0 - bound / 150))


def test_a_signature_between_its_knots_is_what_the_bench_shows(signatures):
    """The curve is taken as straight only where it is: off by less than a spread anywhere."""
    worst = 0.0
    for seed in range(60):
        placed, result = seeded_case(signatures, seed)
        exact = observed(result, ON_ARRIVAL)
        index = signatures.suspects.index(placed)
        worst = max(worst, square_misfits(signatures, exact, ON_ARRIVAL)[index].min())
    assert worst < 3.0


def test_evidence_by_hand():
    """Two levels, chi2 of 0 and 2: ln of the mean of 1 and 1/e."""
    assert evidence(np.array([0.0, 2.0])) == pytest.approx(np.log((1 + np.exp(-1)) / 2))
    assert evidence(np.array([1e6, 1e6 + 2.0])) == pytest.approx(-5e5 + np.log(
        (1 + np.exp(-1)) / 2))


def test_chances_add_up_and_follow_the_misfit(signatures):
    seen = {("list", "ship"): 2.0, ("roll", "ship"): 0.0}
    suspects = ranked(signatures, seen, ("clinometer",))
    assert sum(item.chance for item in suspects) == pytest.approx(1.0)
    assert [item.chance for item in suspects] == sorted((item.chance for item in suspects),
                                                        reverse=True)
    by_hand = (2.0 / SPREAD["list"]) ** 2 / 2
    none = next(item for item in suspects if item.faults == (NO_FAULT,))
    assert none.misfit == pytest.approx(by_hand)


def test_the_same_leg_lost_under_two_names_is_never_told_apart(signatures):
    one, two = ((Placed(key, "common leg"),) for key in ("reference-leg-lost", "common-leg-lost"))
    assert distance(signatures, one, two, ON_ARRIVAL) == 0.0
    assert separating_checks(signatures, one, two) == ()


@pytest.mark.parametrize("first, second, check", [
    (Placed("both-ways-choked", GLASS_A), Placed("false-line", GLASS_A), "blow A"),
    (Placed("drum-isolator-shut", U_TUBE), Placed("line-choked", U_TUBE), "valves"),
    (Placed("drum-isolator-shut", TRANSMITTER_1), Placed("line-choked", TRANSMITTER_1), "valves"),
    (Placed("receiver-shunted", TRANSMITTER_2), Placed("drum-drain-leaking", TRANSMITTER_2),
     "loop"),
    (Placed("reference-leg-lost", "common leg"), Placed("reference-leg-gas", "common leg"), "gas"),
    (Placed("swell", "drum"), NO_FAULT, "readings"),
])
def test_the_check_that_a_watch_would_choose_is_among_those_that_separate(
        signatures, first, second, check):
    assert check in separating_checks(signatures, (first,), (second,))


def test_a_sound_boiler_is_called_sound(signatures):
    result = bench_result(setting(level=0.3, arrangement=SHARED))
    best = ranked(signatures, observed(result, ALL), ALL)[0]
    assert best.faults == (NO_FAULT,) and best.level == pytest.approx(0.3, abs=0.002)


def test_more_checks_leave_fewer_in_the_running(signatures):
    result = bench_result(setting(level=0.2, arrangement=SHARED),
                          (Placed("false-line", GLASS_A),))
    left = []
    for checks in (("readings",), ON_ARRIVAL, (*ON_ARRIVAL, "blow A")):
        left.append(len(in_the_running(ranked(signatures, observed(result, checks), checks))))
    assert left[0] >= left[1] >= left[2] == 1
    assert left[0] > 1 and SEPARABLE > 3
