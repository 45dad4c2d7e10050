"""Galvanic partners: which metal of a wet joint dissolves, and whether the pair may stand together.

Two measures, never mixed. The *anodic index* is the voltage below gold; its rule allows a difference that
depends on how wet the place is. The *sea-water series* is measured against a calomel electrode, and ranks only.
The index of a stainless rivet beside aluminium says no outdoors, and still such joints last: area decides too.
"""

from dataclasses import dataclass

from workbench.refusals import numbers
from workbench.tables import table


def anodic_index_v(metal):
    """Anodic index in V: 0 for gold, lower for metals that dissolve more readily.

    metal: a row of the table, as "aluminium" (wrought, not of the 2000 series), "aluminium 2000", "steel".
    Source: anodic index table of the kind given in MIL-F-14072.

    >>> anodic_index_v("copper")
    -0.35
    """
    return table("anodic_index").row(metal)["index_v"]


def allowed_difference_v(environment):
    """Largest difference of anodic index in V: "harsh" 0.15, "normal" 0.25, "controlled" 0.50.

    >>> allowed_difference_v("harsh")
    0.15
    """
    return table("anodic_environments").row(environment)["largest_v"]


@dataclass(frozen=True)
class Couple:
    """Two metals that touch in the wet.

    difference_v, allowed_v: of the anodic index; anode: the metal that dissolves, cathode: the one it protects
    ("" where the indices are equal); acceptable: difference no more than allowed; small_anode: the fastener is
    the anode, so that a small part feeds a large one; reason: one sentence.
    """

    fastener: str
    sheet: str
    environment: str
    difference_v: float
    allowed_v: float
    anode: str
    cathode: str
    acceptable: bool
    small_anode: bool
    reason: str


def couple(fastener, sheet, environment="normal"):
    """A fastener (the small part) in a sheet (the large part): may they touch?

    difference = |index of one - index of the other|, at most the environment's. The area rule asks that the
    small part be the cathode (MIL-DTL-14072). Metals outside the table, such as carbon fibre, are refused.

    >>> pair = couple("steel", "aluminium")
    >>> pair.acceptable, pair.anode, pair.small_anode
    (True, 'aluminium', False)
    >>> couple("aluminium", "copper", "harsh").reason
    'aluminium dissolves: 0.55 V is more than 0.15 V, and the small part feeds the large one'
    """
    one, other = anodic_index_v(fastener), anodic_index_v(sheet)
    allowed = allowed_difference_v(environment)
    difference = round(abs(one - other), 4)  # indices are tabulated in 0.05 V: no binary crumbs at the limit
    anode, cathode = ("", "") if one == other else (fastener, sheet) if one < other else (sheet, fastener)
    acceptable, small_anode = difference <= allowed, bool(anode) and one < other
    if not anode:
        reason = "equal indices: neither metal feeds the other"
    else:
        more = "no more" if acceptable else "more"
        reason = f"{anode} dissolves: {difference:.2f} V is {more} than {allowed:.2f} V"
        if small_anode:
            reason += ", and the small part feeds the large one"
    return Couple(fastener, sheet, environment, difference, allowed, anode, cathode, acceptable, small_anode, reason)


def current_density_ratio(cathode_mm2, anode_mm2):
    """How much harder a small anode is eaten: area of the cathode / area of the anode, both wetted, in mm2.

    The same current leaves a smaller face. Common practice, no source; a comparison, not a rate.

    >>> current_density_ratio(2000, 50)
    40.0
    """
    return numbers("cathode_mm2", cathode_mm2, above=0) / numbers("anode_mm2", anode_mm2, above=0)


def sea_water_potential_v(metal):
    """Potential in flowing sea water against calomel, in V; the lower metal of a pair dissolves.

    >>> sea_water_potential_v("zinc")
    -1.03
    """
    return table("sea_water_series").row(metal)["potential_v"]


def sea_water_rank(metal):
    """Place in the sea-water series of MIL-STD-889, 1 the most anodic: the lower rank of a pair dissolves.

    >>> sea_water_rank("cadmium") < sea_water_rank("steel 1010")
    True
    """
    return int(table("sea_water_ranks").row(metal)["rank"])
