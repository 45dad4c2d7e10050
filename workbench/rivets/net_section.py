"""The weakest cut through a plate with holes in any pattern, zig-zag rows among them.

A slanting step of the cut between two holes is stronger than a straight one: it counts s^2 / (4 g) of width more
(s along the pull, g across it; Cochrane's rule, in the steel codes since the 1920s; formula from memory).
"""

import math

from workbench.refusals import numbers, one_number, refuse


def slant_gain_mm(along_mm, across_mm):
    """Width that a slanting step gains: s^2 / (4 g).

    >>> slant_gain_mm(40, 50)
    8.0
    """
    return numbers("along_mm", along_mm, at_least=0) ** 2 / (4 * numbers("across_mm", across_mm, above=0))


def net_width_mm(width_mm, hole_mm, places_mm):
    """Least width that any cut from edge to edge leaves, and the holes it passes: (width, places).

    width_mm W of the plate across the pull; hole_mm d; places_mm: (x along the pull, y across it, 0 < y < W) of
    each hole's centre. Over all cuts: W - n d + sum of s^2 / (4 g). Refused: a hole that breaks the edge, two holes
    that touch, a plate without holes.

    >>> net_width_mm(150, 20, [(0, 50), (40, 100)])
    (118.0, ((0, 50), (40, 100)))
    """
    one_number("width_mm", width_mm, above=0)
    one_number("hole_mm", hole_mm, above=0)
    holes = sorted(((x, y) for x, y in places_mm), key=lambda place: place[1])
    if not holes:
        refuse("places_mm", places_mm, "must hold at least one hole")
    for place, (x, y) in enumerate(holes):
        one_number("x", x)
        one_number("y", y, above=hole_mm / 2, at_most=width_mm - hole_mm / 2, cause="the hole breaks the plate's edge")
        for other in holes[:place]:
            if math.dist(other, (x, y)) < hole_mm:
                refuse("places_mm", (other, (x, y)), "two holes must not touch", "is a place given twice?")
    best = []  # for each hole: (lost so far, holes on the way) of the costliest cut that ends in it
    for x, y in holes:
        lost, way = hole_mm, ((x, y),)
        for (before, passed), (x0, y0) in zip(best, holes, strict=False):
            if y > y0 and before + hole_mm - slant_gain_mm(abs(x - x0), y - y0) > lost:
                lost, way = before + hole_mm - slant_gain_mm(abs(x - x0), y - y0), (*passed, (x, y))
        best.append((lost, way))
    lost, way = max(best, key=lambda cut: cut[0])
    return width_mm - lost, way
