"""From what a person sets to a healthy DP transmitter: properties and physics put together."""

from dataclasses import dataclass, replace

from ..faults import fault_named
from ..faults.remote_changes import DECAY_LENGTH
from ..physics.leg_state import DrumContents, LegsState
from ..physics.reference_leg import (
    flashing_length,
    leg_temperature,
    mean_leg_density,
    mean_leg_temperature,
)
from ..physics.transmitter_range import REVERSED
from ..physics.transmitter_state import Compensation, TransmitterState, calibrated_transmitter
from ..properties import (
    compressed_water_density,
    saturation_pressure,
    saturation_temperature,
    steaming_drum_fluids,
)
from ..units import absolute_pressure

UNIFORM, HOT_TOP, FELL = (
    "one temperature", "hot near the chamber", "hot top, pressure fell fast")
"""How warm the reference leg is along its length."""


@dataclass(frozen=True, slots=True)
class RemoteSetting:
    """What is set on a panel.

    Attributes
    ----------
    gauge_pressure_bar, calibrated_bar : float [bar]
        Gauge pressure in the drum, and that for which the range was worked out.
    level : float or array [m]
        True level.
    leg_temperature : float [K]
        Temperature of both legs, with a hot top that of the leg far from the chamber; the
        calibration keeps its own.
    loss : float [m]
        Length missing at the top of the reference leg.
    depth : float [m]
        Depth of the transmitter.
    connection : str
        "direct" or "reversed".
    compensated : bool
        Level worked out with the densities at the measured pressure.
    """

    gauge_pressure_bar: float
    level: object
    calibrated_bar: float
    leg_temperature: float
    loss: float = 0.0
    depth: float = 0.0
    connection: str = REVERSED
    compensated: bool = False


@dataclass(frozen=True, slots=True)
class LegWater:
    """The water of the reference leg above the lower connection.

    Attributes
    ----------
    density : float [kg/m3]
        Mean over the length that is still full.
    mean_temperature : float [K]
        Mean over the whole length, before anything was lost.
    flashed : float [m]
        Length that boiled away.
    """

    density: float
    mean_temperature: float
    flashed: float = 0.0


def healthy_transmitter(boiler, barometer, setting) -> TransmitterState:
    """Return the boiler's transmitter as set, calibrated with the boiler's leg temperature."""
    fluids = steaming_drum_fluids(absolute_pressure(setting.gauge_pressure_bar, barometer))
    legs = boiler_legs(boiler, barometer, fluids.pressure, setting)
    ranged = calibrated_at(boiler, barometer, setting)
    compensation = None
    if setting.compensated:
        compensation = Compensation(
            fluids.water_density, fluids.steam_density, compressed_water_density(
                fluids.pressure, boiler.transmitter.calibration_leg_temperature))
    drum = DrumContents(setting.level, fluids.pressure, fluids.water_density,
                        fluids.steam_density)
    return replace(ranged, drum=drum, legs=legs, compensation=compensation)


def cold_transmitter(boiler, barometer, setting) -> TransmitterState:
    """Return the same in a cold drum open to the air, everything at one temperature."""
    return fault_named("cold-drum").apply(healthy_transmitter(boiler, barometer, setting))


def boiler_legs(boiler, barometer, pressure, setting) -> LegsState:
    """Return both legs of a boiler, filled with water of the set temperature."""
    density = compressed_water_density(pressure, setting.leg_temperature)
    return LegsState(boiler.legs.chamber_height, setting.depth, density, density, density,
                     reference_loss=setting.loss, barometer=barometer)


def calibrated_at(boiler, barometer, setting) -> TransmitterState:
    """Return the transmitter in the state for which its range was worked out."""
    fluids = steaming_drum_fluids(absolute_pressure(setting.calibrated_bar, barometer))
    warm = replace(setting, leg_temperature=boiler.transmitter.calibration_leg_temperature,
                   loss=0.0)
    return calibrated_transmitter(
        DrumContents(0.0, fluids.pressure, fluids.water_density, fluids.steam_density),
        boiler_legs(boiler, barometer, fluids.pressure, warm), setting.connection)


def leg_water(boiler, barometer, setting, profile) -> LegWater:
    """Return the water of the reference leg for one of the three ways of being warm.

    A hot top belongs to the drum pressure; after a fast fall, to the working pressure of
    before: what is hotter than the new boiling point has boiled away.
    """
    pressure = absolute_pressure(setting.gauge_pressure_bar, barometer)
    far, length = setting.leg_temperature, boiler.legs.chamber_height
    if profile == UNIFORM:
        return LegWater(compressed_water_density(pressure, far), far)
    before = pressure
    if profile == FELL:
        before = max(pressure, absolute_pressure(boiler.working_pressure_bar, barometer))
    top, flashed = saturation_temperature(before), 0.0
    if before > pressure:
        flashed = flashing_length(pressure, length, top, far, DECAY_LENGTH,
                                  compressed_water_density(pressure, far),
                                  saturation_temperature)
    mean = mean_leg_temperature(length, top, far, DECAY_LENGTH)
    if length - flashed < 1e-3:
        return LegWater(compressed_water_density(pressure, far), mean, length)
    surface = leg_temperature(flashed, top, far, DECAY_LENGTH)
    at = max(pressure, saturation_pressure(surface))
    density = mean_leg_density(length - flashed, surface, far, DECAY_LENGTH,
                               lambda kelvin: compressed_water_density(at, kelvin))
    return LegWater(density, mean, flashed)
