"""A question with its own numbers: the same seed gives the same question, here and next year."""

from dataclasses import dataclass
from itertools import islice

from ..errors import InputError
from .acceptance import objection
from .bank import family as family_of
from .data import completed, in_si
from .question import Variant
from .selection import space_size, walk
from .solution import solved_family

LONGEST_SEARCH = 4000


@dataclass(frozen=True, slots=True)
class ClassVariants:
    """One question for a whole class.

    Attributes
    ----------
    variants : dict of str to Variant
        By candidate, in the order of the register.
    notes : tuple of str
        A sentence for each candidate whose numbers could not be unlike all others'.
    """

    variants: dict
    notes: tuple


def variant(family_id, *seed_parts, place=0):
    """Return a question with the numbers that belong to a seed.

    Parameters
    ----------
    family_id : str
        Id of the family.
    *seed_parts : str or int
        Class secret, sheet, candidate; at least one.
    place : int
        Which of the seed's good variants; 0 the first.

    Returns
    -------
    Variant
        With its numbers, steps and slips.

    Raises
    ------
    InputError
        No such family, no seed, or a place beyond the last good variant.

    Examples
    --------
    >>> one = variant("glass-reads-low", "class secret", "sheet 1", "candidate 7")
    >>> one.text == variant("glass-reads-low", "class secret", "sheet 1", "candidate 7").text
    True
    """
    if not seed_parts:
        raise InputError("A variant needs a seed: give class secret, sheet and candidate.")
    found = next(islice(_good(family_of(family_id), seed_parts), place, None), None)
    if found is None:
        raise InputError(f"Family {family_id} has no good variant number {place} for this seed; "
                         "give a smaller place.")
    return found


def class_variants(family_id, secret, sheet, candidates):
    """Return one question for every candidate of a class, without repeated numbers.

    Parameters
    ----------
    family_id : str
        Id of the family.
    secret, sheet : str
        Class secret and name of the sheet.
    candidates : sequence of str
        The register, in its order.

    Returns
    -------
    ClassVariants
        Variants by candidate, and notes where the space of numbers is too small.

    Raises
    ------
    InputError
        No such family, or a candidate that stands twice in the register.

    Examples
    --------
    >>> made = class_variants("glass-reads-low", "secret", "sheet 1", ["01", "02", "03"])
    >>> len({one.text for one in made.variants.values()}), made.notes
    (3, ())
    """
    family, used, made, notes = family_of(family_id), set(), {}, []
    if len(set(map(str, candidates))) < len(candidates):
        raise InputError("A candidate stands twice in the register; give each a name of his own.")
    for candidate in candidates:
        seed = (secret, sheet, candidate)
        first = None
        for one in _good(family, seed):
            first = first or one
            if one.text not in used:
                break
        else:
            one = first
            notes.append(f"Candidate {candidate} has the same numbers as another one: family "
                         f"{family_id} has only {len(used)} good sets of numbers.")
        used.add(one.text)
        made[str(candidate)] = one
    return ClassVariants(made, tuple(notes))


def _good(family, seed):
    """Yield the good variants of a seed in the order of its walk."""
    place, seed = 0, tuple(str(part) for part in seed)
    for chosen in islice(walk(family, *seed), LONGEST_SEARCH):
        try:
            data = completed(family, chosen)
            solution = solved_family(family, in_si(family, data))
        except InputError:  # physics refuses a state that cannot exist: look further
            continue
        if not objection(family, data, solution):
            yield Variant(family, data, solution, seed, place)
            place += 1


def with_data(family_id, **data):
    """Return a question with given numbers, as printed; dependent ones may be left out.

    Parameters
    ----------
    family_id : str
        Id of the family.
    **data : float
        Given quantities in the unit in which they are printed.

    Returns
    -------
    Variant
        Without a seed, whether or not a slip hides in its answer.

    Raises
    ------
    InputError
        A quantity missing or unknown, or a state that cannot exist.

    Examples
    --------
    >>> cold = with_data("glass-reads-low", gauge_pressure=7.0, glass_temperature=60, level=200)
    >>> cold.answer("error")
    '17.7 mm, LOW'
    """
    family = family_of(family_id)
    unknown = set(data) - {given.name for given in family.givens}
    missing = {given.name for given in family.givens if given.values} - set(data)
    if unknown or missing:
        raise InputError(f"Family {family_id}: unknown {sorted(unknown)}, missing "
                         f"{sorted(missing)}. Give every quantity by its name in the bank.")
    data = completed(family, {name: float(number) for name, number in data.items()})
    return Variant(family, data, solved_family(family, in_si(family, data)))


def example(family_id):
    """Return the worked example of a family.

    Examples
    --------
    >>> example("glass-reads-low").answer("height")
    '186.4 mm'
    """
    return with_data(family_id, **family_of(family_id).example)


def good_share(family_id, tried=400):
    """Return which share of a family's combinations makes a good question.

    For whoever writes the bank: a small share means ranges that do not suit the slips.
    """
    family, good = family_of(family_id), 0
    tried = min(tried, space_size(family))
    for chosen in islice(walk(family, "share"), tried):
        try:
            data = completed(family, chosen)
            good += not objection(family, data, solved_family(family, in_si(family, data)))
        except InputError:
            continue
    return good / tried

