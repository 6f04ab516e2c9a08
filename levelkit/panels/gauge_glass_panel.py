"""The gauge glass panel: drum pressure up, drum level still, glass sinks."""

from dataclasses import dataclass

import ipywidgets as widgets

from ..constants import BAR
from ..physics.circulation import CirculationState, circulating_glass
from ..physics.glass import GaugeGlassResult, GaugeGlassState, gauge_glass_reading
from ..properties import (
    DrumFluids,
    cold_drum_fluids,
    compressed_water_density,
    saturation_heat,
    steaming_drum_fluids,
)
from ..scene.gauge_glass import DrumAndGlass, GlassView, draw_gauge_glass
from ..units import absolute_pressure, celsius, format_number, kelvin
from .control import Control
from .panel import Panel
from .readings import format_plain

ONE_TEMPERATURE, CIRCULATION = "one temperature", "condensate circulation"
STEAMING, COLD = "steaming: saturated", "cold: open to the air"


@dataclass(frozen=True, slots=True)
class GlassCase:
    """A worked-out state of drum and glass, owner of every number the panel shows."""

    fluids: DrumFluids
    gauge_pressure: float
    level: float
    glass_water_density: float
    glass_temperature: float
    reading: GaugeGlassResult


class GaugeGlassPanel(Panel):
    """A drum and its direct gauge glass."""

    draws_ahead = True

    def __init__(self, boiler, barometer):
        self.boiler, self.barometer = boiler, barometer
        self.title = f"Drum and gauge glass: {boiler.title} (invented)"
        self.presets = {preset.title: _from_preset(preset) for preset in boiler.presets.values()}
        mounting, levels = boiler.glass.mounting, boiler.levels
        self._still = DrumAndGlass(
            boiler.title, boiler.drum.inside_diameter, boiler.drum.axis_height,
            boiler.drum.topmost_tube, mounting, levels.normal, levels.low_alarm, levels.high_alarm)
        super().__init__()

    def make_controls(self):
        normal = _from_preset(self.boiler.presets["normal"])
        top = 1000 * self.boiler.glass.mounting.steam_connection
        return {
            "pressure": Control("Drum pressure", "bar g", 0, 100, 0.5, normal["pressure"], 1),
            "level": Control("True drum level", "mm", -50, top + 50, 1, normal["level"], 0),
            "model": widgets.Dropdown(options=[ONE_TEMPERATURE, CIRCULATION],
                                      description="Glass water",
                                      style={"description_width": "initial"}),
            "glass_temperature": Control("Glass water temperature", "\u00b0C", 5, 300, 1,
                                         normal["glass_temperature"], 0),
            "state": widgets.Dropdown(options=[STEAMING, COLD], description="Drum",
                                      style={"description_width": "initial"}),
            "ambient": Control("Air round the glass", "\u00b0C", 0, 60, 1, normal["ambient"], 0),
            "barometer": Control("Barometer", "mbar", 940, 1060, 0.25, self.barometer / 100, 2),
        }

    def evaluate(self, values):
        self._enable(values)
        level, barometer = values["level"] / 1000, values["barometer"] * 100
        if values["state"] == COLD:
            fluids = cold_drum_fluids(kelvin(values["ambient"]), barometer)
            density, temperature = fluids.water_density, fluids.temperature
        else:
            fluids = steaming_drum_fluids(absolute_pressure(values["pressure"], barometer))
            density, temperature = self._glass_water(values, fluids, level)
        state = GaugeGlassState(level, fluids.water_density, fluids.steam_density, density,
                                self.boiler.glass.mounting)
        return GlassCase(fluids, fluids.pressure - barometer, level, density, temperature,
                         gauge_glass_reading(state))

    def _enable(self, values):
        """A control that has no say in the chosen state is switched off, not ignored."""
        cold, circulating = values["state"] == COLD, values["model"] == CIRCULATION
        self.controls["pressure"].disabled = cold
        self.controls["model"].disabled = cold
        self.controls["glass_temperature"].disabled = cold or circulating
        self.controls["ambient"].disabled = not (cold or circulating)

    def _glass_water(self, values, fluids, level):
        """Mean density and temperature of the glass water in a steaming boiler."""
        if values["model"] == ONE_TEMPERATURE or level <= 0:
            temperature = kelvin(values["glass_temperature"])
            return compressed_water_density(fluids.pressure, temperature), temperature
        heat, glass = saturation_heat(fluids.pressure), self.boiler.glass
        result = circulating_glass(
            CirculationState(
                level, fluids.water_density, fluids.steam_density, fluids.temperature,
                kelvin(values["ambient"]), heat.latent_heat, heat.water_heat_capacity,
                glass.mounting.steam_connection, glass.extra_condensing_length),
            lambda t: compressed_water_density(fluids.pressure, t))
        return result.mean_density, result.mean_temperature

    def draw(self, result, look, show_truth):
        view = GlassView(result.level, result.reading, self._rows(result, look, show_truth),
                         result.fluids.steaming, show_truth)
        return draw_gauge_glass(self._still, view, look)

    def _rows(self, case, look, show_truth):
        fluids = case.fluids
        pressure = ("Pressure", f"{format_number(case.gauge_pressure / BAR, 1)} bar g")
        level = ("True level", f"{1000 * case.level:.1f} mm" if show_truth else "hidden")
        shows = ("Glass shows", _glass_shows(case.reading))
        if not look.detail:
            return (pressure, level, shows)
        return (
            pressure,
            ("absolute", f"{fluids.pressure / BAR:.2f} bar"),
            ("Drum temperature", f"{celsius(fluids.temperature):.1f} \u00b0C"),
            ("Drum water", f"{fluids.water_density:.1f} kg/m\u00b3"),
            ("Steam" if fluids.steaming else "Air", f"{fluids.steam_density:.2f} kg/m\u00b3"),
            ("Glass water, mean", f"{celsius(case.glass_temperature):.0f} \u00b0C"),
            ("Glass water", f"{case.glass_water_density:.1f} kg/m\u00b3"),
            level,
            shows,
        )

    def reading(self, result, values):
        return {
            "drum pressure [bar g]": format_plain(values["pressure"], 1),
            "true level [mm]": format_plain(1000 * result.level, 1),
            "glass water [kg/m3]": format_plain(result.glass_water_density, 1),
            "glass shows [mm]": format_plain(1000 * result.reading.indicated_level, 1),
            "error [mm]": format_plain(1000 * result.reading.error, 1),
            "glass water model": values["model"],
            "drum": values["state"],
        }


def _glass_shows(reading):
    if reading.visibility == "in sight":
        return f"{1000 * reading.indicated_level:.1f} mm"
    return reading.visibility


def _from_preset(preset):
    return {
        "pressure": preset.gauge_pressure_bar,
        "level": preset.level_mm,
        "glass_temperature": preset.glass_celsius,
        "ambient": preset.ambient_celsius,
        "state": STEAMING if preset.steaming else COLD,
    }
