"""The page of `levelkit check`: every line computed when the page is printed."""

import platform
from dataclasses import replace
from importlib.metadata import PackageNotFoundError, version

from .. import __version__
from ..constants import CAUTION
from .values import check_values, documents
from .water import computed_value

SELECTED = (
    "IF97-r1-300K-3MPa-v", "IF97-r1-300K-3MPa-h", "IF97-r1-300K-3MPa-s",
    "IF97-r1-300K-3MPa-cp", "IF97-r1-500K-3MPa-v", "IF97-r2-300K-0.0035MPa-v",
    "IF97-r2-300K-0.0035MPa-h", "IF97-r2-700K-30MPa-v", "IF97-psat-300K", "IF97-psat-500K",
    "IF97-psat-600K", "IF97-tsat-0.1MPa", "IF97-tsat-1MPa", "IF97-tsat-10MPa",
    "IAPWS95-sat-450K-p_sat", "IAPWS95-sat-450K-rho_liq", "IAPWS95-sat-450K-rho_vap",
    "IAPWS-sigma-20C", "IAPWS-sigma-100C", "IAPWS-n-10.0MPa-273.15K-0.2265um",
    "BOOK-SAT-10bar-t_s", "BOOK-SAT-10bar-v'", 'BOOK-SAT-10bar-v"', "BOOK-SAT-60bar-v'",
    'BOOK-SAT-60bar-v"', "SIGHT-62.4", "TABLE-60bar-rho_f", "TABLE-60bar-rho_g",
    "TABLE-60bar-rho_50C", "GLASS-7bar-100C", "GLASS-60bar-100C", "GLASS-60bar-circulating",
    "GLASS-60bar-mean", "EXAMPLE-7bar-height", "EXAMPLE-7bar-error", "EXAMPLE-60bar-level",
    "EXAMPLE-60bar-share", "EXAMPLE-10bar-error", "EXAMPLE-30bar-error", "EXAMPLE-80bar-error",
    "EXAMPLE-16bar-visible", "EXAMPLE-40bar-plate", "EXAMPLE-40bar-cold",
)
"""Rows of the check values that a lecturer can follow by hand or look up."""

PLANTED = "TABLE-60bar-rho_f"
PLANTED_WRONG_VALUE = 1000.0  # cold-water density where hot water stands: a beginner's slip
LIBRARIES = ("iapws", "numpy", "scipy", "matplotlib", "ipywidgets", "jupyterlab")
_SHOWN = {"p_bar_gauge": "bar gauge", "T_K": "K", "p_MPa": "MPa", "t_C": "degC",
          "t_glass_C": "degC", "t_leg_C": "degC", "level_mm": "mm", "glass_mm": "mm",
          "reading_mm": "mm"}


def check_page(compute=computed_value):
    """Return the page as text, and whether the check as a whole has passed."""
    rows = check_values("check_values_water.csv")
    sources = documents()
    lines, failures, source = _head(), [], None
    for row in (rows[name] for name in SELECTED):
        if row.source != source:
            source = row.source
            lines += ["", f"{source}: {sources[source]} ({_known(row)})"]
        computed = compute(row)
        failures += [] if row.agrees(computed) else [row.id]
        lines.append(_line(row, computed, "ok" if row.agrees(computed) else "FAILS"))
    wrong = replace(rows[PLANTED], expected=PLANTED_WRONG_VALUE)
    computed = compute(wrong)
    caught = not wrong.agrees(computed)
    lines += ["", "A wrong value on purpose: this line has to FAIL, or the check proves nothing",
              _line(wrong, computed, "FAILS, as it must" if caught else "ok: NOT caught"), "",
              *_verdict(len(SELECTED), failures, caught), "", CAUTION]
    return "\n".join(lines), not failures and caught


def _head():
    tools = [f"levelkit {__version__}", f"Python {platform.python_version()}"]
    for name in LIBRARIES:
        try:
            tools.append(f"{name} {version(name)}")
        except PackageNotFoundError:
            tools.append(f"{name} missing")
    return ["levelkit check: values computed now beside published and hand-worked ones",
            ", ".join(tools), "",
            f"{'what':60}{'computed':>14}{'expected':>14}  {'unit':10}{'may differ':>10}"]


def _line(row, computed, verdict):
    given = [f"{row.inputs[key]:g} {unit}" for key, unit in _SHOWN.items() if key in row.inputs]
    if "p_bar_abs" in row.inputs and "p_bar_gauge" not in row.inputs:
        given.insert(0, f"{row.inputs['p_bar_abs']:g} bar absolute")
    what = ", ".join([row.quantity, *given])
    digits = 9 if row.tolerance.startswith("rel 1e-8") else 7
    return (f"{what:60}{computed:>14.{digits}g}{row.expected:>14.{digits}g}  {row.unit:10}"
            f"{row.allowed:>10.1e}  {verdict}")


def _known(row):
    """How the expected value is known: seen in a text, recalled, or computed elsewhere."""
    return {"seen": "seen", "from": "from memory"}.get(row.seen_or_memory.split()[0],
                                                       "computed outside levelkit")


def _verdict(count, failures, caught):
    first = (f"All {count} values agree." if not failures else
             f"{len(failures)} of {count} values do NOT agree: {', '.join(failures)}.")
    second = ("The planted wrong value was caught." if caught else
              "The planted wrong value was NOT caught: do not trust this check.")
    return [first, second]
