"""How much of a riser is steam: the mean void of a tube heated evenly along its length."""

from dataclasses import dataclass

import numpy as np

from ..errors import checked


@dataclass(frozen=True, slots=True)
class RiserVoid:
    """The mean void in the risers and its slopes.

    Attributes
    ----------
    void : float or array [1]
        Share of the riser volume that is steam.
    by_quality : float or array [1]
        Its derivative with the steam quality at the riser outlet.
    by_pressure : float or array [1/Pa]
        Its derivative with pressure along the saturation line.
    """

    void: object
    by_quality: object
    by_pressure: object


def riser_void(quality, line):
    """Return the mean void of risers whose steam quality rises evenly from nothing.

    ``a = rho_w / (rho_w - rho_s) [1 - ln(1 + eta) / eta]``,
    ``eta = x (rho_w - rho_s) / rho_s``

    Parameters
    ----------
    quality : float or array [1]
        Mass share of steam at the riser outlet, 1e-6 to 1.
    line : SaturationLine [kg/m3, Pa]
        Densities and their slopes on the saturation line.

    Returns
    -------
    RiserVoid
        Void [1], its slopes with quality [1] and with pressure [1/Pa].

    Raises
    ------
    InputError
        A quality outside its range.

    Notes
    -----
    Steam and water move at one speed. At small quality the void is half that of the
    outlet.

    References
    ----------
    [DRUM-BOILER-2000] void of a linear quality profile.

    Examples
    --------
    >>> from levelkit.properties import saturation_line
    >>> round(riser_void(0.051, saturation_line(8_500_000.0)).void, 4)
    0.2704
    """
    quality = checked("riser quality", quality, 1e-6, 1.0, "", "Give a share of one.")
    found = _void_and_slopes(quality, line)
    if np.ndim(found.void):
        return found
    return RiserVoid(float(found.void), float(found.by_quality), float(found.by_pressure))


def _void_and_slopes(quality, line):
    """The same without a check, for the inside of a time step."""
    water, steam = line.water_density, line.steam_density
    difference = water - steam
    eta = quality * difference / steam
    log = np.log1p(eta) / eta
    void = water / difference * (1 - log)
    by_quality = water / (steam * eta) * (log - 1 / (1 + eta))
    by_pressure = ((water * line.steam_density_slope - steam * line.water_density_slope)
                   / difference ** 2
                   * (1 + water / steam / (1 + eta) - (steam + water) / steam * log))
    return RiserVoid(void, by_quality, by_pressure)
