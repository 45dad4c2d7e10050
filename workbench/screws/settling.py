"""Settling: rough faces flatten after tightening, and the bolt gives up some of its stretch.

Source: VDI 2230 (table 5).
"""

from workbench.refusals import numbers, one_number, refuse, whole
from workbench.screws.stiffness import Springs
from workbench.tables import table


def settling_mm(roughness_um, joints, load="pull"):
    """How far a joint settles: one thread, two turning or resting faces, so many faces between parts, in mm.

    roughness_um: Rz, over 0, up to 160; joints: places where part meets part, 0 or more (washers count); load "pull"
    along the bolt or "shear" across it. Source: VDI 2230, table 5.

    >>> settling_mm(16, 1)
    0.011
    """
    one_number("roughness_um", roughness_um, above=0, at_most=160, cause="give Rz in micrometres")
    rows = [row for row in table("settling").rows.values() if row["load"] == load]
    if not rows:
        refuse("load", load, "must be 'pull' or 'shear'", "pull is along the bolt, shear across it")
    row = next(row for row in rows if row["over_rz_um"] < roughness_um <= row["up_to_rz_um"])
    count = whole("joints", joints, at_least=0, cause="count the places where part meets part")
    return (row["thread_um"] + 2 * row["face_um"] + count * row["joint_um"]) / 1000


def preload_loss_n(settled_mm, springs):
    """Preload lost by settling: z kb kp / (kb + kp). The shorter and stiffer the joint, the more it loses.

    >>> preload_loss_n(0.011, Springs(300000, 1200000))
    2640.0
    """
    if not isinstance(springs, Springs):
        refuse("springs", springs, "must be Springs", "as from Springs(300000, 1200000)")
    return numbers("settled_mm", settled_mm, at_least=0) * springs.together_n_per_mm
