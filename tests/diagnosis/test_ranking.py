"""Signatures are computed; noisy observations lead back to the fault that was there."""

from random import Random

import pytest
from bench_states import setting

from levelkit.diagnosis.checks import CHECKS
from levelkit.diagnosis.faulty import NO_FAULT, Placed
from levelkit.diagnosis.ranking import (
    SEPARABLE,
    Signatures,
    distance,
    in_the_running,
    look_alikes,
    observed,
    ranked,
    seeded_case,
    separating_checks,
    with_noise,
)
from levelkit.diagnosis.readings import bench_result
from levelkit.diagnosis.setting import GLASS_A, SHARED, TRANSMITTER_1, TRANSMITTER_2, U_TUBE

ALL = tuple(CHECKS)
QUICK = ("readings", "movement")


@pytest.fixture(scope="module")
def signatures():
    return Signatures(setting(arrangement=SHARED))


def tried(signatures, checks, seeds):
    """Return how many faults that can be told apart came first, of how many, and the rest."""
    first = apart = among = alike = 0
    memory = {}
    for seed in seeds:
        placed, result = seeded_case(signatures, seed)
        exact = observed(result, checks, memory)
        best = ranked(signatures, with_noise(exact, Random(seed)), checks)[0].placed
        others = look_alikes(signatures, placed, exact, checks)
        if others:
            alike, among = alike + 1, among + (best in (placed, *others))
        else:
            apart, first = apart + 1, first + (best == placed)
    return first, apart, among, alike


def test_single_faults_come_first_where_physics_tells_them_apart(signatures):
    """200 of the seeded cases; tests/bench/bench_diagnosis.py runs 2,000."""
    first, apart, among, alike = tried(signatures, ALL, range(200))
    assert apart > 150 and first >= 0.95 * apart
    assert among >= 0.95 * alike


def test_readings_alone_tell_fewer_apart(signatures):
    _, apart, _, alike = tried(signatures, ("readings",), range(60))
    assert alike > 15 and apart + alike == 60


def test_the_same_leg_lost_under_two_names_is_never_told_apart(signatures):
    one, two = Placed("reference-leg-lost", "common leg"), Placed("common-leg-lost", "common leg")
    assert distance(signatures, one, two, ALL) == 0.0
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
    assert check in separating_checks(signatures, first, second)


def test_a_sound_boiler_is_called_sound(signatures):
    result = bench_result(setting(level=0.3, arrangement=SHARED))
    seen = observed(result, ALL)
    best = ranked(signatures, seen, ALL)[0]
    assert best.placed == NO_FAULT and best.level == pytest.approx(0.3, abs=0.01)


def test_more_checks_leave_fewer_in_the_running(signatures):
    result = bench_result(setting(level=0.2, arrangement=SHARED),
                          (Placed("false-line", GLASS_A),))
    left = []
    for checks in (("readings",), QUICK, (*QUICK, "blow A")):
        seen = observed(result, checks)
        left.append(len(in_the_running(ranked(signatures, seen, checks), len(seen))))
    assert left[0] >= left[1] >= left[2] == 1
    assert SEPARABLE > 3
