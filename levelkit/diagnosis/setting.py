"""One boiler, six indicators: every healthy instrument that hangs on the same drum."""

from dataclasses import dataclass, replace
from functools import lru_cache

from ..physics.cock_state import CockState, DrumSide, GaugeFitting
from ..physics.glass_contents import GlassContents, working_contents
from ..physics.indicating_fluids import IndicatingFluid
from ..physics.leg_state import DrumContents, LegsState
from ..physics.settled_glass import settled_glass
from ..physics.steam_lookup import steam_table
from ..physics.transmitter_state import PNEUMATIC, Compensation, calibrated_transmitter
from ..physics.two_fluid_layout import two_fluid_layout
from ..physics.two_fluid_state import drawn_two_fluid
from ..properties import (
    compressed_water_density,
    saturated_fluid,
    saturation_heat,
    steaming_drum_fluids,
)
from ..units import absolute_pressure, kelvin

GLASS_A, GLASS_B, U_TUBE = "glass A", "glass B", "two-fluid"
TRANSMITTER_1, TRANSMITTER_2, AIR_RECEIVER = "transmitter 1", "transmitter 2", "air receiver"
NAMES = (GLASS_A, GLASS_B, U_TUBE, TRANSMITTER_1, TRANSMITTER_2, AIR_RECEIVER)
GLASSES, REMOTES = NAMES[:2], NAMES[2:]
"""Transmitter 1 works without pressure compensation, transmitter 2 with it; the air receiver
has a pneumatic transmitter of its own, uncompensated, on the legs of transmitter 1."""

SEPARATE, SHARED = "legs of their own", "one common leg"
FLUID_TEMPERATURE = kelvin(20.0)
EXPANSION = 1.0e-3  # 1/K, as the invented fluids of the ship's boilers have it


@dataclass(frozen=True, slots=True)
class BenchSetting:
    """A boiler on the bench and what happened to it, faults apart.

    Attributes
    ----------
    boiler : Boiler [m, K]
        One of the ship's boilers.
    barometer : float [Pa]
        Pressure of the air.
    gauge_pressure_bar : float [bar]
        Gauge pressure in the drum.
    level_before : float [m]
        True level at the last log entry, when all was well; the fault came then.
    level : float [m]
        True level since then, at the middle of the drum.
    seconds : float [s]
        Time since the fault came.
    arrangement : str
        "legs of their own" or "one common leg": what the remote instruments hang on.
    """

    boiler: object
    barometer: float
    gauge_pressure_bar: float
    level_before: float
    level: float
    seconds: float = 60.0
    arrangement: str = SEPARATE


def legs_group(name, arrangement):
    """Return the instruments that hang on the same chamber and legs, itself among them.

    Parameters
    ----------
    name : str
        The instrument.
    arrangement : str
        What the remote instruments hang on.

    Returns
    -------
    tuple of str [-]
        Names of remote instruments.

    References
    ----------
    None: it follows from what hangs where.

    Examples
    --------
    >>> legs_group(U_TUBE, SEPARATE)
    ('two-fluid',)
    """
    if arrangement == SHARED:
        return REMOTES
    return ((TRANSMITTER_1, AIR_RECEIVER) if name in (TRANSMITTER_1, AIR_RECEIVER) else (name,))


def side_of(name, arrangement):
    """Return 1 for an instrument at end A of the drum, -1 for one at end B.

    Parameters
    ----------
    name : str
        The instrument.
    arrangement : str
        What the remote instruments hang on.

    Returns
    -------
    int
        1 or -1.

    References
    ----------
    None: it follows from what stands where.

    Examples
    --------
    >>> side_of(GLASS_B, SHARED)
    -1
    """
    far = name == GLASS_B or (name == TRANSMITTER_2 and arrangement == SEPARATE)
    return -1 if far else 1


def healthy_instruments(setting, level):
    """Return the healthy states of all six instruments at one true level [m], by name.

    Parameters
    ----------
    setting : BenchSetting [m, bar, s]
        The boiler state.
    level : float [m]
        True level.

    Returns
    -------
    dict of str to state [-]
        By instrument.

    References
    ----------
    [IAPWS-R7-97] densities at the pressure of the drum.

    Examples
    --------
    >>> from levelkit.diagnosis.example import example_setting
    >>> list(healthy_instruments(example_setting(), 0.25)) == list(NAMES)
    True
    """
    return dict(_healthy(setting.boiler.name, setting.gauge_pressure_bar, float(level),
                         _Key(setting.boiler, setting.barometer)))


class _Key:
    """Carries a boiler through the cache; boilers of one name and air are the same."""

    def __init__(self, boiler, barometer):
        self.boiler, self.barometer = boiler, barometer

    def __hash__(self):
        return hash((self.boiler.name, self.barometer))

    def __eq__(self, other):
        return self.barometer == other.barometer and self.boiler == other.boiler


@lru_cache(maxsize=512)
def _healthy(_, gauge_pressure_bar, level, key):
    boiler, barometer = key.boiler, key.barometer
    fluids = steaming_drum_fluids(absolute_pressure(gauge_pressure_bar, barometer))
    glass = _glass(boiler, barometer, fluids, level)
    drum = DrumContents(min(level, boiler.legs.chamber_height), fluids.pressure,
                        fluids.water_density, fluids.steam_density)
    transmitter, tube = _as_calibrated(key)
    leg = compressed_water_density(fluids.pressure, boiler.legs.reference_leg_temperature)
    now = {"reference_density": leg, "reference_run_density": leg, "drum_run_density":
           compressed_water_density(fluids.pressure, boiler.legs.drum_leg_temperature)}
    one = replace(transmitter, drum=drum, legs=replace(transmitter.legs, **now))
    two = replace(one, compensation=Compensation(fluids.water_density, fluids.steam_density, leg))
    return ((GLASS_A, glass), (GLASS_B, glass),
            (U_TUBE, replace(tube, drum=drum, legs=replace(tube.legs, **now))),
            (TRANSMITTER_1, one), (TRANSMITTER_2, two),
            (AIR_RECEIVER, replace(one, receiver=PNEUMATIC)))


def _glass(boiler, barometer, fluids, level):
    preset, glass = boiler.presets["normal"], boiler.glass
    drum = DrumSide(fluids.pressure, level, fluids.water_density, fluids.steam_density,
                    saturation_heat(fluids.pressure).water_heat_capacity)
    warm = min(kelvin(preset.glass_celsius), fluids.temperature)
    fitting = GaugeFitting(
        bore_area=glass.bore_area, steam_connection=glass.mounting.steam_connection,
        dry_heat_loss=glass.heat_loss, ambient_temperature=kelvin(preset.ambient_celsius),
        water_density=compressed_water_density(fluids.pressure, warm), barometer=barometer)
    state = CockState(drum, _steam(fluids.pressure), working_contents(drum, fitting), fitting)
    return replace(state, contents=GlassContents(settled_glass(state).height, fluids.pressure))


@lru_cache(maxsize=32)
def _steam(pressure):
    return steam_table(pressure, saturated_fluid)


@lru_cache(maxsize=16)
def _as_calibrated(key):
    """Transmitter and two-fluid indicator on the day they were set up."""
    boiler, barometer = key.boiler, key.barometer
    fluids = steaming_drum_fluids(
        absolute_pressure(boiler.transmitter.calibration_pressure_bar, barometer))
    leg = compressed_water_density(fluids.pressure, boiler.transmitter.calibration_leg_temperature)
    drum = DrumContents(boiler.levels.normal, fluids.pressure, fluids.water_density,
                        fluids.steam_density)
    weir, u_tube = boiler.legs.chamber_height, boiler.two_fluid
    transmitter = calibrated_transmitter(drum, LegsState(
        weir, boiler.transmitter.depth, leg, leg, leg, barometer=barometer))
    fluid = IndicatingFluid("of this boiler", u_tube.fluid_density, EXPANSION)
    layout = two_fluid_layout(drum, weir, leg, fluid, FLUID_TEMPERATURE, u_tube.visible_bore,
                              u_tube.other_bore, u_tube.upper_surface_depth)
    tube = drawn_two_fluid(
        drum, LegsState(weir, layout.manifold_depth, leg, leg, leg, barometer=barometer),
        layout.tube, fluid, FLUID_TEMPERATURE, layout.fluid_volume)
    return transmitter, tube
