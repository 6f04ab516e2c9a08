"""A whole lesson presented: one key for each step, large type, no code, clock, notes apart."""

import pytest
from conftest import open_and_run
from hands import grave_faults, too_wide
from looking import errors_shown, picture

LESSON = "03_why_the_glass_reads_low.ipynb"
SHOWN = """() => [...document.querySelectorAll('.jp-Notebook .jp-Cell')]
    .filter(cell => cell.offsetHeight > 0).length"""


@pytest.fixture(scope="module")
def opened(page, lab):
    open_and_run(page, lab, LESSON)
    return page


@pytest.fixture
def presented(opened):
    switch = opened.get_by_role("button", name="Present this lesson")
    assert switch.count() == 1, "one switch, however many panels there are"
    switch.focus()
    opened.keyboard.press("Enter")
    yield opened
    if opened.get_by_role("group", name="Presentation").is_visible():
        opened.get_by_role("button", name="End").click()


def where(page):
    return page.locator(".lk-lectern-where").inner_text()


def test_one_key_shows_one_cell_more(presented):
    assert where(presented).startswith("1 of ")
    assert presented.evaluate(SHOWN) == 1
    presented.keyboard.press("PageDown")
    presented.keyboard.press("Space")  # the bar has the focus: its Next is pressed
    assert where(presented).startswith("3 of ")
    assert presented.evaluate(SHOWN) == 3
    presented.keyboard.press("PageUp")
    assert presented.evaluate(SHOWN) == 2
    presented.keyboard.press("Escape")
    assert not presented.get_by_role("group", name="Presentation").is_visible()
    assert presented.evaluate(SHOWN) > 10
    presented.wait_for_timeout(300)
    assert too_wide(presented) == [], "the page has its own room again"
    tools = presented.locator(".jp-NotebookPanel-toolbar").bounding_box()
    room = presented.locator(".jp-SideBar.jp-mod-right").bounding_box()
    assert tools["x"] + tools["width"] <= room["x"] + 1


def test_no_code_is_shown_to_the_last_step_and_the_words_are_large(presented):
    count = int(where(presented).split(" of ")[1].split(":")[0])
    for _ in range(count + 2):
        presented.keyboard.press("PageDown")
    assert where(presented).startswith(f"{count} of {count}: ")
    assert presented.get_by_role("button", name="Next").is_disabled()
    assert presented.evaluate("""() => [...document.querySelectorAll(
        '.jp-CodeCell .jp-InputArea-editor')].filter(e => e.offsetHeight > 0).length""") == 0
    size = presented.locator(".jp-MarkdownCell .jp-RenderedMarkdown p").first.evaluate(
        "e => parseFloat(getComputedStyle(e).fontSize)")
    assert size >= 24
    assert errors_shown(presented) == 0


def test_the_panel_is_large_works_by_keyboard_and_fits_above_the_bar(presented):
    panel = presented.locator(".lk-panel", has=presented.get_by_role(
        "slider", name="Drum pressure"))
    while not panel.is_visible():
        presented.keyboard.press("PageDown")
    panel.locator("svg text[font-size='20.0']").first.wait_for()
    presented.wait_for_timeout(400)
    picture(presented, "presenting-03-panel")
    bar = presented.get_by_role("group", name="Presentation").bounding_box()
    box = panel.bounding_box()
    assert box["y"] + box["height"] <= bar["y"]
    slider = presented.get_by_role("slider", name="Drum pressure")
    slider.focus()
    before = slider.input_value()
    presented.keyboard.press("ArrowRight")
    assert float(slider.input_value()) > float(before)
    step = where(presented)
    presented.keyboard.press("PageDown")
    assert where(presented) != step, "the key for a step goes before the slider in hand"


def test_the_notes_stand_in_a_window_of_their_own(presented):
    with presented.expect_popup() as opening:
        presented.get_by_role("button", name="Notes").click()
    notes = opening.value
    notes.get_by_role("heading", name="Notes for the lecturer: 03").wait_for()
    head = notes.locator("header")
    assert " of 45:00" in head.inner_text() and "1 of " in head.inner_text()
    assert notes.locator("tr.now").inner_text().split("\t")[0] == "4"
    picture(notes, "presenting-03-notes")
    notes.keyboard.press("PageDown")
    assert head.inner_text().split(" \u00b7 ")[1].startswith("2 of ")
    assert where(presented).startswith("2 of ")
    assert "Notes for the lecturer: 03" not in presented.locator("body").inner_text()


def test_under_a_dark_theme_all_that_is_ours_can_still_be_read(opened):
    opened.get_by_role("menuitem", name="Settings", exact=True).click()
    opened.get_by_text("Theme", exact=True).hover()
    opened.get_by_text("JupyterLab Dark", exact=True).click()
    opened.wait_for_function("() => document.body.dataset.jpThemeLight === 'false'")
    opened.wait_for_timeout(500)
    picture(opened, "dark-03")
    assert grave_faults(opened) == []
    dark = opened.evaluate("""() => [...document.querySelectorAll(
        '.lk-panel :is(select, input[type=text], textarea, button)')].filter(e => {
            const style = getComputedStyle(e);
            return style.backgroundColor === style.color
                || Number(/\\d+/.exec(style.backgroundColor)[0]) < 128;
        }).map(e => e.outerHTML.slice(0, 100))""")
    assert dark == [], "white paper needs white entries"
