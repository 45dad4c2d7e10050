"""Runs notebooks on the workers of a Dask cluster; to the other stages it is a pool.

Only this stage leaves the instructor's machine: cells go out as data, text comes back and is looked at as if a
child had sent it. No answer is judged elsewhere, and no worker sees the roll, the gradebook or another's work.
"""

import re
from collections.abc import Iterator, Sequence
from importlib.util import find_spec
from pathlib import Path

from instructor.marking import distant, namespaces
from instructor.marking.arriving import LONGEST_SAID
from instructor.marking.limits import Limits
from instructor.marking.pool import Pool
from instructor.marking.running import Run
from instructor.refusal import Refusal

PROGRAM = ("-P", "-m", "instructor.marking.courier")
AT_ONCE = 127  # notebooks that are with the cluster at any time
SILENT_SECONDS = 300  # without any result; the workers themselves are watched from nearer
_ADDRESS = re.compile(r"(tcp://)?([\w.-]+|\[[0-9a-fA-F:]+\]):\d{1,5}")
_ETC = ("hosts", "host.conf", "nsswitch.conf", "resolv.conf")
_PROC = ("stat", "meminfo", "1/stat", "1/statm", "1/status")  # Dask asks what its own process uses


class Cluster(Pool):
    """A pool whose notebooks run on a cluster's workers. address: the scheduler's, such as tcp://10.0.0.2:8786."""

    def __init__(self, address: str, limits: Limits = Limits(), require_isolation: bool = False,  # noqa: B008
                 hidden: Sequence[Path] = ()):
        if not _ADDRESS.fullmatch(address):
            raise Refusal(f"{address!r} is no scheduler's address: write it as tcp://HOST:8786")
        if find_spec("distributed") is None:
            raise Refusal("a cluster needs Dask here and on its workers: pip install '.[instructor,cluster]'")
        super().__init__(workers=1, limits=limits, require_isolation=require_isolation, hidden=hidden,
                         at_once=AT_ONCE)
        self.address, self.patience = address, SILENT_SECONDS

    def _program(self) -> tuple[Sequence[str], dict]:
        here = Path(__file__).parent
        shown = [here.parent / "__init__.py"]
        shown += [here / f"{name}.py" for name in ("__init__", "courier", "distant", "limits", "namespaces", "warm",
                                                   "cells")]
        files = [Path("/etc") / name for name in _ETC]
        files += [path.resolve() for path in files if path.is_symlink()]
        shown += [*namespaces.programs(), *files, *(Path("/proc") / name for name in _PROC)]
        return PROGRAM, {"shown": [str(one) for one in shown], "address": self.address,
                         "program": distant.program(), "require_isolation": self.require_isolation}

    def _in_vain(self, died: Exception) -> str:
        return f"the cluster at {self.address} cannot be used: {died}"

    def _greeted(self, worker, hello: dict) -> None:
        if "refused" in hello:
            raise Refusal(str(hello["refused"])[:LONGEST_SAID])
        super()._greeted(worker, {"isolated": hello["isolated"] is True, "why": str(hello["why"])[:LONGEST_SAID]})
        self.protection = str(hello["protection"])[:LONGEST_SAID]

    def _protection(self, hello: dict) -> str:
        return self.protection

    def _listen(self, worker) -> Iterator[tuple[object, Run]]:
        try:
            yield from super()._listen(worker)
        except (ValueError, TypeError, KeyError, AttributeError, RecursionError):  # it is not itself any more
            yield from self._lost(worker, "the process that talks to it sent what it never sends")

    def _lost(self, worker, why: str) -> Iterator[tuple[object, Run]]:
        """Nothing that was out there counts: it is run again next time."""
        self._workers.remove(worker)
        said = self._stop(worker)
        raise Refusal(f"the cluster at {self.address} cannot be used any longer ({said or why}); what was marked "
                      "is kept: run the same command again, or without --cluster")
        yield
