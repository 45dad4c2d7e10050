"""The panels of the measuring-screw lesson: prediction first, then the screw moves."""

import subprocess
import sys
from importlib.resources import files

import pytest

from workbench.panels import PANELS, open_panel

PREDICTIONS = {"measuring_screw": "0,65 mm", "first_fit": "b", "measuring_screw_board": "0.04", "call_out": "30",
               "thread_forms": "300 N", "thread_zones": "30 µm", "three_wires": "0.1 mm", "rivet_row": "c",
               "joint_diagram": "32 kN", "torque_scatter": "1.2", "slotted_nut": "60°", "inclined_thread": "4",
               "nut_halves": "0.1 mm", "rivet_selection": "5 mm", "rivet_clock": "40", "pin_stack": "34.5 mm",
               "batch_plan": "80", "blind_rivet_setting": "below", "break_even": "500"}
TYPED = {"call_out": "M10x1.25x40", "size": "M12"}  # what a reader may type into a field for words


def another(panel, control):
    """A value of the control that differs from the present one, as typed."""
    if "options" in control:
        return next(option for option in control["options"] if option != panel.values[control["name"]])
    if "step" not in control:
        return TYPED[control["name"]]
    return str(panel.values[control["name"]] + control["step"])


def end(control, place):
    """The lowest or the highest value of a control."""
    if "options" in control:
        return control["options"][0 if place == "low" else -1]
    return control[place] if "step" in control else TYPED[control["name"]]


def shown(panel):
    return {label: text for label, text in panel.result}


@pytest.mark.parametrize("name", PANELS)
def test_each_control_moves_the_picture(name):
    """After the prediction each control changes the picture; no move ends in a fault."""
    for place in range(len(open_panel(name).controls)):
        panel = open_panel(name)
        assert not panel.picture
        panel.commit(PREDICTIONS[name])
        assert not panel.locked and panel.picture.startswith(b"\x89PNG") and panel.alternative
        if name == "measuring_screw_board":
            panel.type_in("turned", "10")
        control, before = panel.controls[place], panel.picture
        panel.type_in(control["name"], another(panel, control))
        assert panel.picture != before, control["name"]
        assert not panel.fault and not panel.message.startswith("This panel has a fault")
    panel.reset()
    assert panel.locked and not panel.picture


@pytest.mark.parametrize("name", PANELS)
def test_each_end_of_each_control_is_safe(name):
    """At both ends of each control the panel draws or refuses with a reason."""
    for place in ("low", "high"):
        panel = open_panel(name)
        panel.commit(PREDICTIONS[name])
        for control in panel.controls:
            panel.type_in(control["name"], str(end(control, place)))
            assert not panel.fault
            assert panel.values[control["name"]] == end(control, place) or panel.message


@pytest.mark.parametrize("name", PANELS)
def test_junk_is_no_prediction(name):
    """A prediction that is no number (or no bush) is handed back, and nothing is drawn."""
    for junk in ("", "well", "1;2", "x" * 10_000):
        panel = open_panel(name)
        panel.commit(junk)
        assert panel.locked and panel.message and not panel.fault and not panel.picture


def test_sixty_five_divisions_open_by_0_65():
    """65 divisions of 0.01 mm (0.5 mm / 50, hand-worked) open 7.20 mm to 7.85 mm; the prediction stands beside it."""
    panel = open_panel("measuring_screw")
    panel.commit("1.30 mm")
    panel.type_in("turns", "1")
    panel.type_in("divisions", "15")
    lines = shown(panel)
    assert lines["You said, for 65 divisions"] == "1.3 mm"
    assert lines["The screw says, for 65 divisions"] == "+0.65 mm"
    assert lines["Reading"] == "7.85 mm"
    assert "you said 1.3 mm, the screw says 0.65 mm" in panel.message
    panel.type_in("turns", "-12")
    panel.type_in("divisions", "-49")
    assert shown(panel)["Reading"] == "0.71 mm"


def test_past_the_asked_setting_the_way_back_is_told_once():
    """68 divisions are 3 past 65; once 65 was set, other settings need no word, until a new beginning."""
    panel = open_panel("measuring_screw")
    panel.commit("0.65 mm")
    panel.type_in("turns", "1")
    assert panel.message == "Turn on until 65 divisions are turned."
    panel.type_in("divisions", "18")
    assert "turn back by 3." in panel.message and not panel.why
    panel.type_in("divisions", "15")
    assert "you said 0.65 mm" in panel.message
    panel.type_in("divisions", "18")
    assert panel.message == "" and "68/50" in panel.why
    panel.reset()
    panel.commit("0.65 mm")
    assert panel.message == "Turn on until 65 divisions are turned." and not panel.why


def test_first_fit_is_felt_read_and_chosen():
    """Closed by 1.13 mm from 13.50 mm the screw touches the pin of 12.37 mm; a bore of 12.40 mm leaves 0.03 mm."""
    panel = open_panel("first_fit")
    panel.commit("A")
    assert shown(panel)["Feel"] == "free" and "reading" not in panel.message.lower()
    panel.type_in("turns", "2")
    panel.type_in("divisions", "13")
    lines = shown(panel)
    assert lines["Feel"] == "touching" and lines["Sleeve + thimble"].endswith("12.37 mm")
    assert lines["Bush B, 12.40 mm"] == "fits, 0.03 mm of play"
    assert lines["Bush A, 12.30 mm"] == "too tight by 0.07 mm"
    assert "you said A" in panel.message
    panel.type_in("divisions", "14")
    assert shown(panel)["Feel"] == "squeezing"
    panel.type_in("divisions", "17")
    assert "meets the pin" in panel.message and panel.values["divisions"] == 14
    assert shown(panel)["Feel"] == "squeezing" and panel.message.endswith("stays where it was, squeezing the pin.")


def test_first_fit_shows_as_many_cards_before_as_after_touching():
    """What is shown when the pin touches pushes nothing down; before, the cards do not tell."""
    panel = open_panel("first_fit")
    panel.commit("A")
    before = shown(panel)
    assert before["Sleeve + thimble"] == before["Bush B, 12.40 mm"] == "when it touches"
    panel.type_in("turns", "2")
    panel.type_in("divisions", "40")
    assert panel.message.endswith("stays where it was, with the pin still loose.")
    panel.type_in("divisions", "13")
    assert list(shown(panel)) == list(before)


def test_explore_board_gives_the_formula_with_present_numbers():
    """Two starts double the travel of a division (lead = starts x pitch); "why" carries the numbers set."""
    panel = open_panel("measuring_screw_board")
    panel.commit("0.02")
    assert shown(panel)["One division now"] == "0.02 mm"
    panel.type_in("starts", "2")
    assert shown(panel)["One division now"] == "0.04 mm"
    assert "2 mm × 2 ÷ 100 = 0.04 mm" in panel.why
    assert "One division is worth 0.04 mm" in panel.alternative
    panel.type_in("turned", "800")
    panel.type_in("pitch_mm", "6")
    assert "its slide ends at 48 mm" in panel.message and panel.values["pitch_mm"] == 2
    assert "stands at 32.000 mm" in panel.alternative  # 8 turns x 2 starts x 2 mm


def test_explore_board_lets_the_surprise_be_found():
    """That starts make it coarser is said only after starts were changed; then the prediction is met again."""
    panel = open_panel("measuring_screw_board")
    panel.commit("0.01")
    panel.type_in("pitch_mm", "1")
    assert "coarser" not in panel.why + panel.message and "Set 2 starts" in panel.message
    panel.type_in("pitch_mm", "2")
    panel.type_in("starts", "2")
    assert "coarser" in panel.why and panel.message == "Two starts: you said 0.01 mm, it is 0.04 mm."
    panel.type_in("starts", "1")
    assert "coarser" in panel.why and panel.message == ""
    panel.reset()
    panel.commit("0.01")
    assert "coarser" not in panel.why


def test_a_buttress_thread_pushes_outward_one_way_only():
    """1000 N push a nut outward with 1000 tan 3° = 52 N over the load flank, 577 N over the other (hand-worked)."""
    panel = open_panel("thread_forms")
    panel.commit("300 N")
    assert shown(panel)["Outward push of 1000 N"] == "577 N, 57.7 %"
    assert shown(panel)["Depth of engagement H₁"] == "2.165 mm"  # 0.541266 P, ISO 68-1
    panel.type_in("form", "Buttress 3°/30°")
    assert shown(panel)["Outward push of 1000 N"] == "52 N, 5.2 %" and "You said 300 N" in panel.message
    assert "tan 3° = 52 N" in panel.why
    panel.type_in("load", "to the left")
    assert shown(panel)["Outward push of 1000 N"] == "577 N, 57.7 %" and "one way only" in panel.message
    panel.type_in("starts", "3")
    assert shown(panel)["Lead"] == "12 mm" and shown(panel)["Lead angle"] == "12.66°"  # tan = 12 / (17 pi)
    panel.type_in("form", "square")
    assert shown(panel)["Outward push of 1000 N"] == "0 N, 0.0 %"
    panel.type_in("form", "Whitworth")
    assert "not in the list" in panel.message and panel.values["form"] == "square"


def test_call_out_is_explained_field_by_field():
    """M8 has the coarse pitch 1.25 mm (ISO 261), 30 is its length; the prediction stands beside it."""
    panel = open_panel("call_out")
    panel.commit("30")
    assert shown(panel)["Pitch"] == "1.25 mm" and "you said 30 mm" in panel.message
    assert "length “50”" in panel.why and "pitch: left out" in panel.why and "in brackets" in panel.why
    panel.type_in("call_out", "1/4-20 UNC-2A")
    assert shown(panel)["Pitch"] == "1.27 mm" and "class of the screw “2A”" in panel.why
    assert "in brackets" not in panel.why


@pytest.mark.parametrize(("typed", "place"), [("M6xx1", "sign 4: “M6x▸x1”"), ("M6x", "after the last sign"),
                                              ("", "at the very beginning"), ("Z9", "sign 1: “▸Z9”")])
def test_malformed_call_out_is_refused_with_its_place(typed, place):
    """A call-out that cannot be read leaves the drawing, and the message points at the sign."""
    panel = open_panel("call_out")
    panel.commit("1.25")
    before = panel.picture
    panel.type_in("call_out", typed)
    assert place in panel.message and panel.picture == before and panel.values["call_out"] == "M8x50"
    assert not panel.fault


def test_zones_give_least_and_greatest_clearance():
    """M10 6H/6g: 9.206 - 8.862 = 0.344 mm at most, 9.026 - 8.994 = 0.032 mm at least (limits of ISO 965-2)."""
    panel = open_panel("thread_zones")
    panel.commit("30 µm")
    assert shown(panel)["Greatest clearance"] == "344 µm" and shown(panel)["Least clearance"] == "32 µm"
    assert "You said 30 µm" in panel.message
    panel.type_in("screw", "6h")
    assert shown(panel)["Least clearance"] == "0 µm" and "no play" in panel.message


@pytest.mark.parametrize(("name", "typed", "reason"), [
    ("size", "M1", "6H is not given by ISO 965-1"), ("size", "M10x3", "no pitch of M10"),
    ("size", "1/4-20 UNC", "no metric thread"), ("size", "", "nothing to read"), ("nut", "9H", "not in the list"),
])
def test_pairs_that_the_standard_does_not_give_are_refused(name, typed, reason):
    """Neither a class nor a size outside the standard is drawn; the message says what there is."""
    panel = open_panel("thread_zones")
    panel.commit("30 µm")
    before = panel.picture
    panel.type_in(name, typed)
    assert reason in panel.message and panel.picture == before and not panel.fault


def test_a_thicker_wire_lifts_the_reading_three_times():
    """M10 x 1.5 over best wires reads 9.026 + 3 W - 0.86603 P (workshop texts); 0.1 mm more wire adds 0.3 mm."""
    panel = open_panel("three_wires")
    panel.commit("0.1 mm")
    assert shown(panel)["Measurement over wires M"] == "10.325 mm"
    assert shown(panel)["Contact, from the pitch line"] == "on it" and "at the pitch line" in panel.alternative
    panel.type_in("thicker_mm", "0,1")
    lines = shown(panel)
    assert lines["Measurement over wires M"] == "10.625 mm" and lines["Wire W"] == "0.966 mm"
    assert "You said 0.1 mm, the reading grows by 0.30 mm: three times" in panel.message
    # rise of the centre 0.1 mm (half of 0.1 x 1/sin 30°), contact half a radius lower: 0.1 - 0.025 = 0.075
    assert lines["Contact, from the pitch line"] == "+0.075 mm"
    # the crest lies 7/8 H = 0.7578 P above the sharp bottom: W is 2/3 of it (flush), 4/3 of it (at the crest's edge)
    assert lines["Least to largest wire"] == "0.758 to 1.516 mm" and "M is 10.625 mm" in panel.alternative
    panel.type_in("form", "Acme 29°")
    assert panel.message == "M grows 4.99 times as much as the wire."  # 1 + 1/sin 14.5° = 4.994


@pytest.mark.parametrize(("name", "typed", "reason"), [
    ("form", "square", "no slope to lie on"), ("thicker_mm", "-0.2", "lies below the crests"),
    ("thicker_mm", "2", "touches no flank"), ("pitch_mm", "10", "too coarse"), ("pitch_mm", "6", "too steep"),
    ("thicker_mm", "0.105", "between two steps"), ("pitch_mm", "1.4", "not in the list"),
])
def test_wires_that_cannot_measure_are_refused(name, typed, reason):
    """A form, a wire or a thread that cannot be measured over wires is not drawn; the message says why."""
    panel = open_panel("three_wires")
    panel.commit("0.1")
    before = panel.picture
    panel.type_in(name, typed)
    assert reason in panel.message and panel.picture == before and not panel.fault
    assert not any(word in panel.message for word in ("_mm", "_deg", ".0:"))


def test_the_weakest_failure_of_a_rivet_row_moves_with_the_sizes():
    """Loads of one rivet, by hand: a 4.2 mm hole cut at 207 MPa is 2867.9 N; a strip of 19.8 mm at 440 MPa 8712 N."""
    panel = open_panel("rivet_row")
    panel.commit("c")
    assert shown(panel)["The rivet is cut"] == "2868 N" and shown(panel)["Efficiency"] == "27 %"  # 2867.9 / 10560
    assert shown(panel)["The sheet tears between the holes"] == "8712 N"
    assert "First, the rivet is cut. You said: the sheet tears" in panel.message
    assert shown(panel)["Army manual says"] == "pitch and edge are within its limits; it does not judge strength"
    panel.type_in("edge", "5")  # 2 x (5 - 2.1) x 270
    assert shown(panel)["The edge tears out"] == "1566 N" and "First, the edge tears out." in panel.message
    assert shown(panel)["Army manual says"] == "end distance 5 mm is less than 8 mm (2 D)"
    panel.type_in("edge", "10")
    panel.type_in("thickness", "0.6")  # 4.2 x 0.6 x 890
    assert shown(panel)["The sheet is crushed"] == "2243 N" and "First, the sheet is crushed." in panel.message
    panel.type_in("pitch", "8")  # 3.8 x 0.6 x 440
    assert shown(panel)["The sheet tears between the holes"] == "1003 N" and "You have seen all four." in panel.message


def test_rivets_that_find_no_room_are_refused():
    """A 6 mm rivet has no room in a pitch of 6 mm; the message says so and the picture stays."""
    panel = open_panel("rivet_row")
    panel.commit("A")
    panel.type_in("diameter", "6")
    before = panel.picture
    panel.type_in("pitch", "6")
    assert "Holes of 6.3 mm need more room" in panel.message and panel.picture == before and not panel.fault


def test_the_bolt_feels_little_of_the_load_until_the_joint_opens():
    """M10, grip 40 mm of steel: by hand C = 364/(364 + 1511) = 0.19, so of 8 kN the bolt feels 1.5 kN."""
    panel = open_panel("joint_diagram")
    panel.commit("32 kN")
    lines = shown(panel)
    assert lines["Share of the bolt C"] == "0.19" and lines["Clamp left"] == "17.6 kN"  # 24 - 0.808 x 8
    assert lines["The bolt feels"] == "25.6 kN" and "You said 32 kN" in panel.message
    assert lines["Opens at"] == "29.8 kN"  # 24 / 0.806
    panel.type_in("load", "30")
    assert shown(panel)["Clamp left"] == "none: open" and shown(panel)["The bolt feels"] == "30.0 kN"
    assert "The joint is open" in panel.message
    panel.type_in("load", "45")  # an M10 8.8 bolt yields at 58 mm2 x 640 MPa = 37.1 kN
    assert "yields" in panel.message
    panel.type_in("preload", "38")
    assert "over the yield" in panel.message and panel.values["preload"] == 24


def test_the_same_torque_gives_preloads_far_apart():
    """32 N m on M10, friction 0.08 to 0.16, wrench 4 %: by hand 33.28/1.169 = 28.5 and 30.72/2.099 = 14.6 kN."""
    panel = open_panel("torque_scatter")
    panel.commit("1.2")
    lines = shown(panel)
    assert lines["Slackest screw"] == "14.6 kN" and lines["Tightest screw"] == "28.5 kN"
    assert lines["Tightest ÷ slackest"] == "1.9 times" and "You said 1.2 times, it is 1.9 times." in panel.message
    panel.type_in("torque", "60")
    assert "past 90 % of its yield" in panel.message
    panel.type_in("class", "10.9")
    assert "past 90 %" in panel.message  # 53.4 kN against 0.9 x 58 mm2 x 900 MPa = 47 kN at most
    panel.type_in("torque", "40")
    assert "past 90 %" not in panel.message


def test_a_clamped_nut_yields_long_before_the_next_slot():
    """Six slots, 22° gone past: 38° to go; an M12 joint of 40 mm gains about 1.9 kN a degree (by hand) and yields."""
    panel = open_panel("slotted_nut")
    panel.commit("60°")
    assert "You said 60°, the slots say 38° to the next slot. Now find out" in panel.message
    lines = shown(panel)
    assert lines["Preload now"] == "29.3 kN"  # 0.6 x 580 MPa x 84.3 mm2
    panel.type_in("turn", "10")  # 516 and 1915 kN/mm in a row: 1.75/360 x 406.6 = 1.98 kN a degree
    assert float(shown(panel)["Preload now"].split()[0]) == pytest.approx(29.3 + 19.8, abs=0.9)
    panel.type_in("turn", "38")
    assert "would yield" in panel.message and "change the washer" in panel.message and panel.values["turn"] == 10
    panel.type_in("turn", "-5")
    assert "never backed off" in panel.message


def test_a_hinge_is_eased_back_to_the_slot():
    """Back by 22°: 1.75 mm x 22/360 = 0.107 mm of play; the slot then stands at the hole; tighter is refused."""
    panel = open_panel("slotted_nut")
    panel.commit("38")
    panel.type_in("joint", "turning: hinge or bearing")
    panel.type_in("turn", "-22")
    assert shown(panel)["Slot at the hole"] == "yes" and shown(panel)["Play that it leaves"] == "0.107 mm"
    panel.type_in("turn", "5")
    assert "it binds" in panel.message and panel.values["turn"] == -22


def test_a_hole_must_lie_in_the_middle_of_the_slot():
    """22 + 2.5 + (10 + 15)/2 = 37 mm; room (15 - 10)/2 - 2.9/2 = 1.05 mm (DIN 935-1, ISO 1234, by hand)."""
    panel = open_panel("pin_stack")
    panel.commit("34.5")
    lines = shown(panel)
    assert lines["Middle of the slot"] == "37 mm" and lines["Room each way"] == "1.05 mm"
    panel.type_in("place", "37")
    assert panel.message == "The pin goes in, with every stack within the tolerance."
    panel.type_in("place", "38")
    panel.type_in("tolerance", "0.4")
    assert "not with every stack" in panel.message
    panel.type_in("washers", "0")
    assert "one more washer" in panel.message
    panel.type_in("place", "45")
    assert "breaks out" in panel.message and panel.values["place"] == 38
    panel.type_in("parts", "34")
    panel.type_in("washers", "3")
    assert "longer than the bolt" in panel.message and not panel.fault


def test_a_second_start_lets_the_load_run_back():
    """Tr20x4: lead angles of 4/56.55 and 8/56.55, friction 0.12/cos 15° = 0.1242: 4.05° and 8.05° against 7.08°."""
    panel = open_panel("inclined_thread")
    panel.commit("4")
    lines = shown(panel)
    assert lines["Lead angle, friction angle"] == "4.05°, 7.08°" and lines["Left alone"] == "stays while still"
    assert lines["Hand at 200 mm, to raise"] == "44 N"  # 5000 x tan 11.13° x 9 mm / 200 mm
    panel.type_in("starts", "2")
    assert shown(panel)["Left alone"] == "runs back"
    assert panel.message.startswith("You said 4 starts; it first runs back with 2.")
    assert "positive stop" in panel.message
    panel.type_in("friction", "0.14")  # 8.05° against 8.25°
    assert shown(panel)["Left alone"] == "may creep" and "creep" in panel.message


def test_a_half_nut_takes_up_wear_by_closing():
    """Tr20x4: 0.1 mm of play ÷ (2 tan 15°) = 0.187 mm each half; 1000 N push each latch by 1000 tan 15° / pi = 85 N."""
    panel = open_panel("nut_halves")
    panel.commit("0.1 mm")
    lines = shown(panel)
    assert lines["To take up the wear"] == "each half closes by 0.19 mm"
    assert lines["Latch of each half, 1000 N thrust"] == "85 N"
    panel.type_in("out", "-0.18")  # 0.1 - 0.18 x 0.53590
    assert shown(panel)["Play now"] == "0.004 mm"
    assert "You said 0.1 mm, it is 0.19 mm: the flank leans." in panel.message
    panel.type_in("out", "-0.19")  # the nearest hundredth to 0.187 mm
    assert shown(panel)["Play now"] == "0.000 mm" and "it is 0.19 mm" in panel.message
    panel.type_in("out", "-0.2")
    assert "flanks touch already" in panel.message and panel.values["out"] == -0.19
    panel.type_in("play", "0.3")
    panel.type_in("out", "-0.26")
    assert "Crest and root touch" in panel.message  # crest clearance 0.25 mm, ISO 2901


def test_a_square_thread_lets_no_half_in_that_stands_wrong():
    """A square groove is no wider at its mouth; a trapezoidal one by 1.072 mm: 0.536 and half the play either side."""
    panel = open_panel("nut_halves")
    panel.commit("0.2")
    panel.type_in("out", "2")
    panel.type_in("wrong", "0.55")
    panel.type_in("out", "1.5")
    assert not panel.message.startswith("Crest")
    panel.type_in("out", "3")
    panel.type_in("wrong", "0.6")
    panel.type_in("out", "1.5")
    assert panel.message.startswith("Crest stands on crest: 0.6 mm wrong is more than 0.59 mm")
    panel.type_in("form", "square")
    panel.type_in("wrong", "0.1")
    panel.type_in("out", "1")
    assert panel.message.startswith("Crest stands on crest: 0.1 mm wrong is more than 0.05 mm")
    assert shown(panel)["To take up the wear"] == "not by closing" and not panel.fault


def test_a_rivet_is_chosen_and_every_other_refused():
    """Grip 2.6 + 1.5 x 4 = 8.6 mm (common practice); a flush head in 1 mm sheet is dimpled; one side: none."""
    panel = open_panel("rivet_selection")
    panel.commit("5 mm")
    assert "You said 5 mm. 2.6 + 1.5 × 4 = 8.6 mm" in panel.message
    assert shown(panel)["Rivet"] == "4 × 8 mm under the head"
    assert "more than 3 × 1.6 mm" in panel.why and "must be heat treated" in panel.why
    panel.type_in("needs", "head must be flush")
    assert shown(panel)["Hole"].endswith("dimple") and shown(panel)["Rivet"].endswith("over all")
    panel.type_in("needs", "one side only")
    assert "blind rivet" in panel.message and panel.values["needs"] == "head must be flush"
    panel.type_in("needs", "head may stand up")
    panel.type_in("upper", "4")
    panel.type_in("lower", "0.5")  # 3 x 0.5 mm is less than the 4 mm sheet asks for
    assert panel.message.startswith("No solid rivet") and not panel.fault


def test_the_cold_gives_no_minute_back():
    """20 minutes warm (Navy manuals), 6 gone before the store, out at 00:20: the last rivet at 00:34."""
    panel = open_panel("rivet_clock")
    panel.commit("40 min")
    assert "You said minute 40; the last rivet is driven by 00:34" in panel.message
    panel.type_in("pointer", "34")
    assert shown(panel)["At the pointer"] == "00:34: yours is usable" and shown(panel)["Left to drive"] == "0 min"
    panel.type_in("pointer", "35")
    assert shown(panel)["At the pointer"] == "00:35: yours is doubtful"  # a handbook would allow an hour
    panel.type_in("pointer", "75")  # 00:20 and 54 minutes: the hour is over
    assert shown(panel)["At the pointer"] == "01:15: yours is hard"
    panel.type_in("document", "handbook")
    assert "no hours for its store" in panel.message
    panel.type_in("warm", "30")
    panel.type_in("out", "10")
    assert "runs backwards" in panel.message and panel.values["out"] == 20 and not panel.fault


def test_as_many_batches_leave_more_or_less_over():
    """450 rivets: 200 + 130 + 130 leave 10, three of 200 leave 150 (by hand); a short life wastes more."""
    panel = open_panel("batch_plan")
    panel.commit("80")
    lines = shown(panel)
    assert lines["Least left over"] == "10, with 3 batches" and lines["Needed"] == "450 rivets"
    assert lines["Larger basket alone"] == "3 batches, 150 left over"
    assert panel.message.startswith("You said 80; the plan leaves 10.")
    panel.type_in("life", "3")
    assert shown(panel)["Least left over"] == "70, with 4 batches"  # 4 x 130 - 450
    assert panel.message.startswith("Another number of batches, and fewer left over")
    panel.type_in("life", "12")
    panel.type_in("small", "50")
    panel.type_in("large", "70")
    panel.type_in("rate", "120")  # 900 rivets: more than ten runs of 70
    assert "some would be short" in panel.message and panel.values["rate"] == 60 and not panel.fault


def test_unknown_panel_names_the_nearest():
    """A wrongly typed name is answered with the nearest names."""
    with pytest.raises(ValueError, match="first_fit"):
        open_panel("frist_fit")
    with pytest.raises(ValueError, match="measuring_screw"):
        open_panel(["measuring"])


def test_nothing_is_drawn_before_the_prediction():
    """Opening all panels loads no matplotlib: a marking run pays for no picture."""
    code = ("import sys; from workbench.panels import PANELS, open_panel; boards = [open_panel(n) for n in PANELS]; "
            "assert 'matplotlib' not in sys.modules; boards[0].commit('A'); assert 'matplotlib' in sys.modules")
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True)
    assert done.returncode == 0, done.stderr


def test_browser_side_lies_beside_the_module():
    """Script and style are files of the package."""
    for name in ("board.js", "board.css"):
        assert files("workbench.panels").joinpath(name).read_text()
