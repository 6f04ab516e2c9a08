"""The current loop panel without a browser: by hand, in words, never with colliding letters."""

import csv
import io
import re
from itertools import product

import pytest
from handling import nothing_swallowed, press, redraws, type_in
from overlaps import off_the_sheet, overlapping

from levelkit.lesson import loop_panel
from levelkit.panels.loop_panel import BROKEN, IN_PARALLEL, IN_SERIES, LEAK, ONE, SOUND
from levelkit.physics.transmitter_state import FAILS_HIGH, FAILS_LOW
from levelkit.scene.look import LOOKS, SCREEN
from levelkit.scene.loop import HEIGHT


@pytest.fixture()
def panel(caplog):
    """A panel; an exception swallowed by a callback fails the test."""
    with nothing_swallowed(caplog):
        yield loop_panel()


def lettering(panel):
    return [box.text for box in panel.drawing.text_boxes]


def test_two_receivers_and_320_m_of_cable_on_24_volts_by_hand(panel):
    """250 + 120 + 2 x 320 x 0.0175/1.5 = 377.5 ohm; 13.5 V/22 mA = 614 ohm; 24 - 0.0215 x 377.5."""
    panel.set(receivers=IN_SERIES, sends=FAILS_HIGH)
    assert panel.result.loop.load == pytest.approx(250 + 120 + 7.4667, abs=1e-3)
    assert panel.result.greatest_load == pytest.approx(613.6, abs=0.05)
    assert panel.result.result.terminal_voltage == pytest.approx(24 - 0.0215 * 377.4667)
    assert not panel.result.result.starved and "failure signal:" in lettering(panel)


def test_twelve_volts_starve_it_at_11_per_cent_by_hand(panel):
    """1.5 V over 257.5 ohm is 5.83 mA, 11.4 %; 68 ohm would carry 22 mA."""
    press(panel, "12 V battery")
    case = panel.result
    assert 1e3 * case.result.receiver_current == pytest.approx(1500 / 257.4667, abs=1e-3)
    assert case.result.starved and case.greatest_load == pytest.approx(68.18, abs=0.01)
    assert "STARVED of volts:" in lettering(panel) and "starves" in panel.drawing.words
    panel.set(level=10)
    assert not panel.result.result.starved and panel.result.error == pytest.approx(0, abs=1e-12)


def test_in_series_both_see_the_current_and_in_parallel_they_share_it(panel):
    panel.set(level=75, receivers=IN_SERIES)
    assert panel.result.result.receiver_current == pytest.approx(0.016)
    panel.set(receivers=IN_PARALLEL, second=250)
    assert panel.result.result.receiver_current == pytest.approx(0.008)
    assert "LOW" in panel.drawing.words
    panel.set(second=500)
    assert panel.result.result.receiver_current == pytest.approx(0.016 * 2 / 3)


def test_a_broken_wire_is_no_empty_drum_and_a_leak_reads_high(panel):
    press(panel, "wire broken")
    assert panel.result.result.receiver_current == 0
    assert "not an empty drum" in panel.drawing.words and panel.result.load_line == ()
    assert "across the break 24.0 V" in lettering(panel)
    panel.set(wiring=LEAK, level=0)
    assert panel.result.result.receiver_current > 0.004 + 0.004
    assert "HIGH" in panel.drawing.words and "leak 5 k\u03a9" in lettering(panel)


def test_the_point_lies_on_the_load_line(panel):
    panel.set(level=40, length=1500, area=0.75)
    (v0, i0), *_, (v1, i1) = panel.result.load_line
    volts, amperes = panel.result.result.terminal_voltage, panel.result.result.current
    assert (volts - v0) / (v1 - v0) == pytest.approx((amperes - i0) / (i1 - i0), abs=1e-9)


@pytest.mark.parametrize("label", list(loop_panel().presets))
def test_every_preset_redraws_once_and_reset_returns(panel, label):
    start = panel._picture.value
    panel.set(level=33)
    seen = redraws(panel)
    press(panel, label)
    assert len(seen) == 1 and panel._problem.value == ""
    press(panel, "Reset")
    assert re.sub(r"lk\d+-", "", panel._picture.value) == re.sub(r"lk\d+-", "", start)


def test_hiding_leaves_the_watchkeeper_the_indicator_only(panel):
    panel.set(level=73.5, receivers=IN_PARALLEL, second=500)
    panel.truth.value = False
    wanted = f"{1e3 * panel.result.wanted:.2f} mA"
    texts = lettering(panel)
    assert panel.drawing.words.startswith("The indicator gets")
    assert wanted not in panel.drawing.words
    assert "% of span" not in " ".join(texts)


def test_a_typed_comma_is_taken_and_a_silly_supply_refused(panel):
    type_in(panel.controls["supply"], "18,5")
    assert panel.result.loop.supply_voltage == 18.5
    type_in(panel.controls["supply"], "220")
    assert "outside 6.0 to 40.0 V" in panel.controls["supply"].message


def test_readings_carry_units(panel, tmp_path):
    press(panel, "second in parallel")
    panel.readings.record()
    row = next(csv.DictReader(io.StringIO(panel.readings.save(tmp_path).read_text("utf-8"))))
    assert row["wanted [mA]"] == "12.00" and row["indicator [mA]"] == "6.00"
    assert row["most at 22 mA [ohm]"] == "613.6" and row["receivers"] == IN_PARALLEL


@pytest.mark.parametrize("look", LOOKS.values(), ids=LOOKS)
def test_lettering_neither_collides_nor_leaves_the_sheet(look):
    panel = loop_panel()
    for supply, receivers, wiring, level, truth in product(
            (6, 11, 24, 40), (ONE, IN_SERIES, IN_PARALLEL), (SOUND, BROKEN, LEAK), (0, 100),
            (True, False)):
        values = {"supply": supply, "receivers": receivers, "wiring": wiring, "level": level,
                  "needs": 5 + supply / 3, "length": 30 * supply, "indicator": 600 - 10 * level / 2}
        for sends in ("healthy", FAILS_LOW) if level == 0 else ("healthy",):
            panel.controls["receivers"].value = receivers
            result = panel.evaluate(panel._start | values | {"sends": sends})
            drawing = panel.draw(result, look, truth)
            assert overlapping(drawing) == [], f"{values}, {sends}, truth {truth}"
            assert off_the_sheet(drawing, look.width, HEIGHT) == [], values


def test_words_and_lettering_carry_the_numbers_of_the_result(panel):
    panel.set(level=62.5)
    drawing = panel.draw(panel.result, SCREEN, True)
    numbers = [float(x) for x in re.findall(r"\d+\.\d+", drawing.words)]
    result = panel.result.result
    assert numbers == pytest.approx([14.0, 1e3 * result.receiver_current,
                                     result.terminal_voltage, 10.5], abs=0.051)
