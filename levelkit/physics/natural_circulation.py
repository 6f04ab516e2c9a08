"""The published fourth-order model of a natural-circulation drum boiler, through time.

Total water and pressure tell mass and energy; the steam quality of the risers tells how
much water they push into the drum, the drum's bubbles how far the surface stands above
what the instruments see.
"""

from ._boiler_equations import limits, seen, slopes, states
from .circulating_boiler import (
    BoilerEquilibrium,
    BoilerPlant,
    BoilerTransient,
    boiler_equilibrium,
)
from .transients import stepped

__all__ = ["BoilerEquilibrium", "BoilerPlant", "BoilerTransient", "boiler_equilibrium",
           "boiler_transient"]


def boiler_transient(start, steps, duration, saturation, points=601):
    """Return what the fourth-order boiler does when its inputs change.

    Four balances, each along the saturation line: mass and energy of the whole,
    energy of the risers, bubbles of the drum; the circulation is in balance with
    friction at every instant.

    Parameters
    ----------
    start : BoilerEquilibrium [Pa, m3]
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
    BoilerTransient
        Levels [m], pressure [Pa], mass [kg], volumes [m3] and flows [kg/s] through time.

    Raises
    ------
    InputError
        Steps out of order, or a value outside its range.

    Notes
    -----
    Water and steam at one temperature, one speed in the risers, a surface of constant
    area: valid near the normal level. The run stops where water, bubbles, boiling or
    steam space come to nothing.

    References
    ----------
    [DRUM-BOILER-2000] equations of the fourth-order model.

    Examples
    --------
    >>> from levelkit.physics.transients import single_step
    >>> from levelkit.properties import saturation_line
    >>> rest = boiler_equilibrium(saturation_line)
    >>> steps = single_step(rest.inputs, 0.0, steam_flow=rest.inputs.steam_flow + 10.0)
    >>> run = boiler_transient(rest, steps, 60.0, saturation_line)
    >>> f"surface {1000 * run.surface_change.max():+.0f} mm"
    'surface +48 mm'
    """
    def rate(time, state, inputs):
        return slopes(start, state, inputs, inputs.feed_flow, inputs.heat, saturation)

    run = stepped(rate, states(start), steps, duration, points, limits(start, saturation))
    return seen(start, run, [inputs.feed_flow for inputs in run.inputs], saturation)
