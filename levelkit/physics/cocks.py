"""The gauge glass in time: what happens after a cock is turned or a way has choked."""

import warnings
from dataclasses import dataclass, replace
from math import exp, log

import numpy as np

from ..errors import InputError, checked
from .cock_flows import flows_at, free_areas
from .drain_blow import drain_blow


@dataclass(frozen=True, slots=True)
class GlassHistory:
    """What a gauge glass did.

    Attributes
    ----------
    time : array [s]
        From the start of the run.
    height : array [m]
        Water above the connection.
    pocket_pressure : array [Pa]
        Steam and gas above the water.
    water_flow, steam_flow : array [kg/s]
        Through the water and steam ways, into the glass.
    condensation : array [kg/s]
        Steam to water.
    drain_water, drain_steam : array [kg/s]
        Out of the drain.
    blow : tuple of DrainBlow [1]
        What the drain shows at each time.
    filled_at, emptied_at : float or None [s]
        When the glass first became full (within 2 mm of the top) or empty (2 mm).
    ball_seated_at : float or None [s]
        When the ball closed.
    end : CockState [Pa, m, K]
        The state at the end, to go on from.
    """

    time: object
    height: object
    pocket_pressure: object
    water_flow: object
    steam_flow: object
    condensation: object
    drain_water: object
    drain_steam: object
    blow: tuple
    filled_at: object
    emptied_at: object
    ball_seated_at: object
    end: object


def with_cocks(state, **openings):
    """Return the state after cocks have been turned.

    Shutting the water cock lets a seated ball drop: the pressures beside it even out.

    Parameters
    ----------
    state : CockState [1]
        Before.
    **openings : float [1]
        ``steam``, ``water``, ``drain``: new openings; the others stay.

    Returns
    -------
    CockState [1]
        After.

    Raises
    ------
    InputError
        Another cock, or an opening outside 0 to 1.

    References
    ----------
    [COCK-MODEL].

    Examples
    --------
    >>> from levelkit.physics.cock_state import CockState, DrumSide
    >>> from levelkit.physics.glass_contents import GlassContents
    >>> from levelkit.physics.steam_lookup import steam_table
    >>> from levelkit.properties import saturated_fluid
    >>> drum = DrumSide(8e5, 0.2, 897.03, 4.161, 4371.0)
    >>> state = CockState(drum, steam_table(8e5, saturated_fluid), GlassContents(0.186, 8e5))
    >>> with_cocks(state, drain=1.0).cocks.drain
    1.0
    """
    unknown = set(openings) - {"steam", "water", "drain"}
    if unknown:
        raise InputError(f"The cock {unknown.pop()!r} is not known; give steam, water or drain.")
    contents = state.contents
    if openings.get("water", 1.0) == 0.0:
        contents = replace(contents, ball_seated=False)
    return replace(state, cocks=replace(state.cocks, **openings), contents=contents)


def glass_history(state, duration, points=200):
    """Return what a gauge glass does from now on with its cocks left as they are.

    The balance of :mod:`levelkit.physics.cock_flows` in height, ln(steam pressure) and gas,
    by a stiff solver; the moment at which the ball seats ends one stretch and begins the next.

    Parameters
    ----------
    state : CockState [Pa, m, kg/m3, K, m2]
        Everything at the start.
    duration : float [s]
        How long, 1e-3 to 1e5.
    points : int
        Number of times reported, evenly spaced.

    Returns
    -------
    GlassHistory [s, m, Pa, kg/s]
        Height, pressure, flows and blow over time; events; the state at the end.

    Raises
    ------
    InputError
        A value outside its range.

    References
    ----------
    [COCK-MODEL].

    Examples
    --------
    >>> from levelkit.physics.cock_state import CockState, DrumSide
    >>> from levelkit.physics.glass_contents import GlassContents
    >>> from levelkit.physics.steam_lookup import steam_table
    >>> from levelkit.properties import saturated_fluid
    >>> drum = DrumSide(8e5, 0.2, 897.03, 4.161, 4371.0)
    >>> state = CockState(drum, steam_table(8e5, saturated_fluid), GlassContents(0.186, 8e5))
    >>> run = glass_history(with_cocks(state, steam=0.0), 30.0)
    >>> f"{1000 * run.height[-1]:.0f} mm"  # steam cock shut: the glass fills
    '396 mm'
    """
    duration = checked("duration", duration, 1e-3, 1e5, "s")
    times = np.linspace(0.0, duration, int(checked("number of points", points, 2, 1e5, "")))
    start = 0.0
    now = (state.contents.height, log(state.contents.steam_pressure / state.drum.pressure),
           state.contents.gas_amount)
    seated_at, pieces, events = None, [], {"full": None, "empty": None}
    if not state.contents.ball_seated and (
            _flows(state, free_areas(state), now).water_flow >= state.fitting.ball_lift_flow):
        seated_at = 0.0  # the rush is there at once
        state = replace(state, contents=replace(state.contents, ball_seated=True))
    while True:
        solution = _solved(state, now, start, times[times >= start], duration)
        for name, found in zip(events, solution.t_events, strict=False):
            if events[name] is None and len(found):
                events[name] = float(found[0])
        pieces.append((state, solution))
        if solution.status != 1:
            now = solution.y[:, -1]
            break
        now, seated_at = solution.y_events[2][0], float(solution.t_events[2][0])
        start = np.nextafter(seated_at, np.inf)
        state = replace(state, contents=replace(state.contents, ball_seated=True))
        if start >= duration:
            break
    return _reported(pieces, now, duration, events, seated_at)


def glass_after(state, step):
    """Return the state of a gauge glass a short time later.

    One step for an animated panel; :func:`glass_history` for a record.

    Parameters
    ----------
    state : CockState [Pa, m, kg/m3, K, m2]
        Now; a caller may have changed cocks, faults or drum since the last step.
    step : float [s]
        Time to go on, 1e-3 to 1e4.

    Returns
    -------
    CockState [Pa, m, s]
        Then.

    Raises
    ------
    InputError
        A value outside its range.

    References
    ----------
    [COCK-MODEL].

    Examples
    --------
    >>> from levelkit.physics.cock_state import CockState, DrumSide
    >>> from levelkit.physics.glass_contents import GlassContents
    >>> from levelkit.physics.steam_lookup import steam_table
    >>> from levelkit.properties import saturated_fluid
    >>> drum = DrumSide(8e5, 0.2, 897.03, 4.161, 4371.0)
    >>> state = CockState(drum, steam_table(8e5, saturated_fluid), GlassContents(0.186, 8e5))
    >>> round(glass_after(state, 0.04).contents.time, 2)
    0.04
    """
    return glass_history(state, checked("step", step, 1e-3, 1e4, "s"), points=2).end


def _flows(state, areas, values):
    """Flows at solver values: height, ln(steam pressure over drum pressure), gas.

    The ratio keeps the solver's relative error of the logarithm small where it counts.
    """
    return flows_at(state, areas, float(values[0]), state.drum.pressure * exp(values[1]),
                    max(float(values[2]), 0.0))


def _solved(state, start_values, start, times, duration):
    from scipy.integrate import solve_ivp

    areas = free_areas(state)
    top = state.fitting.steam_connection
    lift = state.fitting.ball_lift_flow

    def rates(_, values):
        flows = _flows(state, areas, values)
        return flows.height_rate, flows.log_pressure_rate, flows.gas_rate

    def full(_, values):
        return values[0] - (top - 0.002)

    def empty(_, values):
        return values[0] - 0.002

    def ball(_, values):
        return _flows(state, areas, values).water_flow - lift

    full.direction, empty.direction, ball.direction, ball.terminal = 1, -1, 1, True
    events = [full, empty]
    if lift < float("inf") and not state.contents.ball_seated:
        events.append(ball)
    for method in ("LSODA", "Radau"):  # the second is slower and takes what the first cannot
        with warnings.catch_warnings():
            warnings.simplefilter("ignore", UserWarning)
            solution = solve_ivp(rates, (start, duration), start_values, method=method,
                                 events=events, t_eval=times, rtol=1e-6,
                                 atol=(1e-7, 1e-7, 1e-9))
        if solution.status >= 0:
            return solution
    raise InputError(f"The run of {duration:.4g} s could not be followed: {solution.message} "
                     "Use a shorter run or less extreme openings.")


def _reported(pieces, now, duration, events, seated_at):
    rows, times = [], []
    for state, solution in pieces:
        areas = free_areas(state)
        for time, values in zip(solution.t, solution.y.T, strict=True):
            flows = _flows(state, areas, values)
            times.append(time)
            rows.append((max(float(values[0]), 0.0), flows.pocket_pressure, flows.water_flow,
                         flows.steam_flow, flows.condensation, flows.drain_water,
                         flows.drain_steam,
                         drain_blow(state, flows.drain_water, flows.drain_steam)))
    *columns, blow = zip(*rows, strict=True)
    top = state.fitting.steam_connection
    contents = replace(state.contents, height=min(max(float(now[0]), 0.0), top),
                       steam_pressure=state.drum.pressure * exp(now[1]),
                       gas_amount=max(float(now[2]), 0.0), time=state.contents.time + duration)
    return GlassHistory(np.array(times), *map(np.array, columns), blow, events["full"],
                        events["empty"], seated_at, replace(state, contents=contents))
