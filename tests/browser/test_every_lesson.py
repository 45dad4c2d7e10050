"""Every lesson in a real browser: all of it appears, its panels open, its first answer is judged."""

import re

import pytest

from tests.browser.lab import PATIENCE_S, Course, Lab
from tests.panels.test_panels import PREDICTIONS
from workbench import exercises, marking
from workbench.panels.still import STILLS

pytestmark = [pytest.mark.browser, pytest.mark.slow]

CANDIDATE = 23
USUAL = {"thread_geometry", "tightening", "rivet_heat_treatment", "solid_rivets"}  # the others with -m exhaustive
LESSONS = [
    lesson if lesson in USUAL else pytest.param(lesson, marks=pytest.mark.exhaustive)
    for lesson in exercises.lessons()
    if lesson != "start"
]


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


def unlock_panels(page, notebook):
    """Commit a prediction in every panel of the notebook in front; each then shows its picture."""
    names = [name for name in re.findall(r'workbench\.panel\(\\"(\w+)', notebook) if name not in STILLS]
    fields = page.locator(".jp-NotebookPanel:not(.lm-mod-hidden) .wb-prediction input")
    assert fields.count() == len(names) > 0
    for place, name in enumerate(names):
        fields.nth(place).fill(PREDICTIONS[name])
        fields.nth(place).press("Enter")
    pictures = page.locator(".jp-NotebookPanel:not(.lm-mod-hidden) .wb-picture:visible")
    for place in range(len(names)):
        pictures.nth(place).wait_for(timeout=1000 * PATIENCE_S)


@pytest.mark.parametrize("lesson", LESSONS)
def test_a_lesson_appears_whole(page, course, lesson):
    """Run all shows every question without a fault or a placeholder; panels unlock; the first answer is judged."""
    lab = Lab(page, course.address)
    page.locator(f'a[href*="{lesson}.ipynb"]').first.click()
    lab.in_front(f"{lesson}.ipynb")
    lab.run_all()
    cells = lab.look()["cells"]
    shown = "\n".join(cell["output"] for cell in cells)
    for bad in ("Traceback", "This cell stopped", "fault of its own", "our fault", "{", "}"):
        assert bad not in shown, shown[max(0, shown.find(bad) - 300):shown.find(bad) + 100]
    sources = [cell["source"].split("\n")[0] for cell in cells]
    for exercise in exercises.of_lesson(lesson):
        assert cells[sources.index(f"# Answer {exercise.key}") - 1]["output"], exercise.key
    unlock_panels(page, (course.folder / lesson / f"{lesson}.ipynb").read_text(encoding="utf-8"))
    key, typed = first_answer(lesson)
    assert "Right" in lab.answer(key, typed)
