"""The drum at sea: words and lettering carry the numbers, nothing collides in any frame."""

import re
from itertools import product
from math import radians

import numpy as np
import pytest
from overlaps import off_the_sheet, overlapping

from levelkit.panels.sea_state import ATHWARTSHIPS, FORE_AND_AFT, PITCHES, ROLLS
from levelkit.panels.ship_motion_panel import ShipMotionPanel
from levelkit.scenario import load_ship
from levelkit.scene.look import LOOKS, SCREEN
from levelkit.scene.ship_inset import draw_ship
from levelkit.scene.ship_motion import HEIGHT
from levelkit.scene.strip_chart import Axes, draw_curve, round_range, ticks

SHIP = load_ship()


@pytest.fixture(scope="module")
def panels():
    return {name: ShipMotionPanel(boiler, SHIP.barometer) for name, boiler in SHIP.boilers.items()}


def made(panel, look=SCREEN, truth=True, **values):
    case = panel.evaluate(panel._start | values)
    return case, panel.film(case, look, truth)


def numbers(markup, attribute):
    return [float(x) for x in re.findall(rf'{attribute}="(-?[\d.]+)"', markup)]


def test_words_and_lettering_carry_the_numbers_of_the_result(panels):
    case, film = made(panels["water_tube"], list=4)
    drawing = film.drawing(0)
    for level in case.glasses.indicated_level[:, 0]:
        assert f"{1000 * level:.0f} mm" in drawing.words
        assert f"{1000 * level:.0f} mm" in [box.text for box in drawing.text_boxes]
    assert "list 4.0\u00b0 to port" in [box.text for box in drawing.text_boxes]


def test_a_hidden_drum_gives_nothing_away(panels):
    _, film = made(panels["water_tube"], truth=False, level=253, list=15)
    drawing = film.drawing(0)
    assert "hidden" in drawing.words and "253" not in drawing.words
    assert not any(re.search("253|dry|mid-drum \\d", box.text) for box in drawing.text_boxes)


def test_the_water_plane_is_drawn_at_the_angle_of_the_list(panels):
    case, film = made(panels["water_tube"], list=8)
    line = next(part for part in film.frames[0].elements if part.startswith("<line")
                and 'stroke-width="2.4"/>' in part)  # the first solid true line is the water's
    x1, y1, x2, y2 = (float(re.search(rf'{name}="([\d.-]+)"', line)[1])
                      for name in ("x1", "y1", "x2", "y2"))
    assert (y2 - y1) / (x2 - x1) == pytest.approx(np.tan(radians(8)), abs=0.002)
    assert x1 < x2  # the port end first: the water stands higher there


def test_a_film_ends_where_it_begins_and_turns_both_ways(panels):
    _, film = made(panels["water_tube"], motion=ROLLS, amplitude=5)
    first, quarter, last = (film.drawing(i).words for i in (0, 15, 60))
    assert first == last and "to port" in quarter
    assert "5.0\u00b0 to starboard" in film.drawing(45).words


@pytest.mark.parametrize("look", LOOKS.values(), ids=LOOKS)
def test_lettering_neither_collides_nor_leaves_the_sheet(panels, look):
    still = product(panels, (ATHWARTSHIPS, FORE_AND_AFT), (0, 120, 250, 400), (-20, -4, 0, 12),
                    (-10, 0, 3))
    cases = [(name, {"lies": lies, "level": level, "list": list_, "trim": trim})
             for name, lies, level, list_, trim in still][::7]
    cases += [(name, {"motion": motion, "amplitude": amplitude, "lies": lies, "lag": lag})
              for name, motion, amplitude, lies, lag in product(
                  ("water_tube",), (ROLLS, PITCHES), (1, 22.5),
                   (ATHWARTSHIPS, FORE_AND_AFT), (0, 7))]
    for name, values in cases:
        case, film = made(panels[name], look, values.get("level") != 250, **values)
        for i in {0, len(case.times) // 4, len(case.times) // 3}:
            drawing = film.drawing(i)
            assert overlapping(drawing) == [], f"{name}, {values}, frame {i}"
            assert off_the_sheet(drawing, look.width, HEIGHT) == [], f"{name}, {values}"


def test_the_small_ship_lowers_her_left_side_for_a_positive_angle():
    from levelkit.scene.canvas import Canvas
    canvas = Canvas(SCREEN, 100)
    draw_ship(canvas, 50, 50, 40, radians(10), ATHWARTSHIPS)
    points = [tuple(map(float, pair.split(","))) for pair in
              re.search('points="([^"]*)"', canvas.elements[0])[1].split()]
    left, right = points[0], points[5]  # the two upper corners of her sides
    assert left[0] < right[0] and left[1] > right[1]


@pytest.mark.parametrize("low, high, wanted", [
    (0.0, 553.0, (0.0, 600.0)), (-303.0, 803.0, (-500.0, 1000.0)), (2.0, 2.0, (1.0, 3.0))])
def test_ranges_are_round_and_hold_the_numbers(low, high, wanted):
    assert round_range(low, high, 4 if low == 0 else 5, 2.0) == pytest.approx(wanted)
    assert all(low <= t <= high for t in ticks((low, high), 4)) if high > low else True


def test_a_curve_ends_at_the_edge_of_its_field():
    from levelkit.scene.canvas import Canvas
    canvas = Canvas(SCREEN, 100)
    axes = Axes(0, 0, 100, 100, (0.0, 4.0), (0.0, 1.0))
    draw_curve(canvas, axes, [0, 1, 2, 3, 4], [0.5, 1.5, 0.5, -0.5, 0.5], "outline")
    runs = [re.search('points="([^"]*)"', part)[1] for part in canvas.elements]
    assert runs == ["0.0,50.0 12.5,0.0", "37.5,0.0 50.0,50.0 62.5,100.0", "87.5,100.0 100.0,50.0"]
