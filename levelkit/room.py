"""`levelkit check --room`: what a lecturer wants to know an hour before class, line by line.

Each line says what was found, how good it is, and what to do. The limits are those of our own
tests: pages laid out for 1280x720, a redraw within two frames, and common practice.
"""

import os
import re
import shutil
import statistics
import subprocess
import sys
import time
from dataclasses import dataclass
from importlib import metadata
from pathlib import Path

from .constants import CAUTION

OK, LOOK, FAILS = "ok", "look", "FAILS"
BROWSERS = ("chromium", "chromium-browser", "google-chrome", "microsoft-edge", "firefox")
OLDEST_BROWSER = 100  # of either family: 2022, what JupyterLab 4 was made for (from memory)
FONT_FILES = {"dejavusans.ttf": "DejaVu Sans", "segoeui.ttf": "Segoe UI",
              "notosans-regular.ttf": "Noto Sans", "verdana.ttf": "Verdana"}
MOVES, FLUENT, SLOW = 60, 33.0, 100.0  # ms: two frames of the screen, and what the eye calls late
PAGE = (1280, 720)


@dataclass(frozen=True, slots=True)
class Line:
    """One thing looked at.

    Attributes
    ----------
    subject, found : str
        What was looked at, and what was found.
    verdict : str
        "ok", "look" (works, but see the advice) or "FAILS".
    advice : str
        What to do; empty where nothing is to be done.
    """

    subject: str
    found: str
    verdict: str
    advice: str = ""


def room_page(lines=None):
    """Return the page of the room check as text, and whether nothing fails."""
    lines = room_lines() if lines is None else lines
    text = ["levelkit check --room: this computer, before class", ""]
    for line in lines:
        text.append(f"{line.verdict:6} {line.subject}: {line.found}")
        if line.advice:
            text.append(f"       {line.advice}")
    counts = {verdict: sum(line.verdict == verdict for line in lines)
              for verdict in (OK, LOOK, FAILS)}
    text += ["", f"{counts[OK]} ok, {counts[LOOK]} to look at, {counts[FAILS]} failing.", CAUTION]
    return "\n".join(text), not counts[FAILS]


def room_lines():
    """Look at this computer."""
    return [python_line(), packages_line(), kernel_line(), browser_line(), font_line(),
            folder_line(Path.home()), redraw_line(redraw_times()), screen_line(screen_size())]


def python_line(version=sys.version_info[:3]):
    """Judge the Python in use."""
    found = ".".join(map(str, version))
    if version >= (3, 11):
        return Line("Python", found, OK)
    return Line("Python", found, FAILS, "Install Python 3.11 or newer and levelkit with it.")


def packages_line(needed=None, installed=metadata.version):
    """Compare what is installed with what levelkit says it needs."""
    from packaging.requirements import Requirement

    asked = metadata.requires("levelkit") if needed is None else needed
    needs = [need for need in map(Requirement, asked or ())
             if need.marker is None or need.marker.evaluate({"extra": ""})]
    wrong = []
    for need in needs:
        try:
            found = installed(need.name)
        except metadata.PackageNotFoundError:
            found = "missing"
        if found == "missing" or not need.specifier.contains(found, prereleases=True):
            wrong.append(f"{need.name} {found}, needed {need.specifier}")
    if not wrong:
        shown = ", ".join(f"{name} {installed(name)}" for name in ("jupyterlab", "ipywidgets",
                                                                    "anywidget", "numpy"))
        return Line("Packages", f"all {len(needs)} as needed; {shown}", OK)
    return Line("Packages", "; ".join(wrong), FAILS,
                "In the folder of levelkit: .venv/bin/pip install -c .ci/constraints.txt .")


def kernel_line(command=None):
    """Say whether notebooks run in this Python, where levelkit is installed."""
    if command is None:
        from jupyter_client.kernelspec import KernelSpecManager, NoSuchKernel

        try:
            command = KernelSpecManager().get_kernel_spec("python3").argv[0]
        except NoSuchKernel:
            command = ""
    advice = "Start the lessons by levelkit open; else: python -m ipykernel install --sys-prefix"
    if not command:
        return Line("Notebook kernel", "none of the name python3", FAILS, advice)
    own = shutil.which(command) or command
    if command in ("python", "python3") or Path(own).resolve() == Path(sys.executable).resolve():
        return Line("Notebook kernel", f"runs in {sys.prefix}", OK)
    return Line("Notebook kernel", f"runs in another Python, {command}", FAILS, advice)


def browser_line(names=BROWSERS, answer=None):
    """Name the first browser found and judge its version."""
    for name in names:
        path = shutil.which(name)
        if path is None:
            continue
        words = (answer or _version_of)(path)
        version = re.search(r"(\d+)\.\d", words)
        if version is None:
            return Line("Browser", f"{name}, which does not tell its version", LOOK,
                        f"Look in its About page: {OLDEST_BROWSER} or newer is needed.")
        if int(version[1]) < OLDEST_BROWSER:
            return Line("Browser", f"{words}, older than {OLDEST_BROWSER}", FAILS,
                        "Bring it up to date: panels and formulas may stay empty.")
        return Line("Browser", words, OK)
    return Line("Browser", "none found by name", LOOK,
                f"Any browser of a version from {OLDEST_BROWSER} on does. Open a lesson once, "
                "before class.")


def _version_of(path):
    try:
        done = subprocess.run([path, "--version"], capture_output=True, text=True, timeout=15)
    except (OSError, subprocess.TimeoutExpired):
        return ""
    return (done.stdout.strip().splitlines() or [""])[0].strip()


def font_line(files=None):
    """Say whether the drawings find a font whose width they were laid out for."""
    if files is None:
        from matplotlib.font_manager import findSystemFonts

        files = findSystemFonts()
    found = {Path(file).name.lower() for file in files}
    known = [name for file, name in FONT_FILES.items() if file in found]
    if known:
        return Line("Letters", ", ".join(known), OK)
    return Line("Letters", "none of the fonts that the drawings ask for", LOOK,
                "Install DejaVu Sans; until then labels may run a little wider than their room.")


def folder_line(home):
    """Say whether the copy of the lessons can be written."""
    if os.access(home, os.W_OK):
        return Line("Lessons", f"{home} can be written", OK)
    return Line("Lessons", f"{home} cannot be written", FAILS,
                "Name a folder of your own: levelkit open FOLDER.")


def redraw_times(moves=MOVES):
    """Return milliseconds for each of some moves of the pressure of a gauge glass panel."""
    from .lesson import gauge_glass_panel

    panel, times = gauge_glass_panel(), []
    for move in range(moves):
        begun = time.perf_counter()
        panel.set(pressure=float(20 + move % 40))
        times.append(1000 * (time.perf_counter() - begun))
    return times


def redraw_line(times):
    """Judge how long the kernel takes for a move; the browser adds its own few milliseconds."""
    ordered = sorted(times)
    late = ordered[int(0.95 * (len(ordered) - 1))]
    found = f"median {statistics.median(ordered):.1f} ms, 95 % within {late:.1f} ms"
    if late <= FLUENT:
        return Line("A move of a slider", found, OK)
    if late <= SLOW:
        return Line("A move of a slider", found, LOOK, "Close other programs; plug in the mains.")
    return Line("A move of a slider", found, FAILS,
                "This computer is busy or too slow for a class: close programs, or use another.")


def screen_size():
    """Return width and height of the screen [pixels], or None where it is not told."""
    try:
        import tkinter

        root = tkinter.Tk()
    except Exception:  # no window system, or a Python without its toolkit
        return None
    size = root.winfo_screenwidth(), root.winfo_screenheight()
    root.destroy()
    return size


def screen_line(size):
    """Judge the size of the screen, and say what to press."""
    width, height = PAGE
    press = ("Browser zoom 100 %; press Present this lesson, which takes the whole screen and "
             "draws large.")
    if size is None:
        return Line("Screen", "its size is not told here", LOOK,
                    f"Set the projector to {width}x{height} or more. {press}")
    found = f"{size[0]}x{size[1]}"
    if size[0] < width or size[1] < height:
        return Line("Screen", found, LOOK, f"Smaller than {width}x{height}: set the projector "
                                           f"higher, or the browser zoom lower. {press}")
    return Line("Screen", found, OK, press)
