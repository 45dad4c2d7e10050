"""The lesson in a real browser, by the keyboard alone, from `python -m workbench` in an empty home."""

import json
import shutil
import time
from pathlib import Path

import pytest

import workbench
from tests.browser.lab import PATIENCE_S, Course, Lab, Unseen
from workbench import exercises
from workbench.course_copy import course_source

pytestmark = [pytest.mark.browser, pytest.mark.slow]

LESSON = "measuring_screw/measuring_screw.ipynb"
CANDIDATE = 7
KEY = "measuring_screw.pin"
PIN = exercises.find(KEY)
NUMBERS = PIN.variant(CANDIDATE)
RIGHT = f"{PIN.right(NUMBERS):.2f} mm"


@pytest.fixture
def home(tmp_path) -> Path:
    (tmp_path / "home").mkdir()
    return tmp_path / "home"


def open_lesson(page, course: Course) -> Lab:
    """From the start page, through its link, to the lesson with all its cells run."""
    lab = Lab(page, course.address)
    lab.no_dialog()
    lab.follow(LESSON)
    lab.no_dialog()
    lab.run_all()
    return lab


def turn_the_screw(lab: Lab) -> tuple[str, str]:
    """Predict, then turn by one step of the first slider: the panel's figures before and after."""
    panel = next(n for n, cell in enumerate(lab.look()["cells"]) if "Commit prediction" in cell["output"])
    lab.predict(panel, "0.65 mm")
    return lab.slide("ArrowRight")


def saved(course: Course) -> str:
    """The line of the answer cell as it lies on the disk; nothing while it is just being written."""
    try:
        notebook = json.loads((course.folder / LESSON).read_text(encoding="utf-8"))
    except ValueError:
        return ""
    return "".join(next(cell["source"] for cell in notebook["cells"] if cell["id"] == PIN.name)).splitlines()[-1]


def seconds_until_saved(course: Course, text: str) -> float:
    """How long it takes until a text stands in the answer cell on the disk."""
    start = time.monotonic()
    while text not in saved(course):
        if time.monotonic() - start > PATIENCE_S:
            raise Unseen(f"{text!r} was not saved within {PATIENCE_S} s: {saved(course)!r}")
        time.sleep(0.1)
    return time.monotonic() - start


def test_an_apprentice_works_the_lesson_by_the_keyboard(page, browser, home):
    """Open, run, predict, turn, answer wrong, mistype, answer right, restart, reopen: each step helps or works,
    and no verdict is ever given on an earlier value."""
    with Course(home, "--candidate", str(CANDIDATE)) as course:
        lab = open_lesson(page, course)

        before, after = turn_the_screw(lab)
        assert "0.65 mm" in after  # the prediction stands beside the result
        # one whole turn of a screw of 0.5 mm pitch, worked by hand: 7.20 + 0.50
        assert "7.20 mm" in before and "7.70 mm" in after

        misstep = next(misstep for misstep in PIN.missteps if misstep.tag == "half-line-missed")
        shown = lab.answer(KEY, f"{misstep.wrong(NUMBERS):.2f}".replace(".", ",") + " mm")
        assert "I read: " in shown and "half-millimetre line" in shown
        assert "Known misstep" in lab.check(KEY)

        cells = lab.look()["cells"]
        lab.type("reading = 7.31 mm mrydd x00iiABMZ12")  # into a cell that is only selected
        page.wait_for_timeout(500)
        now = lab.look()
        assert [cell["source"] for cell in now["cells"]] == [cell["source"] for cell in cells]
        lab.no_dialog()

        for typed in (f"pin = {RIGHT.replace('.', '.l')}", f"pni = {RIGHT}", f"pin is {RIGHT}", 'pin = "', "pin ="):
            assert "Right" in lab.answer(KEY, RIGHT)
            shown = lab.answer_line(KEY, typed)
            assert "Not judged" in shown and "Right" not in shown, typed
            checked = lab.check(KEY)
            assert "Not judged" in checked and "Right" not in checked, typed
            assert "Traceback" not in shown + checked and "NameError" not in shown + checked, typed

        assert "Right" in lab.answer(KEY, RIGHT)
        assert "Right" in lab.check(KEY)

        lab.restart_kernel()
        lab.show_code()
        alone = lab.run(lab.answer_cell(KEY) + 1)
        assert "Not judged" in alone and "pin =" in alone and "Error" not in alone
        assert "Right" in lab.run(lab.answer_cell(KEY))

        lab.write(KEY, f"{RIGHT} # one")
        lab.press("Control+s")
        by_hand_s = seconds_until_saved(course, "# one")
        lab.write(KEY, f"{RIGHT} # later")  # typed, neither run nor saved by hand
        # on a machine so busy that a save takes over 0.8 s JupyterLab waits for ten times as long, and no more
        assert seconds_until_saved(course, "# later") < max(10, 13 * by_hand_s)

    attempts = [json.loads(line) for line in (course.folder / Path(LESSON).parent / "attempts.jsonl").open()]
    assert (attempts[0]["standing"], attempts[0]["tag"]) == ("known misstep", "half-line-missed")
    assert {attempt["key"] for attempt in attempts} == {KEY}

    with Course(home) as course:  # the next day
        assert f"Candidate: {CANDIDATE}" in course.said
        next_day = Lab(browser.new_context().new_page(), course.address)
        next_day.no_dialog()
        next_day.follow(LESSON)
        assert saved(course) == f"pin = {RIGHT} # later"
        assert f"pin = {RIGHT}" in next_day.look()["cells"][next_day.answer_cell(KEY)]["source"]
        next_day.run_all()
        assert "Right" in next_day.output(next_day.answer_cell(KEY) + 1)


def test_the_step_fails_when_the_panels_wiring_is_cut(page, home, tmp_path):
    """With the line removed by which the panel follows its slider, the same step does not pass."""
    cut = tmp_path / "cut"
    shutil.copytree(Path(workbench.__file__).parent, cut / "workbench")
    shutil.copytree(course_source(), cut / "course")
    board = cut / "workbench/panels/board.py"
    lines = board.read_text(encoding="utf-8").splitlines(keepends=True)
    kept = [line for line in lines if not ("self.observe(" in line and '"values"' in line)]
    assert len(kept) == len(lines) - 1
    board.write_text("".join(kept), encoding="utf-8")
    with Course(home, "--candidate", str(CANDIDATE), search_path=cut) as course:
        lab = open_lesson(page, course)
        with pytest.raises(Unseen, match="the figures stand"):
            turn_the_screw(lab)
