"""Runs the copied tests on one mutant after another, each in a forked child of a process that has imported all.

Started as `python trial.py FOLDER`; reads JSON lines {path, text, first, area} and answers each with "caught", "alive".
A new interpreter for each mutant spends most of its time on importing.
"""

import json
import os
import shutil
import sys
import time
from pathlib import Path

import numpy  # noqa: F401  imported here so that no child imports it again
import pytest
import scipy.integrate  # noqa: F401
import scipy.optimize  # noqa: F401
import uncertainties  # noqa: F401
from hypothesis import Phase, settings

SUITES = {  # area: the tests that are to catch its mutants
    "screws": ["tests/screws/test_measuring.py", "tests/screws/test_screw_error.py", "tests/screws/test_thermal.py",
               "tests/screws/test_feed.py", "tests/screws/test_uncertainty.py", "tests/tables/test_tables.py",
               "tests/published/test_measuring_screws.py", "tests/test_refusals.py"],
    "threads": ["tests/published/test_thread_limits.py", "tests/published/test_threads.py",
                "tests/threads/test_tolerance_tables.py", "tests/threads/test_limits.py",
                "tests/threads/test_limits_called_out.py", "tests/threads/test_gauging.py",
                "tests/threads/test_lookalikes.py", "tests/threads/test_matching.py",
                "tests/threads/test_measured_form.py", "tests/threads/test_profile.py",
                "tests/threads/test_strength.py", "tests/threads/test_tapping.py",
                "tests/threads/test_three_wires.py", "tests/threads/test_designation.py",
                "tests/tables/test_heads_and_lengths.py", "tests/tables/test_thread_tables.py"],
}
EVERY = [suite for suites in SUITES.values() for suite in suites]
OPTIONS = ["-x", "-q", "-p", "no:cacheprovider", "-p", "_hypothesis_pytestplugin", "--hypothesis-profile=trial",
           "-m", "not exhaustive and not slow",
           "--deselect", "tests/tables/test_tables.py::test_every_table_has_its_recorded_checksum"]
LIMIT_S = 300  # on a busy machine too

# the same examples each time, and none of the long search for a smaller one: a mutant is only to be caught
settings.register_profile("trial", max_examples=30, derandomize=True, database=None, deadline=None,
                          phases=[Phase.explicit, Phase.generate])


def passes(suites, *options):
    """Whether all tests of the suites pass, in a child; a child that hangs does not pass."""
    child = os.fork()
    if child == 0:
        quiet = os.open(os.devnull, os.O_WRONLY)
        os.dup2(quiet, 1)
        os.dup2(quiet, 2)
        code = 70
        try:
            code = int(pytest.main([*OPTIONS, *options, *suites]))
        finally:
            os._exit(code)
    for _ in range(LIMIT_S * 100):
        done, status = os.waitpid(child, os.WNOHANG)
        if done:
            return os.waitstatus_to_exitcode(status) == 0
        time.sleep(0.01)
    os.kill(child, 9)
    os.waitpid(child, 0)
    return False


def main(folder):
    os.chdir(folder)
    sys.path.insert(0, folder)
    # compile the tests once; never the package, whose stale bytecode would hide a mutant of equal length
    passes(EVERY, "--collect-only")
    sys.dont_write_bytecode = True
    for stale in Path(folder, "workbench").rglob("__pycache__"):
        shutil.rmtree(stale)
    for line in sys.stdin:
        task = json.loads(line)
        target = Path(folder) / task["path"]
        original = target.read_text(encoding="utf-8")
        target.write_text(task["text"] if task["text"] is not None else original, encoding="utf-8")
        rest = [suite for suite in SUITES[task["area"]] if suite != task["first"]]
        alive = all(passes([suite]) for suite in (task["first"], *rest))  # one by one: none takes as long as LIMIT_S
        target.write_text(original, encoding="utf-8")
        print("alive" if alive else "caught", flush=True)


if __name__ == "__main__":
    main(sys.argv[1])
