"""What the picture of a drum at sea shows: what stands still, what moves, the chart under it."""

from dataclasses import dataclass

from ..physics.drum_outline import Drum
from ..physics.glass import GlassMounting


@dataclass(frozen=True, slots=True)
class DrumAtSea:
    """What stands still in the picture, heights above the water connection.

    Attributes
    ----------
    name : str
        Name of the boiler.
    drum : Drum [m]
        Its drum.
    lies : str
        "athwartships" or "fore and aft".
    distance : float [m]
        Between the end glasses.
    mounting : GlassMounting [m]
        Connections and window of both glasses.
    topmost_tube : float [m]
        Topmost heated tube.
    upright_level : float [m]
        Level of the same water in an upright ship.
    """

    name: str
    drum: Drum
    lies: str
    distance: float
    mounting: GlassMounting
    topmost_tube: float
    upright_level: float

    @property
    def ends(self):
        """Names of the left and the right end on the sheet."""
        return ("port", "starboard") if self.lies == "athwartships" else ("aft", "forward")


@dataclass(frozen=True, slots=True)
class MotionChart:
    """The chart under the drum.

    Attributes
    ----------
    across : str
        What runs across, with its unit.
    x_range, y_range : tuple of float [as named, mm]
        Its spans.
    xs : array [as named]
        Where the curves are known.
    curves : tuple of (str, array, str)
        Name, levels [mm] and pen of each.
    """

    across: str
    x_range: tuple
    y_range: tuple
    xs: object
    curves: tuple


@dataclass(frozen=True, slots=True)
class MotionFrame:
    """What moves in the picture.

    Attributes
    ----------
    mid_level, slope : float [m, m/m]
        Water plane at mid-length, and its rise towards the left end.
    glasses : tuple of GaugeGlassResult [m]
        What the left and the right glass show.
    ship_angle : float [rad]
        How the ship lies in the plane of the picture, left side low positive.
    dry_tubes : float [m]
        Length of the topmost tube row that stands dry.
    cursor : float [as the chart]
        Where the chart stands.
    rows : tuple of (str, str)
        Names and numbers of the block, already with units.
    verdict : str
        The large line: how the ship lies in the plane of the picture.
    attitude : str
        How she lies, list and trim.
    """

    mid_level: float
    slope: float
    glasses: tuple
    ship_angle: float
    dry_tubes: float
    cursor: float
    rows: tuple
    verdict: str
    attitude: str
