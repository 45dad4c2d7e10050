"""What is asked, lesson by lesson: one module or package a lesson, each with a tuple `EXERCISES`.

Two modules are no lessons: `exercise` says what an exercise is, `draws` keeps draws alike.
"""

import difflib
from functools import cache
from importlib import import_module
from pkgutil import iter_modules

from workbench.exercises.exercise import Exercise

_NO_LESSONS = {"exercise", "draws"}


@cache
def lessons() -> tuple[str, ...]:
    """The lessons that ask something: the modules and packages of this package, by name."""
    return tuple(sorted(module.name for module in iter_modules(__path__) if module.name not in _NO_LESSONS))


def of_lesson(lesson: str) -> tuple[Exercise, ...]:
    """The exercises of a lesson, in the order in which they are asked.

    Raises ValueError, with the nearest names, for a lesson that does not exist.
    """
    if lesson not in lessons():
        raise ValueError(f"no lesson is called {lesson!r}{_nearest(lesson, lessons())}")
    return import_module(f"{__name__}.{lesson}").EXERCISES


def find(key: str) -> Exercise:
    """The exercise with this key, "lesson.name"; ValueError, with the nearest keys, where there is none."""
    lesson, _, _ = key.partition(".")
    known = of_lesson(lesson)
    for exercise in known:
        if exercise.key == key:
            return exercise
    raise ValueError(f"no exercise is called {key!r}{_nearest(key, [e.key for e in known])}")


def _nearest(name: str, known) -> str:
    close = difflib.get_close_matches(name, known, n=3, cutoff=0.4) or list(known)[:5]
    return f": did you mean {', '.join(close)}?" if close else ""
