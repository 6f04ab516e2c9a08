"""How levelkit computes the check values of cocks: choked, narrowed and leaking ways."""

from dataclasses import replace
from functools import cache
from math import pi

import numpy as np

from ..constants import BAR
from ..physics import cock_times
from ..physics.cock_state import CockFaults, CockState, DrumSide, GaugeFitting
from ..physics.cocks import glass_history, with_cocks
from ..physics.glass_contents import GlassContents
from ..physics.passages import glass_height_with_drops, passage_drop
from ..physics.settled_glass import settled_glass
from ..physics.steam_lookup import steam_at, steam_table
from ..properties import (
    compressed_water_density,
    saturated_fluid,
    saturation_at_pressure,
    saturation_heat,
)
from ..units import kelvin

MINUTE, MM2 = 60.0, 1e-6


def computed_value(row):
    """Return what levelkit makes of a row's inputs, in the row's unit."""
    return QUANTITIES[row.quantity](row.inputs)


@cache
def _steam(pressure):
    return steam_table(pressure, saturated_fluid)


def tubular_state(pressure=8e5, level=0.2, height=None, **fitting):
    """A tubular gauge in service; height is what it holds, the settled height by default."""
    fluid = saturated_fluid(pressure)
    drum = DrumSide(pressure, level, fluid.water_density, fluid.steam_density,
                    fluid.water_heat_capacity)
    state = CockState(drum, _steam(pressure), GlassContents(0.1, pressure),
                      GaugeFitting(**fitting))
    if height is None:
        height = settled_glass(state).height
    return replace(state, contents=GlassContents(height, pressure))


def _choke_constant(inputs, density):
    return cock_times.pocket_time_constant(inputs["A_mm2"] * MM2, inputs["h_fg_kJ"] * 1e3, density,
                                           inputs["U"], inputs["dt_K"])


def _five_per_cent(inputs):
    """Time to 5 % of the steam length, found on the curve itself."""
    tau = _choke_constant(inputs, inputs["rho"])
    times = np.linspace(0, 10 * tau, 100_001)
    return times[np.argmax(cock_times.choked_height(times, 0.0, 1.0, tau) >= 0.95)]


def _first_rise(inputs):
    tau = _choke_constant(inputs, inputs["rho"])
    start, top = inputs["start_mm"], inputs["top_mm"]
    second = 1e3 * cock_times.choked_height(1.0, start / 1e3, top / 1e3, tau)
    return (second - start) * MINUTE


def _leak_drop(inputs):
    return passage_drop(inputs["flow"], inputs["a_mm2"] * MM2, inputs["rho"], inputs["Cd"])


def _leak_fall(inputs):
    heights = [glass_height_with_drops(0.2, inputs["rho"], inputs["rho_g"], inputs["rho"], drop,
                                       0.0, gravity=9.81) for drop in (_leak_drop(inputs), 0.0)]
    return 1e3 * (heights[0] - heights[1])


def _air_fill(inputs):
    return 100 * (1 - cock_times.residual_gas_share(
        inputs["p1_bar"] * BAR, inputs["t1_K"], inputs["p2_bar"] * BAR, inputs["t2_K"]))


def _table_constants(inputs):
    """Steam and water time constants [s] at a gauge pressure, barometer 1.000 bar."""
    pressure = (inputs["gauge_bar"] + 1.0) * BAR
    state, heat = saturation_at_pressure(pressure), saturation_heat(pressure)
    excess = state.temperature - kelvin(inputs["air_C"])
    water = compressed_water_density(pressure, kelvin(inputs["water_C"]))
    return [cock_times.pocket_time_constant(inputs["A_mm2"] * MM2, heat.latent_heat, density,
                                            inputs["U"], excess)
            for density in (state.steam_density, water)]


def _filled(inputs):
    state = tubular_state(height=inputs["start_mm"] / 1e3)
    run = glass_history(with_cocks(state, steam=0.0), inputs["t_s"], points=2)
    return 1e3 * run.height[-1]


def _narrowed(inputs):
    """Rise over the healthy glass, steam length as given, by choice of the drum level."""
    state = tubular_state()
    fluid = state.drum
    healthy = state.fitting.steam_connection - inputs["steam_length_m"]
    level = healthy * ((state.fitting.water_density - fluid.steam_density)
                       / (fluid.water_density - fluid.steam_density))
    hole = pi * (inputs["hole_mm"] / 1e3) ** 2 / 4
    state = replace(state, drum=replace(fluid, level=level),
                    faults=CockFaults(steam_choke=1 - hole / state.fitting.steam_way_area))
    return 1e3 * (settled_glass(state).height - healthy)


def _narrowed_at_first(inputs):
    """Rise that the condensation of the whole steam length would ask for."""
    state = tubular_state()
    drum, fitting = state.drum, state.fitting
    steam = steam_at(state.steam, drum.pressure)
    condensed = (fitting.dry_heat_loss * inputs["steam_length_m"]
                 * (steam.temperature - fitting.ambient_temperature) / steam.latent_heat)
    drop = passage_drop(condensed, pi * (inputs["hole_mm"] / 1e3) ** 2 / 4, drum.steam_density)
    heights = [glass_height_with_drops(0.2, drum.water_density, drum.steam_density,
                                       fitting.water_density, 0.0, step) for step in (drop, 0.0)]
    return 1e3 * (heights[0] - heights[1])


def _narrow_water(inputs):
    return cock_times.narrow_water_way_time(inputs["A_mm2"] * MM2, inputs["a_mm2"] * MM2,
                                            inputs["step_mm"] / 1e3, inputs["Cd"])


QUANTITIES = {
    "time constant of a choked way": lambda i: _choke_constant(i, i["rho"]),
    "time to 5 % of the steam length": _five_per_cent,
    "initial rise with a choked way": _first_rise,
    "ratio of the two time constants":
        lambda i: _choke_constant(i, i["rho_w"]) / _choke_constant(i, i["rho_g"]),
    "fall of pressure over a cock": _leak_drop,
    "change of reading by the fall over the water cock": _leak_fall,
    "share filled beside residual gas": _air_fill,
    "time constant, steam cock choked": lambda i: _table_constants(i)[0],
    "time constant, water cock choked": lambda i: _table_constants(i)[1] / MINUTE,
    "ratio of the time constants": lambda i: _table_constants(i)[1] / _table_constants(i)[0],
    "height by full integration, steam cock choked": _filled,
    "false rise, steam cock narrowed to a hole": _narrowed,
    "false rise before the shortening, steam cock narrowed to a hole": _narrowed_at_first,
    "time to take up a step through a narrow water cock": _narrow_water,
}
