"""Designations of blind rivets, read and written: `Blind rivet ISO 15977 - 4 x 12 - AlA/St - L`; the trade code 6-8.

Source: designation clauses of ISO 15977 and its sister standards, from memory; the trade code is common practice:
first figure the body in 32nds of an inch, second the largest grip in 16ths.
"""

import re
from dataclasses import dataclass

from workbench.refusals import refuse
from workbench.rivets.blind import family
from workbench.rivets.grip import grip_range
from workbench.tables import table
from workbench.threads.spelling import NotACallOut

INCH_MM = 25.4
_SIGNS = str.maketrans({"−": "-", "–": "-", "—": "-", "‐": "-", "‑": "-", "×": "x", "✕": "x", "*": "x", "X": "x"})
_LONGEST = 80
_SIZE = r"\d{1,3}(?:[.,]\d{1,2})?(?![\d.,])"
_PARTS = (  # name, pattern, what is due, likely cause; None: may be left out
    ("words", r"(?:(?:open|closed) end )?blind rivet", None, ""),
    ("standard", r"(?:DIN )?(?:EN )?ISO ?\d{5}", "the standard is due", "as ISO 15977; it gives head and materials"),
    ("dash", "-", None, ""),
    ("body", _SIZE, "the diameter of the body in mm is due", "as the 4 in 4 x 12"),
    ("times", "x", "an x is due between diameter and length", "write 4 x 12"),
    ("length", _SIZE, "the length of the body in mm is due", "as the 12 in 4 x 12"),
    ("dash", "-", None, ""),
    ("materials", r"[A-Za-z]+2?/[A-Za-z]+2?", None, ""),
    ("dash", "-", None, ""),
    ("level", r"[LH]\b", None, ""),
)


@dataclass(frozen=True)
class BlindRivetName:
    """What a designation says: standard, body and length in mm, materials (body/mandrel), level L, H or "one"."""

    standard: str
    body_mm: float
    length_mm: float
    materials: str
    level: str = "one"

    def __post_init__(self):
        known = family(self.standard)
        if self.materials != known["materials"]:
            refuse("materials", self.materials, f"must be {known['materials']}: {self.standard} covers no other pair")
        if (self.level in ("L", "H")) != (known["levels"] == "L and H") or self.level not in ("L", "H", "one"):
            refuse("level", self.level, f"does not belong to {self.standard}",
                   "give L or H" if known["levels"] == "L and H" else "leave it out: there is one strength")
        if any(row["standard"] == self.standard for row in table("blind_grips").rows.values()):
            grip_range(self.standard, self.body_mm, self.length_mm)  # refuses sizes that are not made
        elif f"{self.body_mm:g}" not in table("blind_sizes").rows:
            refuse("body_mm", self.body_mm, "is no nominal diameter of a body")


def write(rivet):
    """The designation as printed.

    >>> write(BlindRivetName("ISO 15977", 4, 12, "AlA/St", "L"))
    'Blind rivet ISO 15977 - 4 × 12 - AlA/St - L'
    """
    if not isinstance(rivet, BlindRivetName):
        refuse("rivet", rivet, "must be a BlindRivetName")
    level = "" if rivet.level == "one" else f" - {rivet.level}"
    return f"Blind rivet {rivet.standard} - {rivet.body_mm:g} × {rivet.length_mm:g} - {rivet.materials}{level}"


def read(text):
    """A designation as typed; dashes, blanks, a decimal comma and the kind of x do not matter.

    The materials may be left out (the standard names them); L or H of ISO 15977 may not.

    >>> one = read("blind rivet iso 15983 – 4,8x10")
    >>> one.body_mm, one.materials
    (4.8, 'A2/A2')
    >>> read("ISO 15977 - 4x11 - AlA/St - L")
    Traceback (most recent call last):
    ...
    workbench.threads.spelling.NotACallOut: call-out 'ISO 15977 - 4x11 - AlA/St - L', sign 15 ('1'): length_mm = 11.0: \
is no length of ISO 15977 with a 4 mm body; there are 6, 8, 10, 12, 16, 20, 25; look into the standard
    """
    if not isinstance(text, str):
        raise NotACallOut(str(text)[:40], 0, "a designation is text", "put it in quotes: 'ISO 15977 - 4 x 12 - L'")
    if len(text) > _LONGEST:
        raise NotACallOut(text, _LONGEST, f"a designation has at most {_LONGEST} signs", "was a whole list pasted?")
    plain, at, got, places = text.translate(_SIGNS), len(text) - len(text.lstrip()), {}, {}
    for name, pattern, due, likely in _PARTS:
        found = re.compile(rf"({pattern})\s*", re.IGNORECASE).match(plain, at)
        if not found and due:
            raise NotACallOut(text, at, due, likely)
        if found:
            got[name], places[name], at = found.group(1), at, found.end()
    if at < len(plain):
        raise NotACallOut(text, at, "more follows than standard, sizes, materials and level", "end behind L or H")
    return _checked(text, got, places)


def _checked(text, got, places):
    standard = f"ISO {got['standard'][-5:]}"
    try:
        known = family(standard)
    except ValueError as reason:
        raise NotACallOut(text, places["standard"], f"{standard} is no blind rivet known here", str(reason)) from None
    pair = got.get("materials", known["materials"])
    if pair.casefold() == known["materials"].casefold():
        pair = known["materials"]
    body, length = (float(got[name].replace(",", ".")) for name in ("body", "length"))
    try:
        return BlindRivetName(standard, body, length, pair, got.get("level", "one").upper().replace("ONE", "one"))
    except ValueError as reason:
        said, _, likely = str(reason).rpartition("; ") if str(reason).startswith("level") else (str(reason), "", "")
        names = {"materials": "materials", "level": "level", "length_mm": "length", "body_mm": "body"}
        place = places.get(names[str(reason).split(" ")[0]], len(text))
        raise NotACallOut(text, place, said or str(reason), likely or "look into the standard") from None


@dataclass(frozen=True)
class TradeCode:
    """An inch trade code: body and largest grip in inch."""

    body_in: float
    grip_in: float

    @property
    def grip_mm(self):
        """Largest grip in mm."""
        return self.grip_in * INCH_MM


def read_trade_code(text):
    """The trade code `6-8`: body 6/32 in, grips up to 8/16 in. Without a dash more than two figures are ambiguous.

    >>> code = read_trade_code("6-8")
    >>> code.body_in, code.grip_in, code.grip_mm
    (0.1875, 0.5, 12.7)
    >>> read_trade_code("412")
    Traceback (most recent call last):
    ...
    workbench.threads.spelling.NotACallOut: call-out '412', sign 2 ('1'): 412 has two readings; write 4-12 or 41-2
    """
    plain = str(text).translate(_SIGNS).strip()[:_LONGEST]
    dashed = re.fullmatch(r"(\d{1,2})\s*-\s*(\d{1,2})", plain)
    if dashed:
        body, grip = dashed.groups()
    elif re.fullmatch(r"\d{2}", plain):
        body, grip = plain
    elif re.fullmatch(r"\d{3,4}", plain):
        raise NotACallOut(plain, 1, f"{plain} has two readings",
                          f"write {plain[0]}-{plain[1:]} or {plain[:2]}-{plain[2:]}")
    else:
        raise NotACallOut(plain, 0, "two figures are due, as 6-8", "32nds of an inch, then 16ths")
    if body not in table("blind_holes_inch").rows:
        raise NotACallOut(plain, 0, f"no body of {body}/32 in is made", "there are "
                          + ", ".join(table("blind_holes_inch").rows) + " 32nds of an inch")
    if int(grip) == 0:
        raise NotACallOut(plain, len(plain) - 1, "the grip must be above 0", "it counts 16ths of an inch")
    return TradeCode(int(body) / 32, int(grip) / 16)


def inch_hole_in(code):
    """Least and largest hole of an inch body, in inch, and its drill; code: the first figure, 32nds of an inch.

    >>> inch_hole_in(4)
    (0.129, 0.133, '#30')
    """
    row = table("blind_holes_inch").row(f"{code}")
    return row["hole_least_in"], row["hole_largest_in"], row["drill"]
