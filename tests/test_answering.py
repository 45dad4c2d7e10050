"""workbench.answering: what a kernel makes of an answer cell."""

import pytest
from IPython.core.interactiveshell import InteractiveShell
from IPython.utils.capture import capture_output

from tests.test_marking import CALL_OUT, READ, SIZE, V
from workbench import answering, exercises, marking, question_sheet, session


@pytest.fixture
def shell(monkeypatch, tmp_path):
    """A shell such as a kernel has, in the folder of a practice release, with two exercises known."""
    known = {"toy.read": READ, "toy.size": SIZE, "toy.thread": CALL_OUT}

    def find(key):
        if key not in known:
            raise ValueError(f"no exercise is called {key!r}")
        return known[key]

    monkeypatch.setattr(exercises, "find", find)
    monkeypatch.setattr(exercises, "of_lesson", lambda lesson: tuple(known.values()))
    monkeypatch.setattr(session, "variant", lambda exercise: exercise.of_draw(V))
    monkeypatch.setattr(session, "_folder", lambda: tmp_path)
    (tmp_path / "release.json").write_text('{"lesson": "toy", "mode": "practice", "series": 1}')
    (tmp_path / "candidate.txt").write_text("7\n")
    InteractiveShell.clear_instance()
    shell = InteractiveShell.instance()
    answering._entries.clear()
    answering._refusals.clear()
    answering._asked_of.clear()
    answering._lines.clear()
    answering._sums.clear()
    answering.load_ipython_extension(shell)
    shell._showtraceback = lambda kind, error, lines: print("\n".join(lines))
    yield shell
    InteractiveShell.clear_instance()


def run(shell, source, store=True):
    """Run a cell; what it showed, as one text."""
    with capture_output() as shown:
        result = shell.run_cell(source, store_history=store)
    said = shown.stdout + "".join(output.data.get("text/html", "") for output in shown.outputs)
    if hasattr(result.result, "html"):
        said += result.result.html()
    return said


def test_a_question_whose_picture_fails_still_shows_its_text(shell, monkeypatch):
    """A drawing that stops takes nothing away: text, hints and answer line stand, and the key to report is named."""
    import dataclasses

    from workbench import question_sheet

    broken = dataclasses.replace(READ, shows=lambda variant: 1 / 0)
    monkeypatch.setattr(exercises, "of_lesson", lambda lesson: (broken,))
    text = question_sheet.html(broken, session.Session(7, 1, "practice", "toy", False, None))
    whole = question_sheet.html(READ, session.Session(7, 1, "practice", "toy", False, None))
    assert "not yours" in text and broken.key in text and "<img" not in text
    for part in ("Answer line:", "Hint 1", "Question 1"):
        assert part in text and part in whole
    assert "not yours" not in whole


CELL = "# Answer toy.read\n"
CHECK = 'import workbench\nworkbench.check("toy.read")'


@pytest.mark.parametrize(
    "line",
    [
        "read = 7.88 mm",
        "read = 7,88 mm",
        "read=7.88mm",
        'read = "7.88 mm"',
        "read = '7.88 mm",
        'read = 7.88 mm"',
        "read = “7.88 mm”",
        "Read = 7.88 mm",
        "READ = 7.88",
        "read: 7.88 mm",
        "  read = 7.88 mm  ",
        "read = 7.88 mm  # half line out",
        "read = 7.5 + 0.38",
        "n = 38\nread = 7.5 + n / 100",
        "import math\nread = math.fsum([7.5, 0.38])",
        "import pint\nQ = pint.UnitRegistry().Quantity\nread = Q(7.88, 'mm')",
        "read == 7.88 mm",
        "read 7.88 mm",
        "read = read 7.88 mm",
    ],
)
def test_the_answer_line_is_read_as_it_is_typed(shell, line):
    """Quotes of any kind, none, or one missing; a comma, a capital, working above: all are read and judged."""
    assert "Right" in run(shell, CELL + line)
    assert answering.answers().keys() == {"toy.read"}
    assert "Right" in run(shell, CHECK)


@pytest.mark.parametrize(
    ("line", "why"),
    [
        ("read = 7.88 mil", "thousandth of an inch to some"),
        ("read = ", "nothing is typed yet"),
        ("raed = 7.88 mm", "the name here is read"),
        ("7.88 mm", "no line begins with read ="),
        ("read = 7.88 mm\nread = 7.38 mm", "2 lines"),
        ("", "answer line is gone"),
        ("read = 7.88 mm\nwhat on earth", "what on earth"),
        ("read = thimble", "no number"),
        ("read = thimble + 1", "nobody has set it yet"),
        ("read = 1 / 0", "ZeroDivisionError"),
        ("read = [7.88]", "does not begin with a number"),
        ("read = print", "not an answer"),
        ("read = 7.88 mm)(", "not known"),
    ],
)
def test_a_right_answer_then_a_fault_is_not_judged(shell, line, why):
    """A verdict never rests on the value of an earlier run: after a typing fault it is "not judged"."""
    assert "Right" in run(shell, CELL + "read = 7.88 mm")
    said = run(shell, CELL + line)
    assert "Not judged" in said and why in said and "Traceback" not in said
    said = run(shell, CHECK)
    assert "Not judged" in said and "Right" not in said
    assert answering.answers() == {}


@pytest.mark.parametrize("line", ["M10x1.25-6g", "M10 × 1,25 − 6g", '"M10x1.25-6g"', "m10 x 1.25 - 6g"])
def test_a_call_out_is_read_as_it_is_typed(shell, line):
    """A call-out needs no quotes, and is never taken for Python."""
    assert "Right" in run(shell, f"# Answer toy.thread\nthread = {line}")


@pytest.mark.parametrize("line", ["M10x", "M10x1.25-6q", "M10-6", "x1"])
def test_a_misspelt_call_out_is_told_its_place_and_not_that_a_name_is_unknown(shell, line):
    """What looks like a name or a sum to Python is still spoken of as a call-out."""
    said = run(shell, f"# Answer toy.thread\nthread = {line}")
    assert "Not judged" in said and "nobody has set it yet" not in said and "Traceback" not in said


def test_working_that_stops_leaves_no_old_value(shell):
    """Where a line above the answer stops, the earlier entry is gone and the cell says why, without a traceback."""
    run(shell, CELL + "read = 7.88 mm")
    said = run(shell, CELL + "n = thimble\nread = 7.5 + n")
    assert "NameError" in said and "run the cells above first" in said and "Traceback" not in said
    assert "Not judged" in run(shell, CHECK)


def test_a_check_alone_after_a_restart_says_what_to_do(shell):
    """A check cell run in a fresh kernel asks for its answer cell; nothing is judged."""
    said = run(shell, CHECK)
    assert "Not judged" in said and "run the cell that begins “read =” first" in said


def test_the_line_at_the_check_cell_follows_the_answer_cell(shell, monkeypatch):
    """A line shown at the check cell never stays behind: it follows each run of the answer cell, faults too."""
    lines = {}
    monkeypatch.setattr(
        "IPython.display.update_display", lambda block, display_id: lines.update({display_id: block.data})
    )
    run(shell, CELL + "read = ")
    assert "Not judged" in run(shell, CHECK)
    followed = []
    for line in ("read = 7.88 mm", "read = 7.38 mm", "n = thimble\nread = 7.5 + n", "raed = 7.88"):
        run(shell, CELL + line)
        followed.append(lines["check of toy.read"])
    assert ["Right" in line for line in followed] == [True, False, False, False]
    assert ["misstep" in line for line in followed] == [False, True, False, False]


def test_a_misstep_is_named_at_once_and_carried_forward(shell):
    """7.38 is named as the missed half line; 7.36 worked from it is right, carried forward."""
    assert "missed half line" in run(shell, CELL + "read = 7.38 mm")
    assert "own earlier value" in run(shell, "# Answer toy.size\nsize = 7.36")


def test_the_name_holds_the_number_for_further_working(shell):
    """After an answer the name stands for the number in the asked unit."""
    run(shell, CELL + "read = 0.31 in")
    assert shell.user_ns["read"] == pytest.approx(0.31 * 25.4)


def test_other_cells_are_left_alone(shell):
    """A cell that answers nothing is plain Python, even where it sets an answer's name among other things."""
    run(shell, "read = [1, 2]\nother = 3")
    assert shell.user_ns["read"] == [1, 2] and answering.answers() == {}


def test_a_lost_first_line_is_made_good_by_the_front_end(shell, monkeypatch):
    """JupyterLab names the item with the cell: the answer is read even where its first line was deleted."""
    monkeypatch.setattr(answering, "_sent_item", lambda shell: "toy.read")
    assert "Right" in run(shell, "read = 7.88 mm")
    assert "the name here is read" in run(shell, "raed = 7.88 mm")
    assert answering.answers() == {}


def test_a_lone_answer_line_is_read_where_nothing_names_the_item(shell):
    """In a kernel that is told nothing, a cell with only an answer line of the lesson is still that answer."""
    assert "Right" in run(shell, "read = 7.88 mm")
    assert "Right" in run(shell, "# my own words\nRead = '7.88'")
    run(shell, "total = 7.88")
    assert shell.user_ns["total"] == 7.88


def test_judged_attempts_are_logged_and_unread_ones_are_not(shell, tmp_path):
    """Each judged attempt is one line in the log: item, standing, tag; a typing fault is none."""
    run(shell, CELL + "read = 7.38 mm")
    run(shell, CELL + "read = 7.38 mil")
    run(shell, CELL + "read = 7.88 mm")
    rows = [line for line in (tmp_path / "attempts.jsonl").read_text().splitlines()]
    assert len(rows) == 2
    assert '"tag": "half-line-missed"' in rows[0] and '"standing": "right"' in rows[1]
    assert all('"candidate": 7' in row for row in rows)


def test_an_assessment_says_only_that_it_was_read(shell, tmp_path):
    """In an assessment neither the answer cell nor the check cell nor the log shows a verdict."""
    (tmp_path / "release.json").write_text('{"lesson": "toy", "mode": "assessment", "series": 1}')
    for said in (run(shell, CELL + "read = 7.38 mm"), run(shell, CHECK)):
        assert "not yet judged" in said and "half line" not in said and "misstep" not in said
    assert "half-line" not in (tmp_path / "attempts.jsonl").read_text()
    assert "Not judged" in run(shell, CELL + "read = 7.38 mil")


def test_no_candidate_number_no_verdict(shell, tmp_path):
    """Without a candidate number nothing is judged; setting it needs one line in any cell."""
    (tmp_path / "candidate.txt").unlink()
    assert "candidate number is not set" in run(shell, CELL + "read = 7.88 mm")
    assert "is not a candidate number" in run(shell, "candidate = seven")
    assert "is not a candidate number" in run(shell, "candidate = 12345")
    assert "I read: <b>7</b>" in run(shell, "# Your candidate number\ncandidate = 7")
    assert "Right" in run(shell, CELL + "read = 7.88 mm")


def test_a_question_shown_with_other_numbers_is_not_judged(shell, tmp_path):
    """Where the number was set after a question was shown, its answer waits until the question is shown again."""
    (tmp_path / "candidate.txt").unlink()
    ask = 'import workbench\nworkbench.ask("toy.read")'
    run(shell, ask)
    run(shell, "candidate = 7")
    assert "shown with other numbers" in run(shell, CELL + "read = 7.88 mm")
    run(shell, ask)
    assert "Right" in run(shell, CELL + "read = 7.88 mm")


def test_a_marking_run_sets_the_candidate_and_logs_nothing(shell, tmp_path, monkeypatch):
    """The marking run's candidate beats the file, verdicts are shown in an assessment too, nothing is logged."""
    (tmp_path / "release.json").write_text('{"lesson": "toy", "mode": "assessment", "series": 1}')
    monkeypatch.setenv("WORKBENCH_CANDIDATE", "009")
    monkeypatch.setenv("WORKBENCH_SERIES", "2")
    now = session.current()
    assert (now.candidate, now.series, now.shows_verdicts) == (9, 2, True)
    assert "Right" in run(shell, CELL + "read = 7.88 mm")
    assert not (tmp_path / "attempts.jsonl").exists()


def test_a_follow_on_waits_for_the_answer_that_it_builds_on(shell):
    """After a restart an answer worked from an own earlier slip is not judged before that slip is run again."""
    said = run(shell, "# Answer toy.size\nsize = 7.36")
    assert "Not judged" in said and "builds on your answer read =" in said
    run(shell, CELL + "read = 7.38")
    assert "own earlier value" in run(shell, "# Answer toy.size\nsize = 7.36")


def test_marks_and_follow_ons_are_kept_up_to_date(shell, monkeypatch):
    """Marks shown once follow each later answer, and so does the line of an answer that builds on it."""
    shown = {}
    monkeypatch.setattr(
        "IPython.display.update_display", lambda block, display_id: shown.update({display_id: block.data})
    )
    run(shell, 'import workbench\nworkbench.marks("toy")')
    run(shell, CELL + "read = 7.38")
    run(shell, "# Answer toy.size\nsize = 7.36")
    run(shell, 'import workbench\nworkbench.check("toy.size")')
    assert "1 of 5 marks so far" in shown["marks of toy"]
    run(shell, CELL + "read = 7.88")
    assert "2 of 5 marks so far" in shown["marks of toy"]
    assert "Not yet" in shown["check of toy.size"]


@pytest.mark.parametrize(
    "wrong, said",
    [
        ({"holds", "turn_on", "eased"}, "Still to be right: safety questions 1, 4. Without them the lesson does not "
         "count as passed."),
        ({"wire"}, "Still to be right: safety question 2. Without it the lesson does not count as passed."),
        ({"pair"}, "All safety questions are right."),
    ],
)  # fmt: skip
def test_one_sentence_names_the_safety_questions_still_to_be_right(wrong, said, tmp_path):
    """The marks cell speaks of safety once, with the numbers of the questions not yet right and no others."""
    asked = exercises.of_lesson("locking_a_nut")
    verdicts = [marking.Verdict(one.key, marking.NOT_YET if one.name in wrong else marking.RIGHT, 0, 1, "", "", "")
                for one in asked]  # fmt: skip
    now = session.Session(7, 1, "practice", "locking_a_nut", False, tmp_path)
    shown = question_sheet.marks_so_far(asked, verdicts, now)
    assert said in shown and shown.count("safety") == 1


def test_the_marks_so_far_are_summed(shell, tmp_path):
    """The sum holds what was judged in this kernel; an assessment says only how many answers were read."""
    total = 'import workbench\nworkbench.marks("toy")'
    assert "0 of 5 marks so far" in run(shell, total)
    run(shell, CELL + "read = 7.88")
    said = run(shell, total)
    assert "2 of 5 marks so far" in said and "1 of 3 questions" in said and "Look again" not in said
    run(shell, CELL + "read = 7.38")
    assert "Look again at question" in run(shell, total)
    run(shell, CELL + "read = 7.88")
    (tmp_path / "release.json").write_text('{"lesson": "toy", "mode": "assessment", "series": 1}')
    said = run(shell, total)
    assert "1 of 3 answers are read" in said and "marks" not in said
