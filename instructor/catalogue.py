"""The catalogue of exercises: what is asked where, for how many marks, and which slips are known."""

import json
from collections.abc import Iterable

from instructor.listing import listing
from workbench.exercises import lessons, of_lesson
from workbench.exercises.exercise import Exercise


def entries(lesson: str | None = None) -> list[dict]:
    """The catalogue's rows, of one lesson or of all."""
    found = (exercise for name in ([lesson] if lesson else lessons()) for exercise in of_lesson(name))
    return [_entry(exercise) for exercise in found]


def _entry(exercise: Exercise) -> dict:
    return {
        "key": exercise.key,
        "lesson": exercise.lesson,
        "outcome": exercise.outcome,
        "marks": exercise.marks,
        "answer": answer_kind(exercise),
        "critical": exercise.critical,
        "follows": exercise.follows.key if exercise.follows else None,
        "draws": len(exercise.draws()),
        "missteps": [{"tag": one.tag, "origin": one.origin, "keeps": one.keeps} for one in exercise.missteps],
    }


def answer_kind(exercise: Exercise) -> str:
    """The kind of answer in words: "quantity in mm, to 0.01", "choice of 4"."""
    kind = exercise.answer
    name = type(kind).__name__.lower()
    if name == "quantity":
        return f"quantity in {kind.unit or 'plain number'}, to {kind.step:g}"
    return "call-out" if name == "designation" else f"{name} of {len(kind.options)}"


def as_json(rows: Iterable[dict]) -> str:
    """The rows as JSON."""
    return json.dumps(list(rows), indent=1, ensure_ascii=False)


def as_table(rows: Iterable[dict]) -> str:
    """The rows as tables for the screen: the exercises, then their missteps."""
    rows = list(rows)
    if not rows:
        return "there is no exercise yet"
    asked = [(row["key"], row["marks"], row["answer"], "yes" * row["critical"], row["outcome"]) for row in rows]
    slips = [(row["key"], one["tag"], one["origin"]) for row in rows for one in row["missteps"]]
    return "\n\n".join([
        listing(("key", "marks", "answer", "critical", "outcome"), asked),
        listing(("key", "misstep", "origin"), slips),
        f"{len(rows)} exercises, {sum(row['marks'] for row in rows)} marks, {len(slips)} missteps",
    ])
