"""Equal masses in equal bores: equal pressure on the foot, height and density in inverse ratio."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from levelkit.errors import InputError
from levelkit.physics.columns import Column, column_head
from levelkit.physics.equal_masses import mass_column_height

AREA = 5.0e-3


@given(st.floats(0.1, 100), st.floats(0.5, 2000))
def test_a_mass_presses_with_its_weight_whatever_its_density(mass, density):
    height = mass_column_height(mass, density, AREA)
    assert column_head([Column(density, 0.0, height)], 9.81) == pytest.approx(mass * 9.81 / AREA)


@given(st.floats(1, 1000), st.floats(1.001, 2.0))
def test_the_lighter_fluid_stands_taller_in_inverse_ratio(density, times):
    heavy, light = (mass_column_height(1.0, rho, AREA) for rho in (density * times, density))
    assert light > heavy and light / heavy == pytest.approx(times)


def test_arrays_keep_their_shape():
    assert mass_column_height(1.0, np.array([[998.2, 756.1]]), AREA).shape == (1, 2)


@pytest.mark.parametrize("mass, density, area", [(-1, 1000, AREA), (1, 0, AREA), (1, 1000, 0),
                                                 (1, float("nan"), AREA), ("1", 1000, AREA)])
def test_bad_input_is_refused(mass, density, area):
    with pytest.raises(InputError, match="allowed range"):
        mass_column_height(mass, density, area)
