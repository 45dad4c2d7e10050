"""The measuring screw and the feed dial: readings, zero error, dials, judgement, and how to prepare."""

from workbench.exercises.measuring_screw.readings import FRAME, INCH_READING, PEEPING, PIN, SLEEVE, VERNIER
from workbench.exercises.measuring_screw.zero import PIN_SIZE, SHORT

EXERCISES = (SLEEVE, PIN, PIN_SIZE, PEEPING, SHORT, FRAME, VERNIER, INCH_READING)
