"""Blind rivets: holes, loads, grips, strength and names; refusals say what is wrong."""

import doctest
from importlib import import_module

import pytest

from workbench.rivets import blind, blind_designation, blind_strength, corrosion, grip
from workbench.threads.spelling import NotACallOut


@pytest.mark.parametrize("name", ["blind", "blind_designation", "blind_strength", "corrosion", "cost",
                                  "fastening_choice", "grip", "setting"])  # fmt: skip
def test_examples_run(name):
    """The examples in the docstrings give what they print."""
    failed, tried = doctest.testmod(import_module(f"workbench.rivets.{name}"))
    assert tried and not failed


def test_the_blind_hole_is_closer_than_the_solid_rivets():
    """4 mm: blind 4.1, solid 4.2 mm (DIN 660 d7); the two tables differ."""
    from workbench.rivets.hole import metric_hole

    assert blind.hole_mm(4)[0] == 4.1 and metric_hole("4").hole_mm == 4.2


@pytest.mark.parametrize(("measured", "judged"), [(4.09, "small"), (4.1, "good"), (4.2, "good"), (4.21, "large")])
def test_a_hole_is_judged_at_both_ends(measured, judged):
    """4.1 and 4.2 mm are good for a 4 mm body, a hundredth outside is not (ISO 15977 holes)."""
    assert blind.judge_hole(measured, 4) == judged


def test_coat_lies_on_both_sides_of_the_hole():
    """5 mm body, 0.07 mm of paint on the wall: 5.1 + 2 x 0.07 = 5.24 mm (hand-worked)."""
    assert blind.hole_before_coating_mm(5, 0.07) == pytest.approx(5.24)


@pytest.mark.parametrize(("body", "length", "stack", "inside"), [
    (4, 8, 3.0, True), (4, 8, 5.0, True), (4, 8, 2.9, False), (4, 8, 5.1, False), (4.8, 12, 7.0, True)])  # fmt: skip
def test_a_grip_is_in_range_ends_included(body, length, stack, inside):
    """ISO 15977 4 x 8 holds 3 to 5 mm, 4.8 x 12 holds 6 to 8 mm."""
    assert grip.grip_range("ISO 15977", body, length).holds(stack) == inside


def test_the_shorter_length_is_taken_where_two_ranges_meet():
    """A stack of 5.0 mm: 4 x 8 (3 to 5) rather than 4 x 10 (5 to 6.5)."""
    assert grip.length_for("ISO 15977", 4, 5.0).length_mm == 8
    assert grip.length_for("ISO 15977", 4, 5.1).length_mm == 10


def test_every_tabulated_grip_finds_its_length():
    """For each row of each standard the middle of its range leads back to its length."""
    for standard in ("ISO 15977", "ISO 15979", "ISO 15981", "ISO 15983"):
        for body in (2.4, 3, 3.2, 4, 4.8, 5, 6, 6.4):
            try:
                made = grip.grip_ranges(standard, body)
            except ValueError:
                continue
            for one in made:
                middle = (one.least_mm + one.largest_mm) / 2
                assert grip.length_for(standard, body, middle) == one


def test_the_smallest_rivets_are_served_too():
    """Body 2.4 and below 1 mm of grip: l - D of 1.5 and 0.8 is 0.7; 2.4 x 4 with 3.5 beyond, grip 0.6: 6.9 mm."""
    assert grip.rule_of_thumb_mm(1.5, 0.8) == pytest.approx(0.7)
    assert grip.room_behind_mm(2.4, 4, 0.6) == pytest.approx(6.9)
    assert grip.length_for("ISO 15977", 2.4, 0.5).length_mm == 4
    with pytest.raises(ValueError, match="thinner body"):
        grip.length_for("ISO 15977", 2.4, 0.49)


def test_margin_is_negative_outside():
    """4.7 mm in 3 to 5 leaves 0.3; 2.6 mm is 0.4 under it; 5.5 is 0.5 over it (hand-worked)."""
    one = grip.grip_range("ISO 15977", 4, 8)
    assert [round(one.margin_mm(stack), 9) for stack in (4.7, 2.6, 5.5)] == [0.3, -0.4, -0.5]


def test_room_behind_counts_the_mandrels_head():
    """4.8 x 12 with 4.5 mm beyond, grip 7: 16.5 - 7 = 9.5 mm (ISO 15977, hand-worked)."""
    assert grip.room_behind_mm(4.8, 12, 7) == pytest.approx(9.5)


def test_a_hollow_shank_is_the_difference_of_two_solid_ones():
    """Area of the ring = area of the disc less that of the bore: 18.0956 - 5.7256 = 12.370 mm2 (hand-worked)."""
    assert blind_strength.hollow_shear_n(4.8, 2.7, 1) == pytest.approx(12.370, abs=0.001)
    assert blind_strength.hollow_shear_n(4.8, 0, 180) == pytest.approx(3257.2, abs=0.05)


def test_small_figures_are_taken():
    """Sizes, loads and strengths below 1 are no mistake: a 0.8 mm tube of 0.4 mm bore at 0.9 MPa holds 0.339 N."""
    assert blind_strength.hollow_shear_n(0.8, 0.4, 0.9) == pytest.approx(0.33929, abs=1e-5)
    assert blind_strength.pull_n(0.9, 0.8, 0.5, 0.9) == (0.9, "rivet")
    assert blind_strength.head_for_pull_mm(0.5, 0.4, 0.5) == pytest.approx(0.79577, abs=1e-5)
    assert blind_strength.permitted_n(0.9, 1) == 0.9
    assert blind_strength.bearing_n(2.6, 1, 1, 360) == pytest.approx(2.1 * 360 * 2.6 / 1.25)  # alpha at most 2.1
    assert blind_strength.bearing_n(3, 0.3, 0.3, 0.9) == pytest.approx(3.6 * 0.1**0.5 * 0.9 * 3 * 0.3 / 1.25)
    assert blind_strength.rivets_needed(0.5, 0.2, 0.4, 0.3) == 2
    assert corrosion.current_density_ratio(0.5, 0.25) == 2


def test_a_wider_head_holds_until_the_rivet_gives():
    """Sheet of 0.5 mm and 60 MPa: pi x 8 x 30 = 754 N; a head of 20 mm holds 1885 N, so the rivet's 1800 N counts."""
    assert blind_strength.pull_n(1800, 8, 0.5, 60) == (pytest.approx(753.98, abs=0.01), "sheet")
    assert blind_strength.pull_n(1800, 20, 0.5, 60) == (1800, "rivet")
    wanted = blind_strength.head_for_pull_mm(1100, 0.5, 60)
    assert blind_strength.pull_n(5000, wanted, 0.5, 60)[0] == pytest.approx(1100)


@pytest.mark.parametrize(("loads", "one", "count"), [
    ((6000, 4200), (1500, 600), 7), ((6000, 0), (1500, 600), 4), ((0, 600), (1500, 600), 1),
    ((6001, 1), (1500, 600), 5)])  # fmt: skip
def test_the_larger_count_is_taken(loads, one, count):
    """6000/1500 = 4 and 4200/600 = 7: seven; exactly full needs no further rivet, one newton more does."""
    assert blind_strength.rivets_needed(*loads, *one) == count


@pytest.mark.parametrize("text", ["ISO 15977 - 4x12 - AlA/St - L", "Blind rivet ISO 15977 – 4 × 12 – AlA/St – L",
                                  "din en iso 15977-4X12-ala/st-l", "ISO 15977 4,0x12 L"])  # fmt: skip
def test_spelling_does_not_matter(text):
    """Dashes, blanks, capitals, comma and kind of x do not change what is read."""
    assert blind_designation.read(text) == blind_designation.BlindRivetName("ISO 15977", 4, 12, "AlA/St", "L")


def test_what_is_written_is_read_back():
    """Each tabulated length of each standard survives writing and reading."""
    for standard, level in (("ISO 15977", "H"), ("ISO 15979", "one"), ("ISO 15983", "one")):
        for body in (3, 4.8):
            for one in grip.grip_ranges(standard, body):
                name = blind_designation.BlindRivetName(standard, body, one.length_mm,
                                                        blind.family(standard)["materials"], level)
                assert blind_designation.read(blind_designation.write(name)) == name


@pytest.mark.parametrize(("text", "place"), [
    ("ISO 15977 - 4 12 - L", 14), ("ISO 15977 - 4x12", 16), ("ISO 15983 - 4x12 - L", 19), ("ISO 12345 - 4x12", 0),
    ("ISO 15977 - 4.5x12 - L", 12), ("ISO 15977 - 4x12 - St/St - L", 19), ("4x12", 0), ("", 0),
    ("ISO 15977 - 4x12 - L - 7", 21)])  # fmt: skip
def test_a_bad_name_is_handed_back_with_its_place(text, place):
    """No x, no level, a level too many, an unknown standard, size or pair: the sign is named."""
    with pytest.raises(NotACallOut) as refusal:
        blind_designation.read(text)
    assert refusal.value.place == place, refusal.value


@pytest.mark.parametrize(("text", "place"), [("412", 1), ("4122", 1), ("1-4", 0), ("6-0", 2), ("6-10-2", 0),
                                            ("six eight", 0), ("6", 0), ("", 0), ("6.8", 0)])  # fmt: skip
def test_a_bad_trade_code_is_handed_back(text, place):
    """Ambiguous, unknown or no code at all; the doubtful sign is named."""
    with pytest.raises(NotACallOut) as refusal:
        blind_designation.read_trade_code(text)
    assert refusal.value.place == place
    assert blind_designation.read_trade_code("3-1").grip_in == 0.0625


def test_steel_in_aluminium_and_the_other_way_round():
    """|0.85 - 0.90| = 0.05 V; aluminium is the anode either way; only as the rivet it is the small anode."""
    one, other = corrosion.couple("steel", "aluminium", "harsh"), corrosion.couple("aluminium", "steel", "harsh")
    assert one.difference_v == other.difference_v == 0.05 and one.acceptable and other.acceptable
    assert one.anode == other.anode == "aluminium" and (one.small_anode, other.small_anode) == (False, True)


def test_limits_of_the_index_are_inclusive():
    """Aluminium 2000 (0.75) beside aluminium (0.90): 0.15 V, just allowed in a harsh place; monel (0.30) is not."""
    assert corrosion.couple("aluminium 2000", "aluminium", "harsh").acceptable
    assert not corrosion.couple("monel", "aluminium", "controlled").acceptable
    assert corrosion.couple("lead", "lead").anode == ""


@pytest.mark.parametrize(("call", "said"), [
    (lambda: blind.body_size(4.1), "was the hole given"),
    (lambda: blind.body_size("4"), "must be one number"),
    (lambda: blind.body_size(0.5), "is no nominal diameter"),
    (lambda: blind.judge_hole(30.5, 6.4), "at most 30"),
    (lambda: blind.breaking_loads_n("ISO 15983", 0.5), "is not tabulated"),
    (lambda: blind.breaking_loads_n("ISO 15979", 4, "L"), "has one strength"),
    (lambda: blind.breaking_loads_n("ISO 15983", 6), "is not tabulated"),
    (lambda: blind.breaking_loads_n("ISO 15975", 4), "no loads are tabulated"),
    (lambda: blind.family("ISO 15999"), "nearest"),
    (lambda: blind.hole_before_coating_mm(4, 80), "micrometres"),
    (lambda: blind.mandrel_break_n("ISO 15981", 4), "no row"),
    (lambda: grip.grip_mm(), "at least one"),
    (lambda: grip.grip_mm(1.5, -1), "at least 0"),
    (lambda: grip.grip_mm((1, 5)), "decimal comma"),
    (lambda: grip.grip_range("ISO 15977", 4, 11), "is no length"),
    (lambda: grip.length_for("ISO 15977", 4, 30), "thicker body"),
    (lambda: grip.grip_ranges("ISO 15973", 4), "no grips are tabulated"),
    (lambda: grip.grip_ranges("ISO 15983", 6), "is not made"),
    (lambda: grip.rule_of_thumb_mm(4, 10), "swapped"),
    (lambda: grip.room_behind_mm(4, 10, 11), "reach through"),
    (lambda: blind_strength.hollow_shear_n(2.7, 4.8, 180), "swapped"),
    (lambda: blind_strength.bearing_n(6.5, 1, 1, 360), "2.6 to 6.4"),
    (lambda: blind_strength.bearing_n(2.5, 1, 1, 360), "2.6 to 6.4"),
    (lambda: blind_strength.bearing_n(4, 2, 1, 360), "thinner sheet first"),
    (lambda: blind_strength.permitted_n(1500, 0.5), "divides"),
    (lambda: blind_strength.rivets_needed(0, 0, 1, 1), "above 0"),
    (lambda: blind_strength.rivets_needed(-5, 1, 1, 1), "without a sign"),
    (lambda: corrosion.couple("carbon fibre", "aluminium"), "no row"),
    (lambda: corrosion.allowed_difference_v("wet"), "no row"),
    (lambda: blind_designation.BlindRivetName("ISO 15973", 4.1, 10, "AlA/St"), "no nominal diameter"),
    (lambda: blind_designation.write("ISO 15977"), "BlindRivetName"),
])  # fmt: skip
def test_bad_input_is_refused_with_its_likely_cause(call, said):
    """What cannot be meant is refused, and the message says what was probably meant."""
    with pytest.raises(ValueError, match=said):
        call()
