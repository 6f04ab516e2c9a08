"""Swell and shrink in the smallest model that has them: a drum with three states.

Water, steam and metal share one saturation temperature. Bubbles below the surface come
from boiling and flashing and leave after a mean time; the surface carries them, the
instruments do not see those above the water connection.
"""

from dataclasses import dataclass

import numpy as np

from ..errors import checked
from .transients import BoilerInputs, stepped


@dataclass(frozen=True, slots=True)
class SwellDrum:
    """A boiler lumped into one drum.

    Attributes
    ----------
    volume : float [m3]
        Volume of water and steam together.
    metal_mass : float [kg]
        Metal that follows the saturation temperature.
    metal_heat_capacity : float [J/(kg K)]
        Its heat capacity.
    surface_area : float [m2]
        Area of the water surface.
    bubble_time : float [s]
        Mean time that steam stays below the surface.
    bubbles_below_connection : float [1]
        Share of the bubbles that sit below the water connection: they push water up
        past it, which glass and transmitter do see.
    """

    volume: float = 12.0
    metal_mass: float = 25_000.0
    metal_heat_capacity: float = 500.0
    surface_area: float = 6.5
    bubble_time: float = 2.0
    bubbles_below_connection: float = 0.0

    def __post_init__(self):
        checked("drum volume", self.volume, 0.01, 1000.0, "m3", "Give cubic metres.")
        checked("metal mass", self.metal_mass, 0.0, 1e7, "kg", "Give kilograms.")
        checked("heat capacity of the metal", self.metal_heat_capacity, 0.0, 2000.0, "J/(kg K)",
                "About 500 for steel.")
        checked("surface area", self.surface_area, 0.01, 500.0, "m2", "Give square metres.")
        checked("bubble time", self.bubble_time, 0.05, 100.0, "s", "Give seconds, a few.")
        checked("share of bubbles below the connection", self.bubbles_below_connection,
                0.0, 1.0, "", "Give a share of one.")


@dataclass(frozen=True, slots=True)
class SteadyDrum:
    """A drum at rest under a steady load.

    Attributes
    ----------
    drum : SwellDrum [m3, kg, m2]
        The drum.
    pressure : float [Pa]
        Absolute pressure.
    water_volume : float [m3]
        Water, without bubbles.
    bubble_volume : float [m3]
        Bubbles below the surface.
    inputs : BoilerInputs [W, kg/s, J/kg]
        The inputs that keep it so: feed equals steam, heat balances.
    """

    drum: SwellDrum
    pressure: float
    water_volume: float
    bubble_volume: float
    inputs: BoilerInputs


@dataclass(frozen=True, slots=True)
class DrumTransient:
    """What a drum and its instruments did.

    Attributes
    ----------
    time : array [s]
        Instants.
    pressure : array [Pa]
        Absolute pressure.
    mass : array [kg]
        Water and steam in the boiler.
    surface_change : array [m]
        Rise of the bubbly surface since the start.
    collapsed_change : array [m]
        Rise of the collapsed level, which head instruments see, since the start.
    bubble_volume : array [m3]
        Bubbles below the surface.
    steam_flow, feed_flow : array [kg/s]
        Steam leaving (safety valve included) and feed entering.
    ended : str
        "ran to the end", or the limit at which the model stopped.
    """

    time: object
    pressure: object
    mass: object
    surface_change: object
    collapsed_change: object
    bubble_volume: object
    steam_flow: object
    feed_flow: object
    ended: str


def steady_drum(drum, pressure, water_volume, steam_flow, feed_enthalpy, saturation):
    """Return a drum at rest that delivers a steady steam flow.

    ``Q = q (h_g - h_fw)``, ``V_b = q tau_b / rho_g``

    Parameters
    ----------
    drum : SwellDrum [m3, kg, m2]
        The drum.
    pressure : float [Pa]
        Absolute pressure, 2 to 150 bar.
    water_volume : float [m3]
        Water without bubbles; water and bubbles together must fit.
    steam_flow : float [kg/s]
        Steam drawn, and feed, 0.001 to 1e4.
    feed_enthalpy : float [J/kg]
        Specific enthalpy of the feed, at most that of the drum water.
    saturation : callable [Pa -> object]
        Properties and slopes on the saturation line: ``properties.saturation_line``.

    Returns
    -------
    SteadyDrum
        Volumes [m3] and the inputs [W, kg/s, J/kg] that keep it.

    Raises
    ------
    InputError
        A value outside its range.

    References
    ----------
    [THREE-STATE-DRUM] at rest.

    Examples
    --------
    >>> from levelkit.properties import saturation_line
    >>> drum = steady_drum(SwellDrum(), 6_100_000.0, 7.0, 5.56, 634.9e3, saturation_line)
    >>> f"{drum.bubble_volume:.3f} m3 of bubbles"
    '0.354 m3 of bubbles'
    """
    pressure = checked("drum pressure", pressure, 2e5, 150e5, "Pa",
                       "That is 2 to 150 bar absolute, in pascal.")
    flow = checked("steam flow", steam_flow, 1e-3, 1e4, "kg/s",
                   "Give kilograms per second; without steam there are no bubbles to swell.")
    line = saturation(pressure)
    feed = checked("enthalpy of the feed water", feed_enthalpy, 0.0, line.water_enthalpy, "J/kg",
                   "Feed is colder than the drum water. Give joules per kilogram.")
    # heat needed to warm the feed is taken from condensing steam: net boiling equals the flow
    bubbles = flow * drum.bubble_time / line.steam_density
    water = checked("water volume", water_volume, 0.01 * drum.volume, drum.volume - bubbles, "m3",
                    "Water and bubbles must fit into the drum.")
    heat = flow * (line.steam_enthalpy - feed)
    return SteadyDrum(drum, pressure, water, bubbles, BoilerInputs(heat, flow, flow, feed))


def drum_transient(start, steps, duration, saturation, points=601):
    """Return what the three-state drum does when its inputs change.

    Mass and energy of the whole boiler give water volume and pressure; the steam made
    below the surface is ``[Q - q_f (h_f - h_fw) - (rho_f V_w h_f' + m c T_s' - V_w) dp/dt]
    / h_fg`` and the bubbles leave as ``rho_g V_b / tau_b``.

    Parameters
    ----------
    start : SteadyDrum [Pa, m3]
        Where it begins.
    steps : sequence of InputStep [s]
        Inputs in the order of time, the first at 0.
    duration : float [s]
        Length of the run.
    saturation : callable [Pa -> object]
        Properties and slopes on the saturation line: ``properties.saturation_line``.
    points : int
        Instants to return.

    Returns
    -------
    DrumTransient
        Levels [m], pressure [Pa], mass [kg] and flows [kg/s] through time.

    Raises
    ------
    InputError
        Steps out of order, or a value outside its range.

    Notes
    -----
    Constant bubble time and surface area; bubbles leave by rising only. The run stops
    where water, bubbles or steam space come to nothing, or below 1 bar.

    References
    ----------
    [THREE-STATE-DRUM] structure as in [DRUM-BOILER-2000].

    Examples
    --------
    >>> from levelkit.physics.transients import single_step
    >>> from levelkit.properties import saturation_line
    >>> start = steady_drum(SwellDrum(), 6_100_000.0, 7.0, 5.56, 634.9e3, saturation_line)
    >>> more_steam = single_step(start.inputs, 0.0, steam_flow=1.2 * 5.56)
    >>> run = drum_transient(start, more_steam, 30.0, saturation_line)
    >>> f"{1000 * run.surface_change.max():+.1f} mm, {run.mass[-1] - run.mass[0]:+.0f} kg"
    '+8.4 mm, -33 kg'
    """
    drum = start.drum
    first = saturation(start.pressure)
    states = [start.water_volume, start.pressure, start.bubble_volume * first.steam_density]
    limits = (
        ("the water is gone", lambda y: y[0] - 0.01 * drum.volume),
        ("the drum is full of water and bubbles",
         lambda y: drum.volume - y[0] - y[2] / saturation(y[1]).steam_density),
        ("no bubbles are left below the surface", lambda y: y[2]),
        ("the pressure fell to 1 bar absolute", lambda y: y[1] - 1e5),
        ("the pressure rose to 190 bar absolute", lambda y: 190e5 - y[1]),
    )
    run = stepped(lambda time, y, inputs: _slopes(drum, y, inputs, saturation), states, steps,
                  duration, points, limits, scale=[drum.volume, start.pressure, 10.0])
    water, pressure, bubble_mass = run.states
    line = saturation(pressure)
    bubbles = bubble_mass / line.steam_density
    mass = line.water_density * water + line.steam_density * (drum.volume - water)
    risen, grown = water - start.water_volume, bubbles - start.bubble_volume
    seen = drum.bubbles_below_connection
    leaving = np.array([u.steam_leaving(p) for u, p in zip(run.inputs, pressure, strict=True)])
    return DrumTransient(
        run.time, pressure, mass, (risen + grown) / drum.surface_area,
        (risen + seen * grown) / drum.surface_area, bubbles, leaving,
        np.array([u.feed_flow for u in run.inputs]), run.ended)


def _slopes(drum, state, inputs, saturation):
    water, pressure, bubble_mass = state
    s = saturation(pressure)
    steam = drum.volume - water
    metal = drum.metal_mass * drum.metal_heat_capacity * s.temperature_slope
    leaving = inputs.steam_leaving(pressure)
    mass_in = inputs.feed_flow - leaving
    energy_in = (inputs.heat + inputs.feed_flow * inputs.feed_enthalpy
                 - leaving * s.steam_enthalpy)
    e11 = s.water_density - s.steam_density
    e12 = steam * s.steam_density_slope + water * s.water_density_slope
    e21 = s.water_density * s.water_enthalpy - s.steam_density * s.steam_enthalpy
    warming = s.water_density * water * s.water_enthalpy_slope
    e22 = (steam * (s.steam_enthalpy * s.steam_density_slope
                    + s.steam_density * s.steam_enthalpy_slope)
           + water * s.water_enthalpy * s.water_density_slope + warming - drum.volume + metal)
    determinant = e11 * e22 - e12 * e21
    water_rate = (mass_in * e22 - e12 * energy_in) / determinant
    pressure_rate = (e11 * energy_in - e21 * mass_in) / determinant
    made = (inputs.heat - inputs.feed_flow * (s.water_enthalpy - inputs.feed_enthalpy)
            - (warming + metal - water) * pressure_rate) / s.latent_heat
    return [water_rate, pressure_rate, made - bubble_mass / drum.bubble_time]
