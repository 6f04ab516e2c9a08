"""What the cocks panel sets, turned into the state of a gauge glass."""

from dataclasses import dataclass, replace
from functools import lru_cache

from ..physics.cock_state import CockFaults, Cocks, CockState, DrumSide, GaugeFitting
from ..physics.glass_contents import drained_contents, working_contents
from ..physics.steam_lookup import steam_table
from ..properties import (
    compressed_water_density,
    saturated_fluid,
    saturation_heat,
    steaming_drum_fluids,
)
from ..units import absolute_pressure, kelvin

IN_SERVICE, DRAINED, KEPT = "in service", "drained, full of air", "as kept from a picture"
DRAINED_CELSIUS = 57.0  # a glass that has just been blown and stands open to the air
_MM2 = 1e-6
FAULTS = {
    "none": {},
    "steam way choked": {"steam_choke": 1.0},
    "steam way nearly choked, 0.8 mm hole": {"steam_hole": 0.503},
    "water way choked": {"water_choke": 1.0},
    "water way nearly choked, 0.1 mm\u00b2": {"water_hole": 0.1},
    "both ways choked": {"steam_choke": 1.0, "water_choke": 1.0},
    "drain passes, 3 mm\u00b2": {"drain_hole": 3.0},
    "drain way choked": {"drain_choke": 1.0},
    "top joint leaks, 1 mm\u00b2": {"top_leak_area": _MM2},
    "bottom gland leaks, 1 mm\u00b2": {"bottom_leak_area": _MM2},
    "water pipe rises 60 mm": {"pipe_lip": 0.060},
}
"""What the panel can do to a gauge: changes of its faults, or holes of so many mm2."""


@dataclass(frozen=True, slots=True)
class CockSetting:
    """What a person sets.

    Attributes
    ----------
    gauge_pressure_bar : float [bar]
        In the drum.
    level : float [m]
        True level above the water connection.
    steam, water, drain : float [1]
        Openings.
    fault : str
        One of FAULTS.
    begins : str
        In service, drained, or as kept.
    kept : GlassContents or None [m, Pa, mol]
        What was kept from a picture.
    """

    gauge_pressure_bar: float
    level: float
    steam: float
    water: float
    drain: float
    fault: str
    begins: str
    kept: object = None


def cock_state(boiler, barometer, setting):
    """Return the gauge glass of a boiler as it is set."""
    glass, preset = boiler.glass, boiler.presets["normal"]
    fluids = steaming_drum_fluids(absolute_pressure(setting.gauge_pressure_bar, barometer))
    drum = DrumSide(fluids.pressure, setting.level, fluids.water_density, fluids.steam_density,
                    saturation_heat(fluids.pressure).water_heat_capacity)
    warm = min(kelvin(preset.glass_celsius), fluids.temperature)
    fitting = GaugeFitting(
        bore_area=glass.bore_area, steam_connection=glass.mounting.steam_connection,
        dry_heat_loss=glass.heat_loss, ambient_temperature=kelvin(preset.ambient_celsius),
        water_density=compressed_water_density(fluids.pressure, warm),
        pipe_lip=FAULTS[setting.fault].get("pipe_lip", 0.0), barometer=barometer)
    steam = _steam(fluids.pressure)
    return CockState(drum, steam, _contents(setting, drum, fitting, steam), fitting,
                     Cocks(setting.steam, setting.water, setting.drain),
                     _faults(FAULTS[setting.fault], fitting))


def _contents(setting, drum, fitting, steam):
    if setting.begins == DRAINED:
        return drained_contents(fitting, steam, kelvin(DRAINED_CELSIUS))
    if setting.begins == KEPT and setting.kept is not None:
        return replace(setting.kept, height=min(setting.kept.height, fitting.steam_connection))
    return working_contents(drum, fitting)


@lru_cache(maxsize=32)
def _steam(pressure):
    return steam_table(pressure, saturated_fluid)


def _faults(changes, fitting):
    """Faults of the gauge; a hole of so many mm2 becomes a share of its way."""
    found = {key: value for key, value in changes.items()
             if not key.endswith("_hole") and key != "pipe_lip"}
    for way in ("steam", "water"):
        if f"{way}_hole" in changes:
            area = getattr(fitting, f"{way}_way_area")
            found[f"{way}_choke"] = 1 - changes[f"{way}_hole"] * _MM2 / area
    if "drain_hole" in changes:
        found["drain_passing"] = changes["drain_hole"] * _MM2 / fitting.drain_way_area
    return CockFaults(**found)
