"""List, roll and slosh against worked examples, limits and the equations of motion."""

from math import cos, pi, radians, sin, tan

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from outside import outside_values

from levelkit.check.computed import computed_value
from levelkit.errors import InputError
from levelkit.physics import motion
from levelkit.physics.columns import Column, path_difference
from levelkit.physics.drum_geometry import Drum
from levelkit.physics.inclination import InclinedSurface, level_at


@pytest.mark.parametrize("row", outside_values("ship motion"))
def test_outside_value(row):
    assert computed_value(row) == pytest.approx(row.expected, rel=0, abs=row.allowed)


def test_a_chamber_off_to_the_high_side_reads_low():
    """The offset works with leg less steam, for steam stands above the drum to the same height."""
    angle, offset, leg, steam = radians(10.0), -0.3, 990.6, 31.4  # 0.3 m to starboard, list to port

    def difference(to_port):
        weir = motion.vertical_height(0.8, to_port, list_angle=angle)
        level = motion.vertical_height(0.4, list_angle=angle)
        return path_difference(
            [Column(leg, 0.0, weir)], [Column(steam, level, weir), Column(756.1, 0.0, level)], 9.81)

    extra = difference(offset) - difference(0.0)
    assert extra == pytest.approx((leg - steam) * 9.81 * 0.3 * sin(angle), rel=1e-12)
    assert extra > 0  # more head on the leg is what a lower level would make


@given(st.floats(-0.05, 0.05), st.floats(5.0, 30.0), st.floats(-20.0, 20.0))
def test_apparent_list_is_the_direction_of_gravity_less_acceleration(roll, period, height):
    """A point at z above the axis, differentiated twice along its arc, seen from the ship."""
    omega, gravity, step = 2 * pi / period, 9.80665, 1e-3

    def place(time):
        angle = roll * cos(omega * time)
        return np.array([height * sin(angle), height * cos(angle)])  # towards the low side, up

    acceleration = (place(step) - 2 * place(0.0) + place(-step)) / step ** 2
    felt = np.array([0.0, -gravity]) - acceleration
    across = felt[0] * cos(roll) - felt[1] * sin(roll)
    down = -(felt[0] * sin(roll) + felt[1] * cos(roll))
    found = motion.apparent_list(roll, period, height)
    third_order = (abs(found) + abs(roll)) ** 3  # what a small-angle result leaves out
    assert across / down == pytest.approx(found, abs=third_order + 1e-6)


def test_below_the_axis_the_surface_swings_less_and_far_below_against_the_roll():
    assert 0 < motion.apparent_list(0.1, 9.0, -6.0) < 0.1 < motion.apparent_list(0.1, 9.0, 6.0)
    assert motion.apparent_list(0.1, 5.0, -20.0) < 0
    assert motion.apparent_list(0.1, 120.0, 6.0) == pytest.approx(0.1, rel=0.002)


@given(st.floats(0.5, 20.0))
def test_slosh_period_between_deep_and_shallow_water(length):
    deep = (4 * pi * length / 9.80665) ** 0.5  # tanh = 1
    assert motion.slosh_period(length, length) == pytest.approx(deep, rel=0.003)
    assert motion.slosh_period(length, 0.005 * length) == pytest.approx(
        2 * length / (9.80665 * 0.005 * length) ** 0.5, rel=1e-4)


def test_amplification_equals_a_driven_oscillator():
    from scipy.integrate import solve_ivp

    natural, forcing = 4.47, 8.0
    own, driven = 2 * pi / natural, 2 * pi / forcing
    gain = motion.swing_amplification(forcing, natural)
    run = solve_ivp(lambda t, y: [y[1], own ** 2 * (sin(driven * t) - y[0])], (0, 16),
                    [0.0, gain * driven], rtol=1e-9, t_eval=np.linspace(0, 16, 401))
    assert np.abs(run.y[0]).max() == pytest.approx(gain, rel=1e-3)
    assert motion.swing_amplification(natural, forcing) < 0


def test_resonance_is_refused_in_words():
    with pytest.raises(InputError, match="resonance"):
        motion.swing_amplification(4.5, 4.47)


@given(st.floats(-1.3, 1.3), st.floats(-1.3, 1.3))
def test_vertical_height_shrinks_by_the_cosine_of_the_whole_inclination(list_angle, trim_angle):
    upright = motion.vertical_height(1.0, list_angle=list_angle, trim_angle=trim_angle)
    port = motion.vertical_height(0.0, 1.0, 0.0, list_angle, trim_angle)
    aft = motion.vertical_height(0.0, 0.0, 1.0, list_angle, trim_angle)
    assert upright ** 2 + port ** 2 + aft ** 2 == pytest.approx(1.0)  # turned, not stretched
    assert port * list_angle <= 0 and aft * trim_angle <= 0  # the low side goes down


@given(st.floats(-1.0, 1.0), st.floats(-2.0, 2.0), st.floats(-2.0, 2.0))
def test_every_place_on_the_inclined_surface_has_one_vertical_height(list_angle, to_port, aft):
    surface = InclinedSurface(Drum(0.65, 5.6), 0.2, tan(list_angle), tan(0.05), 0.0, 0.0)
    height = level_at(surface, to_port, aft)
    found = motion.vertical_height(height, to_port, aft, list_angle, 0.05)
    assert found == pytest.approx(motion.vertical_height(0.2, 0, 0, list_angle, 0.05), abs=1e-9)


def test_arrays_go_through():
    times = np.linspace(0, 9, 7)
    roll = 0.17 * np.sin(2 * pi * times / 9)
    shift = motion.level_shift(2.2, motion.apparent_list(roll, 9.0, 6.0))
    assert shift.shape == (7,)
    assert shift[1] == motion.level_shift(2.2, motion.apparent_list(float(roll[1]), 9.0, 6.0))


@pytest.mark.parametrize("call, words", [
    (lambda: motion.apparent_list(10.0, 9.0, 6.0), "10 degrees is 0.1745"),
    (lambda: motion.slosh_period(5.4, 0.0), "0.001 to 20 m"),
    (lambda: motion.roll_period(10.0, -0.1), "must be stable"),
    (lambda: motion.level_shift(None, 0.1), "not a number"),
])
def test_unusable_values_say_what_to_do(call, words):
    with pytest.raises(InputError, match=words):
        call()

