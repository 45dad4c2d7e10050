"""The edge of a thread in the section through its axis, over any stretch of the axis."""

from math import ceil, floor

import numpy as np

from workbench.threads.outline import points


def edge(profile, of, left_mm, right_mm, arc_steps=8):
    """(x, r) of the outline of "screw" or "nut" from left_mm to right_mm: crests, flanks, roots as they are.

    profile: a `workbench.threads.profile.Profile`; a ridge of the screw stands about x = 0 and every pitch.
    Both ends should lie on a crest or in a root.
    """
    pitch, outline = profile.pitch_mm, profile.outline(of)
    first = floor((left_mm - outline[0].x0_mm) / pitch) - 1
    x, r = points(outline, pitch, ceil((right_mm - left_mm) / pitch) + 3, arc_steps)
    x, r = np.array(x) + first * pitch, np.array(r)
    inside = (x > left_mm + 1e-9) & (x < right_mm - 1e-9)
    ends = np.interp([left_mm, right_mm], x, r)
    return np.column_stack([np.concatenate([[left_mm], x[inside], [right_mm]]),
                            np.concatenate([ends[:1], r[inside], ends[1:]])])


def flank(profile, side, radii_mm, ridge=0):
    """(x, r) of points on a flank of the screw's ridge number `ridge`; side "load" (smaller x) or "clearance"."""
    radii = np.asarray(radii_mm, dtype=float)
    lean = np.tan(np.radians(profile.flank_deg(side))) * (radii - profile.pitch_diameter_mm / 2)
    towards = 1 if side == "load" else -1
    return np.column_stack([ridge * profile.pitch_mm + towards * (lean - profile.pitch_mm / 4), radii])
