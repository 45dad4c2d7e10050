"""A nut in two halves: wear that it takes up, the latch that keeps it shut, and the pressure on its flanks."""

import math

from workbench.exercises.draws import as_round, up
from workbench.exercises.exercise import Exercise, Misstep, Quantity
from workbench.exercises.thread_forms.sizes import moving, tangent
from workbench.exercises.threads_that_move.outcomes import HALVES as OUTCOME
from workbench.exercises.threads_that_move.screws import FLANK_DEG, tan
from workbench.screws.half_nut import closing_for_mm, greatest_axial_n
from workbench.screws.screw_stress import flank_pressure_mpa, ridges_engaged
from workbench.threads.profile import profile

_TAN, _TAN_WHOLE = tangent(FLANK_DEG), tangent(2 * FLANK_DEG)


def _trapezoidal(v, starts=1):
    return profile("trapezoidal", v["size"], v["pitch"], starts)


def _closing(v):
    return closing_for_mm(v["play"], _trapezoidal(v))


def _closing_draws():
    """Play that the crest clearance of ISO 2901 can still take up."""
    draws = [
        {**row, "play": play, "tan_half": _TAN, "tan_whole": _TAN_WHOLE}
        for row in moving((5, 6, 7, 8), smallest=22, largest=60)
        for play in (0.06, 0.07, 0.08, 0.09, 0.11, 0.12, 0.13)
    ]
    return as_round(draws, lambda v: round(_closing(v), 3), 3)


def _thrust(v):
    return greatest_axial_n(v["latch"], profile("trapezoidal", 24, 5))  # the form alone matters


def _latch_draws():
    draws = [{"latch": latch, "tan_half": _TAN, "tan_whole": _TAN_WHOLE} for latch in range(130, 990, 10)]
    return [draw for draw in draws if draw["latch"] % 100]


def _pressure(v):
    return flank_pressure_mpa(v["force"], _trapezoidal(v, v["starts"]), v["length"])


def _pressure_draws():
    draws = [
        {**row, "mean": row["size"] - row["pitch"] / 2, "shared": row["pitch"] / 2, "starts": starts,
         "length": int(ridges * row["pitch"]), "force": force}
        for row in moving((4, 5, 6, 7, 8), smallest=18, largest=44)
        for starts in (2, 3)
        for ridges in (6, 9, 12)
        for force in (5200, 6900, 8300)
    ]  # fmt: skip
    draws = [draw for draw in draws if 1 < _pressure(draw) < 20]
    return as_round(draws, lambda v: round(_pressure(v), 2), 2)


TAKE_UP = Exercise(
    key="threads_that_move.take_up",
    asks="The half nut of a feed screw Tr{size:g} × {pitch:g} is worn. "
    "The slide has {play:g} mm of play along the screw. A workmate has begun:\n"
    "Close each half by a distance s. On one flank that takes up s × tan(flank angle).\n"
    "Both flanks move in, so the play taken up is twice that.\n"
    "tan 15° = {tan_half:.4f}, tan 30° = {tan_whole:.4f}.\n"
    "The play is gone when s = ? mm.\n\n"
    "Fill in the last line.",
    answer=Quantity("mm", 0.001, (0.001, 10), spread=lambda v: up(0.0005 + 0.001 * _closing(v), 0.001)),
    draws=_closing_draws,
    right=_closing,
    missteps=(
        Misstep(
            "one-flank-only",
            lambda v: 2 * _closing(v),
            "{entry} agrees with one flank alone.",
            "Look at the section. How many flanks of a ridge come closer when the halves close?",
        ),
        Misstep(
            "whole-angle-used",
            lambda v: v["play"] / (2 * tan(2 * FLANK_DEG)),
            "{entry} agrees with flanks that lean by 30° each.",
            "Between the flanks are 30°. By how much does one of them lean?",
        ),
        Misstep(
            "multiplied-by-the-tangents",
            lambda v: v["play"] * 2 * tan(FLANK_DEG),
            "{entry} agrees with the play times the tangents.",
            "The flank leans a little only. Does the half move more or less than the play?",
        ),
        Misstep(
            "halves-close-as-far-as-the-play",
            lambda v: v["play"],
            "{entry} agrees with halves that close by the play itself.",
            "The play lies along the screw. The halves close across it. Which tangent joins the two?",
        ),
        Misstep(
            "tangents-left-at-a-quarter",
            lambda v: v["play"] / (4 * tan(FLANK_DEG)),
            "{entry} agrees with four flanks.",
            "One ridge has two flanks. Count again.",
        ),
    ),
    hints=(
        "Play taken up = s × 2 × tan 15°. Turn that round.",
        "s = play ÷ (2 × tangent of one flank).",
        "A similar case: a metric thread, tangent 0.5774, play 0.5 mm. 0.5 ÷ 1.1548 = 0.433 mm.",
    ),
    marks=1,
    outcome=OUTCOME,
)

LATCH = Exercise(
    key="threads_that_move.latch",
    asks="Now alone. A latch keeps each half of a trapezoidal half nut shut with {latch} N. "
    "The thrust along the screw parts the halves: each is pushed away with thrust × tan(flank angle) ÷ π. "
    "tan 15° = {tan_half:.4f}, tan 30° = {tan_whole:.4f}, π = 3.142. "
    "At which thrust does the latch give way?",
    answer=Quantity("N", 10, (1, 1000000), spread=lambda v: up(5 + 0.003 * _thrust(v), 10)),
    draws=_latch_draws,
    right=_thrust,
    missteps=(
        Misstep(
            "pi-left-out",
            lambda v: _thrust(v) / math.pi,
            "{entry} agrees with a push that all points across the split.",
            "Only a part of the outward push parts the halves. Which number stands for that?",
            keeps=1,
        ),
        Misstep(
            "whole-angle-used",
            lambda v: _thrust(v) * tan(FLANK_DEG) / tan(2 * FLANK_DEG),
            "{entry} agrees with flanks that lean by 30°.",
            "Between the flanks are 30°. By how much does one of them lean?",
            keeps=1,
        ),
        Misstep(
            "two-halves-added",
            lambda v: 2 * _thrust(v),
            "{entry} agrees with two latches that add up.",
            "The push on each half is told already. Compare it with what holds that half.",
            keeps=1,
        ),
        Misstep(
            "latch-taken-for-the-thrust",
            lambda v: v["latch"] * tan(FLANK_DEG) / math.pi,
            "{entry} agrees with the push that a thrust as large as the latch would give.",
            "What is known now: the thrust, or the push on a half?",
        ),
    ),
    hints=(
        "At that thrust the push on each half is just what the latch holds.",
        "Thrust = latch × π ÷ tangent of one flank.",
        "A similar case: a metric half nut, tangent 0.5774, latch 100 N. 100 × 3.142 ÷ 0.5774 = 540 N.",
    ),
    marks=2,
    outcome=OUTCOME,
)

PRESSURE = Exercise(
    key="threads_that_move.pressure",
    asks="Two full half nuts are closed on a screw Tr{size:g}, pitch {pitch:g} mm, with {starts} starts. "
    "They are {length} mm long and bear {force} N. Mean diameter {mean:g} mm. "
    "Screw and nut share {shared:g} mm of depth. "
    "Pressure = load ÷ (π × mean diameter × shared depth × number of ridges in the nut). "
    "How large is the pressure on the flanks?",
    answer=Quantity("MPa", 0.01, (0.01, 2000), spread=lambda v: up(0.005 + 0.008 * _pressure(v), 0.01)),
    draws=_pressure_draws,
    right=_pressure,
    missteps=(
        Misstep(
            "ridges-counted-by-lead",
            lambda v: _pressure(v) * v["starts"],
            "{entry} agrees with ridges that are counted by the lead.",
            "All starts carry. Count the ridges along the nut: how far is it from one to the next?",
        ),
        Misstep(
            "one-ridge-only",
            lambda v: _pressure(v) * ridges_engaged(v["length"], _trapezoidal(v, v["starts"])),
            "{entry} agrees with one ridge that carries all.",
            "How many ridges does the nut hold?",
        ),
        Misstep(
            "depth-on-both-sides",
            lambda v: _pressure(v) / 2,
            "{entry} agrees with the depth taken twice.",
            "The circle goes all round already. Take the depth of one side.",
            keeps=1,
        ),
        Misstep(
            "pi-left-out",
            lambda v: _pressure(v) * math.pi,
            "{entry} agrees with a ring whose length is its diameter.",
            "How long is a ridge once round?",
            keeps=1,
        ),
    ),
    hints=(
        "First count the ridges: length of the nut ÷ pitch. Several starts change nothing in that.",
        "Then the area: π × mean diameter × shared depth × ridges. N ÷ mm² = MPa.",
        "A similar case: 9000 N, mean diameter 94 mm, depth 6 mm, 4 ridges. "
        "9000 ÷ (3.142 × 94 × 6 × 4) = 1.27 MPa.",
    ),
    marks=2,
    outcome=OUTCOME,
)
