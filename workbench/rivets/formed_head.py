"""The formed head: what it should measure, and whether a driven one is accepted, replaced or referred.

Target 1.5 D wide and 0.5 D high; the least that the strength tables ask for is 1.3 D and 0.3 D (7050: 1.4 D). Target
and least are two things: aim at the one, refuse below the other. Sources: USAAF structural repair manual (target),
MIL-HDBK-5 chapter 8 (least); the upper limits of training practice, offset and cracks: common practice, no source.
"""

from dataclasses import dataclass

from workbench.refusals import numbers, one_number, refuse
from workbench.tables import table

LEAST_COVER_D = 0.1  # of the head beside the hole on its narrow side; common practice, no source


@dataclass(frozen=True)
class Limits:
    """Least, target and most of a flat formed head in mm; a most of None: the document names none."""

    document: str
    least_width_mm: float
    target_width_mm: float
    most_width_mm: float | None
    least_height_mm: float
    target_height_mm: float
    most_height_mm: float | None


def limits(diameter_mm, document="training practice", alloy="2117"):
    """The limits of a flat formed head by a document: "training practice" (the closer, the default) or "MIL-HDBK-5".

    >>> limits(4).target_width_mm, limits(4).target_height_mm, round(limits(4, "MIL-HDBK-5").least_width_mm, 9)
    (6.0, 2.0, 5.2)
    """
    one_number("diameter_mm", diameter_mm, above=0)
    row = table("formed_head_limits").row(document)

    def size(name):
        return row[f"{name}_d"] * diameter_mm or None

    least = size("least_width_7050" if alloy == "7050" else "least_width")
    return Limits(document, least, size("target_width"), size("most_width"),
                  size("least_height"), size("target_height"), size("most_height"))  # fmt: skip


def cover_mm(width_mm, hole_mm, offset_mm):
    """What the head covers beside the hole on its narrow side: (w - dh)/2 - offset; below 0 the hole shows.

    >>> round(cover_mm(6, 4.2, 0.3), 9)
    0.6
    """
    numbers("width_mm", width_mm, above=0)
    numbers("hole_mm", hole_mm, above=0)
    return (width_mm - hole_mm) / 2 - numbers("offset_mm", offset_mm, at_least=0)


@dataclass(frozen=True)
class Judgement:
    """"accept", "replace" or "refer", and every reason."""

    verdict: str
    reasons: tuple


CRACKS = {
    "none": ("accept", ""),
    "rim": ("refer", "a crack in the rim: the document in use says how far it may run"),
    "to the shank": ("replace", "a crack reaches in over the shank"),
    "meeting": ("replace", "cracks meet: a piece can break out"),
}


def judge(width_mm, height_mm, diameter_mm, hole_mm, offset_mm=0.0, cracks="none", gap=False,
          document="training practice", alloy="2117"):  # fmt: skip
    """Judge a driven flat head by width, height, offset, cracks and a gap under it.

    width, height, offset (middle of the head beside the middle of the hole) in mm; cracks: "none", "rim",
    "to the shank", "meeting"; gap: a feeler of 0.05 mm reaches the shank under either head. Below a least or over a
    most: replace. The worst finding decides. Refused: sizes that are no head at all (in tenths? in inch?).

    >>> judge(6.1, 2.0, 4, 4.2).verdict, judge(5.0, 2.6, 4, 4.2).reasons[0]
    ('accept', '5 mm wide, less than 5.6 mm: driven too little, or cut too short')
    >>> judge(6.0, 2.0, 4, 4.2, cracks="rim").verdict
    'refer'
    """
    one_number("diameter_mm", diameter_mm, above=0)
    one_number("width_mm", width_mm, at_least=diameter_mm * 0.9, at_most=3 * diameter_mm, cause="measured in mm?")
    one_number("height_mm", height_mm, above=0, at_most=2 * diameter_mm, cause="was the shank's length given?")
    one_number("hole_mm", hole_mm, at_least=diameter_mm, cause="was the shank given?")
    if not isinstance(cracks, str) or cracks not in CRACKS:
        refuse("cracks", cracks, "must be one of " + ", ".join(CRACKS))
    one = limits(diameter_mm, document, alloy)
    bad = []
    if width_mm < one.least_width_mm - 1e-9:
        bad.append(f"{width_mm:g} mm wide, less than {one.least_width_mm:g} mm: driven too little, or cut too short")
    if one.most_width_mm and width_mm > one.most_width_mm + 1e-9:
        bad.append(f"{width_mm:g} mm wide, more than {one.most_width_mm:g} mm: driven too far")
    if height_mm < one.least_height_mm - 1e-9:
        bad.append(f"{height_mm:g} mm high, less than {one.least_height_mm:g} mm: driven too far, or cut too short")
    if one.most_height_mm and height_mm > one.most_height_mm + 1e-9:
        bad.append(f"{height_mm:g} mm high, more than {one.most_height_mm:g} mm: driven too little")
    cover = cover_mm(width_mm, hole_mm, offset_mm)
    if cover < LEAST_COVER_D * diameter_mm - 1e-9:
        bad.append(f"covers {max(cover, 0):.2f} mm beside the hole, less than {LEAST_COVER_D * diameter_mm:.2f} mm: "
                   "tipped or bucked askew")
    if gap:
        bad.append("a gap under a head: sheets or head were not drawn together")
    verdict, said = CRACKS[cracks]
    if verdict == "replace":
        bad.append(said)
    if bad:
        return Judgement("replace", tuple(bad))
    return Judgement(verdict, (said,) if said else ())
