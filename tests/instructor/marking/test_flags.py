import pytest
from nbformat.v4 import new_code_cell

from instructor.marking.batch import mark, records
from instructor.marking.flags import flagged
from instructor.release import released_notebook
from instructor.report import write_report
from tests.instructor.notebooks import filled, hand_in, right_answers

KEY, CALCULATION, ENTRIES = "own key", "own calculation", "list of entries"


@pytest.fixture
def release(cohort, lesson):
    return released_notebook(cohort, lesson)[1]


@pytest.mark.parametrize(
    "text, said",
    [
        ("workbench.solution('measuring_screw.travel')", KEY),
        ("__import__('workbench').exercises.find('measuring_screw.travel').right({})", KEY),
        ("solution ('measuring_screw.travel')", KEY),
        ("3.25 mm\nimport workbench.screws.measuring", CALCULATION),
        ("3.25 mm\nfrom ｗorkbench.screws import measuring", CALCULATION),
        ("3.25 mm\nworkbench.answering._entries['measuring_screw.travel'] = '3'", ENTRIES),
        ("importlib.import_module('work' + 'bench')", "by a detour"),
        ("get_ipython().user_ns", "how cells are run"),
    ],
)
def test_code_that_reaches_for_the_package_is_flagged(cohort, lesson, release, text, said):
    """Each way is told in words, with the answer cell in which it stands."""
    (flag,) = flagged(filled(cohort, lesson, {"travel": text}), release)
    assert said in flag and flag.startswith("answer cell travel (“travel = ")


@pytest.mark.parametrize("text", ["3.25 mm", "12 * 0.5", "", "round(3.249, 2)", "my_evaluation", "turn right (2)"])
def test_honest_answers_are_not_flagged(cohort, lesson, release, text):
    """Plain entries, own sums and names that look similar are nobody's concern."""
    assert flagged(filled(cohort, lesson, {"travel": text}), release) == ()


def test_what_was_handed_out_is_not_flagged(release):
    """The lesson's own cells, which do load the package, are no finding."""
    assert flagged(release, release) == ()


def test_a_flag_stands_in_the_record_the_notebook_and_the_report_and_costs_no_mark(cohort, lesson):
    """Right answers with an extra cell that calls the key keep their marks; the instructor reads of it."""
    work = filled(cohort, lesson, right_answers(lesson, 3))
    work.cells.append(new_code_cell("import workbench\nworkbench.solution('measuring_screw.travel')", id="mine"))
    hand_in(cohort, lesson, 3, work)
    hand_in(cohort, lesson, 4, filled(cohort, lesson, right_answers(lesson, 4)))
    flags = {kept.candidate: (kept.marks, kept.flags) for kept in mark(cohort, lesson, [3, 4])}
    assert flags[3][0] == flags[4][0] and flags[4][1] == ()
    (flag,) = flags[3][1]
    assert flag.startswith("an extra cell (“import workbench”) calls the package's own key")
    assert records(cohort, lesson)[3].flags == (flag,)
    assert "own key" in (cohort.marked(3, lesson) / f"{lesson}.ipynb").read_text()
    assert "own key" in write_report(cohort, lesson)[0].read_text()
