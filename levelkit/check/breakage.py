"""How levelkit computes the check values of breakage: critical flow, flashing, ball check."""

from math import pi

from ..constants import BAR
from ..physics import ball_check, flashing, relief_formulas
from ..physics.critical_flow import critical_flow
from ..properties import saturated_fluid

HOUR, MINUTE, LITRE, MM2 = 3600.0, 60.0, 1e-3, 1e-6
POUND, INCH2 = 0.45359237, 0.0254**2  # exact by definition
PSI = POUND * 9.80665 / INCH2


def computed_value(row):
    """Return what levelkit makes of a row's inputs, in the row's unit."""
    return QUANTITIES[row.quantity](row.inputs)


def _steam_rule_flow(inputs):
    flux = relief_formulas.steam_rule_flux(inputs["p_psi_abs"] * PSI)
    return flux * inputs["A_in2"] * INCH2 / POUND


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


QUANTITIES = {
    "expansion parameter": _omega,
    "critical pressure of a flashing mixture":
        lambda i: relief_formulas.omega_critical_ratio(_omega(i)) * i["P1_bara"],
    "area for a flashing mixture": _mixture_area,
    "area for a liquid that flashes in the nozzle": _subcooled_area,
    "area for saturated steam": _steam_area,
    "area for a liquid": _liquid_area,
    "steam flux by the linear rule":
        lambda i: relief_formulas.steam_rule_flux(i["p0_bar_abs"] * BAR),
    "steam flow by the linear rule": _steam_rule_flow,
    "flow by the equilibrium rate model": _rate_model_flow,
    "equilibrium rate flux of saturated water":
        lambda i: rate_model_flux(i["p0_bar_abs"] * BAR),
    "homogeneous equilibrium flux of saturated water": lambda i: _critical("water", i).mass_flux,
    "homogeneous equilibrium flux of saturated steam": lambda i: _critical("steam", i).mass_flux,
    "critical pressure ratio of saturated water":
        lambda i: _critical("water", i).throat_pressure / (i["p0_bar_abs"] * BAR),
    "flow of saturated water through a 12 mm bore": lambda i: _break("water", i),
    "flow of saturated steam through a 12 mm bore": lambda i: _break("steam", i),
    "flash share": _flash,
    "volume ratio of a flashing blow": _flash_volume,
    "ball lift velocity": _ball_velocity,
    "ball lift flow": _ball_flow,
}
