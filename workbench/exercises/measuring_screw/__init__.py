"""The measuring screw and the feed dial: readings, zero error, dials, judgement, and how to prepare."""

from workbench.exercises.measuring_screw.dials import CUT, DIVISION, REPAIR, SLACK, TRAVEL
from workbench.exercises.measuring_screw.judging import CLEARANCE, SURE, WARM
from workbench.exercises.measuring_screw.preparing import DRIVE, STEPS
from workbench.exercises.measuring_screw.readings import FRAME, INCH_READING, PEEPING, PIN, SLEEVE, VERNIER
from workbench.exercises.measuring_screw.zero import PIN_SIZE, SHORT

EXERCISES = (
    STEPS, DRIVE, SLEEVE, PIN,
    PIN_SIZE, SHORT, PEEPING,
    FRAME, VERNIER, INCH_READING, CLEARANCE,
    DIVISION, TRAVEL, CUT,
    REPAIR, SLACK, WARM, SURE,
)  # fmt: skip
