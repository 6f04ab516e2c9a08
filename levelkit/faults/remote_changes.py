"""One function for each of the faults 17 to 45: healthy state in, faulty state out.

Every function takes the state of any instrument and gives it back as it is where the
fault does not touch it. How large a fault is stands in the constants: large enough to be
seen, small enough to be believed.
"""

from dataclasses import replace

from ..physics.glass import GaugeGlassState
from ..physics.reference_leg import flashing_length
from ..physics.transmitter_range import upside_down
from ..physics.transmitter_state import FAILS_HIGH, PNEUMATIC, Compensation, TransmitterState
from ..physics.trapped_water import moved_valve
from ..physics.two_fluid_state import TwoFluidState
from ..physics.wet_legs import instrument_ports
from ..properties import (
    cold_drum_fluids,
    compressed_water_density,
    saturation_at_pressure,
    saturation_temperature,
)

COLD = 293.15
WARM_LEG = 368.15
WARM_RUN = 363.15
AIR_AT_THE_LEG = 318.15
DECAY_LENGTH = 0.114
LEFT_OF_PRESSURE = 0.05
LOST_SHARE = 0.15
GAS_LENGTH = 0.1
SMALL_WEEP = 5e-6
PASSING = 0.05
DRAIN_LEAK = 2e-4
CHOKED = 1e-5
FILLING_CHANGE = 0.06
FLUID_WARMER = 18.0
LOW_SUPPLY = 12.0
TUBE_LEAK = 0.10

_REMOTE = (TwoFluidState, TransmitterState)


def _on_legs(state, **changes):
    return replace(state, legs=replace(state.legs, **changes))


def _only(*kinds):
    """Let a change through to states of these kinds, give all others back as they are."""
    def wrap(change):
        def changed(state):
            return change(state) if isinstance(state, kinds) else state
        changed.__name__, changed.__doc__ = change.__name__, change.__doc__
        return changed
    return wrap


def _valve(name, opening):
    """A change that moves one valve of the manifold and keeps the pressure it shuts in."""
    @_only(*_REMOTE)
    def change(state):
        give = state.capsule_give if isinstance(state, TransmitterState) else 1.0
        ports = instrument_ports(state.drum, state.legs, give)
        return _on_legs(state, manifold=moved_valve(state.legs.manifold, name, opening, ports))
    return change


def _saturated_compensation(state, pressure):
    """Compensation by the pressure reported; it goes on assuming the leg that it assumed."""
    steam, before = saturation_at_pressure(pressure), state.compensation
    leg = state.legs.reference_density if before is None else before.leg_density
    return Compensation(steam.water_density, steam.steam_density, leg)


def _cold_drum(state):
    """17: everything cold, open to the air; the instrument keeps its hot calibration."""
    if isinstance(state, GaugeGlassState):
        cold = cold_drum_fluids(COLD)
        return replace(state, drum_water_density=cold.water_density,
                       steam_density=cold.steam_density, glass_water_density=cold.water_density)
    if not isinstance(state, _REMOTE):
        return state
    cold = cold_drum_fluids(COLD, state.legs.barometer)
    water = cold.water_density
    state = replace(state, drum=replace(state.drum, pressure=cold.pressure, water_density=water,
                                        steam_density=cold.steam_density))
    state = _on_legs(state, reference_density=water, reference_run_density=water,
                     drum_run_density=water)
    if isinstance(state, TransmitterState) and state.compensation is not None:
        return replace(state, compensation=_saturated_compensation(state, cold.pressure))
    return state


@_only(*_REMOTE)
def _leg_warmed(state):
    """18: the reference leg above the connection warmed through."""
    return _on_legs(state, reference_density=compressed_water_density(state.drum.pressure,
                                                                      WARM_LEG))


@_only(*_REMOTE)
def _leg_lost(state):
    """19 and 45: the top of the reference leg is gone."""
    return _on_legs(state, reference_loss=LOST_SHARE * state.legs.weir_height)


def _leg_flashes(state):
    """20: drum pressure falls fast to a twentieth, the hot top of the leg boils away."""
    if not isinstance(state, _REMOTE):
        return state
    legs, before = state.legs, state.drum.pressure
    after = legs.barometer + LEFT_OF_PRESSURE * (before - legs.barometer)
    steam = saturation_at_pressure(after)
    lost = flashing_length(after, legs.weir_height, saturation_temperature(before),
                           AIR_AT_THE_LEG, DECAY_LENGTH, legs.reference_density,
                           saturation_temperature)
    drum = replace(state.drum, pressure=after, water_density=steam.water_density,
                   steam_density=steam.steam_density)
    return replace(state, drum=drum, legs=replace(legs, reference_loss=lost))


@_only(*_REMOTE)
def _gas_in_chamber(state):
    """21: gas keeps steam from the chamber, which no longer makes up a small weep."""
    return _on_legs(state, chamber=replace(state.legs.chamber, make_up=0.0), weep=SMALL_WEEP)


@_only(*_REMOTE)
def _chamber_isolated(state):
    """22: the chamber's steam valve is shut."""
    return _on_legs(state, chamber=replace(state.legs.chamber,
                                           isolated_pressure=state.drum.pressure))


@_only(*_REMOTE)
def _gas_in_drum_leg(state):
    """30: gas in the vertical run of the drum-side leg."""
    return _on_legs(state, drum_gas=min(GAS_LENGTH, state.legs.depth))


@_only(*_REMOTE)
def _gas_in_reference_leg(state):
    """31: gas in the reference leg."""
    return _on_legs(state, reference_gas=min(GAS_LENGTH, state.legs.weir_height))


@_only(TwoFluidState)
def _fluid_lost(state):
    """32: indicating fluid lost."""
    return replace(state, filling=(1.0 - FILLING_CHANGE) * state.filling)


@_only(TwoFluidState)
def _fluid_overfilled(state):
    """33: too much indicating fluid."""
    return replace(state, filling=(1.0 + FILLING_CHANGE) * state.filling)


@_only(TwoFluidState)
def _fluid_warm(state):
    """34: the indicating fluid warmer than on the day the scale was drawn."""
    return replace(state, fluid_temperature=state.fluid_temperature + FLUID_WARMER)


@_only(*_REMOTE)
def _legs_unequal(state):
    """35: the reference line below the connection warmer than its neighbour."""
    return _on_legs(state, reference_run_density=compressed_water_density(state.drum.pressure,
                                                                          WARM_RUN))


@_only(TransmitterState)
def _ports_crossed(state):
    """36: ports piped the wrong way round."""
    return replace(state, ports_crossed=not state.ports_crossed)


@_only(TransmitterState)
def _range_upside_down(state):
    """37: LRV and URV entered the wrong way round."""
    return replace(state, calibration=upside_down(state.calibration))


@_only(TransmitterState)
def _low_supply(state):
    """38: too few volts for the load."""
    return replace(state, loop=replace(state.loop, supply_voltage=LOW_SUPPLY))


@_only(TransmitterState)
def _wire_broken(state):
    """39: no current at all."""
    return replace(state, loop=replace(state.loop, wire_broken=True))


@_only(TransmitterState)
def _transmitter_failed(state):
    """40: the transmitter finds a fault in itself and says so."""
    return replace(state, health=FAILS_HIGH)


@_only(TransmitterState)
def _receiver_shunted(state):
    """41: a second receiver of the same resistance in parallel with the indicator."""
    first, *others = state.loop.receivers
    shunted = replace(first, shunt=first.resistance)
    return replace(state, loop=replace(state.loop, receivers=(shunted, *others)))


@_only(TransmitterState)
def _air_failed(state):
    """42: no air supply to a pneumatic transmitter."""
    return replace(state, receiver=PNEUMATIC, air=replace(state.air, supply_pressure=0.0))


@_only(TransmitterState)
def _tube_leaks(state):
    """43: the signal tube of a pneumatic transmitter leaks."""
    return replace(state, receiver=PNEUMATIC, air=replace(state.air, leak=TUBE_LEAK))


@_only(TransmitterState)
def _pressure_input_failed(state):
    """44: the compensation works with the pressure of the air, its input having failed."""
    return replace(state, compensation=_saturated_compensation(state, state.legs.barometer))


CHANGES = {
    "cold-drum": _cold_drum,
    "reference-leg-warm": _leg_warmed,
    "reference-leg-lost": _leg_lost,
    "reference-leg-flashes": _leg_flashes,
    "chamber-gas": _gas_in_chamber,
    "chamber-isolated": _chamber_isolated,
    "equaliser-open": _valve("equaliser", 1.0),
    "equaliser-passing": _valve("equaliser", PASSING),
    "drum-isolator-shut": _valve("drum_isolator", 0.0),
    "reference-isolator-shut": _valve("reference_isolator", 0.0),
    "drum-drain-leaking": _valve("drum_drain", DRAIN_LEAK),
    "reference-drain-leaking": _valve("reference_drain", DRAIN_LEAK),
    "line-choked": _valve("drum_isolator", CHOKED),
    "drum-leg-gas": _gas_in_drum_leg,
    "reference-leg-gas": _gas_in_reference_leg,
    "fluid-lost": _fluid_lost,
    "fluid-overfilled": _fluid_overfilled,
    "fluid-warm": _fluid_warm,
    "legs-unequal": _legs_unequal,
    "ports-crossed": _ports_crossed,
    "range-upside-down": _range_upside_down,
    "low-supply": _low_supply,
    "wire-broken": _wire_broken,
    "transmitter-failed": _transmitter_failed,
    "receiver-shunted": _receiver_shunted,
    "air-failed": _air_failed,
    "tube-leaks": _tube_leaks,
    "pressure-input-failed": _pressure_input_failed,
    "common-leg-lost": _leg_lost,
}
