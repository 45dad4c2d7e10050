"""The verbs shift-plan and batch-log, as an instructor types them."""

import pytest

from instructor.verbs import main


@pytest.fixture
def say(capsys):
    def run(*words):
        code = main(list(map(str, words)))
        told = capsys.readouterr()
        return code, told.out, told.err

    return run


def test_the_example_week_is_printed(say):
    """Without options: the invented week, by the shortest document, with limits, batches and cautions."""
    code, out, _ = say("shift-plan")
    assert code == 0
    assert "44 batches make 8800 rivets: 8780 to drive, 20 to re-treat." in out
    assert "Drive within 20 min" in out and "Mon-early-1" in out and "Salts near 500" in out and "hard from" not in out


def test_an_own_pattern_and_an_own_document(say, tmp_path):
    """A shop's shifts and limits: its tags, its document, its portions."""
    (tmp_path / "shifts.csv").write_text(
        "shift,days,from,to,rivets_per_h,breaks,colour,shape\nday,Mon,08:00,09:00,60,,orange,star\n")
    (tmp_path / "own.csv").write_text(
        "# source: sheet 4\n"
        "document,alloy,drive_within_min,store_at_most_degc,cold_for_h,retreatments,load_after_h,says\n"
        "bay,2024,17,-18,48,3,,\n")
    code, out, _ = say("shift-plan", "--shifts", tmp_path / "shifts.csv", "--own-documents", tmp_path / "own.csv",
                       "--alloy", "2024", "--baskets", "30", "--portions")
    assert code == 0 and "2 batches make 60 rivets: 60 to drive, 0 to re-treat." in out
    assert "orange star" in out and "Document kept: bay." in out and "Heats in all: 4" in out
    assert "Mon 07:56" in out and "Mon 08:10" in out  # portions of 17 - 3 - 4 = 10 min


def test_the_board_is_a_page_that_stands_alone(say, tmp_path):
    """One HTML file: limits, hazards, batches, a place to sign; nothing loaded from elsewhere."""
    code, out, _ = say("shift-plan", "--html", tmp_path / "board.html", "--document", "navy")
    page = (tmp_path / "board.html").read_text(encoding="utf-8")
    assert code == 0 and "Board:" in out
    assert all(part in page for part in ("Mon-early-1", "Before the bath", "Checked against the approved document"))
    assert "http" not in page and "<script" not in page


@pytest.mark.parametrize(("words", "said"), [
    (["--baskets", "many"], "--baskets many: whole numbers"),
    (["--ways", "3"], "two numbers are needed"),
    (["--store", "cold"], "--store cold: a number"),
    (["--store", "5"], "must be at or below 0 degC"),
    (["--document", "poster"], "known are shortest, handbook"),
    (["--alloy", "2117"], "is driven as received"),
    (["--baskets", "20"], "cannot be had, even with every run of the bath full"),
    (["--shifts", "none.csv"], "none.csv"),
])
def test_what_cannot_be_planned_is_refused_in_a_sentence(say, words, said):
    """No traceback: what is wrong and what would help."""
    code, _, err = say("shift-plan", *words)
    assert code == 2 and said in err


def test_a_night_in_the_log(say, tmp_path):
    """Quenched 23:50, stored 23:56, a portion out at 00:20: usable to 00:34 (20 - 6 min), then doubtful, then hard."""
    held = tmp_path / "log.jsonl"
    add = ("batch-log", held, "--add")
    assert say(*add, "quenched", "--batch", "N1", "--rivets", 200, "--at", "2026-11-25T23:50")[0] == 0
    assert say(*add, "stored", "--batch", "N1", "--store-degc", -18, "--at", "2026-11-25T23:56")[0] == 0
    code, out, _ = say(*add, "issued", "--batch", "N1", "--rivets", 20, "--at", "2026-11-26T00:20")
    assert code == 0 and "N1/1" in out and "Thu 26 Nov 00:34" in out and "180" in out
    _, out, _ = say("batch-log", held, "--document", "navy", "--at", "2026-11-26T00:34")
    assert [line.split()[3] for line in out.splitlines() if line.startswith("N1")] == ["usable", "usable"]
    _, out, _ = say("batch-log", held, "--at", "2026-11-26T00:35")
    assert "set aside, ask" in out  # the handbook would still allow it: the instructor decides
    _, out, _ = say("batch-log", held, "--at", "2026-11-27T03:00")
    assert out.count("hard") >= 1 and "re-treat" in out


def test_a_half_line_is_noted_and_read_past(say, tmp_path):
    """After a stop in mid-line the state is still printed, with a note."""
    held = tmp_path / "log.jsonl"
    say("batch-log", held, "--add", "quenched", "--batch", "N1", "--rivets", 20, "--at", "2026-11-25T23:50")
    held.write_bytes(held.read_bytes() + b'{"at": "2026')
    code, out, _ = say("batch-log", held, "--at", "2026-11-25T23:55")
    assert code == 0 and "N1" in out and "note: line 2 cannot be read" in out


@pytest.mark.parametrize(("words", "said"), [
    ([], "begin it with --add quenched"),
    (["--add", "stored", "--batch", "N1"], "what did the thermometer show"),
    (["--add", "issued", "--batch", "N9", "--rivets", "5"], "is not in the log"),
    (["--at", "yesterday"], "2026-11-25T23:50"),
    (["--add", "quenched", "--rivets", "5"], "the name on the tag"),
])
def test_a_log_entry_that_cannot_be_is_refused(say, tmp_path, words, said):
    """Nothing is guessed: the missing fact is asked for."""
    code, _, err = say("batch-log", tmp_path / "log.jsonl", *words)
    assert code == 2 and said in err
