"""The two fluids that stand in a drum, steaming or cold."""

from dataclasses import dataclass

from ..constants import GAS_CONSTANT, MOLAR_MASS_DRY_AIR
from ..errors import checked
from .saturation import saturation_at_pressure
from .single_phase import compressed_water_density


@dataclass(frozen=True, slots=True)
class DrumFluids:
    """Water and what is above it in one drum.

    Attributes
    ----------
    pressure : float or array [Pa]
        Absolute pressure above the water.
    temperature : float or array [K]
        Temperature of water and vapour space.
    water_density : float or array [kg/m3]
        Density of the drum water.
    steam_density : float or array [kg/m3]
        Density of the steam, or of the air in a cold drum.
    steaming : bool
        True where steam stands above the water, False for air.
    """

    pressure: object
    temperature: object
    water_density: object
    steam_density: object
    steaming: bool


def steaming_drum_fluids(pressure):
    """Return saturated water and steam at a drum pressure.

    Parameters
    ----------
    pressure : float or array [Pa]
        Absolute drum pressure, 0.01 to 200 bar; any shape.

    Returns
    -------
    DrumFluids
        Temperature [K] and densities [kg/m3] of the shape of `pressure`.

    Raises
    ------
    InputError
        Outside the range, NaN, text.

    References
    ----------
    [IAPWS-R7-97] region 4.

    Examples
    --------
    >>> round(steaming_drum_fluids(6_100_000.0).steam_density, 2)
    31.38
    """
    state = saturation_at_pressure(pressure)
    return DrumFluids(state.pressure, state.temperature, state.water_density,
                      state.steam_density, True)


def cold_drum_fluids(temperature, pressure=101_325.0):
    """Return cold water and the air above it in a drum open to the air.

    ``rho_air = p M / (R T)``

    Parameters
    ----------
    temperature : float [K]
        Temperature of water and air, 273.15 to 372 K.
    pressure : float [Pa]
        Absolute pressure, about that of the barometer.

    Returns
    -------
    DrumFluids
        Water density [kg/m3]; `steam_density` [kg/m3] holds the density of dry air.

    Raises
    ------
    InputError
        Outside the range, NaN, text.

    References
    ----------
    [IAPWS-R7-97] region 1; [CIPM-2007] molar mass of dry air, here as an ideal gas.

    Examples
    --------
    >>> fluids = cold_drum_fluids(293.15)
    >>> f"{fluids.water_density:.1f} {fluids.steam_density:.2f}"
    '998.2 1.20'
    """
    temperature = checked("temperature", temperature, 273.15, 372.0, "K",
                          "Give kelvin: 20 degrees Celsius is 293.15 K.")
    pressure = checked("absolute pressure", pressure, 80_000.0, 120_000.0, "Pa",
                       "A cold drum is open to the air: give the barometer in pascal.")
    air_density = pressure * MOLAR_MASS_DRY_AIR / (GAS_CONSTANT * temperature)
    return DrumFluids(pressure, temperature, compressed_water_density(pressure, temperature),
                      air_density, False)
