"""`levelkit open`: the working copy, then JupyterLab on the first lesson."""

import os
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
    """Refresh the working copy, run JupyterLab on lesson 00 until it is stopped."""
    folder = Path(folder).expanduser() if folder else Path.home() / DEFAULT_FOLDER
    lessons = shipped_folder("lessons")
    lesson = first_lesson(lessons)
    print(f"Your copy of the lessons: {folder.absolute()}")
    for sentence in refresh_working_copy(lessons, folder, __version__):
        print(sentence)
    print("JupyterLab starts; to stop it, press Ctrl+C here.", flush=True)
    os.environ.update(jupyterlab_environment(os.environ))
    start_jupyterlab(jupyterlab_arguments(folder, lesson, browser, port))
    return 0


def start_jupyterlab(arguments):
    """Run JupyterLab in this process, so that stopping us stops it, and return when it ends."""
    from jupyterlab.labapp import LabApp

    LabApp.launch_instance(arguments)


def first_lesson(lessons):
    """Return the name of the notebook whose number is 00."""
    found = sorted(path.name for path in lessons.glob("00*.ipynb"))
    if not found:
        raise LevelkitError(f"There is no lesson 00 in {lessons}. Install levelkit again.")
    return found[0]


def jupyterlab_arguments(folder, lesson, browser=True, port=None):
    """Return the arguments that open one lesson of a folder in single-document mode."""
    arguments = [
        f"--ServerApp.root_dir={folder.absolute()}",
        f"--LabApp.default_url=/doc/workspaces/{WORKSPACE}/tree/{quote(lesson)}",
    ]
    if not browser:
        arguments.append("--no-browser")
    if port is not None:
        arguments.append(f"--ServerApp.port={port}")
    if getattr(os, "geteuid", lambda: 1)() == 0:
        arguments.append("--allow-root")  # whoever starts us as root has chosen so already
    return arguments


def jupyterlab_environment(environment):
    """Return the environment for JupyterLab: our defaults, under the user's own settings."""
    paths = [str(JUPYTER_CONFIG), *filter(None, [environment.get("JUPYTER_CONFIG_PATH")])]
    return {**environment, "JUPYTER_CONFIG_PATH": os.pathsep.join(paths)}
