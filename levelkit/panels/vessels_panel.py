"""The communicating vessels panel: level only if density, pressure and rest are all alike."""

from dataclasses import dataclass
from math import pi

import ipywidgets as widgets

from ..constants import BAR, MILLIMETRE
from ..errors import checked
from ..physics.vessels import Layer, Vessel, broken_conditions, foot_pressure, joined_vessels
from ..properties import compressed_water_density, saturation_at_pressure
from ..scene.vessels import VESSEL_HEIGHT, VesselsView, VesselView, draw_vessels
from ..units import absolute_pressure, format_number, kelvin
from .control import Control
from .panel import Panel
from .readings import format_plain

COLD, HOT = "cold water, 20 \u00b0C", "hot water, 90 \u00b0C"
BOILING, TYPED = "boiling water, 60 bar g", "brine or other: typed density"
FLUIDS = (COLD, HOT, BOILING, TYPED)
MBAR = BAR / 1000
BOILING_GAUGE = 60.0  # bar: the pressure above both vessels as soon as one holds boiling water
_CELSIUS = {COLD: 20.0, HOT: 90.0}
_NORMAL = {"fluid_a": COLD, "fluid_b": COLD, "bore_a": 80, "bore_b": 80, "fill_a": 300,
           "fill_b": 300, "density_a": 1025, "density_b": 1025, "difference": 0, "valve": True}


@dataclass(frozen=True, slots=True)
class VesselsCase:
    """A worked-out pair of vessels, owner of every number the panel shows."""

    before: tuple
    now: tuple
    foot_pressures: tuple
    conditions: tuple
    broken: tuple
    valve_open: bool
    steam_above: bool

    @property
    def levels(self):
        """Levels above the feet [m]."""
        return tuple(vessel.level for vessel in self.now)

    @property
    def difference(self):
        """Level of A less level of B [m]."""
        return self.levels[0] - self.levels[1]

    @property
    def feet_above(self):
        """Pressures at the feet less the pressure above B [Pa]."""
        return tuple(foot - self.now[1].pressure_above for foot in self.foot_pressures)


class VesselsPanel(Panel):
    """Two vessels joined at their feet by a pipe with a valve."""

    draws_ahead = True

    title = "Two vessels joined at their feet"
    presets = {
        "equal": _NORMAL,
        "hot and cold": _NORMAL | {"fluid_a": BOILING},
        "brine and fresh": _NORMAL | {"fluid_a": TYPED, "density_a": 1200},
        "pressure on one side": _NORMAL | {"difference": 20},
        "wide and narrow": _NORMAL | {"bore_a": 200, "bore_b": 20, "fill_b": 100},
        "valve shut": _NORMAL | {"fill_a": 400, "fill_b": 200, "valve": False},
    }

    def __init__(self, barometer):
        self.barometer = barometer
        super().__init__()
        self.truth.description = "Show what stands in the vessels"

    def make_controls(self):
        pairs = {}
        for key, letter in (("a", "A"), ("b", "B")):
            pairs[f"fluid_{key}"] = widgets.Dropdown(
                options=FLUIDS, description=f"Fluid in {letter}",
                style={"description_width": "initial"})
            pairs[f"density_{key}"] = Control(
                f"Typed density, {letter}", "kg/m\u00b3", 700, 1300, 1, 1025, 0)
            pairs[f"bore_{key}"] = Control(f"Bore of {letter}", "mm", 20, 200, 1, 80, 0)
            pairs[f"fill_{key}"] = Control(f"{letter} filled to", "mm", 50, 450, 1, 300, 0)
        order = [f"{name}_{key}" for name in ("fluid", "density", "bore", "fill") for key in "ab"]
        self._valve = widgets.Checkbox(value=True, description="Valve open", indent=False)
        return {key: pairs[key] for key in order} | {
            "difference": Control("Extra pressure on A", "mbar", -40, 40, 0.5, 0, 1),
            "valve": self._valve,
        }

    def evaluate(self, values):
        for key in "ab":
            self.controls[f"density_{key}"].disabled = values[f"fluid_{key}"] != TYPED
        boiling = BOILING in (values["fluid_a"], values["fluid_b"])
        above_b = absolute_pressure(BOILING_GAUGE if boiling else 0.0, self.barometer)
        above_a = above_b + values["difference"] * MBAR
        before = tuple(
            Vessel(_bore_area(values[f"bore_{key}"]), above,
                   (Layer(values[f"fluid_{key}"], _density(values, key, above_b),
                          values[f"fill_{key}"] / 1000),))
            for key, above in (("a", above_a), ("b", above_b)))
        now = joined_vessels(before).vessels if values["valve"] else before
        for name, vessel in zip("AB", now, strict=True):
            checked(f"The level in {name}", 1000 * vessel.level, 0, 1000 * VESSEL_HEIGHT, "mm",
                    "The fluid would run over: fill less, or lower the pressure difference.")
        return VesselsCase(
            before, now, tuple(foot_pressure(vessel) for vessel in now),
            _conditions(now, values["valve"]), _broken(now, values["valve"]), values["valve"],
            boiling)

    def draw(self, result, look, show_truth):
        pair = tuple(
            VesselView(letter, vessel, filled.level, _labels(filled), above)
            for letter, vessel, filled, above in zip(
                "AB", result.now, result.before, _above(result), strict=True))
        return draw_vessels(
            VesselsView(pair, result.valve_open, result.steam_above,
                        self._rows(result, look, show_truth), result.conditions, result.broken,
                        show_truth), look)

    def _rows(self, case, look, show_truth):
        feet = tuple(
            (f"Foot {letter}", f"p + {format_number(foot / MBAR, 2)} mbar")
            if show_truth else (f"Foot {letter}", "hidden")
            for letter, foot in zip("AB", case.feet_above, strict=True))
        if not look.detail:
            return feet
        filled = tuple((f"{letter} filled to (dashed)", f"{1000 * vessel.level:.1f} mm")
                       for letter, vessel in zip("AB", case.before, strict=True))
        above = case.before[1].pressure_above / BAR
        return (("p, above B, absolute", f"{format_number(above, 3)} bar"), *filled, *feet)

    def reading(self, result, values):
        row = {"valve": "open" if result.valve_open else "shut"}
        for index, letter in enumerate("AB"):
            filled = result.before[index].layers[0]
            row |= {
                f"fluid in {letter}": filled.name,
                f"density {letter} [kg/m3]": format_plain(filled.density, 1),
                f"bore {letter} [mm]": format_plain(values[f"bore_{letter.lower()}"], 0),
                f"level {letter} [mm]": format_plain(1000 * result.levels[index], 1),
                f"foot {letter} above p [mbar]": format_plain(result.feet_above[index] / MBAR, 2),
            }
        return row | {
            "pressure above, A less B [mbar]": format_plain(values["difference"], 1),
            "level A less level B [mm]": format_plain(1000 * result.difference, 1),
        }


def _bore_area(bore_mm):
    return pi / 4 * (bore_mm * MILLIMETRE) ** 2


def _density(values, key, pressure):
    """Density of what is filled into a vessel; the pressure of B serves both."""
    fluid = values[f"fluid_{key}"]
    if fluid == TYPED:
        return values[f"density_{key}"]
    if fluid == BOILING:
        return saturation_at_pressure(pressure).water_density
    return compressed_water_density(pressure, kelvin(_CELSIUS[fluid]))


def _conditions(vessels, valve_open):
    """The three conditions for equal levels, and whether each holds."""
    densities = {layer.density for vessel in vessels for layer in vessel.layers}
    return (
        ("1  one density", len(densities) == 1),
        ("2  one pressure above", vessels[0].pressure_above == vessels[1].pressure_above),
        ("3  joined, nothing flows", valve_open),
    )


def _broken(vessels, valve_open):
    """The broken conditions in words; behind a shut valve nothing flows, whatever the feet say."""
    sentences = broken_conditions(vessels)
    if valve_open:
        return sentences
    at_rest = tuple(text for text in sentences if not text.startswith("Fluid flows"))
    a, b = (foot_pressure(vessel) for vessel in vessels)
    if abs(a - b) < 1.0:  # Pa, a tenth of a millimetre of water
        opened = "The feet agree: nothing would run."
    else:
        opened = f"Open it: fluid runs from {'A to B' if a > b else 'B to A'}."
    return (*at_rest, f"The valve is shut: the vessels are not joined. {opened}")


def _labels(filled):
    """Name and density of what was filled in, as two lines."""
    layer = filled.layers[0]
    return layer.name.split(":")[0], f"{format_number(layer.density, 1)} kg/m\u00b3"


def _above(case):
    """The pressure above each vessel as a text, counted from the one above B."""
    difference = (case.now[0].pressure_above - case.now[1].pressure_above) / MBAR
    sign = "+" if difference > 0 else "\u2212"
    return ("p" if abs(difference) < 0.05 else f"p {sign} {abs(difference):.1f} mbar"), "p"
