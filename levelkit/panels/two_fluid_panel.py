"""The two-fluid U-tube panel: what stands between the drum and a scale that needs no power."""

from dataclasses import dataclass, replace
from html import escape

import ipywidgets as widgets
import numpy as np

from ..constants import CAUTION, MILLIMETRE
from ..faults import FAULTS, TWO_FLUID, fault_named
from ..physics.indicating_fluids import FLUIDS, IndicatingFluid
from ..physics.leg_water import legs_after
from ..physics.two_fluid import TwoFluidResult, two_fluid_reading
from ..physics.two_fluid_state import TwoFluidState
from ..physics.u_tube import DRUM_LIMB, REFERENCE_LIMB
from ..physics.uncertainty import UncertaintyBudget
from ..scene.drum_and_legs import DrumAndLegs
from ..scene.two_fluid import SLOW, TwoFluidView, draw_two_fluid
from ..scene.u_tube import UTubeView
from ..units import kelvin
from .control import Control
from .panel import Panel
from .remote_budgets import two_fluid_known
from .two_fluid_setting import (
    COLD,
    DESIGN,
    MILLILITRE,
    SCALE_FLUID_CELSIUS,
    STEAMING,
    drawn_indicator,
    indicator_as_set,
    reading_on_the_way,
)
from .two_fluid_words import leg_words, number_rows, reading_row

NO_FAULT = ""
OWN_FLUID = "this boiler's own"
EXPANSION = 1.0e-3  # 1/K: that of the ship's invented fluids
TIMES = (("just now", 0.0), ("5 seconds ago", 5.0), ("1 minute ago", 60.0),
         ("10 minutes ago", 600.0), ("1 hour ago", 3600.0))
_OVERRULED = {  # controls in whose place a fault puts a value of its own
    "reference_leg": ("cold-drum", "reference-leg-warm"),
    "drum_leg": ("cold-drum",),
    "leg_lost": ("reference-leg-lost", "reference-leg-flashes", "common-leg-lost"),
}
_SHOWN_PRESETS = ("cold", "raising_steam", "half_pressure", "normal", "low_water")


@dataclass(frozen=True, slots=True)
class TwoFluidCase:
    """A worked-out indicator, owner of every number the panel shows.

    Attributes
    ----------
    state : TwoFluidState
        The indicator as it is, with its fault.
    healthy : TwoFluidState
        The same without the fault.
    scale_ends : tuple of (float, float) [m]
        Level and height of the visible surface at both ends of the scale.
    reading : TwoFluidResult
        What it shows.
    fault : Fault or None
        The fault that is set.
    steaming : bool
        Steam above the water, or air.
    scale_pressure_bar : float [bar]
        Gauge pressure for which the scale is drawn.
    leg_celsius : tuple of (float, float) [degC]
        Temperatures set for reference leg and drum-side leg.
    budget : UncertaintyBudget or None [m]
        How well an indicator in order knows the level of a steaming drum, once its reading
        has been corrected for pressure.
    """

    state: TwoFluidState
    healthy: TwoFluidState
    scale_ends: tuple
    reading: TwoFluidResult
    fault: object
    steaming: bool
    scale_pressure_bar: float
    leg_celsius: tuple
    budget: UncertaintyBudget | None


class TwoFluidPanel(Panel):
    """A drum, its constant-head chamber and a two-fluid U-tube below."""

    draws_ahead = True

    def __init__(self, boiler, barometer):
        self.boiler, self.barometer = boiler, barometer
        self.title = f"Drum and two-fluid indicator: {boiler.title} (invented)"
        normal = _from_preset(boiler.presets["normal"])
        self._area = sum(np.pi / 4 * bore ** 2 for bore in (boiler.two_fluid.visible_bore,
                                                             boiler.two_fluid.other_bore))
        self._fill_step = 10 if self._area > 1e-3 else 1  # ml: a wide limb takes much
        shown = [boiler.presets[name] for name in _SHOWN_PRESETS]
        self.presets = {preset.title: _from_preset(preset) for preset in shown}
        self.presets |= {
            "overfilled": normal | {"extra_fill": self._millilitres(0.06)},
            "leg partly lost": normal | {"leg_lost": 60},
            "warm reference leg": normal | {"reference_leg": normal["reference_leg"] + 10},
        }
        self._fluids = {OWN_FLUID: IndicatingFluid(OWN_FLUID, boiler.two_fluid.fluid_density,
                                                   EXPANSION, "Invented: a density, no more.")}
        self._fluids |= {fluid.name: fluid for fluid in FLUIDS}
        self._still = DrumAndLegs(
            boiler.title, boiler.drum.inside_diameter, boiler.drum.axis_height,
            boiler.drum.topmost_tube, boiler.legs.chamber_height, boiler.levels.low_alarm)
        self._design = self._drawn = None
        self._fault_key, self._at_onset = NO_FAULT, None
        super().__init__()

    def _millilitres(self, rise):
        """Fluid that lifts both surfaces of this boiler's U-tube by so much, in whole steps."""
        return self._fill_step * round(rise * self._area / MILLILITRE / self._fill_step)

    def make_controls(self):
        boiler, most = self.boiler, self._millilitres(0.15)
        normal, top = _from_preset(boiler.presets["normal"]), 1000 * boiler.legs.chamber_height
        faults = [fault for fault in FAULTS if TWO_FLUID in fault.effects]
        return {
            "pressure": Control("Drum pressure", "bar g", 0, 100, 0.5, normal["pressure"], 1),
            "level": Control("True level", "mm", -50, top, 1, normal["level"], 0),
            "reference_leg": Control("Reference leg", "\u00b0C", 5, 150, 1,
                                     normal["reference_leg"], 0),
            "drum_leg": Control("Drum-side leg", "\u00b0C", 5, 150, 1, normal["drum_leg"], 0),
            "leg_lost": Control("Leg 1 lost", "mm", 0, top, 1, 0, 0),
            "extra_fill": Control("Fluid added", "ml", -most, most, self._fill_step, 0, 0),
            "fault": _dropdown("Fault", [("none", NO_FAULT),
                                         *((fault.name, fault.key) for fault in faults)]),
            "since": _dropdown("It came", TIMES),
            "state": _dropdown("Drum", [STEAMING, COLD]),
            "visible_limb": _dropdown("Visible limb", [
                ("1: scale upright", REFERENCE_LIMB), ("2: scale inverted", DRUM_LIMB)]),
            "fluid": _dropdown("Fluid, kg/m\u00b3", [
                (f"{fluid.density:.0f}: {name}", name) for name, fluid in self._fluids.items()]),
            "fluid_temperature": Control("Fluid at", "\u00b0C", 0, 60, 1,
                                         SCALE_FLUID_CELSIUS, 0),
            "visible_bore": Control("Visible bore", "mm", 4, 80, 0.5,
                                    boiler.two_fluid.visible_bore / MILLIMETRE, 1),
            "other_bore": Control("Other bore", "mm", 4, 80, 0.5,
                                  boiler.two_fluid.other_bore / MILLIMETRE, 1),
            "scale_pressure": Control("Scale for", "bar g", 0, 100, 0.5,
                                      boiler.working_pressure_bar, 1),
            "scale_legs": Control("Scale, legs at", "\u00b0C", 5, 100, 1,
                                  normal["reference_leg"], 0),
            "depth": Control("Fluid below 0", "m", 1, 20, 0.1,
                             boiler.two_fluid.upper_surface_depth, 1),
            "barometer": Control("Barometer", "mbar", 940, 1060, 0.25, self.barometer / 100, 1),
        }

    def _control_grid(self):
        """Two pages of controls, one at a time: what happens in service, and the design."""
        keys = list(self.controls)
        parting = keys.index("state")
        self.controls["fault"].add_class("lk-two")  # two columns wide
        self._pages = []
        for page in (keys[:parting], keys[parting:]):
            grid = widgets.Box([self.controls[key] for key in page])
            grid.add_class("lk-grid")
            grid.add_class("lk-three")
            self._pages.append(grid)
        self.design = widgets.ToggleButton(value=False, description="Design and scale")
        self.design.observe(self._turned, "value")
        self._turned()
        self._advice = widgets.HTML()
        return widgets.VBox([*self._pages, self._advice])

    def _turned(self, _=None):
        for page, shown in zip(self._pages, (not self.design.value, self.design.value),
                               strict=True):
            page.layout.display = None if shown else "none"

    def _button_row(self):
        row = super()._button_row()
        reset = next(i for i, child in enumerate(row.children) if child.description == "Reset")
        row.children = [*row.children[:reset + 1], self.design, *row.children[reset + 1:]]
        return row

    def evaluate(self, values):
        self._enable(values)
        healthy, ends = self._healthy(values)
        if values["fault"] != self._fault_key:
            self._fault_key, self._at_onset = values["fault"], healthy
        fault = fault_named(values["fault"]) if values["fault"] else None
        state = healthy
        if fault is not None:
            state = self._with_fault(fault, healthy, values["since"])
        steaming = values["state"] == STEAMING and values["fault"] != "cold-drum"
        self._advise(fault, state.fluid)
        reading = two_fluid_reading(state)
        if fault is not None and reading.response_time > SLOW:
            reading = reading_on_the_way(two_fluid_reading(self._at_onset), reading,
                                         values["since"], state.legs.weir_height)
        budget = None
        if steaming and fault is None and not values["leg_lost"] and not reading.below_connection:
            budget = two_fluid_known(state, reading, kelvin(values["reference_leg"]))
        return TwoFluidCase(state, healthy, ends, reading, fault, steaming,
                            values["scale_pressure"],
                            (values["reference_leg"], values["drum_leg"]), budget)

    def _enable(self, values):
        """A control that has no say in the chosen state is switched off, not ignored."""
        fault = values["fault"]
        cold = values["state"] == COLD or fault == "cold-drum"
        self.controls["pressure"].disabled = cold
        self.controls["state"].disabled = fault == "cold-drum"
        self.controls["since"].disabled = fault == NO_FAULT
        for key, faults in _OVERRULED.items():
            self.controls[key].disabled = fault in faults

    def _with_fault(self, fault, healthy, seconds):
        """The faulty state now: valves keep what they shut in when the fault came."""
        state, onset = fault.apply(healthy), fault.apply(self._at_onset)
        legs = replace(state.legs, manifold=onset.legs.manifold, chamber=onset.legs.chamber)
        return replace(state, legs=legs_after(state.drum, legs, seconds))

    def _healthy(self, values):
        """The indicator without a fault, and the ends of its scale."""
        drawn = self._as_drawn(values)
        return indicator_as_set(drawn.state, values), drawn.scale_ends

    def _as_drawn(self, values):
        """The indicator on the day its scale was drawn; worked out anew only for a new design."""
        design = tuple(values[key] for key in DESIGN)
        if design != self._design:
            self._drawn = drawn_indicator(self.boiler, self._fluids[values["fluid"]], values)
            self._design = design
        return self._drawn

    def draw(self, result, look, show_truth):
        state, reading = result.state, result.reading
        tube = UTubeView(state.tube, state.legs.manifold, reading.reference_surface,
                         reading.drum_surface, result.scale_ends, leg_words(result, look))
        return draw_two_fluid(self._still, TwoFluidView(
            state.drum.level, reading, state.legs, tube, number_rows(result, look, show_truth),
            result.fault.name if result.fault else "", result.steaming, show_truth), look)

    def _advise(self, fault, fluid):
        """Say under the controls what the fault is and what to do, or what the fluid is."""
        text = ""
        if fault is not None:
            text = f"{fault.cause} {fault.advice}"
        elif fluid.name != OWN_FLUID:
            text = f"Indicating fluid: {fluid.name}. {fluid.safety} {CAUTION}"
        markup = f'<div class="lk-caution" role="note">{escape(text)}</div>' if text else ""
        if self._advice.value != markup:
            self._advice.value = markup

    def reading(self, result, values):
        return reading_row(result, values)


def _dropdown(name, options):
    return widgets.Dropdown(options=options, description=name,
                            style={"description_width": "initial"})


def _from_preset(preset):
    """A preset of the boiler with nothing else wrong."""
    return {
        "pressure": preset.gauge_pressure_bar,
        "level": preset.level_mm,
        "reference_leg": preset.leg_celsius,
        "drum_leg": preset.leg_celsius,
        "state": STEAMING if preset.steaming else COLD,
        "leg_lost": 0,
        "extra_fill": 0,
        "fluid_temperature": SCALE_FLUID_CELSIUS,
        "fault": NO_FAULT,
        "since": 0.0,
    }
