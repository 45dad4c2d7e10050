"""The wheel is all that an apprentice needs and nothing that an instructor keeps."""

import json
import os
import re
import socket
import subprocess
import sys
import zipfile
from pathlib import Path

import pytest

import workbench
from workbench.course_copy import course_files, course_source

PACKAGE = Path(workbench.__file__).parent
pytestmark = pytest.mark.slow


@pytest.fixture(scope="module")
def wheel(tmp_path_factory) -> Path:
    """The built wheel; built from the checkout, without asking a package index for anything."""
    folder = tmp_path_factory.mktemp("wheel")
    subprocess.run(
        [sys.executable, "-m", "build", "--wheel", "--no-isolation", "--outdir", str(folder), str(PACKAGE.parent)],
        check=True, capture_output=True,
    )  # fmt: skip
    (built,) = folder.glob("*.whl")
    return built


@pytest.fixture(scope="module")
def names(wheel) -> set[str]:
    return set(zipfile.ZipFile(wheel).namelist())


def test_the_wheel_carries_the_whole_course(names):
    """Each file that an apprentice opens is inside the package."""
    course = course_files(course_source())
    assert "start.ipynb" in course
    assert not {f"workbench/course/{name}" for name in course} - names


def test_the_wheel_carries_every_file_of_the_package(names):
    """Tables, settings, style and script of the panels are there, not only Python."""
    kinds = {".py", ".csv", ".json", ".js", ".css"}
    needed = {
        path.relative_to(PACKAGE.parent).as_posix()
        for path in PACKAGE.rglob("*")
        if path.suffix in kinds and not any(part.startswith((".", "__pycache__")) for part in path.parts)
    }
    assert {Path(name).suffix for name in needed} >= {".py", ".csv", ".json"}
    assert not needed - names


def test_the_wheel_installs_the_kernels_hook(names):
    """The file by which each kernel of the environment reads answer lines goes to etc/ipython."""
    assert [name for name in names if name.endswith(".data/data/etc/ipython/ipython_config.py")]


def test_the_wheel_holds_nothing_of_the_instructors(names):
    """No module, lesson source or cohort of the instructor, no test."""
    tops = {name.split("/")[0] for name in names}
    assert tops == {"workbench"} | {top for top in tops if re.fullmatch(r"workbench-[\d.]+\.(dist-info|data)", top)}
    assert not [name for name in names if "instructor" in name or "cohort" in name or name.endswith(".md")]


def test_the_wheel_holds_no_solved_notebook(wheel, names):
    """No notebook in it has a solution line, a typed answer or a result."""
    archive = zipfile.ZipFile(wheel)
    notebooks = [name for name in names if name.endswith(".ipynb")]
    assert notebooks
    for name in notebooks:
        text = archive.read(name).decode("utf-8")
        assert "SOLUTION" not in text and ".solution(" not in text
        for cell in json.loads(text)["cells"]:
            assert not cell.get("outputs")
            if cell["metadata"].get("nbgrader", {}).get("solution"):
                assert "".join(cell["source"]).rstrip().endswith("=")


def test_the_course_opens_from_the_wheel(wheel, tmp_path):
    """Away from any checkout, `python -m workbench` takes the course out of the installed package."""
    zipfile.ZipFile(wheel).extractall(tmp_path / "installed")
    home = tmp_path / "home"
    home.mkdir()
    environment = {**os.environ, "HOME": str(home), "USERPROFILE": str(home)}
    environment["PYTHONPATH"] = str(tmp_path / "installed")
    with socket.socket() as other:  # a port in use ends the start right after the copy is made
        other.bind(("127.0.0.1", 0))
        other.listen()
        done = subprocess.run(
            [sys.executable, "-m", "workbench", "--no-browser", "--port", str(other.getsockname()[1])],
            cwd=home, env=environment, capture_output=True, text=True, timeout=60,
        )  # fmt: skip
    assert "in use" in done.stderr
    copied = home / "workbench-course/start.ipynb"
    assert copied.read_bytes() == (tmp_path / "installed/workbench/course/start.ipynb").read_bytes()
