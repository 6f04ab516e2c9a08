"""Heat that leaves a fitting: along a metal stem, through lagging, out of a slow stream.

A gauge cock, a bare pipe stub and a reference leg are all the same three textbook
cases. Temperatures in kelvin; film and overall coefficients come in as numbers.
"""

import numpy as np

from ..errors import checked


def stem_decay_rate(film_coefficient, perimeter, conductivity, section):
    """Return how fast the excess temperature dies along a metal stem or pipe wall.

    ``m = sqrt(h P / (k A_c))``

    Parameters
    ----------
    film_coefficient : float or array [W/(m2 K)]
        Heat transfer to the air; greater than 0.
    perimeter : float or array [m]
        Outer perimeter in contact with the air; greater than 0.
    conductivity : float or array [W/(m K)]
        Conductivity of the metal; greater than 0.
    section : float or array [m2]
        Cross-section of metal that carries heat; greater than 0.

    Returns
    -------
    float or array [1/m]
        Decay rate: over 1/m the excess falls to 37 %; arguments broadcast together.

    Raises
    ------
    InputError
        A value outside its range.

    References
    ----------
    [FIN-THEORY] stem of uniform section.

    Examples
    --------
    >>> import math
    >>> round(stem_decay_rate(10.0, math.pi * 0.01, 370.0, math.pi * 0.01**2 / 4), 3)
    3.288
    """
    film = checked("film coefficient", film_coefficient, 1e-3, 1e6, "W/(m2 K)")
    around = checked("perimeter", perimeter, 1e-6, 100.0, "m", "Give metres.")
    k = checked("conductivity", conductivity, 1e-4, 5000.0, "W/(m K)")
    area = checked("metal section", section, 1e-10, 10.0, "m2", "Give square metres.")
    return _plain(np.sqrt(film * around / (k * area)))


def stem_heat_rate(length, film_coefficient, diameter, conductivity, excess):
    """Return the heat that flows from its hot end into a round solid stem.

    ``q = sqrt(h P k A) theta_b (sinh mL + (h/mk) cosh mL) / (cosh mL + (h/mk) sinh mL)``

    Parameters
    ----------
    length : float or array [m]
        Length of the stem, 0 to 100; a very long one tends to ``sqrt(h P k A) theta_b``.
    film_coefficient : float or array [W/(m2 K)]
        Heat transfer to the air, at the tip as well.
    diameter : float or array [m]
        Diameter of the stem.
    conductivity : float or array [W/(m K)]
        Conductivity of the metal.
    excess : float or array [K]
        Temperature of the hot end above the air.

    Returns
    -------
    float or array [W]
        Heat rate; arguments broadcast together.

    Raises
    ------
    InputError
        A value outside its range.

    References
    ----------
    [FIN-THEORY] stem of finite length that also loses heat at its tip.

    Examples
    --------
    >>> round(stem_heat_rate(0.2, 10.0, 0.01, 370.0, 100.0), 3)
    5.563
    """
    length = checked("length", length, 0.0, 100.0, "m", "Give metres.")
    excess = checked("excess of the base over the air", excess, -2000.0, 2000.0, "K")
    diameter = checked("diameter", diameter, 1e-5, 1.0, "m", "Give metres: 10 mm is 0.01.")
    perimeter, section = np.pi * diameter, np.pi * np.square(diameter) / 4
    rate = stem_decay_rate(film_coefficient, perimeter, conductivity, section)
    tip = film_coefficient / (rate * conductivity)
    # written with tanh: sinh and cosh of a long stem overflow
    slope = np.tanh(rate * length)
    return _plain(rate * conductivity * section * excess * (slope + tip) / (1 + tip * slope))


def lagged_tube_heat_loss(inner_temperature, outer_temperature, inner_diameter, outer_diameter,
                          conductivity):
    """Return the heat that passes through lagging on a metre of tube.

    ``q' = 2 pi k (T_i - T_o) / ln(D_o / D_i)``

    Parameters
    ----------
    inner_temperature, outer_temperature : float or array [K]
        Temperatures of the two faces of the lagging.
    inner_diameter, outer_diameter : float or array [m]
        Diameters of the two faces.
    conductivity : float or array [W/(m K)]
        Conductivity of the lagging.

    Returns
    -------
    float or array [W/m]
        Heat per metre of tube, positive outwards; arguments broadcast together.

    Raises
    ------
    InputError
        A value outside its range, or an outer diameter that is not the larger one.

    References
    ----------
    [FIN-THEORY] conduction through a cylindrical layer.

    Examples
    --------
    >>> round(lagged_tube_heat_loss(393.15, 308.15, 0.1, 0.12, 0.038))
    111
    """
    inner = checked("inner diameter", inner_diameter, 1e-5, 10.0, "m", "Give metres.")
    outer = checked("outer diameter", outer_diameter, np.max(inner) * (1 + 1e-9), 20.0, "m",
                    "It must be larger than the inner diameter.")
    k = checked("conductivity", conductivity, 1e-4, 5000.0, "W/(m K)")
    hot = _checked_temperature("inner temperature", inner_temperature)
    cold = _checked_temperature("outer temperature", outer_temperature)
    return _plain(2 * np.pi * k * (hot - cold) / np.log(outer / inner))


def stream_temperature(distance, entry_temperature, ambient_temperature, heat_loss_per_metre,
                       flow, heat_capacity):
    """Return the temperature of a slow stream that has run along a pipe losing heat.

    ``T = T_a + (T_0 - T_a) exp(-U' x / (m c_p))``

    Parameters
    ----------
    distance : float or array [m]
        Distance run, 0 to 1000.
    entry_temperature, ambient_temperature : float or array [K]
        Temperature at the beginning, and of the air.
    heat_loss_per_metre : float or array [W/(m K)]
        Overall coefficient times perimeter.
    flow : float or array [kg/s]
        Mass flow; greater than 0.
    heat_capacity : float or array [J/(kg K)]
        Heat capacity of the liquid.

    Returns
    -------
    float or array [K]
        Temperature there; arguments broadcast together.

    Raises
    ------
    InputError
        A value outside its range.

    Notes
    -----
    The condensate that warms a gauge glass is such a stream.

    References
    ----------
    [FIN-THEORY] stream in surroundings of one temperature.

    Examples
    --------
    >>> round(stream_temperature(1.0, 453.15, 313.15, 0.628, 0.0005, 4400.0) - 273.15, 2)
    145.23
    """
    distance = checked("distance", distance, 0.0, 1000.0, "m", "Give metres.")
    loss = checked("heat loss per metre", heat_loss_per_metre, 0.0, 1e6, "W/(m K)")
    flow = checked("mass flow", flow, 1e-12, 1e4, "kg/s")
    capacity = checked("heat capacity", heat_capacity, 1.0, 1e5, "J/(kg K)")
    entry = _checked_temperature("entry temperature", entry_temperature)
    ambient = _checked_temperature("air temperature", ambient_temperature)
    return _plain(ambient + (entry - ambient) * np.exp(-loss * distance / (flow * capacity)))


def _checked_temperature(name, value):
    return checked(name, value, 0.0, 5000.0, "K", "Give kelvin: 100 degrees Celsius is 373.15 K.")


def _plain(value):
    return value if np.ndim(value) else float(value)
