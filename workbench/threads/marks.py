"""Marks on heads and nuts: property class, left hand, maker.

The maker's mark is only told apart as such: whose it is stands in no public table. Sources: ISO 898-1 and
ISO 898-2 (marking clauses), SAE J429, ISO 3506-1, from memory.
"""

import re
from dataclasses import dataclass

from workbench.refusals import refuse
from workbench.tables import table
from workbench.threads.property_classes import nominal_mpa, nut_proof_mpa, stainless

_LINES = {"no": "none", "0": "none", "3": "three", "5": "five", "6": "six"}


@dataclass(frozen=True)
class Mark:
    """One mark: what is struck, its kind, what it says in plain words."""

    text: str
    kind: str
    meaning: str


def _lines(count, text):
    said = _LINES.get(count, count)
    grades = [f"{row['grade']:g}" for row in table("sae_j429_grades").rows.values()
              if row["head_mark"].split()[0] == said]
    if not grades:
        return Mark(text, "unknown", f"{said} radial lines stand for no SAE grade: none, three, five and six do")
    return Mark(text, "grade", f"SAE grade {' or '.join(dict.fromkeys(grades))}: an inch bolt")


def _one(text, on):
    lines = re.fullmatch(r"(\w+)[ -]lines?", text)
    if lines:
        return _lines(lines[1].lower(), text)
    if text in ("L", "←", "<-", "left arrow", "LH"):
        return Mark(text, "left hand", "left-hand thread: it tightens anticlockwise")
    reduced = re.fullmatch(r"0([0-9]{1,2}\.[0-9])", text)
    if reduced and on == "bolt":
        return Mark(text, "property class", f"class {reduced[1]} material, but a weak head or shank: do not count on "
                    "the full load of the class")
    if re.fullmatch(r"[0-9]{1,2}\.[0-9]", text):
        known = {f"{row['property_class']:.1f}" for row in table("iso_898_1_classes").rows.values()}
        if text not in known or on == "nut":
            return Mark(text, "unknown", "no such property class" if text not in known
                        else "a bolt's class; a nut carries one figure")
        tensile, yields = nominal_mpa(text)
        return Mark(text, "property class", f"nominal strength {tensile} MPa; yields at {yields} MPa")
    if re.fullmatch(r"A[1-5]-(50|70|80)", text):
        found = stainless(text)
        return Mark(text, "property class", f"stainless steel {text[:2]}, strength {found.tensile_mpa:g} MPa, "
                    f"yields at {found.yield_mpa:g} MPa")
    if on == "nut" and text.isdecimal():
        try:
            proof = nut_proof_mpa(text, 10)
        except ValueError:
            return Mark(text, "unknown", "no such class of nut")
        thin = "thin nut, " if text.startswith("0") else ""
        return Mark(text, "property class", f"{thin}class {text}: proof stress {proof:g} MPa at M10")
    if re.fullmatch(r"[A-Z]{1,5}", text):
        return Mark(text, "maker", "maker's mark: it tells who answers for the part, nothing about its strength")
    return Mark(text, "unknown", "not a mark of the tables: ask before you use the part")


def read_marks(text, on="bolt"):
    """The marks on a head or a nut, blanks between them, each in plain words. on: "bolt" or "nut".

    >>> [(mark.kind, mark.text) for mark in read_marks("ABC 10.9 L")]
    [('maker', 'ABC'), ('property class', '10.9'), ('left hand', 'L')]
    >>> read_marks("three lines")[0].meaning
    'SAE grade 5 or 5.2: an inch bolt'
    """
    if on not in ("bolt", "nut"):
        refuse("on", on, "must be 'bolt' or 'nut'", "figures mean different things on the two")
    if not isinstance(text, str) or not text.strip():
        refuse("text", text, "must be what is struck on the part", "a blank head is itself a sign: give 'no lines'")
    if len(text) > 80:
        refuse("text", text, "must be at most 80 signs", "give the marks only")
    words = re.findall(r"left arrow|\w+[ -]lines?\b|\S+", text)
    return tuple(_one(word, on) for word in words)
