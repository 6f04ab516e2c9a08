"""Worked examples and marked answers as plain text, for a notebook cell and for paper."""

from functools import partial
from textwrap import fill

from .marking import mark
from .working import faded

WIDTH = 96
_lines = partial(fill, width=WIDTH, break_on_hyphens=False)


def example_text(question, amount):
    """Return a question and its worked lines as text.

    Parameters
    ----------
    question : Variant
        A question with its numbers.
    amount : str
        "full", "partly" or "blank".

    Returns
    -------
    str
        The question, a blank line, then one line for each step with its marks.

    Examples
    --------
    >>> from levelkit.exercises import example
    >>> print(example_text(example("glass-reads-low"), "full").splitlines()[-1])
    e = 186.4 − 200 = −13.6 mm (LOW)   [A1 B1]
    """
    return "\n".join((_lines(question.text), *_caution(question), "",
                      *faded(question, amount)))


def marks_text(question, answers):
    """Return what typed answers to a question earn, step by step, as text.

    Parameters
    ----------
    question : Variant
        A question with its numbers.
    answers : dict of str to str
        Typed text by step id.

    Returns
    -------
    str
        A line for each step, the relations among them, and the sum.

    Examples
    --------
    >>> from levelkit.exercises import example
    >>> print(marks_text(example("glass-reads-low"), {"height": "186.4 m"}).splitlines()[-1])
    4 of 7 marks
    """
    result = mark(question, answers)
    first = max(len(step.step) for step in result.steps) + 3
    lines = []
    for step in result.steps:
        said = step.message or {"shown": "The method shows in the value after it."}.get(
            step.verdict, "No value after it shows the method.")
        head = f"{step.step:<{first}}{step.entry:<18}{step.marks} of {step.of}  "
        lines.append(_lines(said, initial_indent=head, subsequent_indent=" " * len(head)))
    return "\n".join((*lines, f"{result.marks} of {result.maximum} marks"))


def _caution(question):
    return (question.caution,) if question.caution else ()
