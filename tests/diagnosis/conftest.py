"""Signatures are worked out once for all tests of the bench."""

import pytest
from bench_states import setting

from levelkit.diagnosis.pairs import Pairs
from levelkit.diagnosis.setting import SHARED
from levelkit.diagnosis.signatures import Signatures


@pytest.fixture(scope="session")
def signatures():
    return Signatures(setting(arrangement=SHARED))


@pytest.fixture(scope="session")
def pairs(signatures):
    return Pairs(signatures)
