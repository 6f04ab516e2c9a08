"""From what a person sets to a boiler stepped through time, and what its instruments saw."""

from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from ..errors import InputError
from ..physics.feed_control import FeedController, controlled_transient
from ..physics.natural_circulation import BoilerPlant, boiler_equilibrium, boiler_transient
from ..physics.swell import SwellDrum, drum_transient, steady_drum
from ..physics.transient_presets import preset_steps
from ..properties import compressed_water_enthalpy, saturation_line
from ..units import absolute_pressure, gauge_pressure_bar, kelvin

LARGE, SMALL = "power station, published", "small boiler, lumped"
BY_HAND, ONE_ELEMENT, THREE_ELEMENTS = "stays as it was", "one element", "three elements"
ELEMENTS = {ONE_ELEMENT: 1, THREE_ELEMENTS: 3}
EVENT_TIME = 10.0  # s: so long nothing happens
FRAMES, POINTS = 121, 481
SMALL_STEAM, SMALL_FEED_CELSIUS, SMALL_GAUGE = 5.56, 150.0, 60.0
SMALL_WATER = 7.0  # m3 of the 12 m3


@dataclass(frozen=True, slots=True)
class RunSetting:
    """What is set on the panel.

    Attributes
    ----------
    boiler : str
        The published power-station boiler, or a small one lumped into a drum.
    event : str
        One of the presets of what can happen.
    feed : str
        "stays as it was", "one element" or "three elements".
    drum_metal : float [kg]
        Metal of the large boiler's drum.
    share_below : float [1]
        Share of the bubbles that sit below the water connection.
    signal_error : float [m]
        What the feed controller's transmitter shows too much.
    duration : float [s]
        Length of the run.
    """

    boiler: str
    event: str
    feed: str
    drum_metal: float
    share_below: float
    signal_error: float
    duration: float


@dataclass(frozen=True, slots=True)
class BoilerRun:
    """A boiler stepped through time, owner of every number the panel shows; arrays of one length.

    Attributes
    ----------
    setting : RunSetting [kg, 1, m, s]
        What was set.
    time : array [s]
        Instants.
    surface, shown : array [mm]
        Rise of the bubbly surface, and of what the instruments show, since the start.
    mass : array [kg]
        Change of water and steam in the boiler.
    pressure : array [bar]
        Gauge pressure.
    bubbles : array [m3]
        Bubbles below the drum's surface.
    steam, feed : array [kg/s]
        Steam leaving and feed entering.
    ended : str
        "ran to the end", or the limit at which the model stopped.
    """

    setting: RunSetting
    time: object
    surface: object
    shown: object
    mass: object
    pressure: object
    bubbles: object
    steam: object
    feed: object
    ended: str

    @property
    def records(self):
        """Index of each frame of a film: evenly through the run, its very end included."""
        step = (POINTS - 1) // (FRAMES - 1)
        last = len(self.time) - 1
        return (*range(0, last, step), last)


@lru_cache(maxsize=32)
def boiler_run(setting, barometer):
    """Return a boiler that something happens to, stepped through time; a known case at once."""
    if setting.event == "feed loss" and setting.feed in ELEMENTS:
        raise InputError(f"Feed loss and feed by {setting.feed} do not go together: a controller "
                         f"would feed again. Allowed is \u201c{BY_HAND}\u201d (no unit). "
                         "Choose that, or another event.")
    if setting.boiler == SMALL:
        return _small(setting, barometer)
    plant = BoilerPlant(drum_metal=setting.drum_metal,
                        bubbles_below_connection=setting.share_below)
    rest = boiler_equilibrium(saturation_line, plant)
    steps = preset_steps(setting.event, rest.inputs, rest.pressure, EVENT_TIME)
    if setting.feed in ELEMENTS:
        controlled = controlled_transient(
            rest, FeedController(ELEMENTS[setting.feed], signal_error=setting.signal_error),
            steps, setting.duration, saturation_line, points=POINTS)
        return _seen(setting, controlled.boiler, controlled.shown_change, barometer)
    run = boiler_transient(rest, steps, setting.duration, saturation_line, POINTS)
    return _seen(setting, run, run.collapsed_change, barometer)


def _small(setting, barometer):
    pressure = absolute_pressure(SMALL_GAUGE, barometer)
    drum = SwellDrum(bubbles_below_connection=setting.share_below)
    rest = steady_drum(drum, pressure, SMALL_WATER, SMALL_STEAM,
                       compressed_water_enthalpy(pressure, kelvin(SMALL_FEED_CELSIUS)),
                       saturation_line)
    steps = preset_steps(setting.event, rest.inputs, pressure, EVENT_TIME)
    run = drum_transient(rest, steps, setting.duration, saturation_line, POINTS)
    return _seen(setting, run, run.collapsed_change, barometer)


def _seen(setting, run, shown, barometer):
    return BoilerRun(
        setting, np.asarray(run.time), 1000 * np.asarray(run.surface_change),
        1000 * np.asarray(shown), np.asarray(run.mass) - run.mass[0],
        gauge_pressure_bar(np.asarray(run.pressure), barometer), np.asarray(run.bubble_volume),
        np.asarray(run.steam_flow), np.asarray(run.feed_flow), run.ended)
