"""Explore board: how many batches of rivets waste least in one night?"""

from workbench.entry import read
from workbench.exercises.exercise import Quantity
from workbench.panels.board import Board, Control, Refused, Shown
from workbench.rivets.board import kept_until_min
from workbench.rivets.clock import written
from workbench.rivets.documents import Rule
from workbench.rivets.planning import Bath, habit, plan
from workbench.rivets.shifts import Shift

FROM_MIN, SHIFT, BREAK, TO_MIN = 1200, (1320, 1800), (1500, 1530), 1800  # the bath from 20:00, work 22:00 to 06:00
DRIVE_MIN, STORE_AT_MOST_DEGC = 20, 0
RIVETS = Quantity("rivets", 1, (0, 1000))
START = {"large": 200, "small": 130, "rate": 60, "life": 12}


def _clock(minute):
    return written(minute)[-5:]


def _columns(made):
    """(quench, driven, left over, keeps until) of each batch."""
    found = []
    for place, run in enumerate(made.runs):
        driven = sum(issue.rivets for issue in made.issues if issue.run == place)
        found.append((run.quenched_min, driven, run.rivets - driven, kept_until_min(made, run)))
    return found


def batch_plan():
    """The board: two baskets, driving rate, store life."""
    drawing = None

    def moved(values, prediction):
        nonlocal drawing
        large, small, rate, life = (int(values[name]) for name in ("large", "small", "rate", "life"))
        work = [Shift("night", *SHIFT, rate, (BREAK,))]
        kept = Rule("the store's life", "2017", DRIVE_MIN, STORE_AT_MOST_DEGC, life)
        try:
            made = plan(work, Bath((large, small)), kept)
        except ValueError:
            raise Refused(f"Baskets of {large} and {small} cannot serve {rate} rivets an hour with {life} h in the "
                          "store: some would be short. Take a larger basket, a longer life or a slower rate.") from None
        if drawing is None:  # nothing is drawn before the prediction
            from workbench.drawings.batch_plan import BatchPlan

            drawing = BatchPlan(FROM_MIN, TO_MIN, SHIFT, _clock)
        drawing.show(_columns(made))
        try:
            usual = habit(work, Bath((max(large, small),)), kept)
            said = f"{len(usual.runs)} batches, {usual.wasted} left over"
        except ValueError:
            usual, said = None, "runs short"
        message = f"You said {prediction}; the plan leaves {made.wasted}." if values == START else ""
        if usual and usual.wasted > made.wasted:
            number = "The same number of" if len(usual.runs) == len(made.runs) else "Another number of"
            message += f" {number} batches, and fewer left over: what they add up to decides."
        elif usual:
            message += " No mix leaves fewer over than the larger basket alone."
        loads = " + ".join(str(run.rivets) for run in made.runs)
        return Shown(
            drawing.png(), drawing.text(),
            (("You said, at the start", prediction), ("Needed", f"{made.driven} rivets"),
             ("Least left over", f"{made.wasted}, with {len(made.runs)} batches"),
             ("Larger basket alone", said)),
            message.strip(),
            f"Left over = made − needed = {loads} − {made.driven} = {made.wasted}.\n"
            f"A batch keeps for {life} h. What it still holds then is left over too.\n"
            "Full baskets make only certain sums. The best sum lies just above the need, as far as every batch is "
            "used up in time.",
        )

    return Board(
        "How many batches waste least?",
        "A night needs 450 rivets: 60 an hour for 7.5 h, without the break. "
        "Each run of the bath takes one full basket and makes one batch. With baskets of 200 "
        "alone, three batches leave 150 rivets over. Now a basket of 130 may be used in some runs instead. How many "
        "rivets are left over at least?",
        "Your prediction (rivets)",
        (Control("large", "One basket holds", "rivets", 50, 300, 10, START["large"]),
         Control("small", "The other basket holds", "rivets", 50, 300, 10, START["small"]),
         Control("rate", "Rivets driven", "an hour", 20, 120, 5, START["rate"]),
         Control("life", "Life in the cold store", "h", 1, 24, 1, START["life"])),
        lambda text: f"{read(text, RIVETS, {}).value:g}", moved,
    )
