"""Blind rivets by the standard: family, body, head, hole, and the load at which a set rivet breaks.

Families are open or closed ended, with a protruding or countersunk head, of many body and mandrel materials; see
the tables blind_families, blind_sizes, blind_loads. A tabulated load is where the rivet breaks, never a permitted one.
"""

from workbench.refusals import one_number, refuse
from workbench.tables import table


def family(standard):
    """What a standard covers: materials, head, end, body_metal, mandrel_metal, levels; nearest names if unknown.

    >>> family("ISO 15983")["materials"], family("ISO 15978")["head"]
    ('A2/A2', 'countersunk')
    """
    return table("blind_families").row(standard)


def body_size(body_mm):
    """Sizes of a body diameter, mm: body and head limits, head height, mandrel, hole limits (ISO 15977 AlA/St).

    beyond_mm: how far the unset rivet reaches past its own length with the head of its mandrel, at most.

    >>> body_size(4)["head_largest_mm"], body_size(4.8)["mandrel_mm"]
    (8.4, 2.95)
    """
    one_number("body_mm", body_mm, above=0, cause="give the nominal diameter of the body in mm")
    rows = table("blind_sizes").rows
    if f"{body_mm:g}" not in rows:
        refuse("body_mm", body_mm, "is no nominal diameter; there are " + ", ".join(rows),
               "was the hole given? it is 0.1 to 0.2 mm larger")
    return rows[f"{body_mm:g}"]


def hole_mm(body_mm):
    """Least and largest hole, mm: D + 0.1 to D + 0.2. Closer than for screws: the shank must fill it.

    >>> hole_mm(4)
    (4.1, 4.2)
    """
    row = body_size(body_mm)
    return row["hole_least_mm"], row["hole_largest_mm"]


def judge_hole(measured_mm, body_mm):
    """A drilled hole for a blind rivet: "small" (it will not enter, or is forced), "good", or "large".

    In a large hole the shank does not fill, the tail may be pulled in, and the mandrel breaks high.

    >>> judge_hole(4.1, 4), judge_hole(4.0, 4), judge_hole(4.5, 4)
    ('good', 'small', 'large')
    """
    one_number("measured_mm", measured_mm, above=0, at_most=30, cause="is it in mm?")
    least, largest = hole_mm(body_mm)
    if measured_mm < least - 1e-9:
        return "small"
    return "good" if measured_mm <= largest + 1e-9 else "large"


def hole_before_coating_mm(body_mm, coat_mm):
    """Drill when the wall of the hole is painted afterwards: least hole + 2 c, as the coat lies on both sides.

    coat_mm c: thickness on the wall, 0 to 1 mm.

    >>> round(hole_before_coating_mm(4, 0.08), 9)
    4.26
    """
    coat = one_number("coat_mm", coat_mm, at_least=0, at_most=1, cause="is it in mm? 80 micrometres are 0.08 mm")
    return hole_mm(body_mm)[0] + 2 * coat


def breaking_loads_n(standard, body_mm, level="one"):
    """Least (shear, tension) at which a set rivet breaks, N. level: "L" or "H" for ISO 15977, else "one".

    >>> breaking_loads_n("ISO 15977", 4, "L")
    (850.0, 1200.0)
    >>> breaking_loads_n("ISO 15977", 4)
    Traceback (most recent call last):
    ...
    ValueError: level = 'one': must be L or H: ISO 15977 has two strengths; read it off the order or the box
    """
    one_number("body_mm", body_mm, above=0)
    known = table("blind_loads").rows
    levels = sorted({row["level"] for row in known.values() if row["standard"] == standard})
    if not levels:
        given = sorted({row["standard"] for row in known.values()})
        refuse("standard", standard, "no loads are tabulated here; there are " + ", ".join(given))
    if level not in levels:
        if levels == ["one"]:
            refuse("level", level, f"must be left out: {standard} has one strength")
        refuse("level", level, f"must be L or H: {standard} has two strengths", "read it off the order or the box")
    for row in known.values():
        if (row["standard"], row["level"]) == (standard, level) and row["body_mm"] == body_mm:
            return row["shear_n"], row["tension_n"]
    made = [f"{row['body_mm']:g}" for row in known.values() if (row["standard"], row["level"]) == (standard, level)]
    refuse("body_mm", body_mm, f"is not tabulated for {standard}; there are " + ", ".join(made))


def mandrel_break_n(standard, body_mm):
    """Largest load at which the mandrel breaks, N: what the setting tool must be able to pull.

    >>> mandrel_break_n("ISO 15983", 4.8)
    8500.0
    """
    one_number("body_mm", body_mm, above=0)
    return table("blind_break_loads").row(f"{standard} {body_mm:g}")["break_largest_n"]
