"""Boiling water let down to the air: how much turns to steam, and how it swells.

Why a white blow at the drain proves neither steam nor water: judge by wetness, pitch
and force.
"""

import numpy as np

from ..errors import InputError, checked


def flash_share(enthalpy, water_enthalpy, latent_heat):
    """Return the mass share of water that turns to steam when let down.

    ``x = (h_1 - h_f2) / h_fg2``

    Parameters
    ----------
    enthalpy : float or array [J/kg]
        Specific enthalpy of the water before.
    water_enthalpy, latent_heat : float or array [J/kg]
        Saturated water and heat of evaporation at the lower pressure.

    Returns
    -------
    float or array [1]
        Share of steam; 0 where the water is too cool to boil there.

    Raises
    ------
    InputError
        A value outside its range, or more heat than makes all of it steam.

    References
    ----------
    [FLASHING-BALANCE] throttling keeps the enthalpy.

    Examples
    --------
    >>> round(flash_share(721.0e3, 419.0e3, 2256.5e3), 3)
    0.134
    """
    before = checked("enthalpy", enthalpy, 0.0, 5e6, "J/kg", "Give joule: 721 kJ/kg is 721e3.")
    water = checked("water enthalpy", water_enthalpy, 0.0, 3e6, "J/kg")
    latent = checked("latent heat", latent_heat, 1.0, 3e6, "J/kg")
    share = np.maximum((before - water) / latent, 0.0)
    if np.any(share > 1):
        raise InputError(f"The enthalpy {np.max(before):.4g} J/kg would make all of it steam; "
                         "the allowed range ends at saturated steam of the lower pressure.")
    return share if np.ndim(share) else float(share)


def flash_volume_ratio(share, density_before, water_density, steam_density):
    """Return how many times larger the blow is than the water it came from.

    ``v_2/v_1 = rho_1 (x/rho_g2 + (1 - x)/rho_f2)``

    Parameters
    ----------
    share : float or array [1]
        Mass share of steam after, 0 to 1.
    density_before : float or array [kg/m3]
        Water before.
    water_density, steam_density : float or array [kg/m3]
        Saturated water and steam at the lower pressure.

    Returns
    -------
    float or array [1]
        Volume ratio; arguments broadcast together.

    Raises
    ------
    InputError
        A value outside its range.

    References
    ----------
    [FLASHING-BALANCE].

    Examples
    --------
    >>> round(flash_volume_ratio(0.1338, 897.0, 958.4, 0.598))
    202
    """
    share = checked("share of steam", share, 0.0, 1.0, "")
    before = checked("density before", density_before, 1.0, 1100.0, "kg/m3")
    water = checked("water density", water_density, 1.0, 1100.0, "kg/m3")
    steam = checked("steam density", steam_density, 1e-4, 400.0, "kg/m3")
    return before * (share / steam + (1 - share) / water)
