"""Exercises: question families, variants with their own numbers, worked steps and marking.

>>> question = variant("glass-reads-low", "class secret", "sheet 1", "candidate 7")
>>> [step.id for step in question.steps]
['height', 'error']
>>> mark(question, {"height": "200 mm"}).marks
0
"""

from .bank import families, family, outcomes
from .data import inconsistencies
from .family import BankError
from .marking import MarkResult, StepMark, mark
from .question import Variant
from .variants import class_variants, example, variant, with_data
from .working import BLANK, FULL, PARTLY, WorkedStep, faded, worked_steps

__all__ = [
    "BLANK", "BankError", "FULL", "MarkResult", "PARTLY", "StepMark", "Variant", "WorkedStep",
    "class_variants", "example", "faded", "families", "family", "inconsistencies", "mark",
    "outcomes", "variant", "with_data", "worked_steps",
]
