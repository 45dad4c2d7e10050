"""Where a cohort's gradebook lies: in its folder, or in a PostgreSQL database of its own.

The address goes to the cohort's nbgrader_config.py, so that nbgrader's own commands use it as well. A password
never does: PostgreSQL's driver takes it from the environment variable PGPASSWORD, or from its file ~/.pgpass.
"""

import json
import re

from instructor.cohort import Cohort
from instructor.refusal import Refusal

DRIVER = "postgresql+psycopg"
PASSWORD = "PGPASSWORD"
_LINE = re.compile(r"^c\.CourseDirectory\.db_url = .*\n", re.MULTILINE)


def checked_url(text: str) -> str:
    """An address as nbgrader takes it; refused where it is no database, or holds a password."""
    from sqlalchemy.engine import make_url
    from sqlalchemy.exc import ArgumentError

    form = "write postgresql://USER@HOST:5432/DATABASE"
    try:
        url = make_url(text)
    except (ArgumentError, ValueError):
        raise Refusal(f"the database's address cannot be read: {form}") from None
    if url.drivername not in ("postgresql", DRIVER) or not url.database:
        raise Refusal(f"{url.render_as_string()!r} is not a PostgreSQL database's address: {form}")
    if url.password is not None or "password" in url.query:
        raise Refusal(f"leave the password out of the address, which is kept in a file: set {PASSWORD} instead")
    return url.set(drivername=DRIVER).render_as_string()


def use_database(cohort: Cohort, text: str) -> None:
    """Keep a cohort's gradebook in this database from now on; it must be empty, and nothing released yet."""
    url = checked_url(text)
    if url == cohort.db_url:
        return
    if cohort.releases():
        raise Refusal(f"cohort {cohort.name!r} has releases, and its marks are in {cohort.db_url}: "
                      "a gradebook does not move; make a new cohort with --database")
    _look_at(url)
    path = cohort.root / "nbgrader_config.py"
    settings = _LINE.sub("", path.read_text(encoding="utf-8"))
    path.write_text(f"{settings}c.CourseDirectory.db_url = {json.dumps(url)}\n", encoding="utf-8")
    if cohort.db_url != url:
        raise Refusal(f"{path} sets the database elsewhere: take that out first")


def _look_at(url: str) -> None:
    """Refuse a database that cannot be reached, or is another cohort's."""
    from sqlalchemy import create_engine, inspect
    from sqlalchemy.exc import OperationalError

    try:
        engine = create_engine(url)
        tables = inspect(engine).get_table_names()
        engine.dispose()
    except ModuleNotFoundError:
        raise Refusal("a PostgreSQL database needs its driver: pip install '.[instructor,cluster]'") from None
    except OperationalError as failed:
        said = str(failed.orig).strip().splitlines()[-1]
        raise Refusal(f"the database cannot be used: {said} (a password is taken from {PASSWORD})") from None
    if tables:
        raise Refusal(f"the database {url.rpartition('/')[2]!r} is not empty: each cohort needs one of its own")
