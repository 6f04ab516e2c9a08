"""The sweep panel: indicated against true level as a live curve, for any state of the leg."""

from dataclasses import dataclass, replace

import ipywidgets as widgets
import numpy as np

from ..charts.frame import Axes, chart_frame
from ..faults.remote_changes import COLD as ROOM
from ..physics.signal import signal_current
from ..physics.transmitter import TransmitterResult, transmitter_reading
from ..physics.transmitter_range import REVERSED
from ..physics.transmitter_state import TransmitterState
from ..physics.uncertainty import UncertaintyBudget
from ..scene.sweep import CHART_WIDTH, HEIGHT, SweepView, draw_sweep
from ..units import celsius, format_number, gauge_pressure_bar, kelvin
from .control import Control
from .panel import Panel
from .readings import format_plain
from .remote_budgets import transmitter_known
from .remote_setting import (
    FELL,
    HOT_TOP,
    UNIFORM,
    LegWater,
    RemoteSetting,
    cold_transmitter,
    healthy_transmitter,
    leg_water,
)

STEAMING, COLD = "steaming: saturated", "cold: open to the air"
POINTS = 81


@dataclass(frozen=True, slots=True)
class SweepCase:
    """A worked-out sweep, owner of every number the panel shows.

    Attributes
    ----------
    state : TransmitterState [m, Pa, kg/m3]
        The transmitter at the present level.
    reading : TransmitterResult [m, Pa, A]
        What it shows there.
    levels, indicated : array [m]
        The curve.
    leg : LegWater [kg/m3, K, m]
        Water of the reference leg.
    right_at : float or None [m]
        The level at which the instrument is right; None for none, or for all.
    budget : UncertaintyBudget or None [m]
        How well a compensated instrument in order knows the level of a steaming drum.
    """

    state: TransmitterState
    reading: TransmitterResult
    levels: object
    indicated: object
    leg: LegWater
    right_at: float | None
    budget: UncertaintyBudget | None


class SweepPanel(Panel):
    """Indicated against true level of one boiler's DP transmitter."""

    draws_ahead = True

    def __init__(self, boiler, barometer):
        self.boiler, self.barometer = boiler, barometer
        self.title = f"Indicated against true level: {boiler.title} (invented)"
        self.presets = _presets(boiler)
        super().__init__()

    def make_controls(self):
        normal, transmitter = _normal(self.boiler), self.boiler.transmitter
        top, style = 1000 * self.boiler.legs.chamber_height, {"description_width": "initial"}
        return {
            "pressure": Control("Drum pressure", "bar g", 0, 100, 0.5, normal["pressure"], 1),
            "level": Control("True drum level", "mm", 0, top, 1, normal["level"], 0),
            "calibrated": Control("Calibrated for", "bar g", 0, 100, 0.5,
                                  transmitter.calibration_pressure_bar, 1),
            "leg_temperature": Control("Reference leg", "\u00b0C", 5, 250, 1,
                                       normal["leg_temperature"], 0),
            "loss": Control("Lost from leg", "mm", 0, top, 1, 0, 0),
            "compensated": widgets.Checkbox(value=False, indent=False,
                                            description="Pressure compensation"),
            "profile": widgets.Dropdown(options=(UNIFORM, HOT_TOP, FELL), description="Leg is",
                                        style=style),
            "state": widgets.Dropdown(options=(STEAMING, COLD), description="Drum", style=style),
        }

    def _control_grid(self):
        grid = super()._control_grid()
        grid.add_class("lk-three")
        return grid

    def evaluate(self, values):
        cold = values["state"] == COLD
        for key in ("pressure", "leg_temperature", "profile"):
            self.controls[key].disabled = cold
        self.controls["loss"].disabled = values["profile"] == FELL and not cold
        setting = RemoteSetting(
            values["pressure"], values["level"] / 1000, values["calibrated"],
            kelvin(values["leg_temperature"]), values["loss"] / 1000,
            self.boiler.transmitter.depth, REVERSED, values["compensated"])
        make = cold_transmitter if cold else healthy_transmitter
        state = make(self.boiler, self.barometer, setting)
        if cold:
            leg = LegWater(state.legs.reference_density, ROOM)
        else:
            leg = leg_water(self.boiler, self.barometer, setting, values["profile"])
            loss = leg.flashed if values["profile"] == FELL else setting.loss
            state = replace(state, legs=replace(state.legs, reference_density=leg.density,
                                                reference_loss=loss))
        levels = np.linspace(0.0, self.boiler.legs.chamber_height, POINTS)
        swept = replace(state, drum=replace(state.drum, level=levels))
        curve = transmitter_reading(swept)
        budget = None if cold else transmitter_known(state, leg.mean_temperature)
        return SweepCase(state, transmitter_reading(state), levels, curve.indicated_level, leg,
                         _right_at(levels, curve.error), budget)

    def draw(self, result, look, show_truth):
        view = SweepView(
            self.boiler.title, result.levels, result.indicated, result.state.drum.level,
            result.reading.indicated_level, bool(result.reading.saturated),
            self.boiler.levels.low_alarm, self._rows(result, look, show_truth), show_truth)
        return draw_sweep(view, self._frame(look), look)

    def _frame(self, look):
        top = 1000 * self.boiler.legs.chamber_height
        ticks = tuple(np.arange(0.0, top + 1, 100.0))
        axes = Axes(
            "true level, mm", "indicated level, mm", (0.0, top), (-0.06 * top, 1.06 * top), ticks,
            ticks, "signal, mA", tuple((top * step / 4, f"{1e3 * signal_current(step / 4):.0f}")
                                       for step in range(5)))
        return chart_frame(axes, look, 0, 0, CHART_WIDTH, HEIGHT)

    def _rows(self, case, look, show_truth):
        drum, legs = case.state.drum, case.state.legs
        gauge = format_number(gauge_pressure_bar(drum.pressure, self.barometer), 1)
        pressure = ("Drum pressure", f"{gauge} bar g")
        level = ("True level", f"{1000 * drum.level:.1f} mm" if show_truth else "hidden")
        shows = ("Shows", f"{format_number(100 * case.reading.shown_fraction, 1)} %")
        lost = ("Lost from leg", f"{1000 * legs.reference_loss:.0f} mm")
        if not look.detail:
            return (pressure, lost, level, shows)
        right = ("Right only at", "hidden")
        if case.budget is not None:
            right = (f"Known to \u00b1 {1000 * case.budget.uncertainty:.1f} mm",
                     case.budget.largest)
        elif show_truth:
            right = _right_row(case)
        return (
            pressure,
            ("Drum water", f"{drum.water_density:.1f} kg/m\u00b3"),
            ("Steam" if drum.steam_density > 0.5 else "Air",
             f"{drum.steam_density:.2f} kg/m\u00b3"),
            ("Leg, mean before" if case.leg.flashed else "Leg, mean",
             f"{celsius(case.leg.mean_temperature):.0f} \u00b0C"),
            ("Leg water", f"{legs.reference_density:.1f} kg/m\u00b3"),
            lost, right, level, shows)

    def reading(self, result, values):
        reading, state = result.reading, result.state
        return {
            "drum pressure [bar g]": format_plain(
                gauge_pressure_bar(state.drum.pressure, self.barometer), 1),
            "true level [mm]": format_plain(1000 * state.drum.level, 1),
            "calibrated for [bar g]": format_plain(values["calibrated"], 1),
            "leg, mean [degC]": format_plain(celsius(result.leg.mean_temperature), 1),
            "leg water [kg/m3]": format_plain(state.legs.reference_density, 1),
            "lost from leg [mm]": format_plain(1000 * state.legs.reference_loss, 1),
            "shown [%]": format_plain(100 * reading.shown_fraction, 1),
            "shown [mm]": format_plain(1000 * reading.indicated_level, 1),
            "error [mm]": format_plain(1000 * reading.error, 1),
            "known to +/- [mm]": (format_plain(1000 * result.budget.uncertainty, 1)
                                  if result.budget else "not known"),
            "leg is": values["profile"],
            "drum": values["state"],
            "compensated": "yes" if values["compensated"] else "no",
        }


def _right_at(levels, error):
    """Return the level where curve and diagonal cross [m]; None where they never do."""
    crossings = np.flatnonzero((error[:-1] * error[1:] <= 0) & (error[:-1] != error[1:]))
    if not crossings.size or _agrees(error):
        return None
    first = crossings[0]
    share = error[first] / (error[first] - error[first + 1])
    return float(levels[first] + share * (levels[first + 1] - levels[first]))


def _right_row(case):
    if case.right_at is not None:
        return ("Right only at", f"{1000 * case.right_at:.0f} mm")
    every = _agrees(case.indicated - case.levels)
    return ("Right at", "every level" if every else "no level")


def _agrees(error):
    return bool(np.max(np.abs(error)) < 5e-5)


def _normal(boiler):
    preset = boiler.presets["normal"]
    return {"pressure": preset.gauge_pressure_bar, "level": preset.level_mm,
            "calibrated": boiler.transmitter.calibration_pressure_bar,
            "leg_temperature": preset.leg_celsius, "loss": 0.0, "compensated": False,
            "profile": UNIFORM, "state": STEAMING}


def _presets(boiler):
    """From cold to full pressure, and three ways for a reference leg to go wrong."""
    normal, low = _normal(boiler), boiler.presets["low_water"].level_mm
    states = {boiler.presets[key].title: normal | {
        "pressure": boiler.presets[key].gauge_pressure_bar,
        "level": boiler.presets[key].level_mm,
        "leg_temperature": boiler.presets[key].leg_celsius,
        "state": STEAMING if boiler.presets[key].steaming else COLD}
        for key in ("cold", "raising_steam", "half_pressure", "normal")}
    return states | {
        "leg hot near the chamber": normal | {"profile": HOT_TOP, "leg_temperature": 45},
        "leg warm throughout": normal | {"leg_temperature": 95},
        "leg lost": normal | {"level": low, "loss": round(150 * boiler.legs.chamber_height)},
        "pressure fell fast": normal | {"level": low, "profile": FELL, "leg_temperature": 45,
                                        "pressure": boiler.working_pressure_bar / 20}}
