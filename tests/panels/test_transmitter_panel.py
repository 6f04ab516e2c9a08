"""The DP transmitter panel without a browser: one redraw, honest numbers, valves that remember."""

import csv
import io
import re
from html import unescape

import pytest
from handling import nothing_swallowed, press, redraws, type_in

from levelkit.constants import CAUTION
from levelkit.faults import fault_named
from levelkit.lesson import transmitter_panel
from levelkit.physics.differential import indicated_level
from levelkit.physics.transmitter import transmitter_reading
from levelkit.physics.transmitter_range import DIRECT
from levelkit.properties import compressed_water_density, steaming_drum_fluids
from levelkit.units import absolute_pressure, kelvin

BAROMETER = 101_325.0


@pytest.fixture()
def panel(caplog):
    """A panel; an exception swallowed by a callback fails the test."""
    with nothing_swallowed(caplog):
        yield transmitter_panel("water_tube")


def densities(gauge_bar, leg_celsius):
    fluids = steaming_drum_fluids(absolute_pressure(gauge_bar, BAROMETER))
    leg = compressed_water_density(fluids.pressure, kelvin(leg_celsius))
    return fluids.water_density, fluids.steam_density, leg


@pytest.mark.parametrize("gauge_bar, leg_celsius, level", [(60, 50, 250), (30, 50, 180),
                                                           (5, 35, 230), (80, 90, 300)])
def test_the_panel_shows_what_an_instrument_with_the_other_densities_shows(
        panel, gauge_bar, leg_celsius, level):
    """By another route than the panel's: the balance made with one set of densities, read with
    another, no transmitter and no current in between."""
    panel.set(pressure=gauge_bar, leg_temperature=leg_celsius, level=level)
    expected = indicated_level(level / 1000, 0.5, *densities(gauge_bar, leg_celsius),
                               *densities(60, 50))
    assert panel.result.reading.indicated_level == pytest.approx(expected, abs=1e-9)
    assert f"{1000 * expected:.1f} mm" in panel._picture.value


def test_connection_and_depth_change_the_sign_and_the_pressures_but_not_the_reading(panel):
    panel.set(pressure=20, level=200)
    before = panel.result.reading
    panel.set(connection=DIRECT, depth=9.0)
    after = panel.result.reading
    assert after.differential == pytest.approx(-before.differential)
    assert after.indicated_level == pytest.approx(before.indicated_level, abs=1e-12)
    assert after.reference_pressure > before.reference_pressure + 50e3


def test_compensation_cures_pressure_and_neither_leg_temperature_nor_loss(panel):
    panel.set(pressure=20, level=200, compensated=True)
    assert panel.result.reading.error == pytest.approx(0.0, abs=1e-9)
    panel.set(leg_temperature=95)
    assert panel.result.reading.error > 0.010
    panel.set(leg_temperature=50, loss=60)
    assert panel.result.reading.error > 0.060


@pytest.mark.parametrize("boiler", ["auxiliary", "composite", "water_tube"])
def test_every_preset_redraws_once_and_reset_returns(boiler):
    panel = transmitter_panel(boiler)
    start = panel._picture.value
    for label in panel.presets:
        seen = redraws(panel)
        press(panel, label)
        assert len(seen) <= 1 and panel._problem.value == "", label
    press(panel, "Reset")
    assert re.sub(r"lk\d+-", "", panel._picture.value) == re.sub(r"lk\d+-", "", start)
    assert panel.advice.value == ""


def test_the_telling_presets_make_a_low_boiler_look_safe(panel):
    low_alarm = panel.boiler.levels.low_alarm
    for label in ("equaliser open", "leg lost", "ports crossed"):
        press(panel, label)
        reading = panel.result.reading
        assert panel.result.state.drum.level < low_alarm < reading.indicated_level, label
        assert "SILENT" in panel.drawing.words
    press(panel, "cold, open to the air")
    assert panel.result.reading.error > 0.040


def test_every_fault_of_the_picker_is_the_catalogue_function_on_this_state(panel):
    panel.set(level=230)
    for _, key in panel.controls["fault"].options[1:]:
        panel.set(fault=key)
        assert panel._problem.value == "", key
        expected = transmitter_reading(fault_named(key).apply(panel._healthy(panel.values())))
        assert panel.result.reading == expected, key
        advice = unescape(panel.advice.value)
        assert fault_named(key).safe_action in advice and CAUTION in advice
        panel.set(fault="none")


def test_what_is_shut_in_stays_when_the_drum_moves(panel):
    panel.set(level=250, fault="drum-isolator-shut")
    trapped = panel.result.reading.drum_side_pressure
    panel.set(level=120)
    assert panel.result.reading.indicated_level == pytest.approx(0.250, abs=1e-9)
    assert panel.result.reading.shut_in == ("drum side",)
    panel.set(pressure=61)
    assert panel.result.reading.drum_side_pressure == trapped
    assert panel.result.reading.shown_fraction < 0  # a rise of pressure: off scale EMPTY
    panel.set(pressure=59)
    assert panel.result.reading.shown_fraction > 1  # a fall: off scale FULL
    panel.set(fault="none")
    panel.set(fault="drum-isolator-shut")
    assert panel.result.reading.drum_side_pressure != trapped


def test_time_drains_the_leg_and_does_not_fill_it(panel):
    panel.set(level=150, fault="equaliser-passing")
    at_once = panel.result.reading.indicated_level
    panel.set(seconds=60.0)
    assert panel.result.state.legs.reference_loss > 0.02
    assert panel.result.reading.indicated_level > at_once + 0.02


def test_a_control_without_a_say_is_switched_off(panel):
    panel.set(fault="cold-drum")
    assert panel.controls["pressure"].disabled and panel.controls["leg_temperature"].disabled
    panel.set(fault="none")
    assert not panel.controls["pressure"].disabled


def test_an_impossible_state_is_a_sentence_and_the_picture_stays(panel):
    before = panel._picture.value
    panel.set(pressure=2, leg_temperature=240)
    assert "boils" in panel._problem.value and "last state" in panel._problem.value
    assert panel._picture.value == before
    press(panel, "Reset")
    assert panel._problem.value == ""


def test_a_range_of_no_span_is_a_sentence_and_the_picture_stays(panel):
    panel.set(by_hand=True)
    before = panel._picture.value
    panel.set(lrv=1.15, urv=1.15)
    assert "both 1150 Pa; the span must not be 0 Pa" in panel._problem.value
    assert panel._picture.value == before
    panel.set(urv=1.16)
    assert panel._problem.value == "" and panel.result.range_in_use.span == pytest.approx(10.0)


def test_a_range_by_hand_takes_the_place_of_the_calibration(panel):
    """An open tank of 725 kg/m3: 0 to 3.55 kPa. On a wet leg it never leaves the empty end."""
    visible = [key for key in ("calibrated", "depth", "lrv", "urv")
               if panel.controls[key].layout.display is None]
    assert visible == ["calibrated", "depth"]
    panel.set(by_hand=True)
    assert abs(panel.result.reading.error) < 0.002  # as worked out, to two decimals
    panel.set(connection=DIRECT, lrv=0.0, urv=3.55)
    visible = [key for key in ("calibrated", "depth", "lrv", "urv")
               if panel.controls[key].layout.display is None]
    assert visible == ["lrv", "urv"]
    for level in (0, 250, 500):
        panel.set(level=level)
        assert panel.result.reading.current == 0.0038
    panel.set(compensated=True)
    assert panel.controls["lrv"].disabled and abs(panel.result.reading.error) < 1e-9
    press(panel, "normal steaming")
    assert panel.controls["lrv"].layout.display == "none" and not panel.values()["by_hand"]


def test_a_typed_comma_is_taken_and_a_level_above_the_weir_is_refused(panel):
    type_in(panel.controls["pressure"], "12,5")
    assert panel.result.state.drum.pressure == pytest.approx(absolute_pressure(12.5, BAROMETER))
    type_in(panel.controls["level"], "900")
    assert "outside \u221250 to 500 mm" in panel.controls["level"].message


def test_readings_carry_units_and_the_shown_numbers(panel, tmp_path):
    panel.readings.record()
    press(panel, "leg lost")
    panel.readings.record()
    rows = list(csv.DictReader(io.StringIO(panel.readings.save(tmp_path).read_text("utf-8"))))
    assert float(rows[1]["shown [mm]"]) == pytest.approx(
        1000 * panel.result.reading.indicated_level, abs=0.051)
    assert rows[1]["fault"] == "reference-leg-lost"
    without = {"NE 43", "connection", "compensated", "fault"}
    assert all("[" in head for head in rows[0] if head not in without)


def test_a_leg_is_calibrated_warm_and_full_whatever_stands_in_it_now(panel):
    right = panel.result.state.calibration
    panel.set(leg_temperature=120, loss=100, level=90)
    assert panel.result.state.calibration == right
    panel.set(calibrated=30)
    assert panel.result.state.calibration != right
