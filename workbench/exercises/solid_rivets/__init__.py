"""Solid rivets: choose head, alloy and size, work out length and countersink, lay out a row, judge and take out."""

from workbench.exercises.solid_rivets.choosing import CODE, DIAMETER, MARK
from workbench.exercises.solid_rivets.judging import COVER, CRACK, OVERSIZE, REMOVAL
from workbench.exercises.solid_rivets.row import EDGE, PITCH, SHEAR
from workbench.exercises.solid_rivets.sizing import COUNTERSINK, FLUSH_LENGTH, LEAST_SHEET, LENGTH

EXERCISES = (
    MARK, CODE, DIAMETER,
    LENGTH, FLUSH_LENGTH, COUNTERSINK, LEAST_SHEET,
    EDGE, PITCH, SHEAR,
    COVER, CRACK, REMOVAL, OVERSIZE,
)  # fmt: skip
