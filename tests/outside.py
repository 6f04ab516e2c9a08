"""Rows of the files of check values as test parameters; row and source stand in the test id."""

import pytest

from levelkit.check.values import check_values


def outside_values(file_name, *topics):
    """Return one test parameter for every row of a file, or of some of its topics."""
    rows = check_values(file_name).values()
    return [pytest.param(row, id=f"{row.id} [{row.source}]") for row in rows
            if not topics or row.topic in topics]
