"""Films in Chromium: painted frames that show something new, the worst gap, kernel messages.

Run: .venv/bin/python tests/bench/bench_animation.py [seconds]

A frame counts only where an element that really moves has another place than before. Beside it
stands how many frames the browser painted at all: a quiet machine paints 60 a second.
"""

import shutil
import sys
import tempfile
from pathlib import Path

HERE = Path(__file__).parent
sys.path[:0] = [str(HERE.parent / "browser"), str(HERE)]
from conftest import ARGUMENTS, CHROMIUM, Lab, open_and_run  # noqa: E402
from looking import press  # noqa: E402
from notebooks import write_notebook  # noqa: E402
from playing import note_messages, wait_until_quiet, watch  # noqa: E402

DOT, WATER = ("circle[data-part]", "cx"), ("polygon[data-part]", "points")
FILMS = (
    ("ship_motion_panel", "rolling", *WATER),
    ("ship_motion_panel", "heavy roll", *WATER),
    ("swell_panel", "load up", *DOT),
    ("swell_panel", "three elements", *DOT),
)
AIM = 30


def played(page, selector, attribute, seconds):
    """Play a film from its start, and return what was seen of it."""
    press(page, "To the start")
    wait_until_quiet(page)
    press(page, "Play")
    found = watch(page, f".lk-player svg {selector}", attribute, 1000 * seconds)
    press(page, "Pause")
    return found


def measured(chromium, lab, folder, seconds):
    """Yield each film with what was seen of it."""
    for name, preset, selector, attribute in FILMS:
        page = chromium.new_page(viewport={"width": 1280, "height": 720})
        page.set_default_timeout(60_000)
        note_messages(page)
        notebook = f"{name}-{preset.replace(' ', '-')}.ipynb"
        write_notebook(folder / notebook, "from levelkit import lesson",
                       f"panel = lesson.{name}()\npanel.set(**panel.presets[{preset!r}])\npanel")
        open_and_run(page, lab, notebook)
        yield f"{name}, {preset}", played(page, selector, attribute, seconds)
        page.close()


def main():
    from playwright.sync_api import sync_playwright

    seconds = float(sys.argv[1]) if len(sys.argv) > 1 else 6.0
    folder = Path(tempfile.mkdtemp())
    lab = Lab(folder)
    try:
        with sync_playwright() as play:
            chromium = play.chromium.launch(executable_path=CHROMIUM, args=ARGUMENTS)
            for name, found in measured(chromium, lab, folder, seconds):
                changed, painted = (found[key] / found["seconds"] for key in ("changes", "frames"))
                print(f"{name:36} {changed:5.1f} changed pictures/s of {painted:5.1f} painted   "
                      f"worst gap {found['gap']:4.0f} ms   kernel messages "
                      f"{len(found['messages'])}   (aim: {AIM}, none)")
            chromium.close()
    finally:
        lab.stop()
        shutil.rmtree(folder, ignore_errors=True)


if __name__ == "__main__":
    main()
