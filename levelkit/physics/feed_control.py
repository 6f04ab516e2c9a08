"""Who opens the feed valve: the level alone, or the level with steam and feed flow.

The natural-circulation boiler again, now with a feed controller that sees what its
transmitter shows, and a firing controller that holds the pressure.
"""

from dataclasses import dataclass

import numpy as np

from ..errors import InputError, checked
from ._boiler_equations import limits, seen, slopes, states
from .circulating_boiler import BoilerTransient
from .riser_void import _void_and_slopes
from .transients import stepped


@dataclass(frozen=True, slots=True)
class FeedController:
    """A feed controller with proportional and integral action on the level.

    Attributes
    ----------
    elements : int
        1: level only. 3: the feed follows the steam flow, the level trims it.
    gain : float [kg/(s m)]
        Feed per metre of level below the wanted one.
    integral_time : float [s]
        Time in which a lasting error adds the proportional action once more.
    valve_time : float [s]
        Time constant of valve and flow loop.
    greatest_flow : float [kg/s]
        Feed with the valve wide open.
    signal_error : float [m]
        What the level transmitter shows too much, from the beginning of the run.
    """

    elements: int
    gain: float = 150.0
    integral_time: float = 300.0
    valve_time: float = 5.0
    greatest_flow: float = 100.0
    signal_error: float = 0.0

    def __post_init__(self):
        if self.elements not in (1, 3):
            raise InputError(f"elements is {self.elements!r}; the allowed numbers are 1 and 3 "
                             "(no unit). Choose one.")
        checked("gain", self.gain, 0.0, 1e5, "kg/(s m)", "Give kilograms per second and metre.")
        checked("integral time", self.integral_time, 1.0, 1e6, "s", "Give seconds.")
        checked("valve time", self.valve_time, 0.1, 600.0, "s", "Give seconds.")
        checked("greatest feed flow", self.greatest_flow, 0.1, 1e4, "kg/s",
                "Give kilograms per second.")
        checked("error of the level signal", self.signal_error, -5.0, 5.0, "m", "Give metres.")


@dataclass(frozen=True, slots=True)
class FiringController:
    """A firing controller with proportional and integral action on the drum pressure.

    Attributes
    ----------
    gain : float [W/Pa]
        Heat per pascal of pressure below the wanted one.
    integral_time : float [s]
        Time in which a lasting error adds the proportional action once more.
    firing_time : float [s]
        Time constant of fuel, furnace and tube walls.
    greatest_heat : float [W]
        Heat at full firing.
    """

    gain: float = 60.0
    integral_time: float = 200.0
    firing_time: float = 15.0
    greatest_heat: float = 160e6

    def __post_init__(self):
        checked("gain", self.gain, 0.0, 1e4, "W/Pa", "Give watts per pascal.")
        checked("integral time", self.integral_time, 1.0, 1e6, "s", "Give seconds.")
        checked("firing time", self.firing_time, 0.1, 600.0, "s", "Give seconds.")
        checked("greatest heat", self.greatest_heat, 1.0, 1e10, "W", "Give watts.")


@dataclass(frozen=True, slots=True)
class ControlledTransient:
    """What a controlled boiler did.

    Attributes
    ----------
    boiler : BoilerTransient [m, Pa, kg, kg/s]
        Levels, pressure, mass and flows through time.
    shown_change : array [m]
        Rise of what the level transmitter shows, its error included.
    heat : array [W]
        Heat to the risers.
    """

    boiler: BoilerTransient
    shown_change: object
    heat: object


def controlled_transient(start, feed, steps, duration, saturation, firing=None, points=601):
    """Return what a boiler does whose feed and firing are controlled.

    ``feed wanted = base + K (e + integral of e / T_i)``, ``e = -shown change``; the base
    is the first feed flow with one element, the steam flow of the instant with three

    Parameters
    ----------
    start : BoilerEquilibrium [Pa, m3]
        Where it begins; its level and pressure are the wanted ones.
    feed : FeedController [kg/s, m, s]
        Feed controller.
    steps : sequence of InputStep [s]
        Steam, safety valve and feed enthalpy in the order of time, the first at 0. Their
        feed flow and heat do not count: the controllers set them.
    duration : float [s]
        Length of the run.
    saturation : callable [Pa -> object]
        Properties and slopes on the saturation line: ``properties.saturation_line``.
    firing : FiringController [W, Pa, s]
        Firing controller; the default one if none is given.
    points : int
        Instants to return.

    Returns
    -------
    ControlledTransient
        Levels [m], pressure [Pa], mass [kg], flows [kg/s] and heat [W] through time.

    Raises
    ------
    InputError
        Steps out of order, or a value outside its range.

    Notes
    -----
    Valve and firing stop at shut and at full, and the integral then waits. The
    transmitter shows the collapsed level: a swell that it sees makes one element shut in
    feed when steam leaves faster than feed comes.

    References
    ----------
    [DRUM-BOILER-2000] boiler; [CONTROL-OWN] controllers and their settings.

    Examples
    --------
    >>> from levelkit.physics.circulating_boiler import boiler_equilibrium
    >>> from levelkit.physics.transients import single_step
    >>> from levelkit.properties import saturation_line
    >>> rest = boiler_equilibrium(saturation_line)
    >>> more_steam = single_step(rest.inputs, 10.0, steam_flow=60.0)
    >>> for elements in (1, 3):
    ...     run = controlled_transient(rest, FeedController(elements), more_steam, 30.0,
    ...                                saturation_line)
    ...     print(elements, f"{run.boiler.feed_flow.min() - rest.inputs.feed_flow:+.1f} kg/s")
    1 -1.0 kg/s
    3 +0.0 kg/s
    """
    firing = firing or FiringController()
    checked("feed at the start", start.inputs.feed_flow, 0.0, feed.greatest_flow, "kg/s",
            "The valve must be able to pass the feed of the start.")
    checked("heat at the start", start.inputs.heat, 0.0, firing.greatest_heat, "W",
            "The burners must be able to give the heat of the start.")

    def rate(time, state, inputs):
        feed_flow, heat, level_sum, pressure_sum = state[4:]
        level_error = -_shown(start, state, saturation) - feed.signal_error
        base = inputs.steam_leaving(state[1]) if feed.elements == 3 else start.inputs.feed_flow
        feed_rate, level_rate = _acting(
            base, feed.gain, level_error, level_sum, feed.integral_time, feed_flow,
            feed.valve_time, feed.greatest_flow)
        heat_rate, pressure_rate = _acting(
            start.inputs.heat, firing.gain, start.pressure - state[1], pressure_sum,
            firing.integral_time, heat, firing.firing_time, firing.greatest_heat)
        boiler = slopes(start, state, inputs, feed_flow, heat, saturation)
        return [*boiler, feed_rate, heat_rate, level_rate, pressure_rate]

    begin = [*states(start), start.inputs.feed_flow, start.inputs.heat, 0.0, 0.0]
    scale = [*begin[:6], 1.0, 1e5]
    run = stepped(rate, begin, steps, duration, points, limits(start, saturation), scale)
    boiler = seen(start, run, run.states[4], saturation)
    return ControlledTransient(boiler, boiler.collapsed_change + feed.signal_error,
                               np.array(run.states[5]))


def _shown(start, state, saturation):
    """Rise of the collapsed level since the start."""
    plant = start.plant
    void = _void_and_slopes(state[2], saturation(state[1])).void
    water = plant.drum_water(state[0], void) + plant.bubbles_below_connection * state[3]
    return water / plant.drum_area - start.collapsed_height


def _acting(base, gain, error, error_sum, integral_time, actual, lag, greatest):
    """Rate of what a controller moves, and of its integral, which waits at either stop."""
    wanted = base + gain * (error + error_sum / integral_time)
    held = (wanted > greatest and error > 0) or (wanted < 0 and error < 0)
    return (min(max(wanted, 0.0), greatest) - actual) / lag, 0.0 if held else error
