"""The ship motion panel without a browser: honest geometry, one redraw, frames that agree."""

import csv
import io
import re
from math import degrees, pi, radians, sin, sqrt, tan

import numpy as np
import pytest
from handling import nothing_swallowed, press, type_in
from hypothesis import given
from hypothesis import strategies as st

from levelkit.lesson import ship_motion_panel
from levelkit.panels.sea_state import FORE_AND_AFT, PITCHES, ROLLS
from levelkit.panels.twin import StaticTwin
from levelkit.physics.drum_geometry import water_volume
from levelkit.scene.look import SCREEN


@pytest.fixture(scope="module")
def made():
    return ship_motion_panel()


@pytest.fixture()
def panel(caplog):
    """A panel; an exception swallowed by a callback fails the test."""
    with nothing_swallowed(caplog):
        yield ship_motion_panel()


def films(panel):
    """Return a list that takes every film shown from now on."""
    seen = []
    panel.player.observe(lambda change: seen.append(change["new"]), "film")
    return seen


def test_every_preset_makes_one_film_and_reset_returns(panel):
    start = panel.player.film["words"]
    for label in panel.presets:
        seen = films(panel)
        press(panel, label)
        assert len(seen) <= 1 and panel._problem.value == ""
    press(panel, "Reset")
    assert panel.player.film["words"] == start


def test_list_by_hand(panel):
    """Half the distance times the tangent, about the level at mid-drum."""
    panel.set(list=4)
    ends, mid = panel.result.glasses.indicated_level[:, 0], panel.result.surface.mid_level[0]
    assert ends - mid == pytest.approx([2.4 * tan(radians(4)), -2.4 * tan(radians(4))])
    assert ends.mean() == pytest.approx(mid, abs=1e-12)


@given(st.floats(-15, 15), st.floats(50, 450))
def test_the_mean_of_two_glasses_is_the_level_at_mid_drum_until_an_end_is_out_of_sight(
        made, list_angle, level):
    made.set(list=list_angle, level=level)
    glasses, middle = made.result.glasses, made.result.surface.mid_level[0]
    mean = dict(made._still_rows(made.result, SCREEN, True))["Mean"]
    if set(glasses.visibility[:, 0]) == {"in sight"}:
        assert glasses.indicated_level[:, 0].mean() == pytest.approx(middle, abs=1e-9)
        assert mean == f"{1000 * middle:.1f} mm"
    else:
        assert mean == "out of sight" and mean in [b.text for b in made.drawing.text_boxes]


@pytest.mark.parametrize("values", [
    {"list": 15}, {"list": -7, "trim": 3}, {"list": 20, "level": 40},
    {"motion": ROLLS, "amplitude": 15}, {"motion": PITCHES}])
def test_the_water_is_kept_in_every_frame(panel, values):
    panel.set(**values)
    surface, drum = panel.result.surface, panel.boiler.drum.shape
    kept = water_volume(drum, surface.mid_level, surface.slope_along, surface.slope_across)
    wanted = water_volume(drum, panel.result.setting.level)
    assert np.asarray(kept) == pytest.approx(wanted, rel=1e-9)


def test_a_roll_by_hand(panel):
    """theta_app = phi (1 + omega^2 z / g); it is the slope of the water at the quarter."""
    panel.set(motion=ROLLS, amplitude=5, period=10, height=8)
    tilt = radians(5) * (1 + (2 * pi / 10) ** 2 * 8 / 9.80665)
    assert panel.result.surface.slope_along[15] == pytest.approx(tan(tilt))
    assert panel.result.swing == pytest.approx(2.4 * tan(tilt), rel=0.01)
    assert degrees(panel.result.ship_list[15]) == pytest.approx(5.0)


def test_below_the_roll_axis_the_water_swings_less_than_the_ship(panel):
    panel.set(motion=ROLLS, amplitude=5, height=-6)
    assert panel.result.surface.slope_along[15] < tan(radians(5))


def test_a_lag_leaves_the_share_of_a_first_order_lag(panel):
    panel.set(motion=ROLLS, amplitude=2, lag=5, period=9)
    share = panel.result.shown_swing / panel.result.swing
    assert share == pytest.approx(1 / sqrt(1 + (2 * pi / 9 * 5) ** 2), rel=0.02)
    levels, shown = panel.result.levels[0], panel.result.glasses.indicated_level[0]
    assert shown.argmax() > levels.argmax()  # later, too
    assert shown[-1] == shown[0]


def test_a_fore_and_aft_drum_hardly_feels_a_roll_but_feels_a_pitch(panel):
    panel.set(motion=ROLLS, lies=FORE_AND_AFT, amplitude=10)
    assert panel.result.swing < 0.002
    panel.set(motion=PITCHES)
    assert panel.result.swing > 0.3
    assert "pitch: 10.0\u00b0 by the stern" in panel.player.film["words"][15].lower()


def test_a_chamber_on_the_low_side_reads_high_and_on_the_high_side_low(panel):
    panel.set(list=10)
    over = panel.result.remote_level
    # heights shrink by the cosine: (rho_r - rho_g) / (rho_f - rho_g) of what the leg loses
    assert over > panel.result.surface.mid_level[0]
    panel.set(offset=200)
    low_side = panel.result.remote_level
    panel.set(offset=-200)
    assert panel.result.remote_level < over < low_side
    assert low_side - over == pytest.approx(over - panel.result.remote_level, rel=1e-9)


def test_the_frame_asked_for_is_the_frame_of_the_film(panel):
    panel.set(motion=ROLLS, amplitude=6)
    panel.player.frame = 15
    assert panel.drawing.words == panel.player.film["words"][15]
    assert "roll: 6.0\u00b0 to port" in panel.drawing.words.lower()
    markup = panel.drawing.svg
    for part, attribute, values in panel.player.film["tracks"]:
        if attribute == "text":
            assert f">{values[15]}</text>" in markup, part
    assert panel.drawing.words in StaticTwin(panel).output().data


def test_a_still_ship_has_nothing_to_play(panel):
    panel.set(motion=ROLLS)
    panel.player.frame = 40
    press(panel, "Reset")
    assert len(panel.player.film["times"]) == 1 and panel.player.frame == 0


def test_motion_in_between_frames_stays_close_to_the_sine(panel):
    """The browser draws straight lines between frames: off by under 0.2 % of the swing."""
    panel.set(motion=ROLLS, amplitude=5)
    angle = np.arctan(panel.result.surface.slope_along)
    halfway = (angle[14] + angle[15]) / 2
    assert halfway == pytest.approx(angle[15] * sin(2 * pi * 14.5 / 60), rel=2e-3)


def test_controls_without_a_say_are_switched_off(panel):
    assert panel.controls["period"].disabled and not panel.controls["offset"].disabled
    panel.set(motion=ROLLS)
    assert panel.controls["offset"].disabled and not panel.controls["period"].disabled


def test_hiding_leaves_no_trace_of_the_level(panel):
    panel.truth.value = False
    panel.set(level=253, list=15)
    assert "253" not in re.sub(r'="[^"]*"', "", panel.player.film["svg"])
    assert "253" not in " ".join(panel.player.film["words"])


def test_too_steep_a_swing_is_a_sentence_and_the_picture_stays(panel):
    panel.set(motion=ROLLS)
    before = panel.player.film
    panel.set(amplitude=22.5, period=5, height=20)
    assert "89" in panel._problem.value or "rad" in panel._problem.value
    assert panel.player.film == before


def test_readings_belong_to_the_frame_at_rest(panel, tmp_path):
    panel.set(motion=ROLLS, amplitude=3)
    panel.readings.record()
    panel.player.frame = 15
    panel.readings.record()
    rows = list(csv.DictReader(io.StringIO(panel.readings.save(tmp_path).read_text("utf-8"))))
    assert [row["list to port [deg]"] for row in rows] == ["0.00", "3.00"]
    assert [row["time [s]"] for row in rows] == ["0.00", "2.25"]


def test_a_typed_comma_is_taken(panel):
    type_in(panel.controls["list"], "2,5")
    assert degrees(panel.result.setting.list_angle) == pytest.approx(2.5)
