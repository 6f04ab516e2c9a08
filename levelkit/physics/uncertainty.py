"""How well a level is known: a budget with the largest contributor named.

``u_i = [f(x_i + u_i) - f(x_i - u_i)] / 2``, ``u = sqrt(sum of u_i^2)``: every input is
moved up and down by its own uncertainty and the formula does the rest.
"""

from dataclasses import dataclass
from math import sqrt

from ..errors import InputError, checked


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

    def __post_init__(self):
        checked("value", self.value, -1e12, 1e12, "")
        checked("uncertainty", self.by, -1e12, 1e12, "")


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
