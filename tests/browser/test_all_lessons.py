"""Every lesson in JupyterLab: runs clean; every control named and worked by keyboard; it fits.

One page is opened for each lesson and kept for all its tests.
"""

import pytest
from conftest import ROOT, open_and_run
from hands import (
    deaf_to_arrows,
    deaf_to_typing,
    grave_faults,
    nameless,
    not_reached_by_tab,
    redrawn_more_than_once,
    too_tall_when_presented,
    too_wide,
)

LESSONS = sorted(path.name for path in (ROOT / "lessons").glob("*.ipynb"))
WITH_PICTURE = ".lk-panel:has(.lk-picture, .lk-player)"


@pytest.fixture(scope="module", params=LESSONS, ids=lambda name: name[:2])
def lesson(request, page, lab):
    """A page with all cells of a lesson run, and what the page complained of."""
    complaints = []
    page.on("pageerror", lambda fault: complaints.append(str(fault)))
    open_and_run(page, lab, request.param)
    page.complaints = complaints
    return page


def test_the_searching_finds_what_it_is_to_find(page):
    page.set_content("""<div class="lk-panel"><h3 class="lk-title">Planted</h3><input>
        <p style="color:#bbbbbb;background:#ffffff">hardly to be read</p>
        <button tabindex="-1">out of reach</button><button>here</button></div>""")
    assert len(nameless(page)) == 1
    assert "out of reach" in "".join(not_reached_by_tab(page))
    assert {fault.split(":")[0] for fault in grave_faults(page)} >= {"label", "color-contrast"}


def test_it_runs_and_shows_its_panels(lesson):
    assert lesson.locator("[data-mime-type='application/vnd.jupyter.stderr']").count() == 0
    assert lesson.get_by_text("Traceback (most recent call last)").count() == 0
    assert lesson.locator(".lk-panel").count() >= 4, "prediction, panel, self-check, exercise"
    assert lesson.locator(".lk-problem:not(:empty)").count() == 0
    assert lesson.locator("figure img").count() >= 1
    assert lesson.get_by_role("button", name="Present this lesson").count() == 1
    assert lesson.complaints == []


def test_every_control_has_a_name_and_is_reached_and_moved_by_keyboard(lesson):
    assert nameless(lesson) == []
    assert not_reached_by_tab(lesson) == []
    assert deaf_to_arrows(lesson) == []


def test_a_comma_is_taken_nonsense_refused_in_words_and_presets_redraw_once(lesson):
    faults = []
    for panel in lesson.locator(WITH_PICTURE).all():
        faults += deaf_to_typing(lesson, panel)
        row = panel.locator(".lk-buttons", has=lesson.get_by_role("button", name="Reset"))
        if not row.count():
            continue  # a drill, which is begun anew by its own button
        for label in {row.locator("button").first.inner_text(), "Reset"}:
            faults += redrawn_more_than_once(lesson, row.locator("xpath=.."), label)
        assert panel.locator(".lk-message:not(:empty)").count() == 0, "Reset clears the message"
    assert faults == []


def test_nothing_scrolls_sideways_on_three_screens_at_both_sizes(lesson):
    assert too_wide(lesson) == []
    switches = lesson.get_by_role("button", name="Projector size")
    for switch in switches.all():
        switch.click()
    lesson.wait_for_timeout(500)
    try:
        assert too_wide(lesson) == []
    finally:
        for switch in switches.all():
            switch.click()


def test_it_is_presented_and_every_panel_fits_above_the_bar(lesson):
    assert too_tall_when_presented(lesson) == []
    assert too_wide(lesson) == []


def test_axe_finds_nothing_serious_in_what_is_ours(lesson):
    assert grave_faults(lesson) == []
    assert lesson.complaints == []
