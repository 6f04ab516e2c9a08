"""Extracts of the steam table: as few rows as the paper needs, close enough to interpolate in."""

import tomllib
from dataclasses import dataclass
from functools import cache
from math import ceil, floor
from pathlib import Path

from .. import properties
from ..constants import BAR
from ..exercises.templates import number_text
from ..units import kelvin

_LOOKUPS = Path(__file__).with_name("lookups.toml")
_PRESSURE_STEPS = (10.0, 5.0, 2.0, 1.0, 0.5, 0.2, 0.1)
_TEMPERATURE_STEPS = (20.0, 10.0, 5.0, 2.0, 1.0)
_SHARE = 0.4  # of the tolerance may be lost by interpolating between printed, rounded rows
SATURATION = {
    "temperature": ("t_s", "°C", 1, lambda p: properties.saturation_temperature(p) - 273.15),
    "water_density": ("ρ_f", "kg/m³", 1,
                      lambda p: properties.saturation_at_pressure(p).water_density),
    "steam_density": ("ρ_g", "kg/m³", 3,
                      lambda p: properties.saturation_at_pressure(p).steam_density),
}


@dataclass(frozen=True, slots=True)
class Table:
    """A printed table.

    Attributes
    ----------
    title : str
        What stands above it.
    heads : tuple of str
        Columns with units.
    rows : tuple of tuple of str
        Numbers as printed.
    """

    title: str
    heads: tuple
    rows: tuple


@cache
def lookups():
    """Return where each table step is looked up, by family and step."""
    return tomllib.loads(_LOOKUPS.read_text(encoding="utf-8"))


def lookup(family_id, step_id):
    """Return where one step is looked up, or None."""
    return lookups().get(family_id, {}).get(step_id)


def tables_for(paper):
    """Return the tables that a paper needs.

    Parameters
    ----------
    paper : ClassPaper
        Everybody's questions, the specimen's too.

    Returns
    -------
    tuple of Table
        Empty where nothing is looked up.
    """
    saturation, water = [], []
    for one in (*paper.papers, paper.specimen):
        for variant in one.variants:
            for step in variant.family.value_steps:
                place = lookup(variant.family.id, step.id)
                if place:
                    (water if place["table"] == "water" else saturation).append(
                        _entry(variant, step, place))
    tables = []
    if saturation:
        tables.append(_saturation_table(saturation))
    if water:
        tables.append(_water_table(water))
    return tuple(tables)


def _entry(variant, step, place):
    """(column, pressure [bar], temperature [degC] or None, allowed deviation as printed)."""
    pressure = _number(variant, place["pressure"])
    temperature = _number(variant, place["temperature"]) if "temperature" in place else None
    value = variant.solution.steps[step.id]
    return place["column"], pressure, temperature, step.allowed(value) / step.si.factor


def _number(variant, name):
    """A given or a right step value, as printed."""
    return float(variant.numbers[name].replace("−", "-"))


def _saturation_table(entries):
    columns = [name for name in SATURATION if any(name == entry[0] for entry in entries)]
    needed = {(name, pressure, allowed) for name, pressure, _, allowed in entries}
    step = next((step for step in _PRESSURE_STEPS
                 if all(_saturation_miss(name, pressure, step) <= _SHARE * allowed
                        for name, pressure, allowed in needed)), _PRESSURE_STEPS[-1])
    pressures = _grid({pressure for _, pressure, _ in needed}, step)
    decimals = 1 if step >= 0.1 and step % 1 else 0
    rows = tuple((number_text(pressure, decimals),
                  *(_printed(name, pressure) for name in columns)) for pressure in pressures)
    heads = ("p [bar absolute]", *(f"{SATURATION[name][0]} [{SATURATION[name][1]}]"
                                   for name in columns))
    return Table("Saturated water and steam", heads, rows)


def _grid(values, step):
    """The rows on both sides of every value, and one more on each side of those."""
    rows = set()
    for value in values:
        low, high = floor(value / step + 1e-9), ceil(value / step - 1e-9)
        rows |= set(range(low - 1, high + 2))
    return [round(row * step, 6) for row in sorted(rows) if row > 0]


def _printed(name, pressure):
    _, _, decimals, function = SATURATION[name]
    return number_text(float(function(pressure * BAR)), decimals)


@cache
def _saturation_miss(name, pressure, step):
    """What is lost by interpolating between two printed rows."""
    low = floor(pressure / step) * step
    if low <= 0.0:
        return float("inf")
    left, right = (float(_printed(name, row)) for row in (low, low + step))
    return abs(left + (right - left) * (pressure - low) / step
               - float(SATURATION[name][3](pressure * BAR)))


def _water_table(entries):
    needed = {(pressure, temperature, allowed) for _, pressure, temperature, allowed in entries}
    across, down = next(
        ((across, down) for across in (20.0, 10.0, 5.0) for down in _TEMPERATURE_STEPS
         if all(_water_miss(p, t, across, down) <= _SHARE * allowed
                for p, t, allowed in needed)), (5.0, _TEMPERATURE_STEPS[-1]))
    pressures = _grid({p for p, _, _ in needed}, across)
    temperatures = _grid({t for _, t, _ in needed}, down)
    rows = tuple((number_text(t, 0), *(number_text(_density(p, t), 1) for p in pressures))
                 for t in temperatures)
    heads = ("t [°C]", *(f"ρ [kg/m³] at {number_text(p, 0)} bar absolute" for p in pressures))
    return Table("Water below its boiling point", heads, rows)


@cache
def _density(pressure, celsius):
    return float(properties.compressed_water_density(pressure * BAR, kelvin(celsius)))


def _water_miss(pressure, celsius, across, down):
    p, t = floor(pressure / across) * across, floor(celsius / down) * down
    if p <= 0.0 or t <= 0.0:
        return float("inf")
    corners = [[round(_density(p + i * across, t + j * down), 1) for j in (0, 1)] for i in (0, 1)]
    right, up = (pressure - p) / across, (celsius - t) / down
    low = corners[0][0] + (corners[0][1] - corners[0][0]) * up
    high = corners[1][0] + (corners[1][1] - corners[1][0]) * up
    return abs(low + (high - low) * right - _density(pressure, celsius))
