"""A group of rivets loaded off its centre: each rivet's share of the direct load and of the turning.

Elastic method: direct load shared evenly, the moment in proportion to the distance from the centroid (equal rivets,
stiff plates). Instantaneous centre: all rivets turn about one point; with a straight load-slip line it gives the
elastic method again, with a curved one the load at which the worst rivet fails.
"""

import math

from workbench.refusals import one_number, refuse

# load-slip curve R = R_ult (1 - exp(-10 slip))^0.55 with slip in inches, 0.34 in at failure: found for structural
# bolts (Crawford and Kulak, 1971; from memory). For rivets of light alloy it is a teaching picture only.
_RATE_PER_MM, _POWER, _SLIP_MM = 10 / 25.4, 0.55, 0.34 * 25.4


def _array(places_mm):
    import numpy

    places = numpy.asarray(places_mm, dtype=float)
    if places.ndim != 2 or places.shape[1] != 2 or len(places) < 1 or not numpy.isfinite(places).all():
        refuse("places_mm", places_mm, "must be a list of (x, y) in mm, one a rivet")
    return places


def centroid_mm(places_mm):
    """Centre of a group of equal rivets: the mean of the places, (x, y).

    >>> centroid_mm([(0, 0), (60, 0), (60, 80), (0, 80)])
    (30.0, 40.0)
    """
    return tuple(float(mean) for mean in _array(places_mm).mean(axis=0))


def polar_moment_mm2(places_mm):
    """Sum of the squared distances from the centroid, for rivets counted as points.

    >>> polar_moment_mm2([(0, 0), (60, 0), (60, 80), (0, 80)])
    10000.0
    """
    places = _array(places_mm)
    return float(((places - places.mean(axis=0)) ** 2).sum())


def rivet_loads_n(places_mm, force_n, at_mm):
    """Load on each rivet as an array (n, 2) in N: F/n, and M r / sum r^2 square to the arm.

    force_n (Fx, Fy) acts at at_mm (x, y). One rivet, or all at one place, cannot take a moment: refused.

    >>> loads = rivet_loads_n([(-50, 0), (50, 0)], (0, -1000), (150, 0))
    >>> [round(float(down)) for down in loads[:, 1]]
    [1000, -2000]
    """
    import numpy

    places = _array(places_mm)
    fx, fy = (one_number("force_n", part) for part in force_n)
    x, y = (one_number("at_mm", part) for part in at_mm)
    cx, cy = centroid_mm(places_mm)
    moment = (x - cx) * fy - (y - cy) * fx
    arms, polar = places - (cx, cy), polar_moment_mm2(places_mm)
    loads = numpy.tile([fx / len(places), fy / len(places)], (len(places), 1))
    if abs(moment) > 1e-12 * (1 + abs(fx) + abs(fy)):
        if polar == 0:
            refuse("places_mm", places_mm, "one place cannot take a moment", "add a rivet, or move the load")
        loads += moment / polar * numpy.column_stack([-arms[:, 1], arms[:, 0]])
    return loads


def worst_rivet(places_mm, force_n, at_mm):
    """(place on the list, load in N) of the rivet that carries most.

    >>> worst_rivet([(-50, 0), (50, 0)], (0, -1000), (150, 0))
    (1, 2000.0)
    """
    loads = [math.hypot(*load) for load in rivet_loads_n(places_mm, force_n, at_mm)]
    worst = max(range(len(loads)), key=loads.__getitem__)
    return worst, loads[worst]


def _straight(distance, farthest):
    return distance / farthest


def _curved(distance, farthest):
    import numpy

    return (1 - numpy.exp(-_RATE_PER_MM * _SLIP_MM * distance / farthest)) ** _POWER


_CURVES = {"straight": _straight, "curved": _curved}


def rivets_worth(places_mm, direction, at_mm, curve="curved"):
    """How many single rivets the group is worth under this load, by the instantaneous centre: load / one rivet's.

    direction (x, y) of the load through at_mm; curve: "straight" (the elastic method again) or "curved".
    Solved for the centre about which all rivets turn, so that forces and moments balance (scipy).

    >>> round(rivets_worth([(-50, 0), (50, 0)], (0, -1), (150, 0), "straight"), 6)
    0.5
    """
    import numpy
    from scipy.optimize import root

    if curve not in _CURVES:
        refuse("curve", curve, f"must be one of {', '.join(_CURVES)}")
    places = _array(places_mm)
    along = numpy.array([one_number("direction", part) for part in direction], dtype=float)
    if not along.any():
        refuse("direction", direction, "must not be nought")
    along /= numpy.linalg.norm(along)
    middle = places.mean(axis=0)
    arms = places - middle
    size = math.sqrt(polar_moment_mm2(places_mm) / len(places))
    offset = numpy.asarray(at_mm, dtype=float) - middle
    moment = offset[0] * along[1] - offset[1] * along[0]  # of a load of 1, about the centroid
    if size == 0:
        refuse("places_mm", places_mm, "one place cannot take a moment", "give two rivets or more")
    if abs(moment) < 1e-9 * size:
        return float(len(places) * _CURVES[curve](1.0, 1.0))

    def missing(unknown):
        """Forces and moment out of balance, for a centre on (unknown[:2]) and a load of unknown[2] rivets."""
        from_centre = arms - unknown[:2] * size
        distance = numpy.hypot(*from_centre.T)
        one = _CURVES[curve](distance, distance.max()) / numpy.where(distance == 0, 1, distance)
        square_to_arm = numpy.column_stack([from_centre[:, 1], -from_centre[:, 0]])
        resisting = math.copysign(1, moment) * one[:, None] * square_to_arm
        turning = arms[:, 0] * resisting[:, 1] - arms[:, 1] * resisting[:, 0]
        force = resisting.sum(axis=0) + unknown[2] * along
        return [*force, (turning.sum() + unknown[2] * moment) / size]

    elastic = size**2 / abs(moment)  # the centre of the elastic method lies this far from the centroid
    side = numpy.array([along[1], -along[0]]) * -math.copysign(elastic, moment)
    for shrink in (1.0, 0.7, 0.4, 1.5):
        first = [*(side * shrink / size), len(places) / (1 + abs(moment) / size)]
        found = root(missing, first, method="hybr", options={"xtol": 1e-12})
        if found.success and found.x[2] > 0:
            return float(found.x[2])
    raise ArithmeticError("no centre of turning was found; are the rivets placed as meant?")
