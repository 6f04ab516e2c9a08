"""How the catalogue looks at an instrument, whatever its state is made of.

One entry for each type of state: what it shows, and how to change its drum.
"""

from collections.abc import Callable
from dataclasses import dataclass, replace

from ..errors import InputError
from ..physics.cock_state import CockState
from ..physics.cocks import glass_after
from ..physics.glass import GaugeGlassState, gauge_glass_reading
from ..physics.leg_water import legs_after
from ..physics.signal import FAILURE_HIGH, FAILURE_LOW
from ..physics.transmitter import transmitter_reading
from ..physics.transmitter_state import ELECTRIC, TransmitterState
from ..physics.two_fluid import two_fluid_reading
from ..physics.two_fluid_state import TwoFluidState
from ..physics.u_tube import DRUM_LIMB
from .fault import GLASS, TRANSMITTER, TWO_FLUID, TWO_FLUID_INVERTED

TIME_TO_FOLLOW, TIME_OF_PRESSURE = 5.0, 1.0
"""Time [s] that a glass with cocks is given to follow a level (a clear one needs one or two)
and a pressure, which acts at once: little enough that a creeping glass does not creep far."""


@dataclass(frozen=True, slots=True)
class Shown:
    """What an instrument shows at one moment.

    Attributes
    ----------
    share : float [1]
        Shown level over the height of the instrument; beyond 0 to 1 off the scale.
    true_share : float [1]
        True level over the same height.
    failed : bool
        True where it shows that it is out of order.
    response_time : float [s]
        Time constant of what is shown.
    """

    share: float
    true_share: float
    failed: bool = False
    response_time: float = 0.0


@dataclass(frozen=True, slots=True)
class Instrument:
    """What can be done with the state of one kind of instrument.

    Attributes
    ----------
    name : callable
        State to name: GLASS, TWO_FLUID, TRANSMITTER.
    shown : callable
        State to :class:`Shown`.
    at_share : callable
        State and share of the height [1] to the state with the true level there.
    at_pressure : callable
        State and change of drum pressure [Pa] to the state after it, water and steam
        otherwise unchanged.
    after : callable
        State and time [s] to the state after it, drum and valves unchanged.
    """

    name: Callable
    shown: Callable
    at_share: Callable
    at_pressure: Callable
    after: Callable


def instrument_of(state):
    """Return how to look at the instrument of a state.

    Parameters
    ----------
    state : any [-]
        State of an instrument.

    Returns
    -------
    Instrument [-]
        Its functions.

    Raises
    ------
    InputError
        The catalogue knows no instrument with such a state.

    References
    ----------
    None: a look-up, not a formula.

    Examples
    --------
    >>> from levelkit.physics.glass import GlassMounting
    >>> glass = GaugeGlassState(0.2, 859.6, 8.57, 943.9, GlassMounting(0.5, 0.07, 0.45))
    >>> instrument_of(glass).name(glass)
    'gauge glass'
    """
    for kind, instrument in INSTRUMENTS.items():
        if isinstance(state, kind):
            return instrument
    known = ", ".join(kind.__name__ for kind in INSTRUMENTS)
    raise InputError(f"The catalogue knows no instrument with a {type(state).__name__}; give one "
                     f"of: {known}.")


def _transmitter_shown(state):
    reading = transmitter_reading(state)
    height = state.legs.weir_height
    failed = state.receiver == ELECTRIC and reading.band in (FAILURE_LOW, FAILURE_HIGH)
    return Shown(reading.indicated_level / height, state.drum.level / height, failed,
                 reading.response_time)


def _two_fluid_shown(state):
    reading = two_fluid_reading(state)
    height = state.legs.weir_height
    return Shown(reading.indicated_level / height, state.drum.level / height, False,
                 reading.response_time)


def _two_fluid_name(state):
    return TWO_FLUID_INVERTED if state.tube.visible_limb == DRUM_LIMB else TWO_FLUID


def _remote_at_share(state, share):
    return replace(state, drum=replace(state.drum, level=share * state.legs.weir_height))


def _remote_at_pressure(state, change):
    return replace(state, drum=replace(state.drum, pressure=state.drum.pressure + change))


def _remote_after(state, seconds):
    return replace(state, legs=legs_after(state.drum, state.legs, seconds))


def _glass_shown(state):
    height = state.mounting.steam_connection
    return Shown(gauge_glass_reading(state).indicated_level / height, state.level / height)


def _glass_at_share(state, share):
    return replace(state, level=share * state.mounting.steam_connection)


def _cocks_shown(state):
    """The water in a glass with cocks, or the line that is taken for it."""
    height, faults = state.fitting.steam_connection, state.faults
    seen = state.contents.height if faults.false_line is None else faults.false_line
    # nothing is left to read once both ends stand open to the air by the whole bore
    broken = min(faults.top_leak_area, faults.bottom_leak_area) >= state.fitting.bore_area
    return Shown(seen / height, state.drum.level / height, broken)


def _cocks_at_share(state, share):
    level = share * state.fitting.steam_connection
    return glass_after(replace(state, drum=replace(state.drum, level=level)), TIME_TO_FOLLOW)


def _cocks_at_pressure(state, change):
    drum = replace(state.drum, pressure=state.drum.pressure + change)
    return glass_after(replace(state, drum=drum), TIME_OF_PRESSURE)


INSTRUMENTS = {
    TransmitterState: Instrument(lambda state: TRANSMITTER, _transmitter_shown, _remote_at_share,
                                 _remote_at_pressure, _remote_after),
    TwoFluidState: Instrument(_two_fluid_name, _two_fluid_shown, _remote_at_share,
                              _remote_at_pressure, _remote_after),
    GaugeGlassState: Instrument(lambda state: GLASS, _glass_shown, _glass_at_share,
                                lambda state, change: state, lambda state, seconds: state),
    CockState: Instrument(lambda state: GLASS, _cocks_shown, _cocks_at_share,
                          _cocks_at_pressure, glass_after),
}
