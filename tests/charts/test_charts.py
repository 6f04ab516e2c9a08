"""Charts: the frame's transform is matplotlib's own, print is grey, numbers are the physics'."""

import re
import subprocess
import sys
import xml.etree.ElementTree as ET

import numpy as np
import pytest
from overlaps import off_the_sheet, overlapping

from levelkit.charts.error_map import HEIGHT, WIDTH, error_map_chart, error_map_figure
from levelkit.charts.figures import house_style
from levelkit.charts.frame import Axes, chart_frame
from levelkit.charts.sweep import sweep_chart, sweep_figure
from levelkit.panels.remote_charts import error_map_of, printed_sweep, sweep_of
from levelkit.physics.differential import indicated_level
from levelkit.properties import compressed_water_density, steaming_drum_fluids
from levelkit.scenario import load_ship
from levelkit.scene.look import LOOKS, PRINT, SCREEN

SHIP = load_ship()
AXES = Axes("true level, mm", "indicated level, mm", (0.0, 500.0), (-30.0, 530.0),
            (0.0, 100.0, 500.0), (0.0, 250.0, 500.0), "signal, mA", ((0.0, "4"), (500.0, "20")))


def densities(gauge_bar, leg=323.15):
    fluids = steaming_drum_fluids(gauge_bar * 1e5 + SHIP.barometer)
    return (fluids.water_density, fluids.steam_density,
            compressed_water_density(fluids.pressure, leg))


def test_a_tick_stands_where_the_frame_says_its_value_lies():
    frame = chart_frame(AXES, SCREEN, 10, 20, 800, 330)
    root = ET.fromstring(f'<svg>{frame.part.markup}</svg>')
    ticks = {}
    for text in root.iter("text"):
        x = re.match(r"rotate\(-0 ([\d.]+) ([\d.]+)\)", text.get("transform") or "")
        if x and text.text.strip() in ("100", "500", "0"):
            ticks.setdefault(text.text.strip(), []).append(tuple(map(float, x.groups())))
    across = [x for x, y in ticks["100"]]
    assert across[0] + 10 == pytest.approx(frame.to_x(100.0), abs=0.1)
    assert frame.to_x(0.0) == pytest.approx(frame.left) and frame.to_y(530.0) == frame.top
    assert frame.to_y(-30.0) == pytest.approx(frame.bottom)
    assert 10 < frame.left < frame.right < 810 and 20 < frame.top < frame.bottom < 350


def test_the_transform_takes_arrays_and_runs_straight():
    frame = chart_frame(AXES, SCREEN, 0, 0, 800, 330)
    values = np.array([0.0, 125.0, 250.0])
    assert frame.to_x(values)[1] == pytest.approx((frame.to_x(0.0) + frame.to_x(250.0)) / 2)
    assert np.all(np.diff(frame.to_y(values)) < 0)


def test_a_frame_is_typeset_once_until_its_range_changes():
    first = chart_frame(AXES, SCREEN, 0, 0, 800, 330)
    assert chart_frame(AXES, SCREEN, 0, 0, 800, 330) is first
    other = Axes("true level, mm", "indicated level, mm", (0.0, 400.0), (-30.0, 530.0),
                 (0.0,), (0.0,))
    assert chart_frame(other, SCREEN, 0, 0, 800, 330) is not first


@pytest.mark.parametrize("look", LOOKS.values(), ids=LOOKS)
def test_the_lettering_of_a_frame_neither_collides_nor_leaves_its_room(look):
    part = chart_frame(AXES, look, 0, 0, 800, 330).part
    assert len(part.text_boxes) >= 11
    assert overlapping(part) == [] and off_the_sheet(part, 800, 330) == []


@pytest.mark.parametrize("name", SHIP.boilers)
def test_the_sweep_is_what_the_balance_with_other_densities_gives(name):
    boiler = SHIP.boilers[name]
    gauges = (5.0, boiler.working_pressure_bar)
    sweep = sweep_of(boiler, SHIP.barometer, gauges)
    height = boiler.legs.chamber_height
    for gauge, curve in zip(gauges, sweep.curves[1:], strict=True):
        expected = indicated_level(sweep.levels, height, *densities(gauge),
                                   *densities(boiler.transmitter.calibration_pressure_bar))
        expected = np.clip(expected, -0.0125 * height, 1.03125 * height)
        assert curve.indicated == pytest.approx(expected, abs=1e-9)
    with house_style(PRINT):
        lines = sweep_figure(sweep, PRINT).axes[0].lines
    styles = {str(line.get_linestyle()) + str(line._dash_pattern) for line in lines[1:]}
    assert len(styles) == len(sweep.curves), "two curves look alike in grey"


def test_the_error_map_is_nought_on_the_line_of_calibration_and_high_below_it():
    error_map = error_map_of(SHIP.boilers["water_tube"], SHIP.barometer)
    column = int(np.argmin(np.abs(error_map.pressures - 60.0)))
    assert error_map.pressures[column] == pytest.approx(60.0)
    assert np.abs(error_map.error[:, column]).max() < 1e-9
    row = int(np.argmin(np.abs(error_map.levels - 0.25)))
    expected = indicated_level(error_map.levels[row], 0.5, *densities(error_map.pressures[20]),
                               *densities(60.0)) - error_map.levels[row]
    assert error_map.error[row, 20] == pytest.approx(expected, abs=1e-9)
    assert np.all(np.diff(error_map.error[row]) < 0)
    assert error_map.saturated[-1, 0] and not error_map.saturated[row].any()


def test_print_charts_are_black_and_white_and_tell_in_words():
    boiler = SHIP.boilers["water_tube"]
    for chart in (sweep_chart(sweep_of(boiler, SHIP.barometer, (5, 30)), PRINT),
                  error_map_chart(error_map_of(boiler, SHIP.barometer), PRINT)):
        root = ET.fromstring(chart.svg)
        style = " ".join(e.get("style") or "" for e in root.iter())
        colours = {c.lower() for c in re.findall(r"#[0-9a-fA-F]{6}", style)}
        assert colours <= {"#000000", "#ffffff"}
        assert chart.words and re.search(r"\d+ mm", chart.words)
        assert off_the_sheet(chart, WIDTH, HEIGHT) == []
    assert "data:image/svg+xml" in printed_sweep(boiler, SHIP.barometer, (5,))._repr_html_()


def test_the_map_hatches_what_reads_low_and_what_is_off_the_scale():
    figure = error_map_figure(error_map_of(SHIP.boilers["water_tube"], SHIP.barometer), PRINT)
    hatches = [text for part in figure.axes[0].collections
               for text in (getattr(part, "hatches", None) or [])]
    assert {"\\\\\\", "xx"} <= set(hatches)


def test_a_panel_without_charts_does_not_wait_for_matplotlib():
    code = ("import sys, levelkit.lesson as lesson; lesson.transmitter_panel(); "
            "print('matplotlib' in sys.modules)")
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "False"
