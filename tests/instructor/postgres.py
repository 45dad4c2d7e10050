"""A real PostgreSQL server for tests: its own folder, port and password, ended with the test run."""

import os
import shutil
import signal
import socket
import subprocess
import tempfile
import time
from pathlib import Path

import pytest

PASSWORD = "only for this test"
USER = "marking"


def program(name):
    """The path of one of PostgreSQL's programs, or None."""
    places = sorted(Path("/usr/lib/postgresql").glob("*/bin"), reverse=True)  # Debian puts them beside PATH
    found = [str(place / name) for place in places if (place / name).exists()]
    return found[0] if found else shutil.which(name)


class Server:
    """A server on the loopback that can be stopped and started."""

    def __init__(self, folder):
        self.folder = folder
        with socket.create_server(("127.0.0.1", 0)) as free:
            self.port = free.getsockname()[1]
        (folder / "password").write_text(PASSWORD)
        if os.getuid() == 0:
            for path in (folder, folder / "password"):
                shutil.chown(path, "postgres", "postgres")
        made = self._run("initdb", "-D", "data", "-U", USER, "-A", "scram-sha-256", "--pwfile=password", "--no-sync",
                         "-E", "UTF8")
        assert made.wait() == 0, (folder / "initdb.log").read_text()

    def _run(self, name, *words):
        # it refuses to be root
        other = ["setpriv", "--reuid=postgres", "--regid=postgres", "--clear-groups"] if os.getuid() == 0 else []
        with (self.folder / f"{name}.log").open("a") as log:
            return subprocess.Popen([*other, program(name), *words], cwd=self.folder, stdout=log, stderr=log,
                                    start_new_session=True)

    def start(self):
        self.process = self._run("postgres", "-D", "data", "-k", str(self.folder), "-h", "127.0.0.1", "-p",
                                 str(self.port), "-c", "fsync=off", "-c", "max_connections=20")
        until = time.monotonic() + 30
        while True:
            try:
                self.connect("postgres").close()
                return
            except Exception:
                assert time.monotonic() < until and self.process.poll() is None, (
                    self.folder / "postgres.log").read_text()[-1000:]
                time.sleep(0.1)

    def stop(self):
        """At once, as in a crash: every connection breaks."""
        self.process.send_signal(signal.SIGQUIT)
        self.process.wait(timeout=30)

    def connect(self, database):
        import psycopg

        return psycopg.connect(host="127.0.0.1", port=self.port, user=USER, password=PASSWORD, dbname=database,
                               autocommit=True, connect_timeout=5)

    def new_database(self, name, like="template1"):
        """Make an empty database, or a copy of another; its address without the password."""
        with self.connect("postgres") as connection:
            connection.execute(f'CREATE DATABASE "{name}" TEMPLATE "{like}"')
        return f"postgresql://{USER}@127.0.0.1:{self.port}/{name}"

    def rows(self, database, statement):
        """What a statement finds, asked past nbgrader and SQLAlchemy."""
        with self.connect(database) as connection:
            return connection.execute(statement).fetchall()


@pytest.fixture(scope="module")
def server():
    """A running server; skipped where PostgreSQL is not installed, but not in CI."""
    if not os.environ.get("CI"):
        pytest.importorskip("psycopg", reason="the driver is not installed: pip install '.[cluster]'")
        if program("initdb") is None:
            pytest.skip("PostgreSQL's server is not installed")
    assert program("initdb"), "CI needs PostgreSQL's server"
    folder = Path(tempfile.mkdtemp(prefix="pg-"))  # a socket's path must be short
    made = None
    try:
        made = Server(folder)
        made.start()
        yield made
    finally:
        if made is not None and hasattr(made, "process") and made.process.poll() is None:
            made.stop()
        shutil.rmtree(folder, ignore_errors=True)
