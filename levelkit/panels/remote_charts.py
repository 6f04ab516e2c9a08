"""Sweep chart and error map of a boiler's DP transmitter, worked out for print."""

from dataclasses import replace

import numpy as np

from ..charts.error_map import ErrorMap, error_map_chart
from ..charts.sweep import Curve, Sweep, sweep_chart
from ..physics.leg_state import DrumContents
from ..physics.transmitter import transmitter_reading
from ..properties import compressed_water_density, steaming_drum_fluids
from ..scene.look import PRINT
from ..units import absolute_pressure
from .remote_setting import RemoteSetting, cold_transmitter, healthy_transmitter
from .twin import still_image


class Chart:
    """A typeset chart that a notebook shows as an ordinary image output."""

    def __init__(self, drawing):
        self.drawing = drawing

    def _repr_html_(self):
        return still_image(self.drawing)


def sweep_of(boiler, barometer, gauge_pressures) -> Sweep:
    """Return indicated against true level, cold and at several pressures, uncompensated."""
    levels = np.linspace(0.0, boiler.legs.chamber_height, 101)
    setting = RemoteSetting(0.0, levels, boiler.transmitter.calibration_pressure_bar,
                            boiler.legs.reference_leg_temperature)
    cold = transmitter_reading(cold_transmitter(boiler, barometer, setting))
    curves = [Curve("cold, open", cold.indicated_level)]
    for gauge in gauge_pressures:
        state = healthy_transmitter(boiler, barometer, replace(setting, gauge_pressure_bar=gauge))
        curves.append(Curve(f"{gauge:g} bar g", transmitter_reading(state).indicated_level))
    title = (f"{boiler.title}: calibrated for "
             f"{boiler.transmitter.calibration_pressure_bar:g} bar g, uncompensated")
    return Sweep(title, levels, tuple(curves), boiler.levels.low_alarm)


def error_map_of(boiler, barometer) -> ErrorMap:
    """Return the uncompensated error from a steaming boiler at no pressure to a third above."""
    calibrated = boiler.transmitter.calibration_pressure_bar
    gauge = np.linspace(0.0, 1.25 * calibrated, 101)
    levels = np.linspace(0.0, boiler.legs.chamber_height, 101)
    leg_temperature = boiler.legs.reference_leg_temperature
    fluids = steaming_drum_fluids(absolute_pressure(gauge, barometer))
    leg = compressed_water_density(fluids.pressure, np.full_like(gauge, leg_temperature))
    state = healthy_transmitter(boiler, barometer,
                                RemoteSetting(calibrated, 0.0, calibrated, leg_temperature))
    rows = np.ones((len(levels), 1))
    drum = DrumContents(levels[:, None] * np.ones_like(gauge), rows * fluids.pressure,
                        rows * fluids.water_density, rows * fluids.steam_density)
    legs = replace(state.legs, reference_density=rows * leg, reference_run_density=rows * leg,
                   drum_run_density=rows * leg)
    reading = transmitter_reading(replace(state, drum=drum, legs=legs))
    title = f"{boiler.title}: error of the uncompensated indicator"
    return ErrorMap(title, gauge, levels, reading.error, reading.saturated,
                    boiler.levels.low_alarm, calibrated)


def printed_sweep(boiler, barometer, gauge_pressures):
    """Return the sweep chart as an output for a notebook."""
    return Chart(sweep_chart(sweep_of(boiler, barometer, gauge_pressures), PRINT))


def printed_error_map(boiler, barometer):
    """Return the error map as an output for a notebook."""
    return Chart(error_map_chart(error_map_of(boiler, barometer), PRINT))
