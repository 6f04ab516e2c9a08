"""Equal masses of different fluids in equal bores: the lighter fluid stands taller."""

from ..errors import checked


def mass_column_height(mass, density, bore_area):
    """Return how high a mass of fluid stands in an upright tube.

    ``h = m / (rho A)``

    Parameters
    ----------
    mass : float or array [kg]
        Mass of the fluid; broadcast with `density`.
    density : float or array [kg/m3]
        Density of the fluid.
    bore_area : float [m2]
        Cross-section of the tube.

    Returns
    -------
    float or array [m]
        Height of the column, of the broadcast shape.

    Raises
    ------
    InputError
        A mass, density or bore outside the range, NaN, text.

    Notes
    -----
    Equal masses in equal bores press equally on the foot, ``rho g h = m g / A``, so that
    height and density are in inverse proportion.

    References
    ----------
    [HYDROSTATICS] fluid at rest.

    Examples
    --------
    >>> round(mass_column_height(1.0, 1000.0, 0.01), 3)
    0.1
    """
    mass = checked("mass", mass, 0.0, 1e6, "kg")
    density = checked("density", density, 0.01, 20_000.0, "kg/m3",
                      "Give kg/m3: 0.998 kg per litre is 998.")
    bore_area = checked("bore area", bore_area, 1e-8, 1e4, "m2",
                        "Give square metres: 100 cm2 is 0.01.")
    return mass / (density * bore_area)
