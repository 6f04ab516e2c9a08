"""The two-fluid picture: words and heights say the numbers, its lettering never collides."""

import re
import xml.etree.ElementTree as ET
from itertools import product

import pytest
from overlaps import off_the_sheet, overlapping

from levelkit.errors import InputError
from levelkit.lesson import ship
from levelkit.panels.two_fluid_panel import COLD, TwoFluidPanel
from levelkit.physics.u_tube import DRUM_LIMB, REFERENCE_LIMB
from levelkit.scene.look import LOOKS, PRINT, PROJECTOR, SCREEN
from levelkit.scene.two_fluid import HEIGHT

FAULTS = ("", "cold-drum", "reference-leg-warm", "equaliser-open", "drum-drain-leaking",
          "reference-drain-leaking", "reference-isolator-shut", "drum-leg-gas",
          "reference-leg-gas", "chamber-isolated", "line-choked")
LIGHTEST, HEAVIEST = "dimethyl phthalate", "tribromomethane"
BORES = ((8, 8), (10, 70), (70, 10), (4, 80))


@pytest.fixture(scope="module", params=list(ship.boilers))
def panel(request):
    return TwoFluidPanel(ship.boilers[request.param], ship.barometer)


@pytest.fixture(scope="module")
def water_tube():
    return TwoFluidPanel(ship.boilers["water_tube"], ship.barometer)


def case(panel, **values):
    return panel.evaluate(panel._start | values)


def lettering(drawing):
    return [box.text for box in drawing.text_boxes]


def test_words_and_lettering_carry_the_numbers_of_the_result(panel):
    result = case(panel, state=COLD, reference_leg=20, drum_leg=20, level=180)
    drawing = panel.draw(result, SCREEN, True)
    shown = f"{1000 * result.reading.indicated_level:.1f} mm"
    assert f"shows {shown}" in lettering(drawing) and f"shows {shown}" in drawing.words
    assert "drum 180.0 mm" in lettering(drawing) and "drum holds 180.0 mm" in drawing.words
    assert f"reads {1000 * result.reading.error:.1f} mm HIGH" in drawing.words
    for name, height in (("a", -result.reading.reference_surface),
                         ("b", -result.reading.drum_surface), ("R", result.reading.difference)):
        assert f"{name} {1000 * height:.0f} mm" in lettering(drawing)
    assert f"{1000 * result.reading.difference:.1f} mm" in lettering(drawing)


@pytest.mark.parametrize("limb", [REFERENCE_LIMB, DRUM_LIMB])
def test_the_pointer_stands_on_the_scale_where_the_level_is(water_tube, limb):
    """The drawn pointer against the drawn scale numbers: it reads what the result says."""
    for level in (60, 250, 430):
        result = case(water_tube, level=level, extra_fill=80, visible_limb=limb)
        root = ET.fromstring(water_tube.draw(result, SCREEN, True).svg)
        numbers = {float(e.text): float(e.get("y")) - 0.3 * 14 for e in root.iter()
                   if e.tag.endswith("text") and e.text in ("0", "100", "200", "300", "400", "500")}
        dashed = [float(e.get("y1")) for e in root.iter() if e.tag.endswith("line")
                  and e.get("stroke-dasharray") == "8 4" and float(e.get("x1")) > 600]
        assert len(dashed) == 1
        per_mm = (numbers[500] - numbers[0]) / 500
        assert (dashed[0] - numbers[0]) / per_mm == pytest.approx(
            1000 * result.reading.indicated_level, abs=0.6)
        assert (per_mm < 0) == (limb == REFERENCE_LIMB), "upright or inverted"


def test_true_and_shown_level_are_drawn_in_one_scale(water_tube):
    result = case(water_tube, level=250, leg_lost=60)
    root = ET.fromstring(water_tube.draw(result, SCREEN, True).svg)
    lines = [e for e in root.iter() if e.tag.endswith("line")]
    zero, weir = (next(float(e.get("y1")) for e in lines if e.get("stroke-dasharray") == "3 3"
                       and abs(float(e.get("y1")) - label) < 1)
                  for label in _label_heights(root, "connection = 0", "weir 500 mm"))
    per_mm = (weir - zero) / 500
    shown = next(float(e.get("y1")) for e in lines if e.get("stroke-dasharray") == "8 4"
                 and float(e.get("x1")) < 300)
    true = next(float(e.get("y1")) for e in lines if e.get("stroke-width") == "2.4"
                and not e.get("stroke-dasharray") and float(e.get("x1")) < 20)
    assert (true - zero) / per_mm == pytest.approx(250.0, abs=0.3)
    assert (shown - true) / per_mm == pytest.approx(1000 * result.reading.error, abs=0.3)


def _label_heights(root, *texts):
    return [float(next(e.get("y") for e in root.iter() if e.text == text)) - 0.35 * 14
            for text in texts]


def test_a_hidden_truth_is_neither_drawn_nor_said(water_tube):
    drawing = water_tube.draw(case(water_tube, level=253, leg_lost=60), SCREEN, False)
    assert "253" not in drawing.words and not any("253" in text for text in lettering(drawing))
    assert "true level" in lettering(drawing) and "hidden" in lettering(drawing)
    assert "HIGH" not in drawing.svg and "LOW" not in drawing.svg
    projected = water_tube.draw(case(water_tube, level=253), PROJECTOR, False)
    assert "hidden" in lettering(projected) and "drum 253.0 mm" not in lettering(projected)


def test_off_the_scale_is_said_without_a_number_for_the_error(water_tube):
    drawing = water_tube.draw(case(water_tube, fault="equaliser-open", level=100), SCREEN, True)
    assert "off its scale: FULL" in drawing.words and "It reads HIGH." in drawing.words
    assert "off scale: FULL" in lettering(drawing) and "shows FULL" in lettering(drawing)
    low = water_tube.draw(case(water_tube, extra_fill=-300, level=20), SCREEN, True)
    assert "off its scale: EMPTY" in low.words


def test_valves_are_drawn_as_they_stand(water_tube):
    """Shut cocks are solid: in service only the equaliser, with a leg valve shut that one too."""
    def solid_wings(fault):
        water_tube.evaluate(water_tube._start)
        root = ET.fromstring(water_tube.draw(case(water_tube, fault=fault), SCREEN, True).svg)
        return sum(1 for e in root.iter() if e.tag.endswith("polygon")
                   and e.get("fill") == "#17212b" and len(e.get("points").split()) == 3
                   and e.get("stroke-width") == "1.4" and _wing(e))

    service = solid_wings("")
    assert solid_wings("reference-isolator-shut") == service + 2
    assert solid_wings("chamber-isolated") == service + 2
    assert solid_wings("equaliser-open") == service - 2


def _wing(element):
    """Whether a triangle is half a cock: two of its corners share a height or a position."""
    points = [tuple(map(float, pair.split(","))) for pair in element.get("points").split()]
    (_, (x2, y2), (x3, y3)) = points
    return (x2 == x3 and abs(y2 - y3) >= 16) or (y2 == y3 and abs(x2 - x3) >= 16)


def test_a_shut_valve_and_a_choked_line_are_said(water_tube):
    frozen = water_tube.draw(case(water_tube, fault="drum-isolator-shut"), SCREEN, True)
    assert "FROZEN: drum side shut" in lettering(frozen) and "nothing moves" in frozen.words
    water_tube.evaluate(water_tube._start)
    slow = water_tube.draw(case(water_tube, fault="line-choked"), SCREEN, True)
    assert any(text.startswith("SLOW: ") for text in lettering(slow)) and "slowly" in slow.words
    water_tube.evaluate(water_tube._start)
    blind = water_tube.draw(case(water_tube, level=-20), SCREEN, True)
    assert "level out of its sight" in lettering(blind) and "\u221220.0 mm" in blind.words


@pytest.mark.parametrize("look", LOOKS.values(), ids=LOOKS)
def test_lettering_neither_collides_nor_leaves_the_sheet(panel, look):
    top = int(panel.controls["level"].maximum)
    drawn = 0
    cases = [{"level": level, "fault": fault}
             for level, fault in product(range(-50, top + 1, 37), FAULTS)]
    cases += [{"visible_bore": one, "other_bore": two, "visible_limb": limb, "level": level,
               "extra_fill": extra * panel.controls["extra_fill"].maximum, "depth": 18}
              for (one, two), limb, level, extra in product(
                  BORES, (REFERENCE_LIMB, DRUM_LIMB), (0, 111, top), (-0.4, 0, 0.4))]
    cases += [{"fluid": name, "level": level, "leg_lost": lost, "state": COLD,
               "visible_limb": limb, "depth": 6}
              for name, level, lost, limb in product(
                  (LIGHTEST, HEAVIEST), (0, 180, top), (0, 200), (REFERENCE_LIMB, DRUM_LIMB))]
    for values in cases:
        try:
            result = case(panel, **values)
        except InputError:  # blown over: the panel says so and draws nothing
            continue
        drawn += 1
        for truth in (True, False) if values["level"] == 180 else (True,):
            drawing = panel.draw(result, look, truth)
            assert overlapping(drawing) == [], f"{values}, truth {truth}"
            assert off_the_sheet(drawing, look.width, HEIGHT) == [], f"{values}, truth {truth}"
    assert drawn > 0.8 * len(cases)


def test_print_uses_black_and_white_only(water_tube):
    drawing = water_tube.draw(case(water_tube, fault="drum-drain-leaking"), PRINT, True)
    colours = {c.lower() for c in re.findall(r'(?:fill|stroke)="(#[0-9a-fA-F]{6})"', drawing.svg)}
    assert colours <= {"#000000", "#ffffff"}
