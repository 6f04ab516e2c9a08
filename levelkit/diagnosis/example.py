"""One boiler of the invented ship as the worked example of this room."""

from functools import cache

from ..scenario import load_ship
from .pairs import Pairs
from .setting import SEPARATE, BenchSetting
from .signatures import Signatures


def example_setting(level=0.25, arrangement=SEPARATE, seconds=60.0):
    """Return the water-tube boiler at 60 bar gauge, at normal level when last all was well.

    Parameters
    ----------
    level : float [m]
        True level now.
    arrangement : str
        What the remote instruments hang on.
    seconds : float [s]
        Time since then.

    Returns
    -------
    BenchSetting [m, bar, s]
        The boiler state.

    References
    ----------
    None: the ship is invented.

    Examples
    --------
    >>> example_setting().gauge_pressure_bar
    60.0
    """
    ship = load_ship()
    boiler = ship.boilers["water_tube"]
    return BenchSetting(boiler, ship.barometer, 60.0, 0.25, level, seconds, arrangement)


@cache
def signatures(arrangement=SEPARATE):
    """Return the signatures of that boiler state, worked out as they are asked for."""
    return Signatures(example_setting(arrangement=arrangement))


@cache
def pairs():
    """Return the pairs of that boiler state."""
    return Pairs(signatures())
