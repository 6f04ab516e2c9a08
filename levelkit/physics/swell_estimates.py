"""Swell by hand: what a fall of pressure does to the bubbles that are there."""

from ..errors import checked


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
    No bubble is gained or lost: the least that a fall of pressure does. What the water
    flashes comes on top, see :func:`levelkit.physics.flashing.flash_share`.

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
