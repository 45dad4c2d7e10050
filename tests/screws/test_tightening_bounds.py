"""The edges of what the calculations of tightening take: the last value taken, the first refused.

Limits are those that the docstrings state; none comes from a standard but the sizes of tables.
"""

import pytest

from workbench.screws.bearing import face_pressure_mpa, face_through_washer_mm
from workbench.screws.blind_hole import ScrewInHole, drill_depth_mm, full_thread_mm, point_height_mm
from workbench.screws.fatigue import class_endurance_mpa, goodman_factor, rolled_endurance_mpa, swing
from workbench.screws.grip import ThroughBolt, next_length_mm, washers_needed
from workbench.screws.joint import bolt_load_n, clamp_left_n, needed_preload_n, opening_load_n, slip_load_n
from workbench.screws.preload import (
    at_yield_n,
    below_yield_n,
    combined_mpa,
    of_proof_n,
    twist_mpa,
    while_tightening_mpa,
)
from workbench.screws.scatter import band_n, least_n, relative_spread
from workbench.screws.settling import preload_loss_n, settling_mm
from workbench.screws.stiffness import (
    Springs,
    bar_n_per_mm,
    bolt_n_per_mm,
    bolt_with_ends_n_per_mm,
    cone_n_per_mm,
    in_row_n_per_mm,
    parts_n_per_mm,
    tapped_grip_mm,
)
from workbench.screws.stripping import Engagement, nut_shear_mm, screw_shear_mm, shear_strength_mpa
from workbench.screws.torque import (
    exact_form,
    face_mean_mm,
    long_form,
    nut_factor,
    nut_factor_preload_n,
    nut_factor_torque_nmm,
    preload_n,
)
from workbench.screws.torque_wrench import (
    at_nut_nm,
    crosswise,
    error_nm,
    in_range_nm,
    passes_nm,
    setting_nm,
    with_run_down_nm,
)
from workbench.screws.turning import angle_for_deg, preload_after_turn_n, preload_gain_n

SPRINGS = Springs(300000, 1200000)
TINY = 1e-3  # taken where the limit is nought itself
FRICTION = {"pitch_mm": 1.5, "pitch_diameter_mm": 9, "thread_friction": 0.1, "face_mean_mm": 13, "face_friction": 0.1}
TURN = {"preload_n": 20000, "angle_deg": 5, "pitch_mm": 1.5, "springs": SPRINGS, "yield_n": 37000}
LEVER = {"torque_nm": 40, "arm_mm": 400, "extension_mm": 100, "angle_deg": 30}
CONE = {"hole_mm": 10, "face_mm": 15, "thickness_mm": 20, "modulus": 205000, "half_angle_deg": 30}
BOLT = {"diameter_mm": 10, "pitch_mm": 1.5, "shank_mm": 20, "thread_mm": 20, "modulus": 205000}
GOODMAN = {"preload_mpa": 400, "mean_mpa": 410, "amplitude_mpa": 10, "endurance_mpa": 129, "tensile_mpa": 830}
STACK = {"length_mm": 60, "thread_mm": 26, "pitch_mm": 1.5, "parts_mm": (20, 20), "nut_mm": 8.4, "head_washer_mm": 2,
         "nut_washer_mm": 2}  # fmt: skip
HOLE = {"length_mm": 30, "thread_mm": 26, "pitch_mm": 1.5, "grip_mm": 20, "full_thread_mm": 15}
ENGAGED = {"diameter_mm": 10, "pitch_mm": 1.5, "screw_tensile_mpa": 800, "part_tensile_mpa": 250}


def above_nought(*names):
    return [(name, (TINY,), (0, -TINY)) for name in names]


def from_nought(*names):
    return [(name, (0,), (-TINY,)) for name in names]


EDGES = [
    (bar_n_per_mm, {"area_mm2": 58, "length_mm": 40, "modulus": 205000},
     above_nought("area_mm2", "length_mm", "modulus")),
    (bolt_n_per_mm, BOLT, [*from_nought("shank_mm", "thread_mm"), *above_nought("modulus")]),
    (bolt_with_ends_n_per_mm, BOLT, [*from_nought("shank_mm", "thread_mm"), *above_nought("modulus")]),
    (cone_n_per_mm, CONE, [*above_nought("hole_mm", "thickness_mm", "modulus"), ("face_mm", (10.001,), (10,)),
                           ("half_angle_deg", (20, 45), (19.9, 45.1))]),
    (Springs, {"bolt_n_per_mm": 3, "parts_n_per_mm": 9}, above_nought("bolt_n_per_mm", "parts_n_per_mm")),
    (tapped_grip_mm, {"plate_mm": 17, "base_mm": 30, "diameter_mm": 12},
     above_nought("plate_mm", "base_mm", "diameter_mm")),
    (SPRINGS.bolt_stretch_mm, {"preload_n": 1}, from_nought("preload_n")),
    (SPRINGS.parts_squeeze_mm, {"preload_n": 1}, from_nought("preload_n")),
    (preload_gain_n, {"angle_deg": 5, "pitch_mm": 1.5, "springs": SPRINGS}, above_nought("pitch_mm")),
    (angle_for_deg, {"gain_n": 5, "pitch_mm": 1.5, "springs": SPRINGS}, above_nought("pitch_mm")),
    (preload_after_turn_n, TURN, [*from_nought("preload_n"), ("preload_n", (32000,), (32000.1,))]),
    (preload_after_turn_n, {**TURN, "preload_n": 0, "angle_deg": 0}, above_nought("yield_n")),
    (long_form, {"preload_n": 1000, **FRICTION},
     [*from_nought("preload_n", "thread_friction", "face_friction"),
      *above_nought("pitch_mm", "pitch_diameter_mm", "face_mean_mm"),
      ("thread_friction", (1,), (1.01,)), ("face_friction", (1,), (1.01,))]),
    (exact_form, {"preload_n": 1000, **FRICTION, "flank_deg": 30},
     [*from_nought("preload_n", "flank_deg"), ("flank_deg", (60,), (60.1,))]),
    (preload_n, {"torque_nmm": 1000, **FRICTION}, from_nought("torque_nmm")),
    (face_mean_mm, {"face_mm": 14, "hole_mm": 11}, [*above_nought("hole_mm"), ("face_mm", (11.01,), (11,))]),
    (face_mean_mm, {"face_mm": 14, "hole_mm": TINY}, [("face_mm", (2 * TINY,), (TINY,))]),
    (nut_factor, {"torque_nmm": 10, "preload_n": 10, "diameter_mm": 10},
     [*from_nought("torque_nmm"), *above_nought("preload_n", "diameter_mm")]),
    (nut_factor_torque_nmm, {"factor": 0.2, "preload_n": 10, "diameter_mm": 10},
     [*from_nought("preload_n"), *above_nought("diameter_mm"), ("factor", (0.05, 0.6), (0.049, 0.601))]),
    (nut_factor_preload_n, {"factor": 0.2, "torque_nmm": 10, "diameter_mm": 10},
     [*from_nought("torque_nmm"), *above_nought("diameter_mm")]),
    (of_proof_n, {"diameter_mm": 10, "pitch_mm": 1.5, "bolt_class": "8.8", "share": 0.7},
     [*above_nought("share"), ("share", (1,), (1.001,))]),
    (twist_mpa, {"torque_nmm": 10, "diameter_mm": 10}, [*from_nought("torque_nmm"), *above_nought("diameter_mm")]),
    (combined_mpa, {"pull_mpa": 1, "shear_mpa": 1}, from_nought("pull_mpa", "shear_mpa")),
    (while_tightening_mpa, {"preload_n": 10, "thread_torque_nmm": 10, "diameter_mm": 10, "pitch_mm": 1.5},
     from_nought("preload_n", "thread_torque_nmm")),
    (at_yield_n, {"diameter_mm": 10, "pitch_mm": 1.5, "yield_mpa": 640, "thread_friction": 0.1, "share": 0.9},
     [*above_nought("share", "yield_mpa"), *from_nought("thread_friction"), ("share", (1,), (1.001,)),
      ("thread_friction", (1,), (1.001,))]),
    (below_yield_n, {"preload_n": 1, "diameter_mm": 10, "pitch_mm": 1.5, "bolt_class": "8.8"},
     [*from_nought("preload_n"), ("preload_n", (37120,), (37121,))]),
    (least_n, {"largest_n": 10, "factor": 1.6}, [*from_nought("largest_n"), ("factor", (1,), (0.99,))]),
    (band_n, {"middle_n": 10, "half_spread": 0.2}, [*from_nought("middle_n", "half_spread"),
                                                    ("half_spread", (0.99,), (0.991,))]),
    (relative_spread, {"torque_relative": 0.1, "factor_relative": 0.1},
     [*from_nought("torque_relative", "factor_relative"), ("torque_relative", (1,), (1.01,)),
      ("factor_relative", (1,), (1.01,))]),
    (clamp_left_n, {"preload_n": 10, "load_n": 5, "share": 0.2},
     [*from_nought("preload_n", "load_n", "share"), ("share", (1,), (1.01,))]),
    (bolt_load_n, {"preload_n": 10, "load_n": 5, "share": 0.2}, from_nought("preload_n", "load_n", "share")),
    (opening_load_n, {"preload_n": 10, "share": 0.2}, [*from_nought("preload_n"), ("share", (0, 0.99), (1,))]),
    (slip_load_n, {"clamp_n": 10, "friction": 0.1, "faces": 2},
     [*from_nought("clamp_n", "friction"), ("friction", (1,), (1.01,)), ("faces", (1,), (0, 1.5))]),
    (needed_preload_n, {"clamp_n": 1, "load_n": 1, "share": 0.2, "settling_n": 1, "factor": 1.6},
     [*from_nought("clamp_n", "load_n", "settling_n"), ("factor", (1,), (0.99,))]),
    (settling_mm, {"roughness_um": 16, "joints": 1},
     [*above_nought("roughness_um"), *from_nought("joints"), ("roughness_um", (160,), (160.1,))]),
    (preload_loss_n, {"settled_mm": 1, "springs": SPRINGS}, from_nought("settled_mm")),
    (swing, {"preload_n": 10, "least_load_n": 1, "most_load_n": 2, "share": 0.2, "area_mm2": 58},
     [*above_nought("area_mm2"), ("least_load_n", (2,), (2.01,))]),
    (goodman_factor, GOODMAN, [*from_nought("preload_mpa"), *above_nought("amplitude_mpa", "endurance_mpa"),
                               ("mean_mpa", (400,), (399.9,)), ("tensile_mpa", (400.1,), (400,))]),
    (class_endurance_mpa, {"bolt_class": "8.8", "diameter_mm": 20}, [("diameter_mm", (16, 36), (15.9, 36.1))]),
    (rolled_endurance_mpa, {"diameter_mm": 10}, [("diameter_mm", (6, 39), (5.9, 39.1))]),
    (face_pressure_mpa, {"force_n": 1, "face_mm": 14, "hole_mm": 11},
     [*from_nought("force_n"), *above_nought("hole_mm"), ("face_mm", (11.01,), (11,))]),
    (face_through_washer_mm, {"face_mm": 14, "thickness_mm": 2, "outer_mm": 20},
     [*above_nought("face_mm", "thickness_mm"), ("outer_mm", (14,), (13.9,))]),
    (screw_shear_mm, {"pitch_mm": 1.5, "nut_minor_high_mm": 8.7, "screw_pitch_low_mm": 8.9},
     [("nut_minor_high_mm", (10.19,), (10.21,))]),  # ridge gone: D1 - d2 = P/2 / tan 30 = 1.299
    (nut_shear_mm, {"pitch_mm": 1.5, "screw_major_low_mm": 9.7, "nut_pitch_high_mm": 9.2},
     [("nut_pitch_high_mm", (10.99,), (11.01,))]),
    (shear_strength_mpa, {"tensile_mpa": 800}, above_nought("tensile_mpa")),
    (Engagement, ENGAGED, above_nought("screw_tensile_mpa", "part_tensile_mpa")),
    (Engagement(**ENGAGED).stripping_n, {"engaged_mm": 9}, [("engaged_mm", (1.5,), (1.49, 0))]),
    (Engagement(2, 0.4, 800, 250).stripping_n, {"engaged_mm": 1}, [("engaged_mm", (0.4,), (0.39,))]),
    (setting_nm, LEVER, [*from_nought("torque_nm", "extension_mm", "angle_deg"), *above_nought("arm_mm"),
                         ("angle_deg", (180,), (180.1,))]),
    (at_nut_nm, {"setting_nm": 1, "arm_mm": 400, "extension_mm": 100}, from_nought("setting_nm")),
    (with_run_down_nm, {"seating_nm": 1, "run_down_nm": 1}, from_nought("seating_nm", "run_down_nm")),
    (error_nm, {"torque_nm": 0, "percent": 4, "full_scale_nm": 200},
     [*from_nought("torque_nm", "percent"), *above_nought("full_scale_nm"), ("percent", (100,), (100.1,)),
      ("torque_nm", (200,), (200.1,))]),
    (in_range_nm, {"torque_nm": 100, "full_scale_nm": 200, "least_share": 0.2},
     [("torque_nm", (40, 200), (39.9, 200.1)), ("least_share", (0,), (-0.01, 1.01))]),
    (in_range_nm, {"torque_nm": 200, "full_scale_nm": 200, "least_share": 1}, [("least_share", (1,), (1.01,))]),
    (crosswise, {"count": 6}, [("count", (3,), (2,))]),
    (passes_nm, {"torque_nm": 50}, [*above_nought("torque_nm"), ("shares", ((0.1, 1),), ((0, 1), (0.6, 0.3, 1)))]),
    (washers_needed, {"shank_mm": 30, "parts_mm": 27, "washer_mm": 1.6},
     [*from_nought("shank_mm"), *above_nought("parts_mm", "washer_mm")]),
    (next_length_mm, {"grip_mm": 22, "nut_mm": 8.4, "pitch_mm": 1.5, "threads_past": 2},
     [*above_nought("grip_mm", "nut_mm", "pitch_mm"), *from_nought("threads_past")]),
    (ThroughBolt, STACK, [*from_nought("head_washer_mm", "nut_washer_mm"), *above_nought("thread_mm"),
                          ("thread_mm", (60,), (60.1,)), ("length_mm", (45.5,), (45.4,)), ("nut_mm", (1.5,), (1.4,)),
                          ("parts_mm", ((TINY,),), ((0,), (), (20, -1))), ("pitch_mm", (TINY,), (0,))]),
    (ThroughBolt, {"length_mm": 0.9, "thread_mm": 0.9, "pitch_mm": 0.2, "parts_mm": (0.2,), "nut_mm": 0.4},
     [("nut_mm", (0.3,), (0,)), ("length_mm", (0.95,), (0,))]),
    (ScrewInHole, {"length_mm": 0.9, "thread_mm": 0.9, "pitch_mm": 0.2, "grip_mm": 0.2, "full_thread_mm": 0.5},
     [("full_thread_mm", (0.4,), (0,)), ("length_mm", (0.95,), (0,))]),
    (point_height_mm, {"drill_mm": 8, "point_deg": 118}, [*above_nought("drill_mm"),
                                                          ("point_deg", (60, 170), (59.9, 170.1))]),
    (drill_depth_mm, {"full_thread_mm": 15, "pitch_mm": 1.5, "drill_mm": 8.5, "lead_pitches": 4},
     [*above_nought("full_thread_mm", "pitch_mm"), *from_nought("lead_pitches")]),
    (full_thread_mm, {"depth_mm": 10, "pitch_mm": 1.5, "drill_mm": 8.5},
     [*above_nought("pitch_mm"), ("depth_mm", (8.56,), (8.55,))]),  # 6 + 2.554
    (ScrewInHole, HOLE, [*above_nought("thread_mm", "grip_mm"), ("thread_mm", (30,), (30.1,)),
                         ("length_mm", (26,), (21.4,)), ("full_thread_mm", (1.5,), (1.4,)),
                         ("pitch_mm", (TINY,), (0,))]),
]  # fmt: skip
ROWS = [(act, given, *edge) for act, given, edges in EDGES for edge in edges]


@pytest.mark.parametrize("act, given, name, taken, refused", ROWS,
                         ids=[f"{getattr(row[0], '__name__', 'act')}-{row[2]}-{n}" for n, row in enumerate(ROWS)])
def test_the_last_value_inside_is_taken_and_the_first_outside_refused(act, given, name, taken, refused):
    """Each limit that a docstring states is where it says, to a thousandth."""
    for value in taken:
        act(**{**given, name: value})
    for value in refused:
        with pytest.raises(ValueError):
            act(**{**given, name: value})


def test_layers_and_rows_have_their_edges():
    """Layers are above nought in thickness and modulus, cones from 20 to 45 deg; springs in a row above nought."""
    for layer in ((0, 205000), (20, 0)):
        with pytest.raises(ValueError):
            parts_n_per_mm((layer,), 11, 16)
    assert parts_n_per_mm(((TINY, TINY),), 11, 16) > 0
    for half_angle in (20, 45):
        assert parts_n_per_mm(((20, 205000),), 11, 16, half_angle) > 0
    assert in_row_n_per_mm(TINY, TINY) == pytest.approx(TINY / 2)
    with pytest.raises(ValueError):
        in_row_n_per_mm(0, 1)
