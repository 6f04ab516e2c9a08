"""What is in a gauge glass: water, steam, trapped air; in service, and after draining."""

from dataclasses import dataclass

from ..constants import GAS_CONSTANT
from ..errors import checked
from .glass import glass_column_height
from .steam_lookup import steam_temperature_pressure


@dataclass(frozen=True, slots=True)
class GlassContents:
    """What is in the glass at one moment.

    Attributes
    ----------
    height : float [m]
        Water above the connection.
    steam_pressure : float [Pa]
        Partial pressure of the steam in the pocket.
    gas_amount : float [mol]
        Trapped air.
    ball_seated : bool
        Whether the ball shuts the water way.
    time : float [s]
        Since the beginning.
    """

    height: float
    steam_pressure: float
    gas_amount: float = 0.0
    ball_seated: bool = False
    time: float = 0.0

    def __post_init__(self):
        checked("height in the glass", self.height, 0.0, 5.0, "m", "Give metres.")
        checked("steam pressure", self.steam_pressure, 1e2, 2e7, "Pa", "Give pascal, absolute.")
        checked("amount of gas", self.gas_amount, 0.0, 100.0, "mol")
        checked("time", self.time, 0.0, 1e9, "s", "Give seconds.")


def working_contents(drum, fitting):
    """Return what is in a healthy glass in service.

    Parameters
    ----------
    drum : DrumSide [Pa, m, kg/m3]
        The drum.
    fitting : GaugeFitting [m, kg/m3]
        The gauge.

    Returns
    -------
    GlassContents [m, Pa]
        Water at the balancing height, within the glass; steam at drum pressure; no gas.

    Raises
    ------
    InputError
        A value outside its range.

    References
    ----------
    [HYDROSTATICS].

    Examples
    --------
    >>> from levelkit.physics.cock_state import DrumSide, GaugeFitting
    >>> drum = DrumSide(8e5, 0.2, 897.03, 4.161, 4371.0)
    >>> round(1000 * working_contents(drum, GaugeFitting()).height, 1)
    185.8
    """
    height = glass_column_height(drum.level, drum.water_density, drum.steam_density,
                                 fitting.water_density)
    # a level below the connection leaves the glass empty, one above its top leaves it full
    lowest = fitting.pipe_lip if drum.level <= fitting.pipe_lip else 0.0
    return GlassContents(min(max(height, lowest), fitting.steam_connection), drum.pressure)


def drained_contents(fitting, steam, temperature):
    """Return what is in a glass that has been drained and stands full of moist air.

    ``n = (p_a - p_s(T)) V / (R T)``, steam at its saturation pressure beside the air

    Parameters
    ----------
    fitting : GaugeFitting [m2, m, m3, Pa]
        The gauge.
    steam : SteamTable [K]
        Saturated steam, from ``steam_table``.
    temperature : float [K]
        Temperature of glass and air, 281 K to just below boiling at the barometer.

    Returns
    -------
    GlassContents [m, Pa, mol]
        No water, air and steam together at the barometer.

    Raises
    ------
    InputError
        A temperature outside its range.

    References
    ----------
    [IDEAL-GAS].

    Examples
    --------
    >>> from levelkit.physics.cock_state import GaugeFitting
    >>> from levelkit.physics.steam_lookup import steam_table
    >>> from levelkit.properties import saturated_fluid
    >>> steam = steam_table(8e5, saturated_fluid)
    >>> contents = drained_contents(GaugeFitting(top_volume=0.0), steam, 330.15)
    >>> f"{contents.steam_pressure / 1e3:.1f} kPa, {1000 * contents.gas_amount:.2f} mmol"
    '17.3 kPa, 1.38 mmol'
    """
    warm = checked("temperature", temperature, 281.0, 372.0, "K", "Give kelvin.")
    vapour = min(steam_temperature_pressure(steam, warm), fitting.barometer)
    volume = fitting.bore_area * fitting.steam_connection + fitting.top_volume
    return GlassContents(0.0, vapour, (fitting.barometer - vapour) * volume / (GAS_CONSTANT * warm))
