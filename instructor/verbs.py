"""The verbs of `python -m instructor`, each with its --help."""

import argparse
import sys
from contextlib import contextmanager
from pathlib import Path

from instructor import shift_plan
from instructor.cohort import COHORTS, enrol, open_cohort
from instructor.refusal import Refusal, unknown
from instructor.roll import parse_range, read_roll

DESCRIPTION = """\
The instructor's tool. The usual way round:
  enrol     make a cohort from a roll of candidates' numbers
  release   hand a lesson out to it (practice or assessment)
  kit       one zip with everything an apprentice needs
  collect   take handed-in work from folders and zips
  mark      judge it and record the marks
  feedback  a page for each candidate
  report    a page on the cohort, with CSV
Also: exercises (the catalogue), demo (all of it, with invented candidates); for a bay that drives heat-treated
rivets: shift-plan (batches for a shift pattern), batch-log (what was done, and the state of each batch).
"""


def main(words: list[str] | None = None) -> int:
    """Run one verb; 0 when done, 2 with one clear sentence when it cannot be done."""
    arguments = parser().parse_args(words)
    try:
        arguments.verb(arguments)
    except Refusal as reason:
        print(f"Not done: {reason}", file=sys.stderr)
        return 2
    except KeyboardInterrupt:
        print("Stopped. What was finished is kept; run the same command to go on.", file=sys.stderr)
        return 130
    except OSError as failed:
        print(f"Not done: {failed.filename or 'a file'}: {failed.strerror or failed}", file=sys.stderr)
        return 2
    except Exception as failed:
        if not type(failed).__module__.startswith("sqlalchemy"):
            raise
        first = str(failed).splitlines()[0]
        print(f"Not done: the gradebook cannot be used ({first}). Is another program writing to it?", file=sys.stderr)
        return 2
    return 0


def parser() -> argparse.ArgumentParser:
    """The command line."""
    top = argparse.ArgumentParser(prog="python -m instructor", description=DESCRIPTION,
                                  formatter_class=argparse.RawDescriptionHelpFormatter)
    top.add_argument("--cohorts", type=Path, default=COHORTS, metavar="FOLDER",
                     help="where the cohorts' folders lie (default: instructor/cohorts)")
    verbs = top.add_subparsers(required=True, metavar="VERB")

    def verb(name: str, run, text: str, cohort: bool = True) -> argparse.ArgumentParser:
        found = verbs.add_parser(name, help=text, description=f"{text[0].upper()}{text[1:]}.")
        found.set_defaults(verb=run)
        if cohort:
            found.add_argument("--cohort", required=True, metavar="NAME", help="the cohort")
        return found

    one = verb("enrol", _enrol, "make a cohort, or add candidates to it")
    whom = one.add_mutually_exclusive_group(required=True)
    whom.add_argument("--candidates", metavar="1-12", help="candidates' numbers, such as 1-12 or 1,2,5")
    whom.add_argument("--roll", type=Path, metavar="FILE", help="a CSV file with a column 'candidate'")
    one.add_argument("--database", metavar="URL", help="keep the gradebook in this empty PostgreSQL database, such as "
                     "postgresql://USER@HOST/DATABASE; the password is taken from PGPASSWORD")

    one = verb("release", _release, "hand a lesson out to a cohort; a release never changes afterwards", cohort=False)
    one.add_argument("lesson", nargs="?", help="the lesson, such as measuring_screw")
    one.add_argument("--cohort", metavar="NAME", help="the cohort")
    one.add_argument("--mode", choices=("practice", "assessment"), default="practice",
                     help="practice shows each verdict at once; assessment only after marking (default: practice)")
    one.add_argument("--series", type=int, default=1, metavar="N",
                     help="which own numbers: 2 for a re-sit (default: 1)")
    one.add_argument("--as", dest="name", metavar="RELEASE_NAME", help="the release's name (default: the lesson's)")
    one.add_argument("--course", action="store_true",
                     help="instead: make the practice course in course/ again from all lessons")

    one = verb("kit", _kit, "make one zip for apprentices: course, program, how to start; no solutions")
    one.add_argument("--assessment", action="append", default=[], metavar="R",
                     help="put this assessment in too (may be repeated); others stay out until their day")

    one = verb("collect", _collect, "collect handed-in work; what was collected before is kept")
    one.add_argument("given", nargs="+", type=Path, metavar="FOLDER_OR_ZIP", help="folders or zips of any layout")
    _with_release(one)

    one = verb("mark", _mark, "judge the collected work and record the marks")
    _with_release(one)
    one.add_argument("--only", type=int, metavar="CANDIDATE", help="this candidate only")
    one.add_argument("--accept-held", action="store_true",
                     help="judge work that fits another candidate's numbers on its own candidate's all the same")

    one.add_argument("--changed", action="store_true",
                     help="only work that is new or changed since it was marked; a run that was stopped goes on so too")
    how = one.add_mutually_exclusive_group()
    how.add_argument("--require-isolation", action="store_true",
                     help="refuse to run cells where this system cannot keep them from everything else")
    how.add_argument("--without-isolation", action="store_true",
                     help="run cells in separate limited processes only: for work that you trust")
    one.add_argument("--cluster", metavar="ADDRESS",
                     help="run cells on the workers of this Dask scheduler, such as tcp://HOST:8786; judged here")

    one = verb("feedback", _feedback, "write a page for each candidate, without the right values of open items")
    _with_release(one)
    one.add_argument("--only", type=int, metavar="CANDIDATE", help="this candidate only")

    one = verb("exercises", _exercises, "list the exercises with their marks, kinds and known missteps", cohort=False)
    one.add_argument("lesson", nargs="?", help="one lesson only")
    one.add_argument("--json", action="store_true", help="as JSON")

    _with_release(verb("report", _report, "write the cohort's page and its CSV files"))
    verb("demo", _demo, "run the whole loop with twelve invented candidates", cohort=False)
    shift_plan.plan_options(verb("shift-plan", shift_plan.shift_plan, cohort=False,
                                 text="plan a bay's batches of heat-treated rivets, with least waste; print the board"))
    shift_plan.log_options(verb("batch-log", shift_plan.batch_log, cohort=False,
                                text="log what is done with rivet batches; say which are usable, doubtful or hard"))
    return top


def _with_release(one: argparse.ArgumentParser) -> None:
    one.add_argument("--release", metavar="R", help="the release (needed where the cohort has more than one)")


def _bar(rows, total: int, desc: str):
    """The rows with a progress bar, on a screen only."""
    from tqdm import tqdm

    return tqdm(rows, total=total, desc=desc, unit="", disable=not sys.stderr.isatty(), leave=False)


@contextmanager
def _working(desc: str):
    """A running clock while something takes its time that has no countable parts; on a screen only."""
    from threading import Event, Thread

    from tqdm import tqdm

    with tqdm(desc=desc, bar_format="{desc} … {elapsed}", disable=not sys.stderr.isatty(), leave=False) as bar:
        done = Event()

        def tick():
            while not done.wait(0.2):
                bar.refresh()

        clock = Thread(target=tick, daemon=True)
        clock.start()
        try:
            yield
        finally:
            done.set()
            clock.join()


def _enrol(given) -> None:
    candidates = parse_range(given.candidates) if given.candidates else read_roll(given.roll)
    cohort, new = enrol(given.cohort, candidates, given.cohorts)
    if given.database:
        from instructor.database import use_database

        use_database(cohort, given.database)
    print(f"{len(new)} new on the roll of {cohort.name}, {len(cohort.roll)} in all. Folder: {cohort.root}")


def _release(given) -> None:
    from instructor.release import rebuild_course, release

    if given.course:
        if given.lesson or given.cohort:
            raise Refusal("--course makes the whole practice course; leave the lesson and --cohort out")
        with _working("making the course"):
            made = rebuild_course()
        print(f"The practice course was made again: {', '.join(made)}")
        return
    if not (given.lesson and given.cohort):
        raise Refusal("say which lesson and for whom: release LESSON --cohort NAME")
    if not 1 <= given.series <= 999:
        raise Refusal(f"--series {given.series}: a whole number from 1 to 999 is needed")
    cohort = open_cohort(given.cohort, given.cohorts)
    with _working("releasing"):
        slip = release(cohort, given.lesson, given.name or given.lesson, given.mode, given.series)
    print(f"Released {slip.lesson} to {cohort.name} as {slip.name} ({slip.mode}, series {slip.series}).")
    if slip.mode == "assessment" and slip.series == 1:
        print("Series 1 has the numbers of the practice course: an assessment with --series 2 has others.")
    print(f"Hand out: {cohort.released(slip.name)}, or make a kit.")


def _kit(given) -> None:
    from instructor.kit import make_kit
    from instructor.release import read_slip

    cohort = open_cohort(given.cohort, given.cohorts)
    with _working("making the kit"):
        path = make_kit(cohort, given.assessment)
    print(f"Kit: {path} ({path.stat().st_size / 1e6:.1f} MB)")
    out = [name for name in cohort.releases()
           if name not in given.assessment and read_slip(cohort.released(name)).mode == "assessment"]
    if out:
        print(f"Left out, until you name them with --assessment: {', '.join(out)}")
    print("The package in it works out the right values itself: unsupervised work shows practice, not attainment.")


def _collect(given) -> None:
    from instructor.collection import collect

    cohort = open_cohort(given.cohort, given.cohorts)
    release = cohort.chosen_release(given.release)
    with _working("collecting"):
        done = collect(cohort, release, given.given)
    for what, whom in (("new", done.new), ("changed", done.changed), ("as before", done.same),
                       ("nothing handed in", done.missing)):
        if whom:
            print(f"{what}: {', '.join(map(str, whom))}")
    for note in done.notes:
        print(f"note: {note}")


def _mark(given) -> None:
    from instructor.listing import listing
    from instructor.marking.batch import handed_in
    from instructor.marking.pending import pending, sign

    cohort = open_cohort(given.cohort, given.cohorts)
    release = cohort.chosen_release(given.release)
    present = handed_in(cohort, release)
    if given.only is not None:
        if cohort.on_roll(given.only) not in present:
            raise Refusal(f"candidate {given.only} has handed nothing in for {release}")
        present = (given.only,)
    if not present:
        raise Refusal(f"nobody has handed anything in for {release}: collect it first")
    running = None if given.only is not None else sign(cohort, release)
    stopped = running is not None and running.exists()
    if stopped:
        print("The last run was stopped: only what it left is marked.")
    left = pending(cohort, release, present, given.accept_held) if given.changed or stopped else present
    if len(left) < len(present):
        print(f"{len(present) - len(left)} as before, {len(left)} to mark.")
    marked = list(_marked(given, cohort, release, left, running)) if left else []
    if running is not None:
        running.unlink(missing_ok=True)
    marked.sort(key=lambda kept: kept.candidate)
    print(listing(("candidate", "marks", "notes"), [(kept.candidate, *_told(kept)) for kept in marked]))


def _marked(given, cohort, release: str, candidates: tuple[int, ...], running: Path | None):
    """Mark them; gives their records. running: the sign that a run over all the work goes on."""
    from instructor.marking.batch import mark
    from instructor.marking.cluster import Cluster
    from instructor.marking.pool import Pool

    how = {"require_isolation": given.require_isolation, "hidden": (cohort.root,)}
    here = not given.cluster
    with Pool(**how, isolate=not given.without_isolation) if here else Cluster(given.cluster, **how) as pool:
        print(f"Cells are run {pool.protection}.")
        if running is not None:
            running.touch()
        yield from _bar(mark(cohort, release, candidates, given.accept_held, pool), len(candidates), "marking")


def _told(kept) -> tuple[str, str]:
    notes = [note for note in (kept.problem, kept.held, *kept.findings, *kept.troubles) if note]
    return ("-" if kept.marks is None else f"{kept.marks:g}"), "; ".join(notes)


def _feedback(given) -> None:
    from instructor.feedback import write_feedback
    from instructor.marking.batch import records

    cohort = open_cohort(given.cohort, given.cohorts)
    release = cohort.chosen_release(given.release)
    marked = records(cohort, release)
    if given.only is not None and cohort.on_roll(given.only) not in marked:
        raise Refusal(f"candidate {given.only} is not marked yet in {release}")
    if not marked:
        raise Refusal(f"nothing is marked yet in {release}")
    total = len(marked) if given.only is None else 1
    paths = list(_bar(write_feedback(cohort, release, given.only), total, "feedback"))
    print(f"{len(paths)} pages: {cohort.root / 'feedback'}")


def _exercises(given) -> None:
    from instructor.catalogue import as_json, as_table, entries
    from workbench.exercises import lessons

    if given.lesson and given.lesson not in lessons():
        raise unknown("lesson", given.lesson, lessons())
    rows = entries(given.lesson)
    print(as_json(rows) if given.json else as_table(rows))


def _report(given) -> None:
    from instructor.report import write_report

    cohort = open_cohort(given.cohort, given.cohorts)
    names = (cohort.chosen_release(given.release),) if given.release else cohort.releases()
    if not names:
        raise Refusal(f"cohort {cohort.name!r} has no release yet")
    with _working("writing the report"):
        paths = [path for name in names for path in write_report(cohort, name)]
    print(*paths, sep="\n")


def _demo(given) -> None:
    from instructor.demo import LESSON, run
    from instructor.invented import PATTERNS
    from instructor.listing import listing
    from instructor.page import STANDINGS
    from instructor.results import results

    cohort = run(given.cohorts, bar=_bar)
    found = results(cohort, LESSON)
    rows = []
    for one in found.roll:
        kept = found.records[one]
        standings = [item["standing"] for item in kept.items.values()]
        counts = (standings.count(standing) for standing in STANDINGS)
        total = found.total(one)
        shown = "-" if total is None else f"{total:g}"
        rows.append((one, PATTERNS[one][0], shown, *counts, _told(kept)[1]))
    print(listing(("candidate", "invented as", f"marks of {found.out_of}", *STANDINGS, "notes"), rows))
    print(f"\n{len(rows)} candidates. Pages to open:")
    print(f"  the cohort      {cohort.root / 'report' / f'{LESSON}.html'}")
    print(f"  an apprentice's {cohort.root / 'feedback' / '004' / f'{LESSON}.html'}")
    print(f"  the marks (CSV) {cohort.root / 'report' / f'{LESSON}-marks.csv'}")
