"""A gauge glass with its cocks in any position: everything the pocket and water balance needs.

The steam above the water (the pocket) is saturated at its own partial pressure, with a
trapped gas beside it; it and the dry wall share one temperature. Heights from the water
connection, absolute pressures.
"""

from dataclasses import dataclass, field
from math import inf

from ..constants import STANDARD_BAROMETER
from ..errors import checked
from .glass_contents import GlassContents
from .steam_lookup import SteamTable


@dataclass(frozen=True, slots=True)
class DrumSide:
    """What the drum offers at the two connections.

    Attributes
    ----------
    pressure : float [Pa]
        Absolute pressure at the height of the steam connection.
    level : float [m]
        True level above the water connection; negative below it.
    water_density, steam_density : float [kg/m3]
        Saturated water and steam.
    heat_capacity : float [J/(kg K)]
        Heat capacity of saturated water.
    """

    pressure: float
    level: float
    water_density: float
    steam_density: float
    heat_capacity: float

    def __post_init__(self):
        checked("drum pressure", self.pressure, 1.05e5, 1.8e7, "Pa",
                "Give the absolute pressure of a steaming drum in pascal.")
        checked("drum level", self.level, -5.0, 5.0, "m", "Give metres: 250 mm is 0.25.")
        checked("drum water density", self.water_density, 300.0, 1000.0, "kg/m3")
        checked("steam density", self.steam_density, 0.1, 300.0, "kg/m3")
        checked("heat capacity", self.heat_capacity, 3e3, 5e4, "J/(kg K)")


@dataclass(frozen=True, slots=True)
class GaugeFitting:
    """One gauge glass; the defaults are an invented tubular gauge of 12 mm bore.

    Attributes
    ----------
    bore_area : float [m2]
        Bore of the glass.
    steam_connection : float [m]
        Height of the steam cock above the water cock.
    steam_way_area, water_way_area, drain_way_area : float [m2]
        Free area of each cock when open and clean.
    dry_heat_loss : float [W/(m K)]
        Heat loss of the steam part per metre.
    extra_condensing_length : float [m]
        Top fitting and pipe that also condense.
    top_volume : float [m3]
        Room for steam above the glass bore.
    wall_heat_capacity : float [J/(m K)]
        Heat held by the dry wall per metre and kelvin.
    ambient_temperature : float [K]
        Air round the glass.
    water_density : float [kg/m3]
        Mean density of the glass water.
    discharge_coefficient : float [1]
        Contraction of the jets.
    pipe_lip : float [m]
        Highest point of the floor of the water-side pipe above the connection: water up
        to there cannot run back into the drum.
    ball_lift_flow : float [kg/s]
        Flow into the glass that seats the ball; infinite without a ball.
    barometer : float [Pa]
        Pressure at the drain outlet.
    """

    bore_area: float = 113e-6
    steam_connection: float = 0.40
    steam_way_area: float = 28.3e-6
    water_way_area: float = 28.3e-6
    drain_way_area: float = 28.3e-6
    dry_heat_loss: float = 0.95
    extra_condensing_length: float = 0.0
    top_volume: float = 2e-6
    wall_heat_capacity: float = 280.0
    ambient_temperature: float = 308.15
    water_density: float = 965.3
    discharge_coefficient: float = 0.6
    pipe_lip: float = 0.0
    ball_lift_flow: float = inf
    barometer: float = STANDARD_BAROMETER

    def __post_init__(self):
        for name, low, high, unit in (
                ("bore_area", 1e-6, 1e-2, "m2"), ("steam_connection", 0.05, 5.0, "m"),
                ("steam_way_area", 1e-9, 1e-3, "m2"), ("water_way_area", 1e-9, 1e-3, "m2"),
                ("drain_way_area", 1e-9, 1e-3, "m2"), ("dry_heat_loss", 1e-3, 100.0, "W/(m K)"),
                ("extra_condensing_length", 0.0, 5.0, "m"), ("top_volume", 0.0, 1e-2, "m3"),
                ("wall_heat_capacity", 0.0, 1e5, "J/(m K)"),
                ("ambient_temperature", 281.0, 353.0, "K"),
                ("water_density", 300.0, 1100.0, "kg/m3"),
                ("discharge_coefficient", 0.1, 1.0, ""),
                ("pipe_lip", 0.0, self.steam_connection, "m"),
                ("barometer", 8e4, 1.2e5, "Pa")):
            checked(name.replace("_", " "), getattr(self, name), low, high, unit)
        checked("ball lift flow", self.ball_lift_flow, 0.0, inf, "kg/s", "Infinite: no ball.")


@dataclass(frozen=True, slots=True)
class Cocks:
    """How far each cock is open.

    Attributes
    ----------
    steam, water, drain : float [1]
        0 shut, 1 open.
    """

    steam: float = 1.0
    water: float = 1.0
    drain: float = 0.0

    def __post_init__(self):
        for name in ("steam", "water", "drain"):
            checked(f"opening of the {name} cock", getattr(self, name), 0.0, 1.0, "",
                    "0 is shut, 1 is open.")


@dataclass(frozen=True, slots=True)
class CockFaults:
    """What is wrong with the ways; all zero is a healthy gauge.

    Attributes
    ----------
    steam_choke, water_choke, drain_choke : float [1]
        Share of the way that is blocked, 0 to 1.
    steam_passing, water_passing, drain_passing : float [1]
        Share of the full area that stays open when the cock is shut, 0 to 1.
    top_leak_area, bottom_leak_area : float [m2]
        Leak to the air at the steam joint and gland, and at the bottom gland.
    false_line : float or None [m]
        Height of a stain or a torn mica that is taken for the level; it does nothing to
        the water.
    """

    steam_choke: float = 0.0
    water_choke: float = 0.0
    drain_choke: float = 0.0
    steam_passing: float = 0.0
    water_passing: float = 0.0
    drain_passing: float = 0.0
    top_leak_area: float = 0.0
    bottom_leak_area: float = 0.0
    false_line: float | None = None

    def __post_init__(self):
        for name in ("steam_choke", "water_choke", "drain_choke", "steam_passing",
                     "water_passing", "drain_passing"):
            checked(name.replace("_", " "), getattr(self, name), 0.0, 1.0, "")
        for name in ("top_leak_area", "bottom_leak_area"):
            checked(name.replace("_", " "), getattr(self, name), 0.0, 1e-3, "m2")
        if self.false_line is not None:
            checked("false line", self.false_line, 0.0, 5.0, "m", "Give metres, or None.")


@dataclass(frozen=True, slots=True)
class CockState:
    """A gauge glass, its cocks and faults, the drum behind it and what is in the glass.

    Attributes
    ----------
    drum : DrumSide [Pa, m, kg/m3, J/(kg K)]
        The drum.
    steam : SteamTable [K, kg/m3, J/kg, kg/(s m2)]
        Saturated steam up to the drum pressure, from ``steam_table``.
    contents : GlassContents [m, Pa, mol, s]
        What is in the glass.
    fitting : GaugeFitting [m2, m, W/(m K), K, kg/m3]
        The gauge.
    cocks : Cocks [1]
        Openings.
    faults : CockFaults [1, m2]
        What is wrong.
    """

    drum: DrumSide
    steam: SteamTable
    contents: GlassContents
    fitting: GaugeFitting = field(default_factory=GaugeFitting)
    cocks: Cocks = field(default_factory=Cocks)
    faults: CockFaults = field(default_factory=CockFaults)


