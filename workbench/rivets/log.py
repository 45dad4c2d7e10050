"""The batch log: one JSON line an event, only ever appended, on the disk before the call returns.

A power cut costs at most the line being written. Half a line is left where it is, reported, and read past. Times are
ISO 8601 with their offset, so that elapsed time is right through midnight and through a change of the clocks.
"""

import json
import os
from dataclasses import dataclass, replace
from datetime import datetime
from pathlib import Path

from workbench.refusals import refuse, whole
from workbench.rivets.batches import Batch

# what happened -> what must be said with it
EVENTS = {
    "quenched": ("alloy", "rivets", "heats"),  # the last rivet is under water; heats in all by the tally on the tag
    "stored": ("store_degc",),  # null where nobody read the thermometer
    "issued": ("rivets",),  # a portion leaves the store; it gets the next number
    "returned": (),  # a portion was put back: its clock is no longer known
    "closed": (),  # driven, or in the tin for re-treatment
}


@dataclass(frozen=True)
class Kept:
    """A batch or portion that is still about: its Batch (minutes since 1970) and how many rivets."""

    batch: Batch
    rivets: int


def append(path, what, batch, at, **said):
    """Add one event and have it on the disk. what: a key of EVENTS; batch: as on the tag, a portion as tag/2;
    at: datetime with its offset; said: what the event needs. Gives the event."""
    if what not in EVENTS:
        refuse("event", what, f"must be one of {', '.join(EVENTS)}")
    if set(said) != set(EVENTS[what]):
        refuse("event", what, f"needs {', '.join(EVENTS[what]) or 'nothing more'}")
    for count in {"rivets", "heats"} & set(said):
        whole(count, said[count])
    if not isinstance(batch, str) or not batch.strip():
        refuse("batch", batch, "must be the name on the tag")
    if not isinstance(at, datetime) or at.utcoffset() is None:
        refuse("at", at, "must be a date and time with its offset from UTC", "as 2026-11-25T23:50+00:00")
    event = {"at": at.isoformat(timespec="seconds"), "what": what, "batch": batch.strip(), **said}
    events, _ = read(path) if Path(path).exists() else ((), ())
    still_about([*events, event])  # what cannot have happened is not written
    path = Path(path)
    new = not path.exists()
    with open(path, "ab+") as held:
        held.seek(0, os.SEEK_END)
        torn = False
        if held.tell():
            held.seek(-1, os.SEEK_END)
            torn = held.read(1) != b"\n"
        held.write((b"\n" if torn else b"") + json.dumps(event, ensure_ascii=False).encode() + b"\n")
        held.flush()
        os.fsync(held.fileno())
    if new and os.name == "posix":  # the name in its folder must last too
        folder = os.open(path.resolve().parent, os.O_RDONLY)
        try:
            os.fsync(folder)
        finally:
            os.close(folder)
    return event


def read(path):
    """(events, faults): the events in the order written, and a sentence for each line that cannot be read."""
    events, faults = [], []
    for number, line in enumerate(Path(path).read_bytes().split(b"\n"), 1):
        if not line.strip():
            continue
        try:
            event = json.loads(line.decode())
            datetime.fromisoformat(event["at"]).astimezone()
            known = event["what"] in EVENTS and all(name in event for name in (*EVENTS[event["what"]], "batch"))
        except (ValueError, KeyError, TypeError):
            known = False
        if known:
            events.append(event)
        else:
            faults.append(f"line {number} cannot be read: {line[:40].decode(errors='replace')!r}; "
                          "was the program stopped while it wrote?")
    return events, faults


def still_about(events):
    """What the events leave: {name: Kept} of batches in or before the store, and of portions out of it."""
    found, portions = {}, {}
    for event in events:
        name, what = event["batch"], event["what"]
        minute = datetime.fromisoformat(event["at"]).timestamp() / 60
        if what == "quenched":
            batch = Batch(name, str(event["alloy"]), minute, heats=int(event["heats"]))
            found[name] = Kept(batch, int(event["rivets"]))
            continue
        if name not in found:
            refuse("batch", name, "is not in the log, or is closed", "was its quench entered?")
        held = found[name]
        if what == "stored":
            batch = replace(held.batch, stored_min=minute, store_degc=event["store_degc"])
            found[name] = replace(held, batch=batch)
        elif what == "issued":
            taken = int(event["rivets"])
            if taken > held.rivets:
                refuse("rivets", taken, f"are more than the {held.rivets} left of batch {name}")
            portions[name] = portions.get(name, 0) + 1
            portion = f"{name}/{portions[name]}"
            out = minute if held.batch.stored_min is not None else None
            found[portion] = Kept(replace(held.batch, name=portion, out_min=out), taken)
            found[name] = replace(held, rivets=held.rivets - taken)
            if not found[name].rivets:
                del found[name]
        elif what == "returned":
            found[name] = replace(held, batch=replace(held.batch, returned=True))
        else:
            del found[name]
    return found
