"""The whole corpus, and how one of its submissions is made and handed in."""

import copy
import re
from functools import cache

import nbformat
from nbformat.v4 import new_code_cell

from instructor.marking.limits import Limits
from tests.instructor.hostile.case import AFTER, BEFORE, GOAL, LESSON, Case, Place, content_of
from tests.instructor.hostile.cells import CELLS
from tests.instructor.hostile.files import FILES, NAME, folder
from tests.instructor.hostile.patches import PATCHES
from tests.instructor.hostile.tampered import TAMPERED
from tests.instructor.hostile.values import VALUES
from tests.instructor.notebooks import cell_of, right_answers

CORPUS: dict[str, Case] = CELLS | PATCHES | VALUES | TAMPERED | FILES
LIMITS = Limits(cell_seconds=1.0, notebook_seconds=3.0, cpu_seconds=3, together_bytes=250_000_000)


@cache
def answers(candidate: int) -> dict[str, str]:
    """All the right answers of a candidate."""
    return right_answers(LESSON, candidate)


@cache
def _released(path):
    return nbformat.read(path, as_version=4)


def filled(cohort, typed: dict[str, str]):
    """The released notebook with these answers typed."""
    work = copy.deepcopy(_released(cohort.released(LESSON) / NAME))
    for name, text in typed.items():
        cell_of(work, name).source = f"# Answer {LESSON}.{name}\n{name} = {text}"
    return work


def candidate_of(name: str) -> int:
    """The number under which a case is handed in; the next one is its honest neighbour's."""
    return 2 * list(CORPUS).index(name) + 1


def place_of(name: str, cohort, outside, port: int) -> Place:
    """What a case is pointed at: its neighbour's work, and what lies around it."""
    candidate = candidate_of(name)
    peer = candidate + 1
    return Place(candidate, peer, answers(candidate)[GOAL], cohort.root, outside,
                 cohort.submitted(peer, LESSON) / NAME, port)


def notebook_of(cohort, case: Case, place: Place):
    """The submission: an honest item, the attack, an honest item."""
    right = answers(place.candidate)
    answer = case.answer.replace("PEER_RIGHT", answers(place.peer)[GOAL])
    work = filled(cohort, {BEFORE: right[BEFORE], AFTER: right[AFTER], GOAL: place.fill(answer)})
    if case.cell:
        at = work.cells.index(cell_of(work, f"{GOAL}-ask"))
        work.cells.insert(at, new_code_cell(place.fill(case.cell), id="attack"))
    if case.last:
        work.cells.append(new_code_cell(place.fill(case.last), id="attack"))
    if case.edit:
        case.edit(work, place)
    for cell in work.cells:
        cell.source = cell.source.replace("PEER_RIGHT", answers(place.peer)[GOAL])
    return work


def honest(cohort, candidate: int):
    """An honest neighbour's: all right, with a cell of its own, so that its cells are run too."""
    work = filled(cohort, answers(candidate))
    work.cells.insert(5, new_code_cell("turns = 6.5\nturns * 0.5", id="sum"))
    return work


def hand_in(given, cohort, name: str, place: Place) -> None:
    """Write a case, and its honest neighbour, as they are handed in."""
    case, work = CORPUS[name], notebook_of(cohort, CORPUS[name], place)
    if case.hand_in:
        case.hand_in(given, work, place)
    else:
        (folder(given, place) / NAME).write_bytes(content_of(work))
    path = given / f"{place.peer:03d}"
    path.mkdir()
    (path / NAME).write_bytes(content_of(honest(cohort, place.peer)))


def told(kept, notes) -> str:
    """All that the instructor is told about a submission."""
    messages = [kept.items[name]["message"] for name in (BEFORE, GOAL, AFTER) if name in kept.items] if kept else []
    held = [kept.problem, kept.held, *kept.notes] if kept else []
    return "\n".join([*held, *messages, *notes])


def says(case: Case, text: str) -> bool:
    """Whether the expected reason is told."""
    return re.search(case.says if "|" in case.says else re.escape(case.says), text) is not None
