"""Lesson 05 as its user sees it: cocks in time, and a whole drill by keyboard alone."""

import re

import pytest
from conftest import open_and_run
from looking import assert_fits_the_screen, errors_shown, picture

from levelkit.constants import CAUTION

LESSON = "05_cocks_and_blowing_through.ipynb"
HEALTHY, BELOW, LYING = 4, 18, 25
SOUND = ("Shut S", "Shut W", "Ease open D", "Ease open W", "Shut W", "Ease open S", "Shut S",
         "Shut D", "Ease open W", "Ease open S")


@pytest.fixture(scope="module")
def opened(page, lab):
    open_and_run(page, lab, LESSON)
    return page


def cocks_of(page):
    return page.locator(".lk-panel", has=page.get_by_role("slider", name="Steam cock S"))


def drill_of(page):
    return page.locator(".lk-panel", has=page.get_by_role("button", name="Begin again"))


def press(panel, name):
    panel.get_by_role("button", name=name, exact=True).click()


def reveal(page):
    choice = page.get_by_role("radio", name="It fills the glass within half a minute")
    if choice.is_disabled():
        return
    choice.check()
    page.get_by_role("button", name="Lock my prediction").click()
    page.get_by_role("button", name="Reveal", exact=True).click()


_NAME = """() => { const e = document.activeElement;
    const label = e.labels && e.labels.length ? e.labels[0].textContent : '';
    return (label || e.getAttribute('aria-label') || e.textContent || '').trim(); }"""
_CHOSEN = "() => (document.activeElement.selectedOptions[0]?.text || '').replaceAll('\\u00a0', ' ')"


class Keys:
    """Works a panel by Tab, Shift+Tab, Space, typing and arrow keys, and by nothing else."""

    def __init__(self, page, panel):
        """Come into the panel by Tab, from wherever on the page the focus is."""
        self.page, self.panel = page, panel
        page.keyboard.press("Escape")  # out of a cell that is being edited, where Tab indents
        for _ in range(200):
            if self._inside():
                return
            page.keyboard.press("Tab")
        raise AssertionError("Tab does not lead into the panel")

    def _inside(self):
        return self.panel.evaluate("e => e.contains(document.activeElement)")

    def begin(self, number):
        """A drill from its beginning, its number typed."""
        self.go("Drill number, typed value")
        self.page.keyboard.press("Control+A")
        self.page.keyboard.type(f"{number}\n")
        self.press("Begin again")
        self.panel.locator("svg text", has_text=f"Drill {number}: proved?").wait_for()
        self.panel.locator(".lk-words", has_text="As found").wait_for()

    def go(self, name):
        """Tab to the control of that name, onwards first, then backwards."""
        for key in ("Tab", "Shift+Tab"):
            for _ in range(60):
                if self.page.evaluate(_NAME) == name:
                    return
                self.page.keyboard.press(key)
                if not self._inside():
                    self.page.keyboard.press("Shift+Tab" if key == "Tab" else "Tab")
                    break
        raise AssertionError(f"{name!r} cannot be reached by Tab; stopped at "
                             f"{self.page.evaluate(_NAME)!r}")

    def turn(self, name):
        """Turn a cock and wait until the picture says so."""
        before = self.panel.locator(".lk-words").inner_text()
        self.go(name)
        self.page.keyboard.press("Space")
        self.page.wait_for_function(
            "([e, t]) => e.querySelector('.lk-words').textContent !== t",
            arg=[self.panel.element_handle(), before])

    def choose(self, name, label):
        """Choose an option by arrow keys."""
        self.go(name)
        for _ in range(12):
            if self.page.evaluate(_CHOSEN) == label:
                return
            self.page.keyboard.press("ArrowDown")
            self.page.wait_for_timeout(60)
        raise AssertionError(f"{name!r} does not offer {label!r}")

    def press(self, name):
        self.go(name)
        self.page.keyboard.press("Space")


def begin(page, number):
    """A drill from its beginning; its number is typed."""
    panel = drill_of(page)
    entry = panel.get_by_role("textbox", name="Drill number")
    entry.fill(str(number))
    entry.press("Enter")
    press(panel, "Begin again")
    panel.locator("svg text", has_text=f"Drill {number}: proved?").wait_for()
    panel.locator(".lk-words", has_text="As found").wait_for()
    return panel


def test_all_cells_run_without_an_error(opened):
    assert errors_shown(opened) == 0


def test_a_choked_steam_cock_fills_the_glass_when_played_by_keyboard(opened):
    reveal(opened)
    panel = cocks_of(opened)
    press(panel, "steam choked")
    panel.locator("svg text", has_text="steam way choked").wait_for()
    panel.get_by_role("combobox", name="Speed").select_option(label="20 \u00d7 real time")
    play = panel.get_by_role("button", name="Play", exact=True)
    play.focus()
    opened.keyboard.press("Space")
    panel.locator(".lk-words", has_text="After 30.0 s").wait_for()
    assert "shows 396 mm, 210 mm HIGH" in panel.locator(".lk-words").inner_text()
    assert panel.locator("svg text", has_text="210 mm HIGH").count() == 1


@pytest.mark.parametrize("state", ["steam choked", "both choked", "drain passes",
                                   "after a blow: W only", "level below"])
@pytest.mark.parametrize("projector", [False, True], ids=["screen", "projector"])
def test_the_cocks_panel_fits_and_nothing_is_cut(opened, state, projector):
    reveal(opened)
    panel = cocks_of(opened)
    press(panel, state)
    if projector:
        press(panel, "Projector size")
    opened.wait_for_timeout(800)
    try:
        assert_fits_the_screen(opened, panel, "lesson-05-" + re.sub(r"\W+", "-", state)
                               + ("-projector" if projector else "-screen"))
    finally:
        if projector:
            press(panel, "Projector size")
        press(panel, "Reset")


def test_a_whole_drill_by_keyboard_alone(opened):
    panel = drill_of(opened)
    keys = Keys(opened, panel)
    keys.begin(HEALTHY)
    for number, move in enumerate(SOUND, 1):
        if move == "Ease open W" and number == 4:
            keys.choose("Before you turn it: I expect at the drain", "strong wet blow")
        keys.turn(move)
        if number == 4:
            panel.locator(".lk-said", has_text="As you expected").wait_for()
    for tick in ("drain clear", "water way clear", "steam way clear", "connection covered",
                 "level in the glass"):
        keys.press(tick)
    keys.press("Compare with the ledger")
    panel.locator(".lk-said", has_text="5 of 5 ticks are borne out").wait_for()
    picture(opened, "lesson-05-drill-compared")
    keys.choose("Level", "in the visible glass")
    keys.choose("Action", "carry on steaming")
    keys.press("Declare and end the drill")
    said = panel.locator(".lk-said", has_text=re.compile("^BORNE OUT"))
    said.wait_for()
    text = said.inner_text()
    assert "no fault" in text and CAUTION in text
    assert_fits_the_screen(opened, panel, "lesson-05-drill-ended")


def test_a_wrong_order_shows_its_consequence_and_the_recited_answer_fails(opened):
    panel = drill_of(opened)
    keys = Keys(opened, panel)
    keys.begin(BELOW)
    keys.turn("Throw open D")  # everything open: blows, and proves nothing about either way
    keys.press("water way clear")
    keys.press("Compare with the ledger")
    panel.locator(".lk-said", has_text="Nothing seen so far proves: water way clear").wait_for()
    for move in ("Shut D", "Ease open S", "Shut W", "Ease open D", "Shut S", "Ease open W"):
        keys.turn(move)
    panel.locator(".lk-words", has_text="strong DRY blow").wait_for()
    keys.choose("Level", "in the visible glass")
    keys.choose("Action", "carry on steaming")
    keys.press("Declare and end the drill")
    said = panel.locator(".lk-said", has_text=re.compile("^NOT BORNE OUT"))
    said.wait_for()
    assert "stop firing, do not feed" in said.inner_text()
    keys.press("\u25c2 earlier move")
    panel.locator(".lk-words", has_text="Move 6").wait_for()
    assert_fits_the_screen(opened, panel, "lesson-05-drill-failed")


def test_the_level_below_is_declared_by_keyboard_and_borne_out(opened):
    panel = drill_of(opened)
    keys = Keys(opened, panel)
    keys.begin(BELOW)
    for move in SOUND:
        keys.turn(move)
    keys.choose("Level", "below the water connection")
    keys.choose("Action", "stop firing, do NOT feed, report")
    keys.press("Declare and end the drill")
    panel.locator(".lk-said", has_text=re.compile("^BORNE OUT")).wait_for()


def test_the_order_learnt_by_heart_does_not_pass_a_gauge_that_lies(opened):
    panel = drill_of(opened)
    keys = Keys(opened, panel)
    keys.begin(LYING)
    for move in SOUND:
        keys.turn(move)
    for tick in ("steam way clear", "water way clear", "level in the glass"):
        keys.press(tick)
    keys.choose("Level", "in the visible glass")
    keys.choose("Action", "carry on steaming")
    keys.press("Declare and end the drill")
    said = panel.locator(".lk-said", has_text=re.compile("^NOT BORNE OUT"))
    said.wait_for()
    assert "The level is not proved in the visible glass" in said.inner_text()
    assert "choked" in said.inner_text() and CAUTION in said.inner_text()
    assert_fits_the_screen(opened, panel, "lesson-05-drill-recited")


@pytest.mark.parametrize("projector", [False, True], ids=["screen", "projector"])
def test_the_drill_fits_and_a_blow_is_not_told_by_colour_alone(opened, projector):
    panel = begin(opened, HEALTHY)
    if projector:
        press(panel, "Projector size")
    for move in ("Ease open D", "Shut S", "Shut W"):
        press(panel, move)
        opened.wait_for_timeout(400)
        assert_fits_the_screen(opened, panel, f"lesson-05-drill-{move[-1]}-"
                               + ("projector" if projector else "screen"))
    for move, words, filled in (("Ease open W", "strong WET blow", True), ("Shut W", "dies away",
                                False), ("Ease open S", "strong DRY blow", False)):
        press(panel, move)
        panel.locator("svg text", has_text=words).first.wait_for()
        jet = panel.locator("svg polygon[fill*='brine']").first.get_attribute("points")
        assert (len(set(jet.split(" "))) > 1) is filled, "water is drawn in a wet blow only"
    press(panel, "Compare with the ledger")
    opened.wait_for_timeout(400)
    assert_fits_the_screen(opened, panel, "lesson-05-drill-open-"
                           + ("projector" if projector else "screen"))
    if projector:
        press(panel, "Projector size")
