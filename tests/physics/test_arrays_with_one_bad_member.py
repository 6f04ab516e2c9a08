"""One impossible member in an array is refused, and not only where all are impossible."""

from dataclasses import replace

import numpy as np
import pytest
from remote_states import drum_and_legs, two_fluid

from levelkit.errors import InputError
from levelkit.physics.columns import Column, balancing_height, path_difference, pressure_at
from levelkit.physics.differential import reference_differential
from levelkit.physics.fluid_balance import fluid_difference
from levelkit.physics.heat_loss import lagged_tube_heat_loss
from levelkit.physics.leg_state import LegsState, checked_contents
from levelkit.physics.two_fluid import two_fluid_reading

WATER, STEAM = np.array([785.5, 322.0]), np.array([23.2, 322.0])  # the second: critical point


def test_one_fluid_of_the_density_of_the_other():
    densities = np.array([900.0, 1000.0])
    with pytest.raises(InputError, match="same density"):
        balancing_height(lambda height: path_difference(
            [Column(densities, 0.0, 0.2)], [Column(1000.0, 0.0, 0.2 - height),
                                            Column(densities, 0.0, height)]))


def test_one_lagging_thinner_than_its_tube():
    with pytest.raises(InputError, match="larger than the inner diameter"):
        lagged_tube_heat_loss(393.0, 308.0, np.array([0.05, 0.2]), 0.12, 0.04)


@pytest.mark.parametrize("filling, words", [
    (lambda filling: np.array([filling, 0.5 * filling]), "above the bend is -"),
    (lambda filling: np.array([filling, 1.5 * filling]), "blown over.*would stand"),
])
def test_one_filling_too_small_or_too_large(filling, words):
    state = two_fluid(bores=(0.008, 0.008))
    bend = replace(state.tube, bend_volume=2.0 * state.filling)
    whole = state.filling + bend.bend_volume
    two_fluid_reading(replace(state, tube=bend, filling=whole))
    with pytest.raises(InputError, match=words):
        two_fluid_reading(replace(state, tube=bend, filling=filling(whole)))


def test_one_leg_water_as_dense_as_the_fluid():
    state = two_fluid()
    legs = replace(state.legs, reference_run_density=np.array([990.0, 1090.0]),
                   drum_run_density=990.0)
    light = replace(state, legs=legs, fluid=replace(state.fluid, density=1080.0))
    with pytest.raises(InputError, match=r"not denser than the water on it \(1090 kg/m3\)"):
        two_fluid_reading(light)
    with pytest.raises(InputError, match="990 kg/m3.*not denser than the leg water"):
        fluid_difference(0.2, 0.5, 785.5, 23.2, 992.2, np.array([1373.0, 990.0]))


def test_one_steam_as_dense_as_the_water():
    drum, legs = drum_and_legs()
    with pytest.raises(InputError, match="denser"):
        checked_contents(replace(drum, water_density=WATER, steam_density=STEAM), legs.weir_height)
    with pytest.raises(InputError, match="denser"):
        reference_differential(0.2, 0.5, WATER, STEAM, 992.2)


def test_one_leg_without_room_for_its_gas():
    with pytest.raises(InputError, match="together are 0.6 m"):
        LegsState(0.5, 2.0, 990.0, 990.0, 990.0, reference_loss=np.array([0.1, 0.3]),
                  reference_gas=0.3)


def test_one_height_above_the_top_of_the_columns():
    stack = [Column(4.0, 0.2, 0.5), Column(897.0, 0.0, 0.2)]
    for heights in ([0.1, 0.6], [-0.1, 0.1]):
        with pytest.raises(InputError, match="inside|stack|columns"):
            pressure_at(np.array(heights), 8e5, stack)
