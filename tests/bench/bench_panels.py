"""Every panel beside its naive version, in one session: key press to painted frame, and the cost.

Run: .venv/bin/python tests/bench/bench_panels.py [panel ...] [--moves-for-memory 1000]
"""

import argparse
import shutil
import sys
import tempfile
import time
from pathlib import Path

import psutil

HERE = Path(__file__).parent
sys.path[:0] = [str(HERE.parent), str(HERE.parent / "browser"), str(HERE)]
from conftest import ARGUMENTS, CHROMIUM, Lab, open_and_run  # noqa: E402
from notebooks import write_notebook  # noqa: E402
from panel_states import panel_makers  # noqa: E402
from timing import WARM_UP, key_to_frame, storm_lag, summary, wander  # noqa: E402

from levelkit.panels.control import Control  # noqa: E402

PICTURE, TWIN = ".lk-picture, .lk-player", ".widget-interact"
HEADINGS = ("panel, slider", "median", "p95", "lag", "naive", "ratio", "kernel", "bytes",
            "kernel +", "page +")
UNITS = ("", "ms", "ms", "ms", "ms", "", "ms", "kB/move", "MB", "MB")


def first_slider(panel):
    """Return the key of the first slider that has a say, or None."""
    return next((key for key, control in panel.controls.items()
                 if isinstance(control, Control) and not control.disabled), None)


def notebook(folder, name, key):
    """Write a notebook with a panel and its naive version."""
    write_notebook(
        folder / f"{name}.ipynb",
        f"import sys; sys.path.insert(0, {str(HERE)!r})\n"
        "from levelkit import lesson\nfrom naive_twin import naive_panel",
        f"panel = lesson.{name}()\npanel",
        f"naive_panel(lesson.{name}(), {key!r})")


def kernel_time(maker, key, moves=40):
    """Return milliseconds that the kernel works on one move."""
    panel = maker()
    control = panel.controls[key]
    start = time.perf_counter()
    for move in range(moves):
        step = control.step * (1 if move % 2 else -1)
        control.value = min(max(control.value + step, control.minimum), control.maximum)
    return 1000 * (time.perf_counter() - start) / moves


class Wire:
    """Counts what the page receives from the server."""

    def __init__(self, page):
        self.received = 0
        self.session = page.context.new_cdp_session(page)
        self.session.send("Network.enable")
        self.session.on("Network.webSocketFrameReceived", self._count)

    def _count(self, event):
        self.received += len(event["response"]["payloadData"])

    def page_memory(self):
        """Return the bytes in use by scripts on the page after collecting garbage."""
        self.session.send("HeapProfiler.collectGarbage")
        return self.session.send("Runtime.getHeapUsage")["usedSize"]


def kernel_memory(lab):
    """Return the resident bytes of the kernels of one server."""
    return sum(process.memory_info().rss for process in psutil.Process(lab.process_id).children())


def memory_growth(page, lab, wire, handle, moves):
    """Return how much kernel and page hold more [MB] after `moves` moves than after 300."""
    handle.focus()

    def make(count):
        for move in range(count):
            page.keyboard.press("ArrowLeft" if move // 8 % 2 else "ArrowRight")
        page.wait_for_timeout(1500)
        return kernel_memory(lab), wire.page_memory()

    make(300)  # caches fill, the shelf of pictures is stocked
    before = make(0)
    after = make(moves)
    return [(b - a) / 1e6 for a, b in zip(before, after, strict=True)]


def row(page, lab, folder, name, maker, moves):
    """Measure one panel."""
    key = first_slider(maker())
    notebook(folder, name, key)
    open_and_run(page, lab, f"{name}.ipynb")
    page.wait_for_selector(f"{TWIN} img")
    wire = Wire(page)
    control = maker().controls[key]
    keys = wander(control)
    slider = page.get_by_role("slider", name=control.name, exact=True).first
    times = key_to_frame(page, slider, PICTURE, keys)
    received = wire.received / (len(times) + WARM_UP) / 1000
    lag = storm_lag(page, slider, PICTURE, keys[0])
    growth = memory_growth(page, lab, wire, slider, moves)
    naive, _ = summary(key_to_frame(page, page.locator(f"{TWIN} .noUi-handle").first, TWIN,
                                     keys))
    median, p95 = summary(times)
    return (f"{name.removesuffix('_panel')}, {key}", median, p95, lag, naive, naive / median,
            kernel_time(maker, key), received, *growth)


def show(cells):
    print(f"{cells[0]:28}" + "".join(
        f"{cell:>9.1f}" if isinstance(cell, float) else f"{cell:>9}" for cell in cells[1:]),
        flush=True)


def main():
    from playwright.sync_api import sync_playwright

    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("panels", nargs="*", help="names as in levelkit.lesson; all without")
    parser.add_argument("--moves-for-memory", type=int, default=1000)
    chosen = parser.parse_args()
    makers = {name: maker for name, maker in panel_makers().items()
              if (not chosen.panels or name in chosen.panels) and first_slider(maker())}
    folder = Path(tempfile.mkdtemp())
    lab = Lab(folder)
    print("aim: median 16.7 ms, p95 33 ms, ratio 7, no growth of memory")
    show(HEADINGS)
    show(UNITS)
    try:
        with sync_playwright() as play:
            chromium = play.chromium.launch(executable_path=CHROMIUM, args=ARGUMENTS)
            for name, maker in makers.items():
                page = chromium.new_page(viewport={"width": 1280, "height": 720})
                page.set_default_timeout(60_000)
                show(row(page, lab, folder, name, maker, chosen.moves_for_memory))
                page.close()
            chromium.close()
    finally:
        lab.stop()
        shutil.rmtree(folder, ignore_errors=True)


if __name__ == "__main__":
    main()
