"""How levelkit computes the check values of optics, meniscus and heat loss."""

from math import degrees, pi, radians, sqrt

import numpy as np

from ..physics import heat_loss, optics
from ..physics.meniscus import bore_meniscus
from ..properties import compressed_water_density, refractive_index, saturation_at_pressure
from ..units import kelvin


def computed_value(row):
    """Return what levelkit makes of a row's inputs, in the row's unit."""
    return QUANTITIES[row.quantity](row.inputs)


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


QUANTITIES = {
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
    "heat through lagging": _lagging,
    "heat into a very long stem": lambda i: _stem_heat(i, 100.0, i["Tb_C"] - i["Ta_C"]),
    "length of stem that counts as infinite, 2.65/m": lambda i: 2.65 / _stem_rate(i),
    "decay rate of a stem": _stem_rate,
    "heat into a stem of finite length": lambda i: _stem_heat(i, i["L_m"], i["excess_K"]),
    "temperature of a slow stream": _stream,
}
