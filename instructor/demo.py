"""The demo: twelve invented candidates through the whole loop, in a cohort folder of its own."""

import copy
import shutil
import zipfile
from collections.abc import Callable
from pathlib import Path

import nbformat
from nbformat import NotebookNode

from instructor.cohort import COHORTS, Cohort, enrol
from instructor.collection import collect
from instructor.invented import PATTERNS, answers
from instructor.refusal import Refusal
from instructor.release import Slip, release, released_notebook

NAME = "demo"
LESSON = "measuring_screw"
_OURS = "This folder is made afresh by `python -m instructor demo`. Keep nothing of your own in it.\n"
DAMAGED = {11: "deleted check cell", 12: "a cell that raises"}


def prepare(cohorts: Path = COHORTS, lesson: str = LESSON) -> tuple[Cohort, Slip]:
    """Make the demo's cohort afresh and release the lesson to it."""
    root = cohorts / NAME
    if root.exists():
        if not (root / "DEMO.txt").is_file():
            raise Refusal(f"{root} is not the demo's (DEMO.txt is missing): give your own cohort another name")
        shutil.rmtree(root)
    root.mkdir(parents=True)
    (root / "DEMO.txt").write_text(_OURS, encoding="utf-8")
    cohort, _ = enrol(NAME, tuple(PATTERNS), cohorts)
    return cohort, release(cohort, lesson, lesson)


def hand_in(cohort: Cohort, slip: Slip) -> tuple[Path, ...]:
    """Write what the candidates hand in: some as folders, some as zips, some as named files."""
    place = cohort.root / "handed_in"
    _, released = released_notebook(cohort, slip.name)
    for candidate in PATTERNS:
        text = nbformat.writes(submission(released, slip, candidate)) + "\n"
        if candidate <= 6:
            folder = place / "folders" / f"{candidate:03d}" / slip.name
            folder.mkdir(parents=True)
            (folder / f"{slip.lesson}.ipynb").write_text(text, encoding="utf-8")
        elif candidate <= 9:
            (place / "zips").mkdir(parents=True, exist_ok=True)
            with zipfile.ZipFile(place / "zips" / f"candidate_{candidate}.zip", "w") as archive:
                archive.writestr(f"course/{slip.name}/{slip.lesson}.ipynb", text)
        else:
            (place / "files").mkdir(parents=True, exist_ok=True)
            (place / "files" / f"{slip.lesson}_{candidate:03d}.ipynb").write_text(text, encoding="utf-8")
    return tuple(sorted(place.iterdir()))


def submission(released: NotebookNode, slip: Slip, candidate: int) -> NotebookNode:
    """The released notebook as an invented candidate hands it in."""
    notebook = copy.deepcopy(released)
    typed = answers(slip.lesson, candidate, slip.series)
    for cell in notebook.cells:
        name = cell.metadata.get("nbgrader", {}).get("grade_id")
        if name in typed and cell.metadata.nbgrader.solution:
            cell.source = f"# Answer {slip.lesson}.{name}\n{name} = {typed[name]}"
    if DAMAGED.get(candidate) == "deleted check cell":
        first = next(cell for cell in notebook.cells if cell.metadata.get("nbgrader", {}).get("grade"))
        notebook.cells.remove(first)
    if DAMAGED.get(candidate) == "a cell that raises":
        own = nbformat.v4.new_code_cell("my_check = 1 / 0", id="scratch")
        notebook.cells.insert(len(notebook.cells) // 2, own)
    return notebook


def run(cohorts: Path = COHORTS, lesson: str = LESSON, bar: Callable = lambda rows, **_: rows) -> Cohort:
    """The whole loop: release, hand in, collect, mark, feedback, report. Gives the finished cohort."""
    from instructor.feedback import write_feedback
    from instructor.marking.batch import handed_in, mark
    from instructor.report import write_report

    cohort, slip = prepare(cohorts, lesson)
    collect(cohort, slip.name, hand_in(cohort, slip))
    present = handed_in(cohort, slip.name)
    for _ in bar(mark(cohort, slip.name, present), total=len(present), desc="marking"):
        pass
    for _ in bar(write_feedback(cohort, slip.name), total=len(present), desc="feedback"):
        pass
    write_report(cohort, slip.name)
    return cohort
