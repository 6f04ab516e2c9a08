"""Files that people hand over or that broke: read or refused, never damaged, never run.

Each reader gets whole files with bytes cut, doubled, replaced and re-encoded, and files that are
no such thing at all. Allowed is a result or an exception of ours. Long run: `LEVELKIT_FUZZ=1`.
"""

import ast
import contextlib
import hashlib
import io
import json
import os
from pathlib import Path

import conventions
import nbformat
import outcome
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from paper_samples import register_text, write_sheet

from levelkit.cli import main
from levelkit.cli.working_copy import RECORD, refresh_working_copy
from levelkit.exercises.progress import load_progress, progress_csv
from levelkit.exercises.storage import read_json
from levelkit.papers.class_paper import make_class_paper
from levelkit.papers.paper_record import paper_json, read_paper
from levelkit.papers.register import read_register
from levelkit.papers.sheet_file import read_sheet
from levelkit.records.answers import read_answers
from levelkit.records.class_marks import mark_class
from levelkit.records.csv_rows import read_rows
from levelkit.records.overrides import HEAD, read_overrides
from levelkit.records.rehearsal import rehearse
from levelkit.scenario import load_ship
from levelkit.scenario.loading import OWN_SHIP

LONG = os.environ.get("LEVELKIT_FUZZ", "") not in ("", "0")
EXAMPLES = 1000 if LONG else 25
OWN_RECORD = "record of the copy"
MARK = "RUN-BY-MISTAKE"  # what code in a file would leave behind
CODE = f"__import__('pathlib').Path('{MARK}').touch()"
WHOLLY_WRONG = [
    b"", b"\x00" * 64, b"\xff\xfe", b"\xff\xfe\x00", b"\xef\xbb\xbf", b"\xe9\xe8,\xff\n1,2\n",
    b"\x80\x04cposix\nsystem\nq\x00.", b"{", b"[" * 100_000, b'{"a":' * 50_000, b"= = =",
    b"a = " + b"[" * 20_000, b"," * 200_000, b"\n" * 200_000, b"a" * 3_000_000,
    b'"' + b"x" * 200_000, b"!!python/object/apply:os.system ['true']",
    b'candidate,1 x\n"=cmd|\' /C calc\'!A0",1\n', b"number,name\n../../../etc/passwd,x\n",
    b'{"candidate": "../../x", "answers": {"1": {"height": NaN}}}',
    b'{"candidate": 1e999, "answers": [[[]]]}', b'{"attempts": [{}, 1, null, "x", [1]]}',
    b'{"attempts": [{"misconceptions": 5}]}', b"null", b"true", b"1e400", b'"text"', b"[]", b"{}",
    CODE.encode(), json.dumps({"candidate": CODE, "answers": {"1": {CODE: CODE}}}).encode(),
]


@pytest.fixture(scope="module")
def paper(tmp_path_factory):
    folder = tmp_path_factory.mktemp("class")
    return make_class_paper(read_sheet(write_sheet(folder, 3)))


def _hand_in(paper):
    one = paper.papers[0].candidate.number
    return json.dumps({"candidate": one, "answers": {"1": {"pressure": "8,01 bar"},
                                                     "2": {"height": "186.4"}}})


def _progress():
    return json.dumps({"attempts": [{"candidate": "a", "misconceptions": ["MC03"]}]})


def _read_papers(path, paper):
    return read_paper(path.parent)


def _read_answers(path, paper):
    return mark_class(paper, read_answers([path], paper))


def _copy(path, paper):
    source = path.parent / "source"
    source.mkdir(exist_ok=True)
    (source / "00.ipynb").write_text("{}", encoding="utf-8")
    return refresh_working_copy(source, path.parent, "1")


READERS = {  # name: file name, a whole file, how it is read
    "ship": ("mine.toml", lambda paper: OWN_SHIP.read_text("utf-8"), lambda p, _: load_ship(p)),
    "sheet": ("test_1.toml", None, lambda p, _: read_sheet(p)),
    "register": ("class.csv", lambda paper: register_text(4), lambda p, _: read_register(p)),
    "grid of answers": ("answers.csv", lambda paper: rehearse(paper, "fuzz").text, _read_answers),
    "hand-in": ("1001.json", _hand_in, _read_answers),
    "overrides": ("overrides.csv", lambda paper: ",".join(HEAD) + "\n1001,2,height,1,why,AB,x\n",
                  read_overrides),
    "rows": ("rows.csv", lambda paper: register_text(2), lambda p, _: read_rows(p)),
    "progress": ("progress.json", lambda paper: _progress(),
                 lambda p, _: progress_csv(load_progress(p))),
    "any JSON": ("kept.json", lambda paper: _progress(), lambda p, _: read_json(p)),
    "papers": ("paper.json", lambda paper: paper_json(paper), _read_papers),
    OWN_RECORD: (RECORD, lambda paper: json.dumps({"00.ipynb": "abc"}), _copy),
}


def _whole(name, paper, folder):
    if name == "sheet":
        return write_sheet(folder, 3).read_bytes()
    return READERS[name][1](paper).encode()


def _tried(name, content, paper, folder):
    file_name, _, read = READERS[name]
    path = folder / file_name
    path.write_bytes(content)
    outcome.count("files given to readers")
    said = outcome.complaint(read, lambda: (read(path, paper), None)[1])
    assert not said, f"{name}, {content[:60]!r}: {said}"
    kept = {hashlib.sha256(one.read_bytes()).digest() for one in folder.rglob("*")
            if one.is_file()}
    if name != OWN_RECORD:  # that file is written anew on purpose
        assert hashlib.sha256(content).digest() in kept, f"{name}: the file was damaged"
    assert not list(folder.rglob(MARK)) and not Path(MARK).exists(), "code in a file was run"


@pytest.mark.parametrize("name", READERS)
def test_what_is_no_such_file_is_refused(name, paper, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    for number, content in enumerate(WHOLLY_WRONG):
        folder = tmp_path / str(number)
        folder.mkdir()
        _tried(name, content, paper, folder)


@st.composite
def spoilt(draw, whole):
    """A whole file with a few of its bytes cut, doubled, replaced or in another encoding."""
    content = bytearray(whole)
    for _ in range(draw(st.integers(1, 3))):
        at = draw(st.integers(0, max(len(content) - 1, 0)))
        length = draw(st.integers(0, 40))
        kind = draw(st.sampled_from(["cut", "double", "replace", "put in", "tail", "encode"]))
        if kind == "cut":
            del content[at:at + length]
        elif kind == "double":
            content[at:at] = content[at:at + length] * draw(st.integers(1, 50))
        elif kind == "replace":
            content[at:at + 1] = draw(st.binary(min_size=1, max_size=4))
        elif kind == "put in":
            content[at:at] = draw(st.sampled_from(
                [b"nan", b"inf", b"-1", b"1e999", b'"', b"'''", b"\x00", b"\xff", b"{}", b"[", b",",
                 b";", b"\r", b"\n", b"=", b"\\", b"../", CODE.encode(), "ü€\u2028".encode()]))
        elif kind == "tail":
            del content[at:]
        else:
            text = bytes(content).decode("utf-8", "replace")
            content = bytearray(text.encode(draw(st.sampled_from(
                ["utf-16", "utf-16-le", "cp1252", "utf-8-sig"])), "replace"))
    return bytes(content)


@pytest.mark.parametrize("name", READERS)
def test_a_spoilt_file_is_read_or_refused(name, paper, tmp_path_factory, monkeypatch):
    monkeypatch.chdir(tmp_path_factory.mktemp("elsewhere"))
    whole = _whole(name, paper, tmp_path_factory.mktemp("whole"))

    @settings(max_examples=EXAMPLES, deadline=None, database=None, derandomize=not LONG,
              suppress_health_check=list(HealthCheck))
    @given(spoilt(whole))
    def tried(content):
        folder = tmp_path_factory.mktemp("one")
        if name in ("sheet", "papers"):
            write_sheet(folder, 3)
        _tried(name, content, paper, folder)

    tried()


def _digests(folder):
    return {path.relative_to(folder).as_posix(): hashlib.sha256(path.read_bytes()).hexdigest()
            for path in folder.rglob("*") if path.is_file()}


WORDS = ["", ".", "..", "/", "/dev/null", "nowhere", "../../etc", "a\u0000b", "-1", "1e9", "nan",
         "=1", "'; rm -rf ~", "class.csv", "test_1.toml", "~", "\u202e", "x" * 5000, "--", "-h",
         CODE]
COMMANDS = [
    ["paper", 1], ["mark", 1], ["mark", 2], ["override", 6], ["report", 1], ["second-marker", 1],
    ["delete-class", 2], ["qti", 3], ["syllabus", 1], ["check", 1], ["open", 2], ["none", 1], [],
]


def _run(arguments):
    with contextlib.redirect_stdout(io.StringIO()), contextlib.redirect_stderr(io.StringIO()):
        try:
            return main(arguments)
        except SystemExit as ended:
            return ended.code


def test_no_command_line_is_answered_with_a_traceback_or_harms_a_file(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("HOME", str(tmp_path / "home"))
    monkeypatch.setattr("levelkit.cli.opening.start_jupyterlab", lambda arguments: None)
    write_sheet(tmp_path, 3)
    before = _digests(tmp_path)

    @settings(max_examples=EXAMPLES * 2, deadline=None, database=None, derandomize=not LONG,
              suppress_health_check=list(HealthCheck))
    @given(st.sampled_from(COMMANDS), st.lists(st.sampled_from(WORDS), min_size=6, max_size=6))
    def tried(command, words):
        if command and command[0] == "qti":
            words[1] = "--secret"
        arguments = [*command[:1], *words[:command[1]]] if command else words[:1]
        if arguments in (["paper", "test_1.toml"],):
            return  # that one is right
        outcome.count("command lines")
        said = outcome.complaint(_run, lambda: _run(arguments))
        assert not said, f"levelkit {arguments}: {said}"

    tried()
    after = _digests(tmp_path)
    assert before == {name: after.get(name) for name in before}
    assert not list(tmp_path.rglob(MARK))


def test_marking_and_opening_never_run_what_a_notebook_holds(tmp_path, monkeypatch, paper):
    """A notebook handed in as answers, and one of the working copy: both are only bytes."""
    monkeypatch.chdir(tmp_path)
    book = nbformat.v4.new_notebook(cells=[nbformat.v4.new_code_cell(CODE),
                                           nbformat.v4.new_markdown_cell(f"<script>{CODE}")])
    for name in ("1001.ipynb", "1001.json", "answers.csv"):
        path = tmp_path / name
        nbformat.write(book, path)
        content = path.read_bytes()
        answers = read_answers([path], paper)
        assert not answers.entries and answers.faults
        assert path.read_bytes() == content
    nbformat.write(book, tmp_path / "00_start_here.ipynb")
    content = (tmp_path / "00_start_here.ipynb").read_bytes()
    monkeypatch.setattr("levelkit.cli.opening.start_jupyterlab", lambda arguments: None)
    assert _run(["open", str(tmp_path)]) == 0
    assert (tmp_path / "00_start_here.ipynb").read_bytes() == content  # an own copy stays
    assert not list(tmp_path.rglob(MARK))


def _calls(tree):
    for node in ast.walk(tree):
        if isinstance(node, ast.Call):
            function = node.func
            yield function.id if isinstance(function, ast.Name) else getattr(function, "attr", "")
        elif isinstance(node, (ast.Import, ast.ImportFrom)):
            yield from (alias.name for alias in node.names)
            yield getattr(node, "module", None) or ""


def _dangers(source):
    forbidden = {"eval", "exec", "__import__", "pickle", "marshal", "shelve", "nbclient", "runpy",
                 "nbconvert.preprocessors", "system", "popen"}
    return forbidden & set(_calls(ast.parse(source)))


def test_nothing_in_the_package_can_run_what_it_reads():
    found = {path.name: _dangers(path.read_text(encoding="utf-8"))
             for path in conventions.PACKAGE.rglob("*.py")}
    assert {name: danger for name, danger in found.items() if danger} == {}
    assert _dangers("import pickle\nx = eval('1')") == {"pickle", "eval"}
