"""Reading a call-out: form, diameter, pitch, lead, hand, lengths, classes, and screws that look alike."""

from workbench.exercises.reading_a_callout.choosing import CRESTS, MISMATCH, TIGHT, WHICH
from workbench.exercises.reading_a_callout.classes import LEAST, LOAD, PAIR, REPAIR
from workbench.exercises.reading_a_callout.decoding import HEARD, IN_FULL, INCH_PITCH
from workbench.exercises.reading_a_callout.leads import ADVANCE, HAND, STARTS
from workbench.exercises.reading_a_callout.lengths import FLUSH, ORDERED, PLAIN

EXERCISES = (
    TIGHT, IN_FULL, HEARD, INCH_PITCH,
    STARTS, ADVANCE, HAND,
    ORDERED, FLUSH, PLAIN,
    PAIR, LEAST, REPAIR, LOAD,
    CRESTS, WHICH, MISMATCH,
)  # fmt: skip
