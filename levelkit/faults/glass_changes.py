"""One function for each of the faults 1 to 16: healthy state in, faulty state out.

Faults 1 to 9 sit in the gauge glass and touch only its states. Faults 10 to 16 sit in the
drum or the sea and touch the drum of every instrument; those that move the level itself
are marked so in the file of words. How large a fault is stands in the constants: large
enough to be seen, small enough to be believed.
"""

from dataclasses import replace
from math import radians

from ..physics.cock_state import CockState
from ..physics.cocks import glass_after
from ..physics.glass import GaugeGlassState
from ..physics.glass_contents import GlassContents
from ..physics.motion import apparent_list, level_shift
from ..physics.steam_lookup import steam_at
from ..physics.transmitter_state import TransmitterState
from ..physics.two_fluid_state import TwoFluidState
from ..properties import compressed_water_density

AT_ONCE, SEEN_AFTER = 1e-3, 60.0
UNTIL_FULL = 300.0
DRAIN_LEAK = 0.010
TOP_LEAK = 1e-6
CHILLED = 313.15
BELOW_CONNECTION = -0.05
ABOVE_SHARE = 1.3
FROTH = 0.2
SWELL = 0.03
LIST, ARM = radians(2.0), 2.2
ROLL, ROLL_PERIOD, ABOVE_ROLL_AXIS = radians(2.0), 9.0, 6.0


def _cocks_only(change):
    """Let a change through to a glass with cocks, give all other states back as they are."""
    def changed(state):
        return change(state) if isinstance(state, CockState) else state
    changed.__name__, changed.__doc__ = change.__name__, change.__doc__
    return changed


def _left(state, seconds=SEEN_AFTER, **faults):
    """The glass as found some time after a fault came."""
    return glass_after(replace(state, faults=replace(state.faults, **faults)), seconds)


@_cocks_only
def _steam_way_choked(state):
    """1: the trapped steam condenses, the drum pushes water after it."""
    return _left(state, UNTIL_FULL, steam_choke=1.0)


@_cocks_only
def _water_way_choked(state):
    """2: condensate cannot go back."""
    return _left(state, AT_ONCE, water_choke=1.0)


@_cocks_only
def _both_ways_choked(state):
    """3: nothing comes and nothing goes."""
    return _left(state, AT_ONCE, steam_choke=1.0, water_choke=1.0)


@_cocks_only
def _drain_leaking(state):
    """4: the leak takes its pressure from the water way."""
    flux = steam_at(state.steam, state.drum.pressure).water_flux
    share = DRAIN_LEAK / (state.fitting.discharge_coefficient * flux)
    return _left(state, drain_passing=share / state.fitting.drain_way_area)


@_cocks_only
def _ball_seated(state):
    """5: blown empty through a drain snatched open, ball on its seat, drain shut again."""
    steam = state.drum.pressure
    return replace(state, contents=GlassContents(0.0, steam, ball_seated=True,
                                                 time=state.contents.time))


@_cocks_only
def _top_joint_leaking(state):
    """6: steam that leaks takes its pressure from the steam way."""
    return _left(state, top_leak_area=TOP_LEAK)


@_cocks_only
def _glass_broken(state):
    """7: both ends blow into the air through the full bore."""
    area = state.fitting.bore_area
    return replace(state, contents=replace(state.contents, height=0.0), faults=replace(
        state.faults, top_leak_area=area, bottom_leak_area=area))


@_cocks_only
def _false_line(state):
    """8: a stain or a torn mica where the level stood is taken for the level."""
    return replace(state, faults=replace(state.faults, false_line=state.contents.height))


def _glass_chilled(state):
    """9: colder water in the glass weighs more."""
    if isinstance(state, GaugeGlassState):
        return replace(state, glass_water_density=compressed_water_density(1e6, CHILLED))
    if isinstance(state, CockState):
        density = compressed_water_density(state.drum.pressure, CHILLED)
        return glass_after(replace(state, fitting=replace(state.fitting, water_density=density)),
                           SEEN_AFTER)
    return state


def _height(state):
    """Height of an instrument: steam connection or weir."""
    if isinstance(state, GaugeGlassState):
        return state.mounting.steam_connection
    return state.fitting.steam_connection if isinstance(state, CockState) else (
        state.legs.weir_height)


def _with_level(state, level):
    """A state with another drum level, a glass with cocks given time to follow it."""
    if isinstance(state, GaugeGlassState):
        return replace(state, level=level)
    moved = replace(state, drum=replace(state.drum, level=level))
    return glass_after(moved, SEEN_AFTER) if isinstance(state, CockState) else moved


def _any_instrument(change):
    """Let a change through to every kind of state that has a drum level."""
    def changed(state):
        known = isinstance(state, (GaugeGlassState, CockState, TransmitterState, TwoFluidState))
        return change(state) if known else state
    changed.__name__, changed.__doc__ = change.__name__, change.__doc__
    return changed


def _shift(state, metres):
    level = state.level if isinstance(state, GaugeGlassState) else state.drum.level
    return _with_level(state, level + metres)


@_any_instrument
def _below_connection(state):
    """10: the lower connection is in steam."""
    return _with_level(state, BELOW_CONNECTION)


@_any_instrument
def _above_glass(state):
    """11: over the top of the glass; a chamber spills at its weir, so a leg ends there."""
    remote = isinstance(state, (TransmitterState, TwoFluidState))
    return _with_level(state, _height(state) * (1.0 if remote else ABOVE_SHARE))


@_any_instrument
def _froth(state):
    """12: a fifth of what stands below the surface is steam."""
    drum = state if isinstance(state, GaugeGlassState) else state.drum
    name = "drum_water_density" if drum is state else "water_density"
    mixed = (1 - FROTH) * getattr(drum, name) + FROTH * drum.steam_density
    if drum is state:
        return replace(state, **{name: mixed})
    frothing = replace(state, drum=replace(drum, **{name: mixed}))
    return glass_after(frothing, SEEN_AFTER) if isinstance(state, CockState) else frothing


@_any_instrument
def _swell(state):
    """13: falling pressure makes bubbles that lift the surface."""
    return _shift(state, SWELL)


@_any_instrument
def _shrink(state):
    """14: rising pressure or cold feed makes bubbles vanish."""
    return _shift(state, -SWELL)


@_any_instrument
def _listed(state):
    """15: an instrument at the low side of a listed drum."""
    return _shift(state, level_shift(ARM, LIST))


@_any_instrument
def _rolling(state):
    """16: the same instrument at the end of a roll to its side."""
    return _shift(state, level_shift(ARM, apparent_list(ROLL, ROLL_PERIOD, ABOVE_ROLL_AXIS)))


CHANGES = {
    "steam-way-choked": _steam_way_choked,
    "water-way-choked": _water_way_choked,
    "both-ways-choked": _both_ways_choked,
    "glass-drain-leaking": _drain_leaking,
    "ball-seated": _ball_seated,
    "top-joint-leaking": _top_joint_leaking,
    "glass-broken": _glass_broken,
    "false-line": _false_line,
    "glass-chilled": _glass_chilled,
    "level-below-connection": _below_connection,
    "level-above-glass": _above_glass,
    "froth": _froth,
    "swell": _swell,
    "shrink": _shrink,
    "list": _listed,
    "rolling": _rolling,
}
"""Key to function from healthy to faulty state."""
