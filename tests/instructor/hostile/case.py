"""What a hostile submission is: an honest item before the attack, an attack, an honest item after it.

The honest items are `pin` and `cut`, two marks each; `short`, between them, is answered wrongly and is what most
attacks are after. In a source WORD is what it prints when it got its way, COHORT, OUTSIDE and OTHER are folders
(the cohort's, one beside it, another candidate's work), PORT is a port that somebody listens at, PEER another
candidate's number, RIGHT the right answer to `short`.
"""

import json
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

LESSON = "measuring_screw"
BEFORE, GOAL, AFTER = "pin", "short", "cut"
WRONG = "1.00 mm"
WORD = "REACHED"
BOTH, FIRST, NONE = 4, 2, None  # marks: of both honest items, of the one before the attack, none given
UNEXPLAINED = "none of the slips"  # the verdict on WRONG


@dataclass(frozen=True)
class Place:
    """What the attacks of one submission are pointed at."""

    candidate: int
    peer: int
    right: str
    cohort: Path
    outside: Path
    other: Path
    port: int

    def fill(self, source: str) -> str:
        """A source with the words above filled in."""
        texts = {"COHORT": self.cohort, "OUTSIDE": self.outside, "OTHER": self.other, "RIGHT": self.right}
        for word, value in texts.items():
            source = source.replace(word, repr(str(value)))
        # in two halves, so that no traceback that quotes the source shows it
        source = source.replace("WORD", repr(WORD[:3]) + " + " + repr(WORD[3:]))
        return source.replace("PORT", str(self.port)).replace("PEER", str(self.peer))


@dataclass(frozen=True)
class Case:
    """says: the reason that the instructor is told. marks: given in all; None: left to the instructor.

    cell: an extra cell of its own between `pin` and `short`. last: the same at the end. answer: what is typed
    for `short`. edit: changes the notebook otherwise. hand_in: writes it to be collected, else as a folder named by
    the number. bites: gets its way when "isolation" is off, when verdicts are taken from the "run", or from the
    "outputs" that the notebook shows.
    """

    says: str = UNEXPLAINED
    marks: int | None = BOTH
    cell: str = ""
    last: str = ""
    answer: str = WRONG
    edit: Callable | None = None
    hand_in: Callable | None = None
    bites: str = ""


def content_of(work) -> bytes:
    """A notebook as it lies on the disk, not checked: most of these would not pass."""
    return json.dumps(work, ensure_ascii=False).encode()
