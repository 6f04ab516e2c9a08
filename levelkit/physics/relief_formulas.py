"""Published formulas for what a hole passes, to hold against the homogeneous equilibrium flow."""

import numpy as np

from ..errors import InputError, checked

STEAM_RULE_TOP = 10.339e6
STEAM_RULE_HIGHEST = 22.057e6


def orifice_flux(density, pressure_drop):
    """Return the mass flux of a liquid that does not flash, before any coefficient.

    ``G = sqrt(2 rho dp)``

    Parameters
    ----------
    density : float or array [kg/m3]
        Density; at least 0.
    pressure_drop : float or array [Pa]
        Fall of pressure; at least 0.

    Returns
    -------
    float or array [kg/(s m2)]
        Mass flux; arguments broadcast together.

    Raises
    ------
    InputError
        A value outside its range.

    References
    ----------
    [ORIFICE-FLOW].

    Examples
    --------
    >>> round(orifice_flux(900.0, 277.0))
    706
    """
    density = checked("density", density, 0.0, 2e4, "kg/m3")
    drop = checked("pressure drop", pressure_drop, 0.0, 1e9, "Pa", "Give it as a positive fall.")
    flux = np.sqrt(2 * np.multiply(density, drop))
    return flux if np.ndim(flux) else float(flux)


def equilibrium_rate_flux(latent_heat, volume_change, temperature, heat_capacity):
    """Return the mass flux of saturated liquid through a passage just long enough to flash.

    ``G = h_fg / (v_fg sqrt(T c_p))``

    Parameters
    ----------
    latent_heat : float or array [J/kg]
        Heat of evaporation.
    volume_change : float or array [m3/kg]
        Volume of vapour less that of liquid, per mass.
    temperature : float or array [K]
        Temperature at rest.
    heat_capacity : float or array [J/(kg K)]
        Heat capacity of the liquid.

    Returns
    -------
    float or array [kg/(s m2)]
        Mass flux; arguments broadcast together.

    Raises
    ------
    InputError
        A value outside its range.

    Notes
    -----
    It takes the slope of the saturation line as if the flow chokes at the first bubble:
    13 % (7 bar) to 26 % (100 bar) above homogeneous equilibrium.

    References
    ----------
    [CHEM-PROCESS-SAFETY] equilibrium rate model.

    Examples
    --------
    >>> round(equilibrium_rate_flux(334e3, 0.042, 298.0, 2180.0))
    9866
    """
    latent = checked("latent heat", latent_heat, 1.0, 1e7, "J/kg")
    change = checked("volume change", volume_change, 1e-7, 1e3, "m3/kg")
    temperature = checked("temperature", temperature, 1.0, 3000.0, "K", "Give kelvin.")
    capacity = checked("heat capacity", heat_capacity, 1.0, 1e6, "J/(kg K)")
    return latent / change / np.sqrt(np.multiply(temperature, capacity))


def steam_rule_flux(pressure):
    """Return the critical mass flux of saturated steam by the linear handbook rule.

    ``G = 1.4581e-3 p K_N``: one seventieth of the pressure in old units; K_N corrects it
    above 103.4 bar

    Parameters
    ----------
    pressure : float or array [Pa]
        Absolute pressure at rest, 1 to 220.57 bar.

    Returns
    -------
    float or array [kg/(s m2)]
        Mass flux, of the shape of `pressure`.

    Raises
    ------
    InputError
        A pressure outside its range.

    References
    ----------
    [API-520-I] steam, SI form from memory; [STEAM-HANDBOOK-RULE].

    Examples
    --------
    >>> round(steam_rule_flux(1e6))
    1458
    """
    pressure = checked("absolute pressure", pressure, 1e5, STEAM_RULE_HIGHEST, "Pa")
    kilopascal = np.asarray(pressure) / 1e3
    correction = np.where(np.greater(pressure, STEAM_RULE_TOP),
                          (0.02764 * kilopascal - 1000) / (0.03324 * kilopascal - 1061), 1.0)
    # 190.5 (kg/h)/(mm2 kPa): the constant of the published area formula
    flux = kilopascal * correction / 190.5 * 1e6 / 3600
    return flux if np.ndim(flux) else float(flux)


def omega_parameter(density, density_at_90_percent):
    """Return the expansion parameter of a flashing mixture from two densities.

    ``omega = 9 (rho_1 / rho_9 - 1)``

    Parameters
    ----------
    density : float or array [kg/m3]
        Mixture at the entrance; for a subcooled liquid the liquid there.
    density_at_90_percent : float or array [kg/m3]
        Mixture flashed to 90 % of the entrance pressure (subcooled liquid: of its
        saturation pressure).

    Returns
    -------
    float or array [1]
        Expansion parameter; arguments broadcast together.

    Raises
    ------
    InputError
        A value outside its range.

    References
    ----------
    [API-520-I] two-phase annex.

    Examples
    --------
    >>> round(omega_parameter(1 / 0.01945, 1 / 0.02265), 3)
    1.481
    """
    entrance = checked("entrance density", density, 1e-3, 2e4, "kg/m3")
    expanded = checked("density at 90 %", density_at_90_percent, 1e-3, 2e4, "kg/m3")
    return 9 * (entrance / expanded - 1)


def omega_critical_ratio(omega):
    """Return the critical pressure ratio of a flashing mixture.

    Root of ``r^2 + (w^2 - 2w)(1 - r)^2 + 2 w^2 ln r + 2 w^2 (1 - r) = 0``

    Parameters
    ----------
    omega : float [1]
        Expansion parameter, 0.01 to 1000.

    Returns
    -------
    float [1]
        Throat over entrance pressure.

    Raises
    ------
    InputError
        A value outside its range.

    References
    ----------
    [API-520-I] two-phase annex.

    Examples
    --------
    >>> round(omega_critical_ratio(1.4807), 3)
    0.656
    """
    from scipy.optimize import brentq

    w = checked("expansion parameter", omega, 0.01, 1000.0, "")
    return brentq(lambda r: r**2 + (w**2 - 2 * w) * (1 - r)**2
                  + 2 * w**2 * (np.log(r) + 1 - r), 1e-9, 1.0 - 1e-12)


def omega_two_phase_flux(pressure, density, omega, back_pressure):
    """Return the mass flux of a flashing mixture through a nozzle.

    critical: ``G = r_c sqrt(p_1 rho_1 / w)``; else
    ``G = sqrt(-2 (w ln r + (w - 1)(1 - r))) / (w (1/r - 1) + 1) sqrt(p_1 rho_1)``

    Parameters
    ----------
    pressure, back_pressure : float [Pa]
        Absolute pressure before and behind.
    density : float [kg/m3]
        Mixture at the entrance.
    omega : float [1]
        Expansion parameter.

    Returns
    -------
    float [kg/(s m2)]
        Mass flux.

    Raises
    ------
    InputError
        A value outside its range.

    References
    ----------
    [API-520-I] two-phase annex.

    Examples
    --------
    >>> round(omega_two_phase_flux(556_400.0, 1 / 0.01945, 1.4807, 204_500.0))
    2884
    """
    entrance = checked("entrance pressure", pressure, 1e3, 1e9, "Pa")
    behind = checked("back pressure", back_pressure, 0.0, entrance, "Pa")
    density = checked("entrance density", density, 1e-3, 2e4, "kg/m3")
    ratio = omega_critical_ratio(omega)
    if behind <= ratio * entrance:
        return float(ratio * np.sqrt(entrance * density / omega))
    ratio = behind / entrance
    fall = -2 * (omega * np.log(ratio) + (omega - 1) * (1 - ratio))
    return float(np.sqrt(max(fall, 0.0) * entrance * density) / (omega * (1 / ratio - 1) + 1))


def omega_subcooled_flux(pressure, saturation_pressure, density, omega, back_pressure):
    """Return the mass flux of a liquid that flashes inside the nozzle.

    Where ``p_s < p_1 2w/(1 + 2w)``: ``G = sqrt(2 rho_1 (p_1 - max(p_s, p_2)))``

    Parameters
    ----------
    pressure, saturation_pressure, back_pressure : float [Pa]
        Absolute pressure before, of saturation at the entrance temperature, and behind.
    density : float [kg/m3]
        Liquid at the entrance.
    omega : float [1]
        Expansion parameter from the density at 90 % of the saturation pressure.

    Returns
    -------
    float [kg/(s m2)]
        Mass flux.

    Raises
    ------
    InputError
        A value outside its range, or too little subcooling for this form.

    References
    ----------
    [API-520-I] two-phase annex, high subcooling.

    Examples
    --------
    >>> round(omega_subcooled_flux(2.0733e6, 7.419e5, 511.3, 8.517, 1.703e5))
    36898
    """
    entrance = checked("entrance pressure", pressure, 1e3, 1e9, "Pa")
    saturation = checked("saturation pressure", saturation_pressure, 0.0, entrance, "Pa")
    behind = checked("back pressure", back_pressure, 0.0, entrance, "Pa")
    omega = checked("omega", omega, 1e-6, 1e6, "")
    transition = 2 * omega / (1 + 2 * omega)
    if saturation >= transition * entrance:
        raise InputError(
            f"saturation pressure is {saturation:.4g} Pa; the allowed range is 0 to "
            f"{transition * entrance:.4g} Pa for a liquid that flashes only in the throat. Use "
            "the two-phase form.")
    return orifice_flux(density, entrance - max(saturation, behind))
