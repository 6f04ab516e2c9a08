"""Lesson 12 as its user sees it: the swell played, scrubbed and compared, at 1280x720."""

import pytest
from looking import (
    SIZES,
    assert_fits_in_size,
    colliding_texts,
    errors_shown,
    picture,
    predict,
    press,
    wait_for_words,
)
from playing import assert_plays_without_the_kernel, assert_shows_frame

from levelkit.constants import CAUTION
from levelkit.lesson import swell_panel

LESSON = "12_swell_and_shrink.ipynb"
DOT = (".lk-player svg circle[data-part]", "cx")  # runs along a curve with the time


@pytest.fixture(scope="module")
def own():
    return swell_panel()


def panel_of(page):
    return page.locator(".lk-panel", has=page.get_by_role("slider", name="Drum metal"))


@pytest.fixture()
def panel(opened):
    """The panel, revealed, at the start of the film of the load step."""
    found = panel_of(opened)
    predict(opened, found, "It rises, though the boiler loses water", "water and steam")
    press(found, "Reset")
    press(found, "To the start")
    wait_for_words(found, "Load step up, at 0 s")
    return found


def test_all_cells_run_and_surface_and_mass_are_hidden_until_predicted(opened):
    assert errors_shown(opened) == 0
    assert "Surface and mass are hidden" in panel_of(opened).locator(".lk-words").inner_text()
    assert opened.get_by_text(CAUTION).count() >= 2


def test_an_event_is_chosen_by_keyboard_and_its_film_stepped(opened, panel):
    panel.get_by_role("combobox", name="Event").focus()
    opened.keyboard.press("ArrowDown")
    wait_for_words(panel, "Load step down, at 0 s")
    panel.get_by_role("button", name="One step on").focus()
    for _ in range(12):
        opened.keyboard.press("Enter")
    wait_for_words(panel, "Load step down, at 20 s")
    assert "surface \u2212" in panel.locator(".lk-words").inner_text(), "it shrinks"


def test_a_typed_comma_is_taken_and_a_refusal_is_a_sentence(panel):
    entry = panel.get_by_role("textbox", name="Drum metal")
    before = panel.locator(".lk-player svg").inner_html()
    entry.fill("0,0")
    entry.press("Enter")
    panel.locator("svg text", has_text="to +35 mm").wait_for()  # no metal: less swell
    assert panel.locator(".lk-player svg").inner_html() != before
    entry.fill("400")
    entry.press("Enter")
    panel.locator(".lk-message", has_text="outside 0 to 140 t").wait_for()
    assert entry.input_value() == "400"


def test_scrubbing_shows_the_frames_that_python_has(opened, panel, own):
    time = panel.get_by_role("slider", name="Time")
    for label in ("safety valve sticks", "cold feed", "load up"):
        press(panel, label)
        own.set(**own.presets[label])
        for frame in (14, 100):
            time.fill(str(frame))
            wait_for_words(panel, own.player.film["words"][frame])
            assert_shows_frame(panel, own.player.film, frame)
            assert colliding_texts(panel) == []
    picture(opened, "lesson-12-end")


def test_it_plays_smoothly_and_leaves_the_kernel_alone(opened, panel, own):
    own.reset()
    assert_plays_without_the_kernel(opened, panel, *DOT, own.player.film)


def test_a_film_stops_at_its_end_and_tells_the_kernel(opened, panel):
    panel.get_by_role("slider", name="Time").fill("112")
    wait_for_words(panel, "at 187 s")
    press(panel, "Play")
    panel.get_by_role("button", name="Play").wait_for()
    wait_for_words(panel, "at 200 s")
    opened.wait_for_function(
        "() => document.querySelector('figure img').alt.includes('at 200 s')")


def test_an_impossible_choice_is_a_sentence(panel):
    press(panel, "one element")
    panel.locator("svg text", has_text="feed by one element").wait_for()
    panel.get_by_role("combobox", name="Event").select_option("feed loss")
    panel.locator(".lk-problem", has_text="do not go together").wait_for()
    press(panel, "Reset")
    panel.locator(".lk-problem", has_text="together").wait_for(state="detached")


@SIZES
@pytest.mark.parametrize("preset, frame", [("load up", "14"), ("three elements", "14"),
                                           ("safety valve sticks", "70"), ("feed loss", "120")])
def test_the_panel_fits_a_1280x720_screen_and_nothing_is_cut(opened, panel, projector, preset,
                                                             frame):
    press(panel, preset)
    panel.get_by_role("slider", name="Time").fill(frame)
    assert_fits_in_size(opened, panel, f"lesson-12-{preset.replace(' ', '-')}", projector)
