"""What a fastening costs: labour, cost for each, cost of a quantity, and the quantity from which a dearer tool pays.

Money in any one currency. Straight lines: a fixed cost to begin, and so much for each fastening.
"""

from workbench.refusals import numbers, one_number, refuse

SECONDS_AN_HOUR = 3600


def labour_cost(workers, seconds, rate_per_hour):
    """Labour of one fastening: w s R / 3600. Two workers, one a side, cost twice the time.

    workers w >= 1; seconds s >= 0; rate_per_hour R >= 0 for one worker.

    >>> round(labour_cost(2, 20, 40), 5)
    0.44444
    """
    hours = numbers("seconds", seconds, at_least=0) / SECONDS_AN_HOUR
    paid = numbers("workers", workers, at_least=1, cause="the one with the bar is paid too")
    return paid * hours * numbers("rate_per_hour", rate_per_hour, at_least=0)


def cost_each(part_cost, workers, seconds, rate_per_hour):
    """Part + labour of one fastening; add drilling as further seconds.

    >>> round(cost_each(0.08, 1, 18, 40), 9)
    0.28
    """
    return numbers("part_cost", part_cost, at_least=0) + labour_cost(workers, seconds, rate_per_hour)


def total_cost(fixed, each, quantity):
    """Cost of a quantity: F + v n.

    >>> total_cost(200, 0.9, 1000)
    1100.0
    """
    count = numbers("quantity", quantity, at_least=0, cause="a quantity is nought or more")
    return numbers("fixed", fixed, at_least=0) + numbers("each", each, at_least=0) * count


def break_even_quantity(fixed_one, each_one, fixed_other, each_other):
    """Quantity at which two methods cost the same: (F2 - F1) / (v1 - v2).

    Refused where the lines do not cross at a quantity above nought: then one method is always the cheaper.

    >>> round(break_even_quantity(200, 0.9, 1200, 0.4), 9)
    2000.0
    >>> break_even_quantity(200, 0.4, 1200, 0.9)
    Traceback (most recent call last):
    ...
    ValueError: fixed_other = 1200: must buy a lower cost for each; the first method is always the cheaper
    """
    for name, value in (("fixed_one", fixed_one), ("each_one", each_one), ("fixed_other", fixed_other),
                        ("each_other", each_other)):  # fmt: skip
        one_number(name, value, at_least=0)
    if each_one == each_other:
        refuse("each_other", each_other, "must differ from each_one", "the lines run side by side and never cross")
    dearer, saved = fixed_other - fixed_one, each_one - each_other
    if dearer * saved <= 0:
        cheaper = "first" if saved < 0 else "second"
        refuse("fixed_other", fixed_other, "must buy a lower cost for each",
               f"the {cheaper} method is always the cheaper")
    return dearer / saved
