"""Changing any number, operator or table cell of the calculations makes a test fail.

A fixed sample runs each time, spread over the files. WORKBENCH_MUTANTS=all runs every mutant of the measuring screw,
and of each file of threads a fixed sample of PER_FILE, since their tables hold thousands of cells;
WORKBENCH_MUTANTS=threads runs that second part alone. The checksum test is left out, since it would catch every
table cell whatever the other tests know.
"""

import json
import os
import random
import shutil
import subprocess
import sys
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from queue import SimpleQueue

import pytest

from tests.mutation.mutants import of_code, of_table
from tests.mutation.trial import EVERY

pytestmark = pytest.mark.skipif(not hasattr(os, "fork"), reason="the trials fork; Linux and macOS only")

ROOT = Path(__file__).parents[2]
_LIMITS, _SIZES = "tests/published/test_thread_limits.py", "tests/published/test_threads.py"
_TOLERANCES, _LOOKALIKES = "tests/threads/test_tolerance_tables.py", "tests/threads/test_lookalikes.py"
_CALL_OUTS, _MATCHING = "tests/threads/test_designation.py", "tests/threads/test_matching.py"
_STRENGTH, _PROFILES = "tests/threads/test_strength.py", "tests/threads/test_profile.py"
_HEADS = "tests/tables/test_heads_and_lengths.py"
MODULES = {  # area: file: the tests likeliest to catch a change
    "screws": {
        "workbench/refusals.py": "tests/test_refusals.py",
        "workbench/tables/__init__.py": "tests/tables/test_tables.py",
        "workbench/screws/measuring.py": "tests/screws/test_measuring.py",
        "workbench/screws/screw_error.py": "tests/screws/test_screw_error.py",
        "workbench/screws/thermal.py": "tests/screws/test_thermal.py",
        "workbench/screws/feed.py": "tests/screws/test_feed.py",
        "workbench/screws/coverage.py": "tests/screws/test_uncertainty.py",
        "workbench/screws/uncertainty.py": "tests/screws/test_uncertainty.py",
    },
    "threads": {f"workbench/threads/{name}.py": first for name, first in {
        "designation": _CALL_OUTS, "explanation": _CALL_OUTS, "inch_call_out": _CALL_OUTS, "spelling": _CALL_OUTS,
        "metric_call_out": _CALL_OUTS, "flank": _LOOKALIKES, "forms": _PROFILES, "outline": _PROFILES,
        "profile": _PROFILES, "gauging": "tests/threads/test_gauging.py", "known_threads": _LOOKALIKES,
        "lookalikes": _LOOKALIKES, "limits": "tests/threads/test_limits.py", "limits_acme": _LIMITS,
        "limits_called_out": "tests/threads/test_limits_called_out.py", "limits_metric": _LIMITS,
        "limits_trapezoidal": _LIMITS, "limits_unified": _LIMITS, "marks": _MATCHING, "matching": _MATCHING,
        "measured": _MATCHING, "measured_form": "tests/threads/test_measured_form.py",
        "property_classes": _STRENGTH, "strength": _STRENGTH, "tapping": "tests/threads/test_tapping.py",
        "three_wires": "tests/threads/test_three_wires.py"}.items()},
}
TABLES = {  # without thread_instruments: rules of thumb of our own, with nothing outside to hold them against
    "screws": {f"workbench/tables/{name}.csv": "tests/published/test_measuring_screws.py" for name in (
        "definitions", "distributions", "measuring_screws", "number_drills", "thermal_expansion")},
    "threads": {f"workbench/tables/{name}.csv": first for name, first in {
        "acme_classes": _LIMITS, "acme_sizes": _LOOKALIKES, "ba_sizes": _LOOKALIKES, "head_heights": _HEADS,
        "iso_2306_tapping_drills": _TOLERANCES, "iso_261_metric": _TOLERANCES, "iso_273_clearance_holes": _TOLERANCES,
        "iso_2903_crest": _TOLERANCES, "iso_2903_pitch": _TOLERANCES, "iso_3506_1_grades": _STRENGTH,
        "iso_898_1_classes": _STRENGTH, "iso_898_1_loads_coarse": _SIZES, "iso_898_1_loads_fine": _SIZES,
        "iso_898_2_nuts": _STRENGTH, "iso_965_crest": _TOLERANCES, "iso_965_deviations": _TOLERANCES,
        "iso_965_pitch": _TOLERANCES, "nominal_lengths": _HEADS, "pipe_threads": _LOOKALIKES,
        "sae_j429_grades": _STRENGTH, "screw_heads": _MATCHING, "screw_lengths": _MATCHING, "thread_forms": _PROFILES,
        "thread_lengths": _MATCHING, "trapezoidal_clearances": _PROFILES,
        "trapezoidal_sizes": _TOLERANCES, "unified_sizes": _LOOKALIKES, "whitworth_sizes": _LOOKALIKES}.items()},
}
FILES = {path: (area, first) for kind in (MODULES, TABLES) for area, files in kind.items()
         for path, first in files.items()}
PER_FILE = 12
SAMPLE = 24
WORKERS = 2

# mutants that no test can tell from the original, and why
_NORMAL = "from 100,000 degrees on t and the normal law agree beyond what a test may ask"
_SEARCH = "another end or length of the search for k, the same k found"
_DUST = "differs only at the very edge of the allowance for binary dust"
_NOUGHT = "at the limit itself the excess is nought either way"
_DIGITS = "sizes in inches have fewer decimals"
EQUIVALENT = {
    "workbench/screws/coverage.py: module: 100000 -> 100001": _NORMAL,
    "workbench/screws/coverage.py: within: degrees >= _NORMAL_FROM -> degrees > _NORMAL_FROM": _NORMAL,
    "workbench/screws/coverage.py: coverage_factor: 10000.0 -> 11000.0": _SEARCH,
    "workbench/screws/coverage.py: coverage_factor: 60 -> 61": _SEARCH,
    "workbench/screws/coverage.py: coverage_factor: within(middle, degrees) < level -> "
    "within(middle, degrees) <= level": _SEARCH,
    **{f"workbench/threads/measured.py: {change}": _DUST for change in (
        "against: 1e-09 -> 1.1000000000000001e-09", "against: self.low >= low - slack -> self.low > low - slack",
        "against: self.high <= high + slack -> self.high < high + slack",
        "against: self.high < low - slack -> self.high <= low - slack",
        "against: self.low > high + slack -> self.low >= high + slack",
        "meets: self.low <= high + 1e-09 -> self.low < high + 1e-09",
        "meets: self.high >= low - 1e-09 -> self.high > low - 1e-09",
        "meets: 1e-09 -> 1.1000000000000001e-09", "meets: 1e-09 -> 1.1000000000000001e-09 (2)")},
    "workbench/threads/measured.py: against: self.value > high -> self.value >= high": _NOUGHT,
    "workbench/threads/measured.py: against: self.value < low -> self.value <= low": _NOUGHT,
    "workbench/threads/outline.py: radius_at: piece.x0_mm <= x <= piece.x1_mm -> piece.x0_mm < x <= piece.x1_mm":
        "the piece before ends where this one begins",
    "workbench/threads/outline.py: points: math.dist(place, places[-1]) > 1e-12 -> "
    "math.dist(place, places[-1]) >= 1e-12": _DUST,
    "workbench/threads/lookalikes.py: next_measurement: len(threads) > 2 -> len(threads) >= 2":
        "of two threads, what splits one off also shrinks the largest group",
    "workbench/threads/matching.py: thread_length_mm: row['over_mm'] < length_mm <= row['up_to_mm'] -> "
    "row['over_mm'] <= length_mm <= row['up_to_mm']": "the row before takes the length where two ranges meet",
    "workbench/threads/limits_called_out.py: limits_called_out: 6 -> 7": _DIGITS,
    "workbench/threads/limits_called_out.py: limits_called_out: 6 -> 7 (2)": _DIGITS,
}


def mutants(path):
    """Every mutant of a file but the equivalent ones, in a fixed order."""
    of = of_code if path.endswith(".py") else of_table
    return [one for one in of(path, (ROOT / path).read_text(encoding="utf-8")) if one.name not in EQUIVALENT]


def chosen():
    """The mutants to try: one each of some files, or as WORKBENCH_MUTANTS says."""
    asked = os.environ.get("WORKBENCH_MUTANTS")
    if asked not in ("all", "threads"):
        every = {path: found for path in FILES if (found := mutants(path))}
        return [random.Random(path).choice(every[path]) for path in random.Random(1).sample(sorted(every), SAMPLE)]
    every = []
    for path, (area, _) in FILES.items():
        found = mutants(path)
        if area == "threads":
            every += random.Random(path).sample(found, min(PER_FILE, len(found)))
        elif asked == "all":
            every += found
    return every


class Trial:
    """A process with its own copy of the package and tests, trying one mutant after another."""

    def __init__(self, folder):
        for name in (*FILES, *EVERY):
            (folder / name).parent.mkdir(parents=True, exist_ok=True)
            shutil.copy(ROOT / name, folder / name)
        for data in ("tests/published", "workbench/tables"):
            for table in (ROOT / data).glob("*.csv"):
                shutil.copy(table, folder / data)
        for package in {parent for name in (*FILES, *EVERY) for parent in Path(name).parents[:-1]}:
            (folder / package / "__init__.py").touch()
        (folder / "pytest.ini").write_text("[pytest]\n")
        command = [sys.executable, str(Path(__file__).with_name("trial.py")), str(folder)]
        # the notebook and browser plugins take seconds to import
        environment = {**os.environ, "PYTHONPATH": str(folder), "PYTEST_DISABLE_PLUGIN_AUTOLOAD": "1"}
        self.process = subprocess.Popen(command, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True,
                                        env=environment)

    def alive(self, path, text):
        """Whether the tests pass with this text in place of the file (None: unchanged)."""
        area, first = FILES[path]
        self.process.stdin.write(json.dumps({"path": path, "text": text, "first": first, "area": area}) + "\n")
        self.process.stdin.flush()
        answer = self.process.stdout.readline().strip()
        assert answer in ("alive", "caught"), "the trial process ended"
        return answer == "alive"

    def close(self):
        self.process.stdin.close()
        self.process.wait()
        self.process.stdout.close()


@pytest.fixture(scope="module")
def trials(tmp_path_factory):
    """The trial processes that are free."""
    every = [Trial(tmp_path_factory.mktemp("copy")) for _ in range(WORKERS)]
    free = SimpleQueue()
    for trial in every:
        free.put(trial)
    yield free
    for trial in every:
        trial.close()


@pytest.mark.parametrize("path", ["workbench/screws/measuring.py", "workbench/threads/profile.py"])
def test_the_unchanged_copy_passes(trials, path):
    """Without a change the copied tests pass, so a failure is the mutant's."""
    trial = trials.get()
    try:
        assert trial.alive(path, None)
    finally:
        trials.put(trial)


def test_every_mutant_is_caught(trials):
    """No change of a number, an operator, a bound or a table cell goes unseen."""

    def survives(mutant):
        trial = trials.get()
        try:
            return trial.alive(mutant.path, mutant.text)
        finally:
            trials.put(trial)

    todo = chosen()
    assert len(todo) >= SAMPLE
    with ThreadPoolExecutor(WORKERS) as workers:
        survivors = [one.name for one, alive in zip(todo, workers.map(survives, todo), strict=True) if alive]
    assert not survivors, "\n".join(["", *survivors])


def test_equivalent_mutants_still_exist():
    """A mutant excused as equivalent is one that the code still has."""
    for name in EQUIVALENT:
        path = name.partition(":")[0]
        assert name in {one.name for one in of_code(path, (ROOT / path).read_text(encoding="utf-8"))}
