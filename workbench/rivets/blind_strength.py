"""What a blind rivet holds: hollow shank, thin sheet, shear and pull together, permitted load.

The load tables of the standards come first; these formulas say why they are low, and when the sheet goes before
the rivet. Sheet formulas give upper limits for teaching; a tested value counts. N, mm, MPa.
"""

import math

from workbench.refusals import numbers, one_number, refuse
from workbench.rivets.joint import pull_through_n, rivets_for_load

GAMMA_M2 = 1.25  # partial factor of EN 1993-1-3, recommended value


def hollow_shear_n(body_mm, bore_mm, shear_mpa):
    """Shear of a body whose mandrel has gone or is loose: pi/4 (D^2 - dm^2) tau.

    bore_mm dm: 0 (solid) to below D; shear_mpa tau of the body.

    >>> round(hollow_shear_n(4.8, 2.7, 180), 1)
    2226.6
    """
    body, bore = numbers("body_mm", body_mm, above=0), numbers("bore_mm", bore_mm, at_least=0)
    area = math.pi / 4 * (body**2 - bore**2)
    numbers("body_mm^2 - bore_mm^2", area, above=0, cause="the bore is larger than the body: were the two swapped?")
    return area * numbers("shear_mpa", shear_mpa, above=0)


def pull_n(tension_n, head_mm, sheet_mm, sheet_shear_mpa):
    """What holds against a pull: the weaker of the rivet (T of its table) and the sheet round its head (pi dk t tau).

    Returns (load in N, "rivet" or "sheet").

    >>> load, gives = pull_n(1800, 8, 0.5, 60)
    >>> round(load, 1), gives
    (754.0, 'sheet')
    """
    sheet = pull_through_n(head_mm, sheet_mm, sheet_shear_mpa)
    rivet = numbers("tension_n", tension_n, above=0)
    if getattr(sheet, "shape", ()) or getattr(rivet, "shape", ()):
        refuse("sheet_mm", sheet_mm, "must be one case, not an array", "which part gives is a word for each case")
    return (rivet, "rivet") if rivet <= sheet else (sheet, "sheet")


def head_for_pull_mm(load_n, sheet_mm, sheet_shear_mpa):
    """Least head diameter that a thin sheet asks for: F / (pi t tau).

    >>> round(head_for_pull_mm(1100, 0.5, 60), 2)
    11.67
    """
    ring = math.pi * numbers("sheet_mm", sheet_mm, above=0) * numbers("sheet_shear_mpa", sheet_shear_mpa, above=0)
    return numbers("load_n", load_n, above=0) / ring


def bearing_n(body_mm, thin_mm, thick_mm, tensile_mpa):
    """Design bearing of a blind rivet in thin sheet: alpha fu d t / 1.25 (EN 1993-1-3, table 8.1, from memory).

    thin_mm t, thick_mm t1 of the two sheets; tensile_mpa fu. alpha = 3.6 sqrt(t/d), at most 2.1, for equal sheets;
    2.1 where t1 >= 2.5 t; between the two by straight line in t1/t. Valid for 2.6 <= d <= 6.4 mm.

    >>> round(bearing_n(4.8, 1, 1, 360), 1)
    2271.5
    """
    body = one_number("body_mm", body_mm, at_least=2.6, at_most=6.4, cause="the rule holds for bodies 2.6 to 6.4 mm")
    thin = one_number("thin_mm", thin_mm, above=0)
    thick = one_number("thick_mm", thick_mm, at_least=thin, cause="give the thinner sheet first")
    one_number("tensile_mpa", tensile_mpa, above=0)
    equal = min(3.6 * math.sqrt(thin / body), 2.1)
    alpha = equal + (2.1 - equal) * (min(thick / thin, 2.5) - 1) / 1.5
    return alpha * tensile_mpa * body * thin / GAMMA_M2


def permitted_n(breaking_n, factor):
    """Permitted load: where it breaks / factor; the factor belongs to the job's document.

    >>> permitted_n(1500, 3)
    500.0
    """
    return numbers("breaking_n", breaking_n, above=0) / numbers(
        "factor", factor, at_least=1, cause="a factor of safety divides the breaking load")


def rivets_needed(shear_load_n, pull_load_n, shear_n, pull_n):
    """Rivets for a shear and a pull: the larger of both counts, each rounded up; not their sum.

    shear_n, pull_n: permitted for one rivet. Some documents ask for an interaction as well; then that one counts.

    >>> rivets_needed(6000, 4200, 1500, 600)
    7
    """
    counts = []
    for load, one in ((shear_load_n, shear_n), (pull_load_n, pull_n)):
        one_number("load", load, at_least=0, cause="give the size of the load, without a sign")
        counts.append(math.ceil(rivets_for_load(load, one) - 1e-9) if load else 0)
    if not any(counts):
        refuse("shear_load_n", shear_load_n, "one of the two loads must be above 0")
    return max(counts)
