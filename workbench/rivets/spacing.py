"""Where rivets may stand: edge distance, pitch and row spacing by the chosen document, and a row that fits a seam.

All distances run from hole centre to hole centre, or from the hole's centre to the edge. The rules stand in
table rivet_spacing, one row a document; where documents differ the caller chooses and both can be shown.
"""

import math
from dataclasses import dataclass

from workbench.refusals import one_number, refuse, whole
from workbench.tables import table

DOCUMENTS = ("army", "navy", "repair advisory")


@dataclass(frozen=True)
class Spacing:
    """The distances that a document allows for one rivet diameter, in mm; None where it gives no figure."""

    document: str
    edge_least_mm: float
    edge_most_mm: float | None
    pitch_least_mm: float
    pitch_usual_mm: tuple | None
    pitch_most_mm: float | None
    row_least_mm: float | None


def spacing(diameter_mm, document="army", flush=False):
    """The distances for a rivet of that diameter; flush heads need more edge.

    >>> spacing(4).edge_least_mm, spacing(4, flush=True).edge_least_mm, spacing(4).pitch_usual_mm
    (8.0, 10.0, (24.0, 32.0))
    """
    one_number("diameter_mm", diameter_mm, above=0)
    if document not in DOCUMENTS:
        refuse("document", document, f"must be one of {', '.join(DOCUMENTS)}")
    row = table("rivet_spacing").row(document)

    def size(column):
        return row[column] * diameter_mm or None

    usual = (size("pitch_usual_least_d"), size("pitch_usual_most_d"))
    return Spacing(
        document, size("edge_flush_least_d" if flush else "edge_least_d"), size("edge_most_d"), size("pitch_least_d"),
        usual if all(usual) else None, size("pitch_most_d"), size("row_least_d"))  # fmt: skip


@dataclass(frozen=True)
class Row:
    """A row of rivets on a seam: `count` rivets, `pitch_mm` apart, the end ones `end_mm` from the seam's ends."""

    length_mm: float
    diameter_mm: float
    count: int
    pitch_mm: float
    end_mm: float

    def places_mm(self):
        """Distance of each rivet's centre from one end of the seam.

        >>> Row(320, 4, 3, 150, 10).places_mm()
        (10, 160, 310)
        """
        return tuple(self.end_mm + self.pitch_mm * place for place in range(self.count))


def row_of(length_mm, diameter_mm, count, end_mm):
    """A row of so many rivets, evenly spread between the end distances: p = (l - 2 e)/(n - 1).

    >>> row_of(320, 4, 15, 20).pitch_mm
    20.0
    """
    one_number("length_mm", length_mm, above=0)
    whole("count", count, at_least=2, cause="one rivet is no row: the parts would turn about it")
    one_number("end_mm", end_mm, above=0)
    if length_mm <= 2 * end_mm:
        refuse("end_mm", end_mm, f"twice the end distance must be less than the seam's {length_mm:g} mm")
    return Row(length_mm, diameter_mm, count, (length_mm - 2 * end_mm) / (count - 1), end_mm)


def objections(row, document="army", flush=False):
    """What the document has against a row, in words; an empty list where it has nothing.

    >>> objections(row_of(320, 4, 30, 8))
    ['pitch 10.5 mm is less than 12 mm (3 D)']
    """
    rule = spacing(row.diameter_mm, document, flush)
    found = []

    def against(name, value, least, most):
        beyond = {"less": (least, least and value < least - 1e-9), "more": (most, most and value > most + 1e-9)}
        for words, (limit, wrong) in beyond.items():
            if wrong:
                found.append(f"{name} {value:.3g} mm is {words} than {limit:.3g} mm ({limit / row.diameter_mm:g} D)")

    against("end distance", row.end_mm, rule.edge_least_mm, rule.edge_most_mm)
    against("pitch", row.pitch_mm, rule.pitch_least_mm, rule.pitch_most_mm)
    return found


def rows_that_fit(length_mm, diameter_mm, document="army", flush=False, at_least=2):
    """All rows at the least end distance that the document allows on this seam, fewest rivets first.

    at_least: rivets that the load needs. An end distance at its least leaves the pitch most room; ValueError
    where no row fits, with the reason.

    >>> [row.count for row in rows_that_fit(100, 4)]
    [4, 5, 6, 7, 8]
    """
    rule = spacing(diameter_mm, document, flush)
    between = one_number("length_mm", length_mm, above=0) - 2 * rule.edge_least_mm
    most = 1 + math.floor(between / rule.pitch_least_mm + 1e-9)
    needed = whole("at_least", at_least, at_least=2)
    if most < needed:
        held = f"holds {most} at most" if most > 1 else "is too short for two"
        refuse("length_mm", length_mm, f"with D {diameter_mm:g} mm the seam {held}; {needed} are needed",
               "add a row, or take a larger rivet where the sheet allows it")  # fmt: skip
    rows = (row_of(length_mm, diameter_mm, count, rule.edge_least_mm) for count in range(needed, most + 1))
    fitting = [row for row in rows if not objections(row, document, flush)]
    if not fitting:
        refuse("at_least", at_least, "no number of rivets keeps to the document's pitch on this seam")
    return fitting


def drilled_holes(count, sheets):
    """Holes to drill for so many rivets: one in each sheet.

    >>> drilled_holes(15, 2)
    30
    """
    return whole("count", count) * whole("sheets", sheets, at_least=2, cause="a rivet joins two parts or more")
