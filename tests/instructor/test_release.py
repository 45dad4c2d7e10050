import json
import shutil

import pytest

from instructor.cohort import enrol
from instructor.lesson_builder import LESSONS, authored_lessons
from instructor.refusal import Refusal
from instructor.release import COURSE, read_slip, rebuild_course, release, released_notebook
from workbench.exercises import of_lesson


def test_a_release_holds_no_solution_and_no_output(cohort, lesson):
    """What is handed out has an empty answer line where the solution was."""
    _, notebook = released_notebook(cohort, lesson)
    for cell in notebook.cells:
        assert "SOLUTION" not in cell.source and "workbench.solution" not in cell.source
        assert not cell.get("outputs")
    answers = [cell for cell in notebook.cells if cell.metadata.get("nbgrader", {}).get("solution")]
    assert [cell.source for cell in answers] == [f"# Answer {e.key}\n{e.name} = " for e in of_lesson(lesson)]


def test_the_slip_says_what_lies_beside_it(cohort, lesson):
    """The slip names lesson, mode and series, and holds the notebook's SHA-256."""
    from hashlib import sha256

    slip = json.loads((cohort.released(lesson) / "release.json").read_text())
    assert {key: slip[key] for key in ("lesson", "name", "mode", "series")} == {
        "lesson": lesson, "name": lesson, "mode": "practice", "series": 1}
    assert slip["sha256"] == sha256((cohort.released(lesson) / f"{lesson}.ipynb").read_bytes()).hexdigest()


def test_a_release_is_never_changed(cohort, lesson):
    """A second release under the same name is refused, says how to go on, and touches nothing."""
    before = {path: path.read_bytes() for path in cohort.released(lesson).iterdir()}
    with pytest.raises(Refusal, match=f"--as {lesson}-2"):
        release(cohort, lesson, lesson, mode="assessment", series=2)
    assert {path: path.read_bytes() for path in cohort.released(lesson).iterdir()} == before


def test_a_resit_is_another_release_beside_the_first(cohort, lesson):
    """Another name makes another release, with its own mode and series."""
    slip = release(cohort, lesson, "resit", mode="assessment", series=2)
    assert cohort.releases() == (lesson, "resit")
    assert (read_slip(cohort.released("resit")).mode, slip.series) == ("assessment", 2)


def test_a_release_that_was_tampered_with_is_refused(cohort, lesson):
    """Marking against a changed release would be unfair; it is noticed."""
    path = cohort.released(lesson) / f"{lesson}.ipynb"
    path.write_text(path.read_text().replace("Answer", "Anser", 1))
    with pytest.raises(Refusal, match="not the notebook that was released"):
        released_notebook(cohort, lesson)


def test_a_damaged_slip_is_refused(cohort, lesson):
    """A slip that is no JSON is told, without a traceback."""
    (cohort.released(lesson) / "release.json").write_text("{")
    with pytest.raises(Refusal, match="damaged"):
        released_notebook(cohort, lesson)


def test_a_release_that_fails_leaves_nothing_behind(tmp_path):
    """After a failed release the name is free again."""
    lessons = tmp_path / "lessons"
    lessons.mkdir()
    (lessons / "broken.md").write_text("---\ntitle: x\nminutes: 1\n---\n```{question} none\n```\n")
    cohort, _ = enrol("spring", (1,), tmp_path)
    with pytest.raises(Refusal, match="does not exist"):
        release(cohort, "broken", "broken", lessons=lessons)
    assert not cohort.released("broken").exists()


def test_the_committed_course_equals_the_authored_lessons(tmp_path):
    """course/ is what the lessons give today, byte for byte."""
    course = tmp_path / "course"
    made = rebuild_course(course)
    assert made == tuple(sorted(str(path.relative_to(COURSE)) for path in COURSE.rglob("*")
                                if path.is_file() and path.suffix in (".ipynb", ".json")
                                and ".ipynb_checkpoints" not in path.parts))
    for name in made:
        assert (course / name).read_bytes() == (COURSE / name).read_bytes(), f"{name}: run release --course"


def test_a_course_is_kept_when_one_lesson_fails(tmp_path):
    """The course is replaced only when every lesson was made."""
    lessons, course = tmp_path / "lessons", tmp_path / "course"
    shutil.copytree(LESSONS, lessons)
    course.mkdir()
    (course / "old.ipynb").write_text("kept")
    (lessons / f"{authored_lessons()[0]}.md").write_text("no front matter")
    with pytest.raises(Refusal):
        rebuild_course(course, lessons)
    assert [path.name for path in tmp_path.iterdir() if path.name.startswith(".course")] == []
    assert (course / "old.ipynb").read_text() == "kept"
