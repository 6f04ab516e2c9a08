"""Outside values of remote indicators; row and source stand in the test id."""

import pytest
from outside import outside_values
from remote_values import computed_value

from levelkit.check.values import check_values, documents

FILE = "check_values_remote.csv"


@pytest.mark.parametrize("row", outside_values(FILE))
def test_outside_value(row):
    assert computed_value(row) == pytest.approx(row.expected, rel=0, abs=row.allowed)


def test_every_row_names_a_listed_document():
    assert {row.source for row in check_values(FILE).values()} <= set(documents())
