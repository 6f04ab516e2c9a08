"""Outside values of remote indicators; row, source and how it is known stand in the test id."""

import pytest
from outside import outside_values

from levelkit.check.computed import computed_value
from levelkit.check.sections import SECTIONS

TOPICS = [topic for section in ("columns and manometers", "two-fluid indicator",
                                "transmitter and reference leg", "signal")
          for topic in SECTIONS[section]]


@pytest.mark.parametrize("row", outside_values(*TOPICS))
def test_outside_value(row):
    assert computed_value(row) == pytest.approx(row.expected, rel=0, abs=row.allowed)
