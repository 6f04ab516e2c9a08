"""The DP transmitter panel: what the indicator makes of a drum, whatever happens in between."""

from dataclasses import dataclass, replace
from html import escape

import ipywidgets as widgets

from ..constants import BAR
from ..faults import TRANSMITTER, fault_named
from ..faults.remote_changes import COLD, WARM_LEG
from ..faults.remote_faults import REMOTE_FAULTS
from ..physics.leg_water import legs_after
from ..physics.signal import MEASURING
from ..physics.transmitter import TransmitterResult, transmitter_reading
from ..physics.transmitter_range import DIRECT, REVERSED, TransmitterRange, transmitter_range
from ..physics.transmitter_state import PNEUMATIC, TransmitterState
from ..scene.signal_meter import kilopascal
from ..scene.transmitter import DrumAndTransmitter, TransmitterView, draw_transmitter
from ..units import celsius, format_number, gauge_pressure_bar, kelvin
from .control import Control
from .panel import Panel
from .readings import format_plain
from .remote_setting import RemoteSetting, healthy_transmitter

NO_FAULT = "none"
FURTHEST = 30.0  # kPa: ends of a range entered by hand
WARM_FROM = kelvin(70.0)
_SEEN = (("at once", 0.0), ("after 5 s", 5.0), ("after 1 min", 60.0), ("after 10 min", 600.0),
         ("after 1 hour", 3600.0))
_NO_SAY = {"cold-drum": ("pressure", "leg_temperature"), "reference-leg-warm": ("leg_temperature",),
           "reference-leg-lost": ("loss",), "common-leg-lost": ("loss",),
           "reference-leg-flashes": ("loss",)}
_LEG_TEMPERATURES = {"cold-drum": COLD, "reference-leg-warm": WARM_LEG}


@dataclass(frozen=True, slots=True)
class TransmitterCase:
    """A worked-out transmitter, owner of every number the panel shows.

    Attributes
    ----------
    state : TransmitterState [m, Pa, kg/m3]
        The transmitter, with its fault.
    reading : TransmitterResult [m, Pa, A]
        What it shows.
    range_in_use : TransmitterRange [Pa, m]
        The range that its signal follows.
    leg_temperature : float [K]
        Of the reference leg.
    fault : str
        Key of the fault, or "none".
    """

    state: TransmitterState
    reading: TransmitterResult
    range_in_use: TransmitterRange
    leg_temperature: float
    fault: str


class TransmitterPanel(Panel):
    """A drum and the DP transmitter on its constant-head leg."""

    draws_ahead = True

    def __init__(self, boiler, barometer):
        self.boiler, self.barometer = boiler, barometer
        self.title = f"Drum and DP transmitter: {boiler.title} (invented)"
        self._still = DrumAndTransmitter(
            boiler.title, boiler.drum.inside_diameter, boiler.drum.axis_height,
            boiler.legs.chamber_height, boiler.levels.normal, boiler.levels.low_alarm,
            boiler.levels.high_alarm)
        self.presets = _presets(boiler)
        self._picked, self._behind_valves = NO_FAULT, None
        self.advice = widgets.HTML()
        self.advice.add_class("lk-wide")
        super().__init__()

    def make_controls(self):
        normal, transmitter = _normal(self.boiler), self.boiler.transmitter
        top = 1000 * self.boiler.legs.chamber_height
        style = {"description_width": "initial"}
        healthy = self._healthy(normal)
        faults = [(f"{fault.number}  {fault.name}", fault.key) for fault in REMOTE_FAULTS
                  if TRANSMITTER in fault.effects and fault.apply(healthy) is not healthy]
        self._compensated, self._by_hand = (
            widgets.Checkbox(value=False, description=words, indent=False)
            for words in ("Pressure compensation", "Range by hand"))
        worked_out = healthy.calibration
        return {
            "pressure": Control("Drum pressure", "bar g", 0, 100, 0.5, normal["pressure"], 1),
            "level": Control("True drum level", "mm", -50, top, 1, normal["level"], 0),
            "calibrated": Control("Calibrated for", "bar g", 0, 100, 0.5,
                                  transmitter.calibration_pressure_bar, 1),
            "leg_temperature": Control("Reference leg", "\u00b0C", 5, 250, 1,
                                       normal["leg_temperature"], 0),
            "loss": Control("Lost from leg", "mm", 0, top, 1, 0, 0),
            "depth": Control("Depth below", "m", 0, 10, 0.1, transmitter.depth, 1),
            "connection": widgets.Dropdown(
                options=[("reversed: H on the leg", REVERSED),
                         ("direct: H on the drum", DIRECT)],
                description="Connection", style=style),
            "fault": widgets.Dropdown(options=[("none", NO_FAULT), *faults], description="Fault",
                                      style=style),
            "seconds": widgets.Dropdown(options=_SEEN, description="Looked at", style=style),
            "compensated": self._compensated,
            "by_hand": self._by_hand,
            "lrv": Control("LRV, 4 mA at", "kPa", -FURTHEST, FURTHEST, 0.01,
                           round(worked_out.lower_value / 1e3, 2), 2),
            "urv": Control("URV, 20 mA at", "kPa", -FURTHEST, FURTHEST, 0.01,
                           round(worked_out.upper_value / 1e3, 2), 2),
        }

    def _control_grid(self):
        """Nine cells: a range by hand stands where the calibration and the depth stood."""
        cells = ("pressure", "level", "calibrated", "lrv", "leg_temperature", "loss", "depth",
                 "urv", "connection", "fault", "seconds")
        grid = widgets.Box([*(self.controls[key] for key in cells), self.advice])
        grid.add_class("lk-grid")
        grid.add_class("lk-three")
        self._by_hand.observe(self._swap, "value")
        self._swap()
        return grid

    def _swap(self, _=None):
        by_hand = self._by_hand.value
        for keys, shown in ((("calibrated", "depth"), not by_hand), (("lrv", "urv"), by_hand)):
            for key in keys:
                self.controls[key].layout.display = None if shown else "none"

    def _button_row(self):
        row = super()._button_row()
        row.children = (*row.children, self._compensated, self._by_hand)
        return row

    def _healthy(self, values):
        state = healthy_transmitter(self.boiler, self.barometer, RemoteSetting(
            values["pressure"], values["level"] / 1000, values["calibrated"],
            kelvin(values["leg_temperature"]), values["loss"] / 1000, values["depth"],
            values["connection"], values["compensated"]))
        if not values["by_hand"]:
            return state
        return replace(state, calibration=TransmitterRange(
            1e3 * values["lrv"], 1e3 * values["urv"], 0.0, state.legs.weir_height))

    def evaluate(self, values):
        key = values["fault"]
        for name in ("pressure", "leg_temperature", "loss"):
            self.controls[name].disabled = name in _NO_SAY.get(key, ())
        for name in ("lrv", "urv"):  # a compensation works its range out for itself
            self.controls[name].disabled = values["compensated"]
        state, fault = self._healthy(values), None
        if key != NO_FAULT:
            fault = fault_named(key)
            state = self._as_shut_in(key, fault.apply(state))
        self._picked = key
        self.advice.value = _advice(fault)
        if values["seconds"]:
            state = replace(state, legs=legs_after(state.drum, state.legs, values["seconds"]))
        return TransmitterCase(
            state, transmitter_reading(state), _range_in_use(state),
            _LEG_TEMPERATURES.get(key, kelvin(values["leg_temperature"])), key)

    def _as_shut_in(self, key, faulty):
        """Keep the pressures that stood behind the valves when the fault was chosen.

        A panel has no clock: without this, moving the drum would move what is trapped.
        """
        if key != self._picked:
            self._behind_valves = (faulty.legs.manifold, faulty.legs.chamber)
        manifold, chamber = self._behind_valves
        return replace(faulty, legs=replace(faulty.legs, manifold=manifold, chamber=chamber))

    def draw(self, result, look, show_truth):
        steaming = result.fault != "cold-drum"
        warm = f"{celsius(result.leg_temperature):.0f} \u00b0C"
        view = TransmitterView(
            result.state, result.reading, result.range_in_use, warm,
            result.leg_temperature >= WARM_FROM, steaming,
            self._rows(result, look, steaming, show_truth), show_truth)
        return draw_transmitter(self._still, view, look)

    def _rows(self, case, look, steaming, show_truth):
        drum, reading = case.state.drum, case.reading
        gauge = format_number(gauge_pressure_bar(drum.pressure, self.barometer), 1)
        pressure = ("Drum pressure p" if look.detail else "Drum p", f"{gauge} bar g")
        pneumatic = case.state.receiver == PNEUMATIC
        signal = ("Signal", f"{reading.air_signal / BAR:.3f} bar" if pneumatic
                  else f"{1e3 * reading.current:.2f} mA")
        meaning = ("NE 43", "not for air" if pneumatic else signal_meaning(reading))
        level = ("True level", f"{1000 * drum.level:.1f} mm" if show_truth else "hidden")
        shows = ("Shows", f"{100 * reading.shown_fraction:.1f} %".replace("-", "\u2212"))
        if not look.detail:
            return (pressure, level, shows, signal, meaning)
        return (
            pressure,
            ("Drum water", f"{drum.water_density:.1f} kg/m\u00b3"),
            ("Steam" if steaming else "Air", f"{drum.steam_density:.2f} kg/m\u00b3"),
            ("Reference leg", f"{case.state.legs.reference_density:.1f} kg/m\u00b3"),
            ("Span, LRV to URV", f"{kilopascal(case.range_in_use.span)} kPa"),
            level, shows, signal, meaning)

    def reading(self, result, values):
        reading, state = result.reading, result.state
        return {
            "drum pressure [bar g]": format_plain(
                gauge_pressure_bar(state.drum.pressure, self.barometer), 1),
            "true level [mm]": format_plain(1000 * state.drum.level, 1),
            "calibrated for [bar g]": format_plain(values["calibrated"], 1),
            "leg [degC]": format_plain(celsius(result.leg_temperature), 0),
            "lost from leg [mm]": format_plain(1000 * state.legs.reference_loss, 1),
            "H - L [kPa]": format_plain(reading.differential / 1e3, 3),
            "current [mA]": format_plain(1e3 * reading.current, 2),
            "shown [%]": format_plain(100 * reading.shown_fraction, 1),
            "shown [mm]": format_plain(1000 * reading.indicated_level, 1),
            "error [mm]": format_plain(1000 * reading.error, 1),
            "NE 43": reading.band,
            "connection": values["connection"],
            "compensated": "yes" if values["compensated"] else "no",
            "LRV [kPa]": format_plain(result.range_in_use.lower_value / 1e3, 2),
            "URV [kPa]": format_plain(result.range_in_use.upper_value / 1e3, 2),
            "fault": result.fault,
        }


def signal_meaning(reading):
    """Return in two or three words what a current says about itself."""
    if reading.starved:
        return "starved"
    if reading.band == MEASURING and reading.saturated:
        return "end of scale"
    return reading.band.removeprefix("between the ")


def _range_in_use(state):
    """The range as entered, or the one that the compensation works out from the pressure."""
    assumed = state.compensation
    if assumed is None:
        return state.calibration
    return transmitter_range(state.legs.weir_height, assumed.water_density, assumed.steam_density,
                             assumed.leg_density, state.connection)


def _advice(fault):
    if fault is None:
        return ""
    hides = "<b>May hide low water.</b> " if TRANSMITTER in fault.hides_low_water else ""
    return (f"<div><b>{escape(fault.name[0].upper() + fault.name[1:])}.</b> "
            f'<span class="lk-cause">{escape(fault.cause)}</span> {hides}'
            f"Safe action: {escape(fault.safe_action)} "
            f'<span class="lk-caution">{escape(fault.advice[len(fault.safe_action):])}</span>'
            "</div>")


def _normal(boiler):
    preset = boiler.presets["normal"]
    return {"pressure": preset.gauge_pressure_bar, "level": preset.level_mm,
            "calibrated": boiler.transmitter.calibration_pressure_bar,
            "leg_temperature": preset.leg_celsius, "loss": 0.0,
            "depth": boiler.transmitter.depth, "connection": REVERSED, "fault": NO_FAULT,
            "seconds": 0.0, "compensated": False, "by_hand": False}


def _presets(boiler):
    """The boiler's own states, and four faults at low water that make it look safe."""
    normal, low = _normal(boiler), boiler.presets["low_water"].level_mm
    own = {preset.title: normal | {
        "pressure": preset.gauge_pressure_bar, "level": preset.level_mm,
        "leg_temperature": preset.leg_celsius,
        "fault": NO_FAULT if preset.steaming else "cold-drum"}
        for preset in boiler.presets.values()}
    telling = {label: normal | {"level": low, "fault": key} for label, key in (
        ("equaliser open", "equaliser-open"), ("leg lost", "reference-leg-lost"),
        ("ports crossed", "ports-crossed"))}
    return own | telling
