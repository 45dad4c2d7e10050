"""nbgrader's log, kept off the screen: its last error is told in our own words instead."""

import logging
import warnings
from contextlib import contextmanager


class _Kept(logging.Handler):
    """Keeps the log's errors."""

    def __init__(self):
        super().__init__(level=logging.ERROR)
        self.errors: list[str] = []

    def emit(self, record: logging.LogRecord) -> None:
        self.errors.append(record.getMessage())

    def last(self) -> str:
        """The last line of the last error, or nothing."""
        lines = [line for error in self.errors for line in error.splitlines() if line.strip()]
        return lines[-1] if lines else ""


@contextmanager
def nbgrader_log():
    """While open, what nbgrader logs is kept and not shown; its database warnings are passed over."""
    log = logging.getLogger("traitlets")
    before = log.handlers, log.propagate
    kept = _Kept()
    log.handlers, log.propagate = [kept], False
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            yield kept
    finally:
        log.handlers, log.propagate = before
