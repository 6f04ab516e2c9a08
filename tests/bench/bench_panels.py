"""Key press to painted frame: each panel beside the naive version, in one browser session.

Run: .venv/bin/python tests/bench/bench_panels.py
"""

import random
import shutil
import statistics
import sys
import tempfile
import time
from pathlib import Path

import nbformat

HERE = Path(__file__).parent
sys.path[:0] = [str(HERE.parent / "browser"), str(HERE)]
from conftest import ARGUMENTS, CHROMIUM, Lab, open_and_run  # noqa: E402

MOVES = 80
CELLS = {
    "ours": "from levelkit import lesson\npanel = lesson.gauge_glass_panel('water_tube')\npanel",
    "naive": (f"import sys; sys.path.insert(0, {str(HERE)!r})\n"
              "from naive_twin import naive_gauge_glass\nnaive_gauge_glass()"),
}


def make_notebook(path):
    book = nbformat.v4.new_notebook(cells=[nbformat.v4.new_code_cell(c) for c in CELLS.values()])
    book.metadata["kernelspec"] = {"name": "python3", "display_name": "Python 3",
                                   "language": "python"}
    nbformat.write(book, path)


def measure(page, handle, watch):
    """Milliseconds of MOVES key presses, one at a time, and the lag after a storm of 100."""
    page.evaluate((HERE / "probe.js").read_text(), {"watch": watch})
    handle.scroll_into_view_if_needed()
    handle.focus()
    time.sleep(1)
    for move in range(MOVES + 10):
        before = page.evaluate("levelkitProbe.times.length")
        page.keyboard.press("ArrowLeft" if move % 2 else "ArrowRight")
        page.wait_for_function(f"levelkitProbe.times.length > {before}", timeout=5000)
        page.wait_for_timeout(random.uniform(30, 90))  # no locking on to the frame clock
    times = page.evaluate("levelkitProbe.times")[10:]
    return times


def storm(page, handle, watch):
    """Milliseconds from the last of 100 quick key presses until the picture rests."""
    handle.focus()
    for _ in range(100):
        page.keyboard.press("ArrowLeft")
    last = page.evaluate("performance.now()")
    quiet = page.evaluate("""(watch) => new Promise((resolve) => {
        let seen = performance.now();
        new MutationObserver(() => { seen = performance.now(); }).observe(
            document.querySelector(watch), {childList: true, subtree: true, characterData: true});
        const look = () => performance.now() - seen > 600 ? resolve(seen) : setTimeout(look, 50);
        look();
    })""", watch)
    return max(0.0, quiet - last)


def row(name, times, lag):
    ordered = sorted(times)
    median = statistics.median(ordered)
    p95 = ordered[int(0.95 * len(ordered))]
    print(f"{name:44} median {median:6.1f} ms   p95 {p95:6.1f} ms   storm lag {lag:6.0f} ms")
    return median


def main():
    from playwright.sync_api import sync_playwright

    folder = Path(tempfile.mkdtemp())
    make_notebook(folder / "bench.ipynb")
    lab = Lab(folder)
    try:
        with sync_playwright() as play:
            chromium = play.chromium.launch(executable_path=CHROMIUM, args=ARGUMENTS)
            page = chromium.new_page(viewport={"width": 1280, "height": 720})
            page.set_default_timeout(60_000)
            open_and_run(page, lab, "bench.ipynb")
            page.wait_for_selector(".jp-OutputArea img, .jp-OutputArea canvas")
            ours = page.get_by_role("slider", name="Drum pressure")
            naive = page.locator(".widget-interact .noUi-handle, .interactive .noUi-handle").first
            results = {}
            for name, handle, watch in (("gauge glass panel", ours, ".lk-panel .widget-html"),
                                        ("interact + matplotlib, same picture", naive,
                                         ".widget-interact .jp-OutputArea, .widget-output")):
                times = measure(page, handle, watch)
                results[name] = row(name, times, storm(page, handle, watch))
            first, second = results.values()
            print(f"ratio of the medians: {second / first:.1f} (aim: at least 7)")
            chromium.close()
    finally:
        lab.stop()
        shutil.rmtree(folder, ignore_errors=True)


if __name__ == "__main__":
    main()
