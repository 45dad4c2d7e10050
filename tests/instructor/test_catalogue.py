import json

from instructor.catalogue import as_json, as_table, entries
from workbench.exercises import lessons, of_lesson


def test_the_catalogue_lists_every_exercise_once():
    """Key, lesson, outcome, marks, kind and missteps of all lessons."""
    rows = entries()
    assert [row["key"] for row in rows] == [e.key for lesson in lessons() for e in of_lesson(lesson)]
    for row in rows:
        assert row["outcome"] and row["marks"] > 0 and row["answer"] and len(row["missteps"]) >= 1


def test_json_gives_the_rows_again():
    """The JSON form holds the same rows."""
    assert json.loads(as_json(entries())) == json.loads(json.dumps(entries()))


def test_the_table_ends_with_its_sums():
    """The table's last line counts exercises, marks and missteps."""
    rows = entries("measuring_screw")
    slips = sum(len(row["missteps"]) for row in rows)
    marks = sum(row["marks"] for row in rows)
    assert as_table(rows).splitlines()[-1] == f"{len(rows)} exercises, {marks} marks, {slips} missteps"
    assert as_table([]) == "there is no exercise yet"
