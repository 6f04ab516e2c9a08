"""What is done to a boiler in the course of time, and the stepping of a model through it.

The inputs of a boiler change in steps; between two steps they stand still. So the
integration is restarted at each step and never smooths one over.
"""

from dataclasses import dataclass, replace
from itertools import count

import numpy as np

from ..errors import InputError, checked

TO_THE_END = "ran to the end"
MOST_EVALUATIONS = 50_000


@dataclass(frozen=True, slots=True)
class BoilerInputs:
    """What enters and leaves a boiler at an instant.

    Attributes
    ----------
    heat : float [W]
        Heat given to the water side.
    steam_flow : float [kg/s]
        Steam drawn by the consumers.
    feed_flow : float [kg/s]
        Feed water.
    feed_enthalpy : float [J/kg]
        Specific enthalpy of the feed water.
    relief_conductance : float [kg/(s Pa)]
        Flow through an open safety valve per pascal of drum pressure: choked flow is
        nearly proportional to it. 0 where the valve is shut.
    """

    heat: float
    steam_flow: float
    feed_flow: float
    feed_enthalpy: float
    relief_conductance: float = 0.0

    def __post_init__(self):
        checked("heat", self.heat, 0.0, 1e10, "W", "Give watts: 86 MW is 86e6.")
        checked("steam flow", self.steam_flow, 0.0, 1e4, "kg/s", "Give kilograms per second.")
        checked("feed flow", self.feed_flow, 0.0, 1e4, "kg/s", "Give kilograms per second.")
        checked("enthalpy of the feed water", self.feed_enthalpy, 0.0, 2e6, "J/kg",
                "Give joules per kilogram: 632 kJ/kg is 632e3.")
        checked("conductance of the safety valve", self.relief_conductance, 0.0, 1e-2,
                "kg/(s Pa)", "Give kilograms per second and pascal of drum pressure.")

    def steam_leaving(self, pressure):
        """Steam that leaves the drum by consumers and safety valve [kg/s]."""
        return self.steam_flow + self.relief_conductance * pressure


@dataclass(frozen=True, slots=True)
class InputStep:
    """New inputs from an instant on.

    Attributes
    ----------
    time : float [s]
        When.
    inputs : BoilerInputs [W, kg/s, J/kg]
        The inputs from then on.
    """

    time: float
    inputs: BoilerInputs

    def __post_init__(self):
        checked("time of the step", self.time, 0.0, 1e9, "s", "Give seconds.")


@dataclass(frozen=True, slots=True)
class Trajectory:
    """A model stepped through time.

    Attributes
    ----------
    time : array [s]
        Instants, the last one the end or the place where the model stopped.
    states : array [as the model]
        One row per state, one column per instant.
    inputs : tuple of BoilerInputs [W, kg/s, J/kg]
        Inputs in force at each instant.
    ended : str
        "ran to the end", or the limit at which the model stopped.
    """

    time: object
    states: object
    inputs: tuple
    ended: str


def single_step(inputs, time=10.0, **changes):
    """Return a transient of one step: the inputs, and from an instant on changed ones.

    Parameters
    ----------
    inputs : BoilerInputs [W, kg/s, J/kg]
        Inputs up to the step.
    time : float [s]
        When, 0 to 1e5.
    **changes : float [W, kg/s, J/kg]
        New values by the names of :class:`BoilerInputs`.

    Returns
    -------
    tuple of InputStep [s]
        The two stretches of the transient.

    Raises
    ------
    InputError
        A value outside its range.

    References
    ----------
    None: a schedule, not a formula.

    Examples
    --------
    >>> steps = single_step(BoilerInputs(86e6, 50.0, 50.0, 1.0e6), 5.0, feed_flow=0.0)
    >>> steps[1].time, steps[1].inputs.feed_flow
    (5.0, 0.0)
    """
    time = checked("time of the step", time, 0.0, 1e5, "s", "Give seconds.")
    return (InputStep(0.0, inputs), InputStep(time, replace(inputs, **changes)))


def stepped(rate, start, steps, duration, points, limits=(), scale=None):
    """Return a model integrated through steps of its inputs.

    Parameters
    ----------
    rate : callable [s, state, BoilerInputs -> state/s]
        Slopes of the states.
    start : sequence of float [as the model]
        States at the beginning.
    steps : sequence of InputStep [s]
        Inputs in the order of time, the first at 0.
    duration : float [s]
        Length of the run, 1e-3 to 1e5.
    points : int
        Evenly spaced instants to return, both ends included, 2 to 100 000.
    limits : sequence of tuple [text, state -> margin]
        A sentence and a margin that must stay above 0; the run stops where it does not.
    scale : sequence of float [as the model]
        Size of each state, for the error; the start by default.

    Returns
    -------
    Trajectory
        Times [s], states, inputs, and how it ended.

    Raises
    ------
    InputError
        Steps out of order, a limit passed before the start, a value outside its range.

    References
    ----------
    None: integration by scipy (LSODA), relative error 1e-6 per step.

    Examples
    --------
    >>> inputs = BoilerInputs(0.0, 0.0, 2.0, 0.0)
    >>> run = stepped(lambda t, y, u: [u.feed_flow], [1.0], [InputStep(0.0, inputs)], 10.0, 3)
    >>> [round(float(mass), 6) for mass in run.states[0]]
    [1.0, 11.0, 21.0]
    """
    duration = checked("duration", duration, 1e-3, 1e5, "s", "Give seconds.")
    points = int(checked("number of instants", points, 2, 100_000, "", "Give 2 or more."))
    _check_start(start, steps, limits)
    scale = np.abs(start if scale is None else scale)
    grid = np.linspace(0.0, duration, points)
    times, states, inputs, state = [], [], [], np.asarray(start, float)
    begins = [step.time for step in steps]
    for step, begin, end in zip(steps, begins, begins[1:] + [np.inf], strict=True):
        end = min(end, duration)
        if begin >= end:
            continue
        wanted = grid[(grid >= begin) & ((grid < end) | (end == duration))]
        run, state, ended = _one_stretch(rate, state, step.inputs, (begin, end), wanted, limits,
                                         scale)
        times.append(run.t)
        states.append(run.y)
        inputs += [step.inputs] * len(run.t)
        if ended != TO_THE_END:
            break
    return Trajectory(np.concatenate(times), np.concatenate(states, axis=1), tuple(inputs), ended)


def _one_stretch(rate, state, inputs, span, wanted, limits, scale):
    """One stretch without a step: the run at the wanted instants, its end, how it ended."""
    from scipy.integrate import solve_ivp

    def event(margin):
        def at(time, state):
            return margin(state)

        at.terminal = True
        return at

    calls = count(1)

    def counted_rate(time, state):
        if next(calls) > MOST_EVALUATIONS:
            raise InputError(
                f"The model is still at {time:.4g} s after {MOST_EVALUATIONS} evaluations, the "
                "most that are allowed: something in it is far quicker than the rest. Allowed are "
                "inputs nearer to the load of the start (kg/s, W). Make the step smaller.")
        return rate(time, state, inputs)

    run = solve_ivp(counted_rate, span, state, method="LSODA",
                    rtol=1e-6, atol=1e-8 * scale + 1e-14, t_eval=np.union1d(wanted, span[1]),
                    events=[event(margin) for _, margin in limits])
    if not run.success:
        raise InputError(
            f"The model could not be stepped past {run.t[-1] if run.t.size else span[0]:.4g} s: "
            f"{run.message} Allowed are inputs nearer to the load of the start (kg/s, W). "
            "Make the step smaller.")
    if run.status == 1:  # a limit: the place where it was met is the last record
        met = next(i for i, found in enumerate(run.t_events) if found.size)
        run.t = np.append(run.t, run.t_events[met][0])
        run.y = np.column_stack([run.y, run.y_events[met][0]])
        return run, run.y[:, -1], limits[met][0]
    end = run.y[:, -1]
    if span[1] not in wanted:
        run.t, run.y = run.t[:-1], run.y[:, :-1]
    return run, end, TO_THE_END


def _check_start(start, steps, limits):
    times = [step.time for step in steps]
    if not steps or times[0] != 0 or times != sorted(times):
        raise InputError(f"The steps begin at {times} s; allowed are times in rising order, the "
                         "first at 0 s. Sort them.")
    for sentence, margin in limits:
        if margin(np.asarray(start, float)) <= 0:
            raise InputError(f"The start is already beyond a limit of the model: {sentence}. "
                             "Allowed is a start within it. Choose another start.")
