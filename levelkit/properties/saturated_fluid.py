"""Densities, enthalpies and entropies of saturated water and steam in one object."""

from dataclasses import dataclass

from .saturation import saturation_at_pressure, saturation_heat


@dataclass(frozen=True, slots=True)
class SaturatedFluid:
    """All that an expansion along the saturation line needs.

    Attributes
    ----------
    pressure, temperature : float or array [Pa, K]
        Absolute pressure and saturation temperature.
    water_density, steam_density : float or array [kg/m3]
        Densities.
    water_enthalpy, steam_enthalpy : float or array [J/kg]
        Specific enthalpies.
    water_entropy, steam_entropy : float or array [J/(kg K)]
        Specific entropies.
    water_heat_capacity : float or array [J/(kg K)]
        Isobaric heat capacity of saturated water.
    """

    pressure: object
    temperature: object
    water_density: object
    steam_density: object
    water_enthalpy: object
    steam_enthalpy: object
    water_entropy: object
    steam_entropy: object
    water_heat_capacity: object


def saturated_fluid(pressure):
    """Return densities, enthalpies and entropies of saturated water and steam.

    Parameters
    ----------
    pressure : float or array [Pa]
        Absolute pressure, 0.01 to 200 bar; any shape.

    Returns
    -------
    SaturatedFluid
        Temperature [K], densities [kg/m3], enthalpies [J/kg], entropies and heat
        capacity [J/(kg K)], of the shape of `pressure`.

    Raises
    ------
    InputError
        Outside the range, NaN, text.

    References
    ----------
    [IAPWS-R7-97] regions 1 to 4.

    Examples
    --------
    >>> fluid = saturated_fluid(800_000.0)
    >>> f"{fluid.steam_enthalpy - fluid.water_enthalpy:.3g} J/kg"
    '2.05e+06 J/kg'
    """
    state, heat = saturation_at_pressure(pressure), saturation_heat(pressure)
    return SaturatedFluid(
        state.pressure, state.temperature, state.water_density, state.steam_density,
        heat.water_enthalpy, heat.steam_enthalpy, heat.water_entropy, heat.steam_entropy,
        heat.water_heat_capacity)
