"""A move shows in the next frame: its picture lies on the page before the kernel has answered."""

import nbformat
import pytest
from conftest import numbers_in, open_and_run

from levelkit import lesson

ASLEEP = 6  # seconds for which the kernel answers nobody after the move to 61 bar
CELLS = (
    "import time\nfrom levelkit import lesson",
    "panel = lesson.gauge_glass_panel('water_tube')\n"
    "sleep = lambda move: time.sleep(6) if move['new'] == 61.0 else None\n"
    "panel.controls['pressure'].observe(sleep, 'value')\n"
    "panel",
)


@pytest.fixture(scope="module")
def opened(page, lab):
    book = nbformat.v4.new_notebook(cells=[nbformat.v4.new_code_cell(cell) for cell in CELLS])
    book.metadata["kernelspec"] = {"name": "python3", "display_name": "Python 3",
                                   "language": "python"}
    nbformat.write(book, lab.folder / "drawing_ahead.ipynb")
    open_and_run(page, lab, "drawing_ahead.ipynb")
    return page


@pytest.fixture()
def slider(opened):
    opened.get_by_role("button", name="normal steaming").click()
    found = opened.get_by_role("slider", name="Drum pressure")
    opened.wait_for_function("e => e.value === '60'", arg=found.element_handle())
    found.focus()
    opened.wait_for_timeout(1500)  # the kernel draws ahead
    return found


def shows(gauge_bar):
    """What the panel without a browser says of the glass at a pressure [mm]."""
    panel = lesson.gauge_glass_panel("water_tube")
    panel.set(**panel.presets["normal steaming"] | {"pressure": gauge_bar})
    return numbers_in(panel.drawing.words)[0]


def wait_for_glass(page, level_mm, timeout):
    page.wait_for_function(
        "([part]) => document.querySelector('.lk-picture .lk-words').textContent.includes(part)",
        arg=[f"{level_mm:.1f}"], timeout=timeout)


def test_a_move_shows_while_the_kernel_is_busy(opened, slider):
    for _ in range(2):
        opened.keyboard.press("ArrowRight")  # to 61 bar: the kernel draws it and falls asleep
    wait_for_glass(opened, shows(61.0), 2000)
    for _ in range(3):
        opened.keyboard.press("ArrowRight")
    wait_for_glass(opened, shows(62.5), 2000)  # long before the kernel wakes
    opened.wait_for_timeout(1000 * ASLEEP)
    wait_for_glass(opened, shows(62.5), 2000)


def test_pictures_come_in_the_order_of_the_moves(opened, slider):
    opened.evaluate("""() => {
        window.lkSeen = [];
        new MutationObserver(() => lkSeen.push(
            document.querySelector('.lk-picture .lk-words').textContent)).observe(
            document.querySelector('.lk-picture'), {childList: true});
    }""")
    for _ in range(40):  # farther than what is drawn: some pictures come from the kernel alone
        opened.keyboard.press("ArrowLeft")
    wait_for_glass(opened, shows(40.0), 20_000)
    opened.wait_for_timeout(1500)
    seen = [numbers_in(words)[0] for words in opened.evaluate("lkSeen")]
    assert seen == sorted(seen), "a late picture was shown over a newer one"
    assert seen[-1] == pytest.approx(shows(40.0), abs=0.051)


def test_a_jump_beyond_what_is_drawn_is_answered_by_the_kernel(opened, slider):
    opened.keyboard.press("Home")
    wait_for_glass(opened, shows(0.0), 20_000)
    opened.keyboard.press("ArrowRight")
    wait_for_glass(opened, shows(0.5), 20_000)


def test_another_control_spoils_no_picture(opened, slider):
    opened.keyboard.press("ArrowLeft")
    level = opened.get_by_role("slider", name="True drum level")
    level.focus()
    opened.keyboard.press("ArrowRight")
    slider.focus()
    opened.keyboard.press("ArrowRight")
    opened.wait_for_timeout(1500)
    panel = lesson.gauge_glass_panel("water_tube")
    panel.set(**panel.presets["normal steaming"])
    panel.controls["level"].value += 1
    words = opened.locator(".lk-picture .lk-words").inner_text()
    assert numbers_in(words) == numbers_in(panel.drawing.words)
