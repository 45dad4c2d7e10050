"""The two panels of the blind-rivet lesson: predict, then pull; predict, then move the cost lines."""

import pytest

from workbench.panels import open_panel


def shown(panel):
    return {label: text for label, text in panel.result}


@pytest.fixture
def setting():
    panel = open_panel("blind_rivet_setting")
    panel.commit("Flush")
    return panel


def test_the_stages_follow_each_other(setting):
    """Pushed in, tail, hole, pin: the stages come in this order; the pin is whole until the last."""
    seen = []
    for pulled in range(0, 101, 5):
        setting.type_in("pulled", str(pulled))
        stage = shown(setting)["Stage"]
        seen += [stage] if stage not in seen else []
        assert (shown(setting)["Pin"] == "whole") == (pulled < 100)
    assert seen == ["1: pushed in", "2: tail grows", "3: hole fills", "4: pin broken"]


def test_the_prediction_is_met_at_the_asked_stack(setting):
    """In the thicker stack the pin ends below the head; at the least grip of 5 mm (ISO 15977) it is flush."""
    setting.type_in("pulled", "100")
    assert setting.message.startswith("You said: flush. The pin ends 0.") and setting.message.endswith("mm below.")
    setting.type_in("stack", "5")
    assert shown(setting)["Pin"] == "flush"


def test_the_metal_is_the_same_before_and_after(setting):
    """The why line prints one volume twice, in each stage."""
    for pulled in ("0", "50", "100"):
        setting.type_in("pulled", pulled)
        line = setting.why.split("\n")[0]
        before, now = line.split(", now: ")
        assert before.rsplit(": ", 1)[1] == now.removesuffix(".")


@pytest.mark.parametrize(("name", "typed", "reason"), [
    ("stack", "4.9", "Too thin"), ("stack", "6.6", "Too thick"), ("rivet", "4 × 12", "must be 6.5 to 8.5"),
    ("over", "0.3", "cannot fill")])
def test_out_of_range_is_not_set_and_says_why(setting, name, typed, reason):
    """A stack or hole outside the table leaves the rivet unset, whatever the pull; the way out is open."""
    setting.type_in("rivet", "4 × 10")
    setting.type_in("pulled", "100")
    if name == "rivet":
        setting.type_in("stack", "5.5")
    setting.type_in(name, typed)
    assert setting.message.startswith("Not set.") and reason in setting.message
    assert shown(setting)["Stage"] == "not set" and shown(setting)["Pin"] == "whole"
    assert "not yet pulled" in setting.alternative
    setting.type_in("rivet", "4.8 × 16")
    setting.type_in("stack", "9")
    setting.type_in("over", "0.1")
    assert shown(setting)["Stage"] == "4: pin broken"


def test_what_does_not_go_in_is_refused(setting):
    """A hole under D + 0.1, and a stack thicker than the body: the picture stays as it was."""
    before = setting.picture
    setting.type_in("over", "0.05")
    assert "will not enter" in setting.message and setting.picture == before
    setting.type_in("stack", "12")
    assert "does not reach through" in setting.message and setting.picture == before and not setting.fault


def test_a_saving_of_cents_needs_thousands_of_rivets():
    """8 s x 40/3600 = 8.89 cents; (500 - 30)/0.0889 = 5287.5 (hand-worked); two workers: 470/0.28889 = 1626.9."""
    panel = open_panel("break_even")
    panel.commit("500")
    assert shown(panel)["Air tool pays from"] == "5288 rivets" and "8.9 cents" in panel.message
    panel.type_in("workers", "solid rivet, two")
    assert shown(panel)["Air tool pays from"] == "1627 rivets"
    assert shown(panel)["2000: hand tool, air tool"] == "990, 882 francs"  # 30 + 2000 x 0.48; 500 + 2000 x 0.1911


def test_no_saving_no_crossing():
    """At 18 s both ways cost the same to set, at 20 s the air tool never pays; at 17 s only far outside."""
    panel = open_panel("break_even")
    panel.commit("500")
    for seconds, said in (("18", "side by side"), ("20", "hand tool is always the cheaper"),
                          ("17", "outside the picture")):  # fmt: skip
        panel.type_in("seconds", seconds)
        assert said in panel.message and not panel.fault
