from pathlib import Path

import pytest

from instructor.demo import hand_in as hand_in_demo
from instructor.demo import prepare
from instructor.invented import PATTERNS
from instructor.roll import folder_name
from instructor.verbs import main
from tests.instructor.notebooks import filled, hand_in, right_answers

LESSON = "measuring_screw"
VERBS = ("enrol", "release", "kit", "collect", "mark", "feedback", "exercises", "report", "demo",
         "shift-plan", "batch-log")


@pytest.fixture
def say(cohort, capsys):
    """Runs a verb on the test's own cohorts; gives exit code, output and error text."""

    def run(*words):
        code = main(["--cohorts", str(cohort.root.parent), *words])
        told = capsys.readouterr()
        return code, told.out, told.err

    return run


@pytest.mark.parametrize("verb", VERBS)
def test_every_verb_has_its_help(verb, capsys):
    """--help ends well and says what the verb does."""
    with pytest.raises(SystemExit) as ended:
        main([verb, "--help"])
    assert ended.value.code == 0 and len(capsys.readouterr().out) > 100


def test_help_lists_every_verb(capsys):
    """The first help names them all."""
    with pytest.raises(SystemExit):
        main(["--help"])
    told = capsys.readouterr().out
    assert all(verb in told for verb in VERBS)


@pytest.mark.parametrize(
    "words, said",
    [
        (["release", "measuring_scerw", "--cohort", "demo"], "no lesson to release 'measuring_scerw'; nearest"),
        (["release", LESSON, "--cohort", "dmeo"], "no cohort 'dmeo'; nearest: demo"),
        (["release", LESSON, "--cohort", "demo"], "--as"),
        (["release", LESSON, "--cohort", "demo", "--as", "../x"], "cannot name a release"),
        (["release", LESSON, "--cohort", "demo", "--series", "0"], "--series 0"),
        (["release", LESSON], "say which lesson and for whom"),
        (["release", LESSON, "--course"], "leave the lesson"),
        (["mark", "--cohort", "demo", "--release", "mesuring"], "no release 'mesuring'; nearest: measuring_screw"),
        (["mark", "--cohort", "demo", "--only", "77"], "no candidate on the roll '77'"),
        (["mark", "--cohort", "demo"], "collect it first"),
        (["feedback", "--cohort", "demo"], "nothing is marked yet"),
        (["exercises", "measuring_scerw"], "nearest: measuring_screw"),
        (["enrol", "--cohort", "x", "--candidates", "0-3"], "'0-3' is not"),
        (["enrol", "--cohort", "x", "--roll", "none.csv"], "no roll at none.csv"),
        (["enrol", "--cohort", "X Y", "--candidates", "1"], "cannot name a cohort"),
        (["kit", "--cohort", "nobody"], "no cohort 'nobody'"),
    ],
)
def test_what_cannot_be_done_is_told_in_one_sentence(say, words, said):
    """Exit code 2, the value and the rule, no traceback."""
    code, _, told = say(*words)
    assert code == 2 and said in told and "Traceback" not in told
    assert told.startswith("Not done: ") and told.count("\n") == 1


def test_a_damaged_gradebook_is_told_without_a_traceback(say, cohort):
    """Something else in the gradebook's place is named, not raised."""
    hand_in(cohort, LESSON, 3, filled(cohort, LESSON, {}))
    (cohort.root / "gradebook.db").write_text("no gradebook at all, only words that stand here instead")
    code, _, told = say("mark", "--cohort", "demo")
    assert code == 2 and "gradebook cannot be used" in told


def test_collect_mark_feedback_report_follow_one_another(say, cohort, tmp_path):
    """The verbs alone take a cohort from a folder to its pages."""
    work = tmp_path / "given" / "003" / f"{LESSON}.ipynb"
    work.parent.mkdir(parents=True)
    hand_in(cohort, LESSON, 3, filled(cohort, LESSON, right_answers(LESSON, 3))).rename(work)
    cohort.submitted(3, LESSON).rmdir()
    code, told, _ = say("collect", str(tmp_path / "given"), "--cohort", "demo")
    assert code == 0 and "new: 3" in told and "nothing handed in: 1, 2, 4" in told
    code, told, _ = say("mark", "--cohort", "demo", "--only", "3")
    assert code == 0 and told.split()[-1] == "27"
    assert say("feedback", "--cohort", "demo")[0] == 0
    code, told, _ = say("report", "--cohort", "demo")
    assert code == 0 and all(line.startswith(str(cohort.root)) for line in told.split())
    assert (cohort.root / "feedback" / folder_name(3) / f"{LESSON}.html").exists()


def test_enrol_makes_a_cohort_and_says_where(say, cohort):
    """The cohort's folder is told."""
    code, told, _ = say("enrol", "--cohort", "autumn", "--candidates", "1-3")
    assert code == 0 and "3 new" in told and str(cohort.root.parent / "autumn") in told


def test_exercises_as_table_and_json(say):
    """Both forms of the catalogue are printed."""
    assert "measuring_screw.travel" in say("exercises")[1]
    assert say("exercises", LESSON, "--json")[1].startswith("[")


def test_the_demo_accounts_for_all_twelve_and_names_its_pages(finished, demo_told):
    """The table holds every candidate, the damaged two are explained, every page named exists."""
    lines = demo_told.splitlines()
    assert [int(line.split()[0]) for line in lines[1:13]] == list(PATTERNS)
    assert "missing, and put back" in lines[11] and "ZeroDivisionError" in lines[12]
    paths = [Path(line.split()[-1]) for line in lines if line.endswith((".html", ".csv"))]
    assert len(paths) == 3 and all(path.is_file() for path in paths)


def test_the_demo_can_be_made_again(marked, lesson):
    """A demo that has run is cleared away and begins afresh."""
    cohort, slip = prepare(marked.root.parent)
    assert cohort.root == marked.root and slip.name == lesson
    assert not (cohort.root / "marked").exists() and len(hand_in_demo(cohort, slip)) == 3


def test_a_cohort_called_demo_that_is_not_the_demos_is_left_alone(say, cohort):
    """The demo never wipes an instructor's own folder."""
    (cohort.root / "DEMO.txt").unlink()
    code, _, told = say("demo")
    assert code == 2 and "not the demo's" in told and cohort.roll
