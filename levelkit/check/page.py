"""The page of `levelkit check`: every line computed when the page is printed."""

import platform
from dataclasses import replace
from importlib.metadata import PackageNotFoundError, version

from .. import __version__
from ..constants import CAUTION
from .computed import computed_value
from .sections import evidence
from .values import check_values, discrepancies, documents

PLANTED = "TABLE-60bar-rho_f"
PLANTED_WRONG_VALUE = 1000.0  # cold-water density where hot water stands: a beginner's slip
LIBRARIES = ("iapws", "numpy", "scipy", "matplotlib", "ipywidgets", "jupyterlab")
_UNITS = {"bar_abs": "bar absolute", "bar_gauge": "bar gauge", "psi_abs": "psi absolute",
          "C": "degC", "in2": "in2", "kg_s": "kg/s"} | {
    unit: unit for unit in ("K", "MPa", "MW", "kPa", "bar", "m", "mm", "um", "ft", "in", "deg", "s",
                            "mA", "V", "kg")}
_SHOWN_AT_MOST = 4  # a row with more inputs is found in its file by its id


def check_page(compute=computed_value):
    """Return the page as text, and whether the check as a whole has passed."""
    lines, failures = _head(), []
    for part in evidence():
        lines += ["", part.section.upper(), _TITLE]
        for row in part.rows:
            computed = compute(row)
            agrees = row.agrees(computed)
            failures += [] if agrees else [row.id]
            lines.append(_line(row, computed, "ok" if agrees else "FAILS"))
    listed, vanished = _discrepancies(compute)
    wrong = replace(check_values()[PLANTED], expected=PLANTED_WRONG_VALUE)
    computed = compute(wrong)
    caught = not wrong.agrees(computed)
    lines += ["", *listed, "",
              "A WRONG VALUE ON PURPOSE: THIS LINE HAS TO FAIL, OR THE CHECK PROVES NOTHING",
              _line(wrong, computed, "FAILS, as it must" if caught else "ok: NOT caught"),
              "", *summary(), "", *_documents(), "", *_verdict(failures, vanished, caught),
              "", CAUTION]
    return "\n".join(lines), not failures and not vanished and caught


def summary():
    """Return one line for each section: how many values, and how they are known."""
    head = f"{'section':32}{'values':>8}{'seen':>8}{'memory':>8}{'computed':>10}{'sources':>9}"
    parts = evidence()
    lines = [f"{part.section:32}{len(part.rows):>8}{part.count('seen'):>8}"
             f"{part.count('from memory'):>8}{part.count('computed'):>10}{len(part.sources):>9}"
             for part in parts]
    rows = [row for part in parts for row in part.rows]
    total = (f"{'all':32}{len(rows):>8}"
             f"{sum(row.known == 'seen' for row in rows):>8}"
             f"{sum(row.known == 'from memory' for row in rows):>8}"
             f"{sum(row.known == 'computed' for row in rows):>10}"
             f"{len({row.source for row in rows}):>9}")
    return [head, *lines, total]


def discrepancy_lines(compute=computed_value):
    """Return a line and its explanation for every place where a source and we differ."""
    return _discrepancies(compute)[0]


def _head():
    tools = [f"levelkit {__version__}", f"Python {platform.python_version()}"]
    for name in LIBRARIES:
        try:
            tools.append(f"{name} {version(name)}")
        except PackageNotFoundError:
            tools.append(f"{name} missing")
    return ["levelkit check: values computed now beside published and hand-worked ones",
            ", ".join(tools), "",
            "known: seen (in the source or a transcription that names it), from memory, or "
            "computed (outside levelkit).",
            "found by an independent script: REPRODUCED, CROSS-CHECKED (second library), "
            "SELF-CONSISTENT (tests our implementation, not a source), - (cannot be computed)."]


_TITLE = (f"{'':28} {'ours':>14} {'published':>14} {'unit':10} {'difference':>11} "
          f"{'may differ':>10}  {'verdict':8} {'known':12} {'found':16} {'source':24} what")


def _given(inputs):
    """A row's inputs in brackets; one with many is found in its file by its id."""
    if not 0 < len(inputs) <= _SHOWN_AT_MOST:
        return ""
    return f" ({', '.join(_input(key, value) for key, value in inputs.items())})"


def _input(key, value):
    if not isinstance(value, (int, float)):
        return str(value)
    for suffix, unit in _UNITS.items():
        if key.endswith(f"_{suffix}"):
            return f"{key.removesuffix(f'_{suffix}')} {value:g} {unit}"
    return f"{key} {value:g}"


def _line(row, computed, verdict):
    digits = 9 if row.tolerance.startswith("rel 1e-8") else 7
    unit = "" if row.unit == "1" else row.unit
    return (f"{row.id:28} {computed:>14.{digits}g} {row.expected:>14.{digits}g} {unit:10} "
            f"{computed - row.expected:>+11.1e} {row.allowed:>10.1e}  {verdict:8} {row.known:12} "
            f"{row.evidence:16} {row.source:24} {row.quantity}{_given(row.inputs)}")


def _discrepancies(compute):
    lines, vanished = ["WHERE A SOURCE AND WE DIFFER, AND WHY", _TITLE], []
    for name, difference in discrepancies().items():
        computed = compute(difference.value)
        stands = difference.stands(computed)
        vanished += [] if stands else [name]
        lines += [_line(difference.value, computed, "differs" if stands else "NOT as explained"),
                  f"    {difference.explanation}"]
    return lines, vanished


def _documents():
    titles, rows = documents(), check_values().values()
    cited = sorted({row.source for row in rows}
                   | {item.value.source for item in discrepancies().values()})
    return ["SOURCES", *(f"{name}: {titles[name]}" for name in cited)]


def _verdict(failures, vanished, caught):
    count = len(check_values())
    first = (f"All {count} values agree." if not failures else
             f"{len(failures)} of {count} values do NOT agree: {', '.join(failures)}.")
    differ = len(discrepancies())
    second = (f"All {differ} known discrepancies are as explained." if not vanished else
              f"{len(vanished)} of {differ} discrepancies are NOT as explained: "
              f"{', '.join(vanished)}.")
    third = ("The planted wrong value was caught." if caught else
             "The planted wrong value was NOT caught: do not trust this check.")
    return [first, second, third]
