"""The board for the wall: what a plan says to whoever loads the bath, minds the store and issues the rivets.

Rows and sentences only; whoever prints them brings the layout. Times are day and clock.
"""

from workbench.rivets.clock import written
from workbench.rivets.documents import disagreements, rules_of

BATCH_HEAD = ("batch", "tag", "into the bath", "quench", "in the store by", "first out", "last out", "keep until",
              "made", "to drive", "to re-treat")
PORTION_HEAD = ("batch", "out", "rivets", "drive from", "drive until", "hard from")

CAUTIONS = (
    "Salts near 500 °C: face shield, gauntlets, apron, dry baskets; nobody alone at the bath.",
    "Never water, oil, magnesium or a damp basket near the salts: they burst or burn.",
    "Tag every basket with date and time. No tag, no time, or put back after issue: not driven.",
    "Portions that turn hard go into the tin for re-treatment, never back into the store.",
    "A plan for learning: the approved document and the local rules of the shop decide.",
)


def batch_rows(plan, shifts):
    """One row a batch, under BATCH_HEAD."""
    tags = {shift.name: f"{shift.colour} {shift.shape}" for shift in shifts}
    rows = []
    for place, run in enumerate(plan.runs):
        mine = [issue for issue in plan.issues if issue.run == place]
        stored = run.quenched_min + plan.handling.to_store_min
        to_drive = sum(issue.rivets for issue in mine)
        kept = plan.handling.store_degc is not None
        rows.append((run.mark, tags[run.shift], written(run.loaded_min), written(run.quenched_min),
                     written(stored) if kept else "-", written(mine[0].out_min) if mine else "-",
                     written(mine[-1].out_min) if mine else "-", written(kept_until_min(plan, run)), run.rivets,
                     to_drive, run.rivets - to_drive))
    return rows


def kept_until_min(plan, run):
    """When a batch's last rivet must be out of the store, or driven where there is no store."""
    if plan.handling.store_degc is None:
        return run.quenched_min + plan.rule.drive_within_min
    return run.quenched_min + plan.handling.to_store_min + 60 * plan.rule.cold_for_h


def hard_from_min(plan, issue):
    """From when on a portion may no longer be driven: the drive limit less the minutes warm before the store."""
    if plan.handling.store_degc is None:
        return plan.runs[issue.run].quenched_min + plan.rule.drive_within_min
    return issue.out_min + plan.rule.drive_within_min - plan.handling.to_store_min


def portion_rows(plan):
    """One row a portion, under PORTION_HEAD, in order of time."""
    return [(plan.runs[one.run].mark, written(one.out_min), one.rivets, written(one.from_min), written(one.until_min),
             written(hard_from_min(plan, one))) for one in sorted(plan.issues, key=lambda one: one.out_min)]


def limits(plan, rules=None):
    """What the plan keeps to, and where other documents differ, as sentences."""
    rule, handling = plan.rule, plan.handling
    said = [f"Alloy {rule.alloy}. Document kept: {rule.document}.",
            f"Drive within {rule.drive_within_min:g} min warm in all, counted from the quench."]
    if handling.store_degc is not None:
        said.append(f"Store at {handling.store_degc:g} °C (at most {rule.store_at_most_degc:g}), "
                    f"for {rule.cold_for_h:g} h at most, within {handling.to_store_min} min of the quench.")
        left = rule.drive_within_min - handling.to_store_min
        said.append(f"A portion is hard {left:g} min after it leaves the store.")
    said.append("No document kept here prints when the joint may be loaded: ask who answers for it."
                if rule.load_after_h is None
                else f"Load the joint {rule.load_after_h / 24:g} days after driving, not before.")
    if rule.retreatments is not None:
        said.append(f"Heats in all: {1 + rule.retreatments:g}, the first one counted.")
    names = {"drive_within_min": "min to drive", "cold_for_h": "h in the cold", "load_after_h": "h until loaded",
             "store_at_most_degc": "°C at most in the store", "retreatments": "re-treatments"}
    for figure, values in disagreements(rule.alloy, rules).items():
        shown = ", ".join(f"{document} {value:g}" for document, value in values.items())
        said.append(f"Documents differ in {names[figure]}: {shown}.")
    said += [f"{one.document}: {one.says}." for one in rules_of(rule.alloy, rules) if one.says]
    return said


def summary(plan):
    """How many batches, rivets made, driven and left for re-treatment, in one sentence.

    Left over at the end of the plan counts too.
    """
    return (f"{len(plan.runs)} batches make {plan.made} rivets: {plan.driven} to drive, {plan.wasted} to re-treat.")
