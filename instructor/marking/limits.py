"""How much a notebook's cells may use: time, memory, processes, files, output. Set in the child, and watched.

The system's own limits hold in the child; what they cannot count (time on the clock, memory of all its
processes together, bytes sent) is watched from outside.
"""

import resource
from dataclasses import asdict, dataclass


@dataclass(frozen=True)
class Limits:
    """Times in seconds, sizes in bytes. An honest lesson takes 0.05 s and a tenth of the memory."""

    cell_seconds: float = 8.0  # on the clock; then the cell is told to stop, and the next one runs
    notebook_seconds: float = 30.0  # on the clock; then everything is ended
    cpu_seconds: int = 20  # of one process
    memory_bytes: int = 1_200_000_000  # address space of one process, 0.4 GB of it the warm parent's
    together_bytes: int = 800_000_000  # memory in use by all its processes
    processes: int = 16
    open_files: int = 64
    file_bytes: int = 8_000_000
    folder_bytes: int = 16_000_000
    folder_files: int = 256
    output_bytes: int = 20_000  # text shown by one cell
    picture_bytes: int = 400_000  # one picture; three of them a notebook
    result_bytes: int = 4_000_000  # all that leaves a notebook's run

    def data(self) -> dict:
        """As plain data."""
        return asdict(self)


def bind(limits: Limits, memory: bool = True) -> None:
    """Set this process's own limits, for good; what it starts inherits them."""
    wanted = {
        resource.RLIMIT_CPU: limits.cpu_seconds,
        resource.RLIMIT_NOFILE: limits.open_files,
        resource.RLIMIT_FSIZE: limits.file_bytes,
        resource.RLIMIT_CORE: 0,
        resource.RLIMIT_NPROC: limits.processes,
    }
    if memory:
        wanted[resource.RLIMIT_AS] = limits.memory_bytes
    for what, most in wanted.items():
        hard = resource.getrlimit(what)[1]
        most = most if hard == resource.RLIM_INFINITY else min(most, hard)
        try:
            resource.setrlimit(what, (most, most))
        except (ValueError, OSError):  # a system that knows no such limit: what is watched outside still holds
            continue
