"""The parts of a boiler and of a ship, as loaded from a scenario file.

SI inside (Pa, K, m, m2, kg/m3), heights above the water connection. A preset holds what
a person sets on a panel, in a person's units, with the unit in the name.
"""

from dataclasses import dataclass

from ..physics.drum_outline import Drum as DrumShape
from ..physics.glass import GlassMounting

_HEADS = {"flat": "flat", "elliptical": "ellipsoidal", "hemispherical": "hemispherical"}


@dataclass(frozen=True, slots=True)
class Drum:
    """A lying drum or shell.

    Attributes
    ----------
    inside_diameter, length : float [m]
        Bore, and length of the straight part without the ends.
    ends : str
        "flat", "elliptical" (two to one) or "hemispherical".
    axis_height : float [m]
        Height of the axis above the water connection.
    topmost_tube : float [m]
        Height of the topmost heated tube above the water connection; negative below.
    """

    inside_diameter: float
    length: float
    ends: str
    axis_height: float
    topmost_tube: float

    @property
    def bottom(self):
        """Height of the lowest point above the water connection [m]."""
        return self.axis_height - self.inside_diameter / 2

    @property
    def crown(self):
        """Height of the highest point above the water connection [m]."""
        return self.axis_height + self.inside_diameter / 2

    @property
    def shape(self):
        """The drum as a body that holds water [m]."""
        return DrumShape(self.inside_diameter / 2, self.length, self.axis_height,
                         _HEADS[self.ends])


@dataclass(frozen=True, slots=True)
class Glass:
    """A gauge glass.

    Attributes
    ----------
    kind : str
        "tubular", "reflex" or "plate".
    mounting : GlassMounting [m]
        Steam connection and visible part.
    bore_area : float [m2]
        Cross-section of the water space.
    extra_condensing_length : float [m]
        Length of top fitting and pipe that also condenses steam.
    heat_loss : float [W/(m K)]
        Heat lost by one metre for each kelvin above the air.
    """

    kind: str
    mounting: GlassMounting
    bore_area: float
    extra_condensing_length: float
    heat_loss: float


@dataclass(frozen=True, slots=True)
class Legs:
    """Constant-head chamber and the two legs of the remote instruments.

    Attributes
    ----------
    chamber_height : float [m]
        Rest level of the chamber above the water connection.
    reference_leg_temperature, drum_leg_temperature : float [K]
        Mean temperature of each leg in service.
    """

    chamber_height: float
    reference_leg_temperature: float
    drum_leg_temperature: float


@dataclass(frozen=True, slots=True)
class TwoFluid:
    """A two-fluid U-tube remote indicator.

    Attributes
    ----------
    fluid_density : float [kg/m3]
        Density of the indicating fluid.
    visible_bore, other_bore : float [m]
        Bore of the limb with the scale, and of the other.
    upper_surface_depth : float [m]
        Depth of the upper surface of the indicating fluid below the water connection.
    """

    fluid_density: float
    visible_bore: float
    other_bore: float
    upper_surface_depth: float


@dataclass(frozen=True, slots=True)
class Transmitter:
    """A differential-pressure transmitter.

    Attributes
    ----------
    depth : float [m]
        Depth below the water connection.
    calibration_pressure_bar : float [bar]
        Gauge pressure in the drum for which the range was worked out.
    calibration_leg_temperature : float [K]
        Leg temperature for which the range was worked out.
    """

    depth: float
    calibration_pressure_bar: float
    calibration_leg_temperature: float


@dataclass(frozen=True, slots=True)
class Levels:
    """Levels that somebody set.

    Attributes
    ----------
    low_trip, low_alarm, normal, high_alarm : float [m]
        True levels above the water connection.
    """

    low_trip: float
    low_alarm: float
    normal: float
    high_alarm: float


@dataclass(frozen=True, slots=True)
class Preset:
    """A full state of one boiler, as a person sets it.

    Attributes
    ----------
    title : str
        What a button says.
    steaming : bool
        True with steam above the water, False for a cold drum open to the air.
    gauge_pressure_bar : float [bar]
        Gauge pressure in the drum.
    level_mm : float [mm]
        True (collapsed) level above the water connection.
    ambient_celsius, glass_celsius, leg_celsius : float [degC]
        Air round the glass; mean of the water in the glass; mean of both legs.
    """

    title: str
    steaming: bool
    gauge_pressure_bar: float
    level_mm: float
    ambient_celsius: float
    glass_celsius: float
    leg_celsius: float


@dataclass(frozen=True, slots=True)
class Boiler:
    """An invented boiler.

    Attributes
    ----------
    name, title : str
        Its key in the file, and what a heading calls it.
    working_pressure_bar : float [bar]
        Working gauge pressure.
    ambient_temperature : float [K]
        Air in its surroundings in service.
    drum, glass, legs, two_fluid, transmitter, levels
        Its parts.
    presets : mapping of str to Preset
        Its states, by name.
    """

    name: str
    title: str
    working_pressure_bar: float
    ambient_temperature: float
    drum: Drum
    glass: Glass
    legs: Legs
    two_fluid: TwoFluid
    transmitter: Transmitter
    levels: Levels
    presets: object


@dataclass(frozen=True, slots=True)
class Ship:
    """An invented ship.

    Attributes
    ----------
    name, note : str
        Her name, and the line that says that she is invented.
    barometer : float [Pa]
        Pressure of the air.
    boilers : mapping of str to Boiler
        Her boilers, by name.
    """

    name: str
    note: str
    barometer: float
    boilers: object
