"""What the conventions tests look for, as plain functions, so that a planted fault can be tried."""

import ast
import importlib
import inspect
import pkgutil
import re
from pathlib import Path

PACKAGE = Path(__file__).resolve().parent.parent / "levelkit"

LAYERS = (
    ("constants", "errors", "units", "resources"),
    ("properties",),
    ("physics",),
    ("faults",),
    ("scenario",),
    ("diagnosis",),
    ("scene", "charts", "exercises"),
    ("papers",),
    ("records",),
    ("exchange",),
    ("check",),
    ("panels",),
    ("lesson",),
    ("room",),
    ("cli",),
)
"""Lowest first. A module may import from its own layer's package and from layers below."""

ALLOWED_SIDEWAYS = {("errors", "constants"), ("units", "constants"), ("units", "errors"),
                    ("resources", "errors"), ("records", "papers"), ("papers", "records"),
                    ("charts", "scene")}

NEVER = {
    "exercises": {"ipywidgets", "anywidget", "matplotlib", "IPython"},
    "papers": {"ipywidgets", "anywidget"},
    "records": {"ipywidgets", "anywidget"},
    "exchange": {"ipywidgets", "anywidget", "matplotlib"},
    "check": {"ipywidgets", "anywidget", "matplotlib", "iapws"},
    "physics": {"ipywidgets", "anywidget", "matplotlib", "IPython", "iapws"},
    "faults": {"ipywidgets", "anywidget", "matplotlib", "IPython", "iapws"},
    "diagnosis": {"ipywidgets", "anywidget", "matplotlib", "IPython", "iapws"},
    "scene": {"ipywidgets", "anywidget", "matplotlib", "IPython"},
    "charts": {"ipywidgets", "anywidget", "IPython"},
}
ONLY_PROPERTIES = "iapws"


def _rank():
    return {name: rank for rank, names in enumerate(LAYERS) for name in names}


def imported_names(path, package_root):
    """Yield (part of levelkit or None, outside package or None) for every import in a file."""
    relative = path.relative_to(package_root).with_suffix("").parts
    here = ("levelkit", *relative)
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            names = [alias.name for alias in node.names]
        elif isinstance(node, ast.ImportFrom):
            base = ".".join(here[:len(here) - node.level]) if node.level else ""
            stem = ".".join(part for part in (base, node.module) if part)
            names = [f"{stem}.{alias.name}" for alias in node.names]
        else:
            continue
        for name in names:
            parts = name.split(".")
            if parts[0] == "levelkit":
                yield (parts[1] if len(parts) > 1 else None), None
            else:
                yield None, parts[0]


def wrong_imports(package_root=PACKAGE):
    """Return a sentence for every import that runs against the layers."""
    rank, faults = _rank(), []
    for path in sorted(package_root.rglob("*.py")):
        relative = path.relative_to(package_root)
        own = relative.parts[0].removesuffix(".py")
        if own.startswith("__"):
            continue
        if own not in rank:
            faults.append(f"{relative}: '{own}' has no layer; give it one in tests/conventions.py")
            continue
        for inside, outside in imported_names(path, package_root):
            if inside in rank and inside != own and (
                    rank[inside] > rank[own]
                    or (rank[inside] == rank[own] and (own, inside) not in ALLOWED_SIDEWAYS)):
                faults.append(f"{relative}: {own} must not import {inside}")
            if outside in NEVER.get(own, ()):
                faults.append(f"{relative}: {own} must not import {outside}")
            if outside == ONLY_PROPERTIES and own != "properties":
                faults.append(f"{relative}: only properties may import {outside}")
    return faults


DOCUMENTED = ("levelkit.constants", "levelkit.errors", "levelkit.units", "levelkit.properties",
              "levelkit.physics", "levelkit.faults", "levelkit.scenario", "levelkit.diagnosis")
_UNIT = re.compile(r"\[[^\]]+\]")
_NO_UNIT = re.compile(r":\s*(str|bool|int|list of str|tuple of str|callable|None)\b")


def public_functions(prefixes=DOCUMENTED):
    """Yield every public function of the modules that state formulas."""
    for prefix in prefixes:
        try:
            module = importlib.import_module(prefix)
        except ModuleNotFoundError as missing:
            if missing.name == prefix:
                continue
            raise
        names = [prefix]
        if hasattr(module, "__path__"):
            names += [item.name for item in pkgutil.walk_packages(module.__path__, prefix + ".")]
        for name in names:
            if name.rsplit(".", 1)[-1].startswith("_"):
                continue
            member_module = importlib.import_module(name)
            for label, member in vars(member_module).items():
                if (inspect.isfunction(member) and not label.startswith("_")
                        and member.__module__ == name):
                    yield member


def _section(doc, title):
    match = re.search(rf"^{title}\n-+\n(.*?)(?=^\w[\w ]*\n-+\n|\Z)", doc, re.S | re.M)
    return match.group(1) if match else ""


def docstring_faults(function):
    """Return what is missing in one docstring: units, source, doctest, an argument."""
    doc = inspect.getdoc(function) or ""
    name = f"{function.__module__}.{function.__name__}"
    if not doc:
        return [f"{name}: no docstring"]
    faults = []
    arguments = [p for p in inspect.signature(function).parameters if p != "self"]
    parameters, returns = _section(doc, "Parameters"), _section(doc, "Returns")
    described = {}
    for line in parameters.splitlines():
        if line and not line[0].isspace() and ":" in line:
            for argument in line.split(":")[0].split(","):
                described[argument.strip().lstrip("*")] = line
    for argument in arguments:
        if argument not in described:
            faults.append(f"{name}: argument '{argument}' is not described")
        elif not _UNIT.search(described[argument]) and not _NO_UNIT.search(described[argument]):
            faults.append(f"{name}: argument '{argument}' has no [unit]")
    first = next((line for line in returns.splitlines() if line.strip()), "")
    if not returns:
        faults.append(f"{name}: no Returns section")
    elif not _UNIT.search(returns) and not re.match(r"(str|bool|int|None|tuple of str)", first):
        faults.append(f"{name}: the result has no [unit]")
    if not _section(doc, "References").strip():
        faults.append(f"{name}: no source under References")
    if ">>>" not in doc:
        faults.append(f"{name}: no doctest")
    return faults


def cited_sources(function):
    """Return the source ids in square brackets under References."""
    references = _section(inspect.getdoc(function) or "", "References")
    return re.findall(r"\[([A-Z][A-Z0-9-]+)\]", references)
