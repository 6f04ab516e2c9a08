"""What stands in the drum, in the constant-head chamber and in the two water legs."""

from dataclasses import dataclass
from math import radians

import numpy as np

from ..constants import STANDARD_BAROMETER
from ..errors import InputError, checked
from ._scalar import anywhere
from .manifold import ManifoldState

STEEPEST_LIST = radians(45.0)


@dataclass(frozen=True, slots=True)
class DrumContents:
    """What stands in the drum.

    Attributes
    ----------
    level : float or array [m]
        True (collapsed) level above the lower connection, measured square to the drum.
    pressure : float or array [Pa]
        Absolute pressure of the steam space.
    water_density, steam_density : float or array [kg/m3]
        Density of the water and of the steam (cold drum: of the air).
    """

    level: object
    pressure: object
    water_density: object
    steam_density: object


@dataclass(frozen=True, slots=True)
class ChamberState:
    """The constant-head chamber on top of the reference leg.

    Attributes
    ----------
    isolated_pressure : float or None [Pa]
        Absolute pressure in it while its steam valve is shut; None while that is open.
    make_up : float [kg/s]
        Steam it can condense to fill up the leg.
    cooling_time : float [s]
        Time constant with which the pressure of an isolated chamber falls.
    """

    isolated_pressure: float | None = None
    make_up: float = 2.5e-5
    cooling_time: float = 8600.0

    def __post_init__(self):
        if self.isolated_pressure is not None:
            checked("chamber pressure", self.isolated_pressure, 0.0, 2.5e7, "Pa")
        checked("make-up", self.make_up, 0.0, 10.0, "kg/s")
        checked("cooling time of the chamber", self.cooling_time, 1.0, 1e7, "s")


@dataclass(frozen=True, slots=True)
class LegsState:
    """Reference leg and drum-side leg of one instrument.

    Attributes
    ----------
    weir_height : float [m]
        Height of the chamber's rest level above the lower connection.
    depth : float [m]
        Depth of manifold and instrument below the lower connection.
    reference_density : float or array [kg/m3]
        Mean density of the reference leg above the lower connection.
    reference_run_density, drum_run_density : float or array [kg/m3]
        Mean densities of both legs below the lower connection.
    reference_loss : float or array [m]
        Length missing at the top of the reference leg, filled with steam.
    reference_gas, drum_gas : float or array [m]
        Vertical length of gas in either leg (in the drum-side one below the connection).
    gas_density : float [kg/m3]
        Density of that gas.
    list_angle : float [rad]
        List of the ship; every length of the drum stands inclined by it.
    chamber_offset : float [m]
        Sideways distance of the chamber from the tapping, positive to the side that rises.
    manifold : ManifoldState [1]
        Valves.
    chamber : ChamberState [Pa, kg/s, s]
        The constant-head chamber.
    weep : float [kg/s]
        Water that the reference leg loses through joints and glands.
    leg_area : float [m2]
        Bore area of the reference leg.
    line_conductance : float [kg/(s Pa)]
        Flow through one open impulse line for each pascal; the default is that of 5 m of
        6 mm bore in laminar flow of water at 50 degC.
    barometer : float [Pa]
        Pressure of the air outside.
    """

    weir_height: float
    depth: float
    reference_density: object
    reference_run_density: object
    drum_run_density: object
    reference_loss: object = 0.0
    reference_gas: object = 0.0
    drum_gas: object = 0.0
    gas_density: float = 1.0
    list_angle: float = 0.0
    chamber_offset: float = 0.0
    manifold: ManifoldState = ManifoldState()
    chamber: ChamberState = ChamberState()
    weep: float = 0.0
    leg_area: float = 2.0e-4
    line_conductance: float = 1.1e-5
    barometer: float = STANDARD_BAROMETER

    def __post_init__(self):
        weir = checked("weir height", self.weir_height, 0.05, 20.0, "m",
                       "Give the height of the chamber's weir above the lower connection.")
        depth = checked("depth below the lower connection", self.depth, 0.0, 50.0, "m",
                        "Depth counts downwards from the lower connection.")
        for name in ("reference_density", "reference_run_density", "drum_run_density"):
            checked(name.replace("_", " "), getattr(self, name), 1.0, 1100.0, "kg/m3")
        checked("gas density", self.gas_density, 0.0, 400.0, "kg/m3")
        loss = checked("length lost from the reference leg", self.reference_loss, 0.0, weir, "m",
                       "No more than the weir height can be missing.")
        gas = checked("gas in the reference leg", self.reference_gas, 0.0, weir, "m")
        if anywhere(loss + gas > weir):
            raise InputError(
                f"length lost and gas together are {np.max(loss + gas):.4g} m of the "
                f"reference leg; the allowed range is 0 to {weir:g} m, the weir height.")
        checked("gas in the drum-side leg", self.drum_gas, 0.0, depth, "m",
                "It stands in the vertical run below the lower connection.")
        checked("list", self.list_angle, -STEEPEST_LIST, STEEPEST_LIST, "rad",
                "Give radians: 10 degrees is 0.175.")
        checked("chamber offset", self.chamber_offset, -10.0, 10.0, "m")
        checked("weep", self.weep, 0.0, 10.0, "kg/s")
        checked("bore area of the leg", self.leg_area, 1e-6, 0.1, "m2",
                "Give square metres: 200 mm2 is 2e-4.")
        checked("line conductance", self.line_conductance, 1e-9, 1.0, "kg/(s Pa)")
        checked("barometer", self.barometer, 80_000.0, 120_000.0, "Pa")


def checked_contents(drum, weir_height):
    """Return the drum contents once they are known to be usable with a weir height.

    Parameters
    ----------
    drum : DrumContents [m, Pa, kg/m3]
        Level, pressure, densities; numbers may be arrays.
    weir_height : float [m]
        Height of the chamber's weir: no instrument can follow a level above it.

    Returns
    -------
    DrumContents [m, Pa, kg/m3]
        The same, with floats or float arrays.

    Raises
    ------
    InputError
        A value outside its range, or water no denser than the steam.

    References
    ----------
    None: a check, not a formula.

    Examples
    --------
    >>> checked_contents(DrumContents(0.4, 6.1e6, 756.1, 31.4), 0.8).level
    0.4
    """
    weir_height = checked("weir height", weir_height, 0.05, 20.0, "m", "Give metres.")
    level = checked("drum level", drum.level, -5.0, weir_height, "m",
                    "The instrument sees nothing above its upper tapping; give metres.")
    pressure = checked("absolute pressure", drum.pressure, 1e3, 2.2e7, "Pa",
                       "Add the barometer to a gauge pressure.")
    water = checked("drum water density", drum.water_density, 1.0, 1100.0, "kg/m3")
    steam = checked("steam density", drum.steam_density, 0.0, 400.0, "kg/m3")
    if anywhere(water <= steam):
        raise InputError(
            f"The drum water ({np.min(water):.4g} kg/m3) is not denser than the steam "
            f"({np.max(steam):.4g} kg/m3); the allowed range begins above the steam density.")
    return DrumContents(level, pressure, water, steam)
