"""What every lesson's panel is looked at for: it fits, nothing is cut, no lettering collides."""

import os
import re
from pathlib import Path

import pytest

SIZES = pytest.mark.parametrize("projector", [False, True], ids=["screen", "projector"])


def press(panel, name):
    """Press a button by its name."""
    panel.get_by_role("button", name=name, exact=True).click()


def press_by_key(panel, name, times=1):
    """Work a button by keyboard alone; what is disabled does not take the focus."""
    button = panel.get_by_role("button", name=name, exact=True)
    button.focus()
    for _ in range(times):
        button.page.keyboard.press("Enter")


def tab_to(page, name, most=40):
    """Press Tab until a control of that name has the focus; return the names passed on the way."""
    passed = []
    for _ in range(most):
        page.keyboard.press("Tab")
        passed.append(page.evaluate("""() => { const e = document.activeElement;
            return (e.labels?.[0] ?? e).textContent.trim().replace(/\\s+/g, ' '); }"""))
        if passed[-1] == name:
            return passed
    raise AssertionError(f"Tab does not reach {name}; it reaches {passed}")


def wait_for_words(panel, part):
    """Wait until the words under a panel's picture say something, in these very letters."""
    panel.locator(".lk-words", has_text=re.compile(re.escape(part))).wait_for()


def predict(page, panel, answer, told):
    """Lock a prediction and reveal what was hidden; nothing, where that has been done."""
    choice = page.get_by_role("radio", name=answer)
    if choice.is_disabled():
        return
    choice.check()
    press(page, "Lock my prediction")
    press(page, "Reveal")
    wait_for_words(panel, told)


def assert_fits_in_size(page, panel, name, projector):
    """Look at a panel in one of its two sizes; leave it in the smaller one."""
    if projector:
        press(panel, "Projector size")
    page.wait_for_timeout(900)
    try:
        assert_fits_the_screen(page, panel, f"{name}-{'projector' if projector else 'screen'}")
    finally:
        if projector:
            press(panel, "Projector size")


def picture(page, name):
    """Keep a screenshot where LEVELKIT_PICTURES names a folder, for a person to look at."""
    folder = os.environ.get("LEVELKIT_PICTURES")
    if folder:
        page.screenshot(path=Path(folder) / f"{name}.png")


def errors_shown(page):
    """Return how many cells show an error or write to the error stream."""
    return (page.locator("[data-mime-type='application/vnd.jupyter.stderr']").count()
            + page.locator(".jp-OutputArea-output:has-text('Traceback')").count())


def assert_fits_the_screen(page, panel, name):
    """Hold a panel to the room of a 1280x720 screen, and its lettering to its own room."""
    panel.locator(".lk-title").evaluate("e => e.scrollIntoView({block: 'start'})")
    page.wait_for_timeout(300)
    picture(page, name)
    room = page.locator(".jp-WindowedPanel-outer").first.bounding_box()
    box = panel.bounding_box()
    assert box["height"] <= room["height"], "the panel is taller than the room on the screen"
    assert box["x"] + box["width"] <= room["x"] + room["width"], "the panel is wider than the room"
    assert cut_texts(panel) == []
    assert colliding_texts(panel) == []


def cut_texts(panel):
    """Return the labels and buttons whose text does not fit its room."""
    return panel.evaluate("""root => [...root.querySelectorAll('label, button, .lk-name, .lk-unit')]
        .filter(e => e.scrollWidth > e.clientWidth + 1 && e.clientWidth > 0)
        .map(e => e.textContent.trim()).filter(text => text)""")


def colliding_texts(panel):
    """Return the pairs of texts in the drawing that run into each other."""
    return panel.evaluate("""root => {
        const boxes = [...root.querySelectorAll('svg text')].map(
            t => [t.textContent, t.getBoundingClientRect()]);
        const found = [];
        boxes.forEach(([a, r], i) => boxes.slice(i + 1).forEach(([b, q]) => {
            const w = Math.min(r.right, q.right) - Math.max(r.left, q.left);
            const h = Math.min(r.bottom, q.bottom) - Math.max(r.top, q.top);
            if (w > 1 && h > 4) found.push([a, b]);
        }));
        return found;
    }""")
