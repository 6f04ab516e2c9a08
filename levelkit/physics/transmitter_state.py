"""A DP transmitter with everything between the drum and the pointer, as it is built and set."""

from dataclasses import dataclass

from ..constants import STANDARD_GRAVITY
from ..errors import InputError, checked
from .leg_state import DrumContents, LegsState
from .loop_power import LoopState
from .transmitter_range import REVERSED, TransmitterRange, connection_sign, transmitter_range

ELECTRIC, PNEUMATIC = "electric", "pneumatic"
HEALTHY, FAILS_LOW, FAILS_HIGH = "healthy", "fails low", "fails high"
FAILURE_CURRENTS = {FAILS_LOW: 0.0035, FAILS_HIGH: 0.0215}

CAPSULE_COMPLIANCE = 1.3e-12
"""Volume that a sensing capsule takes up for each pascal [m3/Pa]: about 0.08 cm3 over
62 kPa, common practice, no source (PRACTICE-REMOTE)."""


@dataclass(frozen=True, slots=True)
class Compensation:
    """Densities with which a compensating instrument works out the level.

    Attributes
    ----------
    water_density, steam_density : float or array [kg/m3]
        Those of saturation at the pressure that its pressure input reports.
    leg_density : float or array [kg/m3]
        What it assumes for the reference leg.
    """

    water_density: object
    steam_density: object
    leg_density: object


@dataclass(frozen=True, slots=True)
class AirLine:
    """Air supply and signal tube of a pneumatic transmitter.

    Attributes
    ----------
    supply_pressure : float [Pa]
        Supply above the pressure of the air outside.
    leak : float [1]
        Share of the signal that is lost before the receiver.
    """

    supply_pressure: float = 140e3
    leak: float = 0.0

    def __post_init__(self):
        checked("air supply", self.supply_pressure, 0.0, 1e6, "Pa", "Gauge pressure in pascal.")
        checked("leak of the signal tube", self.leak, 0.0, 1.0, "", "A share from 0 to 1.")


@dataclass(frozen=True, slots=True)
class TransmitterState:
    """A DP transmitter with everything between the drum and the pointer.

    Attributes
    ----------
    drum : DrumContents [m, Pa, kg/m3]
        Level, pressure, densities; may be arrays.
    legs : LegsState [m, kg/m3]
        Legs, chamber and manifold.
    calibration : TransmitterRange [Pa, m]
        The range that was entered.
    connection : str
        "direct" or "reversed": how the ports should be piped.
    ports_crossed : bool
        True where they are piped the other way.
    compensation : Compensation or None [kg/m3]
        None: the level is read straight from the differential.
    health : str
        "healthy", "fails low" or "fails high".
    receiver : str
        "electric" or "pneumatic": which signal the indicator shows.
    loop : LoopState [V, ohm]
        Current loop.
    air : AirLine [Pa]
        Pneumatic line.
    damping : float [s]
        Time constant set in the transmitter.
    capsule_give : float [1]
        Share of a pressure change that the capsule hands on to trapped water: 0 as the
        worked examples take it (trapped pressure stays), near 1 in a stiff, tight line.
    """

    drum: DrumContents
    legs: LegsState
    calibration: TransmitterRange
    connection: str = REVERSED
    ports_crossed: bool = False
    compensation: Compensation | None = None
    health: str = HEALTHY
    receiver: str = ELECTRIC
    loop: LoopState = LoopState()
    air: AirLine = AirLine()
    damping: float = 0.5
    capsule_give: float = 0.0

    def __post_init__(self):
        if self.health not in (HEALTHY, *FAILURE_CURRENTS):
            raise InputError(f"The health of the transmitter is {self.health!r}; choose "
                             f"{HEALTHY!r}, {FAILS_LOW!r} or {FAILS_HIGH!r}.")
        if self.receiver not in (ELECTRIC, PNEUMATIC):
            raise InputError(f"The receiver is {self.receiver!r}; choose {ELECTRIC!r} or "
                             f"{PNEUMATIC!r}.")
        connection_sign(self.connection)
        checked("damping", self.damping, 0.0, 600.0, "s")
        checked("give of the capsule", self.capsule_give, 0.0, 1.0, "")


def calibrated_transmitter(drum, legs, connection=REVERSED, gravity=STANDARD_GRAVITY):
    """Return a healthy transmitter that is ranged for the conditions it stands in.

    Parameters
    ----------
    drum : DrumContents [m, Pa, kg/m3]
        Drum at the calibration; scalars.
    legs : LegsState [m, kg/m3]
        Legs at the calibration; scalars.
    connection : str
        "direct" or "reversed".
    gravity : float [m/s2]
        Acceleration of gravity.

    Returns
    -------
    TransmitterState
        The transmitter [m, Pa, kg/m3].

    Raises
    ------
    InputError
        A value outside its range, or no such connection.

    References
    ----------
    [HYDROSTATICS] range from the differential at both ends.

    Examples
    --------
    >>> from levelkit.physics.transmitter import transmitter_reading
    >>> drum = DrumContents(0.52, 6.1e6, 756.1, 31.4)
    >>> state = calibrated_transmitter(drum, LegsState(0.8, 2.0, 990.6, 990.6, 990.6))
    >>> f"{1e3 * transmitter_reading(state).current:.2f} mA"
    '14.40 mA'
    """
    calibration = transmitter_range(legs.weir_height, drum.water_density, drum.steam_density,
                                    legs.reference_density, connection, gravity=gravity)
    return TransmitterState(drum, legs, calibration, connection)
