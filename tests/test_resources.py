"""Lessons and data are found in a checkout and in an installed package, and nowhere else."""

from pathlib import Path

import pytest

from levelkit.errors import LevelkitError
from levelkit.resources import shipped_folder

ROOT = Path(__file__).resolve().parent.parent


@pytest.mark.parametrize("name", ["lessons", "data"])
def test_in_a_checkout_the_folder_beside_the_package(name):
    assert shipped_folder(name) == ROOT / name


@pytest.mark.parametrize("name", ["lessons", "data"])
def test_in_an_installed_package_the_folder_inside(tmp_path, name):
    package = tmp_path / "site-packages" / "levelkit"
    inside = package / "_shipped" / name
    inside.mkdir(parents=True)
    (package.parent / name).mkdir()  # a stranger's folder of the same name
    assert shipped_folder(name, package) == inside


def test_a_strangers_folder_is_not_taken_for_ours(tmp_path):
    package = tmp_path / "site-packages" / "levelkit"
    package.mkdir(parents=True)
    (package.parent / "data").mkdir()
    with pytest.raises(LevelkitError, match="folder data of levelkit is neither.*Install levelkit"):
        shipped_folder("data", package)


def test_the_wheel_takes_both_folders_along():
    build = (ROOT / "pyproject.toml").read_text(encoding="utf-8")
    for name in ("lessons", "data"):
        assert f'"{name}" = "levelkit/_shipped/{name}"' in build
