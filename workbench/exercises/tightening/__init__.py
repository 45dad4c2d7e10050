"""Tightening: from the pull on a spanner to the clamp in a joint, and what is left of it under load."""

from workbench.exercises.tightening.clamping import OILED, PRELOAD, REPAIR, TORQUE
from workbench.exercises.tightening.loading import BOLT_LOAD, CLAMP_LEFT, OPENS
from workbench.exercises.tightening.stacking import CROSSWISE, GAP, WASHERS
from workbench.exercises.tightening.wrench import EXTENSION, SQUARE, STANCE, UNIT

EXERCISES = (
    STANCE, PRELOAD, TORQUE, OILED,
    REPAIR, UNIT, EXTENSION, SQUARE,
    BOLT_LOAD, CLAMP_LEFT, OPENS,
    GAP, WASHERS, CROSSWISE,
)  # fmt: skip
