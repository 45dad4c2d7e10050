"""Our marks against the unmodified `nbgrader autograde`, and nbgrader's own commands on our results."""

import csv
import json
import re
import shutil
import sqlite3
import subprocess
import sys

import pytest

from instructor.cohort import folder_name
from instructor.marking.batch import records
from instructor.marking.recording import scores
from tests.instructor.conftest import copied

# one of each kind: right with commas, missteps, carried forward, typing faults, unexplained, a raising cell
COMPARED = (2, 5, 7, 8, 12)


def nbgrader(cohort, *words):
    """Run one of nbgrader's commands in the cohort's folder, as an instructor would."""
    return subprocess.run([sys.executable, "-m", "nbgrader", *words], cwd=cohort.root, capture_output=True, text=True)


@pytest.fixture(scope="module")
def stock(finished, tmp_path_factory):
    """The demo's cohort as it was before marking, marked by `nbgrader autograde`."""
    cohort = copied(finished, tmp_path_factory.mktemp("stock"))
    for folder in (cohort.root / "submitted").iterdir():
        if int(folder.name) not in COMPARED:
            shutil.rmtree(folder)
    shutil.rmtree(cohort.root / "marked")
    with sqlite3.connect(cohort.root / "gradebook.db") as book:
        for table in ("grade", "comment", "submitted_notebook", "submitted_assignment", "student"):
            book.execute(f"delete from {table}")
    done = nbgrader(cohort, "autograde", "measuring_screw")
    assert done.returncode == 0, done.stderr[-2000:]
    return cohort


@pytest.mark.slow
def test_our_marks_equal_stock_autograde_in_every_standing(finished, stock, lesson):
    """On the same honest work both give the same mark for every item, a carried-forward slip included."""
    ours = {place: mark for place, mark in scores(finished, lesson).items() if place[0] in COMPARED}
    assert scores(stock, lesson) == ours
    kept = records(finished, lesson)
    items = [item for one in COMPARED for item in kept[one].items.values()]
    assert {item["standing"] for item in items} == {"right", "known misstep", "not yet", "not judged"}
    assert "carried-forward" in {item["tag"] for item in items}
    assert len(set(ours.values())) > 2


@pytest.mark.slow
def test_nbgrader_writes_feedback_and_exports_our_marks(marked, lesson):
    """`nbgrader generate_feedback` and `export` run on a cohort that we marked, beside our own pages."""
    done = nbgrader(marked, "generate_feedback", lesson, "--student", "004")
    assert done.returncode == 0, done.stderr[-2000:]
    page = (marked.root / "feedback" / folder_name(4) / lesson / f"{lesson}.html").read_text()
    kept = records(marked, lesson)[4]
    found = re.search(r"Score:\s*([\d.]+)\s*/\s*([\d.]+)", page)
    assert float(found[1]) == kept.marks
    assert (marked.root / "feedback" / folder_name(4) / f"{lesson}.html").exists()
    done = nbgrader(marked, "export", "--to", "grades.csv")
    assert done.returncode == 0, done.stderr[-2000:]
    with (marked.root / "grades.csv").open() as handle:
        exported = {row["student_id"]: float(row["score"]) for row in csv.DictReader(handle)}
    assert exported == {folder_name(one): kept.marks for one, kept in records(marked, lesson).items()}


@pytest.mark.slow
def test_the_form_grading_screen_opens_a_notebook_that_we_marked(marked, lesson, tmp_path):
    """nbgrader's screen in a Jupyter server lists the submissions and shows a marked notebook."""
    import os
    import socket
    import time
    import urllib.request

    with socket.socket() as trial:
        trial.bind(("127.0.0.1", 0))
        port = trial.getsockname()[1]
    log = (tmp_path / "log").open("wb")
    server = subprocess.Popen(
        [sys.executable, "-m", "jupyter_server", f"--port={port}", "--no-browser", "--allow-root",
         "--IdentityProvider.token=", "--ServerApp.password=", f"--ServerApp.root_dir={marked.root}",
         "--ServerApp.jpserver_extensions={'nbgrader.server_extensions.formgrader': True}"],
        cwd=marked.root, stdout=log, stderr=log,
        env={**os.environ, "HOME": str(tmp_path), "JUPYTER_CONFIG_DIR": str(tmp_path)},
    )

    def get(path):
        with urllib.request.urlopen(f"http://127.0.0.1:{port}{path}", timeout=60) as answer:
            return answer.read().decode()

    try:
        for _ in range(150):
            try:
                get("/api")
                break
            except OSError:
                time.sleep(0.2)
        listed = json.loads(get(f"/formgrader/api/submitted_notebooks/{lesson}/{lesson}"))
        fourth = next(one for one in listed if one["student"] == "004")
        assert fourth["score"] == records(marked, lesson)[4].marks
        page = get(f"/formgrader/submissions/{fourth['id']}/")
        assert "Known misstep" in page
    finally:
        server.terminate()
        server.wait(20)
        log.close()
