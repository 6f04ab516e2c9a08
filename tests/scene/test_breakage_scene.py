"""The broken glass as drawn: jets as long as their flows, the bound is said, nothing collides."""

import re
from itertools import product

import pytest
from overlaps import off_the_sheet, overlapping

from levelkit.lesson import ship
from levelkit.panels.breakage_panel import BreakagePanel
from levelkit.scene.breakage import ABSENT, FREE, HEIGHT, STUCK
from levelkit.scene.look import LOOKS, SCREEN


@pytest.fixture(scope="module")
def panel():
    return BreakagePanel(ship.boilers["auxiliary"], ship.barometer)


def drawn(panel, look=SCREEN, truth=True, **values):
    panel.set(**panel._start | values)
    return panel.result, panel.draw(panel.result, look, truth)


def test_both_points_lie_on_their_curves(panel):
    result, picture = drawn(panel, pressure=60)
    dots = [float(y) for y in re.findall(r'<circle[^>]*cy="([\d.]+)" r="4.5"', picture.svg)][-2:]
    per_flow = (284 - 44) / 4.0  # the axis of the 12 mm bore ends at 4 kg/s
    assert dots == pytest.approx([284 - per_flow * result.broken.water_flow,
                                  284 - per_flow * result.broken.steam_flow], abs=0.1)


def test_a_seated_ball_stops_the_water_jet_and_not_the_steam(panel):
    for ball, water, steam in ((STUCK, 1, 1), (FREE, 0, 1), (ABSENT, 1, 1)):
        _, picture = drawn(panel, ball=ball)
        jets = re.findall(r'<polygon points="225.0,(\d+\.\d)', picture.svg)
        assert [jets.count("202.0") > 0, jets.count("78.0") > 0] == [bool(water), bool(steam)]


def test_the_bound_is_said_with_the_numbers(panel):
    _, picture = drawn(panel)
    lettering = [box.text for box in picture.text_boxes]
    assert "homogeneous equilibrium: a LOWER bound" in lettering
    assert "at least" in picture.words and "Water end \u2265" in lettering
    small = drawn(panel, LOOKS["projector"])[1]
    assert "Water end \u2265" in [box.text for box in small.text_boxes]


def test_a_hidden_loss_is_neither_drawn_nor_said(panel):
    result, picture = drawn(panel, truth=False)
    for number in (f"{result.broken.water_flow:.2f}", f"{result.broken.steam_flow:.2f} kg/s"):
        assert number not in picture.svg and number not in picture.words


@pytest.mark.parametrize("look", LOOKS.values(), ids=LOOKS)
def test_lettering_neither_collides_nor_leaves_the_sheet(panel, look):
    for pressure, bore, ball in product((0.5, 7, 60, 100), (1, 2, 12, 20), (STUCK, FREE, ABSENT)):
        for level, feed, truth in ((0, 0, True), (340, 3, True), (200, 0, False)):
            _, picture = drawn(panel, look, truth, pressure=pressure, bore=bore, ball=ball,
                               level=level, feed=feed)
            where = f"{pressure} bar, {bore} mm, {ball}, level {level}, truth {truth}"
            assert overlapping(picture) == [], where
            assert off_the_sheet(picture, look.width, HEIGHT) == [], where
