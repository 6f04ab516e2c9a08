"""Swell by hand: what a fall of pressure does to bubbles and to hot water."""

from ..errors import InputError, checked


def bubble_expansion_rise(bubble_volume, density_before, density_after, surface_area):
    """Return the rise of the surface by the expansion of the bubbles that are there.

    ``rise = V_b (rho_g1 / rho_g2 - 1) / A``

    Parameters
    ----------
    bubble_volume : float or array [m3]
        Bubbles below the surface before, 0 to 100.
    density_before, density_after : float or array [kg/m3]
        Density of the steam before and after, 0.1 to 400.
    surface_area : float or array [m2]
        Area of the water surface, 0.01 to 500.

    Returns
    -------
    float or array [m]
        Rise; negative (shrink) where the pressure has risen.

    Raises
    ------
    InputError
        A value outside its range.

    Notes
    -----
    No bubble is gained or lost: the least that a fall of pressure does.

    References
    ----------
    [THREE-STATE-DRUM] mass of the bubbles held.

    Examples
    --------
    >>> round(1000 * bubble_expansion_rise(0.42, 31.4, 29.2, 7.28), 1)
    4.3
    """
    volume = checked("bubble volume", bubble_volume, 0.0, 100.0, "m3", "Give cubic metres.")
    before = checked("steam density before", density_before, 0.1, 400.0, "kg/m3")
    after = checked("steam density after", density_after, 0.1, 400.0, "kg/m3")
    area = checked("surface area", surface_area, 0.01, 500.0, "m2", "Give square metres.")
    return volume * (before / after - 1) / area


def flashed_steam(water_mass, enthalpy_before, enthalpy_after, latent_heat):
    """Return the steam that hot water makes of itself when its pressure falls.

    ``m = M (h_f1 - h_f2) / h_fg``

    Parameters
    ----------
    water_mass : float or array [kg]
        Water at saturation, 0 to 1e7.
    enthalpy_before, enthalpy_after : float or array [J/kg]
        Specific enthalpy of saturated water before and after; it falls.
    latent_heat : float or array [J/kg]
        Latent heat, 1e5 to 2.6e6.

    Returns
    -------
    float or array [kg]
        Steam flashed.

    Raises
    ------
    InputError
        A value outside its range, or water that has not cooled.

    Notes
    -----
    Small fall of pressure: the water mass counts as constant, the latent heat as one value.

    References
    ----------
    [THREE-STATE-DRUM] heat of the water turned into steam.

    Examples
    --------
    >>> round(flashed_steam(6800.0, 1219.3e3, 1196.6e3, 1591.1e3))
    97
    """
    mass = checked("water mass", water_mass, 0.0, 1e7, "kg", "Give kilograms.")
    before = checked("water enthalpy before", enthalpy_before, 0.0, 2e6, "J/kg")
    after = checked("water enthalpy after", enthalpy_after, 0.0, 2e6, "J/kg")
    latent = checked("latent heat", latent_heat, 1e5, 2.6e6, "J/kg",
                     "Give joules per kilogram: 1591 kJ/kg is 1.591e6.")
    steam = mass * (before - after) / latent
    if (steam < 0 if isinstance(steam, float) else (steam < 0).any()):
        raise InputError("The water enthalpy rises, so nothing flashes; the allowed enthalpy "
                         "after is at most the one before [J/kg]. Check which is which.")
    return steam
