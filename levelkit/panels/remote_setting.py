"""From what a person sets to a healthy DP transmitter: properties and physics put together."""

from dataclasses import dataclass, replace

from ..physics.transmitter import Compensation, TransmitterState, calibrated_transmitter
from ..physics.transmitter_range import REVERSED
from ..physics.wet_legs import DrumContents, LegsState
from ..properties import compressed_water_density, steaming_drum_fluids
from ..units import absolute_pressure


@dataclass(frozen=True, slots=True)
class RemoteSetting:
    """What is set on a panel.

    Attributes
    ----------
    gauge_pressure_bar, calibrated_bar : float [bar]
        Gauge pressure in the drum, and that for which the range was worked out.
    level : float [m]
        True level.
    leg_temperature : float [K]
        Mean temperature of both legs; the calibration keeps its own.
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
    level: float
    calibrated_bar: float
    leg_temperature: float
    loss: float = 0.0
    depth: float = 0.0
    connection: str = REVERSED
    compensated: bool = False


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
