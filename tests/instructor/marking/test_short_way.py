"""The short way: what it takes, what it leaves to the run, and that both give the same verdicts."""

import copy

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from nbformat.v4 import new_code_cell, new_markdown_cell, new_notebook

from instructor.invented import written
from instructor.marking.judging import judge
from instructor.marking.pool import Pool
from instructor.marking.running import cells_of
from instructor.marking.short_way import read_only
from workbench.exercises import find, of_lesson
from workbench.exercises.exercise import Order, Quantity

LESSON = "measuring_screw"
ASKED = of_lesson(LESSON)
NAMES = [exercise.name for exercise in ASKED]


def released():
    """A release's code cells: each question, answer line and check, and one plain cell of the lesson."""
    cells = [new_markdown_cell("# A lesson", id="text"), new_code_cell("half = 1 / 2", id="code-1")]
    for name in NAMES:
        ask = new_code_cell(f'workbench.ask("{LESSON}.{name}")', id=f"{name}-ask")
        ask.metadata["nbgrader"] = {"locked": True, "grade": False, "solution": False}
        answer = new_code_cell(f"# Answer {LESSON}.{name}\n{name} = ", id=name)
        answer.metadata["nbgrader"] = {"locked": False, "grade": False, "solution": True}
        check = new_code_cell(f'workbench.check("{LESSON}.{name}")', id=f"{name}-check")
        check.metadata["nbgrader"] = {"locked": True, "grade": True, "solution": False}
        cells += [ask, answer, check]
    return new_notebook(cells=cells)


RELEASED = released()


def notebook(sources):
    """The release with these answer cells."""
    made = copy.deepcopy(RELEASED)
    for cell in made.cells:
        cell.source = sources.get(cell.id, cell.source)
    return made


def short(made, findings=(), candidate=7):
    return read_only(made, RELEASED, findings, candidate, 1)


def line(name, text):
    return f"# Answer {LESSON}.{name}\n{name} = {text}"


def test_plain_entries_take_the_short_way():
    """Typed numbers with units, letters and typing faults are read without running anything."""
    left = short(notebook({"travel": line("travel", "3,25 mm"), "drive": line("drive", "b"),
                           "pin": line("pin", "about 7 mm")}))
    assert left.answers == {f"{LESSON}.travel": "3,25 mm", f"{LESSON}.drive": "b"}
    assert "not one value" in left.refusals[f"{LESSON}.pin"]
    assert left.refusals[f"{LESSON}.cut"].startswith("nothing is typed yet")


EXECUTABLE = [
    line("travel", "6.5 * half"), line("travel", "half"), line("travel", "exit()"), line("travel", "[3][0]"),
    line("travel", "(3, 4)"), line("travel", "lambda: 1"), line("travel", "f'{exit()}'"), line("travel", "{1}"),
    line("travel", "3.25 mm") + "\nimport os", "import os\n" + line("travel", "3.25 mm"),
    line("travel", "3.25 mm") + "\ntravel.x = 1", "%%time\n" + line("travel", "3.25 mm"),
    line("travel", "3.25 mm") + "\n!ls", line("travel", "3.25 mm") + "\n%ls", line("travel", "3.25 mm") + "\n?travel",
    line("travel", "3.25 mm").replace("\n", "\r"), line("travel", "3.25 mm") + "\x0cimport os",
    line("travel", "3.25 mm") + "\u2028import os", ">>> " + line("travel", "3.25 mm"),
    "travel: print(1) = 3", line("travel", "1") + "\ntravel_2 = exit()", "candidate = 7",
    "# Answer measuring_screw.travel\nif 1:\n    travel = 3.25", "# Answer nothing.travel\ntravel = 3",
    line("travel", "9" * 400), "class A: pass", "travel = 3.25",
]


@pytest.mark.parametrize("source", EXECUTABLE)
def test_nothing_executable_takes_the_short_way(source):
    """A cell in which anything could be worked out, or that is no answer line, is left to the run."""
    assert short(notebook({"travel": source})) is None


def test_an_extra_cell_or_an_edited_one_is_left_to_the_run():
    """A cell of the apprentice's own, a changed plain cell, or anything found not as released: it is run."""
    extra = notebook({})
    extra.cells.append(new_code_cell("x = 1", id="own-1"))
    assert short(extra) is None
    assert short(notebook({"code-1": "half = 3"})) is None
    assert short(notebook({}), findings=("locked cell travel-ask was edited",)) is None
    assert short(notebook({})) is not None


_plain = st.one_of(
    st.builds(lambda number, unit, gap: f"{number:.3f}".rstrip("0") + gap + unit,
              st.floats(-40, 40, allow_nan=False), st.sampled_from(["mm", "in", "um", "divisions", "", "mil", "thou"]),
              st.sampled_from(["", " "])),
    st.builds(lambda number, unit: f"{number:.2f}".replace(".", ",") + f" {unit}", st.floats(0, 30),
              st.sampled_from(["mm", "in", ""])),
    st.permutations("abcdef").map(" ".join),
    st.sampled_from(["", "a", "B", "c.", "'d'", '"7.31 mm', "1/8 in", "14°30'", "1,250 mm", "1 250", "3.2.5 mmm",
                     "−0.02", "#7", "7.31 mm # sure", "1e400", "½ mm", "x", "half", "half * 7", "1 + 1", "exit()",
                     "(1, 2)", "None", "{}",
                     "0x10", "1_000", "True", "a b c d e f", "f e d c b a", "')", "\\", "'''", "\"\"\""]),
    st.text(st.sampled_from("0123456789.,+-*/ ()[]'\"\\#=abcmn½°"), max_size=14),
    st.text(max_size=8),
)


def _fitting(exercise):
    """Entries such as the item asks for: mostly read, seldom right."""
    kind = exercise.answer
    if isinstance(kind, Quantity):
        return st.builds(lambda number, unit: f"{number:.{kind.decimals}f}{unit}", st.floats(*kind.within),
                         st.sampled_from([f" {kind.unit}", kind.unit, ""]))
    listed = "abcdefgh"[: len(kind.options)]
    return st.permutations(listed).map(" ".join) if isinstance(kind, Order) else st.sampled_from(listed)


@st.composite
def _cell(draw, name):
    exercise = find(f"{LESSON}.{name}")
    right = written(exercise, exercise.variant(7), exercise.right(exercise.variant(7)))
    text = draw(st.one_of(_fitting(exercise), _fitting(exercise), _fitting(exercise), st.just(right), _plain))
    shape = draw(st.sampled_from(["{line}"] * 12 + [
        "{line}\n# done", "\n\n{line}", "{head}", "{line}\n{name} = 2 mm", "{head}\n{upper} : {text}", "{line}\nx = 1",
        "{head}\nother = {text}", "{line}\n{name}"]))
    head = f"# Answer {LESSON}.{name}"
    return shape.format(line=line(name, text), head=head, name=name, upper=name.upper(), text=text)


_notebooks = st.lists(st.sampled_from(NAMES), max_size=4, unique=True).flatmap(
    lambda names: st.fixed_dictionaries({name: _cell(name) for name in names}))


@pytest.fixture(scope="module")
def pool():
    with Pool(workers=1, at_once=3) as made:
        yield made


def _both(pool, batch):
    """(short, run) for each notebook that takes the short way."""
    taken = [(candidate, made, left) for candidate, made in enumerate(batch, start=1)
             if (left := short(made, candidate=candidate)) is not None]
    work = [(candidate, cells_of(made),
             {"WORKBENCH_CANDIDATE": str(candidate), "WORKBENCH_SERIES": "1"}) for candidate, made, _ in taken]
    ran = dict(pool.run(work))
    return [(candidate, left, ran[candidate]) for candidate, _, left in taken]


@pytest.mark.slow
def test_both_ways_give_the_same_verdicts(pool):
    """Thousands of generated notebooks: what the short way reads is what the run reads, verdict by verdict."""
    compared = []

    @settings(max_examples=80, deadline=None, derandomize=True, database=None,
              suppress_health_check=list(HealthCheck))
    @given(st.lists(_notebooks, min_size=30, max_size=30))
    def compare(batch):
        for candidate, left, ran in _both(pool, [notebook(sources) for sources in batch]):
            assert ran.stopped == "" and not ran.troubles
            assert left.answers == ran.answers
            assert left.refusals == {key: text[:500] for key, text in ran.refusals.items()}
            assert judge(LESSON, candidate, 1, left).verdicts == judge(LESSON, candidate, 1, ran).verdicts
            compared.append(len(left.answers))

    compare()
    assert len(compared) > 1_200 and sum(compared) > 700
