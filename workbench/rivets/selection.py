"""A solid rivet for a job: diameter, head, alloy, length, hole, and the reason against every alternative.

Both senses of the 3 t rule are heard: the size nearest to 3 t of the thicker sheet among those from t to 3 t; the next
nearest is tried where head, load or length rule one out. Of the alloys that bear the load the one nearest to the
sheet's metal is taken, then the softest to drive. A start for learning: approved data for the job come first.
"""

from dataclasses import dataclass, field

from workbench.refusals import one_number, refuse
from workbench.rivets.alloy import alloy, choose_alloy
from workbench.rivets.countersink import way_in
from workbench.rivets.formed_head import Limits, limits
from workbench.rivets.head import Head, choose_head, head
from workbench.rivets.hole import Hole, hole
from workbench.rivets.length import Length, grip_mm, made_length
from workbench.rivets.size import check_diameter, sizes_mm, stack_mm, trade_diameter_mm
from workbench.rivets.weight import mass_g
from workbench.tables import table


@dataclass(frozen=True)
class Job:
    """What is to be riveted.

    sheets_mm: thicknesses, the one under the manufactured head first; sheet_metal: a row of the anodic index; load_n:
    on one rivet in single shear, factors included; access "both" or "one" side; flush: head level with the sheet;
    flush_tail: the formed head too; room_mm: height free above the head's sheet (None: plenty); strong, spreads: see
    `choose_head`; environment: harsh, normal, controlled; between_mm: sealant, shim.
    """

    sheets_mm: tuple
    sheet_metal: str = "aluminium 2000"
    load_n: float = 0.0
    access: str = "both"
    flush: bool = False
    flush_tail: bool = False
    room_mm: float | None = None
    strong: bool = False
    spreads: bool = False
    environment: str = "normal"
    can_heat_treat: bool = False
    system: str = "metric"
    between_mm: float = 0.0

    def __post_init__(self):
        stack_mm(self.sheets_mm)
        one_number("load_n", self.load_n, at_least=0)
        if self.access not in ("both", "one"):
            refuse("access", self.access, "must be 'both' or 'one'", "from how many sides can the joint be reached?")


@dataclass(frozen=True)
class Rivet:
    """The rivet that does: all sizes in mm. let_in: "countersink" or "dimple" for a flush head, else ""."""

    size: str
    diameter_mm: float
    head: Head
    tail: str
    alloy: str
    heat_treat: bool
    length: Length
    grip_mm: float
    hole: Hole
    let_in: str
    mass_g: float
    formed: Limits


@dataclass(frozen=True)
class Selection:
    """The rivet (None where none does) and, for diameter, head and alloy, the reason against each alternative."""

    rivet: Rivet | None
    diameters: dict = field(default_factory=dict)
    heads: dict = field(default_factory=dict)
    alloys: dict = field(default_factory=dict)
    why_none: str = ""


def select(job):
    """The solid rivet for a job, with what was refused and why.

    >>> found = select(Job((1.0, 1.6), load_n=1000))
    >>> one = found.rivet
    >>> one.size, one.head.kind, one.alloy, one.length.name, one.hole.hole_mm
    ('4', 'universal', '2117', '8 mm', 4.2)
    >>> found.diameters["5"], found.heads["countersunk 100"][:18]
    ('5 mm is more than 3 × 1.6 mm', 'weakens the sheet ')
    >>> select(Job((1.0, 1.6), access="one")).why_none
    'a solid rivet needs a bar behind it: from one side take a blind rivet'
    """
    if not isinstance(job, Job):
        refuse("job", job, "must be a Job", "as Job((1.0, 1.6), load_n=500)")
    if job.access == "one":
        return Selection(None, why_none="a solid rivet needs a bar behind it: from one side take a blind rivet")
    wanted, made = trade_diameter_mm(job.sheets_mm), sizes_mm(job.system)
    found, diameters, last = None, {}, ({}, {})
    for size in sorted(made, key=lambda name: abs(made[name] - wanted)):
        check = check_diameter(round(made[size], 4), job.sheets_mm)
        objection = check.naval or check.thin_sheet
        if not objection and found:
            objection = f"farther from 3 t = {wanted:g} mm than {found.size}, which does"
        if objection:
            diameters[size] = objection
            continue
        found, diameters[size], last = _of_size(job, size, made[size])
    order = {name: diameters[name] for name in made if diameters[name]}
    why = "" if found else "no size does: each has its reason; change a sheet, share the load, or refer to the designer"
    return Selection(found, order, *last, why)


def _of_size(job, size, across):
    """(the rivet or None, the reason against the size or "", (heads, alloys) refused)."""
    bore, grip = hole(size, job.system), grip_mm(job.sheets_mm, job.between_mm)
    heads, heads_out = choose_head(across, job.sheets_mm[0], bore.hole_mm, job.flush, job.room_mm, job.strong,
                                   job.spreads)  # fmt: skip
    alloys, alloys_out = choose_alloy(job.load_n, bore.hole_mm, job.sheet_metal, job.environment, job.can_heat_treat)
    out = (heads_out, alloys_out)
    tail = "countersunk flush" if job.flush_tail else "flat"
    length = made_length(grip, across, tail, job.system)
    reason = ""
    if not heads:
        of_sort = [kind for kind in heads_out if head(kind, across).flush == job.flush]
        lowest = min(of_sort, key=lambda kind: head(kind, across).height_mm)
        reason = f"no head does, not even {lowest}: {heads_out[lowest]}"
    elif not alloys:
        reason = f"no alloy bears {job.load_n:g} N on a hole of {bore.hole_mm:.2f} mm beside {job.sheet_metal} here"
    elif not length.good:
        reason = f"the nearest length, {length.name}, stands out {length.stands_out_mm:.2f} mm: outside the band"
    elif job.flush_tail and (way := _tail_way(job.sheets_mm[-1], across, bore.hole_mm)).way == "neither":
        reason = f"flush tail: {way.reason}"
    if reason:
        return None, reason, out
    one = head(heads[0], across)
    let_in = way_in(job.sheets_mm[0], one.width_mm, bore.hole_mm, one.angle_deg).way if job.flush else ""
    others = {kind: f"would do; {heads[0]} is the usual one" for kind in heads[1:]}
    stronger = {name: f"would do; {alloys[0]} bears the load and is nearer to the sheet's metal or softer to drive"
                for name in alloys[1:]}  # fmt: skip
    rivet = Rivet(size, across, one, tail, alloys[0], alloy(alloys[0]).heat_treat, length, grip, bore, let_in,
                  mass_g(one.kind, across, length.length_mm, alloys[0]), limits(across, alloy=alloys[0]))  # fmt: skip
    return rivet, "", (heads_out | others, alloys_out | stronger)


def _tail_way(sheet_mm, across, hole_mm):
    row = table("rivet_tails").row("countersunk flush")
    return way_in(sheet_mm, row["width_d"] * across, hole_mm, row["angle_deg"])
