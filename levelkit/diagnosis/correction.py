"""Correct before you compare: every reading reduced to drum level, with its uncertainty."""

from dataclasses import dataclass

from ..physics.differential import reference_differential
from ..physics.fluid_balance import fluid_difference
from ..physics.instrument_budgets import glass_budget, transmitter_budget, two_fluid_budget
from ..physics.transmitter_range import connection_sign
from ..physics.uncertainty import Measured
from ..properties import (
    cold_drum_fluids,
    compressed_water_density,
    saturation_at_pressure,
    steaming_drum_fluids,
)
from ..units import gauge_pressure_bar, kelvin
from .readings import READS, BenchResult
from .setting import (
    GLASSES,
    NAMES,
    TRANSMITTER_2,
    U_TUBE,
    healthy_instruments,
)

READ_GLASS, READ_TUBE, READ_DIFFERENTIAL = 0.002, 0.002, 10.0
WEIR_BY, PRESSURE_BY, FLUID_BY = 0.003, 1e5, 2.0
GLASS_KELVIN, LEG_KELVIN = 20.0, 10.0
"""What a reading and the inputs of its correction are known to (k = 2): common practice, no
source. Lengths m, pressure Pa, density kg/m3, temperature K."""
COLD_BELOW_BAR = 0.05
"""Below this gauge pressure [bar] a drum is taken to be cold and open to the air."""


@dataclass(frozen=True, slots=True)
class Corrected:
    """A reading reduced to collapsed drum level.

    Attributes
    ----------
    name : str
        The instrument.
    level : float or None [m]
        Drum level that it stands for if it is sound; None where it shows no number.
    uncertainty : float or None [m]
        Plus or minus, k = 2.
    largest : str
        What contributes most to it.
    """

    name: str
    level: float | None
    uncertainty: float | None
    largest: str = ""


def corrected_readings(result: BenchResult):
    """Return every reading as drum level, by name.

    Only what a person on watch can know goes in: the reading, the pressure gauge, the data
    sheet of the instrument, and what its water is usually like. So a fault stays visible.

    Parameters
    ----------
    result : BenchResult [-]
        The bench.

    Returns
    -------
    dict of str to Corrected [m]
        By instrument; without a level where it shows no number.

    References
    ----------
    [GUM] uncertainty of each; [PRACTICE-DIAGNOSIS] what the inputs are known to.

    Examples
    --------
    >>> from levelkit.diagnosis.example import example_setting
    >>> from levelkit.diagnosis.readings import bench_result
    >>> levels = corrected_readings(bench_result(example_setting(level=0.18)))
    >>> round(levels["glass A"].level, 3)
    0.18
    """
    return {name: _corrected(name, result) for name in NAMES}


def _corrected(name, result):
    reading = result.readings[name]
    if reading.status != READS:
        return Corrected(name, None, None)
    fluids, leg, leg_by, glass, glass_by = _densities(result)
    setting = result.setting
    sheet = healthy_instruments(setting, setting.level_before)[name]
    if name in GLASSES:
        budget = glass_budget(Measured(reading.shown, READ_GLASS), Measured(glass, glass_by),
                              fluids.water_density, fluids.steam_density)
        return Corrected(name, budget.level, budget.uncertainty, budget.largest)
    weir = Measured(sheet.legs.weir_height, WEIR_BY)
    saturation = saturation_at_pressure if fluids.steaming else lambda pressure: fluids
    pressure = Measured(result.pressure, PRESSURE_BY if fluids.steaming else 0.0)
    if name == U_TUBE:
        drawn = sheet.scale
        difference = fluid_difference(
            reading.shown, weir.value, drawn.water_density, drawn.steam_density,
            drawn.leg_density, drawn.fluid_density)
        budget = two_fluid_budget(Measured(difference, READ_TUBE), weir, Measured(leg, leg_by),
                                  Measured(drawn.fluid_density, FLUID_BY), pressure, saturation)
    else:
        budget = transmitter_budget(
            Measured(_differential(name, reading.shown, sheet, fluids, leg), READ_DIFFERENTIAL),
            weir, Measured(leg, leg_by), pressure, saturation)
    return Corrected(name, budget.level, budget.uncertainty, budget.largest)


def _differential(name, shown, sheet, fluids, leg):
    """The differential that makes a sound transmitter show this level."""
    if name == TRANSMITTER_2:  # works out the level itself, with saturation at drum pressure
        water, steam, leg = ((fluids.water_density, fluids.steam_density, leg)
                             if fluids.steaming else _as_compensated_cold(
                                 fluids.pressure, sheet.compensation.leg_density))
        return reference_differential(shown, sheet.legs.weir_height, water, steam, leg)
    entered = sheet.calibration
    share = ((shown - entered.bottom_level) / (entered.top_level - entered.bottom_level))
    span = entered.upper_value - entered.lower_value
    return connection_sign(sheet.connection) * (entered.lower_value + share * span)


def _as_compensated_cold(pressure, leg):
    """Densities of a cold day: saturation at its pressure, and the leg it always assumes."""
    boiling = saturation_at_pressure(pressure)
    return boiling.water_density, boiling.steam_density, leg


def _densities(result):
    """Drum, legs and glass as the pressure gauge and experience tell them."""
    setting, boiler = result.setting, result.setting.boiler
    if gauge_pressure_bar(result.pressure, setting.barometer) < COLD_BELOW_BAR:
        cold = cold_drum_fluids(kelvin(20.0), setting.barometer)
        return cold, cold.water_density, 1.0, cold.water_density, 1.0
    fluids = steaming_drum_fluids(result.pressure)

    def water(temperature, by):
        """Density at a temperature, and what so many kelvin do to it."""
        usual = min(temperature, fluids.temperature)
        warm, cool = min(usual + by, fluids.temperature), usual - by
        spread = (compressed_water_density(fluids.pressure, cool)
                  - compressed_water_density(fluids.pressure, warm))
        return compressed_water_density(fluids.pressure, usual), spread / 2

    leg, leg_by = water(boiler.legs.reference_leg_temperature, LEG_KELVIN)
    glass, glass_by = water(kelvin(boiler.presets["normal"].glass_celsius), GLASS_KELVIN)
    return fluids, leg, leg_by, glass, glass_by
