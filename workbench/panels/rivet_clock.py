"""Panel: a night's batches of soft rivets on a time line, with their state under the pointer."""

from workbench.entry import read
from workbench.exercises.exercise import Quantity
from workbench.panels.board import Board, Control, Pick, Refused, Shown
from workbench.rivets.batches import Batch, minutes_left, state, usable_until_min, warm_and_cold_min
from workbench.rivets.clock import DAY_MIN
from workbench.rivets.documents import rule, rules_of

ALLOY, STORE_DEGC = "2017", -18
FROM_MIN, TO_MIN, QUENCHED_MIN = -30, 180, -10  # minutes after midnight
DOCUMENTS = {"Navy manual": "navy", "handbook": "handbook", "handbook, older passage": "handbook older passage",
             "shortest of all": "shortest"}
MINUTE = Quantity("minute", 1, (0, 720))
START = {"document": "Navy manual", "warm": 6, "out": 20, "pointer": 20}
YOURS = "yours"


def _clock(minute):
    """Time of day of a minute after midnight.

    >>> _clock(-10), _clock(20)
    ('23:50', '00:20')
    """
    hours, minutes = divmod(round(minute) % DAY_MIN, 60)
    return f"{hours:02d}:{minutes:02d}"


def _batches(warm, out):
    """The night's batches: the reader's own, and three with other tags."""
    return {
        YOURS: Batch("disc", ALLOY, QUENCHED_MIN, QUENCHED_MIN + warm, out, STORE_DEGC),
        "never stored": Batch("square", ALLOY, -25),
        "stored long": Batch("triangle", ALLOY, -110, -107, 60, STORE_DEGC),
        "store not read": Batch("ring", ALLOY, -110, -107, 40, None),
    }


def _stretches(batch, one, others):
    """(from, to, state), minute by minute put together."""
    found = []
    for minute in range(FROM_MIN, TO_MIN):
        now = state(batch, minute, one, others)
        if found and found[-1][2] == now:
            found[-1][1] = minute + 1
        else:
            found.append([minute, minute + 1, now])
    return found


def rivet_clock():
    """The board: document, minutes warm before the store, time out of the store, pointer."""
    drawing = None

    def moved(values, prediction):
        nonlocal drawing
        one, at = rule(DOCUMENTS[values["document"]], ALLOY), values["pointer"]
        if values["out"] < QUENCHED_MIN + values["warm"]:
            raise Refused(f"Out at {_clock(values['out'])} is before in at {_clock(QUENCHED_MIN + values['warm'])}: "
                          "the tag runs backwards.")
        others, batches = rules_of(ALLOY), _batches(values["warm"], values["out"])
        rows = [(f"{batch.name}: {name}", _stretches(batch, one, others),
                 batch.stored_min is not None and (batch.stored_min, batch.out_min), state(batch, at, one, others))
                for name, batch in batches.items()]
        if drawing is None:  # nothing is drawn before the prediction
            from workbench.drawings.rivet_clock import RivetClock

            drawing = RivetClock(FROM_MIN, TO_MIN, _clock)
        drawing.show(rows, at)
        mine = batches[YOURS]
        until, left = usable_until_min(mine, one), minutes_left(mine, at, one)
        warm, cold = warm_and_cold_min(mine, at, one)
        kept = one.cold_for_h is not None
        asked = all(values[name] == START[name] for name in ("document", "warm", "out"))
        message = "" if kept else "This document prints no hours for its store: what was cold is doubtful. Ask."
        if asked:
            message = f"You said {prediction}; the last rivet is driven by {_clock(until)}, minute {until:g}."
        return Shown(
            drawing.png(), drawing.text(),
            (("You said, at the start", prediction), ("At the pointer", f"{_clock(at)}: yours is {rows[0][3]}"),
             ("Warm so far", f"{warm:g} of {one.drive_within_min:g} min, cold {cold:g} min"),
             ("Left to drive", f"{left:g} min" if left >= 0 else "none")),
            message,
            f"{values['document']}, alloy {ALLOY}: drive within {one.drive_within_min:g} minutes warm in all; "
            + (f"cold for {one.cold_for_h:g} h at most.\n" if kept else "no hours for the store.\n")
            + f"At {_clock(at)}: {warm:g} min warm, before and after the store. {one.drive_within_min:g} − {warm:g} "
            f"= {one.drive_within_min - warm:g} min.\n"
            "The cold slows hardening. It gives no minute back. Midnight changes nothing.\n"
            "Where documents differ, the shorter time is the safer one to drive by. Only what is usable is driven. A "
            "doubtful batch is set aside, and you ask.",
        )

    return Board(
        "How long does the batch stay soft?",
        f"Rivets of alloy {ALLOY} were quenched at 23:50. At 23:56 they went into the cold store; at 00:20 they came "
        "out. By the Navy manual they must be driven within 20 minutes warm. At what minute after midnight is the last "
        "rivet driven, at the latest?",
        "Your prediction (minutes after midnight)",
        (Pick("document", "Document", tuple(DOCUMENTS), START["document"]),
         Control("warm", "Warm before the store", "min", 0, 30, 1, START["warm"]),
         Control("out", "Out of the store, after midnight", "min", 0, 150, 1, START["out"]),
         Control("pointer", "Pointer, after midnight", "min", FROM_MIN, TO_MIN, 1, START["pointer"])),
        lambda text: f"minute {read(text, MINUTE, {}).value:g}", moved,
    )
