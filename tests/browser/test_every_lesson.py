"""Every lesson in a real browser: all of it appears, its panels open, its first answer is judged."""

import pytest

from tests.browser.lab import Course, Lab
from tests.panels.test_panels import PREDICTIONS
from workbench import exercises, marking
from workbench.panels.still import STILLS

pytestmark = [pytest.mark.browser, pytest.mark.slow]

CANDIDATE = 23
LESSONS = [lesson for lesson in exercises.lessons() if lesson != "start"]


@pytest.fixture(scope="module")
def course(tmp_path_factory):
    """One course for all lessons: an empty home, candidate 23."""
    with Course(tmp_path_factory.mktemp("home"), "--candidate", str(CANDIDATE)) as running:
        yield running


def first_answer(lesson):
    """The first exercise and its right answer as typed."""
    from tests.exercises.test_every_exercise import written

    first = exercises.of_lesson(lesson)[0]
    variant = first.variant(CANDIDATE)
    typed = written(first, variant, first.right(variant))
    assert marking.judge(first, variant, typed).standing == marking.RIGHT
    return first.key, typed


def panels(lab):
    """Places and names of the panels of the notebook in front."""
    for place, cell in enumerate(lab.look()["cells"]):
        if 'workbench.panel("' in cell["source"]:
            name = cell["source"].split('workbench.panel("')[1].split('"')[0]
            if name not in STILLS:
                yield place, name


@pytest.mark.parametrize("lesson", LESSONS)
def test_a_lesson_appears_whole(page, course, lesson):
    """Run all shows every question without a fault or a placeholder; panels unlock; the first answer is judged."""
    lab = Lab(page, course.address)
    lab.follow(f"{lesson}/{lesson}.ipynb")
    lab.run_all()
    shown = "\n".join(cell["output"] for cell in lab.look()["cells"])
    for bad in ("Traceback", "This cell stopped", "fault of its own", "our fault", "{", "}"):
        assert bad not in shown, shown[max(0, shown.find(bad) - 300):shown.find(bad) + 100]
    for exercise in exercises.of_lesson(lesson):
        assert lab.output(lab.answer_cell(exercise.key) - 1), exercise.key
    for place, name in list(panels(lab)):
        lab.predict(place, PREDICTIONS[name])
    key, typed = first_answer(lesson)
    assert "Right" in lab.answer(key, typed)
