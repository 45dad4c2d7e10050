"""Carries notebooks to the workers of a Dask cluster, and text back; a process of its own.

Who talks to Dask loads objects that others made. So the instructor's process does not: it hands this one
notebooks as it hands them to a warm parent, and takes from it what it takes from a child, nothing more. On
Linux this process sees programs only, and the network.

Each notebook is given to one worker. When that worker is lost, its notebooks are tried again, now each alone on
a worker, so that one which loses two is known for certain, and its neighbours are not blamed.
"""

import asyncio
import json
import os
import resource
import socket
import struct
import sys
from collections import deque
from dataclasses import dataclass, field
from itertools import count
from pathlib import Path

from instructor.marking import distant, namespaces
from instructor.marking.limits import Limits
from instructor.marking.warm import NUMBER

CONNECT_SECONDS = 10
WARM_SECONDS = 60  # for a worker's first pool
PATIENCE_SECONDS = 15  # beyond a notebook's own time and a pool's warming, before its worker counts as lost
ALONE_SECONDS = 60  # without a worker, before the cluster is given up
LOOK_SECONDS = 0.3
MOST_ATTEMPTS = 2
MOST_BYTES = 4_000_000_000  # of this process's memory: nobody sends that much


@dataclass(eq=False)
class Job:
    """A notebook on its way."""

    number: int
    link: socket.socket
    content: bytes = b""
    attempts: int = 0


@dataclass(eq=False)
class Place:
    """A worker: its notebooks, and whether it is to get any."""

    threads: int
    gone: asyncio.Future
    fit: bool = False
    unfit: str = ""  # why it gets none
    alone: bool = False  # it has a notebook that lost a worker before, and gets no other meanwhile
    jobs: set = field(default_factory=set)


class Courier:
    """Takes notebooks from the control socket until it closes."""

    def __init__(self, control: socket.socket, how: dict):
        self.control, self.address, self.how = control, how["address"], how
        self.told = {"limits": how["limits"], "hidden": how["hidden"]}
        self.seconds = Limits(**how["limits"]).notebook_seconds + WARM_SECONDS + PATIENCE_SECONDS
        self.places: dict[str, Place] = {}
        self.waiting: deque[Job] = deque()
        self.greeted: dict[str, dict] = {}
        self._number, self._tasks, self._sending = count(), set(), asyncio.Lock()

    async def serve(self, confined: bool, why: str) -> None:
        """Connect, say what protects, then carry."""
        from distributed import Client

        try:
            self.client = await Client(self.address, asynchronous=True, timeout=CONNECT_SECONDS,
                                       set_as_default=False, name="marking")
        except (OSError, ValueError, TimeoutError) as failed:
            await self._say({"refused": f"no scheduler answers at {self.address}: {str(failed)[:200]}"})
            return
        await self._look()
        if not self.places:
            await self._say({"refused": f"the scheduler at {self.address} has no workers"})
            return
        await asyncio.wait(list(self._tasks), timeout=WARM_SECONDS)
        await self._say(self._hello(confined, why))
        asyncio.get_running_loop().add_reader(self.control, self._take)
        lonely = 0.0
        while lonely < ALONE_SECONDS:
            await asyncio.sleep(LOOK_SECONDS)
            await self._look()
            self._hand_out()
            lonely = 0.0 if any(place.fit for place in self.places.values()) else lonely + LOOK_SECONDS
        raise SystemExit(f"no worker is left at {self.address}")

    def _hello(self, confined: bool, why: str) -> dict:
        fit = [self.greeted[address] for address, place in self.places.items() if place.fit]
        unfit = [f"{address}: {place.unfit or 'it is not ready'}" for address, place in self.places.items()
                 if not place.fit]
        if not fit:
            return {"refused": f"no worker at {self.address} can be used: {unfit[0]}"}
        said = sorted({one["protection"] for one in fit})
        open_ones = [one["protection"] for one in fit if not one["isolated"]]
        left = f" ({len(unfit)} not used: {unfit[0]})" if unfit else ""
        return {"isolated": confined and not open_ones, "why": (open_ones or [f"the cluster's courier: {why}"])[0],
                "protection": f"on {len(fit)} worker{'s' * (len(fit) > 1)} of {self.address}{left}, {'; '.join(said)}"}

    async def _look(self) -> None:
        """See which workers there are."""
        threads = await self.client.nthreads()
        for address in self.places.keys() - threads.keys():
            self.places.pop(address).gone.set_result(None)
        for address in threads.keys() - self.places.keys():
            self.places[address] = Place(threads[address], asyncio.get_running_loop().create_future())
            self._start(self._greet(address, self.places[address]))

    async def _greet(self, address: str, place: Place) -> None:
        """A worker gets notebooks once it has said that it is as it should be."""
        said = await self._ask(address, place, distant.greet, self.told)
        if not isinstance(said, dict):
            place.unfit = str(said)
        elif said["program"] != self.how["program"]:
            place.unfit = "its workbench is another version: bring it to the instructor's"
        elif self.how["require_isolation"] and not said["isolated"]:
            place.unfit = said["protection"]
        else:
            place.fit, self.greeted[address] = True, said
            self._hand_out()

    def _take(self) -> None:
        """The next notebook, or the end."""
        try:
            message, descriptors, _, _ = socket.recv_fds(self.control, NUMBER.size, 1)
        except BlockingIOError:
            return
        if not message:
            os._exit(0)  # the scheduler forgets the work of a client that is gone
        job = Job(NUMBER.unpack(message)[0], socket.socket(fileno=descriptors[0]))
        job.link.setblocking(False)
        self._start(self._receive(job))

    async def _receive(self, job: Job) -> None:
        (size,) = struct.unpack("!I", await self._exactly(job.link, 4))
        job.content = await self._exactly(job.link, size)
        self.waiting.append(job)
        self._hand_out()

    async def _exactly(self, link: socket.socket, size: int) -> bytes:
        content = bytearray()
        while len(content) < size:
            content += await asyncio.get_running_loop().sock_recv(link, size - len(content)) or sys.exit("cut off")
        return bytes(content)

    def _hand_out(self) -> None:
        """Give waiting notebooks to workers that have room; one more than it runs waits at each."""
        for job in list(self.waiting):
            free = [(len(place.jobs), address) for address, place in self.places.items() if place.fit
                    and not place.alone and len(place.jobs) <= (place.threads if not job.attempts else 0)]
            if not free:
                continue
            address = min(free)[1]
            place = self.places[address]
            self.waiting.remove(job)
            place.alone = job.attempts > 0
            place.jobs.add(job)
            self._start(self._carry(job, address, place))

    async def _carry(self, job: Job, address: str, place: Place) -> None:
        """One attempt at a notebook."""
        result = await self._ask(address, place, distant.run, self.told, job.content)
        place.jobs.discard(job)
        place.alone = False
        match result:
            case (bytes() as frames, str() as why):
                await self._deliver(job, frames, why)
            case None:
                job.attempts += 1
                if job.attempts >= MOST_ATTEMPTS:
                    await self._deliver(job, b"", "the worker that ran it was lost, twice, the second time running "
                                                  "nothing else")
                else:
                    self.waiting.append(job)
            case fault:  # not the notebook's: this worker cannot run any
                place.fit, place.unfit = False, str(fault)
                self.waiting.append(job)
        self._hand_out()

    async def _ask(self, address: str, place: Place, what, *told):
        """What a worker answers: None where it was lost, a text where it failed."""
        from distributed.client import FutureCancelledError
        from distributed.scheduler import KilledWorker

        future = self.client.submit(what, *told, key=f"marking-{os.urandom(8).hex()}-{next(self._number)}",
                                    workers=[address], allow_other_workers=False, pure=False)
        answer = asyncio.ensure_future(future.result())
        await asyncio.wait({answer, place.gone}, timeout=self.seconds, return_when=asyncio.FIRST_COMPLETED)
        try:
            if not answer.done():
                if not place.gone.done():  # it hangs
                    place.fit, place.unfit = False, "it gave no answer in time"
                return None
            return answer.result()
        except (KilledWorker, FutureCancelledError):
            return None
        except Exception as fault:
            return f"{type(fault).__name__}: {str(fault)[:300]}"
        finally:
            answer.cancel()
            future.release()

    async def _deliver(self, job: Job, frames: bytes, why: str) -> None:
        try:
            await asyncio.get_running_loop().sock_sendall(job.link, frames)
        except OSError:  # it takes no more: more than any answers need
            pass
        job.link.close()
        await self._say([job.number, why, 0.0])

    async def _say(self, message) -> None:
        async with self._sending:
            await asyncio.get_running_loop().sock_sendall(self.control, json.dumps(message).encode() + b"\n")

    def _start(self, coroutine) -> None:
        """Run it beside; a fault in it is ours, and ends everything."""
        task = asyncio.ensure_future(coroutine)
        self._tasks.add(task)
        task.add_done_callback(self._ended)

    def _ended(self, task: asyncio.Task) -> None:
        self._tasks.discard(task)
        if not task.cancelled() and task.exception() is not None:
            print(repr(task.exception()), file=sys.stderr, flush=True)
            os._exit(1)


def main(arguments: list[str]) -> None:
    """Enter the room, connect, serve. One argument: how, as JSON."""
    how = json.loads(arguments[0])
    control = socket.socket(fileno=how["control"])
    control.setblocking(False)
    home, confined, why = how["home"], False, "as asked"
    if how["isolate"]:
        try:
            namespaces.enter([Path(one) for one in how["shown"]], [Path(one) for one in how["hidden"]],
                             network=True).close()
            home, confined = namespaces.WORKPLACE, True
        except namespaces.NoNamespaces as refused:
            why = str(refused)
    os.environ["HOME"] = home
    os.chdir(home)
    resource.setrlimit(resource.RLIMIT_AS, (MOST_BYTES, MOST_BYTES))

    async def serve():
        await Courier(control, how).serve(confined, why)

    asyncio.run(serve())


if __name__ == "__main__":
    main(sys.argv[1:])
