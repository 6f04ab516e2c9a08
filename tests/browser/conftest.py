"""JupyterLab on a copy of the lessons, and a page of Chromium to look at it."""

import os
import re
import shutil
import socket
import subprocess
import sys
import time
import urllib.request
from pathlib import Path

import pytest
from playing import note_messages

ROOT = Path(__file__).resolve().parents[2]
CHROMIUM = shutil.which("chromium") or shutil.which("chromium-browser")
ARGUMENTS = ["--no-sandbox", "--disable-gpu", "--disable-background-networking", "--disable-sync",
             "--disable-component-update", "--no-first-run"]
MUST_RUN = os.environ.get("CI") or os.environ.get("LEVELKIT_BROWSER")


def pytest_collection_modifyitems(items):
    for item in items:
        if Path(__file__).parent in Path(item.path).parents:
            item.add_marker(pytest.mark.browser)
            if CHROMIUM is None and not MUST_RUN:
                item.add_marker(pytest.mark.skip(
                    reason="no Chromium here; where CI or LEVELKIT_BROWSER is set this fails"))


def _free_port():
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return probe.getsockname()[1]


class Lab:
    """A running JupyterLab and the folder it serves."""

    def __init__(self, folder):
        from levelkit.cli.opening import jupyterlab_arguments, jupyterlab_environment

        self.folder, port = folder, _free_port()
        command = [sys.executable, "-m", "jupyterlab", "--IdentityProvider.token=",
                   *jupyterlab_arguments(folder, "none.ipynb", browser=False, port=port)]
        self.address = f"http://127.0.0.1:{port}"
        self._log = open(folder / "server.log", "w")  # noqa: SIM115 - closed in stop()
        own = {name: str(folder / ".lab") for name in ("JUPYTERLAB_SETTINGS_DIR",
                                                      "JUPYTERLAB_WORKSPACES_DIR")}
        self._server = subprocess.Popen(command, stdout=self._log, stderr=subprocess.STDOUT,
                                        env=jupyterlab_environment(os.environ) | own)
        self._wait()

    def _wait(self):
        for _ in range(120):
            try:
                urllib.request.urlopen(f"{self.address}/api", timeout=2)
                return
            except OSError:
                if self._server.poll() is not None:
                    break
                time.sleep(0.5)
        raise RuntimeError((self.folder / "server.log").read_text()[-2000:])

    @property
    def process_id(self):
        """Of the server, whose children are the kernels."""
        return self._server.pid

    def stop(self):
        self._server.terminate()
        self._server.wait(20)
        self._log.close()


@pytest.fixture(scope="session")
def lab(tmp_path_factory):
    folder = tmp_path_factory.mktemp("lab")
    for lesson in (ROOT / "lessons").glob("*.ipynb"):
        shutil.copy(lesson, folder)
    server = Lab(folder)
    yield server
    server.stop()


@pytest.fixture(scope="session")
def browser():
    from playwright.sync_api import sync_playwright

    with sync_playwright() as play:
        chromium = play.chromium.launch(executable_path=CHROMIUM, args=ARGUMENTS)
        yield chromium
        chromium.close()


@pytest.fixture(scope="module")
def page(browser):
    sheet = browser.new_page(viewport={"width": 1280, "height": 720})
    sheet.set_default_timeout(60_000)
    yield sheet
    sheet.close()


def open_and_run(page, lab, name):
    """Open a lesson and run all its cells; wait until the kernel is idle again."""
    page.goto(f"{lab.address}/doc/workspaces/levelkit/tree/{name}")
    page.wait_for_selector(".jp-Notebook .jp-Cell")
    page.get_by_text("Python 3 (ipykernel) | Idle").wait_for()
    page.get_by_role("menuitem", name="Run", exact=True).click()
    page.get_by_text("Run All Cells", exact=True).click()
    page.wait_for_function(  # the first code cell imports and shows nothing
        "() => { const cells = [...document.querySelectorAll('.jp-CodeCell')].slice(1);"
        "return cells.length && cells.every(c => c.querySelector('.jp-OutputArea-output')); }")
    page.get_by_text("Python 3 (ipykernel) | Idle").wait_for()
    page.wait_for_selector(".lk-panel svg")


@pytest.fixture(scope="module")
def opened(request, page, lab):
    """The page of the lesson that a test module names as LESSON, all its cells run."""
    note_messages(page)
    open_and_run(page, lab, request.module.LESSON)
    return page


def numbers_in(text):
    """The numbers of a sentence, as floats."""
    found = re.findall(r"[-\u2212]?\d+\.\d+", text)
    return [float(number.replace("\u2212", "-")) for number in found]
