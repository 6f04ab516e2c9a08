"""From what a person sets to a drum at sea: geometry, motion and glasses put together."""

from dataclasses import dataclass
from math import degrees, pi, radians

import numpy as np

from ..physics.differential import level_of_differential, reference_differential
from ..physics.drum_geometry import surface_area, water_volume
from ..physics.glass import GaugeGlassResult, GaugeGlassState, gauge_glass_reading
from ..physics.inclination import InclinedDrumState, InclinedSurface, inclined_surface, level_at
from ..physics.inclination import exposed_length as dry_length
from ..physics.level_filter import filtered
from ..physics.motion import apparent_list, slosh_period, vertical_height
from ..properties import compressed_water_density, steaming_drum_fluids
from ..units import absolute_pressure

STILL, ROLLS, PITCHES = "lies still", "rolls", "pitches"
ATHWARTSHIPS, FORE_AND_AFT = "athwartships", "fore and aft"
FRAMES = 61
_SETTLED = 8  # time constants after which a filter has forgotten how it began


@dataclass(frozen=True, slots=True)
class SeaSetting:
    """What is set on the panel.

    Attributes
    ----------
    lies : str
        "athwartships" or "fore and aft".
    motion : str
        "lies still", "rolls" or "pitches".
    level : float [m]
        Level of the water in an upright ship.
    list_angle, trim_angle : float [rad]
        Lasting list (to port) and trim (by the stern).
    amplitude, period, height : float [rad, s, m]
        Half the swing, its period, height of the drum above the axis of the swing.
    distance : float [m]
        Between the end glasses.
    lag : float [s]
        Time constant of the connections of a glass.
    chamber_offset : float [m]
        Distance of the remote indicator's chamber to port of its tapping.
    """

    lies: str
    motion: str
    level: float
    list_angle: float
    trim_angle: float
    amplitude: float
    period: float
    height: float
    distance: float
    lag: float
    chamber_offset: float

    @property
    def along(self):
        """Whether the motion tilts the water along the drum."""
        return self.motion == (ROLLS if self.lies == ATHWARTSHIPS else PITCHES)


@dataclass(frozen=True, slots=True)
class SeaCase:
    """A drum at sea worked out, owner of every number the panel shows; arrays run with the time.

    Attributes
    ----------
    setting : SeaSetting [m, rad, s]
        What was set.
    times : array [s]
        Instants, one only where the ship lies still.
    ship_list, ship_trim : array [rad]
        How the ship lies.
    surface : InclinedSurface [m]
        Water plane.
    levels : array [m]
        Levels at the two end glasses, port or after one first.
    glasses : GaugeGlassResult [m]
        What they show, shaped alike.
    dry_tubes : array [m]
        Length of the topmost tube row that stands dry.
    remote_level : float [m]
        What a remote indicator at mid-drum shows in a ship that lies still; NaN where the
        water is out of its tappings.
    slosh : float [s]
        Period in which the water swings along the drum of itself.
    """

    setting: SeaSetting
    times: object
    ship_list: object
    ship_trim: object
    surface: InclinedSurface
    levels: object
    glasses: GaugeGlassResult
    dry_tubes: object
    remote_level: float
    slosh: float

    @property
    def swing(self):
        """Half the swing of the level at a glass [m], the greater one."""
        return float(np.ptp(self.levels, axis=1).max()) / 2

    @property
    def shown_swing(self):
        """Half the swing that a glass shows [m], the greater one."""
        return float(np.ptp(self.glasses.indicated_level, axis=1).max()) / 2

    @property
    def mean_shown(self):
        """Mean of what both glasses show over the swing [m], seen or not."""
        shown = self.glasses.indicated_level
        return float(np.mean(shown[:, :-1] if shown.shape[1] > 1 else shown))


def sea_case(boiler, barometer, setting):
    """Return a boiler's drum at sea, worked out."""
    drum = boiler.drum.shape
    volume = water_volume(drum, setting.level)
    times, roll, pitch, surface_list, surface_trim = _motion(setting)
    surface = inclined_surface(InclinedDrumState(
        drum, volume, surface_list, surface_trim, setting.lies))
    half = np.array([[0.5], [-0.5]]) * setting.distance
    levels = level_at(surface, half)
    shown = _behind_the_lag(setting, times, levels)
    water, steam, leg = _densities(boiler, barometer)
    glasses = gauge_glass_reading(GaugeGlassState(shown, water, steam, water,
                                                  boiler.glass.mounting))
    dry = dry_length(surface, boiler.drum.topmost_tube)
    remote = float("nan")
    if setting.motion == STILL:
        remote = _remote_level(boiler, setting, float(surface.mid_level[0]), water, steam, leg)
    return SeaCase(setting, times, roll, pitch, surface, levels, glasses, dry, remote,
                   slosh_period(drum.length, volume / surface_area(drum, setting.level)))


def inclination_sweep(boiler, setting, angles):
    """Return the levels [m] at both end glasses of a still ship inclined along the drum."""
    drum = boiler.drum.shape
    inclined = (angles, setting.trim_angle) if setting.lies == ATHWARTSHIPS else (
        setting.list_angle, angles)
    surface = inclined_surface(InclinedDrumState(
        drum, water_volume(drum, setting.level), *inclined, setting.lies))
    return level_at(surface, np.array([[0.5], [-0.5]]) * setting.distance)


def _motion(setting):
    """Times, how the ship lies, and how its water lies, through one swing."""
    if setting.motion == STILL:
        still = np.array([setting.list_angle]), np.array([setting.trim_angle])
        return np.array([0.0]), *still, *still
    times = np.linspace(0.0, setting.period, FRAMES)
    swing = setting.amplitude * np.sin(2 * pi / setting.period * times)
    water = apparent_list(swing, setting.period, setting.height)
    rolls, nothing = setting.motion == ROLLS, np.zeros(FRAMES)
    by_list, by_trim = (swing, nothing) if rolls else (nothing, swing)
    water_list, water_trim = (water, nothing) if rolls else (nothing, water)
    return (times, setting.list_angle + by_list, setting.trim_angle + by_trim,
            setting.list_angle + water_list, setting.trim_angle + water_trim)


def _behind_the_lag(setting, times, levels):
    """What stands in the glasses once the swing has gone on for long."""
    if setting.lag == 0 or len(times) == 1:
        return levels
    rounds = int(np.ceil(_SETTLED * setting.lag / setting.period)) + 1
    long_times = np.concatenate([times[:-1] + i * setting.period for i in range(rounds)])
    shown = np.array([filtered(long_times, np.tile(row[:-1], rounds), setting.lag)
                      for row in levels])[:, -(len(times) - 1):]
    return np.concatenate([shown, shown[:, :1]], axis=1)


def _densities(boiler, barometer):
    """Drum water, steam and leg at working pressure [kg/m3]; the glass is as warm as the drum."""
    fluids = steaming_drum_fluids(absolute_pressure(boiler.working_pressure_bar, barometer))
    leg = compressed_water_density(fluids.pressure, boiler.legs.reference_leg_temperature)
    return fluids.water_density, fluids.steam_density, leg


def _remote_level(boiler, setting, mid_level, water, steam, leg):
    """What a remote indicator over the tapping at mid-drum makes of the shortened heights."""
    weir, angles = boiler.legs.chamber_height, (setting.list_angle, setting.trim_angle)
    level = vertical_height(mid_level, 0.0, 0.0, *angles)
    tilted_weir = vertical_height(weir, setting.chamber_offset, 0.0, *angles)
    if not 0.0 <= level <= tilted_weir:
        return float("nan")
    differential = reference_differential(level, tilted_weir, water, steam, leg)
    return level_of_differential(differential, weir, water, steam, leg)


def in_words(angle, motion_is_list):
    """Return how a ship lies, as a text."""
    size = f"{abs(degrees(angle)):.1f}\u00b0"
    if size == "0.0\u00b0":
        return "upright" if motion_is_list else "even keel"
    if motion_is_list:
        return f"{size} to {'port' if angle > 0 else 'starboard'}"
    return f"{size} by the {'stern' if angle > 0 else 'head'}"


__all__ = ["ATHWARTSHIPS", "FORE_AND_AFT", "FRAMES", "PITCHES", "ROLLS", "STILL", "SeaCase",
           "SeaSetting", "in_words", "inclination_sweep", "radians", "sea_case"]
