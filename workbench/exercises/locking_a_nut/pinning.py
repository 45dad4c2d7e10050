"""The hole in the right place, the pin's length, and the pin that was used before."""

from itertools import permutations

from workbench.exercises.draws import as_round
from workbench.exercises.exercise import Choice, Exercise, Misstep, Quantity
from workbench.exercises.locking_a_nut.outcomes import PIN
from workbench.exercises.locking_a_nut.sizes import nuts, unprinted
from workbench.screws.pin_hole import centre_mm, likely_mm, room_mm, worst_mm
from workbench.screws.slotted_nut import nut, over_nut_mm
from workbench.screws.split_pin import needed_length_mm, pin

_SHIMS = (0.5, 0.8)
_USUAL_WASHER_MM = {"M8": 1.6, "M10": 2.0, "M12": 2.5, "M16": 3.0, "M20": 3.0, "M24": 4.0}  # ISO 7089, from memory

_NEXT = {
    "new": "A new pin of the same size: a leg that was bent has begun to crack.",
    "again": "The old pin, made straight with a hammer: it looks whole.",
    "wire": "A bit of wire of the same thickness: bent steel is bent steel.",
    "thin": "A new pin one size smaller: it goes in and out more easily.",
}


def _centre(v):
    return centre_mm(v["parts"], v["washer"] + v["shim"], v["floor"], v["height"])


def _centre_draws():
    draws = []
    for thread, washer in _USUAL_WASHER_MM.items():
        row = nut(thread)
        floor, height = row["floor_mm"], row["height_mm"]
        for shim in _SHIMS:
            for parts in (18.5, 22, 27.5, 31, 36.5, 43):
                draws.append({"thread": thread, "parts": parts, "washer": washer, "shim": shim, "floor": floor,
                              "height": height, "middle": (floor + height) / 2})  # fmt: skip
    return as_round(draws, lambda v: round(_centre(v), 1), 1)


def _spare(v):
    return v["room"] - worst_mm(v["first"], v["second"], v["third"])


def _spare_draws():
    draws = []
    for row in nuts(10, 24):
        one = nut(row["thread"])
        room = round(room_mm(one["floor_mm"], one["height_mm"], pin(one["pin_mm"])["shank_max_mm"]), 2)
        for first, second, third in ((0.22, 0.16, 0.11), (0.24, 0.13, 0.18), (0.19, 0.27, 0.12), (0.16, 0.23, 0.17),
                                     (0.26, 0.14, 0.19), (0.21, 0.17, 0.14), (0.18, 0.25, 0.13)):  # fmt: skip
            draws.append({"thread": row["thread"], "room": room, "first": first, "second": second, "third": third})
    return unprinted(as_round(draws, lambda v: round(_spare(v), 2), 2), _spare, 2, 0.3, 0.4, 0.5)


def _bend(v):
    return v["times"] * v["size"]


def _length(v):
    return needed_length_mm(v["over"], _bend(v))


def _length_draws():
    draws = []
    for row in nuts(6, 52):
        size = nut(row["thread"])["pin_mm"]
        for times in (1.5, 1.8, 2.2):
            draws.append({"thread": row["thread"], "size": size, "over": over_nut_mm(row["thread"]), "times": times,
                          "eye": pin(size)["eye_length_mm"]})  # fmt: skip
    return as_round(draws, lambda v: round(_length(v), 1), 1)


def _reuse_draws():
    places = ("hinge of the case lid", "fork joint of the brake rod", "drum shaft of the hoist")
    return [{"place": place, "order": order} for place in places for order in permutations(_NEXT)]


CENTRE = Exercise(
    key="locking_a_nut.centre",
    asks="Bolt {thread}. Between its head and the slotted nut lie: parts {parts:g} mm, a washer {washer:g} mm, "
    "a shim {shim:g} mm. The slot's floor is {floor:g} mm above the nut's face, its top {height:g} mm. "
    "A workmate has begun:\n"
    "Middle of the slot above the nut's face: ({floor:g} + {height:g}) ÷ 2 = {middle:g} mm.\n"
    "Middle of the hole, from under the head: ? mm.\n\n"
    "Fill in the last line.",
    answer=Quantity("mm", 0.1, (1, 500)),
    draws=_centre_draws,
    right=_centre,
    missteps=(
        Misstep(
            "washer-and-shim-left-out",
            lambda v: v["parts"] + v["middle"],
            "{entry} agrees with parts and nut alone.",
            "Everything between head and nut counts. Stack the real parts and look.",
        ),
        Misstep(
            "shim-left-out",
            lambda v: v["parts"] + v["washer"] + v["middle"],
            "{entry} agrees with a stack that lacks a thin part.",
            "Name every part from the head to the nut. Which is the thinnest?",
            keeps=1,
        ),
        Misstep(
            "middle-of-the-nut",
            lambda v: v["parts"] + v["washer"] + v["shim"] + v["height"] / 2,
            "{entry} agrees with the middle of the whole nut.",
            "The slot is in the upper part of the nut. Draw the nut cut open.",
        ),
        Misstep(
            "floor-of-the-slot",
            lambda v: v["parts"] + v["washer"] + v["shim"] + v["floor"],
            "{entry} agrees with a hole at the floor of the slot. Half of it is covered.",
            "Where between floor and top must the pin lie?",
        ),
        Misstep(
            "ended-at-the-nuts-face",
            lambda v: v["parts"] + v["washer"] + v["shim"],
            "{entry} agrees with the place of the nut's face, where the nut begins.",
            "How far above the face is the middle of the slot?",
        ),
        Misstep(
            "begun-under-the-shim",
            lambda v: v["shim"] + v["middle"],
            "{entry} agrees with a sum that begins under the shim.",
            "The hole is measured from under the head. What lies between head and shim?",
        ),
    ),
    hints=(
        "Start under the head. Add every part up to the nut's face.",
        "Then add the middle of the slot.",
        "A similar case: parts 50, washer 5, shim 1, middle of the slot 30. The hole lies at 86.0 mm.",
    ),
    marks=2,
    outcome=PIN,
)

SPARE = Exercise(
    key="locking_a_nut.spare",
    asks="Bolt {thread}. With all sizes as drawn, the pin has {room:.2f} mm of room on each side in the slot. "
    "But the parts may be off by ± {first:.2f} mm. The nut may be off by ± {second:.2f} mm. "
    "The hole may be off by ± {third:.2f} mm. "
    "How much room is left in the worst case?",
    answer=Quantity("mm", 0.01, (-5, 5)),
    draws=_spare_draws,
    right=_spare,
    missteps=(
        Misstep(
            "only-the-largest-counted",
            lambda v: v["room"] - max(v["first"], v["second"], v["third"]),
            "{entry} agrees with only one size being off.",
            "All may be off the same way. Build the thickest stack in your mind.",
        ),
        Misstep(
            "root-of-squares",
            lambda v: v["room"] - likely_mm(v["first"], v["second"], v["third"]),
            "{entry} agrees with the likely case.",
            "Underline the word “worst” in the question.",
        ),
        Misstep(
            "both-sides-taken-off",
            lambda v: v["room"] - 2 * worst_mm(v["first"], v["second"], v["third"]),
            "{entry} agrees with being off both ways at once.",
            "A stack is too high or too low, never both. Which room is used up?",
        ),
        Misstep(
            "reach-for-room",
            lambda v: worst_mm(v["first"], v["second"], v["third"]),
            "{entry} agrees with how far the hole may lie off.",
            "That is sound. What does it leave of the room?",
        ),
    ),
    hints=(
        "Worst case: every size is off the same way. Add the three.",
        "Room left = room − that sum.",
        "A similar case: room 3.00, off by 0.50, 0.40 and 0.30. 3.00 − 1.20 = 1.80 mm.",
    ),
    marks=1,
    outcome=PIN,
)

LENGTH = Exercise(
    key="locking_a_nut.length",
    asks="Nut {thread}: it is {over:g} mm wide where the pin lies. Split pin {size:g}, its eye {eye:g} mm long. "
    "You need {times:g} pin sizes beyond the nut to bend. "
    "How long must the pin be at least, counted from under the eye?",
    answer=Quantity("mm", 0.1, (1, 500)),
    draws=_length_draws,
    right=_length,
    missteps=(
        Misstep(
            "nothing-left-to-bend",
            lambda v: v["over"],
            "{entry} agrees with a pin that ends flush with the nut.",
            "The legs must reach past the nut before they can be bent.",
        ),
        Misstep(
            "allowance-twice",
            lambda v: v["over"] + 2 * _bend(v),
            "{entry} agrees with an allowance for each leg.",
            "The legs lie side by side. Does the second leg add length?",
        ),
        Misstep(
            "eye-counted",
            lambda v: _length(v) + v["eye"],
            "{entry} agrees with a pin measured over its eye.",
            "From where does the length count?",
        ),
        Misstep(
            "millimetres-for-sizes",
            lambda v: v["over"] + v["times"],
            "{entry} agrees with so many millimetres instead of so many pin sizes.",
            "How many millimetres is one pin size?",
        ),
    ),
    hints=(
        "To bend: number of sizes × pin size.",
        "Length = width of the nut + what is bent.",
        "A similar case: nut 100 mm wide, pin 10, 3 sizes to bend. 100 + 30 = 130.0 mm.",
    ),
    marks=1,
    outcome=PIN,
)

REUSE = Exercise(
    key="locking_a_nut.reuse",
    asks="You opened the {place}. Its split pin came out in one piece. What goes into the hole now, and why?",
    answer=Choice(_NEXT),
    draws=_reuse_draws,
    right=lambda v: "new",
    missteps=(
        Misstep(
            "pin-used-again",
            lambda v: "again",
            "Your choice agrees with a leg that bears bending twice. It cracks where it was bent.",
            "Make one straight and bend it until it breaks. How often did it last?",
        ),
        Misstep(
            "wire-for-a-pin",
            lambda v: "wire",
            "Your choice agrees with any steel being as good. Wire has no eye and no known strength.",
            "What keeps the other end from sliding through?",
        ),
        Misstep(
            "pin-a-size-too-small",
            lambda v: "thin",
            "Your choice agrees with an easy fit. A pin that rattles in its hole wears and is cut.",
            "Which size does the hole name?",
        ),
    ),
    hints=(
        "Bend a paper clip to and fro. What happens at the bend?",
        "The size is named by the hole. It stays the same.",
        "A similar case: a lead seal is cut to open a meter. It is never glued, it is replaced.",
    ),
    marks=1,
    outcome=PIN,
    critical=True,
)
