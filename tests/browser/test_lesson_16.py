"""Lesson 16 as its user sees it: table, clock, what refers, pairs and record, by keyboard."""

import csv

import pytest
from conftest import open_and_run
from looking import SIZES, assert_fits_in_size, errors_shown, picture, press_by_key, tab_to

from levelkit.constants import CAUTION
from levelkit.exercises.oral import oral_questions

LESSON = "16_oral_practice.ipynb"
COCKS = "cocks and blowing through"
NOW = "() => document.querySelector('.lk-timer').textContent"


@pytest.fixture(scope="module")
def opened(page, lab):
    open_and_run(page, lab, LESSON)
    return page


def panel_of(page):
    return page.locator(".lk-panel", has=page.get_by_role("button", name="Put the next question"))


def select(page, name, option):
    panel_of(page).get_by_role("combobox", name=name).select_option(option)


def question_on_the_table(page):
    """The question that is shown, out of the bank."""
    asked = panel_of(page).locator(".lk-asked").inner_text()
    return next(one for one in oral_questions().values() if asked.startswith(one.ask))


def put(page, wanted, topic=COCKS):
    """Put questions of a topic by keyboard until the wanted one lies on the table."""
    select(page, "Topic", topic)
    count = sum(one.topic == topic for one in oral_questions().values())
    for _ in range(2 * count):
        before = panel_of(page).inner_html()
        press_by_key(panel_of(page), "Put the next question")
        page.wait_for_function("([e, t]) => e.innerHTML !== t",
                               arg=[panel_of(page).element_handle(), before])
        page.wait_for_timeout(400)
        found = question_on_the_table(page)
        if found.id == wanted:
            return found
    raise AssertionError(f"{wanted} was not put")


def show_points(page):
    press_by_key(panel_of(page), "Show the model points")
    panel_of(page).get_by_role("button", name="Prompted (0)").wait_for()


def tick(page, text):
    """Tick a point by keyboard."""
    box = panel_of(page).get_by_role("checkbox", name=text)
    box.focus()
    page.keyboard.press("Space")
    page.wait_for_function("e => e.checked", arg=box.element_handle())


def record(page, told):
    press_by_key(panel_of(page), "Record this answer")
    panel_of(page).locator("[role=status]", has_text=told).wait_for()


def rows(lab):
    """The newest record file."""
    path = max(lab.folder.glob("oral-*.csv"), key=lambda one: int(one.stem[5:]))
    with path.open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def test_all_cells_run_without_an_error(opened):
    assert errors_shown(opened) == 0


def test_the_points_are_hidden_until_asked_for(opened):
    question = put(opened, "no-water")
    shown = panel_of(opened).inner_text()
    assert not any(point.text in shown for point in question.points)
    assert not any(text in shown for text in question.follow_ups)
    show_points(opened)
    shown = panel_of(opened).inner_text()
    assert all(point.text in shown for point in question.points)
    assert CAUTION in shown and shown.count("\u2605") == len(question.critical) + 1


def test_the_clock_runs_while_one_speaks_and_stands_when_the_points_are_shown(opened):
    put(opened, "no-water")
    first = opened.evaluate(NOW)
    opened.wait_for_function(f"t => ({NOW})() !== t", arg=first)
    assert "left" in opened.evaluate(NOW) and "taken" in opened.evaluate(NOW)
    size = opened.locator(".lk-timer b").evaluate("e => parseFloat(getComputedStyle(e).fontSize)")
    assert size >= 22, "the clock is to be read across a table"
    show_points(opened)
    opened.wait_for_timeout(300)
    stopped = opened.evaluate(NOW)
    opened.wait_for_timeout(1500)
    assert opened.evaluate(NOW) == stopped


def test_the_clock_says_when_the_time_is_up(opened):
    put(opened, "no-water")
    opened.evaluate("""() => { const real = performance.now.bind(performance);
        window.levelkitNow = performance.now; performance.now = () => real() + 125000; }""")
    try:
        opened.locator(".lk-timer.lk-over [role=status]", has_text="time is up").wait_for()
        assert "0:0" in opened.evaluate(NOW) and "over" in opened.evaluate(NOW)
        picture(opened, "lesson-16-time-up")
    finally:
        opened.evaluate("() => { performance.now = window.levelkitNow; }")


def test_a_critical_point_left_out_refers_at_any_score_and_stands_in_the_file(opened, lab):
    """From question to record with nothing but Tab, Space and Enter."""
    question = put(opened, "no-water")
    passed = tab_to(opened, "Show the model points")
    assert passed == ["Continue this scene", "Show the model points"]
    opened.keyboard.press("Enter")
    panel_of(opened).get_by_role("button", name="Prompted (0)").wait_for()
    for point in question.points:
        if point.text != "Do not feed":
            tab_to(opened, f"\u2605 {point.text}" if point.critical else point.text)
            opened.keyboard.press("Space")
    tab_to(opened, "Record this answer")
    opened.keyboard.press("Enter")
    said = panel_of(opened).locator("[role=status]", has_text="refers at any score")
    said.wait_for()
    picture(opened, "lesson-16-referred")
    assert "\u201cDo not feed\u201d" in said.inner_text()
    row = rows(lab)[-1]
    assert (row["question"], row["refers"], row["not_reached"]) == ("no-water", "yes",
                                                                    "Do not feed")
    assert float(row["elapsed_s"]) > 0.0


def test_the_contrary_said_refers_though_the_point_is_ticked(opened, lab):
    question = put(opened, "no-water")
    show_points(opened)
    for point in question.points:
        tick(opened, point.text)
    tick(opened, "the contrary was said (point 2)")
    press_by_key(panel_of(opened), "Prompted (0)")
    panel_of(opened).get_by_role("button", name="Prompted (1)").wait_for()
    record(opened, "refers at any score")
    row = rows(lab)[-1]
    assert (row["dangerous"], row["prompts"], row["refers"]) == ("2", "1", "yes")


def test_a_pair_takes_turns_and_needs_two_names(opened, lab):
    select(opened, "Practise", "in a pair, taking turns")
    panel = panel_of(opened)
    try:
        press_by_key(panel, "Put the next question")
        panel.locator("[role=status]", has_text="two different names").wait_for()
        for name, text in (("Asks", "Cadet 8"), ("Answers", "Cadet 7")):
            panel.get_by_role("textbox", name=name).focus()
            opened.keyboard.press("Control+a")
            opened.keyboard.type(text)
        for answers in ("Cadet 7", "Cadet 8"):
            press_by_key(panel, "Put the next question")
            panel.get_by_role("button", name="Prompted (0)").wait_for(state="detached")
            show_points(opened)
            record(opened, f"{answers}, 1 question")
        assert [(row["examiner"], row["candidate"]) for row in rows(lab)[-2:]] == [
            ("Cadet 8", "Cadet 7"), ("Cadet 7", "Cadet 8")]
        assert panel.get_by_role("textbox", name="Answers").input_value() == "Cadet 7"
    finally:
        select(opened, "Practise", "alone")


def test_a_sketch_is_blank_while_asked_and_lettered_with_the_points(opened):
    put(opened, "tubular-gauge", "glass types")
    drawing = panel_of(opened).locator(".lk-figure svg")
    assert drawing.locator("text").count() == 0
    show_points(opened)
    drawing.locator("text", has_text="water cock").wait_for()


def test_a_scene_goes_on(opened):
    question = put(opened, "blow-through")
    press_by_key(panel_of(opened), "Continue this scene")
    panel_of(opened).locator(".lk-asked", has_text=oral_questions()[question.then].ask).wait_for()
    assert "left" in opened.evaluate(NOW)


@SIZES
@pytest.mark.parametrize("wanted, topic", [
    ("tubular-gauge", "glass types"), ("blow-through", COCKS)])
def test_the_table_fits_a_1280x720_screen_and_nothing_is_cut(opened, wanted, topic, projector):
    put(opened, wanted, topic)
    assert_fits_in_size(opened, panel_of(opened), f"lesson-16-{wanted}-asked", projector)
    show_points(opened)
    assert_fits_in_size(opened, panel_of(opened), f"lesson-16-{wanted}-points", projector)
