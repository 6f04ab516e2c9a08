"""The optics panel without a browser: critical angles, contrast that fails, stripes that turn."""

import csv
import io
import logging
from math import asin, degrees

import pytest
from handling import press, type_in

from levelkit.lesson import optics_panel
from levelkit.physics.glass_choice import REFLEX, TUBULAR
from levelkit.physics.optics import BOROSILICATE, SODALIME


@pytest.fixture()
def panel(caplog):
    made = optics_panel()
    yield made
    assert not [r for r in caplog.records if r.name in ("traitlets", "levelkit")
                and r.levelno >= logging.ERROR]


@pytest.mark.parametrize("glass", [SODALIME, BOROSILICATE])
def test_steam_is_bright_and_water_dark_from_1_to_100_bar(panel, glass):
    for pressure in (0, 1, 7, 16, 30, 60, 100):
        panel.set(pressure=pressure, glass=glass)
        groove = panel.result.groove
        assert degrees(groove.critical_angle_steam) < 45 < degrees(groove.critical_angle_water)
        assert groove.contrast == "clear" and "steam is BRIGHT" in panel.drawing.svg


def test_the_angles_on_the_screen_are_the_arc_sines_of_the_indices(panel):
    case = panel.result
    for index in (case.steam_index, case.water_index):
        assert f"{degrees(asin(index / case.glass_index)):.1f}\u00b0" in panel.drawing.svg


def test_the_contrast_fails_by_dirt_from_the_side_and_near_the_critical_pressure(panel):
    for label, cause in (("reflex, dirty", "glare hides"), ("from the side", "no longer reflects"),
                         ("reflex, 180 bar g", "no longer reflects")):
        press(panel, label)
        assert cause in panel.drawing.words and "contrast FAILS" in panel.drawing.svg


def test_hot_water_bends_less_until_the_stripes_no_longer_turn(panel):
    scales = []
    for pressure in (0, 7, 60, 100, 150):
        panel.set(gauge=TUBULAR, pressure=pressure, glass=SODALIME)
        scales.append(panel.result.behind_water.magnification)
    assert scales == sorted(scales) and scales[0] < 0 < scales[-1]
    assert "plate too near" in panel.drawing.svg
    panel.set(pressure=7, plate=12)
    assert panel.result.behind_water.magnification > 0


def test_controls_without_a_say_are_switched_off(panel):
    assert panel.controls["plate"].disabled and not panel.controls["side"].disabled
    panel.set(gauge=TUBULAR)
    assert panel.controls["side"].disabled and not panel.controls["plate"].disabled


def test_every_preset_redraws_once_and_reset_returns(panel):
    for label in panel.presets:
        seen = []
        panel._picture.observe(lambda change, seen=seen: seen.append(change["new"]), "value")
        press(panel, label)
        panel._picture.unobserve_all("value")
        assert len(seen) <= 1 and panel._problem.value == "", label
    press(panel, "Reset")
    assert panel.result.gauge == REFLEX and panel.values() == panel._start


def test_a_typed_comma_and_a_refusal(panel):
    type_in(panel.controls["side"], "3,0")
    assert panel.controls["side"].value == 3.0
    type_in(panel.controls["side"], "80")
    assert "outside 0 to 60" in panel.controls["side"].message


def test_readings_have_units(panel):
    panel.readings.record()
    row = next(csv.DictReader(io.StringIO(panel.readings.text())))
    assert row["critical angle, steam [deg]"] == "41.09"
    assert float(row["water, light back [%]"]) < 0.1
