"""Heads of solid rivets: sizes by kind, and the choice by what is asked, with the reason against each other kind.

Sizes are multiples of the shank D (tables/rivet_heads.csv; DIN 660 and inch tables give them size by size).
"""

from dataclasses import dataclass

from workbench.refusals import one_number, refuse
from workbench.rivets.countersink import way_in
from workbench.tables import table

_ASKED = {"strong": "strength", "spreads": "thin or soft sheet"}


@dataclass(frozen=True)
class Head:
    """A manufactured head: kind, whole angle (0: it stands up), width, height or depth in mm, what it is good for."""

    kind: str
    angle_deg: float
    width_mm: float
    height_mm: float
    use: str

    @property
    def flush(self):
        """Does it lie in the sheet?"""
        return self.angle_deg > 0


def kinds():
    """Names of all kinds of head.

    >>> kinds()[:3]
    ('universal', 'round', 'pan')
    """
    return tuple(table("rivet_heads").rows)


def head(kind, diameter_mm):
    """The head of that kind on a shank: its usual width and height (countersunk: depth).

    >>> head("round", 4).width_mm, round(head("countersunk 100", 4).width_mm, 9)
    (7.0, 7.2)
    """
    one_number("diameter_mm", diameter_mm, above=0)
    row = table("rivet_heads").row(kind)
    return Head(kind, row["angle_deg"], row["width_d"] * diameter_mm, row["height_d"] * diameter_mm, row["use"])


def choose_head(diameter_mm, sheet_mm, hole_mm, flush=False, room_mm=None, strong=False, spreads=False):
    """The kinds of head that do, the best first, and the reason against each other kind.

    sheet_mm: the sheet under the manufactured head; flush: must be level; room_mm: height free above the sheet;
    strong: strength counts most; spreads: the head must press on a large face (thin or soft sheet). A flush head is
    refused where its cone would leave a knife edge; `countersink.way_in` then says whether to dimple.
    Gives (kinds, {kind: reason}). Order among those that do: that of the table (common practice, no source).

    >>> good, refused = choose_head(4, 2.5, 4.2, flush=True)
    >>> good, refused["countersunk 90"], refused["round"]
    (['countersunk 100', 'countersunk 120'], 'a cone of 1.90 mm asks for a sheet of 2.85 mm: 2.5 mm leaves a knife \
edge, and is too thick to dimple; take a head that stands up, or less D', 'stands up; the surface must be flush')
    """
    if room_mm is not None:
        one_number("room_mm", room_mm, at_least=0)
    if flush:
        if spreads:
            refuse("spreads", spreads, "cannot be asked of a flush head", "it presses on its cone only")
        return _choose_flush(diameter_mm, sheet_mm, hole_mm)
    good, refused = [], {}
    for kind in kinds():
        one, row = head(kind, diameter_mm), table("rivet_heads").row(kind)
        lacking = [words for name, words in _ASKED.items() if {"strong": strong, "spreads": spreads}[name] > row[name]]
        if one.flush:
            refused[kind] = "weakens the sheet and costs a countersink; nothing asks for a flush surface"
        elif room_mm is not None and one.height_mm > room_mm:
            refused[kind] = f"stands {one.height_mm:.2f} mm high, there is room for {room_mm:g} mm"
        elif lacking:
            refused[kind] = f"not the head for {' and '.join(lacking)}"
        else:
            good.append(kind)
    return good, refused


def _choose_flush(diameter_mm, sheet_mm, hole_mm):
    """A cut cone before a pressed one; 100 degrees, the usual angle of sheet work, before others."""
    refused, ways = {}, {}
    for kind in kinds():
        one = head(kind, diameter_mm)
        if not one.flush:
            refused[kind] = "stands up; the surface must be flush"
            continue
        ways[kind] = way_in(sheet_mm, one.width_mm, hole_mm, one.angle_deg)
    best = next((way for way in ("countersink", "dimple") if way in {one.way for one in ways.values()}), "")
    good = sorted((kind for kind in ways if ways[kind].way == best), key=lambda kind: kind != "countersunk 100")
    return good, refused | {kind: way.reason for kind, way in ways.items() if kind not in good}
