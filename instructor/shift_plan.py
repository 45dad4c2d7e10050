"""The verbs `shift-plan` and `batch-log`: a bay's plan of rivet batches for the wall, and the log of what was done."""

import argparse
from datetime import datetime
from html import escape
from pathlib import Path

from instructor.listing import listing
from instructor.refusal import Refusal
from workbench.rivets import board, documents, log
from workbench.rivets.batches import HARD, USABLE, heats_left, state, usable_until_min
from workbench.rivets.planning import Bath, Handling, plan
from workbench.rivets.shifts import EXAMPLE, read_shifts, shifts_of


def plan_options(one: argparse.ArgumentParser) -> None:
    """The options of `shift-plan`."""
    one.add_argument("--shifts", type=Path, metavar="FILE",
                     help="CSV: shift, days, from, to, rivets_per_h, breaks, colour, shape (default: an invented week)")
    one.add_argument("--baskets", default="200", metavar="N,N",
                     help="rivets that each basket holds when filled to its mark (default: 200)")
    one.add_argument("--cycle", type=int, default=60, metavar="MIN", help="from one quench to the next (default: 60)")
    one.add_argument("--ahead", type=int, default=120, metavar="MIN",
                     help="how long before a shift the bath may start (default: 120)")
    one.add_argument("--ways", default="3,4", metavar="MIN,MIN", help="quench to store, store to bench (default: 3,4)")
    one.add_argument("--store", default="-18", metavar="DEGC", help="the cold store's temperature, or none")
    _document(one)
    one.add_argument("--portions", action="store_true", help="list each portion as well")
    one.add_argument("--html", type=Path, metavar="FILE", help="write the board as a page to print")


def log_options(one: argparse.ArgumentParser) -> None:
    """The options of `batch-log`."""
    one.add_argument("log", type=Path, metavar="FILE", help="the log; made with the first event")
    one.add_argument("--add", choices=log.EVENTS, metavar="EVENT", help=f"one of {', '.join(log.EVENTS)}")
    one.add_argument("--batch", metavar="TAG", help="the batch, or a portion as TAG/2")
    one.add_argument("--rivets", type=int, metavar="N", help="how many (quenched, issued)")
    one.add_argument("--heats", type=int, default=1, metavar="N", help="heats in all by the tag's tally (quenched)")
    one.add_argument("--store-degc", metavar="DEGC", help="what the store's thermometer showed, or unread (stored)")
    one.add_argument("--at", metavar="TIME", help="date and time such as 2026-11-25T23:50 (default: now)")
    _document(one)


def _document(one: argparse.ArgumentParser) -> None:
    one.add_argument("--alloy", default="2017", help="2017 or 2024, by the head mark (default: 2017)")
    one.add_argument("--document", default="shortest", metavar="NAME",
                     help="whose limits are kept (default: the shortest of all)")
    one.add_argument("--own-documents", type=Path, metavar="FILE",
                     help="the shop's own limits instead of the course's: CSV with a first line '# source: ...' and "
                     "columns document, alloy, drive_within_min, store_at_most_degc, cold_for_h, retreatments, "
                     "load_after_h, says; an empty cell means no figure")


def shift_plan(given: argparse.Namespace) -> None:
    """Print the board, or write it as a page."""
    try:
        shifts = shifts_of(given.shifts) if given.shifts else read_shifts(EXAMPLE)
        rules = _rules(given)
        store = None if given.store == "none" else _number(given.store, "--store")
        ways = _numbers(given.ways, "--ways")
        if len(ways) != 2:
            raise Refusal(f"--ways {given.ways}: two numbers are needed, such as 3,4")
        made = plan(shifts, Bath(_numbers(given.baskets, "--baskets"), given.cycle, given.ahead),
                    documents.rule(given.document, given.alloy, rules), Handling(*ways, store))
    except ValueError as reason:
        raise Refusal(str(reason)) from None
    tables = [("Batches", board.BATCH_HEAD, board.batch_rows(made, shifts))]
    if given.portions:
        tables.append(("Portions", board.PORTION_HEAD, board.portion_rows(made)))
    sentences = board.limits(made, rules)
    if given.html:
        given.html.write_text(_page(made, sentences, tables), encoding="utf-8")
        print(f"{board.summary(made)} Board: {given.html}")
        return
    print(board.summary(made), "", *sentences, "", sep="\n")
    for name, head, rows in tables:
        print(name, listing(head, rows), "", sep="\n")
    print(*board.CAUTIONS, sep="\n")


def batch_log(given: argparse.Namespace) -> None:
    """Add an event if one is given; then print the state of every batch and portion."""
    try:
        now = _moment(given.at)
        if given.add:
            log.append(given.log, given.add, given.batch, now, **_said(given))
        if not given.log.exists():
            raise Refusal(f"no log at {given.log}: begin it with --add quenched")
        events, faults = log.read(given.log)
        rules = _rules(given)
        rows = []
        for name, kept in log.still_about(events).items():
            rule = documents.rule(given.document, kept.batch.alloy, rules)
            others = documents.rules_of(kept.batch.alloy, rules)
            minute = now.timestamp() / 60
            found = state(kept.batch, minute, rule, others)
            until = usable_until_min(kept.batch, rule)
            again = heats_left(kept.batch, rule)
            shown = "-" if until is None else datetime.fromtimestamp(60 * until, now.tzinfo).strftime("%a %d %b %H:%M")
            what = {USABLE: "", HARD: "no more heats: scrap" if again == 0 else "re-treat"}.get(found, "set aside, ask")
            rows.append((name, kept.batch.alloy, kept.rivets, found, shown, kept.batch.heats, what))
    except ValueError as reason:
        raise Refusal(str(reason)) from None
    print(f"At {now:%a %d %b %H:%M}, by {given.document}:")
    print(listing(("batch", "alloy", "rivets", "state", "usable until", "heats", "what to do"), rows))
    for fault in faults:
        print(f"note: {fault}")


def _said(given) -> dict:
    every = {"alloy": given.alloy, "rivets": given.rivets, "heats": given.heats}
    if "store_degc" in log.EVENTS[given.add]:
        if given.store_degc is None:
            raise Refusal("--store-degc: what did the thermometer show? Write unread if nobody looked")
        every["store_degc"] = None if given.store_degc == "unread" else _number(given.store_degc, "--store-degc")
    return {name: every[name] for name in log.EVENTS[given.add]}


def _moment(text: str | None) -> datetime:
    try:
        return (datetime.fromisoformat(text) if text else datetime.now()).astimezone()
    except ValueError:
        raise Refusal(f"--at {text}: write date and time as 2026-11-25T23:50") from None


def _rules(given):
    return documents.own_rules(given.own_documents) if given.own_documents else None


def _number(text: str, option: str) -> float:
    try:
        return float(text)
    except ValueError:
        raise Refusal(f"{option} {text}: a number is needed") from None


def _numbers(text: str, option: str) -> tuple[int, ...]:
    if not all(part.strip().isdecimal() for part in text.split(",")):
        raise Refusal(f"{option} {text}: whole numbers with commas between are needed")
    return tuple(int(part) for part in text.split(","))


def _page(made, sentences, tables) -> str:
    from instructor.page import notice, page, table

    parts = [f"<h1>Rivet batches, alloy {escape(made.rule.alloy)}</h1>", f"<p>{escape(board.summary(made))}</p>",
             notice("Before the bath", board.CAUTIONS), notice("Limits kept", sentences)]
    for name, head, rows in tables:
        cells = [[escape(f"{cell}") for cell in row] for row in rows]
        parts += [f"<h2>{name}</h2>", table(map(escape, head), cells)]
    parts.append("<p>Checked against the approved document by: ____________________ on: ______________</p>")
    return page("Rivet batches", parts)
