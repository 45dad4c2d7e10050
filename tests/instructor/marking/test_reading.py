import copy
import json

import nbformat
import pytest
from nbformat.v4 import new_code_cell

from instructor.marking.reading import LARGEST_BYTES, Layout, Unreadable, read_content, read_file
from instructor.release import released_notebook
from tests.instructor.notebooks import cell_of, content_of


@pytest.fixture(scope="module")
def release(_released):
    """A released notebook."""
    return released_notebook(_released, "measuring_screw")[1]


@pytest.fixture
def work(release):
    """A copy of it, the apprentice's."""
    return copy.deepcopy(release)


@pytest.fixture
def names(release):
    """The names of its answers."""
    return tuple(Layout(release).empty)


def typed(work, name, text):
    cell_of(work, name).source = f"# Answer measuring_screw.{name}\n{name} = {text}"


def answer(reading, name):
    return cell_of(reading.notebook, name).source.rpartition("= ")[2]


def test_untouched_work_is_read_without_findings(release, work):
    """An unchanged notebook gives the release again and nothing to report."""
    reading = read_content(content_of(work), Layout(release))
    assert reading.findings == ()
    assert [cell.source for cell in reading.notebook.cells] == [cell.source for cell in release.cells]


def test_only_answers_and_own_cells_are_taken(release, work, names):
    """An edited check cell counts as released, an answer and an extra cell as handed in."""
    typed(work, names[0], "b")
    cell_of(work, f"{names[0]}-check").source = "1000"
    work.cells.insert(3, new_code_cell("x = 2", id="mine"))
    reading = read_content(content_of(work), Layout(release))
    assert answer(reading, names[0]) == "b"
    assert cell_of(reading.notebook, f"{names[0]}-check").source.endswith(f'check("measuring_screw.{names[0]}")')
    assert "x = 2" in [cell.source for cell in reading.notebook.cells]
    assert reading.findings == (f"locked cell {names[0]}-check was edited; the released text counts",)


def test_outputs_are_never_taken(release, work, names):
    """Whatever a submitted notebook shows is gone before it is marked."""
    cell_of(work, f"{names[0]}-check").outputs = [nbformat.v4.new_output("stream", text="full marks")]
    assert all(not cell.get("outputs") for cell in read_content(content_of(work), Layout(release)).notebook.cells)


def test_a_missing_check_is_put_back_and_reported(release, work, names):
    """A deleted check cell costs nothing."""
    work.cells.remove(cell_of(work, f"{names[1]}-check"))
    typed(work, names[1], "a")
    reading = read_content(content_of(work), Layout(release))
    assert answer(reading, names[1]) == "a"
    assert cell_of(reading.notebook, f"{names[1]}-check")
    assert reading.findings == (f"missing, and put back from the release: {names[1]}-check",)


def test_of_a_doubled_answer_the_last_that_holds_something_counts(release, work, names):
    """A copy pasted below with an answer replaces the first; an empty copy does not."""
    typed(work, names[0], "a")
    second, third = copy.deepcopy(cell_of(work, names[0])), copy.deepcopy(cell_of(release, names[0]))
    second.source = second.source.replace("= a", "= b")
    second.id, third.id = "copy-1", "copy-2"
    work.cells += [second, third]
    reading = read_content(content_of(work), Layout(release))
    assert answer(reading, names[0]) == "b"
    assert reading.findings.count(f"cell {names[0]} stands in the notebook more than once") == 2
    assert len(reading.notebook.cells) == len(release.cells)


def test_a_renamed_answer_cell_is_known_by_its_first_line(release, work, names):
    """Lost or changed nbgrader names do not lose the answer."""
    typed(work, names[0], "a")
    cell_of(work, names[0]).metadata.nbgrader.grade_id = "other"
    typed(work, names[1], "b")
    cell = cell_of(work, names[1])
    cell.metadata, cell.id = nbformat.NotebookNode(), "xyz"
    reading = read_content(content_of(work), Layout(release))
    assert (answer(reading, names[0]), answer(reading, names[1])) == ("a", "b")
    assert reading.findings == (f"answer cell {names[0]} was renamed 'other'",)


def test_an_answer_without_its_first_line_is_known_by_its_name(release, work, names):
    """An apprentice who deletes the comment keeps the answer."""
    cell_of(work, names[0]).source = f"{names[0]} = c"
    assert answer(read_content(content_of(work), Layout(release)), names[0]) == "c"


def test_an_answer_cell_turned_into_text_is_read_all_the_same(release, work, names):
    """A cell that became Raw or Markdown by a slip of the hand still holds the answer."""
    typed(work, names[0], "d")
    cell = cell_of(work, names[0])
    cell.cell_type = "raw"
    del cell["outputs"], cell["execution_count"]
    reading = read_content(content_of(work), Layout(release))
    assert answer(reading, names[0]) == "d"
    assert cell_of(reading.notebook, names[0]).cell_type == "code"
    assert reading.findings == (f"answer cell {names[0]} had become raw text; it was read all the same",)


def test_a_foreign_cell_is_an_extra_cell_and_reported(release, work):
    """A graded cell of another lesson earns nothing here and stops nothing."""
    foreign = new_code_cell("1 + 1", id="foreign")
    foreign.metadata["nbgrader"] = {"grade": True, "grade_id": "elsewhere", "points": 50, "solution": False,
                                    "locked": True, "schema_version": 3, "task": False}
    work.cells.append(foreign)
    reading = read_content(content_of(work), Layout(release))
    assert "nbgrader" not in reading.notebook.cells[-1].metadata
    assert reading.findings == ("cell 'elsewhere' is foreign to this release; it was taken as an extra cell",)


def test_moved_cells_are_put_back_in_order(release, work):
    """The released order is restored."""
    work.cells.insert(0, work.cells.pop(10))
    reading = read_content(content_of(work), Layout(release))
    assert [cell.id for cell in reading.notebook.cells] == [cell.id for cell in release.cells]
    assert reading.findings == ("cells were moved; they were put back in the released order",)


def test_a_notebook_without_cell_ids_is_read(release, work, names):
    """Format 4.4 knows no cell ids; the names are enough."""
    typed(work, names[0], "a")
    for cell in work.cells:
        del cell["id"]
    work.nbformat_minor = 4
    reading = read_content(json.dumps(work).encode(), Layout(release))
    assert answer(reading, names[0]) == "a" and reading.findings == ()


def test_an_old_notebook_format_is_upgraded(release, work, names):
    """A notebook saved in format 3 is read, and the upgrade reported."""
    typed(work, names[0], "a")
    old = nbformat.convert(work, 3)
    reading = read_content(json.dumps(old).encode(), Layout(release))
    assert answer(reading, names[0]) == "a"
    assert "the notebook had the old format 3; it was upgraded" in reading.findings


def test_utf_16_is_read_and_reported(release, work, names):
    """A file saved again by a text editor with a byte order mark is no loss."""
    typed(work, names[0], "a")
    reading = read_content(json.dumps(work).encode("utf-16"), Layout(release))
    assert answer(reading, names[0]) == "a" and "UTF-16" in reading.findings[0]


@pytest.mark.parametrize(
    "content, said",
    [
        (b"", "empty"),
        (b" \n\0\0", "empty"),
        (b"Dear instructor", "not JSON"),
        (b"[1, 2]", "no notebook"),
        (b"{}", "no notebook"),
        (b'{"nbformat": 9, "cells": []}', "newer than"),
        ('{"nbformat": 4, "größe": 1}'.encode("latin-1"), "not UTF-8"),
        (b"[" * 200_000, "nested|not JSON"),
        (b'{"nbformat": 2, "worksheets": 7}', "cannot be read"),
        (b'{"nbformat": 4, "cells": 7}', "cannot be read"),
    ],
)
def test_what_is_no_notebook_is_refused_with_a_clear_reason(release, content, said):
    """Each reason is told in words, whatever the file holds."""
    with pytest.raises(Unreadable, match=said):
        read_content(content, Layout(release))


def test_cells_that_are_no_cells_are_left_out(release, work, names):
    """Odd entries among the cells are passed over, the rest is read."""
    typed(work, names[0], "a")
    raw = json.loads(content_of(work))
    raw["cells"] += [7, None, {"cell_type": "code"}, {"cell_type": "code", "source": 3, "metadata": 4},
                     {"source": "z" * 60_000, "metadata": {"nbgrader": []}}]
    reading = read_content(json.dumps(raw).encode(), Layout(release))
    assert answer(reading, names[0]) == "a"
    assert any("were left out" in finding for finding in reading.findings)


def test_a_huge_file_is_refused_by_its_size_alone(release, tmp_path):
    """A file far too large is not even opened."""
    path = tmp_path / "huge.ipynb"
    with path.open("wb") as handle:
        handle.truncate(LARGEST_BYTES + 1)
    with pytest.raises(Unreadable, match="MB large"):
        read_file(path, Layout(release))
    with pytest.raises(Unreadable, match="no such file"):
        read_file(tmp_path / "none.ipynb", Layout(release))
