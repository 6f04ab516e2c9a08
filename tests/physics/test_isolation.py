"""Mass lost while a broken glass is shut, against a sum second by second."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from levelkit.errors import InputError
from levelkit.physics.isolation import isolation_loss

flows = st.floats(0.0, 5.0)


@given(flows, flows, st.integers(1, 120))
def test_it_is_what_both_ends_blow_until_each_is_shut(first, second, seconds):
    lost = sum((first if t < seconds else 0.0) + second for t in range(2 * seconds))
    assert isolation_loss(first, second, seconds) == pytest.approx(lost, rel=1e-9)


@given(flows, flows, st.floats(0.0, 120.0))
def test_the_larger_flow_first_never_loses_more(a, b, seconds):
    larger, smaller = max(a, b), min(a, b)
    saved = isolation_loss(smaller, larger, seconds) - isolation_loss(larger, smaller, seconds)
    assert saved == pytest.approx((larger - smaller) * seconds, abs=1e-9)


def test_arrays_and_refusals():
    assert isolation_loss(np.array([0.5, 1.0]), 0.25, 20.0) == pytest.approx([20.0, 30.0])
    with pytest.raises(InputError, match="time for each cock"):
        isolation_loss(0.5, 0.2, -1.0)
