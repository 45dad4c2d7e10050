"""The corpus in one batch: collected, marked with isolation, and what was found afterwards."""

import hashlib
import os
import shutil
import socket
import time
from dataclasses import dataclass
from pathlib import Path

import pytest

from instructor.cohort import Cohort, enrol
from instructor.collection import Collected, collect
from instructor.marking.batch import mark
from instructor.marking.pool import Pool
from instructor.marking.recording import Record, scores
from instructor.release import release
from tests.instructor.hostile.case import LESSON
from tests.instructor.hostile.corpus import CORPUS, LIMITS, hand_in, place_of


@dataclass(frozen=True)
class Batch:
    """What one batch left."""

    cohort: Cohort
    collected: Collected
    records: dict[int, Record]
    scores: dict[tuple[int, str], tuple[float | None, bool]]
    protection: str
    lost: int  # warm parents that were brought down
    seconds: tuple[float, float]  # collecting, marking
    changed: list[str]  # files of the cohort that were changed, and files left outside
    visitors: int  # connections to the port


@pytest.fixture(scope="session")
def ground(tmp_path_factory):
    """A cohort with the lesson released and everybody on its roll; nothing handed in. Only copies are used."""
    cohort, _ = enrol("hostile", tuple(range(1, 2 * len(CORPUS) + 1)), tmp_path_factory.mktemp("hostile"))
    release(cohort, LESSON, LESSON)
    return cohort


def run_batch(ground: Cohort, folder: Path, names, **how) -> Batch:
    """Hand in these cases, collect, mark; how: for the pool."""
    os.environ["HOSTILE_SECRET"] = "1"
    shutil.copytree(ground.root, folder / "hostile")
    cohort, given, outside = Cohort(folder / "hostile"), folder / "given", folder / "outside"
    given.mkdir()
    outside.mkdir()
    for path in (folder, *folder.parents[:3]):  # so that only isolation keeps the cells out
        if path.stat().st_uid == os.getuid() and path != Path("/tmp"):
            path.chmod(0o777)
    outside.chmod(0o777)
    with socket.create_server(("127.0.0.1", 0)) as server:
        server.setblocking(False)
        for name in names:
            hand_in(given, cohort, name, place_of(name, cohort, outside, server.getsockname()[1]))
        began = time.monotonic()
        collected = collect(cohort, LESSON, [given])
        between = time.monotonic()
        before = fingerprints(cohort, outside)
        with Pool(limits=LIMITS, hidden=(cohort.root,), **how) as pool:
            present = [one for one in cohort.roll if cohort.submitted(one, LESSON).is_dir()]
            found = {kept.candidate: kept for kept in mark(cohort, LESSON, present, pool=pool)}
            ended = time.monotonic()
        if any("outlived" in CORPUS[name].cell for name in names):
            time.sleep(2.0)  # what tries to outlive its notebook has had its time
        after = fingerprints(cohort, outside)
        changed = [path for path in before | after if before.get(path) != after.get(path)]
        seconds = between - began, ended - between
        return Batch(cohort, collected, found, scores(cohort, LESSON), pool.protection, pool.lost, seconds, changed,
                     visitors(server))


def fingerprints(cohort: Cohort, outside: Path) -> dict[str, str]:
    """Every file that marking itself must leave as it is."""
    ours = ("marked/", "gradebook.db")
    paths = [(path, str(path.relative_to(top))) for top in (cohort.root, outside) for path in top.rglob("*")]
    return {name: hashlib.sha256(path.read_bytes()).hexdigest()
            for path, name in paths if path.is_file() and not name.startswith(ours)}


def visitors(server: socket.socket) -> int:
    count = 0
    while True:
        try:
            server.accept()[0].close()
        except BlockingIOError:
            return count
        count += 1


@pytest.fixture(scope="session")
def batch(ground, tmp_path_factory):
    """The whole corpus, each case with an honest neighbour, isolation on."""
    return run_batch(ground, tmp_path_factory.mktemp("batch"), list(CORPUS))
