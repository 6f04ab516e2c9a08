"""Formulas of the lessons: the part of LaTeX that they use, as a tree, for paper and web pages."""

import re
from dataclasses import dataclass

from ..errors import InputError

VARIABLE, NUMBER, OPERATOR, WORD, SPACE = "variable", "number", "operator", "word", "space"
_TOKEN = re.compile(r"\\[A-Za-z]+|\\.|\d+(?:\.\d+)?|\s+|.", re.DOTALL)
_LETTERS = {
    "alpha": "α", "beta": "β", "delta": "δ", "Delta": "Δ", "ell": "ℓ", "eta": "η", "lambda": "λ",
    "Lambda": "Λ", "mu": "μ", "nu": "ν", "omega": "ω", "Omega": "Ω", "phi": "ϕ", "pi": "π",
    "rho": "ρ", "sigma": "σ", "tau": "τ", "theta": "θ", "varphi": "φ", "zeta": "ζ", "xi": "ξ"}
_SIGNS = {
    "approx": "≈", "cdot": "·", "ge": "≥", "geq": "≥", "le": "≤", "leq": "≤", "leftarrow": "←",
    "ll": "≪", "gg": "≫", "mp": "∓", "ne": "≠", "pm": "±", "Rightarrow": "⇒", "rightarrow": "→",
    "sum": "∑", "times": "×", "to": "→", "propto": "∝", "circ": "°"}
FUNCTIONS = ("arctan", "arcsin", "cos", "exp", "ln", "log", "max", "min", "sin", "tan")
_SPACES = {",": "thin", ":": "medium", ";": "medium", " ": "medium", "quad": "wide",
           "qquad": "widest"}
_DROPPED = ("displaystyle", "!", "limits", "big", "Big")
_FENCES = "()[]|."


@dataclass(frozen=True, slots=True)
class Sign:
    """One sign, word or gap.

    Attributes
    ----------
    kind : str
        Variable, number, operator, word or space.
    text : str
        As shown; the width of a space in words.
    """

    kind: str
    text: str


@dataclass(frozen=True, slots=True)
class Build:
    """Something built of parts.

    Attributes
    ----------
    kind : str
        row, fraction, root, scripts (base, below, above; None where absent), brace (body, note),
        bar, dot, or fence (body).
    parts : tuple
        Signs and builds.
    ends : tuple of str
        Brackets of a fence; empty text for none.
    """

    kind: str
    parts: tuple
    ends: tuple = ()


def formula(text):
    """Return a formula as a tree.

    Parameters
    ----------
    text : str
        LaTeX without its dollar signs.

    Returns
    -------
    Build
        A row.

    Raises
    ------
    InputError
        A command that lessons do not use, or brackets that do not match.

    Examples
    --------
    >>> [part.text for part in formula(r"\\rho g h").parts]
    ['ρ', 'g', 'h']
    """
    reader = _Reader([token for token in _TOKEN.findall(text) if not token.isspace()], text)
    row = reader.row(())
    if reader.left:
        raise reader.fault(f"“{reader.left[0]}” stands too many")
    return row


class _Reader:
    """Reads tokens from the left."""

    def __init__(self, tokens, text):
        self.left, self.text = tokens, text

    def fault(self, words):
        return InputError(f"The formula “{self.text[:60]}” cannot be set: {words}.")

    def take(self):
        if not self.left:
            raise self.fault("it breaks off")
        return self.left.pop(0)

    def row(self, ends):
        """Everything up to one of the ends, which stays."""
        parts = []
        while self.left and self.left[0] not in ends and self.left[0] != "}":
            if self.left[0][1:] in _DROPPED and self.left[0][0] == "\\":
                self.take()
                continue
            parts.append(self.scripted())
        return Build("row", tuple(parts))

    def scripted(self):
        """One part with its indices, exponents and primes."""
        base, below, above, primes = self.part(), None, None, 0
        while self.left and self.left[0] in ("_", "^", "'"):
            mark = self.take()
            if mark == "'":
                primes += 1
            elif mark == "_":
                below = _as_word(self.argument())
            else:
                above = _as_word(self.argument())
        if primes:
            strokes = Sign(OPERATOR, "′" * primes)
            above = strokes if above is None else Build("row", (strokes, above))
        return base if below is None and above is None else Build("scripts", (base, below, above))

    def argument(self):
        """A group in braces, or one part."""
        if self.left and self.left[0] == "{":
            self.take()
            row = self.row(())
            if self.take() != "}":
                raise self.fault("a brace is not closed")
            return row
        return self.part()

    def part(self):
        if self.left and self.left[0] == "{":
            return self.argument()
        token = self.take()
        if token[0] == "\\":
            return self.command(token[1:])
        if token[0].isdigit():
            return Sign(NUMBER, token)
        if token.isalpha():
            return Sign(VARIABLE, token)
        if token in "_^'}&#%~":
            raise self.fault(f"“{token}” stands alone")
        return Sign(OPERATOR, "−" if token == "-" else token)

    def command(self, name):
        if name in _LETTERS:
            return Sign(VARIABLE, _LETTERS[name])
        if name in _SIGNS:
            return Sign(OPERATOR, _SIGNS[name])
        if name in _SPACES:
            return Sign(SPACE, _SPACES[name])
        if name in FUNCTIONS:
            return Sign(WORD, name)
        if name in ("frac", "tfrac", "dfrac"):
            return Build("fraction", (self.argument(), self.argument()))
        if name == "sqrt":
            return Build("root", (self.argument(),))
        if name in ("overline", "bar"):
            return Build("bar", (self.argument(),))
        if name == "dot":
            return Build("dot", (self.argument(),))
        if name in ("text", "mathrm", "mathit"):
            return self.words()
        if name == "underbrace":
            return self.brace()
        if name == "left":
            return self.fence()
        if name in ("%", "{", "}", "|", "$"):
            return Sign(OPERATOR, name)
        raise self.fault(f"the command \\{name} is none of those of the lessons")

    def words(self):
        """The words of text{...}; the reader has lost their spaces, so look them up."""
        if self.take() != "{":
            raise self.fault("words without braces")
        words = []
        while (token := self.take()) != "}":
            words.append(token[1:] if token[0] == "\\" else token)
        return Sign(WORD, _with_spaces("".join(words), self.text))

    def brace(self):
        body, note = self.argument(), None
        if self.left and self.left[0] == "_":
            self.take()
            note = self.argument()
        return Build("brace", (body, note))

    def fence(self):
        opening = self.take()
        body = self.row(("\\right",))
        if not self.left:
            raise self.fault("\\left without \\right")
        self.take()
        closing = self.take()
        ends = [sign.removeprefix("\\") for sign in (opening, closing)]
        if any(sign not in _FENCES for sign in ends):
            raise self.fault("an odd bracket")
        return Build("fence", (body,), tuple("" if sign == "." else sign for sign in ends))


def _with_spaces(words, text):
    """Words as they stand in the formula, with their spaces."""
    pattern = r"\{(\s*" + r"\s*".join(map(re.escape, words)) + r"\s*)\}"
    found = re.search(pattern, text)
    return found.group(1) if found else words


def _as_word(part):
    """An index of three letters or more is a word: R_{cable}."""
    if isinstance(part, Build) and part.kind == "row" and len(part.parts) > 2 and all(
            isinstance(one, Sign) and one.kind == VARIABLE for one in part.parts):
        return Sign(WORD, "".join(one.text for one in part.parts))
    return part
