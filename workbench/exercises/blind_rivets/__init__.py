"""Blind rivets: grip, room, hole, metals, what a set rivet shows, what it holds, and what it costs."""

from workbench.exercises.blind_rivets.costing import BREAK_EVEN, DEARER, LABOUR
from workbench.exercises.blind_rivets.gripping import GRIP_OF_STACK, ROOM, TOO_LONG
from workbench.exercises.blind_rivets.holding import COUNT, PULL, SOFT
from workbench.exercises.blind_rivets.setting import BROKEN, COUPLE, FLYING, HOLE, STUB

EXERCISES = (
    FLYING,
    GRIP_OF_STACK, ROOM, TOO_LONG,
    HOLE, COUPLE,
    STUB, BROKEN,
    SOFT, PULL, COUNT,
    LABOUR, DEARER, BREAK_EVEN,
)  # fmt: skip
