"""Three tasks on a manifold: how each begins, what it is to end with, one sound way there."""

from collections.abc import Callable
from dataclasses import dataclass, replace

from ..physics.manifold_drill import (
    FILL_THROUGH_EQUALISER,
    NOTABLE_LOSS,
    PUT_INTO_SERVICE,
    TAKE_OUT_OF_SERVICE,
    made_moves,
)

EMPTIED = 0.6
"""Share of the reference leg that is missing where it has to be filled."""


@dataclass(frozen=True, slots=True)
class Task:
    """One task.

    Attributes
    ----------
    name : str
        What a list calls it.
    begin : callable
        State in service to the state with which the task begins.
    way : tuple of Move
        A sound way; not the only one.
    reached : callable
        State to whether the goal is reached.
    """

    name: str
    begin: Callable
    way: tuple
    reached: Callable


def in_service(state):
    """Return whether an instrument can follow the drum: valves as in service, leg full."""
    valves, legs = state.legs.manifold, state.legs
    others = (valves.equaliser, valves.reference_drain, valves.drum_drain, valves.reference_vent,
              valves.drum_vent)
    return (valves.reference_isolator == valves.drum_isolator == 1.0 and not any(others)
            and legs.chamber.isolated_pressure is None and legs.reference_loss < NOTABLE_LOSS)


def isolated_and_equalised(state):
    """Return whether both isolators are shut, the equaliser is open, and the leg is full."""
    valves = state.legs.manifold
    return (valves.reference_isolator == valves.drum_isolator == 0.0 and valves.equaliser == 1.0
            and state.legs.reference_loss < NOTABLE_LOSS)


def _emptied(state):
    loss = EMPTIED * state.legs.weir_height
    return replace(state, legs=replace(state.legs, reference_loss=loss))


TASKS = {task.name: task for task in (
    Task("take out of service", lambda state: state, TAKE_OUT_OF_SERVICE, isolated_and_equalised),
    Task("put into service", lambda state: made_moves(state, TAKE_OUT_OF_SERVICE)[-1].state,
         PUT_INTO_SERVICE, in_service),
    Task("fill leg and chamber", _emptied, FILL_THROUGH_EQUALISER, in_service),
)}
