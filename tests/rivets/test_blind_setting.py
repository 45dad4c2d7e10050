"""Setting in stages: volumes kept, tail, filled hole, break at the notch; integrated apart from the module's sum."""

import math

import pytest
from scipy.integrate import quad

from workbench.rivets.grip import grip_ranges
from workbench.rivets.setting import badly_set, blind_rivet, pushed_in, set_rivet, stub_mm, volume_mm3

RIVETS = [("ISO 15977", 4, 10), ("ISO 15977", 4.8, 16), ("ISO 15979", 3.2, 8), ("ISO 15981", 6.4, 20),
          ("ISO 15983", 5, 12), ("ISO 15977", 2.4, 4), ("ISO 15977", 3, 25)]  # fmt: skip


def pieces(outline):
    return zip(outline, outline[1:] + outline[:1], strict=True)


def integrated(outline):
    """Volume of an outline turned about the axis: each straight piece integrated numerically, pi r^2 dz."""
    total = 0.0
    for (z1, r1), (z2, r2) in pieces(outline):
        if z1 != z2:
            total += quad(lambda z, a=z1, b=z2, p=r1, q=r2: math.pi * (p + (q - p) * (z - a) / (b - a)) ** 2, z1, z2)[0]
    return abs(total)


@pytest.mark.parametrize(("standard", "body", "length"), RIVETS)
def test_body_and_mandrel_keep_their_volume_through_all_stages(standard, body, length):
    """Integrated by quadrature, body and mandrel hold the same metal from the first stage to the broken pin."""
    rivet = blind_rivet(standard, body, length)
    stack = (rivet.least_grip_mm + rivet.largest_grip_mm) / 2
    stages = [set_rivet(rivet, stack, body + 0.1, pulled) for pulled in (0, 0.2, 0.4, 0.6, 0.8, 1)]
    stages.append(set_rivet(rivet, stack, body + 0.1, broken=True))
    for stage in stages:
        assert integrated(stage.body) == pytest.approx(integrated(stages[0].body), rel=1e-9)
        assert sum(map(integrated, stage.mandrel)) == pytest.approx(sum(map(integrated, stages[0].mandrel)), rel=1e-9)
    assert [len(stage.mandrel) for stage in stages] == [1, 1, 1, 1, 1, 1, 2]


def test_the_unset_body_is_the_tube_that_was_bought():
    """4 x 10, bore 2.45: shank of pi/4 (16 - 2.45^2) x 10 = 78.52 mm3 beyond the head (hand-worked)."""
    outline = set_rivet(blind_rivet("ISO 15977", 4, 10), 6, 4.1, 0).body
    tube = tuple((max(z, 0.0), r) for z, r in outline)
    assert integrated(tube) == pytest.approx(78.52, abs=0.01)
    assert max(r for z, r in outline if z > 0) == 2 and max(z for z, _ in outline) == 10


def test_a_frustum_has_the_volume_of_the_textbook():
    """pi h (R^2 + R r + r^2) / 3 with 3, 2, 1: 21.991 mm3 (any textbook of geometry)."""
    assert volume_mm3(((0, 0), (0, 2), (3, 1), (3, 0))) == pytest.approx(21.9911, abs=1e-4)


@pytest.mark.parametrize(("standard", "body", "length"), RIVETS)
def test_the_tail_grows_the_shank_fills_and_the_head_travels(standard, body, length):
    """Tail and travel never shrink as the mandrel is pulled; the shank touches the hole only at the end."""
    rivet = blind_rivet(standard, body, length)
    stages = [set_rivet(rivet, rivet.least_grip_mm, body + 0.1, step / 20) for step in range(21)]
    tails, travels = [stage.tail_mm for stage in stages], [stage.travel_mm for stage in stages]
    assert tails == sorted(tails) and travels == sorted(travels) and travels[0] == 0
    assert tails[0] == pytest.approx(body) and tails[-1] == pytest.approx(1.4 * body, rel=1e-6)
    assert stages[-1].fills and not stages[10].fills and stages[-1].shank_mm == pytest.approx(body + 0.1)


def test_the_outline_never_crosses_the_sheet_or_the_mandrel():
    """In every stage the shank stays inside the hole, the tail behind the stack, and the body outside the mandrel."""
    for standard, body, length in RIVETS:
        rivet = blind_rivet(standard, body, length)
        for stack in (rivet.least_grip_mm, rivet.largest_grip_mm):
            for step in range(11):
                stage = set_rivet(rivet, stack, body + 0.15, step / 10)
                within = [r for z, r in stage.body if 0 < z < stack - 1e-9]
                assert all(r <= body / 2 + 0.075 + 1e-9 for r in within)
                assert min(r for _, r in stage.body) >= rivet.mandrel_mm / 2 - 1e-9
                wide = [z for z, r in stage.body if r > body / 2 + 0.076]
                assert all(z <= 0 or z >= stack - 1e-9 for z in wide)


def test_the_pin_breaks_flush_at_the_least_grip_and_deeper_in_a_thicker_stack():
    """By construction flush at the thin end; in range never above the head; below the range it stands out."""
    for standard in ("ISO 15977", "ISO 15979", "ISO 15981", "ISO 15983"):
        for body in (3, 3.2, 4, 4.8, 5):
            for made in grip_ranges(standard, body):
                rivet = blind_rivet(standard, body, made.length_mm)
                stubs = [stub_mm(rivet, stack, body + 0.1) for stack in
                         (0.7 * made.least_mm, made.least_mm, (made.least_mm + made.largest_mm) / 2, made.largest_mm)]
                assert stubs == sorted(stubs, reverse=True)
                assert stubs[0] > 0.01 and stubs[1] == pytest.approx(0, abs=1e-6) and stubs[2] < 0


def test_a_hole_too_large_makes_the_pin_break_high():
    """The wider the hole, the more of the tail goes into it and the further the head travels: the stub stands out."""
    rivet = blind_rivet("ISO 15977", 4, 10)
    stubs = [stub_mm(rivet, 5, hole) for hole in (4.1, 4.2, 4.4)]
    assert stubs == sorted(stubs) and stubs[2] > 0.2


def test_a_rivet_set_out_of_range_keeps_its_metal_too():
    """Too thin a stack: the same volume as before the pull, and a pin that stands out as `stub_mm` says."""
    rivet = blind_rivet("ISO 15977", 4, 12)
    before, after = pushed_in(rivet, 5.0, 4.1), badly_set(rivet, 5.0, 4.1)
    assert integrated(after.body) == pytest.approx(integrated(before.body), rel=1e-9)
    assert after.stub_mm == pytest.approx(stub_mm(rivet, 5.0, 4.1)) and after.stub_mm > 0.5
    for refused in ((12, 4.1), (5, 4.05)):
        with pytest.raises(ValueError, match="reach through|will not enter"):
            pushed_in(rivet, *refused)


def test_in_a_thick_stack_the_shank_fills_near_the_tail_only():
    """3 x 25 in 20 mm, hole 3.1: full from 17 mm (D from the tail), as made up to 14 mm (2 D); 5 x 12 full all over."""
    shank = [(z, 2 * r) for z, r in set_rivet(blind_rivet("ISO 15977", 3, 25), 20, 3.1).body if 0 <= z <= 20][1:]
    places = {round(z, 9): d for z, d in shank[:4]}
    assert places == {0: 3, 14: 3, 17: pytest.approx(3.1), 20: pytest.approx(3.1)}
    short = [(z, 2 * r) for z, r in set_rivet(blind_rivet("ISO 15977", 5, 12), 7, 5.1).body if 0 <= z <= 7][1:3]
    assert short == [(0, pytest.approx(5.1)), (7, pytest.approx(5.1))]


def test_the_mandrel_has_the_head_and_notch_it_was_given():
    """4 x 10, mandrel 2.45: head 3.8 wide, cone 0.675, rim 1 mm; notch 0.65 of the thickness, 0.7 of it wide."""
    rivet = blind_rivet("ISO 15977", 4, 10)
    (outline,) = set_rivet(rivet, 6, 4.1, 0).mandrel
    widths = [r for _, r in outline]
    assert 2 * max(widths) == pytest.approx(3.8)
    assert outline[-1] == (pytest.approx(10 + 0.675 + 1), 0.0) and outline[-3] == (pytest.approx(10.675), 1.9)
    (z1, r1), (z2, r2), (z3, r3) = outline[2:5]
    assert (r1, r2, r3) == pytest.approx((1.225, 0.65 * 1.225, 1.225)) and z3 - z1 == pytest.approx(0.7 * 1.225)
    assert z2 == pytest.approx(10 - rivet.notch_mm)


def test_the_break_is_at_the_notch():
    """Both pieces meet the axis at the notch, notch_mm from the cone of the mandrel's head."""
    rivet = blind_rivet("ISO 15977", 4.8, 16)
    stage = set_rivet(rivet, 10, 4.9, broken=True)
    stays, goes = stage.mandrel
    seat = rivet.length_mm - stage.travel_mm
    assert stays[0] == (pytest.approx(seat - rivet.notch_mm), 0.0)
    assert stage.stub_mm == pytest.approx(-rivet.head_height_mm - stays[0][0])
    assert stage.stub_mm == pytest.approx(stub_mm(rivet, 10, 4.9))
    assert max(z for z, _ in goes) < stays[0][0]


@pytest.mark.parametrize(("arguments", "said"), [
    ((4.9, 4.1), "breaks high"), ((6.6, 4.1), "no tail"), ((6, 4.05), "will not enter"), ((6, 4.3), "cannot fill"),
    ((6, 4.1, 1.2), "share of the travel"), ((6, 4.1, 0.5, True), "pulled = 1"), (("6", 4.1), "must be one number")])
def test_what_cannot_be_set_is_refused(arguments, said):
    """Grips and holes outside the table, a pull past its end, and a break before the tail is set."""
    with pytest.raises(ValueError, match=said):
        set_rivet(blind_rivet("ISO 15977", 4, 10), *arguments)
    with pytest.raises(ValueError, match="BlindRivet"):
        set_rivet(None, 6, 4.1)
