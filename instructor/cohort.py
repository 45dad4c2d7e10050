"""A cohort: the folder that holds a roll, its releases, what was handed in, the marks and the reports.

The folder is at the same time the root of an nbgrader course: nbgrader's own commands and screens work in it.
"""

import os
import re
import sys
from dataclasses import dataclass
from pathlib import Path

from instructor.refusal import Refusal, unknown
from instructor.roll import folder_name, read_roll, write_roll

COHORTS = Path(__file__).parent / "cohorts"
NAME = re.compile(r"[a-z0-9][a-z0-9_-]{0,59}")

_CONFIG = '''\
"""nbgrader's settings for this cohort; the settings themselves stand in the file loaded here.

Settings of your own, such as c.CourseDirectory.db_url, go to the end.
"""

from pathlib import Path

here = Path(__file__).resolve().parent
settings = here / {path!r}
if not (settings / "nbgrader_config.py").is_file():
    raise FileNotFoundError("the cohort was moved: run any verb of `python -m instructor` on it first")
load_subconfig("nbgrader_config.py", path=str(settings))  # noqa: F821 - traitlets supplies it
c = get_config()  # noqa: F821
c.CourseDirectory.root = str(here)
'''
_PLACE = re.compile(r"^settings = here / .*$", re.MULTILINE)


@dataclass(frozen=True)
class Cohort:
    """One cohort's folder; the properties name its parts."""

    root: Path

    @property
    def name(self) -> str:
        """The cohort's name, which is its folder's."""
        return self.root.name

    @property
    def roll(self) -> tuple[int, ...]:
        """The candidates, from roll.csv."""
        return read_roll(self.root / "roll.csv")

    @property
    def db_url(self) -> str:
        """Where the gradebook is: as nbgrader's settings of this cohort say, else gradebook.db here."""
        return self.coursedir().db_url

    def coursedir(self, release: str = ""):
        """nbgrader's description of this folder, with our settings."""
        from nbgrader.coursedir import CourseDirectory

        return CourseDirectory(config=self.settings(), root=str(self.root), assignment_id=release)

    def settings(self):
        """The settings that the cohort's nbgrader_config.py gives."""
        from traitlets.config.loader import PyFileConfigLoader

        return PyFileConfigLoader("nbgrader_config.py", path=str(self.root)).load_config()

    def source(self, release: str) -> Path:
        """The folder of a release's source notebook, with solutions: never handed out."""
        return self.root / "source" / release

    def released(self, release: str) -> Path:
        """The folder of a release as it is handed out."""
        return self.root / "release" / release

    def submitted(self, candidate: int, release: str) -> Path:
        """The folder of what a candidate handed in."""
        return self.root / "submitted" / folder_name(candidate) / release

    def marked(self, candidate: int, release: str) -> Path:
        """The folder of a candidate's marked notebook and verdicts."""
        return self.root / "marked" / folder_name(candidate) / release

    def releases(self) -> tuple[str, ...]:
        """The names of the releases made so far."""
        return tuple(sorted(slip.parent.name for slip in self.root.glob("release/*/release.json")))

    def chosen_release(self, name: str | None) -> str:
        """The release of this name; the only one there is, where none is named."""
        known = self.releases()
        if name is None:
            if len(known) == 1:
                return known[0]
            listed = ", ".join(known) or "none yet: make one with the verb `release`"
            raise Refusal(f"say which release with --release; cohort {self.name!r} has: {listed}")
        if name not in known:
            raise unknown("release", name, known, "Make one with the verb `release`.")
        return name

    def on_roll(self, candidate: int) -> int:
        """The candidate, refused where the roll does not know it."""
        if candidate not in self.roll:
            raise unknown("candidate on the roll", str(candidate), map(str, self.roll))
        return candidate


def checked_name(what: str, name: str) -> str:
    """A name that can be a folder's on every system."""
    if not NAME.fullmatch(name):
        raise Refusal(f"{name!r} cannot name a {what}: use small letters, figures, - and _, "
                      "starting with a letter or figure")
    return name


def open_cohort(name: str, cohorts: Path = COHORTS) -> Cohort:
    """The cohort of this name; refused, with the nearest names, where there is none."""
    known = [roll.parent.name for roll in cohorts.glob("*/roll.csv")]
    if name not in known:
        raise unknown("cohort", name, known,
                      f"Make it: python -m instructor enrol --cohort {name} --candidates 1-12")
    cohort = Cohort(cohorts / name)
    _set_up(cohort)
    return cohort


def enrol(name: str, candidates: tuple[int, ...], cohorts: Path = COHORTS) -> tuple[Cohort, tuple[int, ...]]:
    """Make a cohort or add candidates to it; nobody is ever taken off. Gives the cohort and who is new."""
    cohort = Cohort(cohorts / checked_name("cohort", name))
    path = cohort.root / "roll.csv"
    present = read_roll(path) if path.exists() else ()
    new = tuple(sorted(set(candidates) - set(present)))
    cohort.root.mkdir(parents=True, exist_ok=True)
    if present and new:
        # other columns of the instructor's own roll stay: lines are added at its end only
        text = path.read_text(encoding="utf-8-sig")
        columns = next(iter(text.splitlines())).split(",")
        place = [column.strip().strip('"') for column in columns].index("candidate")
        lines = ["," * place + str(one) + "," * (len(columns) - 1 - place) for one in new]
        path.write_text(text.rstrip("\n") + "\n" + "\n".join(lines) + "\n", encoding="utf-8")
    elif new:
        write_roll(path, new)
    _set_up(cohort)
    return cohort, new


def _set_up(cohort: Cohort) -> None:
    """Write the settings file, or set it right where the cohort was moved; let nbgrader find `alembic`.

    nbgrader calls `alembic` by its name, which without an activated venv is not on PATH.
    """
    config, ours = cohort.root / "nbgrader_config.py", Path(__file__).parent
    # a cohort inside the checkout moves with it
    path = os.path.relpath(ours, cohort.root) if ours in cohort.root.resolve().parents else str(ours)
    text = config.read_text(encoding="utf-8") if config.exists() else _CONFIG.format(path=path)
    set_right = _PLACE.sub(lambda _: f"settings = here / {path!r}", text)
    if not config.exists() or set_right != text:
        config.write_text(set_right, encoding="utf-8")
    programs = str(Path(sys.executable).parent)
    if programs not in os.environ.get("PATH", "").split(os.pathsep):
        os.environ["PATH"] = programs + os.pathsep + os.environ.get("PATH", "")
