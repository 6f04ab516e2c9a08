"""The one door to iapws: saturation splines built from it, its coefficient tables as arrays.

iapws (and scipy with it) is imported on first use, never on import of levelkit.
Here pressures are in MPa and energies in kJ, as in IAPWS-IF97; callers convert.
"""

from functools import cache

import numpy as np

REGION_1_TOP_TEMPERATURE = 623.15  # K; above it the saturation line bounds region 3
_LOWER_KNOTS, _UPPER_KNOTS = 800, 120
LOWEST_PRESSURE, HIGHEST_PRESSURE = 1e-3, 20.0  # MPa


def _saturated(pressure):
    """Rows (T, rho', rho'', h', h'', s', s'', cp') at one saturation pressure in MPa."""
    from iapws import IAPWS97, iapws97

    temperature = iapws97._TSat_P(pressure)
    if temperature <= REGION_1_TOP_TEMPERATURE:
        water = iapws97._Region1(temperature, pressure)
        steam = iapws97._Region2(temperature, pressure)
        return (temperature, 1 / water["v"], 1 / steam["v"], water["h"], steam["h"],
                water["s"], steam["s"], water["cp"])
    water, steam = IAPWS97(P=pressure, x=0), IAPWS97(P=pressure, x=1)
    return (temperature, water.rho, steam.rho, water.h, steam.h, water.s, steam.s, water.cp)


@cache
def saturation_splines():
    """Two splines over ln p [p in MPa]: (T, rho', rho''), and (h', h'', s', s'', cp').

    Where region 3 takes over, IAPWS-IF97 itself has a small step and a kink. The
    spline is therefore two splines laid end to end: one piecewise polynomial with
    a double knot there.
    """
    from iapws import iapws97
    from scipy.interpolate import CubicSpline, PPoly

    seam = np.log(iapws97._PSat_T(REGION_1_TOP_TEMPERATURE))
    below = np.linspace(np.log(LOWEST_PRESSURE), seam - 1e-12, _LOWER_KNOTS)
    above = np.linspace(seam + 1e-12, np.log(HIGHEST_PRESSURE), _UPPER_KNOTS)
    pieces = [CubicSpline(knots, [_saturated(p) for p in np.exp(knots)])
              for knots in (below, above)]
    ends = np.concatenate([below[:-1], above])
    coefficients = np.concatenate([piece.c for piece in pieces], axis=1)
    return (PPoly(np.ascontiguousarray(coefficients[:, :, :3]), ends),
            PPoly(np.ascontiguousarray(coefficients[:, :, 3:]), ends))


@cache
def saturation_pressure_spline():
    """Spline of ln p [p in MPa] over T [K] along the saturation line."""
    from iapws import iapws97
    from scipy.interpolate import CubicSpline

    ends = [iapws97._TSat_P(p) for p in (LOWEST_PRESSURE, HIGHEST_PRESSURE)]
    knots = np.linspace(*ends, _LOWER_KNOTS)
    return CubicSpline(knots, [np.log(iapws97._PSat_T(t)) for t in knots])


@cache
def _tables():
    from iapws import _iapws97Constants as tables

    return tables


def _sum_of_powers(n, i, j, x, y):
    """Sum of n x^i y^j over the table, for arrays x and y of one shape."""
    x, y = np.asarray(x, float)[..., None], np.asarray(y, float)[..., None]
    return np.sum(n * x ** i * y ** j, axis=-1)


GAS_CONSTANT = 0.461526  # kJ/(kg K), IAPWS R7-97 eq. 1


def region_1(pressure, temperature):
    """Dictionary v [m3/kg], h [kJ/kg], s and cp [kJ/(kg K)] of compressed water, vectorised."""
    t = _tables()
    n, i, j = (np.asarray(x, float) for x in (t.Region1_n, t.Region1_Li, t.Region1_Lj))
    x, y = 7.1 - pressure / 16.53, 1386 / temperature - 1.222
    reduced_t = 1386 / temperature
    gamma = _sum_of_powers(n, i, j, x, y)
    gamma_p = -_sum_of_powers(n * i, i - 1, j, x, y)
    gamma_t = _sum_of_powers(n * j, i, j - 1, x, y)
    gamma_tt = _sum_of_powers(n * j * (j - 1), i, j - 2, x, y)
    return {
        "v": pressure / 16.53 * gamma_p * GAS_CONSTANT * temperature / pressure / 1000,
        "h": reduced_t * gamma_t * GAS_CONSTANT * temperature,
        "s": GAS_CONSTANT * (reduced_t * gamma_t - gamma),
        "cp": -GAS_CONSTANT * reduced_t ** 2 * gamma_tt,
    }


def region_1_volume(pressure, temperature):
    """Specific volume of compressed water [m3/kg], vectorised: the one sum that a glass needs."""
    t = _tables()
    n, i, j = (np.asarray(x, float) for x in (t.Region1_n, t.Region1_Li, t.Region1_Lj))
    gamma_p = -_sum_of_powers(n * i, i - 1, j, 7.1 - pressure / 16.53, 1386 / temperature - 1.222)
    return gamma_p * GAS_CONSTANT * temperature / 16.53 / 1000


def region_2(pressure, temperature):
    """Dictionary v [m3/kg] and h [kJ/kg] of superheated steam, vectorised."""
    t = _tables()
    n, i, j = (np.asarray(x, float) for x in (t.Region2_n, t.Region2_Li, t.Region2_Lj))
    n0, j0 = (np.asarray(x, float) for x in (t.Region2_cp0_no, t.Region2_cp0_Jo))
    reduced_t = 540 / temperature
    ideal_t = _sum_of_powers(n0 * j0, 0, j0 - 1, pressure, reduced_t)
    rest_p = _sum_of_powers(n * i, i - 1, j, pressure, reduced_t - 0.5)
    rest_t = _sum_of_powers(n * j, i, j - 1, pressure, reduced_t - 0.5)
    return {
        "v": (1 / pressure + rest_p) * GAS_CONSTANT * temperature / 1000,
        "h": reduced_t * (ideal_t + rest_t) * GAS_CONSTANT * temperature,
    }


def region_2_bottom_temperature(pressure):
    """Lowest temperature [K] of region 2 at pressures [MPa] above the region-1 corner."""
    from iapws.iapws97 import _t_P

    return np.vectorize(_t_P, otypes=[float])(pressure)


def surface_tension(temperature):
    """Surface tension [N/m] of water against its vapour."""
    from iapws._iapws import _Tension

    return np.vectorize(_Tension, otypes=[float])(temperature)


def refractive_index(density, temperature, wavelength_um):
    """Refractive index of water or steam."""
    from iapws._iapws import _Refractive

    return np.vectorize(_Refractive, otypes=[float])(density, temperature, wavelength_um)
