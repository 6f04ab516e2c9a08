"""How levelkit computes each quantity of `check_values_glass.csv`, in the unit of the row."""

from dataclasses import replace
from functools import cache
from math import degrees, pi, radians, sqrt

import numpy as np

from levelkit.constants import BAR
from levelkit.physics import ball_check, cock_times, flashing, heat_loss, optics, relief_formulas
from levelkit.physics.cock_state import CockFaults, CockState, DrumSide, GaugeFitting
from levelkit.physics.cocks import glass_history, with_cocks
from levelkit.physics.critical_flow import critical_flow
from levelkit.physics.glass_contents import GlassContents
from levelkit.physics.meniscus import bore_meniscus
from levelkit.physics.passages import glass_height_with_drops, passage_drop
from levelkit.physics.settled_glass import settled_glass
from levelkit.physics.steam_lookup import steam_at, steam_table
from levelkit.properties import (
    compressed_water_density,
    refractive_index,
    saturated_fluid,
    saturation_at_pressure,
    saturation_heat,
)
from levelkit.units import kelvin

HOUR, MINUTE, LITRE, MM2 = 3600.0, 60.0, 1e-3, 1e-6


def computed_value(row):
    """Return what levelkit makes of a row's inputs, in the row's unit."""
    return _QUANTITIES[row.quantity](row.inputs)


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


def _water_index(inputs):
    density = compressed_water_density(inputs["p_MPa"] * 1e6, kelvin(inputs["t_C"]))
    return refractive_index(density, kelvin(inputs["t_C"]))


def _saturated_index(inputs):
    state = saturation_at_pressure(inputs["p_MPa"] * 1e6)
    density = state.water_density if inputs["phase"] == "water" else state.steam_density
    return refractive_index(density, state.temperature)


def _reflected(inputs):
    return optics.reflectance(radians(inputs["angle_deg"]), inputs["n1"], inputs["n2"])


def _least_groove_index(inputs):
    """Smallest index whose critical angle is 45 degrees, by halving."""
    low, high = 1.01, 3.0
    for _ in range(50):
        middle = (low + high) / 2
        low, high = ((low, middle) if optics.critical_angle(middle, inputs["n2"]) <= pi / 4
                     else (middle, high))
    return high


def _polarising_angle(inputs):
    """Angle of the least in-plane reflectance, found by looking at each hundredth of a degree."""
    angles = np.radians(np.arange(0.0, 60.0, 0.01))
    return degrees(angles[np.argmin(
        optics.reflectance(angles, inputs["n1"], inputs["n2"]).in_plane)])


def _narrow_bore(inputs):
    return 1e3 * bore_meniscus(inputs["radius_mm"] / 1e3, inputs["sigma"], inputs["density"],
                               gravity=inputs["g"]).middle_rise


def _omega(inputs):
    return relief_formulas.omega_parameter(1 / inputs["v1"], 1 / inputs["v9"])


def _mixture_area(inputs):
    flux = relief_formulas.omega_two_phase_flux(inputs["P1_bara"] * BAR, 1 / inputs["v1"],
                                                _omega(inputs), inputs["P2_bara"] * BAR)
    return inputs["W_kg_h"] / HOUR / (inputs["Kd"] * flux) / MM2


def _subcooled_area(inputs):
    omega = relief_formulas.omega_parameter(inputs["rho1"], inputs["rho9"])
    flux = relief_formulas.omega_subcooled_flux(
        inputs["P1_bara"] * BAR, inputs["Ps_bara"] * BAR, inputs["rho1"], omega,
        inputs["P2_bara"] * BAR)
    return inputs["Q_L_min"] * LITRE / MINUTE * inputs["rho1"] / (inputs["Kd"] * flux) / MM2


def _steam_area(inputs):
    flux = relief_formulas.steam_rule_flux(inputs["P1_kPa"] * 1e3)
    return inputs["W_kg_h"] / HOUR / (inputs["Kd"] * flux) / MM2


def _liquid_area(inputs):
    density = 999.0 * inputs["Gl"]
    flux = relief_formulas.orifice_flux(density, inputs["dp_bar"] * BAR)
    share = inputs["Kd"] * inputs["Kw"] * inputs["Kv"]
    return inputs["Q_L_min"] * LITRE / MINUTE * density / (share * flux) / MM2


def _rate_model_flow(inputs):
    return pi * inputs["d_m"] ** 2 / 4 * relief_formulas.equilibrium_rate_flux(
        inputs["dHv_J_kg"], inputs["vfg"], inputs["T_K"], inputs["Cp"])


def rate_model_flux(pressure):
    """Equilibrium rate flux of saturated water."""
    fluid = saturated_fluid(pressure)
    return relief_formulas.equilibrium_rate_flux(
        fluid.steam_enthalpy - fluid.water_enthalpy,
        1 / fluid.steam_density - 1 / fluid.water_density, fluid.temperature,
        fluid.water_heat_capacity)


def _critical(start, inputs):
    return critical_flow(inputs["p0_bar_abs"] * BAR, start, saturated_fluid)


def _break(start, inputs):
    return _critical(start, inputs).mass_flux * pi * 0.012**2 / 4


def _stem_rate(inputs):
    d = inputs["D_m"]
    return heat_loss.stem_decay_rate(inputs["h"], pi * d, inputs["k"], pi * d * d / 4)


def _stem_heat(inputs, length, excess):
    return heat_loss.stem_heat_rate(length, inputs["h"], inputs["D_m"], inputs["k"], excess)


def _lagging(inputs):
    return heat_loss.lagged_tube_heat_loss(kelvin(inputs["Ti_C"]), kelvin(inputs["To_C"]),
                                           inputs["Di_m"], inputs["Do_m"], inputs["k"])


def _stream(inputs):
    return heat_loss.stream_temperature(
        inputs["x_m"], kelvin(inputs["T0_C"]), kelvin(inputs["Ta_C"]),
        inputs["U"] * inputs["P_m"], inputs["m_kg_s"], inputs["cp"]) - 273.15


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


def _flash(inputs):
    return flashing.flash_share(inputs["h_kJ"] * 1e3, inputs["hf_kJ"] * 1e3, inputs["hfg_kJ"] * 1e3)


def _flash_volume(inputs):
    return flashing.flash_volume_ratio(_flash(inputs), inputs["rho1"], inputs["rho_f"],
                                       inputs["rho_g"])


def _ball_velocity(inputs):
    return ball_check.ball_lift_velocity(inputs["D_mm"] / 1e3, inputs["rho"], inputs["rho_ball"],
                                         inputs["Cd"])


def _ball_flow(inputs):
    return ball_check.ball_lift_flow(_ball_velocity(inputs), inputs["rho"],
                                     inputs["passage_mm"] / 1e3)


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


_QUANTITIES = {
    "critical angle": lambda i: degrees(optics.critical_angle(i["n1"], i["n2"])),
    "smallest glass index that reflects all at a groove": _least_groove_index,
    "index of glass":
        lambda i: optics.glass_refractive_index(i["glass"], i["lambda_um"] * 1e-6),
    "index of water": _water_index,
    "index of saturated fluid": _saturated_index,
    "reflectance of natural light": lambda i: 100 * _reflected(i).unpolarised,
    # the example gives amplitudes, negative from thin to dense: the share is their square
    "amplitude crosswise": lambda i: -sqrt(_reflected(i).crosswise),
    "amplitude in plane": lambda i: -sqrt(_reflected(i).in_plane),
    "reflectance crosswise": lambda i: _reflected(i).crosswise,
    "polarising angle": _polarising_angle,
    "rise of the middle in a narrow bore": _narrow_bore,
    "expansion parameter": _omega,
    "critical pressure of a flashing mixture":
        lambda i: relief_formulas.omega_critical_ratio(_omega(i)) * i["P1_bara"],
    "area for a flashing mixture": _mixture_area,
    "area for a liquid that flashes in the nozzle": _subcooled_area,
    "area for saturated steam": _steam_area,
    "area for a liquid": _liquid_area,
    "steam flux by the linear rule":
        lambda i: relief_formulas.steam_rule_flux(i["p0_bar_abs"] * BAR),
    "flow by the equilibrium rate model": _rate_model_flow,
    "equilibrium rate flux of saturated water":
        lambda i: rate_model_flux(i["p0_bar_abs"] * BAR),
    "homogeneous equilibrium flux of saturated water": lambda i: _critical("water", i).mass_flux,
    "homogeneous equilibrium flux of saturated steam": lambda i: _critical("steam", i).mass_flux,
    "critical pressure ratio of saturated water":
        lambda i: _critical("water", i).throat_pressure / (i["p0_bar_abs"] * BAR),
    "flow of saturated water through a 12 mm bore": lambda i: _break("water", i),
    "flow of saturated steam through a 12 mm bore": lambda i: _break("steam", i),
    "heat through lagging": _lagging,
    "heat into a very long stem": lambda i: _stem_heat(i, 100.0, i["Tb_C"] - i["Ta_C"]),
    "length of stem that counts as infinite, 2.65/m": lambda i: 2.65 / _stem_rate(i),
    "decay rate of a stem": _stem_rate,
    "heat into a stem of finite length": lambda i: _stem_heat(i, i["L_m"], i["excess_K"]),
    "temperature of a slow stream": _stream,
    "time constant of a choked way": lambda i: _choke_constant(i, i["rho"]),
    "time to 5 % of the steam length": _five_per_cent,
    "initial rise with a choked way": _first_rise,
    "ratio of the two time constants":
        lambda i: _choke_constant(i, i["rho_w"]) / _choke_constant(i, i["rho_g"]),
    "fall of pressure over a cock": _leak_drop,
    "change of reading by the fall over the water cock": _leak_fall,
    "flash share": _flash,
    "volume ratio of a flashing blow": _flash_volume,
    "ball lift velocity": _ball_velocity,
    "ball lift flow": _ball_flow,
    "share filled beside residual gas": _air_fill,
    "time constant, steam cock choked": lambda i: _table_constants(i)[0],
    "time constant, water cock choked": lambda i: _table_constants(i)[1] / MINUTE,
    "ratio of the time constants": lambda i: _table_constants(i)[1] / _table_constants(i)[0],
    "height by full integration, steam cock choked": _filled,
    "false rise, steam cock narrowed to a hole": _narrowed,
    "false rise before the shortening, steam cock narrowed to a hole": _narrowed_at_first,
    "time to take up a step through a narrow water cock": _narrow_water,
}
