"""The gauge glass: closed forms as the second route, printed answers, and the slips refused."""

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from outside import outside_values

from levelkit.check.values import check_values
from levelkit.check.water import computed_value
from levelkit.errors import InputError
from levelkit.physics.glass import (
    ABOVE_SIGHT,
    BELOW_SIGHT,
    IN_SIGHT,
    GaugeGlassState,
    GlassMounting,
    drum_level,
    external_column_glass_height,
    gauge_glass_reading,
    glass_column_height,
)

MOUNTING = GlassMounting(0.5, 0.07, 0.43)
levels = st.floats(-1.0, 2.0)
waters = st.floats(550.0, 1010.0)
steams = st.floats(0.0, 150.0)


@pytest.mark.parametrize("row", outside_values("gauge glass table",
                                               "gauge glass worked example"))
def test_printed_answer(row):
    assert computed_value(row) == pytest.approx(row.expected, rel=0, abs=row.allowed)


AUX, HIGH, COLD_TAP = (897.0, 4.16, 962.2), (756.1, 31.4, 929.2), 998.0
SLIPS = [  # example, printed wrong answer, the slip that makes it
    ("EXAMPLE-7bar-height", 200.0, 200.0),                                  # connected means level
    ("EXAMPLE-7bar-height", 214.6, 200 * (962.2 - 4.16) / (897.0 - 4.16)),  # ratio upside down
    ("EXAMPLE-7bar-height", 179.7, 200 * (897.0 - 4.16) / (COLD_TAP - 4.16)),  # tap water
    ("EXAMPLE-60bar-level", 209.9, 260 * (756.1 - 31.4) / (929.2 - 31.4)),  # upside down
    ("EXAMPLE-60bar-level", 319.5, 260 * 929.2 / 756.1),                    # steam forgotten
    ("EXAMPLE-60bar-level", 346.8, 260 * (COLD_TAP - 31.4) / (756.1 - 31.4)),  # tap water
    ("EXAMPLE-80bar-error", -74.8, 300 * 720.5 / 960 - 300),                # steam forgotten
    ("EXAMPLE-80bar-error", 106.1, 300 * (960 - 43.1) / (720.5 - 43.1) - 300),  # upside down
    ("EXAMPLE-16bar-visible", 120.9, 110 * (943.9 - 8.57) / (859.6 - 8.57)),  # from bottom nut
    ("EXAMPLE-16bar-visible", 110.0, 110.0),                                # no correction
    ("EXAMPLE-16bar-visible", 93.8, 180 * (859.6 - 8.57) / (943.9 - 8.57) - 70),  # upside down
    ("EXAMPLE-40bar-plate", 300.0, 300.0),                                  # drum level
    ("EXAMPLE-40bar-plate", 343.8, 300 * (909.5 - 20.6) / (796.2 - 20.6)),  # upside down
    ("EXAMPLE-40bar-plate", 238.1, 300 * (796.2 - 20.6) / (COLD_TAP - 20.6)),  # tap water
]


@pytest.mark.parametrize("name, printed, slip", SLIPS)
def test_printed_wrong_answer_comes_from_its_slip_and_is_refused(name, printed, slip):
    row = check_values()[name]
    assert slip == pytest.approx(printed, abs=0.06)
    assert abs(printed - computed_value(row)) > 3 * row.allowed


def test_steam_forgotten_hardly_shows_at_low_pressure():
    """Why the slip survives in people who never meet high pressure."""
    with_steam, without = (1000 * glass_column_height(0.2, 897.0, steam, 962.2)
                           for steam in (4.16, 0.0))
    assert abs(with_steam - without) < 0.1


@given(levels, waters, steams, waters)
def test_closed_form(level, water, steam, glass):
    height = glass_column_height(level, water, steam, glass)
    expected = level * (water - steam) / (glass - steam)
    assert height == pytest.approx(expected, rel=1e-9, abs=1e-12)


@given(levels, waters, steams, waters)
def test_glass_and_back_is_the_identity(level, water, steam, glass):
    height = glass_column_height(level, water, steam, glass)
    assume(abs(height) < 5)
    assert drum_level(height, water, steam, glass) == pytest.approx(level, rel=1e-9, abs=1e-12)


@given(st.floats(0.0, 2.0), waters, steams, st.floats(0.0, 300.0))
def test_glass_with_denser_water_never_reads_above_the_drum(level, water, steam, denser):
    height = glass_column_height(level, water, steam, min(water + denser, 1100.0))
    assert height <= level * (1 + 1e-12)


@given(levels, waters, steams)
def test_equal_densities_give_equal_levels(level, water, steam):
    height = glass_column_height(level, water, steam, water)
    assert height == pytest.approx(level, rel=1e-12, abs=1e-12)


@given(levels, waters, steams, waters, waters)
def test_density_of_an_external_column_cancels_with_one_datum(level, water, steam, column, glass):
    through = external_column_glass_height(level, water, steam, column, glass)
    direct = glass_column_height(level, water, steam, glass)
    assert through == pytest.approx(direct, rel=1e-9, abs=1e-9)


def test_density_of_an_external_column_counts_with_a_raised_tapping():
    # Hand calculation: column 0.2 (756.1-31.4)/(900-31.4) = 166.87 mm; the glass hangs 50 mm up:
    # 50 + 116.87 (900-31.4)/(958-31.4) = 159.55 mm, against 156.42 mm with one datum.
    found = external_column_glass_height(0.2, 756.1, 31.4, 900.0, 958.0, lower_tapping=0.05)
    assert 1000 * found == pytest.approx(159.55, abs=0.01)
    assert 1000 * glass_column_height(0.2, 756.1, 31.4, 958.0) == pytest.approx(156.42, abs=0.01)


def reading(level, glass_density=943.9):
    return gauge_glass_reading(GaugeGlassState(level, 859.6, 8.57, glass_density, MOUNTING))


def test_the_error_counts_from_the_connection_whatever_the_window():
    low, high = GlassMounting(0.5, 0.0, 0.43), GlassMounting(0.5, 0.15, 0.43)
    states = [GaugeGlassState(0.25, 859.6, 8.57, 943.9, mounting) for mounting in (low, high)]
    first, second = (gauge_glass_reading(state) for state in states)
    assert first.error == second.error < 0
    assert first.reading - second.reading == pytest.approx(0.15)


@pytest.mark.parametrize("level, visibility", [
    (-0.2, BELOW_SIGHT), (0.0, BELOW_SIGHT), (0.076, BELOW_SIGHT), (0.078, IN_SIGHT),
    (0.25, IN_SIGHT), (0.472, IN_SIGHT), (0.473, ABOVE_SIGHT), (0.8, ABOVE_SIGHT),
])
def test_out_of_sight_is_said_and_never_given_as_a_number(level, visibility):
    # The window of 70 to 430 mm is 76.94 to 472.6 mm of drum level at these densities.
    result = reading(level)
    assert result.visibility == visibility
    assert np.isnan(result.reading) == (visibility != IN_SIGHT)


def test_arrays_give_what_scalars_give():
    many = reading(np.array([0.0, 0.2, 0.6]))
    assert many.visibility.tolist() == [BELOW_SIGHT, IN_SIGHT, ABOVE_SIGHT]
    for index, level in enumerate((0.0, 0.2, 0.6)):
        one = reading(level)
        assert many.indicated_level[index] == one.indicated_level
        assert np.array_equal(many.reading[index], one.reading, equal_nan=True)


@pytest.mark.parametrize("arguments, sentence", [
    ((250, 756.1, 31.4, 958.0), "drum level is 250 m; the allowed range is -5 to 5 m. Give metres"),
    ((0.25, 31.4, 756.1, 958.0), "steam density is 756.1 kg/m3; the allowed range is 0 to 400"),
    ((0.25, 30.0, 40.0, 958.0), r"drum water \(30 kg/m3\) is not denser than the steam \(40"),
    ((0.25, 756.1, 40.0, 30.0), r"glass water \(30 kg/m3\) is not denser than the steam \(40"),
    ((float("nan"), 756.1, 31.4, 958.0), "drum level is nan m"),
])
def test_bad_input_is_answered_with_a_sentence(arguments, sentence):
    for function in (glass_column_height, drum_level):
        with pytest.raises(InputError, match=sentence.replace("drum level", ".*")):
            function(*arguments)


@pytest.mark.parametrize("heights, sentence", [
    ((500, 0.07, 0.43), "steam connection is 500 m"),
    ((0.5, 0.6, 0.7), "visible bottom is 0.6 m; the allowed range is 0 to 0.5 m"),
    ((0.5, 0.07, 0.55), "visible top is 0.55 m; the allowed range is 0.08 to 0.5 m"),
    ((0.5, 0.07, 0.05), "visible top is 0.05 m"),
])
def test_impossible_mounting_is_refused(heights, sentence):
    with pytest.raises(InputError, match=sentence):
        GlassMounting(*heights)
