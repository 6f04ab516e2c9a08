"""How well a level is known: a budget with the largest contributor named.

``u_i = [f(x_i + u_i) - f(x_i - u_i)] / 2``, ``u = sqrt(sum of u_i^2)``: every input is
moved up and down by its own uncertainty and the formula does the rest.
"""

from dataclasses import dataclass
from math import sqrt

from ..constants import STANDARD_GRAVITY
from ..errors import InputError, checked
from .differential import level_of_differential
from .glass import drum_level
from .two_fluid_design import level_of_fluid_difference


@dataclass(frozen=True, slots=True)
class Measured:
    """A value that is known only so well.

    Attributes
    ----------
    value : float [any]
        Best value.
    by : float [as `value`]
        Uncertainty, plus or minus; the same coverage for all inputs of one budget.
    """

    value: float
    by: float = 0.0


@dataclass(frozen=True, slots=True)
class Contribution:
    """What one input does to the level.

    Attributes
    ----------
    name : str
        Name of the input.
    effect : float [m]
        Change of level for plus its uncertainty, with its sign.
    share : float [1]
        Part of the combined variance.
    """

    name: str
    effect: float
    share: float


@dataclass(frozen=True, slots=True)
class UncertaintyBudget:
    """A level with its uncertainty.

    Attributes
    ----------
    level : float [m]
        Level from the best values.
    uncertainty : float [m]
        Combined uncertainty, plus or minus, of the coverage of the inputs.
    contributions : tuple of Contribution [m]
        Largest first.
    largest : str
        Name of the largest contributor; "" where nothing is uncertain.
    """

    level: float
    uncertainty: float
    contributions: tuple[Contribution, ...]
    largest: str


def uncertainty_budget(formula, inputs):
    """Return the uncertainty of a level that a formula makes of uncertain inputs.

    Parameters
    ----------
    formula : callable
        Takes the values in the order of `inputs`, returns a level [m].
    inputs : mapping of str to Measured [any]
        Inputs by name; they are taken to be independent.

    Returns
    -------
    UncertaintyBudget
        Level and uncertainty [m], contributions, the largest by name.

    Raises
    ------
    InputError
        A negative uncertainty, or a value that the formula refuses.

    Notes
    -----
    Two inputs that move together (densities of water and steam with drum pressure) are
    one input: let the formula work out both from it.

    References
    ----------
    [GUM] combined uncertainty, numerical sensitivities.

    Examples
    --------
    >>> budget = uncertainty_budget(lambda a, b: a - 2.0 * b,
    ...                             {"a": Measured(1.0, 0.03), "b": Measured(0.2, 0.02)})
    >>> f"{budget.level:.2f} m +/- {budget.uncertainty:.2f} m, mostly {budget.largest}"
    '0.60 m +/- 0.05 m, mostly b'
    """
    for name, item in inputs.items():
        checked(f"uncertainty of the {name}", item.by, 0.0, 1e12, "",
                "Give it without sign, in the unit of the value.")
    values = [item.value for item in inputs.values()]
    effects = {}
    for place, (name, item) in enumerate(inputs.items()):
        up, down = list(values), list(values)
        up[place] += item.by
        down[place] -= item.by
        effects[name] = 0.5 * (formula(*up) - formula(*down)) if item.by else 0.0
    variance = sum(effect ** 2 for effect in effects.values())
    contributions = tuple(sorted(
        (Contribution(name, float(effect), float(effect ** 2 / variance) if variance else 0.0)
         for name, effect in effects.items()), key=lambda item: -abs(item.effect)))
    largest = contributions[0].name if variance else ""
    return UncertaintyBudget(float(formula(*values)), sqrt(variance), contributions, largest)


def transmitter_budget(differential, weir_height, leg_density, pressure, saturation,
                       gravity=STANDARD_GRAVITY):
    """Return how well the level of a DP instrument is known.

    ``h = [(rho_r - rho_g) H - dp_r/g] / (rho_f - rho_g)``

    Parameters
    ----------
    differential : Measured [Pa]
        p_reference - p_drum-side.
    weir_height : Measured [m]
        Height of the weir.
    leg_density : Measured [kg/m3]
        Reference leg.
    pressure : Measured [Pa]
        Absolute drum pressure.
    saturation : callable [Pa -> kg/m3]
        Gives an object with `water_density` and `steam_density` at a pressure.
    gravity : float [m/s2]
        Acceleration of gravity.

    Returns
    -------
    UncertaintyBudget
        Level and uncertainty [m], contributions, the largest by name.

    Raises
    ------
    InputError
        A value outside its range.

    References
    ----------
    [GUM] combined uncertainty; [HYDROSTATICS] level.

    Examples
    --------
    >>> from levelkit.properties import saturation_at_pressure
    >>> budget = transmitter_budget(Measured(4684.0, 10.0), Measured(0.8, 0.003),
    ...                             Measured(990.6, 4.8), Measured(6.1e6, 1e5),
    ...                             saturation_at_pressure)
    >>> f"+/- {1e3 * budget.uncertainty:.1f} mm, mostly {budget.largest}"
    '+/- 6.8 mm, mostly leg density'
    """
    def formula(differential, weir, leg, pressure):
        steam = saturation(pressure)
        return level_of_differential(differential, weir, steam.water_density,
                                     steam.steam_density, leg, gravity)

    return uncertainty_budget(formula, {
        "differential pressure": differential, "weir height": weir_height,
        "leg density": leg_density, "drum pressure": pressure})


def two_fluid_budget(difference, weir_height, leg_density, fluid_density, pressure, saturation):
    """Return how well the level of a two-fluid indicator is known.

    ``h = [(rho_w - rho_g) H - (rho_m - rho_w) R] / (rho_f - rho_g)``

    Parameters
    ----------
    difference : Measured [m]
        R, difference of the two fluid surfaces.
    weir_height : Measured [m]
        Height of the weir.
    leg_density, fluid_density : Measured [kg/m3]
        Leg water and indicating fluid.
    pressure : Measured [Pa]
        Absolute drum pressure.
    saturation : callable [Pa -> kg/m3]
        Gives an object with `water_density` and `steam_density` at a pressure.

    Returns
    -------
    UncertaintyBudget
        Level and uncertainty [m], contributions, the largest by name.

    Raises
    ------
    InputError
        A value outside its range.

    References
    ----------
    [GUM] combined uncertainty; [HYDROSTATICS] level.

    Examples
    --------
    >>> from levelkit.properties import saturation_at_pressure
    >>> budget = two_fluid_budget(Measured(0.6273, 0.002), Measured(0.5, 0.003),
    ...                           Measured(992.2, 4.8), Measured(1400.0, 8.0),
    ...                           Measured(4.6e6, 1e5), saturation_at_pressure)
    >>> f"+/- {1e3 * budget.uncertainty:.1f} mm, mostly {budget.largest}"
    '+/- 10.5 mm, mostly leg density'
    """
    def formula(difference, weir, leg, fluid, pressure):
        steam = saturation(pressure)
        return level_of_fluid_difference(difference, weir, steam.water_density,
                                         steam.steam_density, leg, fluid)

    return uncertainty_budget(formula, {
        "fluid difference": difference, "weir height": weir_height, "leg density": leg_density,
        "fluid density": fluid_density, "drum pressure": pressure})


def glass_budget(reading, glass_density, water_density, steam_density):
    """Return how well the drum level behind a gauge glass is known.

    ``h = h_g (rho_w - rho_g) / (rho_f - rho_g)``

    Parameters
    ----------
    reading : Measured [m]
        Height of the glass water above the water connection.
    glass_density : Measured [kg/m3]
        Mean density of the glass water: its temperature is a guess.
    water_density, steam_density : float [kg/m3]
        Drum.

    Returns
    -------
    UncertaintyBudget
        Level and uncertainty [m], contributions, the largest by name.

    Raises
    ------
    InputError
        A value outside its range.

    References
    ----------
    [GUM] combined uncertainty; [HYDROSTATICS] level.

    Examples
    --------
    >>> budget = glass_budget(Measured(0.26, 0.002), Measured(929.2, 17.0), 756.1, 31.4)
    >>> f"+/- {1e3 * budget.uncertainty:.1f} mm, mostly {budget.largest}"
    '+/- 6.6 mm, mostly glass water density'
    """
    return uncertainty_budget(
        lambda height, glass: drum_level(height, water_density, steam_density, glass),
        {"glass reading": reading, "glass water density": glass_density})


def agreement_band(*uncertainties):
    """Return the difference up to which indicators may be said to agree.

    ``band = sqrt(u_1^2 + u_2^2 + ...)``

    Parameters
    ----------
    *uncertainties : float [m]
        Uncertainty of each reduced level, plus or minus, all of one coverage.

    Returns
    -------
    float [m]
        Root of the sum of squares.

    Raises
    ------
    InputError
        Fewer than two, or one outside 0 to 5 m.

    References
    ----------
    [GUM] uncertainty of a difference.

    Examples
    --------
    >>> round(1e3 * agreement_band(0.0066, 0.0068), 1)
    9.5
    """
    if len(uncertainties) < 2:
        raise InputError(f"{len(uncertainties)} uncertainty is given; at least 2 instruments, "
                         "each with its uncertainty in m, can agree.")
    return sqrt(sum(checked("uncertainty", one, 0.0, 5.0, "m", "Give metres.") ** 2
                    for one in uncertainties))
