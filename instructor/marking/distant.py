"""What a cluster's worker does: runs one notebook in an isolated pool of its own machine, gives text back.

The worker keeps its pools warm between notebooks, one for each of its threads.
"""

import hashlib
import json
import os
import struct
import threading
from collections import defaultdict
from functools import cache
from importlib.util import find_spec
from pathlib import Path

_idle: dict[str, list] = defaultdict(list)  # warm pools that have nothing to run now, by their settings
_lock = threading.Lock()


def greet(how: dict) -> dict:
    """Get warm; say which program this is, where it runs and what protects its cells."""
    pool = _take(how)
    _give_back(how, pool)
    return {"program": program(), "machine": os.uname().nodename, "isolated": pool.isolated,
            "protection": pool.protection}


def run(how: dict, content: bytes) -> tuple[bytes, str]:
    """Run one notebook, given as a child gets it; gives what the child would send, and why it ended early."""
    from instructor.marking.running import Cell

    job = json.loads(content)
    cells = [Cell(cell["id"], cell["source"], cell["kept"]) for cell in job["cells"]]
    pool = _take(how)
    try:
        [(_, ran)] = pool.run([(None, cells, job["environment"])])
    except BaseException:
        pool.__exit__()
        raise
    _give_back(how, pool)
    return frames(cells, ran), ran.stopped


def frames(cells, ran) -> bytes:
    """A run in the form in which a child sends it: a frame a cell, the last with all answers, then the end."""
    messages = [{"cell": cell.id, "trouble": ran.troubles.get(cell.id, ""), "outputs": ran.outputs.get(cell.id, [])}
                for cell in cells]
    if messages:
        messages[-1] |= {"answers": dict(ran.answers), "refusals": dict(ran.refusals)}
    contents = [json.dumps(message).encode() for message in (*messages, {"end": True})]
    return b"".join(struct.pack("!I", len(content)) + content for content in contents)


def _take(how: dict):
    """An idle pool, or a new one."""
    from instructor.marking.limits import Limits
    from instructor.marking.pool import Pool

    with _lock:
        if _idle[_name(how)]:
            return _idle[_name(how)].pop()
    hidden = [Path(one) for one in how["hidden"]]  # the instructor's machine may be a worker's too
    return Pool(workers=1, limits=Limits(**how["limits"]), hidden=hidden).__enter__()


def _give_back(how: dict, pool) -> None:
    with _lock:
        _idle[_name(how)].append(pool)


def _name(how: dict) -> str:
    return json.dumps(how, sort_keys=True)


@cache
def program() -> str:
    """A fingerprint of all that reads and runs a notebook: two machines must not read an entry differently."""
    workbench, here = Path(find_spec("workbench").origin).parent, Path(__file__).parent
    files = {path.relative_to(place.parent).as_posix(): path for place in (workbench, here)
             for path in place.rglob("*") if path.suffix in (".py", ".csv")}
    content = hashlib.sha256()
    for name in sorted(files):
        content.update(name.encode() + b"\0" + files[name].read_bytes() + b"\0")
    return content.hexdigest()
