"""Key press to painted frame of the transmitter, curve, manifold and loop panels.

Run: .venv/bin/python tests/bench/bench_remote_panels.py
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

PANELS = {"transmitter_panel": "Drum pressure", "sweep_panel": "Drum pressure",
          "manifold_panel": "True drum level", "loop_panel": "Level measured"}


def measured(page, lab, folder, name):
    """Median, 95th percentile and lag after 100 moves [ms] of one panel alone on its page."""
    cells = ("from levelkit import lesson", f"lesson.{name}()")
    book = nbformat.v4.new_notebook(cells=[nbformat.v4.new_code_cell(cell) for cell in cells])
    book.metadata["kernelspec"] = {"name": "python3", "display_name": "Python 3",
                                   "language": "python"}
    nbformat.write(book, folder / f"{name}.ipynb")
    open_and_run(page, lab, f"{name}.ipynb")
    handle, watch = page.get_by_role("slider", name=PANELS[name]), ".lk-panel .lk-picture"
    median, p95 = summary(key_to_frame(page, handle, watch))
    return median, p95, storm_lag(page, handle, watch)


def main():
    from playwright.sync_api import sync_playwright

    folder = Path(tempfile.mkdtemp())
    lab = Lab(folder)
    try:
        with sync_playwright() as play:
            chromium = play.chromium.launch(executable_path=CHROMIUM, args=ARGUMENTS)
            for name in PANELS:
                page = chromium.new_page(viewport={"width": 1280, "height": 720})
                page.set_default_timeout(60_000)
                median, p95, lag = measured(page, lab, folder, name)
                print(f"{name:20} median {median:6.1f} ms   p95 {p95:6.1f} ms   "
                      f"lag after 100 moves {lag:6.0f} ms   (aim: median 16.7, p95 33)")
                page.close()
            chromium.close()
    finally:
        lab.stop()
        shutil.rmtree(folder, ignore_errors=True)


if __name__ == "__main__":
    main()
