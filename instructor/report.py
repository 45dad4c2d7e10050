"""The cohort page of a release, with its tables as CSV: marks, missteps, unexplained values, held work."""

import csv
from html import escape
from pathlib import Path
from statistics import mean, median

from instructor import page
from instructor.cohort import Cohort
from instructor.results import Results, results
from workbench import question_sheet
from workbench.marking import CARRIED, SHAPES

MOST_BARS = 12
_HATCHES = {"right": "", "known misstep": "//", "not yet": "xx", "not judged": ".."}


def write_report(cohort: Cohort, release: str) -> tuple[Path, ...]:
    """Write the page and its CSV files into report/; gives their paths, the page first."""
    found = results(cohort, release)
    folder = cohort.root / "report"
    folder.mkdir(exist_ok=True)
    path = folder / f"{release}.html"
    path.write_text(report_page(cohort.name, found), encoding="utf-8")
    tables = {"marks": _marks_rows(found), "missteps": _misstep_rows(found), "answers": _answer_rows(found)}
    written = [path]
    for name, rows in tables.items():
        written.append(folder / f"{release}-{name}.csv")
        with written[-1].open("w", newline="", encoding="utf-8-sig") as handle:  # the mark lets spreadsheets read it
            csv.writer(handle).writerows([[_safe(cell) for cell in row] for row in rows])
    return tuple(written)


def _safe(cell):
    """A text that a spreadsheet does not take for a formula; numbers stay as they are."""
    return f"'{cell}" if isinstance(cell, str) and cell[:1] in "=+-@\t\r" and cell[:1] else cell


def report_page(cohort: str, found: Results) -> str:
    """The cohort page as HTML."""
    totals = [total for one in found.roll if (total := found.total(one)) is not None]
    spread = f"{mean(totals):.1f} · {median(totals):g}" if totals else "–"
    return page.page(f"{found.release} · {cohort}", [
        f"<h1>{escape(found.release)}</h1>",
        f'<p class="soft">Cohort {escape(cohort)} · lesson {escape(found.lesson)} · {found.mode} · '
        f"series {found.series} · {found.out_of} marks</p>",
        page.figures([
            (f"{len(found.submitted)} of {len(found.roll)}", "handed in"),
            (spread, "mean · median of the marks"),
            (str(len(found.held)), "held for you"),
            (str(len(found.unread)), "could not be read"),
        ]),
        page.notice("For you to decide", _decisions(found)),
        "<h2>Marks by candidate and item</h2>",
        page.key(),
        _marks_table(found),
        _totals_picture(found, totals),
        "<h2>Items</h2>",
        _items_picture(found),
        "<h2>Known missteps, by frequency</h2>",
        _missteps_picture(found),
        _missteps_table(found),
        "<h2>Wrong values that no known misstep explains</h2>",
        _unexplained_table(found),
        "<h2>Notes on single notebooks</h2>",
        _notes(found),
    ])


def _decisions(found: Results) -> list[str]:
    held = [f"Candidate {one}, held: {kept.held} Judge it on its own numbers with "
            f"`mark --only {one} --accept-held`, or collect it again under the right number."
            for one, kept in found.held.items()]
    unread = [f"Candidate {one}, {kept.problem}." for one, kept in found.unread.items()]
    absent = [one for one in found.roll if one not in found.submitted]
    missing = [f"Nothing handed in by: {', '.join(map(str, absent))}."] if absent else []
    return held + unread + missing + _unsafe(found)


def _unsafe(found: Results) -> list[str]:
    """The safety questions that are not right, and for whom."""
    lines = []
    for exercise in (one for one in found.exercises if one.critical):
        who = [one for one in found.judged if (found.mark(one, exercise.name) or 0) < exercise.marks]
        if who:
            lines.append(f"Safety question {question_sheet.number_of(exercise)} ({exercise.name}) is not right for: "
                         f"{', '.join(map(str, sorted(who)))}; {question_sheet.MUST}.")
    return lines


def _marks_table(found: Results) -> str:
    head = ["Candidate", *(f'<th class="turned"><span>{escape(one.name)} ({one.marks})</span></th>'
                           for one in found.exercises), "Total", "Work"]
    rows = []
    for candidate in found.roll:
        kept, total = found.records.get(candidate), found.total(candidate)
        cells = [f'<td class="number">{candidate}</td>']
        for exercise in found.exercises:
            item = kept.items.get(exercise.name) if kept and not kept.held else None
            cells.append(_mark_cell(item, *found.given.get((candidate, exercise.name), (None, False))))
        cells.append(f'<td class="number"><b>{"–" if total is None else f"{total:g}"}</b></td>')
        rows.append([*cells, escape(found.state(candidate))])
    note = '<p class="soft">↪ worked from an own earlier value · ✎ mark set by hand · – no mark given</p>'
    return page.table(head, rows) + note


def _mark_cell(item: dict | None, mark: float | None, by_hand: bool) -> str:
    shown = "–" if mark is None else f"{mark:g}"
    if item is None:
        return f'<td class="mark">{shown}{" ✎" if by_hand else ""}</td>'
    shape, colour = SHAPES[item["standing"]]
    carried = " ↪" if item["tag"] == CARRIED else ""
    told = f"{item['standing']}{': ' + item['tag'] if item['tag'] else ''}; read: {item['read'] or 'nothing'}"
    return (f'<td class="mark" title="{escape(told)}"><span style="color:{colour}">{shape}</span> '
            f"{shown}{carried}{' ✎' if by_hand else ''}</td>")


def _figure(width: float, height: float):
    from matplotlib.figure import Figure

    figure = Figure(figsize=(width, height), layout="constrained")
    axes = figure.add_subplot()
    axes.spines[["top", "right"]].set_visible(False)
    return figure, axes


def _totals_picture(found: Results, totals: list[float]) -> str:
    """Each candidate's total as a dot above the scale of marks, equal totals stacked."""
    if not totals:
        return ""
    figure, axes = _figure(8, 1.9)
    height: dict[float, int] = {}
    for total in sorted(totals):
        height[total] = height.get(total, 0) + 1
        axes.plot(total, height[total], "o", color="#1d2430", markersize=8)
    axes.set(xlim=(-0.5, found.out_of + 0.5), ylim=(0.3, max(height.values()) + 0.7), yticks=[],
             xlabel=f"marks, out of {found.out_of}", title="One dot is one candidate")
    axes.spines["left"].set_visible(False)
    listed = ", ".join(f"{total:g}" for total in sorted(totals))
    return page.picture(figure, f"Totals of the candidates: {listed}")


def _items_picture(found: Results) -> str:
    """How often each standing was given, item by item."""
    if not found.judged:
        return "<p>Nothing is judged yet.</p>"
    figure, axes = _figure(8, 1.2 + 0.38 * len(found.exercises))
    names = [exercise.name for exercise in found.exercises]
    left = [0] * len(names)
    for standing in page.STANDINGS:
        shape, colour = SHAPES[standing]
        counts = [found.standings(name)[standing] for name in names]
        axes.barh(names, counts, left=left, color=colour if standing == "right" else "white", edgecolor=colour,
                  hatch=_HATCHES[standing], height=0.62, label=f"{shape} {standing}")
        left = [a + b for a, b in zip(left, counts, strict=True)]
    axes.invert_yaxis()
    axes.set(xlabel="candidates", xlim=(0, max(left)))
    axes.xaxis.get_major_locator().set_params(integer=True)
    figure.legend(loc="outside upper left", ncols=4, frameon=False)
    told = "; ".join(f"{name}: {found.standings(name)['right']} of {len(found.judged)} right" for name in names)
    return page.picture(figure, f"Standings by item. {told}")


def _missteps_by_tag(found: Results) -> list[tuple[str, int, list[str], list[int], str]]:
    """The missteps over all items, most frequent first: tag, times, items, candidates, origin."""
    gathered: dict[str, list[tuple]] = {}
    for exercise, tag, who in found.missteps():
        gathered.setdefault(tag, []).append((exercise, who))
    rows = []
    for tag, rows_of in gathered.items():
        origins = {one.origin for exercise, _ in rows_of for one in exercise.missteps if one.tag == tag}
        times = sum(len(who) for _, who in rows_of)
        candidates = sorted({one for _, who in rows_of for one in who})
        rows.append((tag, times, [exercise.name for exercise, _ in rows_of], candidates, ", ".join(sorted(origins))))
    return sorted(rows, key=lambda row: (-row[1], row[0]))


def _missteps_picture(found: Results) -> str:
    rows = _missteps_by_tag(found)[:MOST_BARS]
    if not rows:
        return ""
    figure, axes = _figure(8, 0.8 + 0.3 * len(rows))
    axes.barh([row[0] for row in rows], [row[1] for row in rows], color=SHAPES["known misstep"][1], height=0.6)
    axes.invert_yaxis()
    axes.set(xlabel="times, over all items")
    axes.xaxis.get_major_locator().set_params(integer=True)
    told = "; ".join(f"{row[0]}: {row[1]}" for row in rows)
    return page.picture(figure, f"The most frequent missteps. {told}")


def _missteps_table(found: Results) -> str:
    rows = [[f'<td class="number">{times}</td>', escape(tag), escape(", ".join(items)), ", ".join(map(str, who)),
             escape(origin)] for tag, times, items, who, origin in _missteps_by_tag(found)]
    if not rows:
        return "<p>None turned up.</p>"
    caution = '<p class="soft">Where letters or small whole numbers are asked for, a guess often hits a misstep.</p>'
    return page.table(["Times", "Misstep", "Items", "Candidates", "Origin"], rows) + caution


def _unexplained_table(found: Results) -> str:
    rows = [[f'<td class="number">{len(who)}</td>', escape(exercise.name), escape(value), ", ".join(map(str, who))]
            for exercise, value, who in found.unexplained()]
    if not rows:
        return "<p>None: every wrong value fits a known misstep.</p>"
    return page.table(["Times", "Item", "Value as read", "Candidates"], rows)


def _notes(found: Results) -> str:
    parts = [page.notice(f"Candidate {one}", kept.notes) for one, kept in found.records.items() if kept.notes]
    return "".join(parts) or "<p>All notebooks were as handed out.</p>"


def _marks_rows(found: Results):
    names = [exercise.name for exercise in found.exercises]
    yield ["candidate", *names, "total", "out_of", "work"]
    for one in found.roll:
        yield [one, *(found.mark(one, name) for name in names), found.total(one), found.out_of, found.state(one)]


def _misstep_rows(found: Results):
    yield ["item", "misstep", "times", "candidates"]
    for exercise, tag, who in found.missteps():
        yield [exercise.key, tag, len(who), " ".join(map(str, who))]


def _answer_rows(found: Results):
    yield ["candidate", "item", "entry", "read", "standing", "tag", "marks_judged", "mark", "out_of"]
    for one, kept in found.records.items():
        for name, item in kept.items.items():
            yield [one, item["key"], item["entry"], item["read"], item["standing"], item["tag"], item["marks"],
                   found.mark(one, name), item["out_of"]]
