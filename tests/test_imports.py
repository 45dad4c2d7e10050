"""What may import what: the layers of the package, and that importing changes nothing."""

import ast
import subprocess
import sys
from pathlib import Path

import pytest

import workbench

PACKAGE = Path(workbench.__file__).parent
CALCULATIONS = {"threads", "screws", "rivets", "joints"}
BASE = {"tables", "refusals", "unit_names"}

# part of the package -> the other parts it may import
LAYERS = {
    "refusals": set(),
    "unit_names": set(),
    "tables": {"refusals"},
    **{part: CALCULATIONS | BASE for part in CALCULATIONS},
    "exercises": CALCULATIONS | BASE,
    "entry": BASE | {"exercises", "threads"},
    "marking": BASE | {"exercises", "entry"},
    "drawings": CALCULATIONS | BASE,
    "panels": CALCULATIONS | BASE | {"drawings", "entry", "exercises", "session"},
    "session": set(),
    "question_sheet": {"exercises", "marking", "session", "drawings"},
    "answer_line": {"exercises"},
    "answering": {"answer_line", "exercises", "entry", "marking", "session", "question_sheet", "panels", "threads"},
    "course_copy": set(),
    "launch": {"course_copy"},
    "__main__": {"launch"},
    "__init__": {"answering", "panels"},
    "kernel": {"answering"},
}
PLOTS = {"matplotlib", "PIL"}
WIDGETS = {"ipywidgets", "anywidget", "traitlets"}
NOTEBOOKS = {"IPython", "ipykernel", "jupyter_client", "jupyterlab", "nbclient", "nbformat", "nbconvert", "nbgrader"}
FORBIDDEN = {
    **{part: PLOTS | WIDGETS | NOTEBOOKS for part in LAYERS},
    "drawings": WIDGETS | NOTEBOOKS,
    "panels": PLOTS | NOTEBOOKS,
    "answering": PLOTS | WIDGETS | {"nbgrader"},
    "question_sheet": PLOTS | WIDGETS,
}
MODULES = sorted(PACKAGE.rglob("*.py"))


def part_of(name: str) -> str:
    """`workbench.screws.measuring` belongs to `screws`, `workbench` itself to `__init__`."""
    return [*name.split("."), "__init__"][1]


def imported(text: str) -> set[str]:
    """The full names of all modules that a source imports, at its top or inside a function."""
    names = set()
    for node in ast.walk(ast.parse(text)):
        if isinstance(node, ast.Import):
            names |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, "imports are written in full"
            whole = [f"{node.module}.{alias.name}" for alias in node.names]
            names |= set(whole) if node.module == "workbench" else {node.module}
    return names


def faults(part: str, text: str) -> list[str]:
    """What a source of this part of the package imports against the rule."""
    found = []
    for name in sorted(imported(text)):
        top = name.split(".")[0]
        if top == "instructor" or top in FORBIDDEN[part]:
            found.append(name)
        elif top == "workbench" and part_of(name) != part and part_of(name) not in LAYERS[part]:
            found.append(name)
    return found


@pytest.mark.parametrize("path", MODULES, ids=lambda path: path.relative_to(PACKAGE).as_posix())
def test_a_module_imports_only_what_lies_below_it(path):
    """tables <- calculations <- exercises <- marking <- answering; drawings <- panels; never the other way."""
    part = path.relative_to(PACKAGE).parts[0].removesuffix(".py")
    assert part in LAYERS, f"{part} is new: give it a place in the layers above"
    assert faults(part, path.read_text(encoding="utf-8")) == []


@pytest.mark.parametrize(
    ("part", "text"),
    [
        ("screws", "import matplotlib.pyplot as plt"),
        ("screws", "def f():\n    from IPython.display import display"),
        ("screws", "from workbench.drawings.sheet import Sheet"),
        ("tables", "from workbench import screws"),
        ("drawings", "import ipywidgets"),
        ("drawings", "from workbench import exercises"),
        ("panels", "from matplotlib.figure import Figure"),
        ("exercises", "from workbench import marking"),
        ("marking", "from instructor import roll"),
    ],
)
def test_the_rule_sees_a_planted_fault(part, text):
    """The check above is able to fail: each of these imports breaks the rule."""
    assert faults(part, text)


def fresh(program: str) -> str:
    """What a program prints in a fresh Python."""
    done = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, check=True)
    assert done.stderr == ""
    return done.stdout


def test_import_workbench_loads_nothing_heavy():
    """numpy, matplotlib, ipywidgets, pint and IPython wait until they are needed."""
    program = "import sys, workbench; print(*sorted({name.split('.')[0] for name in sys.modules}))"
    loaded = set(fresh(program).split())
    assert "workbench" in loaded
    assert not loaded & {"numpy", "matplotlib", "ipywidgets", "anywidget", "pint", "IPython", "pandas"}


STATE = """
import os, signal, sys, warnings
def state():
    return (list(sys.path), list(warnings.filters), dict(os.environ), os.getcwd(), sys.excepthook,
            signal.getsignal(signal.SIGTERM))
before = state()
"""


def test_importing_any_module_changes_nothing():
    """Search path, warning filters, environment, folder and hooks stay as they were, for all our modules.

    Other people's packages may change the warning filters when they load, so those come first."""
    names = [
        ".".join(("workbench", *path.relative_to(PACKAGE).with_suffix("").parts)).removesuffix(".__init__")
        for path in MODULES
        if path.parent.name != "kernel" and path.name != "__main__.py"
    ]
    others = "import numpy, matplotlib.figure, matplotlib.backends.backend_agg, ipywidgets, anywidget, pint, PIL\n"
    ours = f"import importlib\nfor name in {names!r}: importlib.import_module(name)\n"
    assert fresh(f"{others}{STATE}{ours}print(before == state())") == "True\n"


def test_drawings_leave_matplotlib_as_it_was():
    """No backend is chosen, no window code loaded, no rc setting touched by importing panels and drawings."""
    names = [
        ".".join(("workbench", *path.relative_to(PACKAGE).with_suffix("").parts)).removesuffix(".__init__")
        for path in MODULES
        if path.relative_to(PACKAGE).parts[0] in ("drawings", "panels")
    ]
    program = (
        "import sys, importlib, matplotlib\n"
        # read past RcParams' own look-up, which would choose a backend
        "state = lambda: [(key, dict.__getitem__(matplotlib.rcParams, key)) for key in matplotlib.rcParams]\n"
        "before = state()\n"
        f"for name in {names!r}: importlib.import_module(name)\n"
        "print(before == state(), 'matplotlib.pyplot' in sys.modules)"
    )
    assert fresh(program) == "True False\n"
