"""The house rules hold, and the tests that guard them can fail."""

import csv
import re
import shutil
import subprocess
import sys
from pathlib import Path

import conventions
import pytest

ROOT = Path(__file__).resolve().parent.parent


def test_imports_run_in_one_direction():
    assert conventions.wrong_imports() == []


@pytest.mark.parametrize("place, line, complaint", [
    ("physics/glass.py", "from ..panels import control", "physics must not import panels"),
    ("physics/glass.py", "import iapws", "only properties may import iapws"),
    ("scene/__init__.py", "import matplotlib.pyplot", "scene must not import matplotlib"),
    ("units.py", "from . import scene", "units must not import scene"),
    ("novelty.py", "x = 1", "has no layer"),
])
def test_a_planted_wrong_import_is_caught(tmp_path, place, line, complaint):
    package = tmp_path / "levelkit"
    shutil.copytree(conventions.PACKAGE, package, ignore=shutil.ignore_patterns("__pycache__"))
    file = package / place
    file.write_text((file.read_text() if file.exists() else "") + f"\n{line}\n", encoding="utf-8")
    assert any(complaint in fault for fault in conventions.wrong_imports(package))


def test_every_formula_states_units_source_and_example():
    faults = [fault for function in conventions.public_functions()
              for fault in conventions.docstring_faults(function)]
    assert faults == []


def planted_without_unit(level):
    """Return the level again.

    Parameters
    ----------
    level : float
        Drum level.

    Returns
    -------
    float [m]
        The same.

    References
    ----------
    [HYDROSTATICS]

    Examples
    --------
    >>> planted_without_unit(1.0)
    1.0
    """
    return level


def planted_without_source_or_example(level):
    """Return the level again.

    Parameters
    ----------
    level : float [m]
        Drum level.

    Returns
    -------
    float
        The same.
    """
    return level


def test_a_missing_unit_source_or_example_is_caught():
    assert conventions.docstring_faults(planted_without_unit) == [
        "test_conventions.planted_without_unit: argument 'level' has no [unit]"]
    found = " ".join(conventions.docstring_faults(planted_without_source_or_example))
    assert "result has no [unit]" in found and "no source" in found and "no doctest" in found


def test_every_cited_source_is_listed():
    with open(ROOT / "data" / "sources.csv", encoding="utf-8", newline="") as file:
        known = {row["id"] for row in csv.DictReader(file)}
    cited = {source for function in conventions.public_functions()
             for source in conventions.cited_sources(function)}
    assert cited - known == set()


def test_importing_levelkit_loads_neither_scipy_nor_matplotlib():
    code = ("import sys, levelkit, levelkit.properties, levelkit.physics.glass; "
            "heavy = ('scipy', 'matplotlib', 'iapws', 'ipywidgets'); "
            "print([m for m in heavy if m in sys.modules])")
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"


def test_every_file_of_physics_has_a_room_in_the_guide():
    guide = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
    rooms = guide.split("## Rooms of physics")[1].split("\n## ")[0]
    named = set(re.findall(r"`(\w+)`", rooms))
    files = {path.stem for path in (conventions.PACKAGE / "physics").glob("*.py")} - {"__init__"}
    assert named == files
