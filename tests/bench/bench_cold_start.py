"""From the command to the first live panel, beside bare JupyterLab with an empty notebook.

Run: .venv/bin/python tests/bench/bench_cold_start.py
"""

import os
import shutil
import socket
import subprocess
import sys
import tempfile
import time
import urllib.request
from pathlib import Path
from statistics import median

import nbformat

HERE = Path(__file__).parent
sys.path[:0] = [str(HERE.parent / "browser")]
from conftest import ARGUMENTS, CHROMIUM, open_and_run  # noqa: E402

RUNS, TOKEN = 3, "cold"
LESSON = "03_why_the_glass_reads_low.ipynb"


class Started:
    """A server started by a command; its address once it answers."""

    def __init__(self, command, port):
        self.address = f"http://127.0.0.1:{port}"
        environment = {**os.environ, "JUPYTER_TOKEN": TOKEN}
        self._process = subprocess.Popen(command, stdout=subprocess.DEVNULL,
                                         stderr=subprocess.DEVNULL, env=environment)
        while True:
            try:
                urllib.request.urlopen(f"{self.address}/api", timeout=1)
                return
            except OSError:
                if self._process.poll() is not None:
                    raise RuntimeError(f"{command} ended early") from None
                time.sleep(0.02)

    def stop(self):
        self._process.terminate()
        self._process.wait(20)


def free_port():
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return probe.getsockname()[1]


def levelkit(chromium, folder):
    """Return seconds until the server answers and until the first panel is on the page."""
    port, start = free_port(), time.perf_counter()
    server = Started([Path(sys.executable).with_name("levelkit"), "open", folder,
                      "--no-browser", "--port", str(port)], port)
    return timed(chromium, server, start, lambda page: open_and_run(page, server, LESSON))


def bare(chromium, folder):
    """Return seconds until the server answers and until an empty notebook has its kernel."""
    book = nbformat.v4.new_notebook()
    book.metadata["kernelspec"] = {"name": "python3", "display_name": "Python 3"}
    nbformat.write(book, folder / "empty.ipynb")
    port, start = free_port(), time.perf_counter()
    server = Started([sys.executable, "-m", "jupyterlab", f"--ServerApp.root_dir={folder}",
                      "--no-browser", f"--ServerApp.port={port}", "--allow-root"], port)

    def wait(page):
        page.goto(f"{server.address}/lab/tree/empty.ipynb")
        page.get_by_text("Python 3 (ipykernel) | Idle").wait_for()

    return timed(chromium, server, start, wait)


def timed(chromium, server, start, wait):
    try:
        answered = time.perf_counter() - start
        page = chromium.new_page(viewport={"width": 1280, "height": 720})
        page.set_default_timeout(120_000)
        page.goto(f"{server.address}/tree?token={TOKEN}", wait_until="commit")
        wait(page)
        shown = time.perf_counter() - start
        page.close()
        return answered, shown
    finally:
        server.stop()


def main():
    from playwright.sync_api import sync_playwright

    rows = {}
    with sync_playwright() as play:
        chromium = play.chromium.launch(executable_path=CHROMIUM, args=ARGUMENTS)
        for name, start in (("levelkit open, first panel", levelkit),
                            ("bare JupyterLab, kernel idle", bare)):
            found = []
            for _ in range(RUNS):
                folder = Path(tempfile.mkdtemp())
                found.append(start(chromium, folder))
                shutil.rmtree(folder, ignore_errors=True)
            rows[name] = [median(column) for column in zip(*found, strict=True)]
            print(f"{name:30} server {rows[name][0]:5.1f} s   on the page {rows[name][1]:5.1f} s",
                  flush=True)
        chromium.close()
    ours, theirs = (row[1] for row in rows.values())
    print(f"ratio {ours / theirs:.2f}, {ours - theirs:.1f} s more for lessons, imports and picture")


if __name__ == "__main__":
    main()
