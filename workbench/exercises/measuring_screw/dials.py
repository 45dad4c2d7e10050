"""Feed screws and their dials: division value, travel, diameter and radius, slack."""

from workbench.exercises.draws import as_round, decimals_of
from workbench.exercises.exercise import Exercise, Misstep, Quantity
from workbench.exercises.measuring_screw.outcomes import DIAL
from workbench.screws.feed import divisions_for_diameter, moved_after_reversal
from workbench.screws.measuring import division_value

# pitches of trapezoidal screws with the dials that give a division of two decimals, two starts each
_FEED_SCREWS = [(1.5, 50), (2, 80), (2, 50), (3, 50), (3, 40), (4, 50), (4, 100), (3, 100), (6, 100), (6, 80), (7, 100)]


def _division(v):
    return float(division_value(v["pitch"], v["dial"], v["starts"]))


def _feed_draws():
    draws = [
        {"pitch": pitch, "starts": 2, "dial": dial, "turns": turns, "line": line}
        for pitch, dial in _FEED_SCREWS
        for turns in range(2, 7)
        for line in (7, 13, 17, 19, 23, 27, 31, 33)
    ]
    draws = as_round(draws, _division, 2)
    return as_round(draws, lambda v: _division(v) * (v["turns"] * v["dial"] + v["line"]), 2)


def _radius_divisions(v):
    return float(divisions_for_diameter(v["before"], v["after"], v["division"], "radius"))


def _diameter_divisions(v):
    return float(divisions_for_diameter(v["before"], v["after"], v["division"], "diameter"))


def _turning_draws(mm_per_mark):
    """Even numbers of divisions, which a slip can halve; no diameter that reads like a number of divisions."""
    draws = [
        {"before": before, "after": round(before - divisions * mm_per_mark * division, 2), "division": division}
        for before in (22.4, 24.6, 27.2, 28.8, 31.4, 33.6, 36.2, 38.8, 42.6)
        for divisions in range(12, 38, 2)
        for division in (0.04, 0.05)
    ]
    return [draw for draw in draws if decimals_of(draw["after"])]


def _radius_draws():
    return _turning_draws(2)


def _diameter_draws():
    draws = [draw for draw in _turning_draws(1) if round(_diameter_divisions(draw)) % 4 == 0]
    return [{**draw, "half": round((draw["before"] - draw["after"]) / 2, 2), "shown": _shown(draw)} for draw in draws]


def _shown(draw):
    """The divisions that the workmate's working comes to: halved where nothing was to be halved."""
    return round(_diameter_divisions(draw)) / 2


def _moved(v):
    return float(moved_after_reversal(v["back"], v["division"], v["slack"]))


def _slack_draws():
    draws = [
        {"back": back, "division": division, "slack": slack}
        for back in (23, 26, 27, 29, 31, 33, 34, 36, 37)
        for division in (0.04, 0.05)
        for slack in (0.08, 0.11, 0.12, 0.13, 0.14, 0.16)
    ]
    return as_round(draws, _moved, 2)


DIVISION = Exercise(
    key="measuring_screw.division",
    asks="The press in the bay has a feed screw. Pitch: {pitch:g} mm. Starts: {starts}. "
    "Its dial has {dial} divisions for one turn. The ram is the part that presses down. "
    "How far does the ram move for one division?",
    answer=Quantity("mm", 0.001, (0.001, 2)),
    draws=_feed_draws,
    right=_division,
    missteps=(
        Misstep(
            "pitch-for-lead",
            lambda v: v["pitch"] / v["dial"],
            "{entry} comes from a turn that moves one pitch.",
            "Count the thread beginnings at the end of the screw. Follow one of them for one turn.",
        ),
        Misstep(
            "starts-divided",
            lambda v: v["pitch"] / v["starts"] / v["dial"],
            "{entry} comes from starts that make the travel shorter.",
            "More starts make a steeper thread. Does a steeper thread move further or less far?",
        ),
        Misstep(
            "division-always-a-hundredth",
            lambda v: 0.01,
            "{entry} comes from the thimble of a measuring screw.",
            "This dial belongs to another screw. Work out one turn first, then share it.",
        ),
        Misstep(
            "divided-the-wrong-way-round",
            lambda v: v["dial"] / (v["pitch"] * v["starts"]),
            "{entry} comes from divisions for one millimetre.",
            "Asked are millimetres for one division. Swap the two numbers in your division.",
        ),
    ),
    hints=(
        "First work out one full turn. It moves one lead: pitch × starts.",
        "Then share one turn among the divisions of the dial.",
        "A similar case: pitch 5 mm, 3 starts, 120 divisions. One turn moves 15 mm. "
        "One division moves 15 ÷ 120 = 0.125 mm.",
    ),
    marks=1,
    outcome=DIAL,
)

TRAVEL = Exercise(
    key="measuring_screw.travel",
    asks="The same press screw: pitch {pitch:g} mm, {starts} starts, {dial} divisions. "
    "You turn it {turns} full turns and {line} divisions, all one way. How far does the ram move?",
    answer=Quantity("mm", 0.01, (0, 200)),
    draws=_feed_draws,
    right=lambda v: v["earlier"] * (v["turns"] * v["dial"] + v["line"]),
    missteps=(
        Misstep(
            "pitch-for-lead",
            lambda v: v["pitch"] * (v["turns"] + v["line"] / v["dial"]),
            "{entry} comes from a screw with one start: a turn then moves one pitch.",
            "Count the thread beginnings again. With each turn every one of them moves on.",
        ),
        Misstep(
            "part-turn-left-out",
            lambda v: v["pitch"] * v["starts"] * v["turns"],
            "{entry} comes from the full turns alone.",
            "Write turns and divisions in two columns. Then add both.",
            keeps=1,
        ),
        Misstep(
            "division-always-a-hundredth",
            lambda v: v["pitch"] * v["starts"] * v["turns"] + v["line"] / 100,
            "{entry} comes from divisions of 0.01 mm each.",
            "Use the value of one division that you worked out just before.",
        ),
        Misstep(
            "starts-divided",
            lambda v: v["pitch"] / v["starts"] * (v["turns"] + v["line"] / v["dial"]),
            "{entry} comes from starts that make the travel shorter.",
            "More starts make a steeper thread. Does a steeper thread move further or less far?",
        ),
    ),
    hints=(
        "Two parts make the travel: full turns, and divisions.",
        "Full turns × lead, plus divisions × value of one division.",
        "A similar case: lead 15 mm, one division 0.125 mm, 1 turn and 8 divisions. "
        "The travel is 15 + 8 × 0.125 = 16.00 mm.",
    ),
    marks=2,
    outcome=DIAL,
    follows=DIVISION,
)

CUT = Exercise(
    key="measuring_screw.cut",
    asks="You turn the cable drum on the lathe. The cross-slide moves the tool towards the work. Its dial says "
    "“radius”, {division:g} mm a division. The drum measures {before:.2f} mm. "
    "It must come down to {after:.2f} mm in one cut. "
    "How many divisions do you feed in?",
    answer=Quantity("divisions", 1, (0, 400)),
    draws=_radius_draws,
    right=_radius_divisions,
    missteps=(
        Misstep(
            "radius-for-diameter",
            lambda v: 2 * _radius_divisions(v),
            "{entry} comes from a tool that takes its movement off one side only.",
            "The work turns round. If the tool moves in by 1 mm, how much smaller is the diameter?",
        ),
        Misstep(
            "halved-twice",
            lambda v: _radius_divisions(v) / 2,
            "{entry} comes from a difference that was halved twice.",
            "Write “dial reads radius” on your sheet. Halve the difference once.",
        ),
        Misstep(
            "division-always-a-hundredth",
            lambda v: _radius_divisions(v) * v["division"] / 0.01,
            "{entry} comes from divisions of 0.01 mm each.",
            "Read the value of one division in the question again.",
        ),
    ),
    hints=(
        "First the difference of the two diameters. Half of it comes off each side.",
        "The dial counts what the tool moves. Divide the tool movement by the value of one division.",
        "A similar case: 50.00 mm down to 49.00 mm, 0.02 mm a division. "
        "The tool moves 0.50 mm. That is 0.50 ÷ 0.02 = 25 divisions.",
    ),
    marks=2,
    outcome=DIAL,
)

REPAIR = Exercise(
    key="measuring_screw.repair",
    asks="Find the mistake. On another lathe the dial says “diameter”: one division takes {division:g} mm off the "
    "diameter. A workmate wants to go from {before:.2f} mm to {after:.2f} mm. He writes:\n"
    "1. Half the difference: {half:.2f} mm.\n"
    "2. One division: {division:g} mm.\n"
    "3. {half:.2f} ÷ {division:g} = {shown:g} divisions.\n"
    "He feeds in {shown:g} divisions, and the part comes out too large.\n\n"
    "How many divisions should he have fed in, from {before:.2f} mm?",
    answer=Quantity("divisions", 1, (0, 400)),
    draws=_diameter_draws,
    right=_diameter_divisions,
    missteps=(
        Misstep(
            "mistake-kept",
            _shown,
            "{entry} comes from the working as it stands.",
            "The part came out too large. Look at line 1 and at the word on the dial.",
        ),
        Misstep(
            "halved-twice",
            lambda v: _shown(v) / 2,
            "{entry} comes from a difference that is halved twice.",
            "He fed in too little. Should the number grow or shrink?",
        ),
        Misstep(
            "doubled-twice",
            lambda v: 2 * _diameter_divisions(v),
            "{entry} comes from a difference that is doubled.",
            "Check yours: divisions × value of one division must give the whole difference of the diameters.",
        ),
        Misstep(
            "division-always-a-hundredth",
            lambda v: _diameter_divisions(v) * v["division"] / 0.01,
            "{entry} comes from divisions of 0.01 mm each.",
            "Line 2 of the working is sound. Use its value.",
        ),
    ),
    hints=(
        "“Reads radius” and “reads diameter” are two kinds of dial. Which kind is this?",
        "A dial that reads diameter has halved already. Use the whole difference.",
        "A similar case: 50.00 mm down to 49.00 mm, dial reads diameter, 0.02 mm a division. "
        "That is 1.00 ÷ 0.02 = 50 divisions.",
    ),
    marks=2,
    outcome=DIAL,
)

SLACK = Exercise(
    key="measuring_screw.slack",
    asks="You have fed a slide too far and turn the dial back by {back} divisions. "
    "One division is {division:g} mm. Screw and nut have {slack:.2f} mm of slack: that much turning moves nothing. "
    "How far does the slide move back?",
    answer=Quantity("mm", 0.01, (0, 20)),
    draws=_slack_draws,
    right=_moved,
    missteps=(
        Misstep(
            "slack-left-out",
            lambda v: v["back"] * v["division"],
            "{entry} comes from a screw without slack.",
            "Watch the slide, not the dial. When does it begin to move?",
        ),
        Misstep(
            "slack-added",
            lambda v: v["back"] * v["division"] + v["slack"],
            "{entry} comes from slack that makes the movement longer.",
            "The first part of the turn moves nothing. Does the slide then go further, or less far?",
        ),
        Misstep(
            "slack-taken-twice",
            lambda v: v["back"] * v["division"] - 2 * v["slack"],
            "{entry} comes from slack that is taken off twice.",
            "You changed direction once. How often is the slack used up?",
        ),
        Misstep(
            "division-always-a-hundredth",
            lambda v: v["back"] / 100 - v["slack"],
            "{entry} comes from divisions of 0.01 mm each.",
            "Read the value of one division in the question again.",
        ),
    ),
    hints=(
        "First work out what the dial shows: divisions × value of one division.",
        "Then take off the part of the turn that moved nothing.",
        "A similar case: 20 divisions of 0.02 mm, slack 0.15 mm. The slide moves 0.40 − 0.15 = 0.25 mm.",
    ),
    marks=1,
    outcome=DIAL,
)
