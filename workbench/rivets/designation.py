"""Designations of metric solid rivets: `Rivet DIN 660 - 4 x 20 - St`, read and written.

Standard, shank diameter x length, material. A round head (DIN 660) is measured under the head, a countersunk one
(DIN 661) over all. What has two readings is handed back with the place. Blind rivets (ISO 15977 and others) are
read elsewhere. Sources: DIN 660, DIN 661, ISO 1051 (diameters), from memory.
"""

import re
from dataclasses import dataclass

from workbench.refusals import one_number, refuse
from workbench.tables import table
from workbench.threads.spelling import NotACallOut

HEADS = {"660": ("round", 0), "661": ("countersunk", 75)}  # standard -> head, whole angle
_SIGNS = str.maketrans({"−": "-", "–": "-", "—": "-", "‐": "-", "‑": "-", "×": "x", "✕": "x", "*": "x", "X": "x"})
_LONGEST = 80


@dataclass(frozen=True)
class MetricRivet:
    """A metric solid rivet: standard "660" or "661", shank diameter and length in mm, material code ("" if open)."""

    standard: str
    diameter_mm: float
    length_mm: float
    material: str = ""

    def __post_init__(self):
        if self.standard not in HEADS:
            refuse("standard", self.standard, "must be 660 (round head) or 661 (countersunk head)")
        if f"{one_number('diameter_mm', self.diameter_mm, above=0):g}" not in table("rivets_metric").rows:
            refuse("diameter_mm", self.diameter_mm, "is no shank diameter of the standard",
                   f"nearest: {_near(self.diameter_mm, 'rivets_metric', 'diameter_mm')}")
        one_number("length_mm", self.length_mm, above=self.diameter_mm, cause="were diameter and length swapped?")
        if f"{self.length_mm:g} mm" not in table("rivet_lengths").rows:
            refuse("length_mm", self.length_mm, "is no length of the standard",
                   f"nearest: {_near(self.length_mm, 'rivet_lengths', 'length_mm')}")
        if self.material and self.material not in table("rivet_materials").rows:
            refuse("material", self.material, "must be one of " + ", ".join(table("rivet_materials").rows))

    @property
    def head(self):
        """"round" or "countersunk"."""
        return HEADS[self.standard][0]

    @property
    def measured(self):
        """How the length counts."""
        return "over all" if self.head == "countersunk" else "under the head"


def _near(value, name, column):
    sizes = sorted((row[column] for row in table(name).rows.values()), key=lambda size: abs(size - value))[:2]
    return " or ".join(f"{size:g}" for size in sorted(sizes))


def write(rivet):
    """The designation as printed.

    >>> write(MetricRivet("660", 4, 20, "St"))
    'Rivet DIN 660 - 4 × 20 - St'
    """
    if not isinstance(rivet, MetricRivet):
        refuse("rivet", rivet, "must be a MetricRivet")
    end = f" - {rivet.material}" if rivet.material else ""
    return f"Rivet DIN {rivet.standard} - {rivet.diameter_mm:g} × {rivet.length_mm:g}{end}"


def read(text):
    """A designation as typed; "Rivet", blanks, dashes, a decimal comma and the kind of x do not matter.

    Refused, with the place: another standard, a blind rivet, no standard, no x, sizes that are not made (with the
    nearest), diameter and length swapped, an unknown material.

    >>> one = read("DIN 661 - 4x20 - AlMg")
    >>> one.head, one.diameter_mm, one.length_mm, one.measured
    ('countersunk', 4.0, 20.0, 'over all')
    >>> read("DIN 660 - 4 20")
    Traceback (most recent call last):
    ...
    workbench.threads.spelling.NotACallOut: call-out 'DIN 660 - 4 20', sign 13 ('2'): an x is due between diameter and \
length; write 4 x 20
    """
    if not isinstance(text, str):
        raise NotACallOut(str(text)[:40], 0, "a designation is text", "put it in quotes: 'DIN 660 - 4 x 20 - St'")
    if len(text) > _LONGEST:
        raise NotACallOut(text, _LONGEST, f"a designation has at most {_LONGEST} signs", "was a whole list pasted?")
    line = _Line(text)
    line.take(r"(?:solid )?rivet", re.IGNORECASE)
    standard = _standard(line)
    line.take("-")
    at, diameter = line.size("the shank diameter in mm is due", "as the 4 in 4 x 20")
    if not line.take("x"):
        line.fail("an x is due between diameter and length", f"write {diameter:g} x 20")
    length_at, length = line.size("the length in mm is due", f"as the 20 in {diameter:g} x 20")
    line.take("-")
    material_at, material = line.at, line.take(r"[A-Za-z][A-Za-z0-9]*").strip()
    if not line.done:
        line.fail("more follows than standard, sizes and material", "end behind the material, as St")
    known = {code.casefold(): code for code in table("rivet_materials").rows}
    if material and material.casefold() not in known:
        line.fail(f"{material} is no material known here", "one of " + ", ".join(known.values()), material_at)
    try:
        return MetricRivet(standard, diameter, length, known.get(material.casefold(), ""))
    except ValueError as reason:
        said, _, likely = str(reason).partition("; ")
        line.fail(said, likely or "look in the standard", at if said.startswith("diameter") else length_at)


def _standard(line):
    at, body = line.at, line.take(r"DIN(?: EN)?(?: ISO)?|ISO|EN", re.IGNORECASE)
    number_at, number = line.at, line.take(r"\d+")
    if not body or not number:
        line.fail("the standard is due, which gives the head", "DIN 660 is a round head, DIN 661 a countersunk one", at)
    if number.startswith("159") or number in ("16582", "16583", "16584", "16585"):
        line.fail(f"ISO {number} is a blind rivet", "this reads solid rivets", number_at)
    if number == "1051":
        line.fail("ISO 1051 lists shank diameters and names no head", "which head: DIN 660 or DIN 661?", number_at)
    if number not in HEADS or "DIN" not in body.upper():
        line.fail(f"{body} {number} is not known here", "DIN 660 (round) and DIN 661 (countersunk) are", number_at)
    return number


class _Line:
    """Walks along what was typed; blanks are skipped, each sign keeps its place."""

    def __init__(self, text):
        self.text, self.plain = text, text.translate(_SIGNS)
        self.at = len(text) - len(text.lstrip())

    def take(self, pattern, flags=0):
        found = re.compile(rf"({pattern})\s*", flags).match(self.plain, self.at)
        if not found:
            return ""
        self.at = found.end()
        return found.group(1)

    @property
    def done(self):
        return self.at >= len(self.plain)

    def size(self, rule, likely):
        at, figures = self.at, self.take(r"\d{1,4}(?:[.,]\d{1,3})?(?![\d.,])")
        if not figures:
            self.fail(rule, likely)
        return at, float(figures.replace(",", "."))

    def fail(self, rule, likely, at=None):
        raise NotACallOut(self.text, self.at if at is None else at, rule, likely)
