"""An exercise: what is asked, whose numbers, the right answer, and the missteps that are known.

An exercise is data and small functions. It knows nothing of notebooks: `workbench.marking` judges it and
`workbench.answering` shows it.
"""

import hashlib
import string
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from functools import cache

ORIGINS = ("observed", "literature", "conjecture")

Variant = Mapping[str, object]


@dataclass(frozen=True)
class Quantity:
    """A number with a unit.

    unit: what is asked for, a pint name or a count ("mm", "inch", "deg", "divisions").
    step: the last figure asked for, in that unit (0.01: two decimals).
    within: (low, high), the values that the question can mean; decides between two readings of `1,250`
        and what can be carried forward. It never makes an answer wrong.
    spread: function of the variant giving the spread, in the unit, that comes from rounding
        intermediate results to three figures; None for a reading.
    unit_given: the question prints the unit, so that a plain number may be typed.
    forms: further ways of writing that this question allows: "fraction", "angle", "drill".
    """

    unit: str
    step: float
    within: tuple[float, float]
    spread: Callable[[Variant], float] | None = None
    unit_given: bool = True
    forms: tuple[str, ...] = ()

    def tolerance(self, variant: Variant) -> float:
        """Half the last figure asked for, or the spread of rounded intermediate results if larger."""
        half = self.step / 2
        return half if self.spread is None else max(half, self.spread(variant))

    @property
    def decimals(self) -> int:
        """Decimals asked for: 2 for a step of 0.01 or 0.05."""
        return max(0, len(f"{self.step:.9f}".rstrip("0").split(".")[1]))

    def rounded(self, value: float) -> float:
        """The value as an apprentice would write it: rounded to the asked step."""
        return round(round(value / self.step) * self.step, self.decimals + 2)

    def same(self, value: float, other: float, variant: Variant, times: float = 1.0) -> bool:
        """True where two values lie within `times` tolerances (a hair more, for binary fractions)."""
        return abs(value - other) <= times * self.tolerance(variant) * (1 + 1e-9) + 1e-12


@dataclass(frozen=True)
class Choice:
    """One of four options; `options` maps an option's name to its text (with its reason in it).

    The order shown is the variant's own, `variant["order"]`, a permutation of the names.
    """

    options: Mapping[str, str]

    def same(self, value: object, other: object, variant: Variant, times: float = 1.0) -> bool:
        """True where the two are the same option."""
        return value == other


@dataclass(frozen=True)
class Order(Choice):
    """All the options, put in order; an answer is a tuple of option names."""


@dataclass(frozen=True)
class Designation:
    """The call-out of a thread, such as M64x4-6g; a value is what `workbench.threads.designation.parse` gives.

    also: fields that count beside form, diameter, pitch, starts and hand, such as "screw_class".
    with_pitch: the pitch must be written, even where a table would supply it.
    """

    also: tuple[str, ...] = ()
    with_pitch: bool = False

    def same(self, value: object, other: object, variant: Variant, times: float = 1.0) -> bool:
        """True where the two agree in every field that counts."""
        counts = ("form", "major_mm", "pitch_mm", "starts", "left_hand", *self.also)
        return all(getattr(value, field) == getattr(other, field) for field in counts)


def letters(variant: Variant) -> dict[str, str]:
    """Letter -> option name, as this variant lists them: {"a": "ratchet", …}."""
    return dict(zip(string.ascii_lowercase, variant["order"], strict=False))


@dataclass(frozen=True)
class Misstep:
    """A known error and the value that it leads to.

    tag: its name in statistics; never holds the variant's numbers.
    wrong: function of the variant giving the wrong value; None where the error cannot show.
    diagnosis, next_step: what the apprentice reads; fields such as {entry} or {pitch} are filled in.
    origin: "observed", "literature" or "conjecture".
    keeps: marks that remain (a slip at the end of sound working).
    covers: function of an answer, true for further answers of the same error (a group of orders, such as all that
        begin wrongly); None where `wrong` is the only one.
    """

    tag: str
    wrong: Callable[[Variant], object]
    diagnosis: str
    next_step: str
    origin: str = "conjecture"
    keeps: int = 0
    covers: Callable[[object], bool] | None = None

    def __post_init__(self):
        if self.origin not in ORIGINS:
            raise ValueError(f"misstep {self.tag!r}: origin {self.origin!r} is not one of {ORIGINS}")


@dataclass(frozen=True)
class Exercise:
    """One marked item.

    key: "lesson.name"; the answer line is `name = …`.
    asks: the question; fields such as {pitch:g} are filled in from the variant.
    answer: its kind: `Quantity`, `Choice`, `Order` or `Designation`.
    draws: function giving all admissible draws (at least 40), each a dict of the variant's numbers.
    right: function of the variant giving the right answer in the asked unit.
    missteps: known errors; where two meet in a variant the later one sleeps (see `awake`).
    hints: a short ladder that ends in a similar worked case, never in the answer.
    outcome: what a right answer shows that the apprentice can do.
    critical: competence needs it right whatever the total; nothing is carried forward into it.
    follows: an earlier exercise whose value this one builds on, found in `variant["earlier"]`;
        the two share one list of draws.
    shows: function of the variant giving (name of a drawing, its arguments), or None.
    """

    key: str
    asks: str
    answer: Quantity | Choice | Order | Designation
    draws: Callable[[], Sequence[Variant]]
    right: Callable[[Variant], object]
    missteps: tuple[Misstep, ...]
    hints: tuple[str, ...]
    marks: int
    outcome: str
    critical: bool = False
    follows: "Exercise | None" = None
    shows: Callable[[Variant], tuple[str, dict]] | None = None

    @property
    def lesson(self) -> str:
        """The lesson that the exercise belongs to."""
        return self.key.split(".")[0]

    @property
    def name(self) -> str:
        """The name before the = sign of the answer line."""
        return self.key.split(".")[1]

    def variant(self, candidate: int, series: int = 1) -> dict:
        """The numbers of one candidate: a draw, indexed by the place on the roll.

        candidate: place on the roll, 0 to 9999 (0: sample numbers); series: 1, 2, … for other numbers.
        All candidates differ while the roll is no longer than the list of draws.
        """
        draws, order = _shuffled(self.draws, self._root.key)
        place = (candidate + (series - 1) * (len(draws) // 3 + 1)) % len(draws)
        return self.of_draw(draws[order[place]])

    def of_draw(self, draw: Variant) -> dict:
        """A draw with, for an exercise that follows another, the right earlier value added."""
        variant = dict(draw)
        if self.follows is not None:
            variant["earlier"] = self.follows.right(self.follows.of_draw(draw))
        return variant

    def carried(self, variant: Variant, own: object) -> dict:
        """The variant as it stands for somebody whose own earlier value is `own`."""
        return {**variant, "earlier": own}

    def awake(self, variant: Variant) -> list[tuple[Misstep, object]]:
        """The missteps that can be told apart in this variant, each with its wrong value.

        A misstep sleeps where its value, rounded to the asked figures, lies within three tolerances of
        the right answer or within two of a misstep listed before it.
        """
        right, awake = self.right(variant), []
        for misstep in self.missteps:
            wrong = misstep.wrong(variant)
            if wrong is None:
                continue
            shown = self.answer.rounded(wrong) if isinstance(self.answer, Quantity) else wrong
            if self.answer.same(shown, right, variant, times=3):
                continue
            if any(self.answer.same(shown, other, variant, times=2) for _, other in awake):
                continue
            awake.append((misstep, wrong))
        return awake

    @property
    def _root(self) -> "Exercise":
        return self if self.follows is None else self.follows._root


@cache
def _shuffled(draws: Callable[[], Sequence[Variant]], key: str) -> tuple[Sequence[Variant], list[int]]:
    """The draws, and their order for handing out: the same on every machine and Python version."""
    found = draws()
    order = sorted(range(len(found)), key=lambda i: hashlib.sha256(f"{key}:{i}".encode()).digest())
    return found, order
