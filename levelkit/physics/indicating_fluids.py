"""Fluids for a two-fluid U-tube: plain chemistry, and two invented ones for exercises.

The fluid must not mix with water, must be denser than it, and must stay clear. Density
falls with temperature: ``rho = rho_0 / (1 + beta (T - T_0))``.
"""

from dataclasses import dataclass

import numpy as np

from ..errors import InputError, checked

REFERENCE_TEMPERATURE = 293.15


@dataclass(frozen=True, slots=True)
class IndicatingFluid:
    """A fluid that shows the difference of two pressures.

    Attributes
    ----------
    name : str
        Composition in plain chemistry, or an invented name.
    density : float [kg/m3]
        Density at 20 degC.
    expansion : float [1/K]
        Mean volume expansion per kelvin between 20 and 50 degC.
    safety : str
        What to know before anyone opens a bottle.
    """

    name: str
    density: float
    expansion: float = 0.0
    safety: str = ""

    def __post_init__(self):
        checked(f"density of the fluid ({self.name})", self.density, 1000.0, 20000.0, "kg/m3",
                "It must be denser than water.")
        checked(f"expansion of the fluid ({self.name})", self.expansion, 0.0, 3e-3, "1/K")


FLUIDS = (
    IndicatingFluid("exercise fluid, light (invented)", 1407.0, 1.0e-3,
                    "Invented: it exists only in exercises."),
    IndicatingFluid("exercise fluid, heavy (invented)", 1745.0, 1.0e-3,
                    "Invented: it exists only in exercises."),
    IndicatingFluid("dimethyl phthalate", 1193.0, 0.79e-3,
                    "Little vapour, combustible, attacks some plastics; for a bench rig only, "
                    "with goggles and gloves."),
    IndicatingFluid("1,2-dichlorobenzene", 1307.0, 0.89e-3,
                    "Harmful vapour and skin irritant; poisonous to life in water."),
    IndicatingFluid("trichloroethylene", 1464.0, 1.18e-3,
                    "Causes cancer, restricted in many countries: for calculation only."),
    IndicatingFluid("bromobenzene", 1494.0, 0.88e-3,
                    "Flammable, skin irritant; poisonous to life in water."),
    IndicatingFluid("tetrachloroethylene", 1621.0, 1.01e-3,
                    "Harmful vapour, suspected of causing cancer; poisonous to life in water."),
    IndicatingFluid("tribromomethane", 2889.0, 0.92e-3,
                    "Poisonous if breathed or swallowed, dense vapour: for calculation only."),
)


def fluid_density(fluid, temperature):
    """Return the density of an indicating fluid at a temperature.

    ``rho = rho_20 / (1 + beta (T - 293.15 K))``

    Parameters
    ----------
    fluid : IndicatingFluid [kg/m3, 1/K]
        The fluid.
    temperature : float or array [K]
        Its temperature, 263 to 363 K.

    Returns
    -------
    float or array [kg/m3]
        Density, same shape as `temperature`.

    Raises
    ------
    InputError
        A temperature outside its range.

    References
    ----------
    [FLUID-DATA] densities at 20 and 50 degC.

    Examples
    --------
    >>> round(fluid_density(IndicatingFluid("exercise", 1400.0, 1e-3), 311.15))
    1375
    """
    temperature = checked("temperature of the fluid", temperature, 263.0, 363.0, "K",
                          "Give kelvin: 45 degrees Celsius is 318.15 K.")
    return fluid.density / (1.0 + fluid.expansion * (temperature - REFERENCE_TEMPERATURE))


def nearest_fluid(wanted_density, temperature, fluids=FLUIDS):
    """Return the fluid whose density at a temperature comes nearest to a wanted one.

    Parameters
    ----------
    wanted_density : float [kg/m3]
        Density for the wanted scale, 1000 to 20000.
    temperature : float [K]
        Temperature of the fluid in service.
    fluids : tuple of IndicatingFluid [kg/m3]
        Fluids to choose from.

    Returns
    -------
    IndicatingFluid [kg/m3]
        The nearest.

    Raises
    ------
    InputError
        A value outside its range, or nothing to choose from.

    References
    ----------
    [FLUID-DATA]

    Examples
    --------
    >>> nearest_fluid(1573.0, 318.15).name
    'tetrachloroethylene'
    """
    wanted = checked("wanted density", wanted_density, 1000.0, 20000.0, "kg/m3",
                     "It must be denser than water.")
    if not fluids:
        raise InputError("There are 0 fluids to choose from; give at least one with its density "
                         "in kg/m3.")
    away = [abs(fluid_density(fluid, temperature) - wanted) for fluid in fluids]
    return fluids[int(np.argmin(away))]
