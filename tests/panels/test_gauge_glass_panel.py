"""The gauge glass panel without a browser: one redraw, honest numbers, sentences for mistakes."""

import csv
import io
import re

import pytest
from handling import nothing_swallowed, redraws

from levelkit.lesson import gauge_glass_panel
from levelkit.panels.gauge_glass_panel import CIRCULATION, COLD, ONE_TEMPERATURE
from levelkit.physics.glass import glass_column_height
from levelkit.properties import compressed_water_density, steaming_drum_fluids
from levelkit.units import absolute_pressure, kelvin


@pytest.fixture()
def panel(caplog):
    """A panel; an exception swallowed by a callback fails the test."""
    with nothing_swallowed(caplog):
        yield gauge_glass_panel("water_tube")


def test_the_picture_follows_the_slider_and_owns_the_physics_number(panel):
    panel.controls["pressure"].value = 45.0
    fluids = steaming_drum_fluids(absolute_pressure(45.0, 101_325.0))
    water = compressed_water_density(fluids.pressure, kelvin(100.0))
    expected = 1000 * glass_column_height(0.25, fluids.water_density, fluids.steam_density, water)
    assert 1000 * panel.result.reading.indicated_level == pytest.approx(expected, abs=1e-9)
    assert f"{expected:.1f} mm" in panel._picture.value


def test_a_preset_of_several_controls_redraws_once(panel):
    seen = redraws(panel)
    panel.set(pressure=7.0, level=120, glass_temperature=60)
    assert len(seen) == 1 and "120.0 mm" in seen[0]


def test_every_preset_can_be_worked_out_and_reset_returns(panel):
    start = panel._picture.value
    for values in panel.presets.values():
        panel.set(**values)
        assert panel._problem.value == ""
    panel.reset()
    assert re.sub(r"lk\d+-", "", panel._picture.value) == re.sub(r"lk\d+-", "", start)


def test_cold_boiler_with_one_density_reads_right(panel):
    panel.set(state=COLD)
    assert panel.result.reading.error == pytest.approx(0.0, abs=1e-12)
    assert "agrees with the drum" in panel.drawing.words
    assert panel.controls["pressure"].disabled and panel.controls["glass_temperature"].disabled


def test_circulation_reads_higher_than_a_glass_at_100_degrees(panel):
    cool = panel.result.reading.indicated_level
    panel.set(model=CIRCULATION)
    assert panel.result.reading.indicated_level > cool + 0.020
    panel.set(model=ONE_TEMPERATURE)
    assert panel.result.reading.indicated_level == cool


def test_an_impossible_state_is_a_sentence_and_the_picture_stays(panel):
    before = panel._picture.value
    panel.set(pressure=2.0, glass_temperature=250)
    assert "boils" in panel._problem.value and "degC" in panel._problem.value
    assert "last state" in panel._problem.value and panel._picture.value == before
    panel.set(glass_temperature=90)
    assert panel._problem.value == "" and panel._picture.value != before


def test_a_fault_inside_a_panel_is_said_and_logged(caplog):
    broken = gauge_glass_panel("auxiliary")
    broken.evaluate = lambda values: 1 / 0
    broken.controls["level"].value = 210
    assert "failed inside" in broken._problem.value
    assert any(record.exc_info for record in caplog.records)


def test_hiding_the_truth_leaves_no_trace_of_it(panel):
    panel.set(level=253)
    panel.truth.value = False
    assert "253" not in re.sub(r'd="[^"]*"', "", panel.drawing.words)
    assert "true level hidden" in panel._picture.value
    assert ">253.0 mm<" not in panel._picture.value


def test_projector_size_draws_larger_letters(panel):
    small = max(float(x) for x in re.findall(r'font-size="([\d.]+)"', panel._picture.value))
    panel.projector.value = True
    large = max(float(x) for x in re.findall(r'font-size="([\d.]+)"', panel._picture.value))
    assert large > 1.3 * small and "lk-projector" in panel._dom_classes


def test_readings_are_kept_with_units_and_no_file_is_overwritten(panel, tmp_path):
    panel.readings.record()
    panel.set(pressure=7)
    panel.readings.record()
    first, second = panel.readings.save(tmp_path), panel.readings.save(tmp_path)
    assert first != second and first.read_text("utf-8") == second.read_text("utf-8")
    rows = list(csv.DictReader(io.StringIO(first.read_text("utf-8"))))
    assert [row["drum pressure [bar g]"] for row in rows] == ["60.0", "7.0"]
    assert all("[" in head for head in list(rows[0])[:5])


def test_saving_nothing_or_nowhere_is_a_sentence(panel, tmp_path):
    assert panel.readings.save(tmp_path) is None
    assert "Nothing is recorded" in panel.readings.view.value
    panel.readings.record()
    assert panel.readings.save(tmp_path / "missing") is None
    assert "could not be written" in panel.readings.view.value and len(panel.readings.rows) == 1
