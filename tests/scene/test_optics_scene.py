"""Light in a gauge glass: what is drawn is what is worked out, and no lettering collides."""

import re
from itertools import product

import pytest
from overlaps import off_the_sheet, overlapping

from levelkit.panels.optics_panel import PLAIN, STRIPED, OpticsPanel
from levelkit.physics.glass_choice import REFLEX, TUBULAR
from levelkit.physics.optics import BOROSILICATE, SODALIME
from levelkit.scene.look import LOOKS, SCREEN
from levelkit.scene.optics import HEIGHT


@pytest.fixture(scope="module")
def panel():
    return OpticsPanel(101_325.0)


def drawn(panel, look=SCREEN, truth=True, **values):
    case = panel.evaluate(panel._start | values)
    return case, panel.draw(case, look, truth)


def test_the_window_is_shaded_by_the_brightness_ratio(panel):
    case, picture = drawn(panel)
    steam, water = re.findall(r'<rect x="652.0"[^>]*fill="#([0-9a-f]{2})\1\1"/>', picture.svg)
    assert int(steam, 16) == 255
    assert (int(water, 16) / 255) ** 2.2 == pytest.approx(1 / case.groove.ratio, rel=0.03)


def test_the_words_carry_the_shares_of_the_result(panel):
    case, picture = drawn(panel, pressure=60)
    assert f"{100 * case.groove.steam_brightness:.1f} %" in picture.words
    assert f"{100 * case.groove.water_brightness:.2f} %" in picture.words


def stripe_slopes(picture):
    """Slopes of the middle parts of the stripes in the front view, upper and lower half."""
    found = {"upper": [], "lower": []}
    for points in re.findall(r'<polyline points="([^"]+)"', picture.svg):
        pairs = [tuple(map(float, pair.split(","))) for pair in points.split()]
        middle = [(x, y) for x, y in pairs if abs(x - 690) < 8]
        if len(middle) > 4 and all(628 <= x <= 752 for x, _ in pairs) and len(pairs) != 17:
            (x1, y1), (x2, y2) = middle[0], middle[-1]
            found["upper" if y1 < 172 else "lower"].append((y2 - y1) / (x2 - x1))
    return found


def test_stripes_lean_the_other_way_behind_water_by_the_worked_out_scale(panel):
    case, picture = drawn(panel, gauge=TUBULAR, glass=BOROSILICATE)
    slopes = stripe_slopes(picture)
    assert slopes["upper"] and slopes["lower"]
    for slope in slopes["upper"]:
        assert -slope == pytest.approx(case.behind_steam.magnification, rel=0.12)
    for slope in slopes["lower"]:
        assert -slope == pytest.approx(case.behind_water.magnification, abs=0.12)


def test_full_and_empty_before_a_plain_plate_are_one_picture(panel):
    pictures = [re.sub(r"lk\d+-", "", drawn(panel, gauge=TUBULAR, backing=PLAIN, share=s)[1].svg)
                for s in (0, 100)]
    front = [re.sub(r"<desc.*?</desc>", "", picture) for picture in pictures]
    assert front[0] == front[1]
    striped = [drawn(panel, gauge=TUBULAR, backing=STRIPED, share=s)[1].words for s in (0, 100)]
    assert "EMPTY" in striped[0] and "FULL" in striped[1]


def test_a_hidden_view_is_neither_drawn_nor_said(panel):
    case, picture = drawn(panel, truth=False)
    shown = drawn(panel)[1]
    for text in ("BRIGHT", f"{100 * case.groove.water_brightness:.2g} % comes back"):
        assert text in shown.svg and text not in picture.svg
    assert "hidden" in picture.words


@pytest.mark.parametrize("look", LOOKS.values(), ids=LOOKS)
@pytest.mark.parametrize("gauge", [REFLEX, TUBULAR])
def test_lettering_neither_collides_nor_leaves_the_sheet(panel, gauge, look):
    for pressure, glass, share, truth in product((0, 7, 60, 190), (SODALIME, BOROSILICATE),
                                                 (0, 50, 100), (True, False)):
        for more in ({"side": 0, "plate": 40}, {"side": 60, "plate": 12},
                     {"dirt": 100, "plate": 42}, {"side": 12, "backing": PLAIN}):
            _, picture = drawn(panel, look, truth, gauge=gauge, pressure=pressure, glass=glass,
                               share=share, **more)
            where = f"{pressure} bar, {glass}, {share} %, {more}, truth {truth}"
            assert overlapping(picture) == [], where
            assert off_the_sheet(picture, look.width, HEIGHT) == [], where
