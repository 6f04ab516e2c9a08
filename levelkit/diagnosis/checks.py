"""What a person can look at, feel and try at a boiler, and what it costs in time.

A check gives observations: a number for a name and an instrument, known to a spread. What
is observed comes from the states of the instruments; no check knows the fault.
"""

from collections.abc import Callable
from dataclasses import dataclass, replace
from math import degrees

from ..faults import instrument_of
from ..faults.observed import PRESSURE_STEP
from ..physics.cock_flows import free_areas
from ..physics.cock_state import Cocks, CockState
from ..physics.transmitter import transmitter_reading
from ..physics.transmitter_state import TransmitterState
from ..properties import (
    compressed_water_density,
    saturation_at_pressure,
    saturation_temperature,
)
from ..units import celsius
from .movement import movement
from .readings import FAILED, bench_result, read
from .setting import AIR_RECEIVER, GLASS_A, GLASS_B, GLASSES, NAMES, REMOTES, U_TUBE

COLD_ROOM = 20.0
WAITING = 600.0


@dataclass(frozen=True, slots=True)
class Check:
    """One thing that can be done to find out more.

    Attributes
    ----------
    key, name : str
        In a program, and on a button.
    minutes : float [min]
        What it costs.
    observe : callable
        Bench result and memory to observations: (what, instrument) to number.
    """

    key: str
    name: str
    minutes: float
    observe: Callable


SPREAD = {"glass": 3.0, "two-fluid": 4.0, "transmitter": 3.0, "lost": 0.1, "froth": 0.03,
          "trend": 0.1, "bar": 0.5, "moves": 0.1, "steam way": 0.15, "water way": 0.15,
          "wet": 0.1, "line stays": 0.1, "chamber": 10.0, "leg": 7.0, "run": 5.0, "fluid": 3.0,
          "glass temperature": 8.0, "leak": 0.1, "valve": 0.1, "answer to pressure": 5.0,
          "loop": 0.15, "volts": 0.5, "supply": 0.05, "differential": 0.15, "way": 0.1,
          "mark": 0.01, "gas": 15.0, "list": 0.3, "roll": 0.3, "assumed density": 10.0}
"""Standard deviation of each kind of observation, in its unit: mm, shares, degC, mA, V, bar,
kPa, degrees, kg/m3; 0.1 for yes and no. A reading has half the uncertainty (k = 2) of its
correction. Common practice, no source."""


def shown_mm(reading):
    """Return a reading in mm within what its scale can show, for comparing like with like.

    Parameters
    ----------
    reading : Reading [m]
        What an instrument shows.

    Returns
    -------
    float [mm]
        As its pointer or surface stands.

    References
    ----------
    None: a change of unit.

    Examples
    --------
    >>> from levelkit.diagnosis.example import example_setting
    >>> round(shown_mm(bench_result(example_setting()).readings["transmitter 1"]))
    250
    """
    return 1000.0 * reading.shown


def _kind(name):
    return "glass" if name in GLASSES else "two-fluid" if name == U_TUBE else "transmitter"


def _remembered(memory, check, name, state, work):
    """Work something out once for each state: sound instruments share theirs."""
    key = (check, name if name not in GLASSES else GLASS_A, id(state))
    if key not in memory:
        memory[key] = (state, work())
    return memory[key][1]


def _readings(result, memory):
    seen = {(_kind(name), name): shown_mm(result.readings[name]) for name in NAMES}
    for name in (*GLASSES, U_TUBE):
        seen["lost", name] = float(result.readings[name].status == FAILED)
    drum = result.states[REMOTES[1]].drum
    clear = _clear_water(result)
    seen["froth", "drum"] = 1.0 - (drum.water_density - drum.steam_density) / (
        clear - drum.steam_density)
    seen["trend", "drum"] = float(result.pressure_trend)
    seen["bar", "drum"] = result.pressure / 1e5
    return seen


def _clear_water(result):
    water = result.states[REMOTES[1]].drum.water_density
    boiling = saturation_at_pressure(result.pressure).water_density
    return max(water, boiling)


def _movement(result, memory):
    return {("moves", name): _remembered(
        memory, "moves", name, result.states[name],
        lambda name=name: movement(name, result.states[name], result.setting)) for name in NAMES}


def _blow(glass):
    def observe(result, memory):
        state = result.states[glass]
        if not isinstance(state, CockState):
            return {("steam way", glass): 1.0, ("water way", glass): 1.0,
                    ("wet", glass): float(state.level > 0), ("line stays", glass): 0.0}
        fitting = state.fitting
        steam, water, _ = free_areas(replace(state, cocks=Cocks(1.0, 1.0, 1.0)))
        whole = result.readings[glass].status != FAILED
        return {("steam way", glass): whole * steam / fitting.steam_way_area,
                ("water way", glass): whole * water / fitting.water_way_area,
                ("wet", glass): float(whole and water > 0 and state.drum.level > 0),
                ("line stays", glass): float(state.faults.false_line is not None)}
    return observe


def _is_cold(result):
    return result.pressure < result.setting.barometer + 5e3


def _chambers(result, memory):
    felt = {}
    for name in (U_TUBE, *REMOTES[1:3]):
        chamber = result.states[name].legs.chamber
        if _is_cold(result):
            felt["chamber", name] = COLD_ROOM
        elif chamber.isolated_pressure is None and chamber.make_up == 0.0:
            felt["chamber", name] = _water_temperature(
                result.states[name].legs.reference_density, result.pressure)
        else:
            inside = chamber.isolated_pressure or result.pressure
            felt["chamber", name] = celsius(saturation_temperature(inside))
    return felt


def _water_temperature(density, pressure):
    """Temperature [degC] at which water has a density: what a hand on the pipe feels."""
    low, high = 274.0, saturation_temperature(pressure)
    if _beyond(density, pressure, high):
        return celsius(high)
    for _ in range(24):
        middle = (low + high) / 2
        low, high = ((middle, high) if compressed_water_density(pressure, middle) > density
                     else (low, middle))
    return celsius(low)


def _beyond(density, pressure, hottest):
    return compressed_water_density(pressure, hottest) >= density


def _legs(result, memory):
    felt = {}
    for name in (U_TUBE, *REMOTES[1:3]):
        legs = result.states[name].legs
        top, run, other = (
            _remembered(memory, part, name, result.states[name],
                        lambda part=part, legs=legs: _water_temperature(
                            getattr(legs, part), result.pressure))
            for part in ("reference_density", "reference_run_density", "drum_run_density"))
        felt["leg", name], felt["run", name] = top, run - other
    felt["fluid", U_TUBE] = celsius(result.states[U_TUBE].fluid_temperature)
    for name in GLASSES:
        state = result.states[name]
        density = (state.fitting.water_density if isinstance(state, CockState)
                   else state.glass_water_density)
        felt["glass temperature", name] = _remembered(
            memory, "warm", name, state,
            lambda density=density: _water_temperature(density, result.pressure))
    return felt


def _leaks(result, memory):
    seen = {}
    for name in GLASSES:
        state = result.states[name]
        cocks = state.faults if isinstance(state, CockState) else None
        seen["leak", f"{name}, drain"] = float(bool(cocks) and cocks.drain_passing > 0)
        seen["leak", f"{name}, top"] = float(bool(cocks) and cocks.top_leak_area > 0)
    for name in (U_TUBE, *REMOTES[1:3]):
        valves = result.states[name].legs.manifold
        seen["leak", f"{name}, drum-side drain"] = float(valves.drum_drain > 0)
        seen["leak", f"{name}, reference drain"] = float(valves.reference_drain > 0)
    return seen


def _valves(result, memory):
    """Positions of handles: a valve that passes, or a line that is choked, looks right."""
    seen = {}
    for name in (U_TUBE, *REMOTES[1:3]):
        legs = result.states[name].legs
        for valve in ("reference_isolator", "drum_isolator", "equaliser"):
            opening = getattr(legs.manifold, valve)
            usual = 0.0 if valve == "equaliser" else 1.0
            seen["valve", f"{name}, {valve.replace('_', ' ')}"] = (
                opening if opening in (0.0, 1.0) else usual)
        seen["valve", f"{name}, chamber"] = float(legs.chamber.isolated_pressure is None)
    return seen


def _pressure_step(result, memory):
    return {("answer to pressure", name): _remembered(
        memory, "step", name, result.states[name],
        lambda name=name: _answer(name, result)) for name in NAMES}


def _answer(name, result):
    state = result.states[name]
    step = instrument_of(state).at_pressure
    up, down = (1000.0 * read(name, step(state, change), result.setting).shown
                for change in (PRESSURE_STEP, -PRESSURE_STEP))
    return up - down


def _loops(result, memory):
    seen = {}
    for name in REMOTES[1:]:
        state: TransmitterState = result.states[name]
        reading = transmitter_reading(state)
        seen["differential", name] = reading.differential / 1e3
        seen["way", name] = float(state.calibration.upper_value > state.calibration.lower_value)
        if name == AIR_RECEIVER:
            seen["supply", name] = state.air.supply_pressure / 1e5
            seen["supply", f"{name}, lost in the tube"] = state.air.leak
            continue
        seen["loop", name] = 1e3 * (reading.sent_current - reading.current)
        seen["loop", f"{name}, sent"] = 1e3 * (0.0 if state.loop.wire_broken
                                               else reading.sent_current)
        seen["volts", name] = state.loop.supply_voltage
        if state.compensation is not None:
            seen["assumed density", name] = state.compensation.water_density
    return seen


def _mark(result, memory):
    state = result.states[U_TUBE]
    sheet = state.scale
    usual = (sheet.fluid_volume + state.tube.bend_volume) * sheet.fluid_density
    return {("mark", U_TUBE): state.filling * state.fluid.density / usual - 1.0}


def _gas(result, memory):
    seen = {}
    for name in (U_TUBE, *REMOTES[1:3]):
        legs = result.states[name].legs
        seen["gas", f"{name}, drum side"] = 1000.0 * legs.drum_gas
        seen["gas", f"{name}, reference"] = 1000.0 * legs.reference_gas
    return seen


def _clinometer(result, memory):
    return {("list", "ship"): degrees(result.list_angle),
            ("roll", "ship"): degrees(result.roll_angle)}


def _later(result, memory):
    setting = replace(result.setting, seconds=result.setting.seconds + WAITING)
    after = bench_result(setting, result.faults)
    return {(_kind(name), f"{name}, later"): shown_mm(after.readings[name]) for name in NAMES}


CHECKS = {check.key: check for check in (
    Check("readings", "Read all six", 0.5, _readings),
    Check("movement", "Watch them move", 1.0, _movement),
    Check("blow A", "Blow through glass A", 3.0, _blow(GLASS_A)),
    Check("blow B", "Blow through glass B", 3.0, _blow(GLASS_B)),
    Check("chamber", "Feel the chambers", 1.0, _chambers),
    Check("legs", "Feel legs and glasses", 2.0, _legs),
    Check("leaks", "Look at drains, joints", 2.0, _leaks),
    Check("valves", "Look at the valves", 1.0, _valves),
    Check("pressure", "Step the pressure", 3.0, _pressure_step),
    Check("loop", "Meter the loops", 5.0, _loops),
    Check("mark", "Fluid to its mark?", 5.0, _mark),
    Check("gas", "Vent the legs", 5.0, _gas),
    Check("clinometer", "Read the clinometer", 0.5, _clinometer),
    Check("later", "Wait ten minutes", 10.0, _later),
)}
"""Everything that can be checked, by key. The first is done on arrival."""
