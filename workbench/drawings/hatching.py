"""Hatching of a cut face (ISO 128-3): narrow lines at 45 degrees, neighbouring parts hatched opposite ways."""

import numpy as np

FALLING, RISING = -1, 1  # \ and /


def hatching(corners, spacing, way=RISING):
    """Lines at 45 degrees inside a closed outline: x and y with gaps (nan) between lines.

    corners: (x, y) of any outline that does not cross itself; spacing across the lines; way: RISING or FALLING.
    The lines keep their place on the sheet, so that faces of one part match.

    >>> x, y = hatching([(0, 0), (4, 0), (4, 4), (0, 4)], 2**0.5)
    >>> [(round(float(a)), round(float(b))) for a, b in zip(x[3:5], y[3:5])]
    [(0, 0), (4, 4)]
    """
    corners = np.asarray(corners, dtype=float)
    corners = corners[np.isfinite(corners).all(axis=1)]
    x, y = corners[:, 0], corners[:, 1]
    level, along = y - way * x, y + way * x  # a hatch line has one level
    step = spacing * 2**0.5
    levels = np.arange(np.ceil(level.min() / step), np.floor(level.max() / step) + 1) * step + step * 1e-7
    low, high = level, np.roll(level, -1)
    there = np.roll(along, -1) - along
    crosses = (low[None, :] <= levels[:, None]) != (high[None, :] <= levels[:, None])
    line, edge = np.nonzero(crosses)
    share = (levels[line] - low[edge]) / (high[edge] - low[edge])
    place = along[edge] + share * there[edge]
    order = np.lexsort((place, line))  # along each line: in, out, in, out
    place, line = place[order], line[order]
    found_x, found_y = np.full((len(place) // 2, 3), np.nan), np.full((len(place) // 2, 3), np.nan)
    for end in (0, 1):
        this, at = place[end::2], levels[line[end::2]] - step * 1e-7
        found_x[:, end], found_y[:, end] = way * (this - at) / 2, (this + at) / 2
    return found_x.ravel(), found_y.ravel()
