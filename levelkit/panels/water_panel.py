"""The water and steam panel: gauge and absolute pressure, and what one kilogram fills."""

from dataclasses import dataclass
from math import pi

import ipywidgets as widgets

from ..constants import BAR
from ..physics.equal_masses import mass_column_height
from ..properties import compressed_water_density, saturation_at_pressure, saturation_heat
from ..properties.saturation import LOWEST_PRESSURE
from ..scene.water_and_steam import Kilogram, TableLine, WaterView, draw_water_and_steam
from ..units import absolute_pressure, celsius, kelvin
from .control import Control
from .panel import Panel
from .readings import format_plain

COLD_CELSIUS = 20.0
BORE = 0.080  # m: the tube in which one kilogram is shown
_AREA = pi / 4 * BORE ** 2


@dataclass(frozen=True, slots=True)
class WaterCase:
    """Worked-out water and steam, owner of every number the panel shows.

    Attributes
    ----------
    gauge_pressure_bar : float [bar]
        What the ship's gauge reads.
    cold_density : float [kg/m3]
        Water at 20 degC, open to the air.
    right : TableLine
        What the steam table says at the absolute pressure.
    slip : TableLine or None
        What it says where the gauge pressure is taken for absolute; None where that would be
        a vacuum for which it has no line.
    """

    gauge_pressure_bar: float
    cold_density: float
    right: TableLine
    slip: object


class WaterPanel(Panel):
    """One kilogram of water and of steam at the pressure of a boiler."""

    draws_ahead = True

    title = "Water and steam at boiler pressure"
    presets = {f"{bar} bar g": {"pressure": bar} for bar in (0, 7, 16, 60, 100)}

    def __init__(self, barometer):
        self.barometer = barometer
        super().__init__()
        self.truth.description = "Show the boiler water and steam"

    def make_controls(self):
        return {
            "pressure": Control("Gauge pressure", "bar g", 0, 100, 0.5, 7, 1),
            "barometer": Control("Barometer", "mbar", 940, 1060, 0.25, self.barometer / 100, 2),
            "slip": widgets.Checkbox(
                value=False, indent=False,
                description="Take the gauge pressure for absolute (the slip)"),
        }

    def evaluate(self, values):
        barometer, gauge = values["barometer"] * BAR / 1000, values["pressure"]
        taken = gauge * BAR
        return WaterCase(
            gauge, compressed_water_density(barometer, kelvin(COLD_CELSIUS)),
            _table_line(absolute_pressure(gauge, barometer)),
            _table_line(taken) if taken >= LOWEST_PRESSURE else None)

    def draw(self, result, look, show_truth):
        right = result.right
        return draw_water_and_steam(WaterView(
            result.gauge_pressure_bar, BORE, _kilogram(kelvin(COLD_CELSIUS), result.cold_density),
            _kilogram(right.temperature, right.water_density),
            _kilogram(right.temperature, right.steam_density), right, result.slip,
            self.controls["slip"].value, show_truth), look)

    def reading(self, result, values):
        right, slip = result.right, result.slip
        return {
            "gauge pressure [bar]": format_plain(values["pressure"], 1),
            "barometer [mbar]": format_plain(values["barometer"], 2),
            "absolute pressure [bar]": format_plain(right.pressure / BAR, 3),
            "boils at [degC]": format_plain(celsius(right.temperature), 1),
            "water [kg/m3]": format_plain(right.water_density, 1),
            "steam [kg/m3]": format_plain(right.steam_density, 2),
            "latent heat [kJ/kg]": format_plain(right.latent_heat / 1e3, 0),
            "slip: water [kg/m3]": format_plain(slip.water_density, 1) if slip else "none",
            "slip: steam [kg/m3]": format_plain(slip.steam_density, 2) if slip else "none",
        }


def _table_line(pressure):
    state = saturation_at_pressure(pressure)
    return TableLine(pressure, state.temperature, state.water_density, state.steam_density,
                     saturation_heat(pressure).latent_heat)


def _kilogram(temperature, density):
    return Kilogram(temperature, density, mass_column_height(1.0, density, _AREA))
