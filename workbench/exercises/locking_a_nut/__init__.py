"""Locking a nut: which lock holds, the slot that will not line up, the hole in the right place, pins, wire, cost."""

from workbench.exercises.locking_a_nut.choosing import HOLDS, PAIR, PAYS, WIRE
from workbench.exercises.locking_a_nut.clamp import GAIN, ROOM, STEP
from workbench.exercises.locking_a_nut.pinning import CENTRE, LENGTH, REUSE, SPARE
from workbench.exercises.locking_a_nut.slots import EASED, TURN_ON, WASHER

EXERCISES = (
    HOLDS, WIRE, PAIR,
    TURN_ON, EASED, WASHER,
    STEP, GAIN, ROOM,
    CENTRE, SPARE, LENGTH, REUSE,
    PAYS,
)  # fmt: skip
