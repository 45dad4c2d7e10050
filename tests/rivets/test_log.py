"""The batch log: on the disk before the call returns, readable after any stop."""

import os
import signal
import subprocess
import sys
from datetime import UTC, datetime, timedelta, timezone

import pytest

from workbench.rivets import log
from workbench.rivets.batches import USABLE, minutes_left, state
from workbench.rivets.documents import rule

START = datetime(2026, 11, 25, 23, 50, tzinfo=UTC)


def after(minutes):
    return START + timedelta(minutes=minutes)


@pytest.fixture
def written(tmp_path):
    path = tmp_path / "batches.jsonl"
    log.append(path, "quenched", "Wed-night-1", START, alloy="2017", rivets=200, heats=1)
    log.append(path, "stored", "Wed-night-1", after(6), store_degc=-18.0)
    log.append(path, "issued", "Wed-night-1", after(30), rivets=20)
    log.append(path, "issued", "Wed-night-1", after(45), rivets=20)
    return path


def test_portions_keep_the_history_of_their_batch(written):
    """6 min before the store and 5 after it leave 9 of 20 min, past midnight; 160 rivets stay in the store."""
    kept = log.still_about(log.read(written)[0])
    first = kept["Wed-night-1/1"].batch
    at = after(35).timestamp() / 60
    assert minutes_left(first, at, rule("navy", "2017")) == pytest.approx(9)
    assert state(first, at, rule("navy", "2017")) == USABLE
    assert {name: one.rivets for name, one in kept.items()} == {
        "Wed-night-1": 160, "Wed-night-1/1": 20, "Wed-night-1/2": 20}


def test_a_log_cut_at_any_byte_is_read_up_to_there_and_goes_on(written):
    """Cut anywhere, every whole line before the cut is read; the next event is added and read back."""
    whole = written.read_bytes()
    for cut in range(1, len(whole)):
        written.write_bytes(whole[:cut])
        events, faults = log.read(written)
        lines = whole[:cut].count(b"\n")
        assert lines <= len(events) <= lines + 1 and len(faults) <= 1
        if len(events):
            log.append(written, "closed", "Wed-night-1", after(60))
            assert log.read(written)[0] == [*events, {"at": after(60).isoformat(), "what": "closed",
                                                      "batch": "Wed-night-1"}]


def test_a_line_spoiled_in_the_middle_is_named_and_read_past(written):
    """A broken line costs itself; its number is said."""
    lines = written.read_bytes().split(b"\n")
    lines[1] = b'{"at": "2026-11-2\xff'
    written.write_bytes(b"\n".join(lines))
    events, faults = log.read(written)
    assert len(events) == 3 and len(faults) == 1 and "line 2 cannot be read" in faults[0]


@pytest.mark.skipif(os.name != "posix", reason="kills a process by signal")
def test_a_killed_program_loses_no_event_it_said_was_written(tmp_path):
    """Killed in the middle of writing, the log holds every event that had been acknowledged."""
    path = tmp_path / "killed.jsonl"
    program = (
        "import sys\nfrom datetime import UTC, datetime\nfrom workbench.rivets import log\n"
        "for number in range(100000):\n"
        "    said = {'alloy': '2017', 'rivets': 5, 'heats': 1}\n"
        f"    log.append({str(path)!r}, 'quenched', f'b{{number}}', datetime.now(UTC), **said)\n"
        "    print(number, flush=True)\n"
    )
    with subprocess.Popen([sys.executable, "-c", program], stdout=subprocess.PIPE, text=True) as running:
        said = [running.stdout.readline() for _ in range(20)]
        running.send_signal(signal.SIGKILL)
        said += running.stdout.readlines()
    written = {event["batch"] for event in log.read(path)[0]}
    assert written >= {f"b{int(line)}" for line in said if line.endswith("\n")}


def test_every_event_is_forced_to_the_disk(tmp_path, monkeypatch):
    """The file, and at first its folder, are flushed to the disk before the call returns."""
    forced = []
    monkeypatch.setattr(log.os, "fsync", lambda number: forced.append(number))
    path = tmp_path / "batches.jsonl"
    log.append(path, "quenched", "A", START, alloy="2017", rivets=5, heats=1)
    log.append(path, "closed", "A", after(5))
    assert len(forced) == (3 if os.name == "posix" else 2)


def test_elapsed_time_is_right_when_the_clocks_change():
    """02:50 summer time to 02:10 winter time is 20 minutes, not minus 40."""
    summer, winter = timezone(timedelta(hours=2)), timezone(timedelta(hours=1))
    events = [
        {"at": datetime(2026, 10, 25, 2, 50, tzinfo=summer).isoformat(), "what": "quenched", "batch": "A",
         "alloy": "2017", "rivets": 5, "heats": 1},
    ]
    kept = log.still_about(events)["A"].batch
    at = datetime(2026, 10, 25, 2, 10, tzinfo=winter).timestamp() / 60
    assert minutes_left(kept, at, rule("navy", "2017")) == pytest.approx(0)


@pytest.mark.parametrize(("what", "batch", "said", "reason"), [
    ("melted", "A", {}, "must be one of quenched"),
    ("quenched", "A", {"alloy": "2017"}, "needs alloy, rivets, heats"),
    ("quenched", "", {"alloy": "2017", "rivets": 5, "heats": 1}, "the name on the tag"),
    ("quenched", "A", {"alloy": "2017", "rivets": 0, "heats": 1}, "rivets = 0"),
    ("stored", "B", {"store_degc": -18}, "is not in the log, or is closed"),
    ("issued", "Wed-night-1", {"rivets": 161}, "more than the 160 left"),
    ("closed", "Wed-night-1/3", {}, "is not in the log"),
])
def test_what_cannot_have_happened_is_not_written(written, what, batch, said, reason):
    """Unknown events, missing facts, more rivets than there are: refused, and the log stays as it was."""
    before = written.read_bytes()
    with pytest.raises(ValueError, match=reason):
        log.append(written, what, batch, after(90), **said)
    assert written.read_bytes() == before


def test_a_time_without_its_offset_is_refused(written):
    """A bare clock time would be an hour out twice a year."""
    with pytest.raises(ValueError, match="with its offset"):
        log.append(written, "closed", "Wed-night-1", datetime(2026, 11, 26, 1, 0))


def test_put_back_and_closed(written):
    """A portion put back is marked so for good; what is closed is gone."""
    log.append(written, "returned", "Wed-night-1/1", after(40))
    log.append(written, "closed", "Wed-night-1/2", after(50))
    kept = log.still_about(log.read(written)[0])
    assert kept["Wed-night-1/1"].batch.returned and "Wed-night-1/2" not in kept
