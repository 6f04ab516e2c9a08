"""Plant small faults in levelkit, one at a time, and see whether a test notices.

    python tests/bench/mutation.py levelkit/physics tests/physics --out /tmp/physics.jsonl

Needs `coverage` (not a dependency). No file is altered: each fault lives in a forked child,
which compiles the module from the altered tree. Only tests that run a line of the module are
run, quickest first, with few hypothesis examples and a fixed seed. The docstring examples of the
package count as tests, as they do for `pytest`. A child that overruns is killed and counts as
noticed. Rerun with the same --out to go on where it stopped.
"""

import argparse
import ast
import importlib
import json
import os
import random
import sys
import time
from bisect import bisect
from collections import defaultdict
from itertools import accumulate
from pathlib import Path

import pytest
from mutants import faults_of
from planting import Altered, exchange_code, forked, in_child

ROOT = Path(__file__).resolve().parents[2]
LONGEST = 60.0
"""Seconds of tests for one fault: the slowest tests are left out, which can only cost score."""
PLAIN = ["-q", "-x", "--tb=no", "-o", "addopts=--doctest-modules", "-p", "no:cacheprovider",
         "-p", "no:warnings", "-p", "_hypothesis_pytestplugin"]


class Session:
    """Pytest plugin: the altered module, the wanted tests in the wanted order, what failed."""

    def __init__(self, wanted, examples, finder=None):
        self.wanted, self.examples, self.finder, self.failed = wanted, examples, finder, None

    @pytest.hookimpl(tryfirst=True)
    def pytest_collection(self, session):
        """Come before the loaders of pytest itself."""
        if self.finder:
            sys.meta_path.insert(0, self.finder)

    def pytest_collection_modifyitems(self, items):
        """Leave the wanted tests, quickest first, with few examples and a fixed seed."""
        from hypothesis import HealthCheck, Phase, settings

        if self.wanted is not None:
            rank = {name: place for place, name in enumerate(self.wanted)}
            items[:] = sorted((item for item in items if item.nodeid in rank),
                              key=lambda item: rank[item.nodeid])
        for item in items:
            old = getattr(getattr(item, "obj", None), "_hypothesis_internal_use_settings", None)
            if old:
                item.obj._hypothesis_internal_use_settings = settings(
                    old, max_examples=min(old.max_examples, self.examples), derandomize=True,
                    database=None, deadline=None, suppress_health_check=list(HealthCheck),
                    phases=[Phase.explicit, Phase.generate])

    def pytest_collectreport(self, report):
        """A module that cannot be imported is noticed."""
        if report.failed:
            self.failed = f"collecting {report.nodeid}"

    def pytest_runtest_logreport(self, report):
        """The first test that fails."""
        if report.failed and self.failed is None:
            self.failed = report.nodeid


class Lines:
    """Pytest plugin: which test runs which line, and how long it takes."""

    def __init__(self, package):
        import coverage

        self.cover = coverage.Coverage(data_file=None, include=[f"{package}/*"])
        self.seconds = {}
        self.cover.start()

    @pytest.hookimpl(hookwrapper=True)
    def pytest_runtest_protocol(self, item):
        """Name the lines after the test that runs them."""
        self.cover.switch_context(item.nodeid)
        start = time.perf_counter()
        yield
        self.seconds[item.nodeid] = time.perf_counter() - start
        self.cover.switch_context("")

    def result(self):
        """Seconds of each test, and for each file the tests of each line."""
        self.cover.stop()
        data = self.cover.get_data()
        lines = {}
        for file in data.measured_files():
            lines[str(Path(file).relative_to(ROOT))] = {
                line: [one for one in names if one]
                for line, names in data.contexts_by_lineno(file).items()}
        return {"seconds": self.seconds, "lines": lines}


class Short:
    """Pytest plugin: in place of running the tests, give each fault inside a function a child.

    Everything is imported and collected once; the child only exchanges the code of the function.
    """

    def __init__(self, jobs, faults, examples):
        self.jobs, self.faults, self.session = jobs, faults, Session(None, examples)

    def pytest_collection_modifyitems(self, items):
        """Few examples, fixed seed."""
        self.session.pytest_collection_modifyitems(items)

    def pytest_runtestloop(self, session):
        """Plant the faults, one child for each."""
        items = {item.nodeid: item for item in session.items}
        session.config.pluginmanager.register(self.session)

        def one(file, number, wanted):
            result, name, tree = self.faults.planted(file, number)
            result["tests"] = len(wanted)
            exchange_code(importlib.import_module(name), tree)
            wanted = [items[name] for name in wanted if name in items]
            for item, following in zip(wanted, [*wanted[1:], None], strict=False):
                item.config.hook.pytest_runtest_protocol(item=item, nextitem=following)
                if self.session.failed:
                    break
            result["noticed"] = self.session.failed
            return result

        self.faults.run(self.jobs, one)
        return True


class Faults:
    """The faults to plant, who runs which line, where the results go."""

    def __init__(self, runs, examples, workers, report):
        self.runs, self.examples, self.workers, self.report = runs, examples, workers, report
        self.found = {}

    def __getitem__(self, file):
        if file not in self.found:
            self.found[file] = faults_of(_tree(file))
        return self.found[file]

    def planted(self, file, number):
        """A fault in its tree: the result so far, the name of the module, the tree."""
        tree = _tree(file)
        fault = faults_of(tree)[number]
        before, after = fault.plant()
        name = file.removesuffix(".py").replace("/", ".").removesuffix(".__init__")
        return {"file": file, "number": number, "line": fault.line, "kind": fault.kind,
                "before": before, "after": after, "noticed": None}, name, tree

    def long_way(self, file, number, wanted):
        """Import the altered module afresh and start pytest on it."""
        result, name, tree = self.planted(file, number)
        session = Session(wanted, self.examples, Altered(name, ROOT / file, tree))
        pytest.main([*PLAIN, *sorted({name.split("::")[0] for name in wanted})],
                    plugins=[session])
        return {**result, "tests": len(wanted), "noticed": session.failed}

    def tests(self, file, number):
        """Tests that run the line, quickest first; all of the file's for lines run on import."""
        lines = self.runs["lines"].get(file, {})
        names = self.runners(file, number)
        if self.on_import(file, number):
            names = {name for those in lines.values() for name in those}
        names = sorted(names, key=self.seconds)
        total = list(accumulate(map(self.seconds, names)))
        return names[:max(1, bisect(total, LONGEST))]

    def runners(self, file, number):
        """Tests that run the line of a fault, or the first line of its statement."""
        lines, fault = self.runs["lines"].get(file, {}), self[file][number]
        return {*lines.get(str(fault.line), ()), *lines.get(str(fault.statement.lineno), ())}

    def on_import(self, file, number):
        """Whether a fault acts before any test runs: it has to be imported afresh."""
        lines, fault = self.runs["lines"].get(file, {}), self[file][number]
        seen = {str(fault.line), str(fault.statement.lineno)} & set(lines)
        return not fault.inside or bool(seen) and not self.runners(file, number)

    def seconds(self, name):
        """How long a test took with nothing altered."""
        return self.runs["seconds"].get(name, 0.0)

    def run(self, jobs, work):
        """Plant each fault of `jobs` in a child that does `work`; report each result."""
        waiting, busy = list(reversed(jobs)), {}
        while waiting or busy:
            while waiting and len(busy) < self.workers:
                file, number = waiting.pop()
                wanted = self.tests(file, number)
                seconds = 10 + int(3 * sum(map(self.seconds, wanted)))
                child, reading = forked(
                    lambda f=file, n=number, w=wanted: work(f, n, w), seconds)
                busy[child] = (file, number, reading)
            child, status = os.wait()
            file, number, reading = busy.pop(child)
            with os.fdopen(reading, "rb") as pipe:
                text = pipe.read()
            if os.WIFEXITED(status) and os.WEXITSTATUS(status):
                raise RuntimeError(f"fault {number} of {file} could not be planted")
            self.report(json.loads(text) if text else {
                **self.planted(file, number)[0], "noticed": "overrun"})


def _tree(file):
    return ast.parse((ROOT / file).read_text(encoding="utf-8"))


def who_runs_what(package, tests, examples):
    """Run all tests once with nothing altered; see which runs which line."""
    def work():
        lines, session = Lines(package), Session(None, examples)
        code = pytest.main([*PLAIN, *tests, package], plugins=[lines, session])
        return {**lines.result(), "code": int(code), "failed": session.failed}

    found = in_child(work)
    if not found or found["code"]:
        sys.exit(f"The tests are not green with nothing altered: {found and found['failed']}")
    return found


def main():
    """Read the command line, run, print the score of each file."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("package", help="folder or file of levelkit to plant faults in")
    parser.add_argument("tests", nargs="+", help="tests that should notice")
    parser.add_argument("--out", required=True, help="results, one JSON line for each fault")
    parser.add_argument("--sample", type=int, help="faults for each file (default: all)")
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--examples", type=int, default=25, help="of each hypothesis test")
    parser.add_argument("--workers", type=int, default=2)
    options = parser.parse_args()
    os.chdir(ROOT)
    os.environ["PYTEST_DISABLE_PLUGIN_AUTOLOAD"] = "1"
    sys.path.insert(0, str(ROOT))
    place = Path(options.package)
    files = sorted(place.rglob("*.py")) if place.is_dir() else [place]
    folder = place if place.is_dir() else place.parent
    _import_once()

    out = Path(options.out)
    done = [json.loads(line) for line in out.read_text().splitlines()] if out.exists() else []
    known = {(one["file"], one["number"]) for one in done}
    rng, jobs = random.Random(options.seed), []
    for file in files:
        numbers = range(len(faults_of(_tree(file))))
        if options.sample and options.sample < len(numbers):
            numbers = rng.sample(numbers, options.sample)
        jobs += [(str(file), number) for number in numbers if (str(file), number) not in known]
    rng.shuffle(jobs)
    kept = out.with_suffix(".runs.json")
    if not kept.exists():
        kept.write_text(json.dumps(who_runs_what(str(folder), options.tests, options.examples)))
    runs = json.loads(kept.read_text())

    def report(result):
        with out.open("a") as stream:
            stream.write(json.dumps(result) + "\n")

    faults = Faults(runs, options.examples, options.workers, report)
    short = [job for job in jobs if not faults.on_import(*job)]
    in_child(lambda: int(pytest.main([*PLAIN, *options.tests, str(folder)], plugins=[
        Short(short, faults, options.examples)])))
    faults.run([job for job in jobs if job not in set(short)], faults.long_way)
    done = [json.loads(line) for line in out.read_text().splitlines()]
    _print_scores(done)


def _import_once():
    """What every child would import again; not levelkit, and not what loads it."""
    for name in ("numpy", "scipy.optimize", "scipy.integrate", "scipy.interpolate",
                 "scipy.special", "hypothesis.extra.numpy", "iapws", "pint", "CoolProp",
                 "_pytest.doctest", "_hypothesis_pytestplugin"):
        importlib.import_module(name)


def _print_scores(done):
    """Noticed faults of each file, and of all; those of a range's ends stand apart."""
    table = defaultdict(lambda: defaultdict(list))
    for one in done:
        column = "ends" if one["kind"] == "limit" else "faults"
        for row in (one["file"], "all"):
            table[row][column].append(one["noticed"] is not None)
    print(f"{'noticed of planted':48} {'faults':>12} {'%':>6} {'ends of ranges':>16}")
    for row in sorted(table, key=lambda name: (name == "all", name)):
        faults, ends = table[row]["faults"], table[row]["ends"]
        print(f"{row:48} {sum(faults):5} of {len(faults):4} "
              f"{100 * sum(faults) / max(len(faults), 1):5.1f} {sum(ends):8} of {len(ends):4}")


if __name__ == "__main__":
    main()
