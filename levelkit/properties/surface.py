"""What happens at a surface of water: its tension, and how it bends light."""

import numpy as np

from ..errors import checked
from . import _if97


def surface_tension(temperature):
    """Return the surface tension of water against its own vapour.

    Parameters
    ----------
    temperature : float or array [K]
        Temperature, 273.16 to 647.09 K; any shape.

    Returns
    -------
    float or array [N/m]
        Surface tension, same shape.

    Raises
    ------
    InputError
        Outside the range, NaN, text.

    References
    ----------
    [IAPWS-R1-76] equation 1.

    Examples
    --------
    >>> round(surface_tension(363.15) * 1e3, 2)
    60.82
    """
    temperature = checked("temperature", temperature, 273.15, 647.09, "K",
                          "Give kelvin: 90 degrees Celsius is 363.15 K.")
    value = _if97.surface_tension(temperature)
    return value if np.ndim(value) else float(value)


def refractive_index(density, temperature, wavelength=589.3e-9):
    """Return the refractive index of water or steam.

    Parameters
    ----------
    density : float or array [kg/m3]
        Density, 0 to 1060; broadcast with `temperature`.
    temperature : float or array [K]
        Temperature, 261.15 to 773.15 K.
    wavelength : float or array [m]
        Wavelength in vacuum, 200 to 1100 nm; yellow sodium light by default.

    Returns
    -------
    float or array [1]
        Refractive index against vacuum, of the broadcast shape.

    Raises
    ------
    InputError
        Outside the range, NaN, text.

    References
    ----------
    [IAPWS-R9-97] equation 1.

    Examples
    --------
    >>> round(refractive_index(997.047435, 298.15, 0.2265e-6), 6)
    1.392778
    """
    density = checked("density", density, 0.0, 1060.0, "kg/m3")
    temperature = checked("temperature", temperature, 261.15, 773.15, "K",
                          "Give kelvin: 25 degrees Celsius is 298.15 K.")
    wavelength = checked("wavelength", wavelength, 200e-9, 1100e-9, "m",
                         "Give metres: 589.3 nm is 589.3e-9.")
    value = _if97.refractive_index(density, temperature, np.multiply(wavelength, 1e6))
    return value if np.ndim(value) else float(value)
