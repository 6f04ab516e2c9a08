"""The mounting check: each line can fail, alone, at its limit. Limits: common practice."""

import pytest

from levelkit.physics.glass import GlassMounting
from levelkit.physics.mounting import LEAST_HEIGHT_ABOVE_TUBES, mounting_findings

GLASS = GlassMounting(0.5, 0.07, 0.43)  # 360 mm in sight, middle third 190 to 310 mm
GOOD = {"topmost_tube": -0.10, "normal_level": 0.25, "low_alarm": 0.17, "high_alarm": 0.33}


def met(**changes):
    return [finding.met for finding in mounting_findings(GLASS, **{**GOOD, **changes})]


def test_a_sound_mounting_meets_all_four():
    assert met() == [True, True, True, True]


@pytest.mark.parametrize("changes, line", [
    ({"topmost_tube": -0.079}, 0), ({"topmost_tube": 0.0}, 0),
    ({"normal_level": 0.189}, 1), ({"normal_level": 0.311}, 1),
    ({"low_alarm": 0.069}, 2), ({"low_alarm": 0.44}, 2),
    ({"high_alarm": 0.431}, 3), ({"high_alarm": 0.06}, 3),
])
def test_each_line_fails_alone(changes, line):
    assert met(**changes) == [number != line for number in range(4)]


@pytest.mark.parametrize("changes", [
    {"topmost_tube": -0.081}, {"normal_level": 0.191}, {"normal_level": 0.309},
    {"low_alarm": 0.07}, {"low_alarm": 0.43}, {"high_alarm": 0.07}, {"high_alarm": 0.43},
])
def test_just_inside_the_limit_is_met(changes):
    assert all(met(**changes))


def test_six_inches_are_a_little_more_than_the_limit():
    assert 0 < 6 * 0.0254 - LEAST_HEIGHT_ABOVE_TUBES < 0.003


def test_each_line_says_value_limit_and_where_it_comes_from():
    clearance, normal, low, high = mounting_findings(GLASS, **GOOD)
    assert clearance.value == pytest.approx(0.17) and "0.150 m" in clearance.limit
    assert normal.value == 0.25 and normal.limit == "0.190 to 0.310 m"
    assert low.limit == high.limit == "0.070 to 0.430 m"
    assert {finding.source for finding in (clearance, normal, low, high)} == {
        "common practice, no source"}
