"""The gauge glass picture: its words say the result's numbers, its lettering never collides."""

import xml.etree.ElementTree as ET
from itertools import product

import pytest
from overlaps import off_the_sheet, overlapping

from levelkit.physics.glass import GaugeGlassState, gauge_glass_reading
from levelkit.scenario import load_ship
from levelkit.scene.gauge_glass import HEIGHT, DrumAndGlass, GlassView, draw_gauge_glass
from levelkit.scene.lettering import TextBox, spread, text_width
from levelkit.scene.look import LOOKS, SCREEN

BOILERS = load_ship().boilers
ROWS = tuple((f"Name of number {i}", f"{100 * i}.0 mm") for i in range(9))


def picture(boiler, level, glass_density, look=SCREEN, show_truth=True, rows=ROWS):
    still = DrumAndGlass(boiler.title, boiler.drum.inside_diameter, boiler.drum.axis_height,
                         boiler.drum.topmost_tube, boiler.glass.mounting, boiler.levels.normal,
                         boiler.levels.low_alarm, boiler.levels.high_alarm)
    result = gauge_glass_reading(
        GaugeGlassState(level, 756.1, 31.4, glass_density, boiler.glass.mounting))
    rows = rows if look.detail else rows[:3]
    return result, draw_gauge_glass(still, GlassView(level, result, rows, True, show_truth), look)


def test_words_and_lettering_carry_the_numbers_of_the_result():
    result, drawing = picture(BOILERS["water_tube"], 0.25, 961.1)
    shown = f"{1000 * result.indicated_level:.1f} mm"
    assert shown in drawing.words and "250.0 mm" in drawing.words and "LOW" in drawing.words
    assert any(shown in box.text for box in drawing.text_boxes)


def test_a_hidden_truth_is_neither_drawn_nor_said():
    _, drawing = picture(BOILERS["water_tube"], 0.2517, 961.1, show_truth=False)
    assert "251.7" not in drawing.svg and "251.7" not in drawing.words


def test_a_level_out_of_sight_is_said_in_words():
    _, low = picture(BOILERS["water_tube"], 0.02, 961.1)
    _, high = picture(BOILERS["water_tube"], 0.49, 760.0)
    assert "out of sight low" in low.words and "out of sight high" in high.words


@pytest.mark.parametrize("look", LOOKS.values(), ids=LOOKS)
@pytest.mark.parametrize("name", BOILERS)
def test_lettering_neither_collides_nor_leaves_the_sheet(name, look):
    boiler = BOILERS[name]
    top = boiler.glass.mounting.steam_connection
    levels = [-0.05 + (top + 0.1) * i / 40 for i in range(41)]
    for level, density, truth in product(levels, (760.0, 961.0), (True, False)):
        _, drawing = picture(boiler, level, density, look, truth)
        assert overlapping(drawing) == [], f"level {level:.4f} m, {density} kg/m3, truth {truth}"
        assert off_the_sheet(drawing, look.width, HEIGHT) == [], f"level {level:.4f} m"


def test_a_planted_collision_is_found():
    assert TextBox(0, 0, 10, 10, "a").overlaps(TextBox(5, 5, 20, 20, "b"))
    assert not TextBox(0, 0, 10, 10, "a").overlaps(TextBox(10, 0, 20, 10, "b"))


def test_ids_differ_between_two_pictures_on_one_page():
    first, second = (picture(BOILERS["auxiliary"], 0.2, 962.0)[1].svg for _ in range(2))

    def ids(svg):
        return {e.get("id") for e in ET.fromstring(svg).iter() if e.get("id")}

    assert ids(first) and not ids(first) & ids(second)


def test_a_picture_has_a_name_and_a_description_for_a_screen_reader():
    _, drawing = picture(BOILERS["auxiliary"], 0.2, 962.0)
    root = ET.fromstring(drawing.svg)
    texts = {e.get("id"): e.text for e in root.iter() if e.tag.endswith(("title", "desc"))}
    named = [texts[i] for i in root.get("aria-labelledby").split()]
    assert root.get("role") == "img" and named[1] == drawing.words


def test_print_uses_black_and_white_only():
    _, drawing = picture(BOILERS["auxiliary"], 0.2, 962.0, LOOKS["print"])
    colours = {c.lower() for e in ET.fromstring(drawing.svg).iter()
               for c in (e.get("fill"), e.get("stroke")) if c and c.startswith("#")}
    assert colours <= {"#000000", "#ffffff"}


def test_labels_spread_without_leaving_their_order_or_room():
    placed = spread([10, 11, 12, 100], 15, 0, 120)
    assert placed == sorted(placed)
    assert all(b - a >= 15 - 1e-9 for a, b in zip(placed, placed[1:], strict=False))
    assert placed[0] >= 0 and placed[-1] <= 120
    assert spread([], 15, 0, 120) == []


def test_widths_grow_with_text_and_boldness():
    assert text_width("water", 10) < text_width("waterwater", 10)
    assert text_width("water", 10) < text_width("water", 10, bold=True)
