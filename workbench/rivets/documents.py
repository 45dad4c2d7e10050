"""Which document says how long a rivet stays drivable: rule sets as tables with their source, never a curve.

Documents disagree. Both are shown; the safer is the default, and which is safer depends on the use:
to *drive*, the shorter time; to *load*, the later one. A shop's own document is a CSV file of the same columns.
"""

import csv
from dataclasses import dataclass, replace
from functools import cache
from pathlib import Path

from workbench.refusals import refuse
from workbench.tables import table

_FIGURES = ("drive_within_min", "store_at_most_degc", "cold_for_h", "retreatments", "load_after_h")
_COLUMNS = ("document", "alloy", *_FIGURES, "says")


@dataclass(frozen=True)
class Rule:
    """What one document prints for one alloy; None where it prints no figure.

    drive_within_min: minutes warm since the quench, in all. store_at_most_degc, cold_for_h: the store must be at or
    below this, for so many hours in all. retreatments: how often again after the first heat; None: any number,
    inside the band. load_after_h: hours from driving until the joint may bear its load. says: its words, shortened.
    """

    document: str
    alloy: str
    drive_within_min: float | None = None
    store_at_most_degc: float | None = None
    cold_for_h: float | None = None
    retreatments: float | None = None
    load_after_h: float | None = None
    says: str = ""


def heat_treated(alloy):
    """Must rivets of this alloy be heat-treated before driving? ValueError with the nearest names if unknown.

    >>> heat_treated("2117"), heat_treated("2024")
    (False, True)
    """
    return table("rivet_alloys").row(alloy)["before_driving"] == "heat treat"


@cache
def printed_rules():
    """The rules that the course knows, from its own table."""
    return _rules(table("rivet_documents").rows.values(), "table rivet_documents")


def own_rules(path):
    """A shop's own rules from a CSV file: document, alloy, drive_within_min, store_at_most_degc, cold_for_h,
    retreatments, load_after_h, says. Lines with # say the source; it must be there (`# source: ...`).

    Refused, with the line, where a column or the source is missing or a figure is no number.
    """
    lines = Path(path).read_text(encoding="utf-8-sig").splitlines()
    if not any(line.startswith("#") and "source:" in line and line.split("source:")[1].strip() for line in lines):
        refuse("document file", Path(path).name, "must say where its figures come from",
               "put a line '# source: ...' on top")
    rows = list(csv.DictReader(line for line in lines if line.strip() and not line.startswith("#")))
    missing = [name for name in _COLUMNS if not rows or name not in rows[0]]
    if missing:
        refuse("document file", Path(path).name, f"lacks {', '.join(missing)}", "is the first row its column names?")
    return _rules(rows, Path(path).name)


def _rules(rows, where):
    found = []
    for row in rows:
        alloy = f"{row['alloy']:g}" if isinstance(row["alloy"], float) else row["alloy"].strip()
        rule = Rule(row["document"].strip(), alloy, **{name: _figure(row, name, where) for name in _FIGURES},
                    says=row["says"] or "")
        if rule.cold_for_h is not None and rule.store_at_most_degc is None:
            refuse(where, f"{rule.document} {alloy}", "a time in the cold needs the store's temperature beside it")
        found.append(rule)
    return tuple(found)


def _figure(row, name, where):
    cell = row[name]
    if cell is None or str(cell).strip() == "":
        return None
    try:
        value = float(cell)
    except ValueError:
        refuse(where, cell, f"{name} of {row['document']} {row['alloy']} must be a number or empty")
    if not value < float("inf") or (name != "store_at_most_degc" and value < 0):
        refuse(where, cell, f"{name} of {row['document']} {row['alloy']} must be a number of at least 0")
    return value


def rules_of(alloy, rules=None):
    """All rules for an alloy, of the course's table or of those given. Refused where none is needed or known."""
    rules = printed_rules() if rules is None else rules
    found = [rule for rule in rules if rule.alloy == str(alloy)]
    if not found:
        if str(alloy) in table("rivet_alloys").rows and not heat_treated(str(alloy)):
            refuse("alloy", alloy, "is driven as received", "heat-treated before driving are 2017 and 2024")
        known = sorted({rule.alloy for rule in rules})
        refuse("alloy", alloy, f"no document here speaks of it; known are {', '.join(known)}")
    return found


def rule(document, alloy, rules=None):
    """The rule of one document for an alloy; "shortest" is the safest of all that speak of it.

    >>> rule("navy", "2017").drive_within_min, rule("shortest", "2024").drive_within_min
    (20.0, 10.0)
    """
    found = rules_of(alloy, rules)
    if document == "shortest":
        return safest(found)
    for one in found:
        if one.document == document:
            return one
    known = ", ".join(["shortest", *(one.document for one in found)])
    refuse("document", document, f"says nothing of {alloy}; known are {known}")


def safest(rules):
    """The safest figure of each kind that the rules print: to drive and keep, the shortest; to load, the latest.

    >>> one = safest(rules_of("2017"))
    >>> one.drive_within_min, one.cold_for_h, one.load_after_h
    (20.0, 24.0, 216.0)
    """
    rules = list(rules)
    least = {name: min(found) if (found := [v for r in rules if (v := getattr(r, name)) is not None]) else None
             for name in _FIGURES}
    later = [one.load_after_h for one in rules if one.load_after_h is not None]
    names = " + ".join(dict.fromkeys(one.document for one in rules))
    return replace(Rule(f"shortest of {names}" if len(rules) > 1 else names, rules[0].alloy, **least),
                   load_after_h=max(later, default=None))


def disagreements(alloy, rules=None):
    """What the documents print side by side, where they differ: {figure: {document: value}}.

    >>> disagreements("2024")["drive_within_min"]
    {'handbook': 10.0, 'handbook older passage': 20.0, 'navy': 20.0}
    """
    shown = {name: {one.document: value for one in rules_of(alloy, rules) if (value := getattr(one, name)) is not None}
             for name in _FIGURES}
    return {name: values for name, values in shown.items() if len(set(values.values())) > 1}
