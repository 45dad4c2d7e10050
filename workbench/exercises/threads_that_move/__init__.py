"""Threads that move: torque up and down, what holds a load, screws for machines, and nuts in two halves."""

from workbench.exercises.threads_that_move.halves import LATCH, PRESSURE, TAKE_UP
from workbench.exercises.threads_that_move.holding import BEARING, BEFORE, LEAST
from workbench.exercises.threads_that_move.lifting import COLLAR, CRANK, LOWER, RAISE, REPAIR
from workbench.exercises.threads_that_move.machines import JOB, SECOND, TURNED

EXERCISES = (
    BEFORE, RAISE, COLLAR, CRANK,
    LOWER, LEAST, BEARING, REPAIR,
    JOB, SECOND, TURNED,
    TAKE_UP, LATCH, PRESSURE,
)  # fmt: skip
