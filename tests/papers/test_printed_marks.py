"""The marks printed beside the steps of a question add up to what the question is worth."""

import pytest

from levelkit.exercises import example, families, mark
from levelkit.papers.documents import question_data


@pytest.mark.parametrize("family_id", families())
def test_printed_marks_add_up_to_the_marks_to_be_had(family_id):
    variant = example(family_id)
    printed = sum(step["marks"] for step in question_data(variant)["asks"])
    assert printed == mark(variant, {}).maximum
