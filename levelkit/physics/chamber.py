"""The constant-head chamber as a thing with limits: what it can make up, and how fast."""

from dataclasses import dataclass

from ..errors import checked


@dataclass(frozen=True, slots=True)
class MakeUpTransient:
    """What a sudden demand for leg water does to the head of the chamber.

    Attributes
    ----------
    volume : float or array [m3]
        Water taken from the chamber.
    head_fall : float or array [m]
        Temporary fall of its surface: the indicator reads HIGH meanwhile.
    time : float or array [s]
        Time in which condensing steam makes it good.
    """

    volume: object
    head_fall: object
    time: object


def condensing_rate(heat_loss, latent_heat):
    """Return how much steam a chamber condenses.

    ``m = q / h_fg``

    Parameters
    ----------
    heat_loss : float or array [W]
        Heat that the chamber gives to the air.
    latent_heat : float or array [J/kg]
        Heat of condensation at drum pressure.

    Returns
    -------
    float or array [kg/s]
        Condensate made.

    Raises
    ------
    InputError
        A value outside its range.

    References
    ----------
    [HEAT-BALANCE] heat lost over heat of condensation.

    Examples
    --------
    >>> f"{3.6e6 * condensing_rate(40.0, 1668.5e3):.0f} g/h"
    '86 g/h'
    """
    heat_loss = checked("heat loss of the chamber", heat_loss, 0.0, 1e5, "W")
    latent_heat = checked("latent heat", latent_heat, 1e5, 2.6e6, "J/kg", "Give joule, not kJ.")
    return heat_loss / latent_heat


def make_up_transient(surface_fall, limb_area, chamber_area, water_density, heat_loss,
                      latent_heat):
    """Return what happens to the chamber when the drum level, and one surface, fall.

    ``dV = A_limb dz``, ``fall = dV / A_chamber``, ``t = rho dV h_fg / q``

    Parameters
    ----------
    surface_fall : float or array [m]
        Fall of the fluid surface in the constant-head limb, 0 to 5.
    limb_area, chamber_area : float [m2]
        Bore area of the limb and free surface of the chamber.
    water_density : float [kg/m3]
        Density of the leg water.
    heat_loss : float [W]
        Heat that the chamber gives to the air; greater than 0.
    latent_heat : float [J/kg]
        Heat of condensation.

    Returns
    -------
    MakeUpTransient
        Volume [m3], fall of head [m], time [s].

    Raises
    ------
    InputError
        A value outside its range.

    Notes
    -----
    One-sided: on a rising level the surplus spills over the weir at once.

    References
    ----------
    [HEAT-BALANCE] volume and heat balance of the chamber.

    Examples
    --------
    >>> change = make_up_transient(0.12, 5.0265e-5, 1.8e-3, 992.2, 40.0, 1668.5e3)
    >>> f"{1e3 * change.head_fall:.2f} mm for {change.time:.0f} s"
    '3.35 mm for 250 s'
    """
    fall = checked("fall of the fluid surface", surface_fall, 0.0, 5.0, "m", "Give metres.")
    limb = checked("limb area", limb_area, 1e-7, 0.1, "m2", "Give square metres.")
    wide = checked("chamber area", chamber_area, 1e-6, 1.0, "m2", "Give square metres.")
    density = checked("water density", water_density, 1.0, 1100.0, "kg/m3")
    checked("heat loss of the chamber", heat_loss, 1e-3, 1e5, "W",
            "A chamber that loses no heat makes nothing up.")
    volume = limb * fall
    return MakeUpTransient(volume, volume / wide,
                           density * volume / condensing_rate(heat_loss, latent_heat))


def isolated_chamber_time(excess_pressure, heat_capacity, heat_loss, saturation_slope):
    """Return the time constant with which the pressure of an isolated chamber falls.

    ``tau = (p - p_a) C (dT/dp) / q``: the first fall of temperature, q/C, along the
    saturation line

    Parameters
    ----------
    excess_pressure : float or array [Pa]
        Drum pressure above that of the air; greater than 0.
    heat_capacity : float or array [J/K]
        Heat capacity of the chamber with its water.
    heat_loss : float or array [W]
        Heat that it gives to the air.
    saturation_slope : float or array [K/Pa]
        dT/dp of saturation at drum pressure.

    Returns
    -------
    float or array [s]
        Time constant.

    Raises
    ------
    InputError
        A value outside its range.

    Notes
    -----
    Only the first seconds matter: a few kilopascal drive a level instrument off its
    scale.

    References
    ----------
    [HEAT-BALANCE] cooling of a closed vessel with saturated steam, first moment.

    Examples
    --------
    >>> round(isolated_chamber_time(6.0e6, 5.1e3, 40.0, 1.13e-5))
    8644
    """
    excess = checked("excess pressure", excess_pressure, 1.0, 2.5e7, "Pa")
    capacity = checked("heat capacity", heat_capacity, 1.0, 1e7, "J/K")
    loss = checked("heat loss of the chamber", heat_loss, 1e-3, 1e5, "W")
    slope = checked("slope of the saturation line", saturation_slope, 1e-7, 1e-2, "K/Pa")
    return excess * capacity * slope / loss
