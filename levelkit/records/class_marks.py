"""Marks of a class: every candidate, question and step, with what was changed by hand."""

from dataclasses import dataclass

from ..exercises import mark
from .faults import Fault


@dataclass(frozen=True, slots=True)
class MarkedStep:
    """One step of one candidate.

    Attributes
    ----------
    question : int
        Number of the question.
    mark : StepMark
        What the marking says.
    override : Override or None
        What was changed by hand.
    """

    question: int
    mark: object
    override: object = None

    @property
    def marks(self):
        """Marks that count."""
        return self.override.marks if self.override else self.mark.marks


@dataclass(frozen=True, slots=True)
class CandidateMarks:
    """One candidate's marks.

    Attributes
    ----------
    number : str
        Candidate number.
    steps : tuple of MarkedStep
        In the order of the paper; empty for whoever handed nothing in.
    questions : int
        How many questions the paper has.
    """

    number: str
    steps: tuple
    questions: int

    @property
    def present(self):
        """Whether anything was handed in."""
        return bool(self.steps)

    @property
    def total(self):
        """Sum of marks."""
        return sum(step.marks for step in self.steps)

    def of_question(self, number):
        """Return the sum of marks of one question."""
        return sum(step.marks for step in self.steps if step.question == number)

    @property
    def slips(self):
        """The steps at which a known slip was made, in order."""
        return tuple(step for step in self.steps if step.mark.slip)

    @property
    def misconceptions(self):
        """Codes behind the slips, each once, in order."""
        return tuple(dict.fromkeys(step.mark.misconception for step in self.slips
                                   if step.mark.misconception))


@dataclass(frozen=True, slots=True)
class ClassMarks:
    """A marked class.

    Attributes
    ----------
    paper : ClassPaper
        What was marked.
    candidates : tuple of CandidateMarks
        Everybody of the paper, in its order.
    faults : tuple of Fault
        What could not be read or marked.
    """

    paper: object
    candidates: tuple
    faults: tuple

    @property
    def present(self):
        """Those who handed something in."""
        return tuple(one for one in self.candidates if one.present)

    def candidate(self, number):
        """Return one candidate's marks."""
        return next(one for one in self.candidates if one.number == number)


def mark_class(paper, answers, overrides=None):
    """Return the marks of a class.

    Parameters
    ----------
    paper : ClassPaper
        The questions with everybody's numbers.
    answers : Answers
        What was handed in.
    overrides : dict of tuple to Override, optional
        Marks changed by hand, by candidate, question and step.

    Returns
    -------
    ClassMarks
        Everybody, also those who handed nothing in.
    """
    marked, faults, overrides = [], list(answers.faults), overrides or {}
    paper = paper.with_variants(answers.variants)
    for one in paper.papers:
        number, entries = one.candidate.number, answers.entries.get(one.candidate.number)
        steps = []
        for question, variant in enumerate(one.variants, 1) if entries else ():
            typed = {step: text for (asked, step), text in entries.items() if asked == question}
            try:
                result = mark(variant, typed)
            except Exception as problem:  # one odd answer must not cost the class its marks
                faults.append(Fault(answers.sources[number], 0, f"Question {question} could not be "
                                    f"marked ({type(problem).__name__}: {problem}).",
                                    "Mark it by hand with overrides.", repr(typed)[:300]))
                result = mark(variant, {})
            steps += [MarkedStep(question, step, overrides.get((number, question, step.step)))
                      for step in result.steps]
        marked.append(CandidateMarks(number, tuple(steps), len(one.variants)))
    return ClassMarks(paper, tuple(marked), tuple(faults))
