"""Rows of the check values as test parameters; row and source stand in the test id."""

import pytest

from levelkit.check.values import check_values


def outside_values(*topics, prefix=""):
    """Return one test parameter for every row, or for some topics or beginnings of an id."""
    found = [pytest.param(row, id=f"{row.id} [{row.source}, {row.known}]")
             for row in check_values().values()
             if (not topics or row.topic in topics) and row.id.startswith(prefix)]
    assert found, f"no row for {topics} {prefix}"
    return found
