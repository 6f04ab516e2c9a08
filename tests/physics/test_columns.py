"""The one rule: additive, linear, blind to everything but vertical extent."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from levelkit.constants import STANDARD_GRAVITY as G
from levelkit.errors import InputError
from levelkit.physics.columns import (
    Column,
    balancing_height,
    column_head,
    path_difference,
    pressure_at,
)

densities = st.floats(0.5, 14_000.0)
heights = st.floats(-5.0, 5.0)
columns = st.builds(Column, densities, heights, heights)


def test_ten_metres_of_cold_water_press_like_an_atmosphere():
    # 10.33 m of water at 1000 kg/m3 is one standard atmosphere: hand calculation.
    assert column_head([Column(1000.0, 0.0, 10.33)]) == pytest.approx(101_302.7, abs=0.1)


@given(densities, heights, heights, st.floats(0.0, 1.0))
def test_a_column_may_be_cut_anywhere(density, lower, upper, share):
    cut = lower + share * (upper - lower)
    whole = column_head([Column(density, lower, upper)])
    parts = column_head([Column(density, lower, cut), Column(density, cut, upper)])
    assert parts == pytest.approx(whole, rel=1e-9, abs=1e-6)


@given(st.lists(columns, max_size=6), st.lists(columns, max_size=6))
def test_pressure_is_additive_and_the_way_back_is_the_negative(down, up):
    assert column_head(down + up) == pytest.approx(column_head(down) + column_head(up), abs=1e-6)
    assert path_difference(down, up) == pytest.approx(-path_difference(up, down), abs=1e-6)
    assert path_difference(down, down) == 0.0


@given(st.lists(columns, min_size=1, max_size=6), heights)
def test_only_vertical_extent_counts(stack, lift):
    """Lifting everything, or running it sideways, changes nothing."""
    lifted = [Column(c.density, c.lower_height + lift, c.upper_height + lift) for c in stack]
    assert column_head(lifted) == pytest.approx(column_head(stack), abs=1e-4)


@given(densities, densities, st.floats(0.01, 2.0), st.floats(0.01, 2.0), st.floats(0.0, 1.0))
def test_pressure_inside_a_stack_falls_by_what_lies_below(lower, upper, first, second, share):
    stack = [Column(upper, first, first + second), Column(lower, 0.0, first)]  # any order
    height = share * (first + second)
    below = lower * G * min(height, first) + upper * G * max(height - first, 0.0)
    foot = pressure_at(0.0, 1e5, stack)
    assert pressure_at(height, 1e5, stack) == pytest.approx(foot - below, rel=1e-12)
    assert pressure_at(first + second, 1e5, stack) == 1e5


@given(densities, densities.filter(lambda rho: rho > 1.0), st.floats(-2.0, 2.0))
def test_balancing_height_is_the_ratio_of_the_densities(known, unknown, height):
    found = balancing_height(lambda z: path_difference(
        [Column(known, 0.0, height)], [Column(unknown, 0.0, z)]))
    assert found == pytest.approx(height * known / unknown, rel=1e-9, abs=1e-9)


def test_arrays_go_through_the_whole_rule():
    upper = np.array([[0.1, 0.2], [0.3, 0.4]])
    head = column_head([Column(900.0, 0.0, upper), Column(4.0, upper, 0.5)])
    assert head.shape == (2, 2)
    assert head[1, 0] == pytest.approx(G * (900 * 0.3 + 4 * 0.2))
    inside = pressure_at(np.array([0.0, 0.25]), 1e5, [Column(1000.0, 0.0, 0.5)])
    assert inside == pytest.approx([1e5 + 500 * G, 1e5 + 250 * G])


def test_what_has_no_answer_is_refused_with_a_sentence():
    with pytest.raises(InputError, match="column list is empty"):
        pressure_at(0.0, 1e5, [])
    gap = [Column(1000.0, 0.0, 0.2), Column(4.0, 0.3, 0.5)]
    with pytest.raises(InputError, match="one column ends at 0.2 m and the next begins at 0.3 m"):
        pressure_at(0.1, 1e5, gap)
    with pytest.raises(InputError, match="height 0.7 m is outside.*0 to 0.5 m"):
        pressure_at(0.7, 1e5, [Column(1000.0, 0.0, 0.5)])
    with pytest.raises(InputError, match="same density"):
        balancing_height(lambda z: path_difference(
            [Column(900.0, 0.0, z)], [Column(900.0, 0.0, z)]))
