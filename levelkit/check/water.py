"""How levelkit computes the check values of water, steam and the cold gauge glass."""

from .. import properties as water
from ..constants import BAR
from ..physics.circulation import CirculationState, circulating_glass
from ..physics.glass import drum_level, glass_column_height
from ..units import celsius, kelvin

POUND_PER_CUBIC_FOOT = 0.45359237 / 0.3048**3  # kg/m3, exact by definition


def computed_value(row):
    """Return what levelkit makes of a row's inputs, in the row's unit."""
    return QUANTITIES[row.quantity](row.inputs)


def _pt(inputs):
    return inputs["p_MPa"] * 1e6, inputs["T_K"]


def _internal_energy(enthalpy, density):
    """u = h - p v, from an enthalpy and a density function."""
    return lambda i: (enthalpy(*_pt(i)) - _pt(i)[0] / density(*_pt(i))) / 1e3


def _saturated(inputs):
    return water.saturation_at_pressure(inputs["p_bar_abs"] * BAR)


def _heat(inputs):
    return water.saturation_heat(inputs["p_bar_abs"] * BAR)


def _heat_at_temperature(inputs):
    return water.saturation_heat(water.saturation_pressure(inputs["T_K"]))


def _index(inputs):
    pressure, temperature = _pt(inputs)
    phase = (water.compressed_water_density if inputs["phase"] == "water"
             else water.steam_density)
    return water.refractive_index(phase(pressure, temperature), temperature,
                                  inputs["lambda_um"] * 1e-6)


def _given(inputs):
    return inputs["rho_f"], inputs["rho_g"], inputs["rho_w"]


def _height_mm(inputs):
    return 1000 * glass_column_height(inputs["level_mm"] / 1000, *_given(inputs))


def _level_mm(inputs):
    return 1000 * drum_level(inputs["glass_mm"] / 1000, *_given(inputs))


def _level_above_visible_end_mm(inputs):
    height = (inputs["reading_mm"] + inputs["visible_bottom_mm"]) / 1000
    return 1000 * drum_level(height, *_given(inputs)) - inputs["visible_bottom_mm"]


def _cold_reading(inputs):
    state = _saturated(inputs)
    glass = water.compressed_water_density(state.pressure, kelvin(inputs["t_glass_C"]))
    return 1000 * glass_column_height(inputs["level_mm"] / 1000, state.water_density,
                                      state.steam_density, glass)


def _sign_of_cold_glass(inputs):
    """Direction of the error at 60 bar with water of 60 degC in the glass."""
    given = {"p_bar_abs": 60, "t_glass_C": 60, "level_mm": 300}
    return 1 if _cold_reading(given) > given["level_mm"] else -1


def _circulation(inputs):
    state, heat = _saturated(inputs), _heat(inputs)
    return circulating_glass(
        CirculationState(
            inputs["level_mm"] / 1000, state.water_density, state.steam_density,
            state.temperature, kelvin(inputs["t_air_C"]), heat.latent_heat,
            heat.water_heat_capacity, inputs["steam_connection_mm"] / 1000,
            inputs["extra_condensing_length_mm"] / 1000),
        lambda temperature: water.compressed_water_density(state.pressure, temperature))


QUANTITIES = {
    "volume of water": lambda i: 1 / water.compressed_water_density(*_pt(i)),
    "enthalpy of water": lambda i: water.compressed_water_enthalpy(*_pt(i)) / 1e3,
    "entropy of water": lambda i: water.compressed_water_entropy(*_pt(i)) / 1e3,
    "heat capacity of water": lambda i: water.compressed_water_heat_capacity(*_pt(i)) / 1e3,
    "internal energy of water": _internal_energy(water.compressed_water_enthalpy,
                                             water.compressed_water_density),
    "volume of steam": lambda i: 1 / water.steam_density(*_pt(i)),
    "enthalpy of steam": lambda i: water.steam_enthalpy(*_pt(i)) / 1e3,
    "internal energy of steam": _internal_energy(water.steam_enthalpy, water.steam_density),
    "saturation pressure": lambda i: water.saturation_pressure(i["T_K"]) / 1e6,
    "saturation temperature":
        lambda i: water.saturation_temperature(i["p_MPa"] * 1e6),
    "vapour pressure": lambda i: water.saturation_pressure(i["T_K"]) / 1e3,
    "density of boiling water":
        lambda i: water.saturation_at_temperature(i["T_K"]).water_density,
    "density of dry steam":
        lambda i: water.saturation_at_temperature(i["T_K"]).steam_density,
    "enthalpy of boiling water": lambda i: _heat_at_temperature(i).water_enthalpy / 1e3,
    "enthalpy of dry steam": lambda i: _heat_at_temperature(i).steam_enthalpy / 1e3,
    "surface tension":
        lambda i: 1e3 * water.surface_tension(kelvin(i["t_C"])),
    "refractive index": _index,
    "volume of saturated water": lambda i: 1 / _saturated(i).water_density,
    "volume of saturated steam": lambda i: 1 / _saturated(i).steam_density,
    "boiling point": lambda i: celsius(_saturated(i).temperature),
    "enthalpy of saturated water": lambda i: _heat(i).water_enthalpy / 1e3,
    "enthalpy of saturated steam": lambda i: _heat(i).steam_enthalpy / 1e3,
    "weight of a cubic foot of cold water":
        lambda i: water.compressed_water_density(101_325.0, kelvin(i["t_C"]))
        / POUND_PER_CUBIC_FOOT,
    "weight of a cubic foot of boiler water":
        lambda i: _saturated(i).water_density / POUND_PER_CUBIC_FOOT,
    "cold over hot column, steam neglected":
        lambda i: glass_column_height(1.0, i["rho_f"], 0.0, i["rho_w"]),
    "density of saturated water": lambda i: _saturated(i).water_density,
    "density of saturated steam": lambda i: _saturated(i).steam_density,
    "density of water less that of steam":
        lambda i: _saturated(i).water_density - _saturated(i).steam_density,
    "latent heat": lambda i: _heat(i).latent_heat / 1e3,
    "heat capacity of saturated water": lambda i: _heat(i).water_heat_capacity / 1e3,
    "density of water in a leg":
        lambda i: water.compressed_water_density(i["p_bar_abs"] * BAR, kelvin(i["t_leg_C"])),
    "reading of a uniform glass": _cold_reading,
    "sign of the error of a cold glass": _sign_of_cold_glass,
    "reading, circulation model": lambda i: 1000 * _circulation(i).indicated_level,
    "mean temperature, circulation model":
        lambda i: celsius(_circulation(i).mean_temperature),
    "glass height from drum level": _height_mm,
    "glass error from drum level": lambda i: _height_mm(i) - i["level_mm"],
    "drum level from glass height": _level_mm,
    "share by which a glass under-reads":
        lambda i: 100 * (1 - i["glass_mm"] / _level_mm(i)),
    "drum level above the lower visible end": _level_above_visible_end_mm,
    "cold drum level below the design level": lambda i: i["level_mm"] - _height_mm(i),
}
