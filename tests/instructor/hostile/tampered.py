"""Notebooks whose cells are not as they were handed out, edited before they are handed in."""

import copy

from nbformat.v4 import new_code_cell, new_output

from tests.instructor.hostile.case import AFTER, BEFORE, GOAL, NONE, Case
from tests.instructor.notebooks import cell_of


def check(work, name=GOAL):
    return cell_of(work, f"{name}-check")


def deleted(work, place):
    work.cells.remove(check(work))


def doubled_check(work, place):
    """The check of what was right stands there three times."""
    for number in range(2):
        again = copy.deepcopy(check(work, BEFORE))
        again.id = f"again-{number}"
        work.cells.append(again)


def doubled_answer(work, place):
    """A copy pasted below takes the place of the first, with another value."""
    again = copy.deepcopy(cell_of(work, GOAL))
    again.id, again.source = "again", again.source.replace("1.00 mm", "2.00 mm")
    work.cells.append(again)


def renamed_check(work, place):
    check(work, BEFORE).metadata.nbgrader.grade_id = f"{GOAL}-check"


def renamed_answer(work, place):
    cell_of(work, BEFORE).metadata.nbgrader.grade_id = GOAL


def reordered(work, place):
    """The check of what is wrong is moved below the answer to what is right, and all is turned round."""
    work.cells.reverse()


def edited_check(work, place):
    check(work).source = "2"


def emptied_check(work, place):
    check(work).source = ""


def check_of_another(work, place):
    check(work).source = check(work, BEFORE).source


def more_points(work, place):
    check(work, BEFORE).metadata.nbgrader.points = 1000


def check_made_an_answer(work, place):
    check(work).metadata.nbgrader.update(solution=True, grade=False, locked=False)
    check(work).source = "2"


def edited_question(work, place):
    cell_of(work, f"{GOAL}-ask").source = "import workbench\nworkbench.check = lambda key: 2"


def edited_start(work, place):
    """The locked first cell is made to bend the package before anything else."""
    cell_of(work, "start").source = "import workbench\nworkbench.check = lambda key: 2"


def foreign(work, place):
    cell = new_code_cell("50", id="foreign")
    cell.metadata["nbgrader"] = {"grade": True, "grade_id": "other-check", "points": 50, "solution": False,
                                 "locked": True, "schema_version": 3, "task": False}
    work.cells.append(cell)


def forged_output(work, place):
    check(work).outputs = [new_output("execute_result", {"text/plain": "2"}, execution_count=1)]


def forged_data(work, place):
    """The output claims a verdict as data, by its own type."""
    said = {"key": f"measuring_screw.{GOAL}", "standing": "right", "marks": 2, "candidate": place.candidate}
    check(work).outputs = [new_output("execute_result", {
        "text/plain": "2", "application/vnd.workbench.verdict+json": said}, execution_count=1)]


def no_metadata(work, place):
    for cell in work.cells:
        cell.metadata = {}


def wrong_kernel(work, place):
    work.metadata["kernelspec"] = {"name": "bash", "display_name": "Bash", "language": "bash"}
    work.metadata["language_info"] = {"name": "bash"}


def odd_names(work, place):
    """Cell names that would lead out of a folder or into a page."""
    for number, name in enumerate(("../../../etc/passwd", "<script>alert(1)</script>", "x" * 100_000)):
        cell = new_code_cell("1", id=f"odd-{number}")
        cell.metadata["nbgrader"] = {"grade_id": name, "grade": True, "solution": False, "points": 1}
        work.cells.append(cell)


def many_foreign(work, place):
    for number in range(1500):
        cell = new_code_cell("1", id=f"f-{number}")
        cell.metadata["nbgrader"] = {"grade_id": f"foreign-{number}", "grade": True}
        work.cells.append(cell)


def many_that_raise(work, place):
    work.cells += [new_code_cell("1 / 0", id=f"r-{number}") for number in range(400)]


def swapped_kind(work, place):
    """The answer after the attack became raw text; the check became a heading."""
    for name, kind in ((AFTER, "raw"), (f"{AFTER}-check", "markdown")):
        cell = cell_of(work, name)
        cell.cell_type = kind
        del cell["outputs"], cell["execution_count"]


def anothers_work(work, place):
    """All of another candidate's right answers, handed in as one's own."""
    from tests.instructor.notebooks import right_answers

    for name, text in right_answers("measuring_screw", place.peer).items():
        cell_of(work, name).source = f"# Answer measuring_screw.{name}\n{name} = {text}"


def claims_another(work, place):
    """A cell sets another candidate's number, the notebook's head says it too."""
    work.metadata["candidate"] = place.peer
    cell_of(work, GOAL).source = f"# Answer measuring_screw.{GOAL}\n{GOAL} = PEER_RIGHT"
    at = work.cells.index(cell_of(work, f"{GOAL}-ask"))
    work.cells.insert(at, new_code_cell(f"candidate = {place.peer}", id="claim"))


PUT_BACK, COUNTS = "missing, and put back from the release", "the released text counts"
TAMPERED = {
    "deleted check": Case(f"{PUT_BACK}: short-check", edit=deleted),
    "doubled check": Case("pin-check stands in the notebook more than once", edit=doubled_check, bites="run"),
    "doubled answer": Case("cell short stands in the notebook more than once", edit=doubled_answer),
    "renamed check": Case(PUT_BACK, edit=renamed_check),
    "renamed answer": Case("answer cell pin was renamed 'short'", edit=renamed_answer),
    "reordered cells": Case("cells were moved", edit=reordered),
    "edited check": Case(f"short-check was edited; {COUNTS}", edit=edited_check, bites="run"),
    "emptied check": Case(f"short-check was edited; {COUNTS}", edit=emptied_check),
    "check of another item": Case(f"short-check was edited; {COUNTS}", edit=check_of_another, bites="run"),
    "more points": Case(edit=more_points),
    "check made an answer": Case(COUNTS, edit=check_made_an_answer, bites="run"),
    "edited question": Case(f"short-ask was edited; {COUNTS}", edit=edited_question, bites="run"),
    "edited first cell": Case(COUNTS, edit=edited_start, bites="run"),
    "foreign cell": Case("'other-check' is foreign to this release", edit=foreign, bites="run"),
    "forged output": Case(edit=forged_output, bites="outputs"),
    "forged verdict in an output": Case(edit=forged_data, bites="outputs"),
    "no metadata at all": Case(edit=no_metadata),
    "wrong kernel": Case(edit=wrong_kernel),
    "odd cell names": Case("is foreign to this release", edit=odd_names),
    "1,500 foreign cells": Case("is foreign to this release", edit=many_foreign),
    "400 cells that raise": Case("ZeroDivisionError", edit=many_that_raise),
    "answer turned into text": Case("had become raw text", edit=swapped_kind),
    "another's answers": Case("right for candidate", NONE, edit=anothers_work),
    "claims another's number": Case(edit=claims_another, answer="PEER_RIGHT"),
}
