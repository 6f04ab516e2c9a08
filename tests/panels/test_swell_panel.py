"""The swell panel without a browser: the benchmark, signs, controllers, sentences for mistakes."""

import csv
import io
import re

import numpy as np
import pytest
from handling import nothing_swallowed, press

from levelkit.lesson import swell_panel
from levelkit.panels.boiler_run import ONE_ELEMENT, SMALL, THREE_ELEMENTS
from levelkit.physics.natural_circulation import boiler_equilibrium, boiler_transient
from levelkit.physics.transients import single_step
from levelkit.properties import saturation_line


@pytest.fixture(scope="module")
def shared():
    return swell_panel()


@pytest.fixture()
def panel(shared, caplog):
    """A panel as it begins; an exception swallowed by a callback fails the test."""
    shared.truth.value = True
    shared.reset()
    with nothing_swallowed(caplog):
        yield shared


def test_every_preset_is_worked_out_once(panel):
    for label in panel.presets:
        seen = []
        panel.player.observe(lambda change, seen=seen: seen.append(change["new"]), "film")
        press(panel, label)
        panel.player.unobserve_all("film")
        assert len(seen) <= 1 and panel._problem.value == "", label
    press(panel, "Reset")


def test_the_benchmark_of_the_small_boiler(panel):
    """+20 % steam: +8.4 mm at 6 s, -20 %: -8.3 mm at 5.8 s (hand-integrated reference)."""
    panel.set(boiler=SMALL, duration=60)
    run = panel.result
    assert run.surface.max() == pytest.approx(8.4, abs=0.1)
    assert run.time[run.surface.argmax()] - 10 == pytest.approx(6.0, abs=0.3)
    assert run.mass[run.surface.argmax()] < 0
    panel.set(event="load step down")
    assert panel.result.surface.min() == pytest.approx(-8.3, abs=0.1)


def test_the_large_boiler_is_the_published_model(panel):
    rest = boiler_equilibrium(saturation_line)
    run = boiler_transient(rest, single_step(rest.inputs, 10.0,
                                             steam_flow=1.2 * rest.inputs.steam_flow),
                           200.0, saturation_line, 481)
    assert panel.result.surface == pytest.approx(1000 * run.surface_change, abs=1e-6)
    assert panel.result.shown == pytest.approx(1000 * run.collapsed_change, abs=1e-6)


def test_mass_is_what_left_less_what_entered(panel):
    run = panel.result
    lost = np.trapezoid(run.feed - run.steam, run.time)
    assert run.mass[-1] == pytest.approx(lost, rel=0.01)
    assert run.surface.max() > 40 and run.mass[run.surface.argmax()] < -100


def test_cold_feed_moves_glass_and_surface_opposite_ways_and_no_mass(panel):
    press(panel, "cold feed")
    assert panel.result.shown.max() > 5 and panel.result.surface.min() < -50
    assert abs(panel.result.mass).max() < 1.0


def test_bubbles_below_the_connection_are_seen(panel):
    none = panel.result.shown.max()
    panel.set(share=100)
    assert panel.result.shown == pytest.approx(panel.result.surface, abs=1e-6)
    assert none < 0.25 * panel.result.shown.max()


def test_one_element_first_shuts_in_feed_and_three_do_not(panel):
    start = panel.result.feed[0]
    for share in (0, 100):
        panel.set(feed=ONE_ELEMENT, share=share)
        assert panel.result.feed.min() < start - 0.9
        panel.set(feed=THREE_ELEMENTS)
        assert panel.result.feed.min() > start - 0.01


def test_a_transmitter_that_shows_too_much_empties_the_boiler(panel):
    panel.set(feed=THREE_ELEMENTS)
    right = panel.result.mass.min()
    panel.set(signal_error=100)
    assert panel.result.mass.min() < right - 500


def test_feed_loss_with_a_controller_is_a_sentence_and_the_picture_stays(panel):
    before = panel.player.film
    panel.set(feed=ONE_ELEMENT, event="feed loss")
    assert "do not go together" in panel._problem.value and panel.player.film is before
    panel.set(event="cold feed")
    assert panel._problem.value == ""


def test_a_run_that_ends_early_says_why_and_its_film_ends_there(panel):
    panel.set(event="feed loss", duration=600)
    run, film = panel.result, panel.player.film
    assert run.time[-1] < 600 and film["times"][-1] == pytest.approx(run.time[-1])
    assert run.ended in film["svg"] and len(film["times"]) == len(film["words"])


def test_controls_without_a_say_are_switched_off(panel):
    assert panel.controls["signal_error"].disabled
    panel.set(boiler=SMALL)
    assert panel.controls["drum_metal"].disabled and panel.controls["feed"].disabled


def test_the_frame_is_kept_from_event_to_event(panel):
    panel.player.frame = 14
    press(panel, "cold feed")
    assert panel.player.frame == 14
    assert panel.drawing.words == panel.player.film["words"][14]
    assert "cold feed, at 23 s" in panel.drawing.words.lower()


def test_hiding_shows_the_glass_only(panel):
    panel.truth.value = False
    words = " ".join(panel.player.film["words"])
    assert "surface +" not in words and "kg:" not in words and "glass +" in words
    lettering = re.sub(r'="[^"]*"', "", panel.player.film["svg"])
    assert "hidden" in lettering and "holds less" not in lettering
    peak = f"{panel.result.surface.max():+.0f} mm"
    assert peak not in lettering


def test_readings_belong_to_the_frame_at_rest(panel, tmp_path):
    panel.player.frame = 20
    panel.readings.record()
    row = list(csv.DictReader(io.StringIO(panel.readings.save(tmp_path).read_text("utf-8"))))[-1]
    i = panel.result.records[20]
    assert float(row["surface [mm]"]) == pytest.approx(panel.result.surface[i], abs=0.051)
    assert float(row["time [s]"]) == pytest.approx(panel.result.time[i], abs=0.051)


def test_hiding_works_nothing_out_again(panel):
    run, film = panel.result, panel._film
    panel.truth.value = False
    assert panel.result is run and panel._film is not film
    panel.truth.value = True
    assert panel._film is film
