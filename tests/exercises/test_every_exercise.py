"""What holds for every exercise of every lesson, in each of its admissible draws."""

import re
from collections import Counter
from dataclasses import replace
from importlib import import_module

import pytest

from workbench import entry, exercises, marking
from workbench.exercises.draws import decimals_of
from workbench.exercises.exercise import Choice, Designation, Order, Quantity, letters
from workbench.threads.designation import write
from workbench.threads.explanation import spoken

EVERY = [exercise for lesson in exercises.lessons() for exercise in exercises.of_lesson(lesson)]
FOLLOWING = [exercise for exercise in EVERY if exercise.follows]

JUNK = [
    None, "", "   ", "''", "abc", "mm", "?", "7.1 or 7.2", "about 7", "3 4", "1.2.3", "1,2,3", "nan", "inf", "1e999",
    "7 lb", "7 mil", "7 tenths", "7 bananas", "7 N m s", "[7]", "(7, 8)", "{'a': 1}", "print(7)", "None", "True", "aa",
    "a b", "7/0 mm", "--7", "x" * 10_000_000, "٧ mm²³",
]  # fmt: skip

every_exercise = pytest.mark.parametrize("exercise", EVERY, ids=lambda exercise: exercise.key)
every_following = pytest.mark.parametrize("exercise", FOLLOWING, ids=lambda exercise: exercise.key)


def variants(exercise):
    """All variants of an exercise, draw by draw."""
    return [exercise.of_draw(draw) for draw in exercise.draws()]


def written(exercise, variant, value, spelled="{number} {unit}"):
    """A value as an apprentice types it, rounded to the figures asked."""
    kind = exercise.answer
    if isinstance(kind, Quantity):
        unit = {"inch": "in", "um": "µm"}.get(kind.unit, kind.unit)
        return spelled.format(number=f"{kind.rounded(value):.{kind.decimals}f}", unit=unit)
    if isinstance(kind, Designation):
        return write(value, show_pitch=True)
    names = {name: letter for letter, name in letters(variant).items()}
    return " ".join(names[name] for name in value) if isinstance(kind, Order) else names[value]


def told_apart(exercise, variant):
    """The rule of the design, by its own arithmetic: the awake missteps against right and each other."""
    right, awake = exercise.right(variant), exercise.awake(variant)
    if not isinstance(exercise.answer, Quantity):
        values = [right, *(wrong for _, wrong in awake)]
        return len(set(values)) == len(values)
    tolerance = exercise.answer.tolerance(variant)
    shown = [exercise.answer.rounded(wrong) for _, wrong in awake]
    from_right = all(abs(value - right) > 3 * tolerance for value in shown)
    among_each_other = all(
        abs(later - earlier) > 2 * tolerance for place, later in enumerate(shown) for _, earlier in awake[:place]
    )
    return from_right and among_each_other


@every_exercise
def test_the_right_answer_rounded_to_the_asked_figures_is_right_however_it_is_typed(exercise):
    """In every draw the right answer, rounded as asked, earns all marks: point, comma, quotes, extra figures."""
    for variant in variants(exercise):
        right = exercise.right(variant)
        typed = [written(exercise, variant, right), f"'{written(exercise, variant, right)}'"]
        if isinstance(exercise.answer, Quantity):
            typed.append(written(exercise, variant, right).replace(".", ","))
            typed.append(written(exercise, variant, right, "{number}{unit}"))
            typed.append(f"{right:.6f} {exercise.answer.unit}")
        if isinstance(exercise.answer, Designation):
            typed += [typed[0].replace("×", " x "), typed[0].replace(".", ",")]
            typed += [] if right.length_mm else [spoken(right)]
        for text in typed:
            verdict = marking.judge(exercise, variant, text)
            assert (verdict.standing, verdict.marks) == (marking.RIGHT, exercise.marks), (variant, text, verdict)


@every_exercise
def test_each_awake_misstep_reaches_its_own_tag(exercise):
    """In every draw each awake misstep's value, rounded as asked, is named as that misstep and earns what it keeps."""
    for variant in variants(exercise):
        for misstep, wrong in exercise.awake(variant):
            verdict = marking.judge(exercise, variant, written(exercise, variant, wrong))
            found = (verdict.standing, verdict.tag, verdict.marks)
            assert found == (marking.MISSTEP, misstep.tag, misstep.keeps), (variant, wrong, verdict)


@every_exercise
def test_no_misstep_lies_near_the_right_answer_or_another_misstep(exercise):
    """No awake misstep lies within three tolerances of right or two of another, in any draw."""
    for variant in variants(exercise):
        assert told_apart(exercise, variant), variant


@every_exercise
def test_three_missteps_are_awake_in_every_draw(exercise):
    """At least three missteps can be told apart in every draw, and none sleeps in most of them."""
    found = [[misstep.tag for misstep, _ in exercise.awake(variant)] for variant in variants(exercise)]
    assert min(map(len, found)) >= 3
    for misstep in exercise.missteps:
        assert sum(misstep.tag in tags for tags in found) > len(found) / 2, misstep.tag


@every_exercise
@pytest.mark.parametrize("junk", JUNK, ids=lambda junk: repr(junk)[:20])
def test_junk_is_not_judged(exercise, junk):
    """What is no answer is handed back with a reason, never judged wrong."""
    if junk == "3 4" and isinstance(exercise.answer, Designation):
        pytest.skip("two figures are an inch thread: 3 in, 4 threads an inch")
    verdict = marking.judge(exercise, exercise.variant(0), junk)
    assert (verdict.standing, verdict.marks, verdict.tag) == (marking.NOT_JUDGED, 0, "")
    assert verdict.message


@every_exercise
def test_texts_fill_in_every_draw_and_never_hold_the_right_answer(exercise):
    """Question, hints, diagnoses and next steps fill without error and do not print the right answer."""
    for variant in variants(exercise):
        said = [exercise.asks, *exercise.hints]
        for misstep in exercise.missteps:
            said += [misstep.diagnosis, misstep.next_step]
        filled = [marking.filled(text, {**variant, "entry": "…"}) for text in said]
        assert not any(mark in text for text in filled for mark in "{}"), filled
        if exercise.key in ("start.bush", "reading_a_callout.which"):  # ask which of four printed ones fits
            filled = filled[1:]
        if isinstance(exercise.answer, Quantity):
            right = exercise.answer.rounded(exercise.right(variant))
            figures = {float(number) for text in filled for number in re.findall(r"\d+(?:\.\d+)?", text)}
            assert right not in figures, (variant, right)
        if isinstance(exercise.answer, Designation):
            right = written(exercise, variant, exercise.right(variant))
            assert not any(right in re.sub(r"\s*[x×]\s*", "×", text) for text in filled), (variant, right)


@every_exercise
def test_every_candidate_has_own_numbers_while_the_roll_is_no_longer_than_the_draws(exercise):
    """At least 40 draws, all different; no two places on the roll share one; another series changes each."""
    draws = exercise.draws()
    assert len(draws) >= 40
    assert len({repr(draw) for draw in draws}) == len(draws)
    for series in (1, 2, 3):
        assert len({repr(exercise.variant(n, series)) for n in range(len(draws))}) == len(draws)
    for candidate in range(len(draws)):
        own = [repr(exercise.variant(candidate, series)) for series in (1, 2, 3)]
        assert len(set(own)) == 3


@every_exercise
def test_no_draw_is_easier_than_another(exercise):
    """All draws have the same fields and signs, and right answers of one sign and equally many decimals."""
    found = variants(exercise)
    numeric = [name for name, value in found[0].items() if isinstance(value, int | float)]
    for name in numeric:
        assert len({variant[name] > 0 for variant in found}) == 1, name
    assert len({tuple(variant) for variant in found}) == 1
    if isinstance(exercise.answer, Quantity):
        rights = [exercise.answer.rounded(exercise.right(variant)) for variant in found]
        assert len({decimals_of(right) for right in rights}) == 1
        assert len({right > 0 for right in rights}) == 1
        low, high = exercise.answer.within
        assert low <= min(rights) and max(rights) <= high


@every_exercise
def test_an_exercise_is_complete(exercise):
    """Tags hold no figures and are unlike; hints end in a similar case; a slip keeps less than all marks."""
    tags = [misstep.tag for misstep in exercise.missteps]
    assert len(set(tags)) == len(tags) >= 3
    assert all(re.fullmatch(r"[a-z]+(-[a-z]+)*", tag) for tag in [*tags, exercise.name.replace("_", "-")])
    assert 2 <= len(exercise.hints) <= 3 and exercise.hints[-1].startswith("A similar case")
    assert all(0 <= misstep.keeps < exercise.marks for misstep in exercise.missteps)
    assert exercise.outcome.startswith("can ")
    if type(exercise.answer) is Choice:
        assert len(exercise.answer.options) == 4


@pytest.mark.parametrize("lesson", exercises.lessons())
def test_choices_are_at_most_a_fifth_of_the_marks(lesson):
    """What can be guessed from a list counts for a fifth of a lesson's marks at most."""
    asked = exercises.of_lesson(lesson)
    chosen = sum(exercise.marks for exercise in asked if isinstance(exercise.answer, Choice))
    assert chosen <= sum(exercise.marks for exercise in asked) / 5


@pytest.mark.parametrize("exercise", [one for one in EVERY if one.shows], ids=lambda exercise: exercise.key)
def test_the_picture_of_a_question_is_drawn_whatever_the_draw(exercise):
    """Draws spread over the list, each with other numbers of its picture: all are drawn, with words for them."""
    shown = {repr(one): one for one in map(exercise.shows, variants(exercise))}
    for name, arguments in list(shown.values())[:: max(1, len(shown) // 8)]:
        picture, alternative = import_module(f"workbench.drawings.{name}").picture(**arguments)
        assert picture.startswith(b"\x89PNG") and alternative


@pytest.mark.parametrize("lesson", [lesson for lesson in exercises.lessons() if lesson != "start"])
def test_each_outcome_has_three_items(lesson):
    """An outcome is shown by at least three items of a lesson, so by six over the lesson and its second set."""
    outcomes = Counter(exercise.outcome for exercise in exercises.of_lesson(lesson))
    assert min(outcomes.values()) >= 3, outcomes


@every_exercise
def test_a_misstep_never_covers_the_right_answer(exercise):
    """What a misstep covers beside its own value is never right, and its own value is among it."""
    for misstep in exercise.missteps:
        for variant in variants(exercise) if misstep.covers else ():
            assert not misstep.covers(exercise.right(variant)) and misstep.covers(misstep.wrong(variant))


@every_following
def test_one_slip_costs_its_marks_once(exercise):
    """Sound work on an own earlier value that a known slip led to is right, marked as carried forward."""
    for variant in variants(exercise):
        seen = 0
        for _, wrong in exercise.follows.awake(variant):
            earlier = written(exercise.follows, variant, wrong)
            own = entry.read(earlier, exercise.follows.answer, variant).value
            carried = exercise.carried(variant, own)
            try:
                value = exercise.right(carried)
            except ValueError:
                continue
            low, high = exercise.follows.answer.within
            if not low <= own <= high or exercise.answer.same(value, exercise.right(variant), variant):
                continue
            assert told_apart(exercise, carried), carried
            text = written(exercise, variant, value)
            verdict = marking.judge(exercise, variant, text, earlier)
            assert (verdict.standing, verdict.tag, verdict.marks) == ("right", "carried-forward", exercise.marks)
            alone = marking.judge(exercise, variant, text)
            assert alone.marks < exercise.marks, "without the earlier entry the same value is not right"
            critical = marking.judge(replace(exercise, critical=True), variant, text, earlier)
            assert critical.marks < exercise.marks, "nothing is carried forward into a critical item"
            seen += 1
        assert seen, variant


@every_following
def test_the_right_earlier_value_counts_where_the_own_one_is_impossible(exercise):
    """An earlier entry that is unreadable or out of reach changes nothing: the right answer stays right."""
    variant = exercise.variant(3)
    right = written(exercise, variant, exercise.right(variant))
    for earlier in ("rubbish", "", "-4 mm", "900000 mm", "0 mm"):
        assert marking.judge(exercise, variant, right, earlier).standing == marking.RIGHT
