"""Before, during and after setting: flying mandrels, the hole, metals that touch, where the pin broke."""

from itertools import permutations

from workbench.exercises.blind_rivets.gripping import STANDARD
from workbench.exercises.blind_rivets.outcomes import SET
from workbench.exercises.draws import as_round
from workbench.exercises.exercise import Choice, Exercise, Misstep, Quantity
from workbench.rivets.blind import hole_before_coating_mm, hole_mm
from workbench.rivets.corrosion import allowed_difference_v, anodic_index_v, couple
from workbench.rivets.grip import grip_ranges
from workbench.rivets.setting import blind_rivet, stub_mm

_PINS = {
    "caught": "Eye protection on all who stand near, and the pin catcher fitted: pins break with a jerk.",
    "open": "The pin catcher taken off first: then the pins drop freely and cannot jam.",
    "felt": "A finger on the nose of the tool: then you feel when the pin breaks.",
    "watched": "Your face close to the nose: then you see when the pin breaks.",
}

_HIGH = {
    "replace": "Drill it out and find the cause, such as grip or hole. Then set a new one.",
    "file": "File the pin flush: what stands out is the only fault.",
    "drive": "Drive the pin in with a punch: then it fills the body again.",
    "second": "Leave it and set a second rivet beside it: two hold more than one.",
}

_RIVETS = ("copper", "monel", "stainless 18 Cr", "brass", "steel", "zinc plate", "aluminium", "titanium")
_SHEETS = ("aluminium 2000", "steel", "aluminium", "cast aluminium", "galvanised steel", "magnesium", "copper", "brass",
           "lead")  # fmt: skip
_SAID = {
    "stainless 18 Cr": "stainless steel", "zinc plate": "zinc-plated steel", "monel": "nickel-copper alloy",
    "aluminium 2000": "aluminium of the 2000 series", "aluminium": "aluminium of the 5000 series",
}  # fmt: skip
_PLACES = {"harsh": "outdoors in salt air", "normal": "in a store without heating", "controlled": "in a dry, warm room"}


def _pin_draws():
    return [{"part": part, "order": order} for part in ("lid", "handle") for order in permutations(_PINS)]


def _hole(v):
    return hole_before_coating_mm(v["body"], v["coat"])


def _hole_draws():
    """No coat of 0.1 mm, where two slips give one number, and none so thin that a slip hides in the tolerance."""
    return [
        {"body": body, "least": hole_mm(body)[0], "coat": coat}
        for body in (2.4, 3.0, 3.2, 4.0, 4.8, 5.0, 6.0, 6.4)
        for coat in (0.06, 0.07, 0.08, 0.12, 0.13, 0.14)
    ]


def _over(v):
    return abs(v["rivet_v"] - v["sheet_v"]) - v["allowed"]


def _couple_draws():
    """Pairs that the index forbids in their place, by an amount in two decimals."""
    draws = [
        {"rivet": _SAID.get(rivet, rivet), "sheet": _SAID.get(sheet, sheet), "place": place,
         "rivet_v": anodic_index_v(rivet), "sheet_v": anodic_index_v(sheet),
         "allowed": allowed_difference_v(environment)}
        for rivet in _RIVETS
        for sheet in _SHEETS
        for environment, place in _PLACES.items()
        if not couple(rivet, sheet, environment).acceptable
    ]  # fmt: skip
    draws = [draw for draw in draws if round(_over(draw), 2) not in (
        -draw["rivet_v"], -draw["sheet_v"], draw["allowed"])]  # fmt: skip
    return as_round(draws, lambda v: round(_over(v), 2), 2)


def _stands_out(v):
    return v["notch"] - v["tail"] - v["stack"] - v["head"]


def _stub_draws():
    """Rivets in stacks thinner than their range, as the geometry of setting gives them, to tenths."""
    draws = []
    for body in (3.2, 4.0, 4.8, 6.0):
        for made in grip_ranges(STANDARD, body):
            rivet = blind_rivet(STANDARD, body, made.length_mm)
            for under in (0.8, 1.4, 2.1):
                if made.least_mm - under < 1:
                    continue
                stack, notch = round(made.least_mm - under, 1), round(rivet.notch_mm, 1)
                out = round(stub_mm(rivet, stack, hole_mm(body)[0]), 1)
                tail = round(notch - stack - rivet.head_height_mm - out, 1)
                if 0.4 <= out and tail > 0.6:
                    draws.append({"body": body, "length": made.length_mm, "notch": notch, "tail": tail, "stack": stack,
                                  "head": rivet.head_height_mm})  # fmt: skip
    unlike = {tuple(draw.values())[2:]: draw for draw in draws if round(_stands_out(draw), 1) not in draw.values()}
    return as_round(unlike.values(), lambda v: round(_stands_out(v), 1), 1)


def _high_draws():
    return [{"out": out, "order": order} for out in (0.8, 1.4) for order in permutations(_HIGH)]


FLYING = Exercise(
    key="blind_rivets.flying",
    asks="You are about to set the rivets of the {part}. Each pin breaks off inside the tool. "
    "What comes before you pull the first one?",
    answer=Choice(_PINS),
    draws=_pin_draws,
    right=lambda v: "caught",
    missteps=(
        Misstep(
            "catcher-off",
            lambda v: "open",
            "Without a catcher the broken pins fly, or lie where people tread.",
            "Ask to see the catcher. How full may it get?",
        ),
        Misstep(
            "finger-on-the-nose",
            lambda v: "felt",
            "The jaws behind the nose close and jerk back.",
            "Watch a setting from two steps away. What moves, and how fast?",
        ),
        Misstep(
            "face-near-the-nose",
            lambda v: "watched",
            "A pin can leave the tool backwards, in line with it.",
            "Point along the tool with a rule. Who stands on that line?",
        ),
    ),
    hints=(
        "Think of where a broken pin goes when it is free.",
        "Guard the eyes first, then give the pin a place to go.",
        "A similar case: a chisel throws chips. Goggles and a screen stand before the first blow.",
    ),
    marks=1,
    outcome=SET,
    critical=True,
)

HOLE = Exercise(
    key="blind_rivets.hole",
    asks="The smallest hole for a body of {body:g} mm is {least:g} mm. The bay drills first and paints afterwards. "
    "The paint lies {coat:g} mm thick on the wall of the hole. A workmate has begun:\n"
    "Least hole, with the paint in it: {least:g} mm.\n"
    "Drilled hole, before painting: ? mm.\n\n"
    "Fill in the last line.",
    answer=Quantity("mm", 0.01, (1, 20)),
    draws=_hole_draws,
    right=_hole,
    missteps=(
        Misstep(
            "paint-on-one-side",
            lambda v: v["least"] + v["coat"],
            "{entry} agrees with paint on one side of the hole.",
            "Draw a line right across the hole. How often does it pass through paint?",
        ),
        Misstep(
            "drilled-to-the-body",
            lambda v: v["body"] + 2 * v["coat"],
            "{entry} comes from a hole as large as the body.",
            "Try a rivet in such a hole. Compare hole and body in the question.",
        ),
        Misstep(
            "paint-left-out",
            lambda v: v["least"],
            "{entry} agrees with a hole that gets no paint.",
            "Paint makes a hole narrower. By how much, across?",
        ),
        Misstep(
            "paint-taken-off",
            lambda v: v["least"] - 2 * v["coat"],
            "{entry} comes from paint that makes a hole wider.",
            "Does paint on the wall leave more room, or less?",
        ),
        Misstep(
            "next-half-millimetre",
            lambda v: v["body"] + 0.5 + 2 * v["coat"],
            "{entry} comes from a hole half a millimetre over the body.",
            "The body must fill the hole. Use the least hole of the question.",
        ),
    ),
    hints=(
        "Paint lies on the left of the hole and on the right.",
        "Drilled hole = least hole + 2 × paint.",
        "A similar case: least hole 10.10 mm, paint 0.20 mm. The drilled hole is 10.10 + 0.40 = 10.50 mm.",
    ),
    marks=1,
    outcome=SET,
)

COUPLE = Exercise(
    key="blind_rivets.couple",
    asks="A rivet of {rivet} (index {rivet_v:.2f} V) sits in a sheet of {sheet} (index {sheet_v:.2f} V). "
    "The joint is {place}. There the two may differ by {allowed:.2f} V. "
    "By how many volts is this pair over that limit?",
    answer=Quantity("V", 0.01, (0, 3)),
    draws=_couple_draws,
    right=_over,
    missteps=(
        Misstep(
            "limit-left-out",
            lambda v: abs(v["rivet_v"] - v["sheet_v"]),
            "{entry} agrees with the difference of the two metals.",
            "Now compare that difference with the limit.",
        ),
        Misstep(
            "signs-dropped",
            lambda v: abs(v["rivet_v"]) + abs(v["sheet_v"]) - v["allowed"],
            "{entry} comes from two indices that were added.",
            "Mark both on a line below nought. How far apart are they?",
        ),
        Misstep(
            "limit-added",
            lambda v: abs(v["rivet_v"] - v["sheet_v"]) + v["allowed"],
            "{entry} comes from a limit that was added.",
            "The limit is allowed. What is left when it is taken away?",
        ),
        Misstep(
            "both-added",
            lambda v: abs(v["rivet_v"]) + abs(v["sheet_v"]),
            "{entry} comes from the sum of the two indices.",
            "Asked is how far they are apart, less what is allowed.",
        ),
        Misstep(
            "limit-less-difference",
            lambda v: -_over(v),
            "{entry} comes from the difference taken off the limit.",
            "Asked is how far the pair lies over the limit. Which of the two is larger?",
            keeps=1,
        ),
    ),
    hints=(
        "How far apart are the two metals? Both lie below nought.",
        "Over the limit by = difference − limit.",
        "A similar case: −2.10 V and −2.90 V, limit 0.60 V. The higher one is −2.10 V: it lies nearer to nought. "
        "The difference is 0.80 V: over by 0.20 V.",
    ),
    marks=2,
    outcome=SET,
)

STUB = Exercise(
    key="blind_rivets.stub",
    asks="You saw a set rivet open. Its head is {head:g} mm high, the grip is {stack:g} mm. Behind the sheets the tail "
    "takes {tail:g} mm up to the mandrel head. The pin broke at its notch, {notch:g} mm from the mandrel head. "
    "By how much does the pin stand out of the head?",
    answer=Quantity("mm", 0.1, (0, 30)),
    draws=_stub_draws,
    right=_stands_out,
    missteps=(
        Misstep(
            "head-left-out",
            lambda v: v["notch"] - v["tail"] - v["stack"],
            "{entry} agrees with the height above the sheet.",
            "Lay a rule on top of the head. What lies between the sheet and the rule?",
        ),
        Misstep(
            "tail-left-out",
            lambda v: v["notch"] - v["stack"] - v["head"],
            "{entry} agrees with a mandrel head that touches the sheet.",
            "Look behind the sheets. What stands between sheet and mandrel head?",
        ),
        Misstep(
            "grip-alone",
            lambda v: v["notch"] - v["stack"],
            "{entry} agrees with the notch less the grip.",
            "Walk along the pin, from the mandrel head to its end. Name each part you pass.",
        ),
        Misstep(
            "grip-left-out",
            lambda v: v["notch"] - v["tail"] - v["head"],
            "{entry} comes from a rivet without sheets.",
            "The pin also passes through the stack.",
        ),
        Misstep(
            "parts-not-taken-off",
            lambda v: v["tail"] + v["stack"] + v["head"],
            "{entry} agrees with the parts that the pin passes.",
            "The pin is longer than these parts. How long is it up to the notch?",
        ),
    ),
    hints=(
        "Walk along the pin from the mandrel head: tail, sheets, head. What is left stands out.",
        "Stands out = notch − tail − grip − head.",
        "A similar case: notch 40 mm, tail 8 mm, grip 20 mm, head 5 mm. The pin stands out 7 mm.",
    ),
    marks=2,
    outcome=SET,
    shows=lambda v: ("blind_rivet", {"body_mm": v["body"], "length_mm": v["length"], "stack_mm": v["stack"]}),
)

BROKEN = Exercise(
    key="blind_rivets.broken",
    asks="On the hoist's guard one pin stands {out:g} mm out of its head. The rivets beside it are flush. What now?",
    answer=Choice(_HIGH),
    draws=_high_draws,
    right=lambda v: "replace",
    missteps=(
        Misstep(
            "filed-and-left",
            lambda v: "file",
            "The pin is only the sign. Behind the sheet the tail is not formed well.",
            "Look behind the sheet, or saw such a rivet open.",
        ),
        Misstep(
            "driven-in",
            lambda v: "drive",
            "A blow pushes the mandrel head out of the tail.",
            "What holds the tail open? Look at a sawn rivet.",
        ),
        Misstep(
            "one-more-beside-it",
            lambda v: "second",
            "The bad one still holds badly, and the cause is still there.",
            "What will the same stack and hole do to the next rivet?",
        ),
    ),
    hints=(
        "Ask what the pin tells you about the tail.",
        "A rivet that shows a fault comes out. The fault has a cause.",
        "A similar case: a screw spins in its thread. It comes out, the thread is looked at, then it is renewed.",
    ),
    marks=1,
    outcome=SET,
    critical=True,
)
