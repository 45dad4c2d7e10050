"""nbgrader's settings for every cohort; each cohort's own nbgrader_config.py loads this file.

With them the stock commands work in a cohort's folder and give the same marks as `python -m instructor mark`:
    nbgrader autograde RELEASE · nbgrader generate_feedback RELEASE · nbgrader export
"""

import json
import os
import re
from pathlib import Path

from nbgrader.converters import GenerateAssignment
from nbgrader.preprocessors import ClearSolutions, NbGraderPreprocessor
from nbgrader.utils import is_solution

c = get_config()  # noqa: F821 - traitlets supplies it

# our names for nbgrader's folders
c.CourseDirectory.source_directory = "source"
c.CourseDirectory.autograded_directory = "marked"
c.CourseDirectory.feedback_directory = "feedback"

# the course that nbgrader's own steps name where none is set; PostgreSQL refuses a release of no course
c.CourseDirectory.course_id = "default_course"


class AnswerLine(NbGraderPreprocessor):
    """Leaves `travel = ` in the answer cell `travel`, where the solution was."""

    def preprocess_cell(self, cell, resources, cell_index):
        if is_solution(cell):
            cell.source = f"{cell.source.strip()}\n{cell.metadata.nbgrader['grade_id']} = "
        return cell, resources


# a stub that raises would stop Run All
c.ClearSolutions.code_stub = {"python": ""}
_steps = list(GenerateAssignment.preprocessors.default_args[0])
_steps.insert(_steps.index(ClearSolutions) + 1, AnswerLine)
c.GenerateAssignment.preprocessors = _steps


def tell_candidate(assignment, student, notebooks, **_):
    """Say in the environment whose numbers the next notebook is judged by: its folder's, so the roll's.

    `student` is a pattern ("*") when a whole cohort is marked, so the folder's name is read instead.
    """
    # nbgrader goes on after a hook that failed: then nobody's numbers, never those of the one before
    os.environ["WORKBENCH_CANDIDATE"] = "0"
    release = Path(notebooks[0]).resolve().parent
    found = re.fullmatch(r"\d+", release.parent.name)
    if found is None:
        raise ValueError(f"{notebooks[0]} does not lie in a candidate's folder such as submitted/007/")
    slip = release.parents[2] / c.CourseDirectory.source_directory / release.name / "release.json"
    os.environ["WORKBENCH_SERIES"] = str(json.loads(slip.read_text(encoding="utf-8"))["series"])
    os.environ["WORKBENCH_CANDIDATE"] = str(int(found[0]))


c.Autograde.pre_convert_hook = tell_candidate
