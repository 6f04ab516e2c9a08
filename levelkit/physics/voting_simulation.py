"""Voted trips by counting: failures drawn at random beside sums that leave out nothing.

Transmitters fail alone, by a common cause, or together with the reference leg they hang
on. The simplified formulas of :mod:`levelkit.physics.voting` are the limit of rare
failures; here nothing is simplified, so that one can see how good they are.
"""

from dataclasses import dataclass
from itertools import product
from math import comb, log, sqrt

import numpy as np

from ..errors import InputError, checked
from .voting import _arrangement

CONFIDENCE = 1.959963985
"""Standard errors to either side of a mean that hold 95 of 100 estimates."""


@dataclass(frozen=True, slots=True)
class VotedChannels:
    """Transmitters that vote, and the reference legs they hang on.

    Attributes
    ----------
    architecture : str
        "1oo1", "1oo2", "2oo2", "2oo3" or "median".
    failure_rate : float [1/s]
        Dangerous failures of one transmitter, its share of common cause included.
    test_interval : float [s]
        Time between proof tests.
    common_cause : float [1]
        Share of the failures that hits all transmitters at once.
    leg_rate : float [1/s]
        Losses of one reference leg; it makes every transmitter on it read high.
    legs : tuple of int
        Number of the leg of each transmitter; (0, 0, 0) is one leg for three. Empty:
        a leg of its own for each.
    """

    architecture: str
    failure_rate: float
    test_interval: float
    common_cause: float = 0.0
    leg_rate: float = 0.0
    legs: tuple = ()

    def __post_init__(self):
        count = _arrangement(self.architecture)[1]
        checked("failure rate", self.failure_rate, 0.0, 1.0, "1/s",
                "Give failures per second: 2e-6 per hour is 2e-6 / 3600.")
        checked("test interval", self.test_interval, 1.0, 1e10, "s", "Give seconds.")
        checked("common-cause share", self.common_cause, 0.0, 1.0, "", "Give a share of one.")
        checked("rate of leg loss", self.leg_rate, 0.0, 1.0, "1/s", "Give losses per second.")
        if self.legs and (len(self.legs) != count or not set(self.legs) <= set(range(count))):
            raise InputError(f"legs is {self.legs!r}; allowed are {count} leg numbers from 0 to "
                             f"{count - 1}, one for each transmitter. Give one per transmitter.")

    @property
    def leg_numbers(self):
        """Number of the leg of each transmitter."""
        return self.legs or tuple(range(_arrangement(self.architecture)[1]))


@dataclass(frozen=True, slots=True)
class Estimate:
    """A number found by counting.

    Attributes
    ----------
    value : float [as asked]
        The estimate.
    low, high : float [as asked]
        Ends of its 95 % confidence interval.
    count : int
        Trials drawn, or events counted.
    """

    value: float
    low: float
    high: float
    count: int


def exact_failure_on_demand(channels):
    """Return the mean probability of failure on demand with nothing left out.

    Sum over every combination of lost legs, of the chance that the transmitters still
    alive are too few, at an instant; then the mean over the test interval.

    Parameters
    ----------
    channels : VotedChannels [1/s, s]
        The arrangement.

    Returns
    -------
    float [1]
        Probability of failure on demand.

    References
    ----------
    [IEC-61508-6] definition; own sum, 24-point quadrature over the interval.

    Examples
    --------
    >>> alone = VotedChannels("1oo1", 2e-6 / 3600, 8760 * 3600.0)
    >>> f"{exact_failure_on_demand(alone):.5f}"  # the simplified form says 0.00876
    '0.00871'
    """
    needed, count = _arrangement(channels.architecture)
    points, weights = np.polynomial.legendre.leggauss(24)
    time = 0.5 * channels.test_interval * (points + 1)
    own = channels.failure_rate * (1 - channels.common_cause)
    alive = np.exp(-own * time)
    leg_alive = np.exp(-channels.leg_rate * time)
    legs = sorted(set(channels.leg_numbers))
    works = np.zeros_like(time)
    for lost in product((False, True), repeat=len(legs)):
        gone = {leg for leg, is_lost in zip(legs, lost, strict=True) if is_lost}
        left = sum(leg not in gone for leg in channels.leg_numbers)
        chance = (1 - leg_alive) ** len(gone) * leg_alive ** (len(legs) - len(gone))
        enough = sum(comb(left, k) * alive ** k * (1 - alive) ** (left - k)
                     for k in range(needed, left + 1))
        works += chance * enough
    works *= np.exp(-channels.failure_rate * channels.common_cause * time)
    return float(1 - 0.5 * np.sum(weights * works))


def simulated_failure_on_demand(channels, trials=400_000, seed=1):
    """Return the mean probability of failure on demand by drawing failures at random.

    Each trial draws when transmitters, legs and common cause fail in one test interval;
    the share of the interval in which the vote cannot come is averaged.

    Parameters
    ----------
    channels : VotedChannels [1/s, s]
        The arrangement.
    trials : int
        Intervals drawn, 100 to 5 000 000.
    seed : int
        Seed of the random numbers: one seed, one result.

    Returns
    -------
    Estimate [1]
        The probability and its 95 % confidence interval.

    Raises
    ------
    InputError
        Too few or too many trials.

    References
    ----------
    [IEC-61508-6] definition, counted.

    Examples
    --------
    >>> two_of_three = VotedChannels("2oo3", 2e-6 / 3600, 8760 * 3600.0, common_cause=0.05)
    >>> found = simulated_failure_on_demand(two_of_three)
    >>> found.low < exact_failure_on_demand(two_of_three) < found.high
    True
    """
    trials = int(checked("number of trials", trials, 100, 5_000_000, "", "Give a whole number."))
    needed, count = _arrangement(channels.architecture)
    random = np.random.default_rng(_checked_seed(seed))

    def failures(rate, columns):
        drawn = random.standard_exponential((trials, columns))
        # below one failure in 3e12 years the quotient may overflow, and nothing ever fails
        return drawn / rate if rate > 1e-20 else np.full_like(drawn, np.inf)

    alone = failures(channels.failure_rate * (1 - channels.common_cause), count)
    together = failures(channels.failure_rate * channels.common_cause, 1)
    legs = failures(channels.leg_rate, count)[:, list(channels.leg_numbers)]
    failed = np.minimum(np.minimum(alone, together), legs)
    # the vote is lost with the failure that leaves fewer than are needed
    lost = np.sort(failed, axis=1)[:, count - needed]
    down = np.maximum(0.0, 1 - lost / channels.test_interval)
    mean, reach = float(down.mean()), CONFIDENCE * float(down.std(ddof=1)) / sqrt(trials)
    if mean == 0:  # nothing seen: at 1 - 0.975 chance, at most this much is there
        reach = -log(0.025) / trials
    return Estimate(mean, max(0.0, mean - reach), mean + reach, trials)


def simulated_spurious_rate(architecture, failure_rate, repair_time, duration, seed=1):
    """Return how often a voted trip comes without need, by drawing false lows at random.

    Each transmitter fails to a false low at random and is repaired after a fixed time; a
    trip is counted where a new failure makes up the votes.

    Parameters
    ----------
    architecture : str
        "1oo1", "1oo2", "2oo2", "2oo3" or "median".
    failure_rate : float [1/s]
        Failures of one transmitter that show as a false low level, above 0.
    repair_time : float [s]
        Time from a failure to the repair.
    duration : float [s]
        Time drawn, in which one transmitter fails 10 to 2 000 000 times.
    seed : int
        Seed of the random numbers: one seed, one result.

    Returns
    -------
    Estimate [1/s]
        Spurious trips per second and their 95 % confidence interval, and the trips counted.

    Raises
    ------
    InputError
        A value outside its range.

    References
    ----------
    [IEC-61508-6] definition, counted; interval of a count by scipy.

    Examples
    --------
    >>> hour = 3600.0
    >>> found = simulated_spurious_rate("2oo3", 1e-4 / hour, 24 * hour, 5e7 * hour)
    >>> found.low < 6 * (1e-4 / hour) ** 2 * 24 * hour < found.high
    True
    """
    from scipy.special import gammaincinv

    needed, count = _arrangement(architecture)
    rate = checked("spurious failure rate", failure_rate, 1e-20, 1.0, "1/s",
                   "Give failures per second.")
    repair = checked("repair time", repair_time, 0.0, 1e9, "s", "Give seconds.")
    duration = checked("time drawn", duration, 1.0, 1e18, "s", "Give seconds.")
    expected = checked("failures in the time drawn", rate * duration, 10, 2_000_000, "",
                       "Draw a longer or a shorter time.")
    random = np.random.default_rng(_checked_seed(seed))
    begins = []
    for _ in range(count):
        drawn = int(expected + 10 * sqrt(expected) + 10)
        apart = random.standard_exponential(drawn) / rate + repair
        apart[0] -= repair  # the first failure waits for no repair
        begin = np.cumsum(apart)
        begins.append(begin[begin < duration])
    trips = 0
    for i, own in enumerate(begins):
        down = np.ones(own.size, int)
        for j, other in enumerate(begins):
            if j != i:
                last = np.searchsorted(other, own) - 1
                down += (last >= 0) & (own - other[last] < repair)
        trips += int(np.sum(down >= needed if needed == 1 else down == needed))
    low = float(gammaincinv(trips, 0.025)) if trips else 0.0
    high = float(gammaincinv(trips + 1, 0.975))
    return Estimate(trips / duration, low / duration, high / duration, trips)


def _checked_seed(seed):
    return int(checked("seed", seed, 0, 2**53, "", "Give a whole number."))
