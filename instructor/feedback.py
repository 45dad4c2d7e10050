"""A page for each candidate: every question with own numbers, what was read, the verdict, where to look next.

It holds the right value of nothing that was not answered right.
"""

from collections import Counter
from html import escape
from pathlib import Path

from instructor import page
from instructor.cohort import Cohort
from instructor.marking.batch import records
from instructor.marking.recording import Record, comments, scores
from instructor.release import released_notebook
from instructor.roll import folder_name
from workbench import question_sheet
from workbench.exercises import of_lesson
from workbench.exercises.exercise import Exercise
from workbench.marking import MISSTEP, NOT_JUDGED, NOT_YET, RIGHT, SHAPES
from workbench.session import Session

MOST_LOOKS = 3


def write_feedback(cohort: Cohort, release: str, candidate: int | None = None):
    """Write the pages of a release, of one candidate or of all marked; gives each path as it is written.

    They lie beside, not in, the folder that nbgrader's own generate_feedback fills.
    """
    slip, notebook = released_notebook(cohort, release)
    title = notebook.metadata.get("title", slip.lesson)
    given, said = scores(cohort, release), comments(cohort, release)
    for number, kept in records(cohort, release).items():
        if candidate in (None, number):
            path = cohort.root / "feedback" / folder_name(number) / f"{release}.html"
            path.parent.mkdir(parents=True, exist_ok=True)
            text = feedback_page(kept, title, given, {item: said.get((number, item)) for item in kept.items})
            path.write_text(text, encoding="utf-8")
            yield path


def feedback_page(kept: Record, title: str, given: dict, said: dict) -> str:
    """One candidate's page. given: the gradebook's marks; said: the instructor's comments by item."""
    asked = of_lesson(kept.lesson)
    head = [f"<h1>{escape(title)}</h1>", f'<p class="soft">Candidate {kept.candidate} · your answers, one by one</p>']
    if kept.problem:
        reason = kept.problem.removeprefix("not marked: ")
        head.append(page.notice("Your work could not be read", [
            f"{reason[:1].upper()}{reason[1:]}.", "Nothing of yours is lost. Ask your instructor what to hand in."]))
        return page.page(title, head)
    if kept.held:
        head.append(page.notice("Your work is not marked yet", [
            "Several answers do not fit the numbers of your candidate number.",
            "Look at the number at the top of your lesson. Then talk to your instructor.",
            "No mark is lost by this."]))
        return page.page(title, head)
    marks = {exercise.name: given.get((kept.candidate, exercise.name), (None, False)) for exercise in asked}
    total = sum(mark or 0 for mark, _ in marks.values())
    counts = Counter(item["standing"] for item in kept.items.values())
    head += [
        page.figures([(f"{total:g} of {sum(exercise.marks for exercise in asked)}", "marks")]
                     + [(f"{SHAPES[standing][0]} {counts[standing]}", standing) for standing in page.STANDINGS]),
        _first_looks(kept, asked),
        page.notice("About your notebook", _plain(kept)),
        "<h2>Question by question</h2>",
    ]
    return page.page(title, head + [_item(kept, exercise, marks[exercise.name], said) for exercise in asked])


def _first_looks(kept: Record, asked: tuple[Exercise, ...]) -> str:
    """Where to look first: the critical items, then those with a named slip, then the others."""
    rank = {MISSTEP: 0, NOT_YET: 1, NOT_JUDGED: 2}
    open_items = [exercise for exercise in asked if kept.items[exercise.name]["standing"] != RIGHT]
    open_items.sort(key=lambda exercise: (not exercise.critical, rank[kept.items[exercise.name]["standing"]]))
    if not open_items:
        return "<p><b>All answers are right.</b></p>"
    links = "".join(
        f'<li><a href="#{exercise.name}">Question {question_sheet.number_of(exercise)}</a>: '
        f"{page.word(kept.items[exercise.name]['standing'])}</li>"
        for exercise in open_items[:MOST_LOOKS]
    )
    return f'<p><b>Look at these first:</b></p><ul class="plain">{links}</ul>'


def _item(kept: Record, exercise: Exercise, mark: tuple[float | None, bool], said: dict) -> str:
    item, (given, by_hand) = kept.items[exercise.name], mark
    session = Session(kept.candidate, kept.series, "practice", kept.lesson, False, Path())
    read = f"<p>Your answer, as it was read: <b>{escape(item['read'])}</b></p>" if item["read"] else ""
    shown = item["marks"] if given is None else given
    head = f"· {shown:g} of {exercise.marks}" + (" · mark set by your instructor" if by_hand else "")
    comment = said.get(exercise.name)
    return "".join([
        f'<div class="item" id="{exercise.name}">',
        question_sheet.html(exercise, session),
        read,
        page.verdict(item["standing"], head, item["message"] if item["message"] != "Right." else ""),
        f"<p><b>Your instructor writes:</b> {escape(comment)}</p>" if comment else "",
        "</div>",
    ])


def _plain(kept: Record) -> list[str]:
    """What was odd about the notebook, for the apprentice: without blame, without names of cells."""
    lines = []
    if kept.findings:
        lines.append("Some cells were not as handed out. They were put back. Your answers were kept.")
    if kept.troubles:
        lines.append("A cell of yours stopped with an error. All other answers were judged.")
    return lines
