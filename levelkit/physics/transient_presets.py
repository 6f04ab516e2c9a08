"""What can happen to a boiler, as steps of its inputs: five presets for any model here."""

from dataclasses import replace

from ..errors import InputError, checked
from .transients import InputStep, single_step

STEP = 0.2
"""Change of load, share of the steam flow before."""
RELIEF = 0.5
"""Flow of the stuck safety valve at first, share of the steam flow before."""
RELIEF_TIME = 120.0
"""How long the valve sticks [s]."""
COLDER_FEED = 200e3
"""Enthalpy that the feed lacks when its heater fails [J/kg], about 45 K."""

PRESETS = {
    "load step up": "The consumers take a fifth more steam; heat and feed stay as they were.",
    "load step down": "The consumers take a fifth less steam; heat and feed stay as they were.",
    "safety valve sticking open": "A safety valve passes half the load for two minutes, "
                                  "then reseats; heat and feed stay as they were.",
    "cold feed": "A feed heater fails: as much feed, but some 45 K colder.",
    "feed loss": "The feed stops; heat and steam stay as they were.",
}
"""Names of the presets and what happens in each."""


def preset_steps(name, inputs, pressure, time=10.0):
    """Return the steps of a preset, starting from steady inputs.

    Parameters
    ----------
    name : str
        One of the names in `PRESETS`.
    inputs : BoilerInputs [W, kg/s, J/kg]
        Steady inputs before.
    pressure : float [Pa]
        Absolute drum pressure before, for the safety valve.
    time : float [s]
        When it begins, 0 to 1e5.

    Returns
    -------
    tuple of InputStep [s]
        Inputs in the order of time.

    Raises
    ------
    InputError
        An unknown name, or a value outside its range.

    References
    ----------
    [PRESETS-OWN] sizes of the steps are ours.

    Examples
    --------
    >>> from levelkit.physics.transients import BoilerInputs
    >>> steady = BoilerInputs(86e6, 50.0, 50.0, 1.0e6)
    >>> [step.inputs.steam_flow for step in preset_steps("load step up", steady, 8.5e6)]
    [50.0, 60.0]
    """
    time = checked("time of the step", time, 0.0, 1e5, "s", "Give seconds.")
    pressure = checked("drum pressure", pressure, 1e5, 200e5, "Pa", "Give pascal, absolute.")
    if name not in PRESETS:
        raise InputError(f"{name!r} is no preset; the allowed names are {', '.join(PRESETS)} "
                         "(no unit). Choose one.")
    if name == "safety valve sticking open":
        stuck = replace(inputs, relief_conductance=RELIEF * inputs.steam_flow / pressure)
        return (InputStep(0.0, inputs), InputStep(time, stuck),
                InputStep(time + RELIEF_TIME, inputs))
    return single_step(inputs, time, **{
        "load step up": {"steam_flow": (1 + STEP) * inputs.steam_flow},
        "load step down": {"steam_flow": (1 - STEP) * inputs.steam_flow},
        "cold feed": {"feed_enthalpy": max(0.0, inputs.feed_enthalpy - COLDER_FEED)},
        "feed loss": {"feed_flow": 0.0},
    }[name])
