import time
from contextlib import ExitStack

import pytest
from nbformat.v4 import new_code_cell, new_notebook

from instructor.marking.limits import Limits
from instructor.marking.pool import Pool
from instructor.marking.running import cells_of, environment
from workbench.exercises import of_lesson
from workbench.exercises.exercise import Quantity

QUANTITY = next(one for one in of_lesson("measuring_screw") if isinstance(one.answer, Quantity) and not one.follows)
KEY, NAME = QUANTITY.key, QUANTITY.name


@pytest.fixture(scope="module")
def pools():
    """Warm pools by their limits, made once."""
    with ExitStack() as stack:
        yield lambda limits, made={}: made.get(limits) or made.setdefault(
            limits, stack.enter_context(Pool(workers=1, limits=limits)))


@pytest.fixture
def run(pools):
    """Run one notebook by itself."""

    def run_one(work, candidate, series, **seconds):
        [(_, ran)] = pools(Limits(**seconds)).run([("one", cells_of(work), environment(candidate, series))])
        return ran

    return run_one


def notebook(*sources):
    return new_notebook(cells=[new_code_cell(source, id=f"c{i}") for i, source in enumerate(sources)])


def answer(text, key=KEY):
    return f"# Answer {key}\n{key.split('.')[1]} = {text}"


def test_what_was_typed_comes_back_as_text_by_key(run):
    """An answer line needs no quotes and comes back as it was typed."""
    unit = QUANTITY.answer.unit
    ran = run(notebook(answer(f"3.25 {unit}")), 7, 1)
    assert ran.answers == {KEY: f"3.25 {unit}"}
    assert (ran.refusals, ran.troubles, ran.stopped) == ({}, {}, "")


def test_an_entry_that_cannot_be_read_comes_back_with_its_reason(run):
    """A typing fault is no answer, and its reason is kept."""
    ran = run(notebook(answer("3.2.5 mmm")), 7, 1)
    assert ran.answers == {} and "3.2.5" in ran.refusals[KEY]


def test_an_own_calculation_is_worked_out(run):
    """An answer may build on the apprentice's own earlier cell."""
    ran = run(notebook("mine = 1.5 * 2", answer("mine")), 7, 1)
    assert ran.answers == {KEY: "3.0"}


def test_a_cell_that_raises_costs_only_itself(run):
    """The cells before and after it are read."""
    broken = ("1 / 0", "import nothing_of_that_name", "def broken(:")
    ran = run(notebook(*broken, answer("3.25"), "raise SystemExit"), 7, 1)
    assert ran.answers == {KEY: "3.25"}
    assert set(ran.troubles) >= {"c0", "c1", "c2"} and ran.troubles["c0"] == "ZeroDivisionError: division by zero"


def test_locked_cells_are_not_run(run):
    """A check cell, whatever stands in it, is never executed by the marking."""
    work = notebook(answer("3.25"), "1 / 0")
    work.cells[1].metadata["nbgrader"] = {"locked": True, "grade": True}
    assert run(work, 7, 1).troubles == {}


def test_an_endless_cell_costs_only_itself(run):
    """A loop is ended, the answers around it are kept."""
    began = time.monotonic()
    ran = run(notebook("while True: pass", answer("3.25")), 7, 1, cell_seconds=1)
    assert ran.answers == {KEY: "3.25"} and "TimeoutError" in ran.troubles["c0"]
    assert time.monotonic() - began < 15


def test_a_notebook_that_does_not_let_itself_be_ended_is_killed(run):
    """What was read before it is kept, and the reason names the cell."""
    stubborn = "import signal, time\nsignal.signal(signal.SIGALRM, signal.SIG_IGN)\nwhile True: time.sleep(1)"
    ran = run(notebook(answer("3.25"), stubborn), 7, 1, cell_seconds=1, notebook_seconds=5)
    assert ran.answers == {KEY: "3.25"} and "more than 5 s, at cell c1" in ran.stopped


def test_a_process_that_ends_itself_keeps_what_was_read(run):
    """os._exit in a cell loses nothing that came before."""
    ran = run(notebook(answer("3.25"), "import os; os._exit(3)"), 7, 1)
    assert ran.answers == {KEY: "3.25"} and "exit code 3" in ran.stopped


@pytest.mark.parametrize("cell", ["print('x' * 10**8)", "big = 'x' * 10**10", "input()", "import sys; sys.exit()"])
def test_floods_and_questions_stop_nothing(cell, run):
    """Output floods, memory floods and questions to nobody end that cell only."""
    assert run(notebook(cell, answer("3.25")), 7, 1).answers == {KEY: "3.25"}


def test_the_process_sees_nothing_of_the_cohort(run):
    """Its environment holds the candidate's number and no way to the instructor's folders."""
    look = "import os\nseen = os.getcwd() + ' '.join(os.environ.values())"
    seen = run(notebook(look, "raise ValueError(seen)"), 7, 1).troubles["c1"]
    assert "C.UTF-8" in seen and "instructor" not in seen and "cohort" not in seen


def test_a_patched_package_reaches_no_verdict(run):
    """What a notebook does to the marking in its own process stays in its own process."""
    patch = "import workbench.marking as m\nm.judge = lambda *a, **k: 1/0\nm.RIGHT = 'x'"
    ran = run(notebook(patch, answer("3.25")), 7, 1)
    assert ran.answers.get(KEY, "3.25") == "3.25"
