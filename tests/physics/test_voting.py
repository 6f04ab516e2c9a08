"""Votes, the simplified formulas, and a Monte-Carlo that must find them again."""

from math import exp

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from outside import outside_values

from levelkit.check.computed import computed_value
from levelkit.errors import InputError
from levelkit.physics.voting import (
    ARCHITECTURES,
    BAD_INPUT,
    HOUR,
    failure_on_demand,
    spurious_trip_rate,
    vote,
)
from levelkit.physics.voting_simulation import (
    VotedChannels,
    exact_failure_on_demand,
    simulated_failure_on_demand,
    simulated_spurious_rate,
)

RATE, YEAR = 2e-6 / HOUR, 8760 * HOUR
levels_of = st.floats(-0.5, 0.5)


@pytest.mark.parametrize("row", outside_values("voting"))
def test_outside_value(row):
    assert computed_value(row) == pytest.approx(row.expected, rel=0, abs=row.allowed)


@given(st.lists(levels_of, min_size=3, max_size=3))
def test_median_select_is_two_out_of_three(levels):
    median = vote("median", levels, -0.1)
    assert median.trips == vote("2oo3", levels, -0.1).trips
    assert median.selected == np.median(levels)
    assert median.trips == (median.selected <= -0.1)


@given(st.sampled_from(list(ARCHITECTURES)), st.lists(levels_of, min_size=3, max_size=3),
       st.integers(0, 2))
def test_a_lower_signal_never_takes_a_trip_away(architecture, levels, which):
    count = ARCHITECTURES[architecture][1]
    levels = levels[:count]
    lower = list(levels)
    lower[which % count] -= 0.3
    assert vote(architecture, lower, -0.1).trips >= vote(architecture, levels, -0.1).trips


BAD_CASES = [
    # one bad input (the first); the others as given: trips with "trip", "healthy", "removed"
    ("1oo1", [0.0], 1, (True, False, True)),
    ("1oo2", [0.0, 0.2], 1, (True, False, False)),
    ("1oo2", [0.0, -0.2], 1, (True, True, True)),
    ("2oo2", [0.0, 0.2], 1, (False, False, False)),
    ("2oo2", [0.0, -0.2], 1, (True, False, True)),
    ("2oo3", [0.0, -0.2, 0.2], 1, (True, False, True)),
    ("2oo3", [0.0, 0.2, 0.2], 1, (False, False, False)),
    ("2oo3", [0.0, 0.0, 0.2], 2, (True, False, False)),
    ("2oo3", [0.0, 0.0, -0.2], 2, (True, False, True)),
    ("2oo3", [0.0, 0.0, 0.0], 3, (True, False, True)),
    ("median", [0.0, -0.2, 0.2], 1, (True, False, True)),
    ("median", [0.0, 0.0, 0.2], 2, (True, False, False)),
]


@pytest.mark.parametrize("architecture, levels, bad, decisions", BAD_CASES)
def test_failure_direction_of_bad_inputs(architecture, levels, bad, decisions):
    good = [i >= bad for i in range(len(levels))]
    found = tuple(vote(architecture, levels, -0.1, good, policy).trips for policy in BAD_INPUT)
    assert found == decisions


@given(st.sampled_from(list(ARCHITECTURES)), st.lists(levels_of, min_size=3, max_size=3),
       st.lists(st.booleans(), min_size=3, max_size=3))
def test_voting_a_bad_input_to_trip_is_never_less_safe(architecture, levels, good):
    count = ARCHITECTURES[architecture][1]
    trip, removed, healthy = (vote(architecture, levels[:count], -0.1, good[:count], policy).trips
                              for policy in ("trip", "removed", "healthy"))
    assert trip >= removed >= healthy


def test_the_level_of_a_bad_input_does_not_count_not_even_as_a_number():
    assert vote("2oo3", [float("nan"), 0.2, 0.2], -0.1, [False, True, True]).trips is False
    with pytest.raises(InputError, match="level"):
        vote("2oo3", [float("nan"), 0.2, 0.2], -0.1)


def test_shared_leg_makes_every_signal_high_and_the_vote_blind():
    """All three read the level plus what the lost leg adds: no arrangement sees the low level."""
    true_level, added = -0.30, 0.20
    for architecture, (_, count) in ARCHITECTURES.items():
        assert vote(architecture, [true_level] * count, -0.24).trips
        assert not vote(architecture, [true_level + added] * count, -0.24).trips


@given(st.floats(1e-7, 1e-3), st.sampled_from(list(ARCHITECTURES)))
def test_simplified_forms_are_the_limit_of_rare_failures(product, architecture):
    channels = VotedChannels(architecture, product / YEAR, YEAR)
    exact = exact_failure_on_demand(channels)
    simple = failure_on_demand(architecture, product / YEAR, YEAR)
    assert simple == pytest.approx(exact, rel=2.5 * product, abs=1e-14)


def test_exact_sum_of_one_channel_is_the_mean_of_an_exponential():
    x = RATE * YEAR
    found = exact_failure_on_demand(VotedChannels("1oo1", RATE, YEAR))
    assert found == pytest.approx(1 - (1 - exp(-x)) / x, rel=1e-12)


@pytest.mark.parametrize("architecture", list(ARCHITECTURES))
@pytest.mark.parametrize("common", [0.0, 0.05])
def test_monte_carlo_agrees_with_the_formulas_within_its_own_interval(architecture, common):
    """Five seeds at 95 %: one may miss. The formula is 2 % off at lambda T = 0.0175: two may."""
    channels = VotedChannels(architecture, RATE, YEAR, common)
    formula = failure_on_demand(architecture, RATE, YEAR, common)
    runs = [simulated_failure_on_demand(channels, 100_000, seed) for seed in range(5)]
    assert sum(run.low <= formula <= run.high for run in runs) >= 3
    exact = exact_failure_on_demand(channels)
    assert sum(run.low <= exact <= run.high for run in runs) >= 4


def test_the_interval_holds_the_truth_about_95_times_in_100():
    channels = VotedChannels("2oo2", RATE * 5, YEAR, 0.1)
    exact = exact_failure_on_demand(channels)
    held = sum(run.low <= exact <= run.high for run in
               (simulated_failure_on_demand(channels, 4000, seed) for seed in range(200)))
    assert 180 <= held <= 199  # 190 expected, standard deviation 3


@pytest.mark.parametrize("legs, simple", [
    # leg losses 1e-6 per hour, failures of the transmitters themselves negligible
    ((0, 0, 0), 1.0),      # one leg: as one transmitter, lambda T / 2
    ((0, 0, 1), 1.0),      # two on one leg: that leg alone blinds two out of three
    ((0, 1, 2), None),     # a leg each: like three transmitters, (lambda T)^2
])
def test_common_reference_leg_defeats_voting(legs, simple):
    leg_rate = 1e-6 / HOUR
    channels = VotedChannels("2oo3", 1e-12 / HOUR, YEAR, leg_rate=leg_rate, legs=legs)
    exact = exact_failure_on_demand(channels)
    x = leg_rate * YEAR
    expected = simple * x / 2 if simple else x ** 2
    assert exact == pytest.approx(expected, rel=0.02)
    run = simulated_failure_on_demand(channels, 400_000, 3)
    assert run.low <= exact <= run.high


def test_shared_leg_in_the_formula_is_the_exact_sum_with_one_leg():
    leg_rate = 1e-6 / HOUR
    formula = failure_on_demand("2oo3", RATE, YEAR, 0.0, leg_rate)
    exact = exact_failure_on_demand(VotedChannels("2oo3", RATE, YEAR, 0.0, leg_rate, (0, 0, 0)))
    assert formula == pytest.approx(exact, rel=0.01)
    apart = exact_failure_on_demand(VotedChannels("2oo3", RATE, YEAR, 0.0, leg_rate))
    assert apart < 0.2 * exact


def test_order_of_safety_and_of_steadiness():
    pfd = {name: failure_on_demand(name, RATE, YEAR) for name in ARCHITECTURES}
    assert pfd["1oo2"] < pfd["2oo3"] == pfd["median"] < pfd["1oo1"] < pfd["2oo2"]
    cry = {name: spurious_trip_rate(name, 1e-5 / HOUR, 24 * HOUR) for name in ARCHITECTURES}
    assert cry["2oo2"] < cry["2oo3"] == cry["median"] < cry["1oo1"] < cry["1oo2"]


@pytest.mark.parametrize("architecture", list(ARCHITECTURES))
def test_counted_spurious_trips_agree_with_the_formulas(architecture):
    rate, repair = 1e-4 / HOUR, 24 * HOUR
    duration = 4e7 * HOUR
    formula = spurious_trip_rate(architecture, rate, repair)
    runs = [simulated_spurious_rate(architecture, rate, repair, duration, seed)
            for seed in range(5)]
    assert sum(run.low <= formula <= run.high for run in runs) >= 4


def test_one_seed_one_result_and_nothing_seen_is_not_called_never():
    channels = VotedChannels("2oo3", RATE, YEAR)
    assert (simulated_failure_on_demand(channels, 1000, 7)
            == simulated_failure_on_demand(channels, 1000, 7))
    none = simulated_failure_on_demand(VotedChannels("1oo2", RATE / 100, YEAR), 100, 1)
    assert none.value == 0.0 and none.high > 0.01


def test_rates_may_be_arrays():
    found = failure_on_demand("2oo3", np.array([1e-6, 2e-6]) / HOUR, YEAR)
    assert found[1] == failure_on_demand("2oo3", RATE, YEAR) and found[1] > found[0]


@pytest.mark.parametrize("call, words", [
    (lambda: vote("3oo4", [0.0], -0.1), "1oo1, 1oo2"),
    (lambda: vote("2oo3", [0.0, 0.1], -0.1), "takes 3 inputs"),
    (lambda: vote("1oo1", [0.0], -0.1, bad_input="ignore"), "trip, healthy, removed"),
    (lambda: failure_on_demand("2oo3", 2e-6, YEAR), "test more often"),
    (lambda: VotedChannels("2oo3", RATE, YEAR, legs=(0, 0)), "one for each transmitter"),
    (lambda: simulated_failure_on_demand(VotedChannels("1oo1", RATE, YEAR), 10), "trials"),
    (lambda: spurious_trip_rate("1oo1", 1e-3, YEAR), "rare beside the repair"),
])
def test_unusable_values_say_what_to_do(call, words):
    with pytest.raises(InputError, match=words):
        call()


@pytest.mark.parametrize("architecture, trips", [
    ("1oo1", lambda f, u: f),
    ("1oo2", lambda f, u: 2 * f),  # every failure trips, also while the other one is down
    ("2oo2", lambda f, u: 2 * f * u),
    ("2oo3", lambda f, u: 3 * f * 2 * u * (1 - u)),  # with both others down it has tripped before
])
def test_spurious_trips_of_long_repairs_as_renewal_counts_them(architecture, trips):
    """Up for 1/rate on average, down for the repair: each fails 1/(1/rate + repair) times."""
    rate, repair = 0.01, 40.0
    failures = 1 / (1 / rate + repair)
    run = simulated_spurious_rate(architecture, rate, repair, 4e6, 5)
    assert run.value == pytest.approx(trips(failures, repair * failures), rel=0.02)


def test_nothing_is_selected_but_by_median_select():
    assert np.isnan(vote("2oo3", [0.0, 0.1, 0.2], -0.1).selected)
    assert np.isnan(vote("median", [0.0] * 3, -0.1, [False] * 3, "removed").selected)


@pytest.mark.parametrize("seen, low, high", [(0, 0.0, 3.689), (1, 0.025, 5.572), (2, 0.242, 7.225),
                                             (3, 0.619, 8.767)])
def test_interval_of_a_count_as_in_tables_of_the_counting_distribution(seen, low, high):
    """Exact 95 % limits of a counted number, as every table of them gives (from memory)."""
    repair, found = 1e-3, None
    for seed in range(60):  # rare pairs: the count varies from run to run
        found = simulated_spurious_rate("2oo2", 0.1, repair * 100, 1000.0, seed)
        if found.count == seen:
            break
    assert found.count == seen
    assert 1000.0 * found.low == pytest.approx(low, abs=1e-3)
    assert 1000.0 * found.high == pytest.approx(high, abs=1e-3)


def test_a_leg_lost_too_often_for_the_simple_forms_is_refused():
    with pytest.raises(InputError, match="leg-loss rate times test interval"):
        failure_on_demand("2oo3", RATE, YEAR, 0.0, 0.3 / YEAR)
