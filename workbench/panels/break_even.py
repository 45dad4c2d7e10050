"""Explore board: from how many fastenings does the dearer, quicker tool pay?"""

from math import ceil

from workbench.entry import read
from workbench.exercises.exercise import Quantity
from workbench.panels.board import Board, Control, Pick, Shown
from workbench.rivets.cost import break_even_quantity, cost_each, labour_cost, total_cost

COUNT = Quantity("rivets", 1, (0, 10_000_000))
HAND, SECONDS, RIVET = 30, 18, 0.08  # francs, s and francs of the slow way
WORKERS = {"blind rivet, one": 1, "solid rivet, two": 2}
START = {"price": 500, "seconds": 10, "rate": 40, "workers": "blind rivet, one"}


def break_even():
    """The board: price and pace of the quick tool, cost of an hour, workers at the slow way."""
    drawing = None

    def moved(values, prediction):
        nonlocal drawing
        rate, workers = values["rate"], WORKERS[values["workers"]]
        slow = (HAND, cost_each(RIVET, workers, SECONDS, rate))
        quick = (values["price"], cost_each(RIVET, 1, values["seconds"], rate))
        try:
            crossing, never = break_even_quantity(*slow, *quick), ""
        except ValueError as reason:  # one way is always the cheaper
            crossing, never = None, str(reason).rpartition("; ")[2]
        if drawing is None:  # nothing is drawn before the prediction
            from workbench.drawings.break_even import BreakEven

            drawing = BreakEven()
        drawing.show(slow, quick, crossing)
        saved = slow[1] - quick[1]
        whole = None if crossing is None else ceil(crossing - 1e-6)  # a part of a rivet cannot be set
        if values == START:
            message = (f"You said {prediction}, it pays from {whole}: a rivet saves only {100 * saved:.1f} cents. "
                       "Now change one control.")  # fmt: skip
        elif crossing is None:
            message = "The two lines do not cross: " + never.replace("the second method", "the air tool").replace(
                "the first method", "the hand tool") + "."
        else:
            message = "" if crossing <= 10_000 else f"The lines cross at {whole}, outside the picture."
        costs = [total_cost(*way, 2000) for way in (slow, quick)]
        why = (f"Labour of the hand tool: {workers} × {SECONDS} s ÷ 3600 × {rate:g} = "
               f"{labour_cost(workers, SECONDS, rate):.3f} francs. Air tool: 1 × {values['seconds']:g} s ÷ 3600 × "
               f"{rate:g} = {labour_cost(1, values['seconds'], rate):.3f} francs.\n")  # fmt: skip
        if crossing is not None:
            why += (f"Break-even = dearer by ÷ saved on each = ({values['price']:g} − {HAND}) ÷ {saved:.4f} = "
                    f"{crossing:.1f}, so from {whole} rivets on.\n")  # fmt: skip
        return Shown(
            drawing.png(), drawing.text(),
            (("You said, at the start", prediction),
             ("Air tool pays from", f"{whole} rivets" if whole else "never"),
             ("Saved on each", f"{100 * saved:.1f} cents".replace("-", "−")),
             ("2000: hand tool, air tool", f"{costs[0]:.0f}, {costs[1]:.0f} francs")),
            message,
            why + "The rivet itself costs the same both ways, so it drops out. Few seconds make few cents: a dearer "
            "tool needs many rivets, or a worker that it sets free.",
        )

    return Board(
        "From how many fastenings does the dearer tool pay?",
        f"A hand tool costs {HAND} francs and takes {SECONDS} seconds for a rivet. An air tool costs 500 francs "
        "and takes 10 seconds. An hour of work costs 40 francs, a rivet 8 cents. From how many rivets does the air "
        "tool pay?",
        "Your prediction (rivets)",
        (Control("price", "Price of the air tool", "francs", 100, 2000, 50, START["price"]),
         Control("seconds", "Air tool takes", "s", 4, 24, 1, START["seconds"]),
         Control("rate", "An hour of one worker costs", "francs", 20, 80, 1, START["rate"]),
         Pick("workers", "Slow way: rivet, workers", tuple(WORKERS), START["workers"])),
        lambda text: f"{read(text, COUNT, {}).value:g} rivets", moved,
    )
