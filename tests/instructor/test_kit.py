import io
import zipfile

import nbformat
import pytest

from instructor.kit import faults, make_kit
from instructor.refusal import Refusal
from instructor.release import COURSE, release


@pytest.fixture(scope="module")
def kit(_released, tmp_path_factory):
    """A kit of a cohort with a practice release and an assessment."""
    from tests.instructor.conftest import copied

    cohort = copied(_released, tmp_path_factory.mktemp("kit"))
    release(cohort, "measuring_screw", "watched", mode="assessment", series=2)
    release(cohort, "measuring_screw", "later", mode="assessment", series=3)
    return make_kit(cohort, ["watched"])


@pytest.fixture
def names(kit):
    with zipfile.ZipFile(kit) as archive:
        return [name.split("/", 1)[1] for name in archive.namelist()]


def test_the_kit_holds_course_wheel_and_start_instructions(names):
    """One zip is all that an apprentice needs."""
    assert "START.txt" in names
    assert [name for name in names if name.endswith(".whl")]
    assert "course/start.ipynb" in names and "course/measuring_screw/measuring_screw.ipynb" in names


def test_what_was_released_to_the_cohort_is_handed_out_with_it(names):
    """An assessment lies beside the practice lessons, with its slip."""
    assert "course/watched/measuring_screw.ipynb" in names and "course/watched/release.json" in names


def test_an_assessment_that_was_not_named_stays_out(names):
    """Nobody sees an assessment before its day."""
    assert not [name for name in names if "later" in name]


def test_nothing_of_the_instructors_is_in_the_kit(kit, names):
    """No lesson source, solution, output, roll, gradebook or instructor's module, in zip or wheel."""
    assert list(faults(kit.read_bytes())) == []
    assert not [name for name in names if "roll" in name or "gradebook" in name or name.endswith(".md")]


def test_the_instructions_name_the_wheel_the_systems_and_what_marks_mean(kit, names):
    """START.txt covers Windows, Linux and macOS, and says that unwatched work shows practice."""
    with zipfile.ZipFile(kit) as archive:
        start = next(archive.read(name).decode() for name in archive.namelist() if name.endswith("START.txt"))
    wheel = next(name for name in names if name.endswith(".whl"))
    assert start.count(wheel) == 2
    for words in ("Windows", "Linux", "macOS", "-m workbench --folder course --candidate",
                  "works out the right values itself", "nobody watched shows practice", "course/watched/"):
        assert words in start
    assert "\r\n" in start


@pytest.mark.parametrize(
    "cell, said",
    [
        (nbformat.v4.new_code_cell("### BEGIN SOLUTION"), "solution"),
        (nbformat.v4.new_code_cell('workbench.solution("x")'), "solution"),
        (nbformat.v4.new_code_cell("1", outputs=[nbformat.v4.new_output("stream", text="1")]), "output"),
    ],
)
def test_a_planted_solution_or_output_is_found_also_in_the_wheel(cell, said):
    """The check that guards the kit bites."""
    text = nbformat.writes(nbformat.v4.new_notebook(cells=[cell]))
    wheel, outer = io.BytesIO(), io.BytesIO()
    with zipfile.ZipFile(wheel, "w") as archive:
        archive.writestr("workbench/course/x.ipynb", text)
    with zipfile.ZipFile(outer, "w") as archive:
        archive.writestr("k/w.whl", wheel.getvalue())
        archive.writestr("k/instructor/roll.py", "")
    found = list(faults(outer.getvalue()))
    assert any(said in fault for fault in found) and any("the instructor's" in fault for fault in found)


def test_an_unknown_assessment_is_refused_with_the_nearest_name(cohort):
    """A typing fault makes no kit without it."""
    with pytest.raises(Refusal, match="nearest: measuring_screw"):
        make_kit(cohort, ["measuring_scerw"])


def test_a_kit_without_a_course_is_refused(cohort, tmp_path):
    """The refusal says how to make the course."""
    with pytest.raises(Refusal, match="release --course"):
        make_kit(cohort, course=tmp_path / "nothing")


def test_the_course_itself_passes_the_kits_check():
    """The committed practice course holds nothing that a kit may not hold."""
    held = io.BytesIO()
    with zipfile.ZipFile(held, "w") as archive:
        for path in COURSE.rglob("*.ipynb"):
            archive.write(path, path.relative_to(COURSE))
    assert list(faults(held.getvalue())) == []
