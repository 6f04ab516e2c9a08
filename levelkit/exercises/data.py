"""The data of a question: printed numbers completed, turned to SI, checked against each other."""

from . import derived
from .quantities import unit
from .templates import number_text, printed


def completed(family, numbers):
    """Return printed numbers with those that depend on others, rounded as printed."""
    data, si = {}, {}
    for given in family.givens:
        own = unit(given.unit)
        if given.name in numbers:
            data[given.name] = numbers[given.name]
        else:
            value = derived.source(given.source)(*(si[name] for name in given.of))
            data[given.name] = printed(own.from_si(value), given.decimals, given.power)
        si[given.name] = own.to_si(data[given.name])
    return data


def in_si(family, data):
    """Return the quantities that the answer function takes, in SI."""
    return {name: unit(family.given(name).unit).to_si(data[name]) for name in _arguments(family)}


def _arguments(family):
    code = family.answer.__code__
    return code.co_varnames[1:code.co_argcount]


def inconsistencies(variant):
    """Return a sentence for every given number that does not belong to the others.

    A density against pressure and temperature, an absolute against a gauge pressure:
    allowed is a difference of one and a half units of the last printed digit.

    Parameters
    ----------
    variant : Variant
        A question, perhaps with a lecturer's own data.

    Returns
    -------
    tuple of str
        Empty where all agree.

    Examples
    --------
    >>> from levelkit.exercises import with_data
    >>> wrong = with_data("glass-reads-low", gauge_pressure=7.0, glass_temperature=95,
    ...                   level=200, water_density=879.0)
    >>> inconsistencies(wrong)
    ('water_density is 879.0 kg/m³; 897.0 kg/m³ belongs to the other data.',)
    """
    family, found = variant.family, []
    for given in family.givens:
        if given.source:
            others = {name: number for name, number in variant.data.items() if name != given.name}
            right = completed(family, others)[given.name]
            if abs(right - variant.data[given.name]) > 1.5 * 10.0 ** -given.decimals:
                mark = unit(given.unit).shown
                found.append(
                    f"{given.name} is {variant.texts[given.name]}; "
                    f"{number_text(right, given.decimals)} {mark} belongs to the other data.")
    return tuple(found)
