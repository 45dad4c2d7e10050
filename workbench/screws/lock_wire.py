"""Lock wire: does it pull a drilled head tight or loose, how hard, and how many twists it wants.

Seen from above the heads: x to the right, y up, in mm, the head's middle at 0, 0. A right-hand screw tightens
clockwise. Moment of a pull about the axis: mechanics; no source. Twists: FAA AC 43.13-1B and training manuals, from
memory.
"""

import math

from workbench.refusals import numbers, one_number, refuse


def tightening_arm_mm(hole_mm, to_mm, left_hand=False):
    """Lever arm of the wire about the axis, + where it pulls towards tight.

    hole_mm: (x, y) where the wire leaves the head; to_mm: (x, y) where it runs to. Arm = -(x ty - y tx) for a
    right-hand screw, t the wire's direction of length 1.

    >>> tightening_arm_mm((0, 6), (40, 6)), tightening_arm_mm((0, -6), (40, -6)), tightening_arm_mm((6, 0), (40, 0))
    (6.0, -6.0, 0.0)
    """
    (x, y), (to_x, to_y) = _point("hole_mm", hole_mm), _point("to_mm", to_mm)
    length = math.hypot(to_x - x, to_y - y)
    if length == 0:
        refuse("to_mm", to_mm, "must lie away from the hole", "are the two points swapped or the same?")
    turning = (x * (to_y - y) - y * (to_x - x)) / length  # + anticlockwise
    return (turning if left_hand else -turning) + 0.0


def _point(name, value):
    if not isinstance(value, tuple) or len(value) != 2:
        refuse(name, value, "must be a pair (x, y)")
    return tuple(one_number(name, one) for one in value)


def tightening_torque_n_mm(pull_n, hole_mm, to_mm, left_hand=False):
    """Torque of the wire's pull, + towards tight.

    >>> tightening_torque_n_mm(30, (0, 6), (40, 6))
    180.0
    """
    return numbers("pull_n", pull_n, at_least=0) * tightening_arm_mm(hole_mm, to_mm, left_hand)


def twists(length_mm, per_inch):
    """Twists of a run of double-twisted wire: length / 25.4 x twists an inch (6 to 8 for 0.8 mm wire, from memory).

    >>> round(twists(50.8, 7), 9)
    14.0
    """
    return numbers("length_mm", length_mm, above=0) / 25.4 * numbers("per_inch", per_inch, above=0)
