"""Part numbers of solid rivets, AN and MS series: `MS20470AD4-6`, read and written.

Number = series and head, letters = alloy, first dash = shank diameter in 32nds of an inch, second dash = length in
16ths; a countersunk rivet's length is over all. A code with two readings is handed back with the place.
Source: standard parts lists as printed in FAA-H-8083-31, from memory.
"""

import re
from dataclasses import dataclass
from fractions import Fraction

from workbench.refusals import refuse, whole
from workbench.rivets.alloy import alloy, alloys
from workbench.tables import table
from workbench.threads.spelling import NotACallOut

_SIGNS = str.maketrans("−–—‐‑", "-----")
_LONGEST = 60
_BLIND = re.compile(r"MS2060\d|NAS1[37]\d\d")
_DIAMETERS = (2, 3, 4, 5, 6, 8, 10, 12)


@dataclass(frozen=True)
class PartNumber:
    """A solid rivet by its part number: `number` (MS20470), alloy name, diameter in 32nds, length in 16ths."""

    number: str
    alloy: str
    diameter_32nds: int
    length_16ths: int

    def __post_init__(self):
        rows = table("rivet_part_numbers").rows
        if self.number not in rows:
            refuse("number", self.number, "must be one of " + ", ".join(rows))
        code = alloy(self.alloy).code or "NONE"
        if code not in rows[self.number]["letters"].split():
            refuse("alloy", self.alloy, f"is not made as {self.number}", "look in the parts list of that number")
        if whole("diameter_32nds", self.diameter_32nds) not in _DIAMETERS:
            refuse("diameter_32nds", self.diameter_32nds, f"must be one of {_DIAMETERS}", "the first dash counts 32nds")
        whole("length_16ths", self.length_16ths, at_least=2, at_most=48, cause="the second dash counts 16ths")
        if Fraction(self.length_16ths, 16) <= Fraction(self.diameter_32nds, 32):
            refuse("length_16ths", self.length_16ths, "makes a rivet no longer than its diameter",
                   "were the two dash numbers swapped?")

    @property
    def head(self):
        """Kind of head, as "universal"."""
        return table("rivet_part_numbers").row(self.number)["head"]

    @property
    def angle_deg(self):
        """Whole angle of a countersunk head; 0 for a head that stands on the sheet."""
        return table("rivet_part_numbers").row(self.number)["angle_deg"]

    @property
    def diameter_in(self):
        """Shank diameter in inch: first dash / 32."""
        return self.diameter_32nds / 32

    @property
    def length_in(self):
        """Length in inch: second dash / 16."""
        return self.length_16ths / 16


def write(part):
    """The part number as printed.

    >>> write(PartNumber("MS20470", "2117", 4, 6))
    'MS20470AD4-6'
    >>> write(PartNumber("AN435", "carbon steel", 4, 6))
    'AN435-4-6'
    """
    if not isinstance(part, PartNumber):
        refuse("part", part, "must be a PartNumber")
    code = alloy(part.alloy).code
    return f"{part.number}{code or '-'}{part.diameter_32nds}-{part.length_16ths}"


def read(text):
    """A part number as typed: capitals, blanks and kinds of dash do not matter.

    Refused, with the place: another series, a blind rivet, letters that are missing, unknown or not made in that
    number, a missing dash (46 is 4-6 or a diameter of 46/32), a third dash, sizes that are not made.

    >>> one = read("ms 20470 ad 4-6")
    >>> one.head, one.alloy, one.diameter_in, one.length_in
    ('universal', '2117', 0.125, 0.375)
    >>> read("MS20470AD46")
    Traceback (most recent call last):
    ...
    workbench.threads.spelling.NotACallOut: call-out 'MS20470AD46', sign 10 ('4'): two figures without a dash can be \
read in two ways; diameter 4 and length 6 is written 4-6
    """
    if not isinstance(text, str):
        raise NotACallOut(str(text)[:40], 0, "a part number is text", "put it in quotes: 'MS20470AD4-6'")
    if len(text) > _LONGEST:
        raise NotACallOut(text, _LONGEST, f"a part number has at most {_LONGEST} signs", "was a whole list pasted?")
    plain = "".join(sign.upper() if sign.isascii() else sign for sign in text.translate(_SIGNS))  # places stay
    at = len(plain) - len(plain.lstrip())
    number, at = _number(text, plain, at)
    letters, at = _letters(text, plain, at, number)
    diameter, length = _dashes(text, plain, at)
    name = next(name for name, one in alloys().items() if (one.code or "NONE") == letters and _made(name, number))
    try:
        return PartNumber(number, name, diameter, length)
    except ValueError as reason:
        rule, _, likely = str(reason).partition("; ")
        place = re.search(r"\d", plain[at:]).start() + at
        if rule.startswith("length"):
            place = plain.index("-", place) + 1
        raise NotACallOut(text, place, rule, likely or "look in the parts list") from None


def _fail(text, at, rule, likely):
    while at < len(text) and text[at].isspace():
        at += 1
    raise NotACallOut(text, at, rule, likely)


def _number(text, plain, at):
    if not plain.strip():
        _fail(text, at, "nothing is typed", "a part number looks like MS20470AD4-6")
    if _BLIND.match(plain.replace(" ", "")):
        _fail(text, at, "is the number of a blind rivet", "this reads solid rivets")
    found = re.compile(r"(AN|MS)\s*(\d+)").match(plain, at)
    if not found:
        likely = "which head? 4-6 alone gives diameter and length only"
        _fail(text, at, "must begin with AN or MS and the number of the head", likely)
    number = found[1] + found[2]
    known = table("rivet_part_numbers").rows
    if number not in known:
        same = [name for name in known if name.endswith(found[2][-3:]) or name[2:] == found[2]]
        likely = f"was {' or '.join(same)} meant?" if same else "the numbers known here: " + ", ".join(known)
        _fail(text, found.start(2), f"{number} is no number of a solid rivet known here", likely)
    return number, found.end()


def _made(name, number):
    return (alloys()[name].code or "NONE") in table("rivet_part_numbers").row(number)["letters"].split()


def _letters(text, plain, at, number):
    found = re.compile(r"[\s-]*([A-Z]+(?:\s+[A-Z]+)*)?").match(plain, at)
    made = table("rivet_part_numbers").row(number)["letters"].split()
    start = found.start(1) if found[1] else at
    if not found[1]:
        if "NONE" in made:
            return "NONE", at
        _fail(text, at, "no letters say the alloy", f"{number} is made as {', '.join(made)}")
    letters = found[1]
    if " " in letters:
        joined = letters.replace(" ", "")
        _fail(text, start, "letters apart can be read in two ways", f"was {joined} meant, or {letters.split()[0]}?")
    if letters not in made:
        codes = {one.code: name for name, one in alloys().items() if one.code}
        said = f"{letters} is {codes[letters]}, which is not made as {number}" if letters in codes else (
            f"{letters} is no code of an alloy")
        _fail(text, start, said, f"{number} is made as {', '.join(code for code in made if code != 'NONE')}")
    return letters, found.end()


def _dashes(text, plain, at):
    found = re.compile(r"[\s-]*(\d+)(\s*-\s*(\d+))?").match(plain, at)
    if not found:
        _fail(text, at, "a diameter in 32nds is due", "as the 4 in MS20470AD4-6")
    if not found[2]:
        figures = found[1]
        if len(figures) > 1:
            likely = f"diameter {figures[0]} and length {figures[1:]} is written {figures[0]}-{figures[1:]}"
            _fail(text, found.start(1), f"{_words(figures)} figures without a dash can be read in two ways", likely)
        _fail(text, found.end(), "the length in 16ths is missing", "as the 6 in MS20470AD4-6")
    rest = plain[found.end():]
    if rest.strip():
        half = re.match(r"\s*(?:-|\.)\s*5\s*$", rest)
        likely = f"was a length of {found[3]}.5 sixteenths meant? ask" if half else "end behind the length"
        _fail(text, found.end(), "more follows behind the length", likely)
    return int(found[1]), int(found[3])


def _words(figures):
    return {2: "two", 3: "three"}.get(len(figures), "several")
