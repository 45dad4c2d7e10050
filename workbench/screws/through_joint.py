"""A through bolt with hexagon head and nut, as two springs, from its size and grip alone."""

from workbench.refusals import one_number
from workbench.screws.stiffness import Springs, bolt_n_per_mm, modulus_mpa, parts_n_per_mm
from workbench.tables import table
from workbench.threads.designation import coarse_pitch_mm

THREAD_IN_GRIP = 1.2  # diameters of free thread above the nut; common practice, no source


def through_joint(size, grip_mm, material="steel"):
    """`Springs` of a steel bolt of coarse thread and the plates of one material that it clamps.

    size: "M10", a row of hexagon_sizes and ISO 273 (medium hole); grip_mm > 0: all plates, no washer; about 1.2 d of
    thread lies in the grip. Plates at least as wide as the cones of pressure (see `stiffness`).

    >>> round(through_joint("M10", 40).share, 3)
    0.194
    """
    row, hole = table("hexagon_sizes").row(size), table("iso_273_clearance_holes").row(size)["medium"]
    grip, diameter = one_number("grip_mm", grip_mm, above=0), row["diameter_mm"]
    thread = min(THREAD_IN_GRIP * diameter, grip)
    bolt = bolt_n_per_mm(diameter, coarse_pitch_mm(diameter), grip - thread, thread)
    return Springs(bolt, parts_n_per_mm(((grip, modulus_mpa(material)),), hole, row["face_mm"]))
