"""Classes: where the zone of a thread lies and how wide it is, and what the figures on a head promise."""

from dataclasses import replace

from workbench.exercises.draws import as_round
from workbench.exercises.exercise import Designation, Exercise, Misstep, Quantity
from workbench.exercises.reading_a_callout.decoding import thread
from workbench.exercises.reading_a_callout.outcomes import CLASSES
from workbench.tables import table
from workbench.threads.designation import coarse_pitch_mm
from workbench.threads.limits_metric import metric_limits
from workbench.threads.property_classes import nominal_mpa

_METRIC = [row for row in table("iso_261_metric").rows.values() if row["iso_262"] and 3 <= row["diameter_mm"] <= 39]
_BEGINS = {"g": "a little below nominal", "e": "well below nominal"}
_GRADES = ((5, 6, "g"), (7, 6, "g"), (6, 8, "g"), (7, 8, "g"), (5, 6, "e"), (7, 6, "e"))  # nut, screw, letter


def _pair(v):
    return thread(v["size"], v["pitch"], f"-{v['nut']}H/{v['screw']}{v['letter']}")


def _pair_draws():
    return [
        {"size": row["diameter_mm"], "pitch": row["pitch_mm"], "nut": nut, "screw": screw, "letter": letter,
         "begins": _BEGINS[letter]}
        for row in _METRIC
        if row["series"] == "fine"
        for nut, screw, letter in _GRADES
    ]  # fmt: skip


def _sizes(grade):
    """Threads with the place and width of the zone over the crests, for one class of screw."""
    for row in _METRIC:
        try:
            crest = metric_limits(row["diameter_mm"], row["pitch_mm"], grade).major
        except ValueError:  # the standard gives this pitch no such class
            continue
        below = round(row["diameter_mm"] - crest.high, 3)
        yield {"size": row["diameter_mm"], "pitch": row["pitch_mm"], "screw": grade, "below": below,
               "width": round(crest.high - crest.low, 3)}  # fmt: skip


def _least(v):
    return v["size"] - v["below"] - v["width"]


def _least_draws():
    draws = [draw for grade in ("6g", "6e", "8g") for draw in _sizes(grade)]
    return as_round(draws, lambda v: round(_least(v), 3), 3)


def _inside(v):
    """How far the screw lies inside its nearer limit, the upper one."""
    return v["size"] - v["below"] - v["measured"]


def _repair_draws():
    """The screw lies in the upper part of its zone for everybody; the workmate's figure is printed."""
    draws = []
    for draw in _sizes("6g"):
        for share in (0.22, 0.31, 0.41):
            measured = round(draw["size"] - draw["below"] - share * draw["width"], 3)
            draws.append({**draw, "measured": measured, "under": round(draw["size"] - measured, 3)})
    return as_round(as_round(draws, lambda v: round(_inside(v), 3), 3), lambda v: v["under"], 3)


def _load(v, mpa):
    return v["area"] * mpa / 1000


def _yield_load(v):
    return _load(v, nominal_mpa(v["property_class"])[1])


def _parts(v):
    return (int(part) for part in v["property_class"].split("."))


def _load_draws():
    draws = [
        {"thread": row["thread"].split("x")[0], "property_class": f"{row['property_class']:.1f}",
         "area": row["stress_area_mm2"]}
        for row in table("iso_898_1_loads_coarse").rows.values()
        if row["stress_area_mm2"] >= 20 and row["thread"].split("x")[0] in ("M6", "M8", "M10", "M12", "M14", "M16")
    ]  # fmt: skip
    return as_round(draws, lambda v: round(_yield_load(v), 1), 1)


PAIR = Exercise(
    key="reading_a_callout.pair",
    asks="Write one call-out for a nut and its screw. Thread: M{size:g}, pitch {pitch:g} mm.\n"
    "Nut: grade {nut}, its zone begins at nominal.\nScrew: grade {screw}, its zone begins {begins}.\n\n"
    "Places of the zone, all written large here: E well away from nominal, G a little away, H at nominal. "
    "You decide which letter must be small.",
    answer=Designation(also=("screw_class", "nut_class")),
    draws=_pair_draws,
    right=_pair,
    missteps=(
        Misstep(
            "grades-swapped",
            lambda v: thread(v["size"], v["pitch"], f"-{v['screw']}H/{v['nut']}{v['letter']}"),
            "{entry} agrees with grades that have changed places.",
            "The nut stands before the stroke. Which grade is the nut's?",
            keeps=1,
        ),
        Misstep(
            "letters-swapped",
            lambda v: thread(v["size"], v["pitch"], f"-{v['nut']}{v['letter'].upper()}/{v['screw']}h"),
            "{entry} agrees with a nut away from nominal and a screw at nominal.",
            "Read again which of the two begins at nominal.",
            keeps=1,
        ),
        Misstep(
            "screw-class-alone",
            lambda v: thread(v["size"], v["pitch"], f"-{v['screw']}{v['letter']}"),
            "{entry} agrees with the screw alone.",
            "A pair has two classes with a stroke between them.",
        ),
        Misstep(
            "nut-class-alone",
            lambda v: thread(v["size"], v["pitch"], f"-{v['nut']}H"),
            "{entry} agrees with the nut alone.",
            "A pair has two classes with a stroke between them.",
        ),
        Misstep(
            "fine-pitch-left-out",
            lambda v: thread(v["size"], coarse_pitch_mm(v["size"]), f"-{v['nut']}H/{v['screw']}{v['letter']}"),
            "{entry} has the coarse pitch: it counts where no pitch is written.",
            "Compare the pitch in the question with your call-out.",
            keeps=1,
        ),
        Misstep(
            "both-letters-capital",
            lambda v: replace(_pair(v), screw_class=f"{v['screw']}{v['letter'].upper()}"),
            "{entry} has two capital letters: that is two nuts.",
            "Which of the two letters belongs to the screw? How is a screw's letter written?",
            keeps=1,
        ),
        Misstep(
            "both-letters-small",
            lambda v: replace(_pair(v), nut_class=f"{v['nut']}h"),
            "{entry} has two small letters: that is two screws.",
            "Which of the two letters belongs to the nut? How is a nut's letter written?",
            keeps=1,
        ),
        Misstep(
            "other-small-letter",
            lambda v: thread(v["size"], v["pitch"], f"-{v['nut']}H/{v['screw']}{'e' if v['letter'] == 'g' else 'g'}"),
            "{entry} has a small letter whose zone begins elsewhere.",
            "Compare “a little” and “well” in the question with the letters.",
            keeps=1,
        ),
    ),
    hints=(
        "A class is a grade and a letter. Capital letter: the nut. Small letter: the screw.",
        "Order: thread, dash, class of the nut, stroke, class of the screw.",
        "A similar case: M8×1, nut grade 4 at nominal, screw grade 4 at nominal. The call-out is M8×1-4H/4h.",
    ),
    marks=2,
    outcome=CLASSES,
)

LEAST = Exercise(
    key="reading_a_callout.least",
    asks="A screw is called out M{size:g}×{pitch:g}-{screw}. The letter sets the top of the zone {below:.3f} mm below "
    "nominal. The grade makes the zone {width:.3f} mm wide, measured over the crests. "
    "What is the smallest size over the crests that passes?",
    answer=Quantity("mm", 0.001, (1, 60)),
    draws=_least_draws,
    right=_least,
    missteps=(
        Misstep(
            "allowance-forgotten",
            lambda v: v["size"] - v["width"],
            "{entry} agrees with a zone that begins at nominal.",
            "What does the letter say about the top of the zone?",
        ),
        Misstep(
            "zone-laid-half-each-side",
            lambda v: v["size"] - v["width"] / 2,
            "{entry} agrees with a zone that lies half above and half below nominal.",
            "Draw the nominal line and the zone. The whole zone lies below the line.",
        ),
        Misstep(
            "largest-size-given",
            lambda v: v["size"] - v["below"],
            "{entry} agrees with the largest size that passes.",
            "That is the top of the zone. How far below it is the bottom?",
            keeps=1,
        ),
        Misstep(
            "allowance-put-on",
            lambda v: v["size"] + v["below"] - v["width"],
            "{entry} agrees with a zone that begins above nominal.",
            "A screw must go into its nut. Does the letter make it larger or smaller?",
        ),
        Misstep(
            "width-put-on",
            lambda v: v["size"] - v["below"] + v["width"],
            "{entry} agrees with a width that is added to the top of the zone.",
            "The smallest size lies at the bottom. Does the zone go down or up from its top?",
        ),
        Misstep(
            "zone-laid-above",
            lambda v: v["size"] + v["below"] + v["width"],
            "{entry} agrees with a zone that lies above nominal, as for a nut.",
            "Is the letter of the class small or capital?",
        ),
    ),
    hints=(
        "Draw the nominal size as a line. Go down to the top of the zone, then down to its bottom.",
        "Smallest size = nominal − place of the zone − width.",
        "A similar case: M2×0.4-6g, top 0.019 mm below nominal, width 0.095 mm. "
        "The smallest size is 2 − 0.019 − 0.095 = 1.886 mm.",
    ),
    marks=2,
    outcome=CLASSES,
)

REPAIR = Exercise(
    key="reading_a_callout.repair",
    asks="Find the mistake. A screw M{size:g}×{pitch:g}-6g measures {measured:.3f} mm over the crests. "
    "For 6g the zone begins {below:.3f} mm below nominal and is {width:.3f} mm wide. A workmate writes:\n"
    "1. Nominal size: {size:.3f} mm.\n"
    "2. {size:.3f} − {measured:.3f} = {under:.3f} mm.\n"
    "3. Too small by {under:.3f} mm: scrap.\n\n"
    "The screw is good. How far does it lie inside the nearer limit?",
    answer=Quantity("mm", 0.001, (0, 2)),
    draws=_repair_draws,
    right=_inside,
    missteps=(
        Misstep(
            "judged-against-nominal",
            lambda v: v["under"],
            "{entry} agrees with the working as it stands.",
            "Line 1 is the slip. Which two limits does 6g set?",
        ),
        Misstep(
            "farther-limit-taken",
            lambda v: v["width"] - _inside(v),
            "{entry} agrees with the way to the lower limit.",
            "Work out both limits. Which of them is nearer?",
            keeps=1,
        ),
        Misstep(
            "allowance-put-on",
            lambda v: v["size"] + v["below"] - v["measured"],
            "{entry} agrees with a zone that begins above nominal.",
            "A screw must go into its nut. Does the letter make it larger or smaller?",
        ),
        Misstep(
            "zone-laid-half-each-side",
            lambda v: v["measured"] - v["size"] + v["width"] / 2,
            "{entry} agrees with a zone that lies half above and half below nominal.",
            "Draw the nominal line. The whole zone of 6g lies below it.",
        ),
    ),
    hints=(
        "Work out the upper limit: nominal − place of the zone.",
        "Then the lower limit: upper limit − width. How far is the screw from each?",
        "A similar case: M2×0.4-6g measures 1.971 mm. Upper limit 2 − 0.019 = 1.981 mm. "
        "The screw lies 1.981 − 1.971 = 0.010 mm inside.",
    ),
    marks=2,
    outcome=CLASSES,
)

LOAD = Exercise(
    key="reading_a_callout.load",
    asks="A bolt {thread} carries the mark {property_class} on its head. Its stress area is {area:g} mm² (ISO 898-1). "
    "At which pull does it begin to stretch for good, by the figures of its class? 1 kN is 1000 N.",
    answer=Quantity("kN", 0.1, (0.5, 500)),
    draws=_load_draws,
    right=_yield_load,
    missteps=(
        Misstep(
            "strength-taken-for-yield",
            lambda v: _load(v, nominal_mpa(v["property_class"])[0]),
            "{entry} agrees with the pull at which the bolt breaks.",
            "It stretches for good before that. What does the figure after the point say?",
            keeps=1,
        ),
        Misstep(
            "mark-read-as-one-number",
            lambda v: _load(v, float(v["property_class"]) * 100),
            "{entry} agrees with a mark that is read as one number × 100.",
            "The point parts two figures with different meanings. Take them one by one.",
        ),
        Misstep(
            "second-figure-alone",
            lambda v: _load(v, 10 * list(_parts(v))[1]),
            "{entry} agrees with the second figure × 10, in MPa.",
            "The second figure is tenths of the strength. First work out the strength.",
        ),
        Misstep(
            "figures-of-the-worked-class",
            lambda v: None if v["property_class"] == "8.8" else _load(v, 640),
            "{entry} agrees with the figures of the worked bolt.",
            "Read the mark in your question. What do its own two figures say?",
        ),
    ),
    hints=(
        "First figure × 100 is the strength in MPa, that is N for each mm².",
        "Second figure: so many tenths of the strength. There it stretches for good: the yield stress. "
        "Pull = yield stress × area.",
        "A similar case: 5.6 with 14.2 mm². Strength 500 MPa, of which 6 tenths are 300 MPa. "
        "The pull is 300 × 14.2 = 4260 N, or 4.3 kN.",
    ),
    marks=2,
    outcome=CLASSES,
)
