"""Which lock holds and why, the run of a lock wire, the pair of nuts, and when a lock pays."""

from itertools import permutations

from workbench.exercises.draws import as_round, third_figure, up
from workbench.exercises.exercise import Choice, Exercise, Misstep, Order, Quantity
from workbench.exercises.locking_a_nut.outcomes import KIND
from workbench.exercises.locking_a_nut.sizes import unprinted
from workbench.screws.lock_wire import tightening_arm_mm
from workbench.screws.locking import cost_of, pays_from

_LOCKS = {
    "pin": "Slotted nut and split pin: a shape stands in the way, and I can see it.",
    "spring": "Split spring washer: it pushes back on the nut, so the nut cannot turn.",
    "torque": "Plain nut, tightened harder: more friction never lets go.",
    "drag": "Nut with a plastic ring: it drags, so the clamp stays as it is.",
}

_JOINTS = ("swinging arm of the hoist", "foot of the field mast", "carrying handle of the instrument case")

_RUNS = {
    "top": "From 12 o'clock on A to the right. The wire pulls A's edge at 12 to the right.",
    "bottom": "From 6 o'clock on A to the right. The wire pulls A's edge at 6 to the right.",
    "middle": "From 3 o'clock on A, in line with both middles. The wire is shortest there.",
    "slack": "From any hour on A, but slack. A wire without pull cannot break.",
}

_STEPS = {
    "thin": "Run on the thin nut. Tighten it to about a third of the torque.",
    "full": "Run on the full nut by hand.",
    "hold": "Hold the inner nut still with a thin spanner.",
    "lock": "Tighten the outer nut to the torque.",
}


def _hold_draws():
    return [{"joint": joint, "order": order} for joint in _JOINTS for order in permutations(_LOCKS)]


def _wire_draws():
    return [
        {"hand": hand, "part": part, "order": order}
        for hand in ("right", "left")
        for part in ("crank housing", "lid of the gear box")
        for order in permutations(_RUNS)
    ]


def _tight(v):
    """The side whose pull to the right tightens: asked of the calculation, the head 12 mm wide, B 40 mm away."""
    over = tightening_arm_mm((0, 6), (40, 6), left_hand=v["hand"] == "left")
    return "top" if over > 0 else "bottom"


def _pair_draws():
    """Every step stands away from its own place, so that no list is half sorted beforehand."""
    own = tuple(_STEPS)
    orders = [order for order in permutations(own) if all(step != own[place] for place, step in enumerate(order))]
    return [{"thread": thread, "order": order} for thread in ("M8", "M10", "M12", "M16", "M20") for order in orders]


def _cost(v):
    return cost_of(v["minutes"], v["rate"], v["parts"])


def _pays(v):
    return 100 * pays_from(_cost(v), v["loss"])


def _pay_draws():
    draws = [
        {"minutes": minutes, "rate": rate, "parts": parts, "loss": loss}
        for minutes in (5, 6, 7, 8)
        for rate in (36, 42, 45, 48, 54)
        for parts in (0.40, 0.55, 0.70)
        for loss in (450, 600, 750, 900)
    ]
    return unprinted(as_round(draws, lambda v: round(_pays(v), 2), 2), _pays, 2)


HOLDS = Exercise(
    key="locking_a_nut.holds",
    asks="At the {joint} two plates slip sideways again and again. The nut must never turn off. "
    "Somebody must see at a glance that it is locked. Which lock do you choose, and why?",
    answer=Choice(_LOCKS),
    draws=_hold_draws,
    right=lambda v: "pin",
    missteps=(
        Misstep(
            "spring-washer-trusted",
            lambda v: "spring",
            "Your choice agrees with a washer that still springs. It is flat long before the nut is tight.",
            "What can a flat ring add when the plates slip?",
            origin="literature",
        ),
        Misstep(
            "torque-for-a-lock",
            lambda v: "torque",
            "Your choice agrees with a joint that never slips. Here it slips, and friction then works sideways.",
            "Which choice needs no friction?",
        ),
        Misstep(
            "drag-for-clamp",
            lambda v: "drag",
            "Your choice agrees with a nut that must only stay on the bolt. It can still lose its clamp.",
            "Look in the table: which column says that slip cannot turn it?",
        ),
    ),
    hints=(
        "Ask of each choice: what if friction goes for a moment?",
        "A shape in the way needs no friction.",
        "A similar case: a gate stays shut by a bolt pushed into the wall. A stiff hinge only slows it.",
    ),
    marks=1,
    outcome=KIND,
    critical=True,
)

WIRE = Exercise(
    key="locking_a_nut.wire",
    asks="On the {part} you look down on the heads of two screws. Think of a clock face on each. "
    "From A, screw B lies at 3 o'clock, to the right. Both have a {hand}-hand thread. "
    "A wire ties A to B. Where must the wire leave A, and why?",
    answer=Choice(_RUNS),
    draws=_wire_draws,
    right=_tight,
    missteps=(
        Misstep(
            "wire-pulls-it-loose",
            lambda v: "bottom" if _tight(v) == "top" else "top",
            "Your choice agrees with a wire that helps the screw to come loose.",
            "Say first which way this thread tightens. Then pull on the wire with a finger.",
        ),
        Misstep(
            "wire-through-the-middle",
            lambda v: "middle",
            "Your choice agrees with a pull straight at the middle. It turns the head neither way.",
            "How far from the middle must the wire pull, to turn a head?",
        ),
        Misstep(
            "wire-left-slack",
            lambda v: "slack",
            "Your choice agrees with a wire that only hangs there. The screw can turn until it is taut.",
            "When the screw starts to turn loose, what must the wire do at once?",
        ),
    ),
    hints=(
        "A right-hand thread tightens clockwise, seen from above its head. A left-hand one tightens the other way.",
        "Clockwise, seen from above: the edge at 12 o'clock goes to the right, the edge at 6 o'clock to the left.",
        "A similar case: a knob is pushed downwards at 9 o'clock. It turns anticlockwise.",
    ),
    marks=1,
    outcome=KIND,
    critical=True,
)

PAIR = Exercise(
    key="locking_a_nut.pair",
    asks="A bolt {thread} gets a pair of nuts: one thin, one full. Put the four steps in order.",
    answer=Order(_STEPS),
    draws=_pair_draws,
    right=lambda v: ("thin", "full", "hold", "lock"),
    missteps=(
        Misstep(
            "thin-nut-outside",
            lambda v: ("full", "thin", "hold", "lock"),
            "Your order puts the thin nut outside. After locking the outer nut carries the load.",
            "Which of the two nuts can carry more?",
        ),
        Misstep(
            "inner-nut-not-held",
            lambda v: ("thin", "full", "lock", "hold"),
            "In your order the inner nut can turn along while the outer one is tightened.",
            "What must stand still, so that the two nuts press on each other?",
        ),
        Misstep(
            "locked-against-nothing",
            lambda v: ("thin", "hold", "lock", "full"),
            "In your order something is tightened before the second nut is on.",
            "What does the outer nut press against?",
        ),
    ),
    hints=(
        "After locking, the outer nut carries. Which nut is strong enough?",
        "Hold the inner nut before you tighten the outer one.",
        "A similar case: two people on a narrow bridge. The strong one stands where the load comes.",
    ),
    marks=1,
    outcome=KIND,
)

PAYS = Exercise(
    key="locking_a_nut.pays",
    asks="Pinning one nut takes {minutes} minutes. An hour costs {rate} coins. Pin and drill wear cost {parts:.2f} "
    "coins. If the nut comes loose, the stop costs {loss} coins. Nobody can be hurt. "
    "From which chance of coming loose, in percent, does the pin pay?",
    answer=Quantity("percent", 0.01, (0.001, 100000), spread=lambda v: up(100 * third_figure(_cost(v)) / v["loss"])),
    draws=_pay_draws,
    right=_pays,
    missteps=(
        Misstep(
            "only-the-parts",
            lambda v: 100 * v["parts"] / v["loss"],
            "{entry} agrees with a pin that fits itself.",
            "Drilling, fitting, bending and looking take time. What does that time cost?",
        ),
        Misstep(
            "parts-left-out",
            lambda v: 100 * (_cost(v) - v["parts"]) / v["loss"],
            "{entry} agrees with the time alone.",
            "That is nearly all. What else is used up?",
            keeps=1,
        ),
        Misstep(
            "minutes-taken-for-hours",
            lambda v: 100 * (v["minutes"] * v["rate"] + v["parts"]) / v["loss"],
            "{entry} agrees with minutes multiplied by the price of an hour.",
            "What part of an hour is it?",
        ),
        Misstep(
            "turned-upside-down",
            lambda v: v["loss"] / _cost(v),
            "{entry} agrees with the loss divided by the cost.",
            "A dear lock must save more often. Which figure stands above the line?",
        ),
    ),
    hints=(
        "Cost of the pin = minutes ÷ 60 × price of an hour + parts.",
        "It pays from: cost of the pin ÷ cost of the stop. Times 100 for percent.",
        "A similar case: 30 minutes at 20 an hour and 2 for parts are 12. A stop costs 1200. It pays from 1.00 %.",
    ),
    marks=2,
    outcome=KIND,
)
