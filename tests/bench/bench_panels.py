"""Key press to painted frame: the lesson 03 panel beside the naive version, in one session.

Run: .venv/bin/python tests/bench/bench_panels.py
"""

import shutil
import sys
import tempfile
from pathlib import Path

import nbformat

HERE = Path(__file__).parent
sys.path[:0] = [str(HERE.parent / "browser"), str(HERE)]
from conftest import ARGUMENTS, CHROMIUM, Lab, open_and_run  # noqa: E402
from timing import key_to_frame, storm_lag, summary  # noqa: E402

CELLS = (
    "from levelkit import lesson",
    "panel = lesson.gauge_glass_panel('water_tube')\npanel",
    f"import sys; sys.path.insert(0, {str(HERE)!r})\n"
    "from naive_twin import naive_gauge_glass\nnaive_gauge_glass()",
)


def make_notebook(path):
    """Write a notebook with both versions of the picture."""
    book = nbformat.v4.new_notebook(cells=[nbformat.v4.new_code_cell(cell) for cell in CELLS])
    book.metadata["kernelspec"] = {"name": "python3", "display_name": "Python 3",
                                   "language": "python"}
    nbformat.write(book, path)


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
            page.wait_for_selector(".widget-interact img")
            rows = (("gauge glass panel", page.get_by_role("slider", name="Drum pressure"),
                     ".lk-panel .lk-picture"),
                    ("interact + matplotlib, same picture",
                     page.locator(".widget-interact .noUi-handle").first, ".widget-interact"))
            medians = []
            for name, handle, watch in rows:
                median, p95 = summary(key_to_frame(page, handle, watch))
                lag = storm_lag(page, handle, watch)
                medians.append(median)
                print(f"{name:38} median {median:6.1f} ms   p95 {p95:6.1f} ms   "
                      f"lag after 100 moves {lag:6.0f} ms")
            print(f"ratio of the medians: {medians[1] / medians[0]:.1f} "
                  "(aim: median 16.7 ms, p95 33 ms, ratio 7)")
            chromium.close()
    finally:
        lab.stop()
        shutil.rmtree(folder, ignore_errors=True)


if __name__ == "__main__":
    main()
