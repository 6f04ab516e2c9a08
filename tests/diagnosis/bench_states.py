"""Boiler states for the tests of the diagnosis bench."""

from levelkit.diagnosis.setting import SEPARATE, BenchSetting
from levelkit.scenario import load_ship

SHIP = load_ship()
BOILER = SHIP.boilers["water_tube"]


def setting(bar=60.0, level=0.25, before=0.25, seconds=60.0, arrangement=SEPARATE):
    """The water-tube boiler at a gauge pressure [bar] and true levels [m]."""
    return BenchSetting(BOILER, SHIP.barometer, bar, before, level, seconds, arrangement)
