"""Filters and delays that keep a roll from touching an alarm, and what they cost.

A filter shows a falling level too high, a delay announces it too late: both buy quiet
with time.
"""

from math import acos, pi, sqrt

import numpy as np

from ..errors import InputError, checked


def ramp_lag(rate, time_constant):
    """Return how far a first-order lag stands behind a steadily moving level.

    ``shown - true = -rate tau``

    Parameters
    ----------
    rate : float or array [m/s]
        Rate of the level, falling negative, -1 to 1.
    time_constant : float or array [s]
        Time constant, 0 to 1e5.

    Returns
    -------
    float or array [m]
        Shown minus true level: positive while the level falls.

    Raises
    ------
    InputError
        A value outside its range.

    References
    ----------
    [FIRST-ORDER-LAG]

    Examples
    --------
    >>> round(1000 * ramp_lag(-0.0018, 10.0))
    18
    """
    rate = checked("rate of level", rate, -1.0, 1.0, "m/s", "Give metres per second.")
    constant = checked("time constant", time_constant, 0.0, 1e5, "s", "Give seconds.")
    return -rate * constant


def filter_against_roll(swing, margin, period):
    """Return the filter time constant that keeps a roll from touching an alarm.

    ``tau = sqrt((swing / margin)^2 - 1) / omega``

    Parameters
    ----------
    swing : float [m]
        Half the level swing at the instrument, 0 to 5.
    margin : float [m]
        Distance from the mean level to the alarm, 0.001 to 5.
    period : float [s]
        Period of the roll, 0.1 to 1000.

    Returns
    -------
    float [s]
        Least time constant; 0 where the swing stays within the margin unfiltered.

    Raises
    ------
    InputError
        A value outside its range.

    References
    ----------
    [FIRST-ORDER-LAG]

    Examples
    --------
    >>> round(filter_against_roll(0.5, 0.1, 9.0), 2)
    7.02
    """
    swing, margin, period = _checked_roll(swing, margin, period)
    return period / (2 * pi) * sqrt(max(0.0, (swing / margin) ** 2 - 1))


def delay_against_roll(swing, margin, period):
    """Return how long a roll holds the level beyond an alarm: the delay that outlasts it.

    ``t = (T / pi) acos(margin / swing)``

    Parameters
    ----------
    swing : float [m]
        Half the level swing at the instrument, 0 to 5.
    margin : float [m]
        Distance from the mean level to the alarm, 0.001 to 5.
    period : float [s]
        Period of the roll, 0.1 to 1000.

    Returns
    -------
    float [s]
        Time beyond the alarm in each roll, below half the period; 0 where it is not
        touched.

    Raises
    ------
    InputError
        A value outside its range.

    Notes
    -----
    A real loss of level is then announced that much later.

    References
    ----------
    [FIRST-ORDER-LAG] part of a sinusoid beyond a limit.

    Examples
    --------
    >>> round(delay_against_roll(0.5, 0.1, 9.0), 2)
    3.92
    """
    swing, margin, period = _checked_roll(swing, margin, period)
    return period / pi * acos(margin / swing) if swing > margin else 0.0


def filtered(times, levels, time_constant):
    """Return a recorded level behind a first-order filter that starts settled.

    Exact for straight lines between the records: ``d shown/dt = (true - shown) / tau``

    Parameters
    ----------
    times : array [s]
        Increasing instants.
    levels : array [m]
        True level at each.
    time_constant : float [s]
        Time constant, 1e-6 to 1e5.

    Returns
    -------
    array [m]
        Shown level at each instant.

    Raises
    ------
    InputError
        A value outside its range, times that do not increase, lengths that differ.

    References
    ----------
    [FIRST-ORDER-LAG]

    Examples
    --------
    >>> [round(float(h), 3) for h in filtered([0.0, 10.0, 20.0], [0.0, 0.0, 1.0], 10.0)]
    [0.0, 0.0, 0.368]
    """
    constant = checked("time constant", time_constant, 1e-6, 1e5, "s", "Give seconds.")
    times, levels = checked_record(times, levels)
    step = np.diff(times) / constant
    kept = np.exp(-step)
    slope = np.diff(levels) / step
    shown = np.empty_like(levels)
    shown[0] = levels[0]
    for i, (share, rise) in enumerate(zip(kept, slope, strict=True)):
        behind = shown[i] - levels[i] + rise
        shown[i + 1] = levels[i + 1] - rise + behind * share
    return shown


def checked_record(times, levels):
    """Return the instants and the levels of a record as arrays once they belong together.

    Parameters
    ----------
    times : array [s]
        Instants.
    levels : array [m]
        Level at each, -50 to 50.

    Returns
    -------
    tuple of array [s, m]
        Both as one-dimensional float arrays.

    Raises
    ------
    InputError
        Times that do not increase, lengths that differ, a value that is not a number.

    References
    ----------
    None: a check, not a formula.

    Examples
    --------
    >>> checked_record([0, 1], [0.2, 0.3])[0].tolist()
    [0.0, 1.0]
    """
    times = np.atleast_1d(checked("time", times, -1e9, 1e9, "s", "Give seconds."))
    levels = np.atleast_1d(checked("level", levels, -50.0, 50.0, "m", "Give metres."))
    if times.shape != levels.shape or times.ndim != 1 or np.any(np.diff(times) <= 0):
        raise InputError(
            f"The record has {times.size} times and {levels.size} levels; allowed are as many "
            "levels [m] as times [s], each time later than the one before. Sort the record.")
    return times, levels


def _checked_roll(swing, margin, period):
    return (checked("swing", swing, 0.0, 5.0, "m", "Give half the swing in metres."),
            checked("margin to the alarm", margin, 0.001, 5.0, "m", "Give metres."),
            checked("roll period", period, 0.1, 1000.0, "s", "Give seconds."))
