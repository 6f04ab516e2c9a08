"""Where a fault can sit, and what the six instruments are after it: the catalogue applied."""

from dataclasses import dataclass, replace
from functools import lru_cache

from ..faults import FAULTS, Fault, fault_named, instrument_of
from ..physics.cock_state import CockState
from ..physics.glass import GaugeGlassState, GlassMounting
from ..physics.leg_water import legs_after
from ..physics.transmitter_state import PNEUMATIC
from ..units import gauge_pressure_bar
from .setting import (
    AIR_RECEIVER,
    GLASSES,
    NAMES,
    REMOTES,
    SHARED,
    TRANSMITTER_1,
    TRANSMITTER_2,
    healthy_instruments,
    legs_group,
    side_of,
)

DRUM, COMMON_LEG = "drum", "common leg"
OPPOSITE_AT_THE_ENDS = ("list", "rolling")
_OUT_OF_SIGHT = ("level-below-connection", "level-above-glass")


@dataclass(frozen=True, slots=True)
class Placed:
    """A fault of the catalogue at one place of the bench.

    Attributes
    ----------
    key : str
        Fault of the catalogue.
    place : str
        An instrument, "drum" or "common leg".
    """

    key: str
    place: str

    @property
    def fault(self) -> Fault:
        """The fault in the catalogue."""
        return fault_named(self.key)

    @property
    def text(self):
        """Fault and place in words."""
        if self == NO_FAULT:
            return self.key
        return f"{self.fault.name}, {self.place}"


NO_FAULT = Placed("no fault", "everywhere")
"""Stands for a sound boiler among the suspects."""


@lru_cache(maxsize=8)
def candidates(setting_key):
    """Return every single fault that this boiler can have, as Placed.

    Where a fault can sit is found by looking at which states it changes: glass alone, water
    of the leg, valves, one instrument alone, or the whole drum.
    """
    setting = setting_key.setting
    healthy = healthy_instruments(setting, setting.level_before)
    found = []
    for fault in FAULTS:
        found += [Placed(fault.key, place) for place in _places(fault, healthy,
                                                                setting.arrangement)]
    return tuple(found)


class SettingKey:
    """Lets a setting stand in a cache: by boiler, pressure, times and legs, not by level."""

    def __init__(self, setting):
        self.setting = setting
        self._key = (setting.boiler.name, setting.barometer, setting.gauge_pressure_bar,
                     setting.level_before, setting.seconds, setting.arrangement)

    def __hash__(self):
        return hash(self._key)

    def __eq__(self, other):
        return self._key == other._key


def _places(fault, healthy, arrangement):
    if _is_of_the_drum(fault, healthy):
        return (DRUM,)
    touched = [name for name in NAMES if fault.apply(healthy[name]) != healthy[name]]
    if set(touched) <= set(GLASSES):
        return GLASSES
    if set(touched) <= {TRANSMITTER_1, TRANSMITTER_2, AIR_RECEIVER}:
        if fault.apply(healthy[TRANSMITTER_1]).receiver == PNEUMATIC:
            return (AIR_RECEIVER,)  # faults of air make even an electric receiver pneumatic
        if fault.key == "pressure-input-failed":
            return (TRANSMITTER_2,)  # the one whose compensation has such an input
        return (TRANSMITTER_1, TRANSMITTER_2)
    if touched == [REMOTES[0]]:
        return (REMOTES[0],)
    if fault.key == "common-leg-lost":  # needs a leg that is common
        return (COMMON_LEG,) if arrangement == SHARED else ()
    if arrangement == SHARED and not _in_the_manifold(fault, healthy):
        return (COMMON_LEG,)
    return (REMOTES[0], TRANSMITTER_1, TRANSMITTER_2)


def _is_of_the_drum(fault, healthy):
    state = healthy[TRANSMITTER_1]
    after = fault.apply(state)
    return after.drum != state.drum


def _in_the_manifold(fault, healthy):
    state = healthy[TRANSMITTER_1]
    return fault.apply(state).legs.manifold != state.legs.manifold


def reached(placed, arrangement, healthy):
    """Return the instruments that a placed fault acts on directly.

    Parameters
    ----------
    placed : Placed [-]
        Fault and place.
    arrangement : str
        What the remote instruments hang on.
    healthy : mapping of str to state [-]
        The sound instruments, by name.

    Returns
    -------
    tuple of str [-]
        Names of instruments.

    References
    ----------
    None: it follows from what hangs where.

    Examples
    --------
    >>> from levelkit.diagnosis.example import example_setting
    >>> healthy = healthy_instruments(example_setting(), 0.25)
    >>> reached(Placed("wire-broken", TRANSMITTER_2), SHARED, healthy)
    ('transmitter 2',)
    """
    if placed.place == DRUM:
        return NAMES
    if placed.place == COMMON_LEG:
        return REMOTES
    if placed.place not in REMOTES:
        return (placed.place,)
    state, after = healthy[placed.place], placed.fault.apply(healthy[placed.place])
    if after.legs == state.legs:
        return (placed.place,)
    # transmitter 1 and the air receiver hang on one manifold, whatever else is shared
    return ((TRANSMITTER_1, AIR_RECEIVER) if placed.place == TRANSMITTER_1 else (placed.place,))


def faulty_instruments(setting, faults=()):
    """Return the states of all six instruments after the faults, the level and the time.

    The faults come at `level_before`, the level then goes to `level`, and `seconds` pass. A
    fault that moves the level itself, or the pressure, comes last. Lost leg water is lost
    for everybody on that leg.

    Parameters
    ----------
    setting : BenchSetting [m, bar, s]
        The boiler state.
    faults : tuple of Placed [-]
        What is wrong.

    Returns
    -------
    dict of str to state [-]
        By instrument.

    References
    ----------
    [PRACTICE-DIAGNOSIS] the fault catalogue.

    Examples
    --------
    >>> from levelkit.diagnosis.example import example_setting
    >>> lost = Placed("reference-leg-lost", TRANSMITTER_1)
    >>> states = faulty_instruments(example_setting(), (lost,))
    >>> states[TRANSMITTER_1].legs.reference_loss > 0
    True
    """
    healthy = healthy_instruments(setting, setting.level_before)
    reach = [(placed, reached(placed, setting.arrangement, healthy)) for placed in faults
             if placed.place != DRUM]
    states = {}
    for name in NAMES:
        keys = tuple(placed.key for placed, names in reach if name in names)
        like = GLASSES[0] if name in GLASSES else name
        states[name] = _evolved(SettingKey(setting), setting.level, like, keys)
    for placed in faults:
        if placed.place == DRUM:
            for name in NAMES:
                states[name] = _below_weir(_drum_fault(
                    placed.fault, states[name], side_of(name, setting.arrangement), setting))
    _share_leg_water(states, setting.arrangement)
    return states


@lru_cache(maxsize=8192)
def _evolved(setting_key, level, name, fault_keys):
    """One instrument after faults of its own, the level and the time."""
    setting = replace(setting_key.setting, level=level)
    if not fault_keys:
        return healthy_instruments(setting, level)[name]
    state = healthy_instruments(setting, setting.level_before)[name]
    for key in fault_keys:
        state = fault_named(key).apply(state)
    return _left_alone(_moved(state, setting), setting.seconds)


def _moved(state, setting):
    if isinstance(state, CockState):
        return _glass_at(state, setting.level)
    level = min(setting.level, state.legs.weir_height)
    return replace(state, drum=replace(state.drum, level=level))


def _glass_at(state, level):
    look, height = instrument_of(state), state.fitting.steam_connection
    return look.at_share(state, level / height)


def _drum_fault(fault, state, side, setting):
    """A fault of the drum on one instrument; list and roll go the other way at the other end."""
    if fault.key == "reference-leg-flashes" and isinstance(state, CockState):
        remote = fault.apply(healthy_instruments(setting, setting.level)[TRANSMITTER_1])
        low = replace(setting, gauge_pressure_bar=gauge_pressure_bar(
            remote.drum.pressure, setting.barometer))
        return healthy_instruments(low, setting.level)[GLASSES[0]]
    if fault.key == "cold-drum" and isinstance(state, CockState):
        fitting = state.fitting
        at_rest = GaugeGlassState(state.drum.level, state.drum.water_density,
                                  state.drum.steam_density, fitting.water_density,
                                  GlassMounting(fitting.steam_connection, 0.0,
                                                fitting.steam_connection))
        return fault.apply(at_rest)
    after = fault.apply(state)
    if side > 0 or fault.key not in OPPOSITE_AT_THE_ENDS:
        return after
    level = 2 * state.drum.level - after.drum.level
    if isinstance(state, CockState):
        return _glass_at(state, level)
    return replace(state, drum=replace(state.drum, level=level))


def _below_weir(state):
    """A level over the weir runs into the chamber; a remote instrument shows it no higher."""
    if isinstance(state, (CockState, GaugeGlassState)):
        return state
    return replace(state, drum=replace(state.drum, level=min(state.drum.level,
                                                             state.legs.weir_height)))


def _left_alone(state, seconds):
    if seconds <= 0:
        return state
    if isinstance(state, CockState):
        return instrument_of(state).after(state, seconds)
    return replace(state, legs=legs_after(state.drum, state.legs, seconds))


def _share_leg_water(states, arrangement):
    for name in REMOTES:
        group = [states[other] for other in legs_group(name, arrangement)]
        lost = max(state.legs.reference_loss for state in group)
        if lost > states[name].legs.reference_loss:
            states[name] = replace(states[name], legs=replace(states[name].legs,
                                                              reference_loss=lost))


def is_out_of_sight(fault_key):
    """Return whether a fault is nothing but the level outside what the instruments see.

    Parameters
    ----------
    fault_key : str
        Of the catalogue.

    Returns
    -------
    bool
        True for two of them.

    References
    ----------
    None: a look-up.

    Examples
    --------
    >>> is_out_of_sight("level-below-connection")
    True
    """
    return fault_key in _OUT_OF_SIGHT
