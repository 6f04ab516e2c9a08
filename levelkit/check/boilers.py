"""How levelkit computes the check values of swell and of the natural-circulation boiler."""

from functools import cache

import numpy as np

from ..constants import STANDARD_GRAVITY
from ..physics.flashing import flash_share
from ..physics.natural_circulation import BoilerPlant, boiler_equilibrium, boiler_transient
from ..physics.riser_void import riser_void
from ..physics.swell import SwellDrum, drum_transient, steady_drum
from ..physics.swell_estimates import bubble_expansion_rise
from ..physics.transients import single_step
from ..properties import compressed_water_enthalpy, saturation_line
from ..units import kelvin

PLANT_NAMES = {
    "drum volume": "drum_volume", "riser volume": "riser_volume",
    "downcomer volume": "downcomer_volume", "total metal": "total_metal",
    "riser metal": "riser_metal", "drum metal": "drum_metal",
    "loop friction": "loop_friction",
    "share of condensation carried": "carried_steam", "time of bubbles in the drum": "bubble_time",
    "heat capacity of metal": "metal_heat_capacity", "downcomer area": "downcomer_area",
}


def computed_value(row):
    """Return what levelkit makes of a row's inputs, in the row's unit."""
    return QUANTITIES[row.quantity](row.inputs)


@cache
def _equilibrium(**changes):
    return boiler_equilibrium(saturation_line, BoilerPlant(**changes))


def _condensation(inputs):
    rest = _equilibrium()
    line, u = saturation_line(rest.pressure), rest.inputs
    return u.feed_flow * (line.water_enthalpy - u.feed_enthalpy) / line.latent_heat


def _circulation(inputs):
    rest = _equilibrium(downcomer_area=inputs["A_dc"], loop_friction=inputs["k"])
    # the row's gravity is 9.81, and the flow goes with the root of it
    return rest.circulation_flow * (inputs["g"] / STANDARD_GRAVITY) ** 0.5


@cache
def _boiler_run(drum_metal, area, duration, points, heat, steam_flow):
    rest = _equilibrium(drum_metal=drum_metal, downcomer_area=area)
    steps = single_step(rest.inputs, 0.0, heat=rest.inputs.heat + heat,
                        steam_flow=rest.inputs.steam_flow + steam_flow)
    return boiler_transient(rest, steps, duration, saturation_line, points)


def _run(inputs, duration=200.0, points=201):
    return _boiler_run(inputs.get("m_d_kg", 0.0), inputs.get("A_dc", 0.38), duration, points,
                       1e6 * inputs.get("heat_MW", 0.0), inputs.get("steam_kg_s", 0.0))


def _after(inputs, name):
    run = _run(inputs)
    return float(getattr(run, name)[np.flatnonzero(run.time == inputs["t_s"])[0]])


def _first_slope(inputs):
    run = _run(inputs, 0.1, 3)
    return (run.pressure[-1] - run.pressure[0]) / run.time[-1] / 1e6


@cache
def _three_state(volume, water, metal, heat_capacity, surface, pressure, flow, feed, bubble_time):
    drum = SwellDrum(volume, metal, heat_capacity, surface, bubble_time)
    enthalpy = compressed_water_enthalpy(pressure, kelvin(feed))
    return steady_drum(drum, pressure, water, flow, enthalpy, saturation_line)


def _start(inputs):
    return _three_state(inputs["V_t_m3"], inputs["V_w_m3"], inputs["metal_kg"], inputs["c_m"],
                        inputs["surface_m2"], inputs["p_bar_abs"] * 1e5, inputs["flow_kg_s"],
                        inputs["feed_C"], inputs["bubble_time_s"])


def _three_state_run(inputs):
    begin = _start(inputs)
    changed = (1 + inputs["steam_change"]) * inputs["flow_kg_s"]
    steps = single_step(begin.inputs, 0.0, steam_flow=changed)
    return drum_transient(begin, steps, 60.0, saturation_line, 601)


def _peak(run):
    """Place of the largest change in the first half minute."""
    return np.argmax(np.abs(run.surface_change[:300]))


def _largest_change(inputs):
    run = _three_state_run(inputs)
    return 1000 * run.surface_change[_peak(run)]


def _time_of_largest_change(inputs):
    run = _three_state_run(inputs)
    return run.time[_peak(run)]


def _back(inputs):
    run = _three_state_run(inputs)
    return np.max(run.time[run.surface_change > 0], initial=0.0)


def _slope_of_pressure(inputs):
    run = _three_state_run(inputs)
    return (run.pressure[200] - run.pressure[0]) / 1e5 / run.time[200]


def _expansion(inputs):
    return 1000 * bubble_expansion_rise(inputs["bubbles_m3"], inputs["rho_g_before"],
                                        inputs["rho_g_after"], inputs["surface_m2"])


def _flashed(inputs):
    return inputs["water_kg"] * flash_share(1e3 * inputs["hf_before_kJ"],
                                            1e3 * inputs["hf_after_kJ"], 1e3 * inputs["hfg_kJ"])


QUANTITIES = {
    "plant parameter": lambda i: getattr(BoilerPlant(), PLANT_NAMES[i["parameter"]]),
    "pressure at equilibrium": lambda i: _equilibrium().pressure / 1e6,
    "riser quality at equilibrium": lambda i: _equilibrium().riser_quality,
    "steam under the surface at equilibrium": lambda i: _equilibrium().bubble_volume,
    "circulation at equilibrium": lambda i: _equilibrium().circulation_flow,
    "condensation at equilibrium": _condensation,
    "heat at equilibrium": lambda i: _equilibrium().inputs.heat,
    "steam flow at equilibrium": lambda i: _equilibrium().inputs.steam_flow,
    "steam under the surface without cold feed": lambda i: _equilibrium().rest_bubble_volume,
    "circulation by the momentum balance": _circulation,
    "mean void of the risers": lambda i: riser_void(i["alpha_r"],
                                                    saturation_line(i["P_MPa"] * 1e6)).void,
    "level at equilibrium": lambda i: _equilibrium().surface_height,
    "pressure after a step": lambda i: _after(i, "pressure") / 1e6,
    "riser quality after a step": lambda i: _after(i, "riser_quality"),
    "change of level after a step": lambda i: _after(i, "surface_change"),
    "steam under the surface after a step": lambda i: _after(i, "bubble_volume"),
    "water in the boiler after a step": lambda i: _after(i, "water_volume"),
    "first slope of the pressure": _first_slope,
    "swell peak of the boiler":
        lambda i: 1000 * _run(i, 60.0, 601).surface_change.max(),
    "bubbles at the start": lambda i: _start(i).bubble_volume,
    "largest change of level, three-state drum": _largest_change,
    "time of the largest change, three-state drum": _time_of_largest_change,
    "time at which the level is back, three-state drum": _back,
    "slope of the pressure, three-state drum": _slope_of_pressure,
    "rise by expansion of the bubbles that are there": _expansion,
    "steam flashed from the water": _flashed,
}
