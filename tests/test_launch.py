"""Opening the course: the apprentice's own copy, its updates, and folders that are refused."""

import json
import os
import shutil
import socket
import subprocess
import sys

import pytest

from workbench import launch
from workbench.course_copy import (
    DEFAULT_FOLDER,
    NUMBER,
    PACKAGE,
    PLACED,
    Refused,
    course_source,
    place,
    set_candidate,
    usable,
)


def notebook(text: str, output: str | None = None) -> str:
    outputs = [{"output_type": "stream", "name": "stdout", "text": output}] if output else []
    cell = {"id": "one", "cell_type": "code", "source": text, "metadata": {}, "outputs": outputs}
    return json.dumps({"cells": [cell], "metadata": {}, "nbformat": 4, "nbformat_minor": 5})


@pytest.fixture
def source(tmp_path):
    course = tmp_path / "source"
    (course / "screw").mkdir(parents=True)
    (course / "start.ipynb").write_text(notebook("start"))
    (course / "screw/screw.ipynb").write_text(notebook("travel = "))
    (course / "screw/release.json").write_text('{"series": 1}')
    (course / ".keep").write_text("")
    return course


@pytest.fixture
def copy(tmp_path, source):
    folder = usable(tmp_path / "copy", source)
    place(folder, source)
    return folder


def test_a_first_start_copies_the_whole_course(copy, source):
    """Every file of the course is there, hidden files are not."""
    assert (copy / "start.ipynb").read_bytes() == (source / "start.ipynb").read_bytes()
    assert (copy / "screw/release.json").is_file()
    assert not (copy / ".keep").exists()


def test_a_second_start_changes_nothing(copy, source):
    """With the same course nothing is added, refreshed or reported as kept."""
    update = place(copy, source)
    assert (update.added, update.refreshed, update.kept) == ([], [], [])


def test_new_lessons_are_added(copy, source):
    """A lesson that the course gained arrives at the next start."""
    (source / "rivet").mkdir()
    (source / "rivet/rivet.ipynb").write_text(notebook("grip = "))
    assert place(copy, source).added == ["rivet/rivet.ipynb"]
    assert (copy / "rivet/rivet.ipynb").is_file()


def test_a_file_as_it_was_placed_is_refreshed(copy, source):
    """A correction of the course reaches an apprentice who has not touched the page."""
    (source / "start.ipynb").write_text(notebook("start, corrected"))
    assert place(copy, source).refreshed == ["start.ipynb"]
    assert "corrected" in (copy / "start.ipynb").read_text()


def test_only_running_a_notebook_is_no_change_to_it(copy, source):
    """Outputs and formatting that JupyterLab saved do not keep a correction away."""
    (copy / "start.ipynb").write_text(notebook("start", output="hello"))
    (source / "start.ipynb").write_text(notebook("start, corrected"))
    assert place(copy, source).refreshed == ["start.ipynb"]


def test_answers_are_never_overwritten(copy, source):
    """A lesson that the apprentice typed in stays byte for byte, and the keeping is reported each time."""
    mine = notebook("travel = 3.25 mm", output="right")
    (copy / "screw/screw.ipynb").write_text(mine)
    (source / "screw/screw.ipynb").write_text(notebook("# newer\ntravel = "))
    for _ in range(2):
        assert place(copy, source).kept == ["screw/screw.ipynb"]
        assert (copy / "screw/screw.ipynb").read_text() == mine


def test_a_started_lesson_keeps_its_slip_too(copy, source):
    """The slip says which numbers the lesson's questions hold: it is not changed under typed answers."""
    (copy / "screw/screw.ipynb").write_text(notebook("travel = 3.25 mm"))
    (source / "screw/release.json").write_text('{"series": 2}')
    assert place(copy, source).kept == ["screw/release.json"]
    assert json.loads((copy / "screw/release.json").read_text()) == {"series": 1}


def test_an_own_file_with_a_lessons_name_is_not_overwritten(copy, source):
    """A file that the launcher never placed is the apprentice's, whatever it holds."""
    (copy / "notes.txt").write_text("mine")
    (source / "notes.txt").write_text("the course's")
    assert place(copy, source).kept == ["notes.txt"]
    assert (copy / "notes.txt").read_text() == "mine"


@pytest.mark.parametrize("damage", ["", "[1, 2]", "\x00\xff"])
def test_a_damaged_note_overwrites_nothing(copy, source, damage):
    """Where it is not known what was placed, everything that differs counts as the apprentice's."""
    (copy / PLACED).write_text(damage)
    (source / "start.ipynb").write_text(notebook("start, corrected"))
    assert place(copy, source).kept == ["start.ipynb"]
    assert "corrected" not in (copy / "start.ipynb").read_text()


def test_a_damaged_notebook_counts_as_changed(copy, source):
    """A notebook that cannot be read is left for the apprentice or the instructor to rescue."""
    (copy / "start.ipynb").write_text("{ half a noteb")
    (source / "start.ipynb").write_text(notebook("start, corrected"))
    assert place(copy, source).kept == ["start.ipynb"]


def test_a_deleted_file_comes_back(copy, source):
    """Renaming or deleting a page is how to get a fresh one."""
    (copy / "start.ipynb").unlink()
    assert place(copy, source).added == ["start.ipynb"]


def test_the_candidates_number_is_written_once(copy):
    """The number lands in candidate.txt; the same number again is fine."""
    set_candidate(copy, 7)
    set_candidate(copy, 7)
    assert (copy / NUMBER).read_text() == "7\n"


def test_another_candidates_copy_is_refused(copy):
    """A copy with answers to the numbers of candidate 7 does not become candidate 8's."""
    set_candidate(copy, 7)
    with pytest.raises(Refused, match="belongs to candidate 7, not 8"):
        set_candidate(copy, 8)
    assert (copy / NUMBER).read_text() == "7\n"


def run(*words: str, home) -> subprocess.CompletedProcess:
    """The command as a user gives it, away from the checkout."""
    environment = {**os.environ, "HOME": str(home), "USERPROFILE": str(home)}
    return subprocess.run(
        [sys.executable, "-m", "workbench", *words, "--no-browser"],
        capture_output=True, text=True, cwd=home, env=environment, timeout=60,
    )  # fmt: skip


def refused(done: subprocess.CompletedProcess, part: str) -> None:
    assert done.returncode == 2
    assert part in done.stderr
    assert "Traceback" not in done.stderr


def test_a_file_in_the_place_of_the_folder_is_refused(tmp_path):
    """A file's name as the folder: one sentence, exit 2."""
    (tmp_path / "taken").write_text("a letter")
    refused(run("--folder", str(tmp_path / "taken"), home=tmp_path), "is a file, not a folder")
    assert (tmp_path / "taken").read_text() == "a letter"


def test_a_folder_below_a_file_is_refused(tmp_path):
    """A folder that cannot be made: one sentence, exit 2."""
    (tmp_path / "taken").write_text("a letter")
    refused(run("--folder", str(tmp_path / "taken/course"), home=tmp_path), "Choose another folder")


def test_the_course_itself_is_refused(tmp_path):
    """Work typed into the course's own folder would reach the next apprentice: one sentence, exit 2."""
    refused(run("--folder", str(course_source()), home=tmp_path), "is the course itself")
    refused(run("--folder", str(course_source() / "mine"), home=tmp_path), "is the course itself")
    refused(run("--folder", str(PACKAGE), home=tmp_path), "is the course itself")
    assert not (course_source() / "mine").exists()


def test_a_folder_of_other_things_is_refused(tmp_path):
    """The course does not pour itself into somebody's documents."""
    (tmp_path / "letter.txt").write_text("dear")
    refused(run("--folder", str(tmp_path), home=tmp_path), "already holds other things. The course needs")
    assert sorted(path.name for path in tmp_path.iterdir()) == ["letter.txt"]


def test_a_folder_that_cannot_be_written_is_refused(tmp_path, source, monkeypatch):
    """A write that the system denies becomes one sentence (simulated: a superuser may write anywhere)."""
    folder = tmp_path / "locked"
    folder.mkdir()

    def deny(*_, **__):
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr("pathlib.Path.write_bytes", deny)
    with pytest.raises(Refused, match=r"Nothing can be written in .*locked \(Permission denied\)"):
        usable(folder, source)


@pytest.mark.parametrize("number", ["-3", "10000", "seven", "7.5", ""])
def test_a_number_that_is_no_candidates_is_refused(tmp_path, number):
    """Value and rule are echoed, and no copy is made."""
    refused(run("--candidate", number, home=tmp_path), "whole number from 0 to 9999")
    assert not (tmp_path / DEFAULT_FOLDER).exists()


def test_a_port_in_use_is_refused(tmp_path):
    """The asked port belongs to another program: one sentence, exit 2, no second server."""
    with socket.socket() as other:
        other.bind(("127.0.0.1", 0))
        other.listen()
        refused(run("--port", str(other.getsockname()[1]), home=tmp_path), "in use by another program")


def test_jupyter_runs_by_this_python_on_this_machine_only(tmp_path):
    """Another jupyter on PATH is not taken, nobody else on the network is served, no safety is switched off."""
    command = launch.jupyter_command(tmp_path, 8888, browser=True)
    assert command[:3] == [sys.executable, "-m", "jupyterlab"]
    assert "--ServerApp.ip=127.0.0.1" in command
    assert not [word for word in command if "root=" in word.replace("root_dir=", "") or "token" in word]


def test_settings_of_the_course_come_before_those_of_the_user(monkeypatch, tmp_path):
    """Ours is put in front of JUPYTER_CONFIG_PATH; what was there stays behind it."""
    monkeypatch.setenv("JUPYTER_CONFIG_PATH", str(tmp_path))
    paths = launch.environment("secret")["JUPYTER_CONFIG_PATH"].split(os.pathsep)
    assert paths == [str(PACKAGE / "jupyter"), str(tmp_path)]


def test_jupyter_that_dies_is_reported_without_a_traceback(tmp_path, source, monkeypatch, capsys):
    """When JupyterLab ends by itself with an error the apprentice is told where its notes are."""
    monkeypatch.setattr(launch, "jupyter_command", lambda *_: [sys.executable, "-c", "raise SystemExit(3)"])
    folder = usable(tmp_path / "copy", source)
    assert launch.serve(folder, 1, browser=False) == 1
    assert "Its own notes are in" in capsys.readouterr().err


def test_the_course_is_found_beside_the_package_or_inside_it(tmp_path, monkeypatch, source):
    """A checkout has the course beside the package, an installed package has it inside."""
    package = tmp_path / "workbench"
    package.mkdir()
    monkeypatch.setattr("workbench.course_copy.PACKAGE", package)
    with pytest.raises(Refused, match="install workbench again"):
        course_source()
    shutil.copytree(source, tmp_path / "course")
    assert course_source() == tmp_path / "course"
    shutil.copytree(source, package / "course")
    assert course_source() == package / "course"
