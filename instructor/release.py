"""A release: one lesson as it is handed out to one cohort, without solutions, never changed afterwards.

The notebook is made by nbgrader's generate_assignment; beside it lies the slip, release.json, which says
what it is: lesson, name, mode, series, and the SHA-256 of the notebook.
"""

import hashlib
import json
import shutil
import tempfile
from contextlib import contextmanager
from dataclasses import asdict, dataclass
from datetime import date
from pathlib import Path

import nbformat

from instructor.cohort import Cohort, checked_name
from instructor.lesson_builder import LESSONS, authored_lessons, build, read_lesson
from instructor.refusal import Refusal, unknown

MODES = ("practice", "assessment")
COURSE = Path(__file__).parents[1] / "course"


@dataclass(frozen=True)
class Slip:
    """What release.json says of the notebook beside it."""

    lesson: str
    name: str
    mode: str
    series: int
    sha256: str
    made: str | None = None

    def write(self, folder: Path) -> None:
        """Write the slip into a folder."""
        found = {key: value for key, value in asdict(self).items() if value is not None}
        (folder / "release.json").write_text(json.dumps(found, indent=1) + "\n", encoding="utf-8")


def read_slip(folder: Path) -> Slip:
    """The slip in a folder; refused where it is damaged."""
    path = folder / "release.json"
    try:
        return Slip(**json.loads(path.read_text(encoding="utf-8")))
    except (ValueError, TypeError):
        raise Refusal(f"{path} is damaged: put back the release as it was handed out") from None


def released_notebook(cohort: Cohort, name: str) -> tuple[Slip, nbformat.NotebookNode]:
    """A release's slip and notebook; refused where the notebook is no longer the one that was handed out."""
    folder = cohort.released(name)
    slip = read_slip(folder)
    path = folder / f"{slip.lesson}.ipynb"
    content = path.read_bytes() if path.exists() else b""
    if hashlib.sha256(content).hexdigest() != slip.sha256:
        raise Refusal(f"{path} is not the notebook that was released (its SHA-256 is not the slip's): "
                      "put the released file back, or release again under another name")
    return slip, nbformat.reads(content.decode("utf-8"), as_version=4)


def release(cohort: Cohort, lesson: str, name: str, mode: str = "practice", series: int = 1,
            lessons: Path = LESSONS) -> Slip:
    """Release a lesson to a cohort. A name that is taken is refused: what was handed out never changes."""
    if lesson not in authored_lessons(lessons):
        raise unknown("lesson to release", lesson, authored_lessons(lessons))
    checked_name("release", name)
    if cohort.released(name).exists():
        slip = read_slip(cohort.released(name))
        raise Refusal(f"{name!r} was released already ({slip.lesson}, {slip.mode}, series {slip.series}) and "
                      "never changes; give this one another name with --as, for example "
                      f"--as {_next_name(cohort, name)}")
    source = cohort.source(name)
    source.mkdir(parents=True, exist_ok=True)
    nbformat.write(build(read_lesson(lesson, lessons)), source / f"{lesson}.ipynb")
    try:
        _generate(cohort.coursedir(name), cohort.settings())
        slip = _slip(cohort.released(name), lesson, name, mode, series, made=date.today().isoformat())
        slip.write(source)  # nbgrader lays it beside the notebook when it marks
        slip.write(cohort.released(name))
    except BaseException:
        shutil.rmtree(cohort.released(name), ignore_errors=True)
        shutil.rmtree(source, ignore_errors=True)
        raise
    return slip


def _next_name(cohort: Cohort, name: str) -> str:
    number = 2
    while cohort.released(f"{name}-{number}").exists():
        number += 1
    return f"{name}-{number}"


def _slip(folder: Path, lesson: str, name: str, mode: str, series: int, made: str | None = None) -> Slip:
    content = (folder / f"{lesson}.ipynb").read_bytes()
    return Slip(lesson, name, mode, series, hashlib.sha256(content).hexdigest(), made)


def _generate(coursedir, settings) -> None:
    """Run nbgrader's generate_assignment, which takes the solutions out and fills the gradebook."""
    from nbgrader.converters import GenerateAssignment
    from nbgrader.converters.base import NbGraderException

    from instructor.quiet import nbgrader_log

    with nbgrader_log() as log:
        try:
            GenerateAssignment(coursedir=coursedir, config=settings).start()
        except NbGraderException as failed:
            raise Refusal(f"nbgrader could not make the release: {log.last() or failed}") from failed


def rebuild_course(course: Path = COURSE, lessons: Path = LESSONS) -> tuple[str, ...]:
    """Make the practice course again from all authored lessons; it is replaced only when all succeeded.

    Gives the files made. Lessons go to <lesson>/<lesson>.ipynb with a slip, start.md to start.ipynb,
    explore/*.md to explore/*.ipynb.
    """
    with _workplace(course.parent) as place:
        new = place / "course"
        new.mkdir()
        for name in authored_lessons(lessons):
            released = _practice(place, read_lesson(name, lessons))
            shutil.copytree(released, new / name)
            _slip(new / name, name, name, "practice", 1).write(new / name)
        for text in (*lessons.glob("start.md"), *sorted((lessons / "explore").glob("*.md"))):
            part = text.parent.relative_to(lessons)
            released = _practice(place / "plain" / part, read_lesson(text.stem, text.parent))
            target = new / part
            target.mkdir(exist_ok=True)
            shutil.copy(released / f"{text.stem}.ipynb", target)
        made = tuple(sorted(str(path.relative_to(new)) for path in new.rglob("*") if path.is_file()))
        if not made:
            raise Refusal(f"there is no lesson in {lessons}")
        old = place / "old"
        if course.exists():
            course.rename(old)
        new.rename(course)
    return made


@contextmanager
def _workplace(parent: Path):
    """A folder on the same disk, so that the finished course is moved into place in one step."""
    with tempfile.TemporaryDirectory(prefix=".course-", dir=parent) as folder:
        yield Path(folder)


def _practice(place: Path, text) -> Path:
    """One notebook without solutions and without a gradebook; the folder that it lies in."""
    from nbgrader.coursedir import CourseDirectory
    from traitlets.config.loader import PyFileConfigLoader

    settings = PyFileConfigLoader("nbgrader_config.py", path=str(Path(__file__).parent)).load_config()
    settings.SaveCells.enabled = False
    settings.GenerateAssignment.no_database = True
    source = place / "source" / text.name
    source.mkdir(parents=True)
    nbformat.write(build(text), source / f"{text.name}.ipynb")
    _generate(CourseDirectory(config=settings, root=str(place), assignment_id=text.name), settings)
    return place / "release" / text.name
