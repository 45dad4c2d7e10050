import json
import os
import zipfile

import pytest

from instructor.collection import collect
from tests.instructor.notebooks import content_of, filled

LESSON = "measuring_screw"


@pytest.fixture
def work(cohort):
    """Gives a notebook that tells its copies apart by what is typed."""

    def make(text="a"):
        first = next(c.id for c in filled(cohort, LESSON, {}).cells if c.metadata.get("nbgrader", {}).get("solution"))
        return content_of(filled(cohort, LESSON, {first: text}))

    return make


def put(path, content):
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_bytes(content if isinstance(content, bytes) else content.encode())
    return path


def kept(cohort, candidate):
    path = cohort.submitted(candidate, LESSON) / f"{LESSON}.ipynb"
    return path.read_bytes() if path.exists() else None


@pytest.mark.parametrize(
    "layout",
    [
        "007/measuring_screw.ipynb",
        "7/measuring_screw/measuring_screw.ipynb",
        "2026/007/course/measuring_screw/measuring_screw.ipynb",
        "candidate 7/measuring_screw.ipynb",
        "measuring_screw_007.ipynb",
        "measuring_screw-7 (1).ipynb",
        "007.ipynb",
        "submitted/007/attempt2/measuring_screw-Copy1.ipynb",
        "zips/007.zip",
        "zips/measuring_screw candidate_7.zip",
    ],
)
def test_sane_layouts_are_understood(cohort, work, tmp_path, layout):
    """Folder a candidate, zip a candidate, files named by number: each reaches candidate 7."""
    place = tmp_path / "given"
    if layout.endswith(".zip"):
        put(place / layout, b"")
        with zipfile.ZipFile(place / layout, "w") as archive:
            archive.writestr("course/measuring_screw/measuring_screw.ipynb", work())
    else:
        put(place / layout, work())
    done = collect(cohort, LESSON, [place])
    assert done.new == [7] and kept(cohort, 7) == work()


def test_a_whole_copy_of_the_course_is_known_by_its_candidate_txt(cohort, work, tmp_path):
    """An apprentice who hands in the copy as it is needs no renaming; other lessons are passed over."""
    place = tmp_path / "my course"
    put(place / "candidate.txt", "5\n")
    put(place / "measuring_screw" / "measuring_screw.ipynb", work())
    put(place / "measuring_screw" / "attempts.jsonl", '{"key": "x"}\n')
    put(place / "start.ipynb", json.dumps({"cells": [], "nbformat": 4}))
    put(place / "explore" / "board.ipynb", "{}")
    done = collect(cohort, LESSON, [place])
    assert (done.new, done.notes) == ([5], [])
    assert (cohort.submitted(5, LESSON) / "attempts.jsonl").read_text() == '{"key": "x"}\n'


def test_a_folder_named_otherwise_than_its_candidate_txt_is_told(cohort, work, tmp_path):
    """The instructor's folder name counts, and the difference is reported."""
    put(tmp_path / "g" / "003" / "candidate.txt", "5")
    put(tmp_path / "g" / "003" / "measuring_screw.ipynb", work())
    done = collect(cohort, LESSON, [tmp_path / "g"])
    assert done.new == [3] and "candidate.txt says 5" in done.notes[0]


@pytest.mark.parametrize("layout", ["099/measuring_screw.ipynb", "measuring_screw_99.ipynb", "measuring_screw.ipynb"])
def test_work_of_nobody_on_the_roll_is_reported_and_left(cohort, work, tmp_path, layout):
    """An unknown number, or none, is told with its path; nothing is stored."""
    put(tmp_path / "given" / layout, work())
    done = collect(cohort, LESSON, [tmp_path / "given"])
    assert done.new == [] and len(done.notes) == 1
    assert "unknown candidate 99" in done.notes[0] or "no candidate's number" in done.notes[0]
    assert not (cohort.root / "submitted").exists()


def test_a_renamed_notebook_is_known_by_its_answer_cells(cohort, work, tmp_path):
    """What stands in it tells which lesson it is, and the renaming is reported."""
    put(tmp_path / "g" / "004" / "my homework.ipynb", work())
    done = collect(cohort, LESSON, [tmp_path / "g"])
    assert done.new == [4] and "renamed" in done.notes[0]


def test_a_notebook_of_another_release_is_left(cohort, work, tmp_path):
    """The slip beside a notebook tells practice from assessment."""
    put(tmp_path / "g" / "004" / "measuring_screw.ipynb", work())
    put(tmp_path / "g" / "004" / "release.json", json.dumps({"name": "resit"}))
    assert collect(cohort, LESSON, [tmp_path / "g"]).new == []


def test_missing_work_is_listed(cohort, work, tmp_path):
    """Everybody on the roll without work is named."""
    put(tmp_path / "g" / "004" / "measuring_screw.ipynb", work())
    assert collect(cohort, LESSON, [tmp_path / "g"]).missing == [1, 2, 3, 5, 6, 7, 8, 9, 10, 11, 12]


def test_collecting_twice_changes_nothing(cohort, work, tmp_path):
    """The same work again is no new work; its time of collection stays."""
    put(tmp_path / "g" / "004" / "measuring_screw.ipynb", work())
    collect(cohort, LESSON, [tmp_path / "g"])
    stamp = (cohort.submitted(4, LESSON) / "timestamp.txt").read_bytes()
    done = collect(cohort, LESSON, [tmp_path / "g"])
    assert (done.new, done.changed, done.same) == ([], [], [4])
    assert (cohort.submitted(4, LESSON) / "timestamp.txt").read_bytes() == stamp
    assert not (cohort.root / "earlier").exists()


def test_replaced_work_is_kept(cohort, work, tmp_path):
    """Later work counts, the earlier stays in earlier/, also after a third time."""
    for text in ("a", "b", "a", "c"):
        put(tmp_path / "g" / "004" / "measuring_screw.ipynb", work(text))
        done = collect(cohort, LESSON, [tmp_path / "g"])
    assert done.changed == [4] and "earlier/004" in done.notes[0]
    assert kept(cohort, 4) == work("c")
    earlier = {path.read_bytes() for path in (cohort.root / "earlier" / "004" / LESSON).iterdir()}
    assert earlier == {work("a"), work("b")}


def test_of_two_different_files_the_newest_counts_and_both_are_kept(cohort, work, tmp_path):
    """Duplicates are reported, none is lost; equal files are no duplicates."""
    old = put(tmp_path / "g" / "004" / "measuring_screw.ipynb", work("a"))
    put(tmp_path / "g" / "004" / "again" / "measuring_screw.ipynb", work("a"))
    new = put(tmp_path / "g" / "candidate_4.ipynb", work("b"))
    os.utime(old, (1, 1))
    os.utime(old.parent / "again" / "measuring_screw.ipynb", (2, 2))
    os.utime(new, (3, 3))
    done = collect(cohort, LESSON, [tmp_path / "g"])
    assert kept(cohort, 4) == work("b")
    assert any("2 different files" in note for note in done.notes)
    assert [path.read_bytes() for path in (cohort.root / "earlier" / "004" / LESSON).iterdir()] == [work("a")]


def test_a_damaged_file_of_the_right_name_is_collected(cohort, tmp_path):
    """What cannot be read is still evidence; marking tells the reason."""
    put(tmp_path / "g" / "004" / "measuring_screw.ipynb", b"")
    assert collect(cohort, LESSON, [tmp_path / "g"]).new == [4]
    assert kept(cohort, 4) == b""


def test_the_demos_layouts_are_all_collected(finished, lesson):
    """Folders, zips and named files of the demo reach their candidates."""
    assert [one for one in finished.roll if kept(finished, one)] == list(range(1, 13))
