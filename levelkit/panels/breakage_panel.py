"""The breakage panel: what a broken glass loses, and why the water cock is shut first."""

from dataclasses import dataclass
from functools import lru_cache

import ipywidgets as widgets
import numpy as np

from ..constants import BAR, CAUTION
from ..physics.ball_check import ball_holding_pressure, ball_lift_flow, ball_lift_velocity
from ..physics.breakage import BrokenGlass, broken_glass, time_to_lose_level
from ..physics.critical_flow import STEAM, WATER, critical_flow
from ..physics.drum_geometry import surface_area
from ..physics.isolation import isolation_loss
from ..physics.optics import BOROSILICATE, SODALIME
from ..physics.thermal_shock import thermal_shock_stress
from ..properties import saturated_fluid
from ..scene.breakage import ABSENT, FREE, STUCK, BreakageView, draw_breakage
from ..units import absolute_pressure, celsius, kelvin
from .control import Control
from .panel import Panel
from .readings import format_plain

BALL, PASSAGE, SEAT = 0.0127, 0.016, 0.010  # m: an invented gauge, as in the exercises
_GLASSES = {"tubular": BOROSILICATE, "reflex": SODALIME, "plate": SODALIME}
_PRESSURES = np.linspace(0.5, 100.0, 60)
_NOTE = f"Flows by homogeneous equilibrium are a lower bound: a real break passes more. {CAUTION}"


@dataclass(frozen=True, slots=True)
class BreakageCase:
    """A worked-out breakage, owner of every number the panel shows.

    Attributes
    ----------
    broken : BrokenGlass [kg/s, 1]
        What both ends pass.
    lift_flow : float [kg/s]
        Flow that lifts the ball.
    seated : bool
        Whether the ball holds the water end.
    holding_pressure : float [Pa]
        Least pressure that keeps it there.
    loss : float [kg/s]
        What the boiler loses with the ball as it is.
    time_in_sight : float [s]
        Until the level leaves the visible glass; infinite where the feed keeps up.
    water_first, steam_first : float [kg]
        Lost until both cocks are shut, by the order of shutting; no ball.
    shock : float [Pa]
        Stress of a cold glass that meets the steam at once, pressure negative.
    steam_temperature : float [K]
        In the drum.
    values : dict
        The settings it was worked out for, by key.
    """

    broken: BrokenGlass
    lift_flow: float
    seated: bool
    holding_pressure: float
    loss: float
    time_in_sight: float
    water_first: float
    steam_first: float
    shock: float
    steam_temperature: float
    values: dict


class BreakagePanel(Panel):
    """A broken gauge glass on one of the ship's boilers."""

    draws_ahead = True

    def __init__(self, boiler, barometer):
        self.boiler, self.barometer = boiler, barometer
        self.title = f"A broken gauge glass: {boiler.title} (invented)"
        normal = boiler.presets["normal"]
        start = {"pressure": normal.gauge_pressure_bar, "bore": 12, "level": normal.level_mm,
                 "feed": 0, "ball": STUCK, "seconds": 15, "cold": 20}
        self.presets = {
            "ball stuck": start, "ball free": start | {"ball": FREE},
            "cracked only, 2 mm": start | {"bore": 2, "ball": FREE},
            "16 bar g": start | {"pressure": 16}, "60 bar g": start | {"pressure": 60},
        }
        super().__init__()
        self.truth.description = "Show what is lost"

    def make_controls(self):
        start = self.presets["ball stuck"]
        top = 1000 * self.boiler.glass.mounting.visible_top
        return {
            "pressure": Control("Pressure", "bar g", 0.5, 100, 0.5, start["pressure"], 1),
            "bore": Control("Bore of the hole", "mm", 1, 20, 0.5, 12, 1),
            "level": Control("Drum level", "mm", 0, top, 1, start["level"], 0),
            "feed": Control("Extra feed", "kg/s", 0, 3, 0.05, 0, 2),
            "seconds": Control("Time per cock", "s", 1, 120, 1, 15, 0),
            "cold": Control("New glass is at", "\u00b0C", 0, 150, 1, 20, 0),
            "ball": widgets.Dropdown(options=[STUCK, FREE, ABSENT], description="Ball",
                                     style={"description_width": "initial"}),
        }

    def _control_grid(self):
        grid = super()._control_grid()
        grid.add_class("lk-three")
        return widgets.VBox([grid, widgets.HTML(f'<div class="lk-caution">{_NOTE}</div>')])

    def evaluate(self, values):
        pressure = absolute_pressure(values["pressure"], self.barometer)
        fluid = saturated_fluid(pressure)
        fluxes = [critical_flow(pressure, start, saturated_fluid, self.barometer).mass_flux
                  for start in (WATER, STEAM)]
        lift = ball_lift_flow(ball_lift_velocity(BALL, fluid.water_density), fluid.water_density,
                              PASSAGE)
        broken = broken_glass(values["bore"] / 1000, *fluxes, lift)
        seated = values["ball"] == FREE and broken.ball_lifts
        loss = broken.steam_flow + (0.0 if seated else broken.water_flow)
        level, mounting = values["level"] / 1000, self.boiler.glass.mounting
        in_sight = time_to_lose_level(
            max(level - mounting.visible_bottom, 0.0), surface_area(self.boiler.drum.shape, level),
            fluid.water_density, loss, values["feed"])
        orders = [isolation_loss(*flows, values["seconds"]) for flows in (
            (broken.water_flow, broken.steam_flow), (broken.steam_flow, broken.water_flow))]
        shock = thermal_shock_stress(_GLASSES[self.boiler.glass.kind],
                                     kelvin(values["cold"]) - fluid.temperature)
        return BreakageCase(broken, lift, seated,
                            ball_holding_pressure(BALL, fluid.water_density, SEAT), loss, in_sight,
                            *orders, shock, fluid.temperature, values)

    def draw(self, result, look, show_truth):
        values, broken = result.values, result.broken
        area = np.pi / 4 * (values["bore"] / 1000) ** 2
        water, steam = (flux * area for flux in _curves(self.barometer))
        return draw_breakage(BreakageView(
            values["level"] / 1000, broken.water_flow, broken.steam_flow, result.lift_flow,
            values["ball"], result.seated, _PRESSURES, water, steam, values["pressure"],
            self._rows(result, look, show_truth), _verdict(result), show_truth), look)

    def _rows(self, case, look, show_truth):
        broken, steam = case.broken, celsius(case.steam_temperature)
        shock = ("Shock, cold glass", f"{abs(case.shock) / 1e6:.0f} MPa")
        ball = ("Ball lifts at", f"{case.lift_flow:.2f} kg/s")
        if not show_truth:
            return (("Steam", f"{steam:.0f} \u00b0C"), ball)
        told = (("Water end \u2265", _flow(broken.water_flow)),
                ("Steam end \u2265", _flow(broken.steam_flow)),
                ("Level in sight for", _time(case.time_in_sight)))
        if not look.detail:
            return told
        return (*told[:2], ("Water over steam", f"{broken.flow_ratio:.1f}"), ball, told[2],
                ("Lost, W shut first", f"{case.water_first:.1f} kg"),
                ("Lost, S shut first", f"{case.steam_first:.1f} kg"), shock)

    def reading(self, result, values):
        return {
            "pressure [bar g]": format_plain(values["pressure"], 1),
            "bore [mm]": format_plain(values["bore"], 1),
            "water end [kg/s]": format_plain(result.broken.water_flow, 3),
            "steam end [kg/s]": format_plain(result.broken.steam_flow, 3),
            "ball lifts at [kg/s]": format_plain(result.lift_flow, 3),
            "in sight for [s]": "for ever" if np.isinf(result.time_in_sight)
            else format_plain(result.time_in_sight, 0),
            "lost, W first [kg]": format_plain(result.water_first, 1),
            "lost, S first [kg]": format_plain(result.steam_first, 1),
            "ball": values["ball"],
        }


@lru_cache(maxsize=8)
def _curves(barometer):
    """Mass fluxes of both ends over the pressures of the chart."""
    pressures = _PRESSURES * BAR + barometer
    return tuple(critical_flow(pressures, start, saturated_fluid, barometer).mass_flux
                 for start in (WATER, STEAM))


def _flow(flow):
    return f"{flow:.2f} kg/s" if flow >= 0.1 else f"{1000 * flow:.1f} g/s"


def _time(seconds):
    if np.isinf(seconds):
        return "while fed"
    return f"{seconds:.0f} s" if seconds < 180 else f"{seconds / 60:.1f} min"


def _verdict(case):
    if case.seated:
        return "the ball holds:", "never rely on it"
    if case.loss < 1e-9:
        return ()
    saved = case.steam_first - case.water_first
    return "W first: saves", f"{saved:.1f} kg of water"

