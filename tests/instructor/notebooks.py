"""Notebooks as candidates hand them in, for tests."""

import copy

import nbformat

from instructor.invented import written
from instructor.release import released_notebook
from workbench.exercises import of_lesson


def right_answers(lesson, candidate, series=1):
    """The right answer to every item, typed out."""
    return {
        exercise.name: written(exercise, variant, exercise.right(variant))
        for exercise in of_lesson(lesson)
        for variant in [exercise.variant(candidate, series)]
    }


def filled(cohort, lesson, typed):
    """The released notebook with these answers typed."""
    _, released = released_notebook(cohort, lesson)
    notebook = copy.deepcopy(released)
    for name, text in typed.items():
        cell_of(notebook, name).source = f"# Answer {lesson}.{name}\n{name} = {text}"
    return notebook


def cell_of(notebook, identity):
    """The cell with this id."""
    return next(cell for cell in notebook.cells if cell.id == identity)


def content_of(notebook):
    """A notebook as it lies on the disk."""
    return (nbformat.writes(notebook) + "\n").encode()


def hand_in(cohort, lesson, candidate, content):
    """Put a file where collected work lies."""
    folder = cohort.submitted(candidate, lesson)
    folder.mkdir(parents=True, exist_ok=True)
    path = folder / f"{lesson}.ipynb"
    path.write_bytes(content if isinstance(content, bytes) else content_of(content))
    return path
