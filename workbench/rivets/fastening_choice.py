"""Which fastening for a job: solid rivet, blind rivet, or screw and nut; the cheapest that can be made, and why not the
others. Access, material and stack decide what can be made (common practice, no source); cost decides among the rest.
"""

from dataclasses import dataclass

from workbench.refusals import one_number, refuse, whole
from workbench.rivets.blind_strength import permitted_n
from workbench.rivets.cost import cost_each, total_cost

METHODS = ("solid rivet", "blind rivet", "screw and nut")
SOFTNESS = ("metal", "soft")  # "soft": plastic, wood, thin painted sheet that a driven shank would burst or dent


@dataclass(frozen=True)
class Price:
    """What a method costs: fixed (tools), each part, workers and seconds for one, drilling included."""

    fixed: float
    part: float
    workers: int
    seconds: float


@dataclass(frozen=True)
class Job:
    """What is to be fastened.

    sides: 1 or 2 that hands and tools can reach; quantity of fastenings; rate_per_hour for one worker;
    shear_n, pull_n: load on one fastening; loosened: must come apart again; softness: "metal" or "soft", the side
    that takes the tail; room_mm behind the stack, None where open; reach_mm: room that the unset blind rivet needs.
    """

    sides: int
    quantity: int
    rate_per_hour: float
    shear_n: float = 0.0
    pull_n: float = 0.0
    loosened: bool = False
    softness: str = "metal"
    room_mm: float | None = None
    reach_mm: float = 0.0

    def __post_init__(self):
        whole("sides", self.sides, at_most=2, cause="count the sides that a tool can reach: 1 or 2")
        whole("quantity", self.quantity)
        one_number("rate_per_hour", self.rate_per_hour, at_least=0)
        for name in ("shear_n", "pull_n", "reach_mm"):
            one_number(name, getattr(self, name), at_least=0)
        if self.room_mm is not None:
            one_number("room_mm", self.room_mm, at_least=0)
        if self.softness not in SOFTNESS:
            refuse("softness", self.softness, "must be 'metal' or 'soft'")


@dataclass(frozen=True)
class Advice:
    """method: the one to take, "" where none can be made; costs: of each that can; refused: method -> reason."""

    method: str
    costs: dict
    refused: dict


def _objections(job, strengths, factor):
    """Method -> why it cannot be made; the first reason counts."""
    found = {}
    if job.sides < 2:
        found["solid rivet"] = "needs a bar behind the sheet, and only one side can be reached"
        found["screw and nut"] = "needs a spanner on the nut, and only one side can be reached"
    if job.softness == "soft":
        found.setdefault("solid rivet", "its swelling shank bursts or dents soft material")
    if job.loosened:
        for method in ("solid rivet", "blind rivet"):
            found.setdefault(method, "has to be drilled out, and the joint must come apart again")
    if job.room_mm is not None and job.room_mm < job.reach_mm:
        found.setdefault("blind rivet", f"reaches {job.reach_mm:g} mm behind the sheets before it is set; "
                                        f"there are {job.room_mm:g} mm")
    for method, (shear, pull) in strengths.items():
        for load, breaks, name in ((job.shear_n, shear, "shear"), (job.pull_n, pull, "pull")):
            if load > permitted_n(breaks, factor):
                found.setdefault(method, f"may carry {permitted_n(breaks, factor):g} N in {name}; "
                                         f"the load is {load:g} N")
    return found


def choose(job, prices, strengths, factor=3):
    """The cheapest method that can be made, the cost of each that can, and the reason for each refusal.

    prices: method -> Price; strengths: method -> (shear, pull) in N at which one breaks; factor on both (the job's).
    A method that can be made but is dearer is refused with the difference.

    >>> prices = {"solid rivet": Price(300, 0.03, 2, 20), "blind rivet": Price(200, 0.08, 1, 15)}
    >>> strengths = {"solid rivet": (2400, 2000), "blind rivet": (1850, 2600)}
    >>> advice = choose(Job(1, 500, 40), prices, strengths)
    >>> advice.method, advice.refused["solid rivet"]
    ('blind rivet', 'needs a bar behind the sheet, and only one side can be reached')
    """
    if not isinstance(job, Job):
        refuse("job", job, "must be a Job")
    for name, given in (("prices", prices), ("strengths", strengths)):
        unknown = set(given) - set(METHODS)
        if unknown or not given:
            refuse(name, sorted(unknown), "must name methods out of " + ", ".join(METHODS))
    if set(prices) != set(strengths):
        refuse("strengths", sorted(strengths), "must name the same methods as prices")
    one_number("factor", factor, at_least=1)
    cannot = _objections(job, strengths, factor)
    costs = {
        method: total_cost(price.fixed, cost_each(price.part, price.workers, price.seconds, job.rate_per_hour),
                           job.quantity)
        for method, price in prices.items() if method not in cannot
    }  # fmt: skip
    refused = {method: reason for method, reason in cannot.items() if method in prices}
    best = min(costs, key=costs.get, default="")
    for method, cost in costs.items():
        if method != best:
            refused[method] = f"costs {cost - costs[best]:.2f} more for {job.quantity}"
    return Advice(best, costs, refused)
