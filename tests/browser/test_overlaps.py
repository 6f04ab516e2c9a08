"""No two texts of a drawing meet, and none leaves its sheet, whatever the controls are set to.

Measured in Chromium, on a bare page: it knows how wide its letters are.
"""

import re

import pytest
from panel_states import panel_makers, sweep

MEASURE = """(sheets) => sheets.map(([width, height, texts]) => {
    const sheet = document.getElementById('sheet');
    sheet.setAttribute('viewBox', `0 0 ${width} ${height}`);
    sheet.setAttribute('width', width);
    sheet.setAttribute('height', height);
    sheet.innerHTML = texts;
    const origin = sheet.getBoundingClientRect();
    const boxes = [...sheet.querySelectorAll('text')].map((text) => {
        const box = text.getBoundingClientRect();
        const spare = text.closest('[transform]') ? 0 // room above capitals that holds no ink
            : 0.17 * parseFloat(getComputedStyle(text).fontSize);
        return {text: text.textContent, left: box.left - origin.left,
                right: box.right - origin.left, top: box.top - origin.top + spare,
                bottom: box.bottom - origin.top};
    });
    const found = boxes.filter((box) => box.left < -1 || box.top < -1 || box.right > width + 1
        || box.bottom > height + 1).map((box) => [box.text, 'leaves the sheet']);
    boxes.forEach((one, index) => boxes.slice(index + 1).forEach((other) => {
        const across = Math.min(one.right, other.right) - Math.max(one.left, other.left);
        const up = Math.min(one.bottom, other.bottom) - Math.max(one.top, other.top);
        if (across > 1 && up > 1) found.push([one.text, other.text]);
    }));
    return found;
})"""
SHEET = """<style>body { margin: 0 } svg { overflow: visible }</style>
<svg id="sheet" xmlns="http://www.w3.org/2000/svg" font-family="%s"></svg>"""
BATCH = 200


@pytest.fixture(scope="module")
def sheet(browser):
    from levelkit.scene.look import FONT

    page = browser.new_page(viewport={"width": 1200, "height": 500})
    page.set_content(SHEET % FONT.replace('"', "'"))
    yield page
    page.close()


def lettering(drawing):
    """Width, height and all texts of a drawing, with whatever moves a part of it as a whole."""
    width, height = re.search(r'viewBox="0 0 (\S+) (\S+)"', drawing.svg).groups()
    body = drawing.svg.split("</defs>", 1)[1].removesuffix("</svg>")
    texts = body if "<g" in body else "".join(re.findall(r"<text.*?</text>", body, re.S))
    return float(width), float(height), texts


def faults_of(sheet, panel):
    """Return the first state with each fault, of all states of a sweep."""
    states = {}
    for label, drawings in sweep(panel):
        for drawing in drawings:
            states.setdefault(lettering(drawing), label)
    sheets, found = list(states), {}
    for start in range(0, len(sheets), BATCH):
        batch = sheets[start:start + BATCH]
        for state, faults in zip(batch, sheet.evaluate(MEASURE, [list(one) for one in batch]),
                                 strict=True):
            for fault in faults:
                found.setdefault(tuple(fault), states[state])
    return found, len(sheets)


def test_the_measuring_finds_texts_that_meet_and_texts_that_leave(sheet):
    text = '<text x="{}" y="{}" font-size="14">{}</text>'
    texts = [text.format(10, 20, "one"), text.format(30, 24, "other"), text.format(10, 60, "free"),
             text.format(190, 60, "out")]
    assert sheet.evaluate(MEASURE, [[200, 100, "".join(texts)]]) == [
        [["out", "leaves the sheet"], ["one", "other"]]]


def test_every_panel_is_swept():
    assert len(panel_makers()) >= 18


@pytest.mark.parametrize("projector", [False, True], ids=["screen", "projector"])
@pytest.mark.parametrize("name", sorted(panel_makers()))
def test_no_two_texts_meet_over_a_sweep(sheet, name, projector):
    panel = panel_makers()[name]()
    panel.projector.value = projector
    faults, states = faults_of(sheet, panel)
    assert faults == {}
    assert states >= 3, "the sweep has moved the picture"
