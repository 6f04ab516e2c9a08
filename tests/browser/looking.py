"""What every lesson's panel is looked at for: it fits, nothing is cut, no lettering collides."""

import os
from pathlib import Path


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
    return panel.locator("svg").evaluate("""svg => {
        const boxes = [...svg.querySelectorAll('text')].map(
            t => [t.textContent, t.getBoundingClientRect()]);
        const found = [];
        boxes.forEach(([a, r], i) => boxes.slice(i + 1).forEach(([b, q]) => {
            const w = Math.min(r.right, q.right) - Math.max(r.left, q.left);
            const h = Math.min(r.bottom, q.bottom) - Math.max(r.top, q.top);
            if (w > 1 && h > 4) found.push([a, b]);
        }));
        return found;
    }""")
