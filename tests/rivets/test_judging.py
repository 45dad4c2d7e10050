"""Formed heads, faults, taking out, the next size, weight, and the whole selection."""

import pytest

from workbench.rivets import defect, formed_head, weight
from workbench.rivets.selection import Job, select

GOOD = {"width_mm": 6.0, "height_mm": 2.0, "diameter_mm": 4, "hole_mm": 4.2}


def judged(**changed):
    return formed_head.judge(**{**GOOD, **changed})


@pytest.mark.parametrize("changed, verdict, said", [
    ({}, "accept", ""),
    ({"width_mm": 5.6}, "accept", ""), ({"width_mm": 5.59}, "replace", "driven too little"),
    ({"width_mm": 6.4}, "accept", ""), ({"width_mm": 6.41}, "replace", "driven too far"),
    ({"height_mm": 1.6}, "accept", ""), ({"height_mm": 1.59}, "replace", "driven too far"),
    ({"height_mm": 2.6}, "accept", ""), ({"height_mm": 2.61}, "replace", "driven too little"),
    ({"offset_mm": 0.5}, "accept", ""), ({"offset_mm": 0.51}, "replace", "askew"),
    ({"cracks": "rim"}, "refer", "document"), ({"cracks": "to the shank"}, "replace", "shank"),
    ({"cracks": "meeting"}, "replace", "break out"), ({"gap": True}, "replace", "drawn together"),
    ({"cracks": "rim", "gap": True}, "replace", "gap"),
])  # fmt: skip
def test_a_formed_head_is_judged_at_each_limit(changed, verdict, said):
    """D 4: width 1.4 to 1.6 D, height 0.4 to 0.65 D, 0.1 D beside the hole: (6 - 4.2)/2 - 0.5 = 0.4 (practice)."""
    found = judged(**changed)
    assert found.verdict == verdict
    assert (said in found.reasons[0]) if said else not found.reasons


def test_documents_differ_and_both_can_be_asked():
    """5.2 by 1.2 on 4 mm (1.3 D, 0.3 D) passes MIL-HDBK-5 and fails training practice; 7050 asks for 1.4 D."""
    low = {"width_mm": 5.2, "height_mm": 1.2, "offset_mm": 0.1}
    assert judged(**low, document="MIL-HDBK-5").verdict == "accept"
    assert judged(**low).verdict == "replace"
    assert judged(**low, document="MIL-HDBK-5", alloy="7050").verdict == "replace"
    assert judged(width_mm=8, height_mm=1.2, document="MIL-HDBK-5").verdict == "accept"  # it names no most
    assert formed_head.limits(4, "MIL-HDBK-5").most_width_mm is None


@pytest.mark.parametrize("changed, rule", [
    ({"width_mm": 0.24}, "measured in mm"), ({"width_mm": 12.1}, "at most 12"), ({"height_mm": 8.1}, "shank's length"),
    ({"hole_mm": 3.9}, "was the shank given"), ({"cracks": "some"}, "must be one of"), ({"cracks": None}, "must be"),
    ({"offset_mm": -0.1}, "at least 0"), ({"document": "hearsay"}, "no row 'hearsay'"),
])  # fmt: skip
def test_what_is_no_head_is_refused(changed, rule):
    """Sizes that cannot be a head of this rivet are handed back."""
    with pytest.raises(ValueError, match=rule):
        judged(**changed)


def test_the_worst_fault_decides():
    """Replace beats refer beats accept; an unknown fault is refused."""
    assert [defect.verdict(*found) for found in ((), ("cracked rim",), ("cracked rim", "loose rivet"))] == [
        "accept", "refer", "replace"]  # fmt: skip
    with pytest.raises(ValueError, match="must be one of short head"):
        defect.verdict("ugly head")


def test_taking_out_spares_the_hole():
    """Drill under the shank and as deep as the head only; punch thinner still; a flush head gets no flat filed."""
    for size, head in (("3", 1.8), ("5", 3.0), ("8", 4.8)):
        one = defect.removal(size, head)
        assert one.punch_mm < one.drill_mm < float(size) and one.depth_mm == head
    assert "file a flat" in defect.removal("4", 2.4).steps[1]
    assert "leave the flush head" in defect.removal("4", 1.4, flush=True).steps[1]
    assert "eye protection" in defect.removal("4", 2.4).steps[0]
    with pytest.raises(ValueError, match="not the whole rivet"):
        defect.removal("4", 9)


@pytest.mark.parametrize("edge, pitch, flush, allowed, reasons", [
    (10, 15, False, True, 0), (9.9, 15, False, False, 1), (10, 14.9, False, False, 1), (9, 14, False, False, 2),
    (12.5, 15, True, True, 0), (12.4, 15, True, False, 1),
])  # fmt: skip
def test_the_next_size_needs_its_own_edge_and_pitch(edge, pitch, flush, allowed, reasons):
    """4 becomes 5: edge 2 D = 10 (flush 2.5 D = 12.5), pitch 3 D = 15 (NAVEDTRA)."""
    found = defect.after_next_size("4", edge, pitch, flush)
    assert (found.size, found.allowed, len(found.reasons)) == ("5", allowed, reasons)
    assert (found.edge_d, found.pitch_d) == (pytest.approx(edge / 5), pytest.approx(pitch / 5))


def test_replacing_with_2117_has_its_limits():
    """One 32nd more, up to 6/32 of 2017 and 5/32 of 2024 (FAA AC 43.13-1B)."""
    for alloy, most in (("2017", 6), ("2024", 5)):
        assert defect.replacement_32nds(alloy, most) == most + 1
        with pytest.raises(ValueError, match="not replaced by 2117"):
            defect.replacement_32nds(alloy, most + 1)
    with pytest.raises(ValueError, match="2017 or 2024"):
        defect.replacement_32nds("2117", 4)


def test_weights_by_hand():
    """Flat 4: head 8 wide, 1.6 high = 80.42 mm3; shank 6 mm = 75.40; 155.82 x 2.75 = 0.4285 g.

    Countersunk 90: 8 to 4 in 2 mm = pi x 2/3 x (16 + 8 + 4) = 58.64, 8 over all leaves 6 mm shank: 134.04 mm3.
    Round cap 7 by 2.4: pi x 2.4/6 x (36.75 + 5.76) = 53.42 mm3. 15 holes of 4.2 in 2.6 at 2.78: 1.502 g.
    """
    assert weight.mass_g("flat", 4, 6, "2117") == pytest.approx(0.42850, abs=1e-4)
    assert weight.mass_g("countersunk 90", 4, 8, "2024") == pytest.approx(134.04 * 2.78 / 1000, abs=1e-4)
    assert weight.head_volume_mm3("round", 4) == pytest.approx(53.42, abs=0.01)
    assert weight.drilled_g(4.2, 2.6, 2.78, holes=15) == pytest.approx(1.5021, abs=1e-4)
    with pytest.raises(ValueError, match="over all"):
        weight.mass_g("countersunk 90", 4, 2, "2024")


def test_a_selection_explains_every_alternative():
    """Each size, head and alloy is the chosen one or stands refused with a reason."""
    from workbench.rivets.alloy import alloys
    from workbench.rivets.head import kinds
    from workbench.rivets.size import sizes_mm

    for job in (Job((1.0, 1.6), load_n=1000), Job((3.0, 3.0), flush=True), Job((1.6, 1.6), load_n=2000, system="inch")):
        found = select(job)
        one = found.rivet
        assert {one.size, *found.diameters} == set(sizes_mm(job.system)) and one.size not in found.diameters
        assert {one.head.kind, *found.heads} == set(kinds()) and one.head.kind not in found.heads
        assert {one.alloy, *found.alloys} == set(alloys()) and one.alloy not in found.alloys
        assert all((*found.diameters.values(), *found.heads.values(), *found.alloys.values()))


@pytest.mark.parametrize("job, size, kind, alloy, length, let_in", [
    # 3 t = 4.8, 5 is over: 4; 2000 series in 2000 series; 2.6 + 6 = 8.6: 8 mm
    (Job((1.0, 1.6), load_n=1000), "4", "universal", "2117", "8 mm", ""),
    # sheet not of the 2000 series: 955 N of 1100 is too little, 5056 bears 2675
    (Job((1.0, 1.6), "aluminium", load_n=1000), "4", "universal", "5056", "8 mm", ""),
    (Job((1.0, 1.6), "aluminium", load_n=900), "4", "universal", "1100", "8 mm", ""),
    # 3 t = 9: 8; cone of 100 deg (14.4 - 8.4)/2/tan 50 = 2.52 x 1.5 = 3.78 over 3; 120: 2.19 x 1.5 = 3.28;
    # 6: 1.89 x 1.5 = 2.83; 6 + 9 = 15: 14 and 16 as near, the longer
    (Job((3.0, 3.0), flush=True), "6", "countersunk 100", "2117", "16 mm", "countersink"),
    # 3 t = 2.4: 2; cone dimpled; 1.6 + 3 = 4.6: 5
    (Job((0.8, 0.8), flush=True), "2", "countersunk 100", "2117", "5 mm", "dimple"),
    # 3/16 = 4.7625 below 4.8; 2117 on 4.851: 18.485 x 206.84 = 3823; 3.2 + 7.14 = 10.34 mm = 6.5 sixteenths: 7/16
    (Job((1.6, 1.6), load_n=3600, system="inch"), "3/16", "universal", "2117", "7/16 in", ""),
    # 3000 N is more than 5056, 2117 on 4.2; with a furnace 2017
    (Job((1.0, 1.6), load_n=3000, can_heat_treat=True), "4", "universal", "2017", "8 mm", ""),
    # 6 and 8 fall to the thin sheet (1.0/6 = 0.167); 5 is left: 4 + 7.5 = 11.5: 12
    (Job((3.0, 1.0)), "5", "universal", "2117", "12 mm", ""),
    # 3600 N without a furnace: 7050 bears 4107; steel bears 3343 only, stainless is no light metal
    (Job((1.0, 1.6), load_n=3600), "4", "universal", "7050", "8 mm", ""),
])  # fmt: skip
def test_the_selection_by_hand(job, size, kind, alloy, length, let_in):
    """Sums beside each job."""
    one = select(job).rivet
    assert (one.size, one.head.kind, one.alloy, one.length.name, one.let_in) == (size, kind, alloy, length, let_in)
    assert one.heat_treat == (alloy == "2017")


def test_where_no_solid_rivet_does_it_says_why():
    """One-sided access, sheets too unlike, no room, a load too great; each with its own words."""
    assert "blind rivet" in select(Job((1.0, 1.6), access="one")).why_none
    unlike = select(Job((0.5, 3.0)))
    assert unlike.rivet is None and "no size does" in unlike.why_none and len(unlike.diameters) == 10
    low = select(Job((1.0, 1.0), room_mm=0.3))  # the flat head of the least size allowed, 1 mm, is 0.4 high
    assert low.rivet is None and low.diameters["3"].startswith("no head does, not even flat: stands 1.20 mm high")
    heavy = select(Job((1.0, 1.6), load_n=9000))
    assert heavy.rivet is None and "no alloy bears 9000 N" in heavy.diameters["4"]


@pytest.mark.parametrize("call, rule", [
    (lambda: select((1.0, 1.6)), "must be a Job"),
    (lambda: Job((1.0, 1.6), access="none"), "both"),
    (lambda: Job((1.0, 1.6), load_n=-1), "at least 0"),
    (lambda: Job(1.6), "two sheets or more"),
    (lambda: select(Job((1.0, 1.6), sheet_metal="wood")), "no row 'wood'"),
    (lambda: select(Job((1.0, 1.6), environment="sea")), "no row 'sea'"),
    (lambda: select(Job((1.0, 1.6), system="feet")), "metric"),
])  # fmt: skip
def test_a_job_that_cannot_be_meant_is_refused(call, rule):
    """Refused with the rule, never bent."""
    with pytest.raises(ValueError, match=rule):
        call()


def test_a_flush_tail_needs_its_own_sheet():
    """Cone of 75 degrees, 5.25 wide, hole 3.1: 1.40 x 1.5 = 2.1 mm; in 1.3 mm refused, in 1.0 mm dimpled."""
    assert select(Job((3.0, 3.0), flush_tail=True)).rivet.tail == "countersunk flush"
    refused = select(Job((1.3, 1.3), flush_tail=True))
    assert "flush tail" in refused.diameters["3"]
    assert select(Job((1.0, 1.0), flush_tail=True)).rivet.size == "3"


def test_the_last_sheet_bears_the_flush_tail():
    """A 3 mm rivet's cone (1.40 mm) asks for 2.1 mm: the tail may lie in the sheet of 3.0, not in that of 1.3.

    4 mm has no length: 4.3 + 2.4 = 6.7, 6 leaves 1.7 (least 2.0), 8 leaves 3.7 (most 3.2).
    """
    assert select(Job((1.3, 3.0), flush_tail=True)).rivet.size == "3"
    other = select(Job((3.0, 1.3), flush_tail=True))
    assert other.rivet is None and "asks for a sheet of 2.10 mm: 1.3 mm" in other.diameters["3"]
    assert "stands out 1.70 mm" in other.diameters["4"]


def test_what_is_taken_out_and_what_is_left_in_figures():
    """Punch 0.3 under the shank; 9 mm of edge is 1.80 of 5 mm; a small head is a head; holes in thin sheet weigh."""
    assert defect.removal("5", 3.0).punch_mm == 4.7 and defect.removal("5", 3.0).drill_mm == 4.9
    assert defect.after_next_size("4", 9, 14).reasons == (
        "edge distance 9 mm is 1.80 D, least 2 D", "pitch 14 mm is 2.80 D, least 3 D")  # fmt: skip
    assert formed_head.judge(1.5, 0.5, 1, 1.05).verdict == "accept"
    assert formed_head.cover_mm(0.9, 0.5, 0) == pytest.approx(0.2)
    assert weight.drilled_g(0.5, 0.5, 2.78) == pytest.approx(0.00027293, rel=1e-3)
    assert weight.mass_g("flat", 1, 0.5, "2117") == pytest.approx((0.392699 + 1.256637) * 2.75 / 1000, rel=1e-5)
