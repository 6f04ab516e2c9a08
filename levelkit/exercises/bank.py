"""The question bank: families read from the TOML files beside this module, checked on reading."""

import inspect
import tomllib
from dataclasses import fields
from functools import cache
from importlib import import_module
from pathlib import Path

from ..errors import InputError
from . import derived
from .family import CHOICE, METHOD, VALUE, BankError, Family, Given, Option, Slip, Step
from .quantities import unit
from .templates import placeholders, printed

FOLDER = Path(__file__).with_name("bank")
_FAMILY_KEYS = {"id", "title", "difficulty", "outcomes", "trap", "figure", "text", "answer",
                "given", "step", "slip", "example", "lesson", "advises_action", "marks"}
_GIVEN_KEYS = {"symbol", "unit", "decimals", "low", "high", "step", "values", "from", "of", "power"}


@cache
def families():
    """Return every family of the bank by its id, in the order of the files.

    Returns
    -------
    dict of str to Family
        One entry for each question family.

    Raises
    ------
    BankError
        A file that cannot be used: names file, family and cure.

    Examples
    --------
    >>> "glass-reads-low" in families()
    True
    """
    found = {}
    for path in sorted(FOLDER.glob("*.toml")):
        for one in read_families(path):
            if one.id in found:
                raise BankError(f"{path.name}: the id “{one.id}” stands twice; rename one.")
            found[one.id] = one
    return found


def family(family_id):
    """Return one family.

    Parameters
    ----------
    family_id : str
        Its id.

    Returns
    -------
    Family
        As read from the bank.

    Raises
    ------
    InputError
        No family of that id.

    Examples
    --------
    >>> family("glass-reads-low").marks
    7
    """
    try:
        return families()[family_id]
    except KeyError:
        raise InputError(f"There is no question family “{family_id}”. The bank holds: "
                         f"{', '.join(families())}.") from None


@cache
def outcomes():
    """Return what each outcome code stands for.

    Returns
    -------
    dict of str to str
        Code to sentence.

    Examples
    --------
    >>> outcomes()["L02.1"]
    'Turns gauge into absolute pressure'
    """
    text = (FOLDER / "outcomes.toml").read_text(encoding="utf-8")
    return tomllib.loads(text)["outcomes"]


def read_families(path):
    """Return the families of one file of the bank.

    Parameters
    ----------
    path : pathlib.Path
        A TOML file with `topic`, `lesson` and tables `[[family]]`.

    Returns
    -------
    list of Family
        In the order of the file.

    Raises
    ------
    BankError
        Anything in it that cannot be used.
    """
    try:
        document = tomllib.loads(path.read_text(encoding="utf-8"))
    except tomllib.TOMLDecodeError as unreadable:
        raise BankError(f"{path.name}: {unreadable}. Correct the file.") from unreadable
    if "topic" not in document:
        return []
    read = []
    for table in document.get("family", []):
        name = f"{path.name}, family “{table.get('id', '?')}”"
        try:
            read.append(_family(table, document["topic"], document.get("lesson", "")))
        except (BankError, InputError, KeyError, TypeError) as fault:
            reason = f"{fault} is missing" if isinstance(fault, KeyError) else str(fault)
            raise BankError(f"{name}: {reason}") from fault
    return read


def _family(table, topic, lesson):
    _only(table, _FAMILY_KEYS)
    givens = tuple(_given(name, entry) for name, entry in table.get("given", {}).items())
    steps = tuple(_step(entry) for entry in table["step"])
    slips = tuple(Slip(**entry) for entry in table.get("slip", []))
    made = Family(
        table["id"], table["title"], topic, table.get("lesson", lesson), table["trap"],
        table["difficulty"], sum(step.mark_count for step in steps),
        tuple(table["outcomes"]), table["text"].strip(), givens, _linked(steps), slips,
        _answer(table["answer"]), dict(table["example"]), table.get("figure", ""),
        table.get("advises_action", False))
    _check(made)
    if made.marks != table["marks"]:
        raise BankError(f"its steps add up to {made.marks} marks and it states {table['marks']}.")
    return made


def _only(table, known):
    unknown = set(table) - known
    if unknown:
        raise BankError(f"{', '.join(sorted(unknown))} is not known here; known are "
                        f"{', '.join(sorted(known))}.")


def _given(name, entry):
    _only(entry, _GIVEN_KEYS)
    decimals = entry["decimals"]
    values = tuple(float(value) for value in entry.get("values", ()))
    if "low" in entry:
        low, high, step = entry["low"], entry["high"], entry["step"]
        count = round((high - low) / step)
        values = tuple(printed(low + index * step, decimals) for index in range(count + 1))
    if bool(values) == ("from" in entry):
        raise BankError(f"{name} needs either values (or low, high, step) or `from`.")
    if "from" in entry and derived.source(entry["from"]) is None:
        raise BankError(f"{name}: there is no derived quantity {entry['from']}.")
    return Given(name, entry["symbol"], entry["unit"], decimals, values, entry.get("from", ""),
                 tuple(entry.get("of", ())), entry.get("power", False))


def _step(entry):
    entry = dict(entry)
    entry.setdefault("kind", VALUE)
    _only(entry, {field.name for field in fields(Step)})
    entry["options"] = tuple(Option(**option) for option in entry.get("options", ()))
    entry["direction"] = tuple(entry.get("direction", ()))
    if entry["kind"] == METHOD:
        entry.setdefault("ask", "")
    return Step(**entry)


def _linked(steps):
    """Steps with every method step tied to the value step that earns it: the next one."""
    from dataclasses import replace

    linked, following = [], ""
    for step in reversed(steps):
        if step.kind == VALUE:
            following = step.id
        elif step.kind == METHOD and not step.shown_by:
            step = replace(step, shown_by=following)
        linked.append(step)
    return tuple(reversed(linked))


def _answer(name):
    module, function = name.split(".")
    try:
        return getattr(import_module(f"{__package__}.answers.{module}"), function)
    except (ModuleNotFoundError, AttributeError):
        raise BankError(f"there is no answer function {name}.") from None


def _check(made):
    """Raise a BankError for a family whose parts do not fit each other."""
    names = {given.name for given in made.givens}
    wanted = set(list(inspect.signature(made.answer).parameters)[1:])
    if not wanted <= names:
        raise BankError(f"the answer function asks for {', '.join(sorted(wanted - names))}, "
                        "which is not given.")
    unused = names - wanted - placeholders(made.text) - {
        name for given in made.givens for name in given.of}
    if unused:
        raise BankError(f"{', '.join(sorted(unused))} is given and used nowhere.")
    if placeholders(made.text) - names:
        raise BankError(f"the text names {', '.join(sorted(placeholders(made.text) - names))}, "
                        "which is not given.")
    if set(made.example) - names:
        raise BankError(f"the example holds {', '.join(sorted(set(made.example) - names))}, "
                        "which is not given.")
    before = set()
    for given in made.givens:
        unit(given.unit)
        if not set(given.of) <= before:
            raise BankError(f"{given.name} depends on a quantity that is not given before it.")
        before.add(given.name)
        if not given.source and given.name not in made.example:
            raise BankError(f"the example lacks {given.name}.")
    known = set(names)
    for step in made.steps:
        _check_step(step, known)
        known.add(step.id)
    values = {step.id for step in made.value_steps}
    for slip in made.slips:
        if slip.step not in values:
            raise BankError(f"slip {slip.id} belongs to no value step.")


def _check_step(step, known):
    if step.id in known:
        raise BankError(f"the name {step.id} stands twice.")
    if placeholders(step.formula) - known:
        raise BankError(f"the formula of {step.id} names "
                        f"{', '.join(sorted(placeholders(step.formula) - known))}, "
                        "which is neither given nor an earlier step.")
    if step.kind == VALUE:
        if (step.tolerance is None) == (step.relative_tolerance is None):
            raise BankError(f"step {step.id} needs one of tolerance and relative_tolerance.")
        unit(step.unit)
        if bool(step.direction) != bool(step.mark_kinds["B"]):
            raise BankError(f"step {step.id}: a B mark is that for the direction; give both.")
    elif step.kind == CHOICE:
        ids = [option.id for option in step.options]
        if len(set(ids)) < max(2, len(ids)) or (step.right and step.right not in ids):
            raise BankError(f"step {step.id} needs at least two options of different ids, the "
                            "right one among them.")
        for option in step.options:
            if option.id != step.right and not option.sentence:
                raise BankError(f"step {step.id}: option {option.id} needs a sentence.")
    elif step.kind != METHOD:
        raise BankError(f"step {step.id} is of no known kind ({VALUE}, {CHOICE}, {METHOD}).")
    elif not step.shown_by:
        raise BankError(f"method step {step.id} leads to no value step.")
