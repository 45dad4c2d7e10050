"""The kit: one zip that an apprentice needs, with no solution in it."""

import importlib.util
import json
import subprocess
import sys
import tempfile
import zipfile
from collections.abc import Iterable, Iterator
from pathlib import Path

from instructor.cohort import Cohort
from instructor.refusal import Refusal
from instructor.release import COURSE, read_slip, released_notebook

CHECKOUT = Path(__file__).parents[1]

_START = """\
HOW TO START

You need Python 3.11 or newer. You do this once:

1. Unzip this file. Open a terminal in the unzipped folder.

   Windows (PowerShell)
     py -m venv .venv
     .venv\\Scripts\\python -m pip install {wheel}

   Linux and macOS
     python3 -m venv .venv
     .venv/bin/python -m pip install {wheel}

   (This fetches JupyterLab and a few other packages. It needs the internet once.)

2. Start. Put your own number in place of 7. Your instructor gave it to you.

   Windows
     .venv\\Scripts\\python -m workbench --folder course --candidate 7

   Linux and macOS
     .venv/bin/python -m workbench --folder course --candidate 7

The course opens in your browser. Next time, do step 2 only.
Your work lies in the folder "course" and is saved as you type.
{handed_out}
TO HAND IN: save, then give your instructor the whole folder "course", as it is or as a zip.

WHAT YOUR MARKS MEAN
The program on your computer works out the right values itself, or it could not check your answers.
So work that nobody watched shows practice. It does not prove what you can do alone.
That is shown in an assessment which your instructor watches.

The figures of this course are for learning. At work, follow the local rules, the maker's data sheet
and the approved data for the job.
"""


def make_kit(cohort: Cohort, assessments: Iterable[str] = (), course: Path = COURSE,
             checkout: Path = CHECKOUT) -> Path:
    """Make the cohort's kit: the course with the cohort's releases, the wheel, START.txt; gives its path.

    assessments: the assessments to put in; those not named stay out, so that none is seen before its day.
    Refused where a notebook in it still holds a solution or an output.
    """
    wanted = {cohort.chosen_release(name) for name in assessments}
    if not (course / "start.ipynb").is_file():
        raise Refusal(f"there is no practice course in {course}: make it with `release --course`")
    files = {f"course/{path.relative_to(course).as_posix()}": path.read_bytes()
             for path in sorted(course.rglob("*")) if _belongs(path.relative_to(course)) and path.is_file()}
    handed_out = []
    for name in cohort.releases():
        slip, _ = released_notebook(cohort, name)
        if slip.mode == "assessment" and name not in wanted:
            continue
        handed_out.append(f"course/{name}/{slip.lesson}.ipynb ({slip.mode})")
        if not _is_practice(slip, course):
            for path in cohort.released(name).iterdir():
                files[f"course/{name}/{path.name}"] = path.read_bytes()
    with tempfile.TemporaryDirectory() as place:
        wheel = _wheel(Path(place), checkout)
        listed = "".join(f"\n  {line}" for line in handed_out)
        lessons = f"\nYour instructor hands out:{listed}\n" if handed_out else ""
        files[wheel.name] = wheel.read_bytes()
        files["START.txt"] = _START.format(wheel=wheel.name, handed_out=lessons).replace("\n", "\r\n").encode()
        part = Path(place) / "kit.zip"
        with zipfile.ZipFile(part, "w", zipfile.ZIP_DEFLATED) as archive:
            for name, content in files.items():
                archive.writestr(f"workbench-{cohort.name}/{name}", content)
        for fault in faults(part.read_bytes()):
            raise Refusal(f"the kit was not made: {fault}")
        target = cohort.root / "kit" / f"workbench-{cohort.name}.zip"
        target.parent.mkdir(exist_ok=True)
        waiting = target.with_suffix(".part")
        waiting.write_bytes(part.read_bytes())
        waiting.replace(target)
    return target


def _belongs(path: Path) -> bool:
    return not any(part.startswith((".", "__")) for part in path.parts) and path.name != "attempts.jsonl"


def _is_practice(slip, course: Path) -> bool:
    """True where the release is the course's own practice lesson, notebook for notebook."""
    own = course / slip.name
    if not (own / "release.json").is_file():
        return False
    known = read_slip(own)
    return (known.sha256, known.mode, known.series) == (slip.sha256, slip.mode, slip.series)


def _wheel(place: Path, checkout: Path) -> Path:
    if importlib.util.find_spec("hatchling") is None:
        raise Refusal("the wheel cannot be built: install hatchling first (python -m pip install hatchling)")
    command = [sys.executable, "-m", "pip", "wheel", "--no-deps", "--no-build-isolation", "--quiet",
               "--disable-pip-version-check", "--wheel-dir", str(place), str(checkout)]
    built = subprocess.run(command, capture_output=True, text=True)
    wheels = sorted(place.glob("workbench-*.whl"))
    if built.returncode or not wheels:
        last = (built.stderr.strip().splitlines() or ["no reason given"])[-1]
        raise Refusal(f"the wheel could not be built: {last}")
    return wheels[0]


def faults(content: bytes) -> Iterator[str]:
    """What must not be in a kit: a solved notebook, an output, anything of the instructor's; wheel included."""
    import io

    with zipfile.ZipFile(io.BytesIO(content)) as archive:
        for name in archive.namelist():
            if "instructor" in name.split("/") or "lessons" in name.split("/"):
                yield f"{name} is the instructor's"
            if name.endswith(".whl"):
                yield from faults(archive.read(name))
            if name.endswith(".ipynb"):
                for cell in json.loads(archive.read(name))["cells"]:
                    source = "".join(cell["source"])
                    if "SOLUTION" in source or "workbench.solution" in source:
                        yield f"{name} holds a solution"
                    if cell.get("outputs"):
                        yield f"{name} holds an output"
