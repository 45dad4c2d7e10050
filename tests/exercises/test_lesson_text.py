"""The authored lesson texts: complete, in order, short, and safe before the act."""

import posixpath
import re
from pathlib import Path

import pytest

from workbench import exercises
from workbench.panels import PANELS
from workbench.panels.still import STILLS

LESSONS = Path(__file__).parents[2] / "instructor" / "lessons"
TEXTS = sorted(LESSONS.rglob("*.md"))
ASKING = [path for path in TEXTS if path.parent == LESSONS]

every_text = pytest.mark.parametrize("path", TEXTS, ids=lambda path: str(path.relative_to(LESSONS)))
every_asking = pytest.mark.parametrize("path", ASKING, ids=lambda path: path.stem)


def blocks(path, kind):
    """The names in the blocks of one kind, in order."""
    return re.findall(rf"^```{{{kind}}} (\w+)$", path.read_text(encoding="utf-8"), re.M)


def sentences(text):
    """Plain sentences of a Markdown text: tables, blocks, front matter and links' targets are left out."""
    text = re.sub(r"\A---\n.*?\n---\n", "", text, flags=re.S)
    text = re.sub(r"^```.*?^```$", "", text, flags=re.S | re.M)
    text = re.sub(r"\]\([^)]*\)", "]", text)
    lines = [line for line in text.splitlines() if not line.startswith(("|", "+++"))]
    return [part.strip() for line in lines for part in re.split(r"(?<=[.!?:;])\s+", line) if part.strip()]


@every_text
def test_a_lesson_is_short_and_so_are_its_sentences(path):
    """Under 1,500 words a lesson, and no sentence of more than 15 words."""
    said = re.sub(r"^(```.*|\+\+\+)$", "", path.read_text(encoding="utf-8"), flags=re.M)
    assert len(re.findall(r"\S*\w\S*", said)) < 1500
    text = path.read_text(encoding="utf-8")
    long = [said for said in sentences(text) if len(re.findall(r"[^\W\d_][\w'’-]*", said)) > 15]
    assert not long


@every_asking
def test_a_lesson_asks_each_of_its_questions_once_in_order(path):
    """The text's questions are the lesson's exercises, in the order in which they are numbered."""
    assert blocks(path, "question") == [exercise.name for exercise in exercises.of_lesson(path.stem)]


def released(path):
    """Where the notebook of a text lies in the course folder."""
    folder = {"start": "", "explore": "explore"}
    return posixpath.join(folder.get(path.stem, folder.get(path.parent.name, path.stem)), f"{path.stem}.ipynb")


@every_text
def test_every_panel_and_link_of_a_text_exists(path):
    """Panels are known, and links lead to notebooks that are built from another text."""
    assert set(blocks(path, "panel")) <= {*PANELS, *STILLS}
    here = posixpath.dirname(released(path))
    links = re.findall(r"\]\(([^)]*)\)", path.read_text(encoding="utf-8"))
    assert links
    for link in links:
        assert posixpath.normpath(posixpath.join(here, link)) in {released(text) for text in TEXTS}, link


def test_the_measuring_screw_offers_a_stop_every_three_or_four_questions():
    """No more than four questions stand between two places to stop."""
    text = (LESSONS / "measuring_screw.md").read_text(encoding="utf-8")
    parts = re.split(r"Save and stop here", text)
    assert all(part.count("```{question}") <= 4 for part in parts)
    assert len(parts) == 5
    for stop in parts[1:]:  # what to do at a stop, and the marks so far
        assert "Next time: open this page, choose **Run all**, go on." in stop and "```{marks}" in stop[:200]


def test_the_words_and_their_picture_stand_before_the_first_question():
    """The word table and the labelled picture come before anything is asked."""
    before = (LESSONS / "measuring_screw.md").read_text(encoding="utf-8").split("```{question}")[0]
    assert "```{panel} screw_words" in before
    for word in ("frame", "thimble", "ratchet", "reading", "zero error", "pawl pin", "datum line"):
        assert f"| {word} |" in before


def test_cautions_stand_before_the_first_question_and_marking_before_all():
    """Outcomes, marking and tolerance come first, then cautions, then the first thing to do."""
    text = (LESSONS / "measuring_screw.md").read_text(encoding="utf-8")
    order = ["Afterwards you can", "How it is marked", "±0.005 mm", "Stop the machine", "```{question}",
             "```{panel} measuring_screw",
             "Worked: a reading", "Faded:", "Alone", "where it fails", "Find the mistake", "At the bench",
             "Three sentences to remember", "To leave"]  # fmt: skip
    found = [text.index(mark) for mark in order]
    assert found == sorted(found)


def test_the_marks_printed_in_the_lesson_are_its_marks():
    """The first screen's count of questions and marks is the count of the exercises."""
    asked = exercises.of_lesson("measuring_screw")
    said = f"{len(asked)} questions, {sum(exercise.marks for exercise in asked)} marks"
    assert said in (LESSONS / "measuring_screw.md").read_text(encoding="utf-8")


def test_every_outcome_of_the_exercises_is_promised_on_the_first_screen():
    """What an exercise shows that one can do is among the lesson's outcomes, word for word."""
    text = (LESSONS / "measuring_screw.md").read_text(encoding="utf-8").split("+++")[0]
    for exercise in exercises.of_lesson("measuring_screw"):
        assert exercise.outcome.removeprefix("can ") in text


def test_question_texts_keep_to_short_sentences():
    """No sentence of a question, hint, diagnosis or next step is longer than 20 words."""
    for lesson in exercises.lessons():
        for exercise in exercises.of_lesson(lesson):
            said = [exercise.asks, *exercise.hints]
            said += [text for slip in exercise.missteps for text in (slip.diagnosis, slip.next_step)]
            for text in said:
                for sentence in re.split(r"(?<=[.!?:;])\s+|\n", text):
                    assert len(re.findall(r"[^\W\d_][\w'’-]*", sentence)) <= 20, sentence
