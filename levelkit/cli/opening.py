"""`levelkit open`: the working copy, then JupyterLab on the first lesson."""

import os
import subprocess
import sys
from pathlib import Path
from urllib.parse import quote

from .. import __version__
from ..errors import LevelkitError
from ..resources import shipped_folder
from .working_copy import refresh_working_copy

DEFAULT_FOLDER = "levelkit-lessons"
WORKSPACE = "levelkit"  # a screen layout of its own beside the one that the user works in
JUPYTER_CONFIG = Path(__file__).with_name("jupyter_config")


def open_lessons(folder=None, browser=True, port=None):
    """Refresh the working copy, start JupyterLab on lesson 00 and wait until it ends."""
    folder = Path(folder).expanduser() if folder else Path.home() / DEFAULT_FOLDER
    lessons = shipped_folder("lessons")
    lesson = first_lesson(lessons)
    print(f"Your copy of the lessons: {folder.absolute()}")
    for sentence in refresh_working_copy(lessons, folder, __version__):
        print(sentence)
    print("JupyterLab starts; to stop it, press Ctrl+C here.", flush=True)
    process = subprocess.Popen(jupyterlab_command(folder, lesson, browser, port),
                               env=jupyterlab_environment(os.environ))
    while True:
        try:
            return process.wait()
        except KeyboardInterrupt:  # it reached JupyterLab too, which asks before it stops
            continue


def first_lesson(lessons):
    """Return the name of the notebook whose number is 00."""
    found = sorted(path.name for path in lessons.glob("00*.ipynb"))
    if not found:
        raise LevelkitError(f"There is no lesson 00 in {lessons}. Install levelkit again.")
    return found[0]


def jupyterlab_command(folder, lesson, browser=True, port=None):
    """Return the command that opens one lesson of a folder in single-document mode."""
    command = [
        sys.executable, "-m", "jupyterlab",
        f"--ServerApp.root_dir={folder.absolute()}",
        f"--LabApp.default_url=/doc/workspaces/{WORKSPACE}/tree/{quote(lesson)}",
    ]
    if not browser:
        command.append("--no-browser")
    if port is not None:
        command.append(f"--ServerApp.port={port}")
    if getattr(os, "geteuid", lambda: 1)() == 0:
        command.append("--allow-root")  # whoever starts us as root has chosen so already
    return command


def jupyterlab_environment(environment):
    """Return the environment for JupyterLab: our defaults, under the user's own settings."""
    paths = [str(JUPYTER_CONFIG), *filter(None, [environment.get("JUPYTER_CONFIG_PATH")])]
    return {**environment, "JUPYTER_CONFIG_PATH": os.pathsep.join(paths)}
