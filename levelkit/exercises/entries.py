"""What a person typed as an answer: number, unit, direction, gauge or absolute."""

import re
from dataclasses import dataclass

from ..errors import InputError
from ..units import parse_number
from .quantities import Unit, unit
from .sentences import sentence

LONGEST = 60
_MINUS = str.maketrans({"\u2212": "-", "\u2013": "-", "\u2012": "-", "\u2014": "-", "\ufe63": "-",
                        "\uff0d": "-"})
_POWER = re.compile(r"\s*[x×*·]\s*10\s*(?:\^|\*\*)?\s*([-+]?\d+|[⁻⁺]?[⁰¹²³⁴⁵⁶⁷⁸⁹]+)", re.I)
_DOWN = str.maketrans("⁻⁺⁰¹²³⁴⁵⁶⁷⁸⁹", "-+0123456789")
_NUMBER = re.compile(
    r"[-+]?\s*(?:(?:\d{1,3}(?:[ '\u00a0\u2009\u202f]\d{3})+(?!\d)|\d+)(?:[.,]\d*)*|[.,]\d+)"
    r"(?:[eE][-+]?\d+)?")
_SYMBOL = re.compile(r"^[^\d=]{0,20}=\s*")
_FILLER = {"reads", "read", "by", "about", "approx", "approximately", "is", "the", "it", "too",
           "=", "~", "≈", ":", "error", "answer", "of", "towards", "to", "a", "times", "×"}
_DOWN_WORDS = {"low", "lower", "under", "below", "down", "beneath", "fall", "falls", "fell", "drop",
               "drops", "less", "minus"}
_UP_WORDS = {"high", "higher", "over", "above", "up", "rise", "rises", "rose", "more", "plus"}
_REFERENCE = {"g": "gauge", "gauge": "gauge", "a": "absolute", "abs": "absolute",
              "absolute": "absolute"}
_JOINED = {"barg": ("bar", "gauge"), "bara": ("bar", "absolute"), "kpag": ("kPa", "gauge"),
           "kpaa": ("kPa", "absolute"), "mbarg": ("mbar", "gauge"), "mbara": ("mbar", "absolute")}
PRESSURE = "[mass] / [length] / [time] ** 2"


@dataclass(frozen=True, slots=True)
class Entry:
    """A typed answer, understood.

    Attributes
    ----------
    text : str
        As typed.
    number : float
        The number as typed.
    unit : Unit
        The unit typed, or the one asked for where none was.
    unit_written : bool
        Whether a unit was typed.
    direction : int
        -1, 0 (none stated) or +1, from words or a written sign.
    reference : str
        "gauge", "absolute" or empty.
    """

    text: str
    number: float
    unit: Unit
    unit_written: bool
    direction: int
    reference: str

    @property
    def si(self):
        """The value in SI, signed by its direction where one is stated."""
        value = self.unit.to_si(self.number)
        return abs(value) * self.direction if self.direction and self.unit.offset == 0 else value


def parse_entry(text, step):
    """Return what a person typed for a value step.

    Parameters
    ----------
    text : str
        Such as "58,0 mbar", "0.25 m", "14.4 mA", "low 13.6 mm", "7.2×10^-4".
    step : Step
        The value step that it answers.

    Returns
    -------
    Entry
        Number, unit and direction.

    Raises
    ------
    InputError
        A text that cannot be read, with a sentence that says how to write it.
    """
    plain = str(text).translate(_MINUS).strip()
    sample = f"0.25 {step.si.shown}".rstrip()
    if len(plain) > LONGEST:
        raise InputError(sentence("too_long", length=len(plain), sample=sample))
    plain = _SYMBOL.sub("", plain)
    plain = _POWER.sub(lambda power: f"e{int(power.group(1).translate(_DOWN))}", plain)
    found = _NUMBER.search(plain)
    if not found:
        raise InputError(sentence("no_number", text=plain, sample=sample))
    number = parse_number(found.group().replace("'", " "), "this answer")
    rest = f"{plain[:found.start()]} {plain[found.end():]}".strip()
    wording = _Wording(plain, rest, step, sample)
    written = found.group().lstrip()[:1]
    signed = {"-": -1, "+": 1}.get(written, 0)
    direction = wording.direction
    if step.direction and signed and direction and signed != direction:
        raise InputError(sentence("contradiction", text=plain, negative=step.direction[0],
                                  positive=step.direction[1]))
    direction = direction or (signed if step.direction else 0)
    return Entry(str(text), number, wording.unit or step.si, wording.unit is not None, direction,
                 wording.reference)


def _same_words(word):
    """Every word that states the same direction."""
    for words in (_DOWN_WORDS, _UP_WORDS):
        if word in words:
            return words
    return {word}


class _Wording:
    """The words around the number: one unit, perhaps a direction and a reference."""

    def __init__(self, plain, rest, step, sample):
        self.direction, self.reference, self.unit = 0, "", None
        self._plain, self._step, self._sample = plain, step, sample
        left = []
        for token in re.split(r"[\s,;:()\[\]!?]+|(?<!\d)\.(?=\s|$)", rest):
            if token and not self._understood(token, bool(left)):
                left.append(token)
        if left:
            self.unit = self._unit_of(left, rest)

    def _understood(self, token, after_unit):
        lower = token.lower()
        if self._step.direction:
            for sign, word in zip((-1, 1), self._step.direction, strict=True):
                if lower in _same_words(word):
                    if self.direction == -sign:
                        raise InputError(sentence(
                            "contradiction", text=self._plain, negative=self._step.direction[0],
                            positive=self._step.direction[1]))
                    self.direction = sign
                    return True
        if self._step.si.dimension == PRESSURE:
            if lower in _REFERENCE and (after_unit or len(lower) > 1):
                self.reference = _REFERENCE[lower]
                return True
            if lower in _JOINED:
                name, self.reference = _JOINED[lower]
                self.unit = unit(name)
                return True
        return lower in _FILLER

    def _unit_of(self, left, rest):
        for candidate in (" ".join(left), rest):
            try:
                return self._of_asked_dimension(unit(candidate))
            except _NoUnit:
                raise
            except InputError:
                continue
        raise InputError(sentence("words", text=self._plain, word=" ".join(left)[:24],
                                  sample=self._sample))

    def _of_asked_dimension(self, typed):
        if typed.dimension != self._step.si.dimension:
            raise _NoUnit(sentence("dimension", text=self._plain, unit=typed.shown,
                                   asked=self._step.si.shown or "a pure number"))
        return typed


class _NoUnit(InputError):
    """A unit that can be read but measures something else."""
