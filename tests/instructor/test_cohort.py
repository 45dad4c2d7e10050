import os
import re

import pytest

from instructor.cohort import checked_name, enrol, open_cohort
from instructor.refusal import Refusal


def test_enrolling_again_adds_and_never_takes_off(tmp_path):
    """A second enrolment keeps the first one's candidates."""
    enrol("spring", (1, 2), tmp_path)
    cohort, new = enrol("spring", (2, 5), tmp_path)
    assert new == (5,)
    assert cohort.roll == (1, 2, 5)


def test_enrolling_keeps_the_other_columns_of_the_roll(tmp_path):
    """The instructor's own columns stay as they were."""
    cohort, _ = enrol("spring", (1,), tmp_path)
    (cohort.root / "roll.csv").write_text("bay,candidate,note\nA,1,left handed\n")
    enrol("spring", (2,), tmp_path)
    assert (cohort.root / "roll.csv").read_text() == "bay,candidate,note\nA,1,left handed\n,2,\n"


def test_an_unknown_cohort_is_refused_with_the_nearest_name(tmp_path):
    """A typing fault in the name is answered with the right one."""
    enrol("spring-bay", (1,), tmp_path)
    with pytest.raises(Refusal, match="no cohort 'sprnig-bay'; nearest: spring-bay"):
        open_cohort("sprnig-bay", tmp_path)


@pytest.mark.parametrize("name", ["", "..", "a/b", "A", "-x", "x" * 61, "a b"])
def test_a_name_that_cannot_be_a_folder_is_refused(name):
    """Names that would leave the folder, or differ between systems, are refused."""
    with pytest.raises(Refusal, match="cannot name a cohort"):
        checked_name("cohort", name)


def test_the_settings_name_our_folders_and_this_cohort_as_root(tmp_path):
    """nbgrader finds the cohort's folders whatever the working directory is."""
    cohort, _ = enrol("spring", (1,), tmp_path)
    settings = cohort.settings()
    assert settings.CourseDirectory.autograded_directory == "marked"
    assert settings.CourseDirectory.root == str(cohort.root.resolve())
    assert cohort.db_url == f"sqlite:///{cohort.root.resolve()}/gradebook.db"


def test_a_cohort_that_was_moved_finds_its_settings_again(tmp_path):
    """Settings of the instructor's own, at the file's end, stay."""
    cohort, _ = enrol("spring", (1,), tmp_path / "here")
    with (cohort.root / "nbgrader_config.py").open("a") as config:
        config.write('c.CourseDirectory.feedback_directory = "mine"\n')
    text = (cohort.root / "nbgrader_config.py").read_text()
    broken = re.sub(r"^settings = .*$", "settings = here / '../elsewhere'", text, flags=re.MULTILINE)
    (cohort.root / "nbgrader_config.py").write_text(broken)
    (tmp_path / "there").mkdir()
    cohort.root.rename(tmp_path / "there" / "spring")
    settings = open_cohort("spring", tmp_path / "there").settings()
    assert settings.CourseDirectory.feedback_directory == "mine"
    assert settings.CourseDirectory.autograded_directory == "marked"


def test_the_hook_tells_candidate_and_series_of_the_notebook_at_hand(cohort, lesson, monkeypatch):
    """nbgrader passes a pattern for a whole cohort; the folder tells whose notebook it is."""
    monkeypatch.setenv("WORKBENCH_CANDIDATE", "99")
    monkeypatch.setenv("WORKBENCH_SERIES", "9")
    hook = cohort.settings().Autograde.pre_convert_hook
    hook(assignment=lesson, student="*", notebooks=[str(cohort.submitted(7, lesson) / f"{lesson}.ipynb")])
    assert (os.environ["WORKBENCH_CANDIDATE"], os.environ["WORKBENCH_SERIES"]) == ("7", "1")


def test_a_hook_that_fails_leaves_nobodys_numbers_behind(cohort, lesson, monkeypatch):
    """After a failure the next notebook is not judged by the last candidate's numbers."""
    monkeypatch.setenv("WORKBENCH_CANDIDATE", "99")
    hook = cohort.settings().Autograde.pre_convert_hook
    with pytest.raises(ValueError, match="candidate's folder"):
        hook(assignment=lesson, student="*", notebooks=[str(cohort.root / "submitted" / "ada" / lesson / "x.ipynb")])
    assert os.environ["WORKBENCH_CANDIDATE"] == "0"
