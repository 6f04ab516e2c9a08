"""`levelkit open`: the working copy never loses work, and the command is the right one."""

import json
import os
import subprocess
import sys

import pytest
from jupyterlab_server.settings_utils import get_settings

from levelkit import __version__
from levelkit.cli import main, opening
from levelkit.cli.working_copy import RECORD, refresh_working_copy
from levelkit.errors import LevelkitError


@pytest.fixture
def shipped(tmp_path):
    lessons = tmp_path / "shipped"
    (lessons / "notes").mkdir(parents=True)
    (lessons / "00_start_here.ipynb").write_text("start")
    (lessons / "01_vessels.ipynb").write_text("vessels")
    (lessons / "notes" / "01_vessels.md").write_text("notes")
    (lessons / ".ipynb_checkpoints").mkdir()
    (lessons / ".ipynb_checkpoints" / "01_vessels-checkpoint.ipynb").write_text("old")
    return lessons


@pytest.fixture
def copy(tmp_path):
    return tmp_path / "my lessons"


def contents(folder):
    return {path.relative_to(folder).as_posix(): path.read_text()
            for path in folder.rglob("*") if path.is_file() and path.name != RECORD}


def test_a_first_copy_holds_everything_but_leftovers(shipped, copy):
    assert refresh_working_copy(shipped, copy, "0.1.0") == ["3 new files copied."]
    assert contents(copy) == {"00_start_here.ipynb": "start", "01_vessels.ipynb": "vessels",
                              "notes/01_vessels.md": "notes"}


def test_a_second_time_nothing_happens(shipped, copy):
    refresh_working_copy(shipped, copy, "0.1.0")
    before = contents(copy)
    assert refresh_working_copy(shipped, copy, "0.1.0") == []
    assert contents(copy) == before


def test_an_edited_lesson_stays_when_ours_is_the_same(shipped, copy):
    refresh_working_copy(shipped, copy, "0.1.0")
    (copy / "01_vessels.ipynb").write_text("my own answers")
    assert refresh_working_copy(shipped, copy, "0.2.0") == []
    assert contents(copy)["01_vessels.ipynb"] == "my own answers"
    assert len(contents(copy)) == 3


def test_an_unedited_lesson_is_renewed(shipped, copy):
    refresh_working_copy(shipped, copy, "0.1.0")
    (shipped / "01_vessels.ipynb").write_text("better vessels")
    said = refresh_working_copy(shipped, copy, "0.2.0")
    assert said == ["01_vessels.ipynb was unchanged by you and is renewed."]
    assert contents(copy)["01_vessels.ipynb"] == "better vessels"
    assert len(contents(copy)) == 3


def test_an_edited_lesson_is_kept_and_the_new_one_laid_beside_it_once(shipped, copy):
    refresh_working_copy(shipped, copy, "0.1.0")
    (copy / "01_vessels.ipynb").write_text("my own answers")
    (shipped / "01_vessels.ipynb").write_text("better vessels")
    beside = "01_vessels (levelkit 0.2.0).ipynb"
    assert refresh_working_copy(shipped, copy, "0.2.0") == [
        f"01_vessels.ipynb was changed by you and is kept; the new one lies beside it: {beside}."]
    assert contents(copy)["01_vessels.ipynb"] == "my own answers"
    assert contents(copy)[beside] == "better vessels"
    (copy / beside).unlink()  # the user does not want it: it does not come back
    assert refresh_working_copy(shipped, copy, "0.2.0") == []
    assert beside not in contents(copy)


def test_a_file_laid_beside_and_then_edited_is_not_overwritten_either(shipped, copy):
    refresh_working_copy(shipped, copy, "0.1.0")
    (copy / "01_vessels.ipynb").write_text("my own answers")
    for text in ("better vessels", "still better"):
        (shipped / "01_vessels.ipynb").write_text(text)
        refresh_working_copy(shipped, copy, "0.2.0")
        (copy / "01_vessels (levelkit 0.2.0).ipynb").write_text("edited too")
    assert contents(copy)["01_vessels (levelkit 0.2.0).ipynb"] == "edited too"
    assert contents(copy)["01_vessels (levelkit 0.2.0, 2).ipynb"] == "still better"


@pytest.mark.parametrize("record", [None, "not json", "[1]"])
def test_files_of_unknown_origin_count_as_edited(shipped, copy, record):
    copy.mkdir()
    (copy / "01_vessels.ipynb").write_text("mine since long ago")
    if record is not None:
        (copy / RECORD).write_text(record)
    said = refresh_working_copy(shipped, copy, "0.1.0")
    assert contents(copy)["01_vessels.ipynb"] == "mine since long ago"
    assert contents(copy)["01_vessels (levelkit 0.1.0).ipynb"] == "vessels"
    assert any("is kept" in sentence for sentence in said)


def test_a_deleted_lesson_comes_back(shipped, copy):
    refresh_working_copy(shipped, copy, "0.1.0")
    (copy / "01_vessels.ipynb").unlink()
    assert refresh_working_copy(shipped, copy, "0.1.0") == ["1 new files copied."]


def test_a_folder_that_cannot_be_used_is_answered_with_a_sentence(shipped, tmp_path):
    (tmp_path / "a file").write_text("x")
    with pytest.raises(LevelkitError, match="a file cannot be used.*levelkit open FOLDER"):
        refresh_working_copy(shipped, tmp_path / "a file", "0.1.0")
    with pytest.raises(LevelkitError, match="cannot be used"):
        refresh_working_copy(shipped, tmp_path / "a file" / "inside", "0.1.0")


def test_a_folder_without_permission(shipped, copy, monkeypatch):
    def refuse(path, content):
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(opening.Path, "write_bytes", refuse)
    with pytest.raises(LevelkitError, match="my lessons cannot be used: Permission denied"):
        refresh_working_copy(shipped, copy, "0.1.0")


def test_lesson_00_is_opened_alone_on_the_screen(tmp_path):
    arguments = opening.jupyterlab_arguments(tmp_path, "00_start_here.ipynb")
    assert f"--ServerApp.root_dir={tmp_path}" in arguments
    assert ("--LabApp.default_url=/doc/workspaces/levelkit/tree/00_start_here.ipynb"
            in arguments)  # /doc is the single-document mode
    assert not any(part.startswith(("--no-browser", "--ServerApp.port")) for part in arguments)


def test_port_and_no_browser_are_passed_through(tmp_path):
    arguments = opening.jupyterlab_arguments(tmp_path, "00 a.ipynb", browser=False, port=9001)
    assert "--no-browser" in arguments and "--ServerApp.port=9001" in arguments
    assert any(part.endswith("/00%20a.ipynb") for part in arguments)


def test_jupyterlab_itself_understands_the_arguments(tmp_path):
    """Its own parser takes them; a misspelt name would end up in a warning, not in a setting."""
    from jupyter_server.serverapp import ServerApp
    from jupyterlab.labapp import LabApp

    arguments = opening.jupyterlab_arguments(tmp_path, "00.ipynb", browser=False, port=9001)
    lab, server = LabApp(), ServerApp()
    lab.parse_command_line(arguments)
    server.parse_command_line(arguments)
    assert lab.default_url == "/doc/workspaces/levelkit/tree/00.ipynb"
    assert server.root_dir == str(tmp_path)
    assert server.port == 9001
    assert server.open_browser is False


def test_a_relative_folder_becomes_absolute(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    arguments = opening.jupyterlab_arguments(opening.Path("here"), "00.ipynb")
    assert f"--ServerApp.root_dir={tmp_path / 'here'}" in arguments


def test_the_news_question_is_off_and_the_users_own_settings_win(tmp_path, monkeypatch):
    """Asked of JupyterLab's own settings code, as the browser would get them."""
    environment = opening.jupyterlab_environment({"JUPYTER_CONFIG_PATH": "/other"})
    assert environment["JUPYTER_CONFIG_PATH"].split(os.pathsep)[-1] == "/other"
    monkeypatch.setenv("JUPYTER_CONFIG_PATH", environment["JUPYTER_CONFIG_PATH"])
    monkeypatch.setenv("JUPYTER_CONFIG_DIR", str(tmp_path))
    labs = os.path.join(sys.prefix, "share", "jupyter", "lab")
    found, _ = get_settings(os.path.join(labs, "settings"), os.path.join(labs, "schemas"),
                            str(tmp_path / "user-settings"),
                            "@jupyterlab/apputils-extension:notification")
    properties = found["schema"]["properties"]
    assert properties["fetchNews"]["default"] == "false"
    assert properties["checkForUpdates"]["default"] is False


def test_lesson_00_has_to_be_there(shipped, tmp_path):
    assert opening.first_lesson(shipped) == "00_start_here.ipynb"
    with pytest.raises(LevelkitError, match="no lesson 00 in .*Install levelkit again"):
        opening.first_lesson(tmp_path / "empty")


@pytest.fixture
def started(shipped, monkeypatch):
    """Arguments with which JupyterLab would have been started."""
    calls = []
    monkeypatch.setattr(opening, "shipped_folder", lambda name: shipped)
    monkeypatch.setattr(opening, "start_jupyterlab", calls.append)
    monkeypatch.setenv("JUPYTER_CONFIG_PATH", "")
    return calls


def test_open_copies_tells_and_starts(started, copy, capsys):
    assert main(["open", str(copy), "--no-browser", "--port", "9002"]) == 0
    assert "--no-browser" in started[0] and "--ServerApp.port=9002" in started[0]
    assert os.environ["JUPYTER_CONFIG_PATH"] == str(opening.JUPYTER_CONFIG)
    said = capsys.readouterr().out
    assert str(copy) in said and "3 new files copied." in said
    record = json.loads((copy / RECORD).read_text())
    assert set(record) == {"00_start_here.ipynb", "01_vessels.ipynb", "notes/01_vessels.md"}


def test_the_default_folder_is_in_the_users_home(started, tmp_path, monkeypatch):
    monkeypatch.setattr(opening.Path, "home", lambda: tmp_path)
    assert main(["open"]) == 0
    assert (tmp_path / "levelkit-lessons" / "01_vessels.ipynb").is_file()


def test_missing_lessons_are_a_sentence_and_a_status(tmp_path, monkeypatch, capsys):
    monkeypatch.setattr(opening, "shipped_folder", lambda name: tmp_path)
    assert main(["open", str(tmp_path / "copy")]) == 2
    assert capsys.readouterr().err.startswith("levelkit: There is no lesson 00")


@pytest.mark.parametrize("port", ["0", "65536", "eighty", "-1", "\u0661"])
def test_an_impossible_port_is_refused(port, capsys):
    with pytest.raises(SystemExit) as ended:
        main(["open", f"--port={port}"])
    assert ended.value.code == 2
    assert "the allowed range is 1 to 65535" in capsys.readouterr().err


def test_the_installed_command_knows_its_version():
    code = "import sys; from levelkit.cli import main; sys.exit(main(['--version']))"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True)
    assert done.stdout.strip() == f"levelkit {__version__}"


def test_a_folder_that_the_machine_refuses_is_a_sentence(capsys):
    assert main(["delete-class", "x" * 5000, "Class 1"]) == 2
    said = capsys.readouterr().err
    assert said.startswith("levelkit: File name too long") and "Choose another" in said
