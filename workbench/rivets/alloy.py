"""Alloys of solid rivets: what a head mark or code letter says, strength when driven, heat treatment, partner, weight.

Sources: MIL-HDBK-5 chapter 8 (driven shear), FAA-H-8083-31 (marks, delivery; from memory), as stored in
tables/rivet_alloys.csv. A soft alloy hardens by itself after its heat treatment: the document in use gives the time.
"""

import difflib
import math
from dataclasses import dataclass

from workbench.refusals import numbers, one_number, refuse
from workbench.rivets.corrosion import couple
from workbench.tables import table

KSI_MPA = 6.894757  # 1000 lbf/in2


@dataclass(frozen=True)
class Alloy:
    """One rivet alloy: code letters of its part number ("" where there are none), head mark, strength, weight.

    heat_treat: must be heat treated, and driven while soft; driven_shear_mpa: of the driven rivet, on the hole's area;
    metal: its row in the table of the anodic index.
    """

    name: str
    code: str
    temper: str
    head_mark: str
    colour: str
    heat_treat: bool
    driven_shear_mpa: float
    density_kg_dm3: float
    metal: str


def alloys():
    """All alloys of the table, by name.

    >>> list(alloys())[:4]
    ['1100', '2117', '2017', '2024']
    """
    return {
        name: Alloy(name, "" if row["code"] == "NONE" else row["code"], row["temper"], row["head_mark"], row["colour"],
                    row["before_driving"] == "heat treat", round(row["driven_shear_ksi"] * KSI_MPA, 1),
                    row["density_kg_dm3"], row["metal"])
        for name, row in table("rivet_alloys").rows.items()
    }  # fmt: skip


def alloy(name):
    """The alloy of that name.

    >>> alloy("2024").heat_treat, alloy("2117").driven_shear_mpa
    (True, 206.8)
    """
    known = alloys()
    if not isinstance(name, str) or name not in known:
        refuse("alloy", name, "must be one of " + ", ".join(known), "give the name, not the code letters")
    return known[name]


def of_mark(head_mark, colour=""):
    """The one alloy with that head mark; a mark that several carry is handed back with their names.

    A plain head says nothing alone: 1100, copper and Monel have it; the colour then tells.

    >>> of_mark("dimple").name
    '2117'
    >>> of_mark("plain", "copper red").name
    'copper'
    >>> of_mark("plain")
    Traceback (most recent call last):
    ...
    ValueError: head_mark = 'plain': is carried by 1100, copper, monel; look at the colour: dull grey-white, \
copper red, bright yellowish
    """
    marks = sorted({one.head_mark for one in alloys().values()})
    if not isinstance(head_mark, str) or head_mark not in marks:
        near = difflib.get_close_matches(str(head_mark)[:40], marks, n=2, cutoff=0.4)
        refuse("head_mark", head_mark, "must be one of " + ", ".join(marks),
               f"was {' or '.join(near)} meant?" if near else "wipe the head and look with a lens")
    found = [one for one in alloys().values() if one.head_mark == head_mark and colour in ("", one.colour)]
    if not found:
        refuse("colour", colour, f"is no colour of a rivet marked {head_mark}", "compare it with a known rivet")
    if len(found) > 1:
        refuse("head_mark", head_mark, "is carried by " + ", ".join(one.name for one in found),
               "look at the colour: " + ", ".join(one.colour for one in found))
    return found[0]


def single_shear_n(name, hole_mm):
    """What one driven rivet of the alloy carries in one shear plane: pi/4 dh^2 tau, on the hole that it fills.

    hole_mm dh > 0, number or array. Source: MIL-HDBK-5 chapter 8.

    >>> round(float(single_shear_n("2117", 4.1)), 1)
    2730.3
    """
    return math.pi / 4 * numbers("hole_mm", hole_mm, above=0) ** 2 * alloy(name).driven_shear_mpa


def choose_alloy(load_n, hole_mm, sheet_metal, environment="normal", can_heat_treat=False):
    """The alloys that bear a load in single shear beside a sheet metal, the best first, and why others do not.

    Best: light metal in light metal, then the nearest in the anodic index, then the weakest, which is softest to drive
    (common practice, no source). load_n on one rivet, factors included; sheet_metal: a row of the anodic index;
    environment: harsh, normal or controlled. Gives (names, {name: reason}); no name where nothing bears the load.

    >>> good, refused = choose_alloy(2700, 4.2, "aluminium 2000")
    >>> good[0], refused["2024"]
    ('2117', 'must be heat treated and driven soft: no furnace and cold store here')
    """
    one_number("load_n", load_n, at_least=0)
    good, refused = {}, {}
    for name, one in alloys().items():
        bears = float(single_shear_n(name, hole_mm))
        pair = couple(one.metal, sheet_metal, environment)
        if bears < load_n:
            refused[name] = f"bears {bears:.0f} N in single shear, the load is {load_n:.0f} N"
        elif not pair.acceptable:
            refused[name] = f"in {sheet_metal}: {pair.reason}"
        elif one.heat_treat and not can_heat_treat:
            refused[name] = "must be heat treated and driven soft: no furnace and cold store here"
        else:
            alike = one.metal.startswith("aluminium") == sheet_metal.startswith("aluminium")
            good[name] = (not alike, pair.difference_v, one.driven_shear_mpa)
    return sorted(good, key=good.get), refused
