"""Every notebook that an apprentice opens: clean as committed, and free of hidden errors when run."""

import re
import shutil
import subprocess
import sys
from pathlib import Path

import nbformat
import pytest
from nbformat import v4

from tests.notebook_scan import executed, faults
from workbench import exercises
from workbench.course_copy import course_source

COURSE = course_source()
NOTEBOOKS = sorted(path for path in COURSE.rglob("*.ipynb") if ".ipynb_checkpoints" not in path.parts)
every_notebook = pytest.mark.parametrize(
    "path", NOTEBOOKS, ids=lambda path: path.relative_to(COURSE).as_posix()
)


def cells_of(path: Path) -> list:
    return nbformat.read(path, as_version=4).cells


def test_the_course_has_a_start_page_and_every_lesson():
    """Each lesson that has exercises is there to be opened."""
    names = {path.stem for path in NOTEBOOKS}
    assert "start" in names
    assert set(exercises.lessons()) <= names


@every_notebook
def test_a_notebook_is_valid_and_runs_in_any_python_kernel(path):
    """Format 4.5, kernel python3."""
    notebook = nbformat.read(path, as_version=4)
    nbformat.validate(notebook)
    assert (notebook.nbformat, notebook.nbformat_minor) == (4, 5)
    assert notebook.metadata.kernelspec.name == "python3"


@every_notebook
def test_a_notebook_carries_no_results(path):
    """No output, no execution count, no stored widget: what is committed is what was written."""
    notebook = nbformat.read(path, as_version=4)
    assert "widgets" not in notebook.metadata
    for cell in notebook.cells:
        if cell.cell_type == "code":
            assert (cell.outputs, cell.execution_count) == ([], None)


@every_notebook
def test_cell_names_are_words_and_differ(path):
    """An id is made from the lesson's text, not drawn at random, so that it stays when a lesson is rebuilt."""
    names = [cell.id for cell in cells_of(path)]
    assert len(set(names)) == len(names)
    assert not [name for name in names if not re.fullmatch(r"[a-z][a-z0-9_-]*", name)]
    assert not [name for name in names if re.fullmatch(r"[0-9a-f]{8}(-[0-9a-f]{4}){0,4}.*", name)]


@every_notebook
def test_a_notebook_holds_no_answer(path):
    """Answer cells are empty behind their sign; no line that computes a solution is left."""
    for cell in cells_of(path):
        assert not re.search(r"SOLUTION|\.solution\(|\.right\(", cell.source)
        marked = cell.metadata.get("nbgrader", {})
        if marked.get("solution"):
            assert re.fullmatch(rf"# Answer \w+\.{cell.id}\n{cell.id} = ?", cell.source)
            assert marked["grade_id"] == cell.id


@every_notebook
def test_a_question_stands_above_and_a_check_below_every_answer_cell(path):
    """Each item is three cells in a row, and only the middle one can be edited."""
    cells = cells_of(path)
    for above, cell, below in zip(cells, cells[1:], cells[2:], strict=False):
        if not cell.metadata.get("nbgrader", {}).get("solution"):
            continue
        key = re.search(r"# Answer (\S+)", cell.source)[1]
        assert f'workbench.ask("{key}")' in above.source
        assert f'workbench.check("{key}")' in below.source
        assert above.metadata.nbgrader.locked and below.metadata.nbgrader.locked
        assert below.metadata.nbgrader.points == exercises.find(key).marks


@pytest.fixture
def copy(tmp_path):
    """The course as an apprentice has it: runs leave nothing in the committed one."""
    return Path(shutil.copytree(COURSE, tmp_path / "course"))


@pytest.mark.slow
@every_notebook
@pytest.mark.parametrize("number", ["7", None], ids=["candidate 7", "number not set"])
def test_a_notebook_runs_from_top_to_bottom_without_a_hidden_error(path, number, copy):
    """Nothing fails in the outputs or inside a widget, whether or not the candidate's number is set."""
    if number:
        (copy / "candidate.txt").write_text(number)
    where = copy / path.relative_to(COURSE)
    done = executed(nbformat.read(where, as_version=4), where.parent)
    assert faults(done) == []


@pytest.mark.slow
def test_nbval_passes_over_the_course(copy):
    """An outside tool runs every notebook, found by discovery, and sees no error either."""
    done = subprocess.run(
        [sys.executable, "-m", "pytest", "--nbval-lax", "-q", "-p", "no:cacheprovider", "."],
        cwd=copy, capture_output=True, text=True,
    )  # fmt: skip
    assert done.returncode == 0, done.stdout[-3000:]
    assert " passed" in done.stdout


SWALLOWED = {
    "a plain error": "1 / 0",
    "a word on stderr": "import sys; print('careful', file=sys.stderr)",
    "inside interact": "import ipywidgets\nipywidgets.interact(lambda turns: 1 / 0, turns=(0, 3));",
    "inside an output area": "import ipywidgets\narea = ipywidgets.Output()\ndisplay(area)\nwith area:\n    1 / 0",
    "kept by a panel": """import anywidget, traitlets
class Panel(anywidget.AnyWidget):
    _esm = "export default {}"
    fault = traitlets.Unicode("no such graduation").tag(sync=True)
Panel()""",
}


@pytest.mark.slow
@pytest.mark.parametrize("source", SWALLOWED.values(), ids=SWALLOWED.keys())
def test_the_scan_sees_a_planted_error(source, tmp_path):
    """The scan is able to fail, also where a run from top to bottom reports success."""
    assert faults(executed(v4.new_notebook(cells=[v4.new_code_cell(source)]), tmp_path))


@pytest.mark.slow
def test_the_scan_is_content_with_a_sound_notebook(tmp_path):
    """Widgets, figures and text without an error give no fault."""
    sound = "import ipywidgets\nipywidgets.interact(lambda turns: turns / 2, turns=(0, 3));\nprint('fine')"
    assert faults(executed(v4.new_notebook(cells=[v4.new_code_cell(sound)]), tmp_path)) == []
