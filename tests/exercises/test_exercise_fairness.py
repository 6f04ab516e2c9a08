"""Data that put a level outside the instrument are called unfair."""

import pytest

from levelkit.exercises import example
from levelkit.exercises.data import in_si
from levelkit.exercises.solution import solved


def unfair_with(family_id, **changes):
    one = example(family_id)
    return solved(one.family.answer, in_si(one.family, one.data) | changes).unfair


@pytest.mark.parametrize("family_id, name, outside", [
    ("two-fluid-level", "difference", 1.4), ("two-fluid-level", "difference", 0.02),
    ("level-from-differential", "differential", 10.0),
    ("compensation", "differential", 10.0),
])
def test_a_level_below_or_above_the_range_is_unfair(family_id, name, outside):
    assert not unfair_with(family_id)
    assert "outside the range" in unfair_with(family_id, **{name: outside})


@pytest.mark.parametrize("family_id, share", [
    ("hot-read-cold", 0.95), ("two-fluid-cold-boiler", 0.95), ("part-pressure", 0.01),
    ("leg-lost", 0.99), ("warm-indicating-fluid", 0.001), ("glass-and-transmitter", 0.01),
])
def test_a_reading_beyond_the_end_of_the_scale_is_unfair(family_id, share):
    assert not unfair_with(family_id)
    one = example(family_id)
    level = share * in_si(one.family, one.data)["weir"]
    assert "outside the range" in unfair_with(family_id, level=level)


def test_a_forcing_close_to_resonance_is_unfair():
    natural = example("sloshing").solution.steps["natural"]
    assert "resonance" in unfair_with("sloshing", forcing=1.19 * natural)
    assert not unfair_with("sloshing", forcing=1.21 * natural)
