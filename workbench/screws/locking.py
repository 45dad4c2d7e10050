"""Ways to keep a nut tight: what each resists, which suit a joint, and when a better one is worth its cost.

Positive: a shape stands in the way. Friction: something drags. Adhesive: the thread is glued. The split spring washer
stands in the table as the case that does not hold. Table locking_methods: common practice, no source; the spring
washer's standard DIN 127 was withdrawn because it does not hold under sideways slip (from memory).
"""

from workbench.refusals import numbers, refuse
from workbench.tables import table

DEMANDS = {
    "slip": "sideways slip may turn the nut",
    "lost": "the nut must not come off, even when it is loose",
    "preload": "the clamp must last under sideways slip",
}


def methods():
    """The names of all ways, in the order of the table.

    >>> methods()[0], len(methods())
    ('slotted nut and split pin', 10)
    """
    return tuple(table("locking_methods").rows)


def method(name):
    """One way: kind, what it holds against (slip, lost, preload: 1 or 0), minutes, heat_degc, again, cost, inspect.

    >>> method("slotted nut and split pin")["again"]
    'nut yes; pin never'
    """
    return table("locking_methods").row(name)


def suits(demands=(), heat_degc=20):
    """What speaks against each way for a joint: a dict from name to the reasons, empty where it suits.

    demands: names of `DEMANDS`; heat_degc: the hottest that the joint gets.

    >>> reasons = suits(("slip", "lost"), 200)
    >>> [name for name in reasons if not reasons[name]]
    ['slotted nut and split pin', 'lock wire', 'tab washer', 'wedge washer pair']
    >>> reasons["split spring washer"]
    ('sideways slip may turn the nut', 'the nut must not come off, even when it is loose')
    """
    if not isinstance(demands, tuple):
        refuse("demands", demands, "must be a tuple of names", "is a comma missing after the one name?")
    for demand in demands:
        if demand not in DEMANDS:
            refuse("demand", demand, "must be one of " + ", ".join(DEMANDS))
    heat = numbers("heat_degc", heat_degc, at_least=-200, at_most=1000)
    found = {}
    for name in methods():
        row = method(name)
        against = [DEMANDS[demand] for demand in demands if not row[demand]]
        if heat > row["heat_degc"]:
            against.append(f"it bears about {row['heat_degc']:g} degC only")
        found[name] = tuple(against)
    return found


def cost_of(minutes, rate_per_hour, parts):
    """What a lock costs at one bolt: m R / 60 + c0, in the money of the rate.

    >>> round(cost_of(6, 45, 0.1), 9)
    4.6
    """
    time = numbers("minutes", minutes, at_least=0) / 60
    return time * numbers("rate_per_hour", rate_per_hour, at_least=0) + numbers("parts", parts, at_least=0)


def pays_from(extra_cost, loss):
    """The chance of coming loose from which a lock pays: extra cost / loss when it comes loose.

    Where a person can be hurt, nothing is reckoned: the lock is fitted.

    >>> round(pays_from(4.6, 2300), 9)
    0.002
    """
    return numbers("extra_cost", extra_cost, at_least=0) / numbers("loss", loss, above=0)


def nut_pair_loads_n(clamp_n, between_n):
    """What the threads of a pair carry towards the joint: (inner, outer) = (Fc - L, L).

    clamp_n Fc: on the joint; between_n L: how hard the two nuts press each other. Statics: the outer nut is pressed
    away by L only; the inner one by Fc, less L. With L >= Fc the outer nut carries all, so it is the full one and the
    thin nut lies inside.

    >>> nut_pair_loads_n(10000, 12000)
    (-2000, 12000)
    """
    clamp = numbers("clamp_n", clamp_n, at_least=0)
    between = numbers("between_n", between_n, at_least=0)
    return clamp - between, between


def still_drags(thread, measured_nm, removal=1):
    """Does a prevailing torque nut still drag enough? Its turning-off torque against the least of ISO 2320, class 8.

    removal: 1 for the first time it comes off, 5 for the fifth. Judge by torque, never by looks.

    >>> still_drags("M12", 2.0), still_drags("M12", 2.0, removal=5)
    (False, True)
    """
    limits = {1: "first_off_min_nm", 5: "fifth_off_min_nm"}
    if removal not in limits:
        refuse("removal", removal, "must be 1 or 5", "ISO 2320 gives the first and the fifth removal")
    least = table("iso_2320_prevailing").row(thread)[limits[removal]]
    return bool(numbers("measured_nm", measured_nm, at_least=0) >= least)
