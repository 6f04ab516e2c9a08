"""The equations of the fourth-order boiler, shared by the free and the controlled boiler."""

import numpy as np

from .circulating_boiler import BoilerTransient
from .riser_void import _void_and_slopes

_LEAST_QUALITY = 1e-6


def states(start):
    """Water volume, pressure, riser quality and bubble volume of an equilibrium."""
    return [start.water_volume, start.pressure, start.riser_quality, start.bubble_volume]


def limits(start, saturation):
    """Sentences and margins of the model's own limits."""
    plant = start.plant

    def drum_water(state):
        return plant.drum_water(
            state[0], _void_and_slopes(max(state[2], _LEAST_QUALITY), saturation(state[1])).void)

    return (
        ("no water is left in the drum", drum_water),
        ("the drum is full of water and bubbles",
         lambda state: plant.drum_volume - drum_water(state) - state[3]),
        ("no bubbles are left below the surface", lambda state: state[3]),
        ("the risers no longer boil", lambda state: state[2] - 0.001),
        ("the pressure fell to 5 bar absolute", lambda state: state[1] - 5e5),
        ("the pressure rose to 180 bar absolute", lambda state: 180e5 - state[1]),
    )


def slopes(start, state, inputs, feed_flow, heat, saturation):
    """Rates of the four states: mass and energy of the whole, risers, bubbles of the drum.

    Feed and heat come beside the inputs because a controller may set them. The coefficients
    carry the names of the published model: e11 to e44.
    """
    plant = start.plant
    water, pressure, quality, bubbles = state[:4]
    quality = max(quality, _LEAST_QUALITY)  # a trial step may look past the limit that ends the run
    s = saturation(pressure)
    rho_w, rho_s, h_w, h_s, h_c = (s.water_density, s.steam_density, s.water_enthalpy,
                                   s.steam_enthalpy, s.latent_heat)
    drho_w, drho_s, dh_w, dh_s = (s.water_density_slope, s.steam_density_slope,
                                  s.water_enthalpy_slope, s.steam_enthalpy_slope)
    warming = plant.metal_heat_capacity * s.temperature_slope  # J/(kg Pa) of metal
    a = _void_and_slopes(quality, s)
    risers, steam = plant.riser_volume, plant.volume - water
    in_drum = plant.drum_water(water, a.void)
    leaving = inputs.steam_leaving(pressure)

    e11, e12 = rho_w - rho_s, water * drho_w + steam * drho_s
    e21 = rho_w * h_w - rho_s * h_s
    e22 = (water * (h_w * drho_w + rho_w * dh_w) + steam * (h_s * drho_s + rho_s * dh_s)
           - plant.volume + plant.total_metal * warming)
    e32 = ((rho_w * dh_w - quality * h_c * drho_w) * (1 - a.void) * risers
           + ((1 - quality) * h_c * drho_s + rho_s * dh_s) * a.void * risers
           + (rho_s + (rho_w - rho_s) * quality) * h_c * risers * a.by_pressure
           - risers + plant.riser_metal * warming)
    e33 = ((1 - quality) * rho_s + quality * rho_w) * h_c * risers * a.by_quality
    carried = quality * (1 + plant.carried_steam) * risers
    e42 = (bubbles * drho_s
           + (rho_s * bubbles * dh_s + rho_w * in_drum * dh_w - bubbles - in_drum
              + plant.drum_metal * warming) / h_c
           + carried * (a.void * drho_s + (1 - a.void) * drho_w
                        + (rho_s - rho_w) * a.by_pressure))
    e43, e44 = carried * (rho_s - rho_w) * a.by_quality, rho_s

    mass = feed_flow - leaving
    energy = heat + feed_flow * inputs.feed_enthalpy - leaving * h_s
    determinant = e11 * e22 - e12 * e21
    water_rate = (mass * e22 - e12 * energy) / determinant
    pressure_rate = (e11 * energy - e21 * mass) / determinant
    boiled = quality * h_c * plant.circulation(s, a.void)
    quality_rate = (heat - boiled - e32 * pressure_rate) / e33
    settling = rho_s * (start.rest_bubble_volume - bubbles) / plant.bubble_time
    condensed = feed_flow * (h_w - inputs.feed_enthalpy) / h_c
    bubble_rate = (settling - condensed - e42 * pressure_rate - e43 * quality_rate) / e44
    return [water_rate, pressure_rate, quality_rate, bubble_rate]


def seen(start, run, feed_flow, saturation):
    """Levels, mass and flows of a boiler whose states have been stepped through time."""
    plant = start.plant
    water, pressure, quality, bubbles = run.states[:4]
    line = saturation(pressure)
    void = _void_and_slopes(quality, line).void
    in_drum = plant.drum_water(water, void)
    shown = in_drum + plant.bubbles_below_connection * bubbles
    mass = line.water_density * water + line.steam_density * (plant.volume - water)
    leaving = [inputs.steam_leaving(p) for inputs, p in zip(run.inputs, pressure, strict=True)]
    return BoilerTransient(
        run.time, pressure, mass,
        (in_drum + bubbles) / plant.drum_area - start.surface_height,
        shown / plant.drum_area - start.collapsed_height,
        water, bubbles, quality, plant.circulation(line, void),
        np.array(leaving), np.array(feed_flow), run.ended)
