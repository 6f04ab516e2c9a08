"""The range of a DP transmitter: which differential pressure is 4 mA, which is 20 mA."""

from dataclasses import dataclass

from ..constants import STANDARD_GRAVITY
from ..errors import InputError, checked
from .differential import reference_differential

DIRECT, REVERSED = "direct", "reversed"
"""Direct: high-pressure port on the drum-side leg. Reversed: on the reference leg."""

ELEVATED_ZERO, SUPPRESSED_ZERO, ZERO_BASED = (
    "elevated-zero range", "suppressed-zero range", "range from zero")


@dataclass(frozen=True, slots=True)
class TransmitterRange:
    """Range of a transmitter, and the levels that it stands for.

    Attributes
    ----------
    lower_value, upper_value : float [Pa]
        LRV, the differential (high port less low port) of 4 mA, and URV, that of 20 mA.
        LRV greater than URV: reverse acting.
    bottom_level, top_level : float [m]
        Levels above the lower connection of 4 and 20 mA.
    """

    lower_value: float
    upper_value: float
    bottom_level: float
    top_level: float

    def __post_init__(self):
        lower = checked("LRV", self.lower_value, -1e7, 1e7, "Pa", "Give pascal, with its sign.")
        upper = checked("URV", self.upper_value, -1e7, 1e7, "Pa", "Give pascal, with its sign.")
        if lower == upper:
            raise InputError(f"LRV and URV are both {lower:.6g} Pa; the span must not be 0 Pa. "
                             "Give two different differential pressures.")
        bottom = checked("level of 4 mA", self.bottom_level, -20.0, 20.0, "m")
        checked("level of 20 mA", self.top_level, bottom + 1e-6, 20.0, "m",
                "It lies above the level of 4 mA.")

    @property
    def span(self):
        """Upper less lower range value, always positive [Pa]."""
        return abs(self.upper_value - self.lower_value)

    @property
    def reverse_acting(self):
        """True where the current falls when the differential rises."""
        return self.lower_value > self.upper_value


def transmitter_range(weir_height, water_density, steam_density, leg_density,
                      connection=REVERSED, bottom_level=0.0, top_level=None,
                      gravity=STANDARD_GRAVITY):
    """Return the range for which a transmitter on a constant-head leg is calibrated.

    direct: ``-(rho_r - rho_g) g H`` to ``-(rho_r - rho_f) g H``; reversed: the same with
    plus signs, reverse acting; span ``(rho_f - rho_g) g H``

    Parameters
    ----------
    weir_height : float [m]
        Height of the weir.
    water_density, steam_density, leg_density : float [kg/m3]
        Densities at the calibration.
    connection : str
        "direct" (high-pressure port on the drum-side leg) or "reversed" (on the
        reference leg).
    bottom_level : float [m]
        Level of 4 mA.
    top_level : float or None [m]
        Level of 20 mA; None for the weir height.
    gravity : float [m/s2]
        Acceleration of gravity.

    Returns
    -------
    TransmitterRange
        LRV and URV [Pa] with sign, and the levels [m].

    Raises
    ------
    InputError
        A value outside its range, or no such connection.

    Notes
    -----
    Piping reversal and action reversal are two things: do both or neither. Sources differ
    in which connection they take for granted; hence the parameter.

    References
    ----------
    [HYDROSTATICS] differential at both levels; [ISA-51-1] LRV and URV.

    Examples
    --------
    >>> hot = transmitter_range(0.8, 756.1, 31.4, 990.6, DIRECT, gravity=9.81)
    >>> f"{hot.lower_value / 1e3:.2f} to {hot.upper_value / 1e3:.2f} kPa"
    '-7.53 to -1.84 kPa'
    """
    sign = connection_sign(connection)
    top = weir_height if top_level is None else top_level
    ends = [sign * reference_differential(level, weir_height, water_density, steam_density,
                                          leg_density, gravity) for level in (bottom_level, top)]
    return TransmitterRange(*ends, bottom_level, top)


def connection_sign(connection):
    """Return +1 where the high-pressure port hangs on the reference leg, -1 otherwise.

    Parameters
    ----------
    connection : str
        "direct" or "reversed".

    Returns
    -------
    float [1]
        Factor from p_reference - p_drum-side to high port less low port.

    Raises
    ------
    InputError
        No such connection.

    References
    ----------
    None: a definition.

    Examples
    --------
    >>> connection_sign("direct")
    -1.0
    """
    if connection not in (DIRECT, REVERSED):
        raise InputError(f"The connection is {connection!r}; it must be 'direct' (high-pressure "
                         "port on the drum side) or 'reversed' (on the reference leg).")
    return 1.0 if connection == REVERSED else -1.0


def upside_down(calibration):
    """Return a range with its two values entered the wrong way round.

    Parameters
    ----------
    calibration : TransmitterRange [Pa]
        The right range.

    Returns
    -------
    TransmitterRange [Pa]
        LRV and URV exchanged: the current becomes 24 mA less what it should be.

    References
    ----------
    None: an exchange of two values.

    Examples
    --------
    >>> upside_down(TransmitterRange(7528.0, 1840.0, 0.0, 0.8)).reverse_acting
    False
    """
    return TransmitterRange(calibration.upper_value, calibration.lower_value,
                            calibration.bottom_level, calibration.top_level)


def zero_kind(calibration):
    """Return the name of a range by where zero differential lies.

    Parameters
    ----------
    calibration : TransmitterRange [Pa]
        The range.

    Returns
    -------
    str
        "elevated-zero range" (zero above the lowest value), "suppressed-zero range"
        (zero below it) or "range from zero".

    Notes
    -----
    The lowest value is the smaller of LRV and URV with its sign. Neither name means the
    height at which the transmitter hangs.

    References
    ----------
    [ISA-51-1] definitions, from memory.

    Examples
    --------
    >>> zero_kind(TransmitterRange(-7528.0, -1840.0, 0.0, 0.8))
    'elevated-zero range'
    """
    lowest = min(calibration.lower_value, calibration.upper_value)
    if lowest == 0.0:
        return ZERO_BASED
    return ELEVATED_ZERO if lowest < 0.0 else SUPPRESSED_ZERO


def zeroed_at_equaliser(calibration):
    """Return the range after somebody "zeroed" the transmitter with the equaliser open.

    Both range values are moved by the same amount until no differential gives 4 mA.

    Parameters
    ----------
    calibration : TransmitterRange [Pa]
        The right range.

    Returns
    -------
    TransmitterRange [Pa]
        The spoilt range: same span, LRV 0 Pa.

    Notes
    -----
    A wet-leg range does not contain zero. With the equaliser open the right transmitter
    reads off scale FULL, and that is what has to be checked.

    References
    ----------
    [PRACTICE-REMOTE] common practice, no source: the trap of the zero check.

    Examples
    --------
    >>> zeroed_at_equaliser(TransmitterRange(7528.0, 1840.0, 0.0, 0.8)).upper_value
    -5688.0
    """
    return TransmitterRange(0.0, calibration.upper_value - calibration.lower_value,
                            calibration.bottom_level, calibration.top_level)
