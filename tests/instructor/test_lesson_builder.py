import nbformat
import pytest

from instructor.lesson_builder import LessonText, authored_lessons, build, read_lesson
from instructor.refusal import Refusal
from workbench.exercises import of_lesson


def text(body, name="measuring_screw"):
    return LessonText(name, "A title", 20, body)


def first_item(lesson):
    return of_lesson(lesson)[0]


def test_a_line_of_three_plus_signs_starts_a_new_cell():
    """Text is split at +++ and nowhere else."""
    cells = build(text("one\n\nstill one\n+++\ntwo")).cells
    assert [cell.source for cell in cells] == ["# A title\n\none\n\nstill one", "two"]


def test_marks_inside_an_ordinary_fenced_block_are_text():
    """What stands between ordinary fences is shown, not obeyed."""
    cells = build(text("```\n+++\n```{python}\n```\nend")).cells
    assert len(cells) == 1
    assert "+++" in cells[0].source and "```{python}" in cells[0].source


def test_a_question_becomes_ask_answer_and_check(lesson):
    """The three cells carry the names and marks that the marking looks for."""
    item = first_item(lesson)
    built = build(text(f"Hello\n```{{question}} {item.name}\n```\n", lesson))
    ask, answer, check = built.cells[-3:]
    assert [cell.id for cell in (ask, answer, check)] == [f"{item.name}-ask", item.name, f"{item.name}-check"]
    assert answer.metadata.nbgrader.solution and not answer.metadata.nbgrader.locked
    assert check.metadata.nbgrader.grade and check.metadata.nbgrader.points == item.marks
    assert ask.metadata.nbgrader.locked and check.metadata.nbgrader.locked
    assert ask.metadata.jupyter.source_hidden and check.metadata.jupyter.source_hidden
    assert answer.source.startswith(f"# Answer {item.key}\n") and "### BEGIN SOLUTION" in answer.source


def test_a_lesson_with_questions_starts_with_its_head(lesson):
    """The first code cell says whose numbers these are; text alone needs none."""
    built = build(text(f"Hello\n```{{question}} {first_item(lesson).name}\n```\n", lesson))
    assert [cell.cell_type for cell in built.cells[:2]] == ["markdown", "code"]
    assert built.cells[1].source == f'# Run this cell first\nimport workbench\nworkbench.start("{lesson}")'
    assert all(cell.cell_type == "markdown" for cell in build(text("Only text")).cells)


def test_a_panel_is_locked_and_hidden_and_python_is_plain():
    """A panel's code is out of the reader's way; a python block is the reader's own to change."""
    panel, plain = build(text("```{panel} micrometer\n```\n```{python}\n1 + 1\n```")).cells
    assert panel.source == '# Panel: run this cell to see it\nimport workbench\nworkbench.panel("micrometer")'
    assert panel.metadata.nbgrader.locked and panel.metadata.jupyter.source_hidden
    assert plain.source == "1 + 1" and "nbgrader" not in plain.metadata


def test_the_same_text_gives_the_same_notebook(lesson):
    """Ids do not change from build to build."""
    body = f"Hello\n+++\nmore\n```{{question}} {first_item(lesson).name}\n```\n"
    assert nbformat.writes(build(text(body, lesson))) == nbformat.writes(build(text(body, lesson)))


@pytest.mark.parametrize(
    "body, said",
    [
        ("```{question} no_such_item\n```", "does not exist"),
        ("```{qestion} travel\n```", "no block .* 'qestion'; nearest: question"),
        ("```{panel} micrometer\nwords\n```", "holds no text"),
        ("```{python}\n1", "not closed"),
        ("```\nopen", "not closed"),
        ("```{panel} two words\n```", "not the name"),
    ],
)
def test_a_faulty_lesson_is_refused_saying_what_is_wrong(body, said):
    """An author learns which mark is wrong."""
    with pytest.raises(Refusal, match=said):
        build(text(body))


def test_a_question_asked_twice_is_refused(lesson):
    """Two cells with one name could not be told apart."""
    block = f"```{{question}} {first_item(lesson).name}\n```\n"
    with pytest.raises(Refusal, match="more than once"):
        build(text(block + block, lesson))


@pytest.mark.parametrize("front", ["", "---\ntitle: x\n---\n", "---\ntitle: x\nminutes: soon\n---\n"])
def test_missing_front_matter_is_refused(tmp_path, front):
    """Title and minutes are needed."""
    (tmp_path / "trial.md").write_text(front + "text")
    with pytest.raises(Refusal, match="front matter"):
        read_lesson("trial", tmp_path)


def test_an_unknown_lesson_is_refused_with_the_nearest_name(tmp_path):
    """A typing fault in the name is answered with the right one."""
    (tmp_path / "measuring_screw.md").write_text("")
    with pytest.raises(Refusal, match="no lesson 'measuring_scerw'; nearest: measuring_screw"):
        read_lesson("measuring_scerw", tmp_path)


def test_every_authored_lesson_builds_and_is_a_valid_notebook():
    """The lessons of this project can be built."""
    assert authored_lessons()
    for name in authored_lessons():
        nbformat.validate(build(read_lesson(name)))
