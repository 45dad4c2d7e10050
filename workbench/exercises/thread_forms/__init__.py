"""Thread forms: tell them apart, choose one, several starts, what a sloping flank costs, two threads on one spindle."""

from workbench.exercises.thread_forms.choosing import BUTTRESS, CHOOSE_FORM, HOLD, REVERSED
from workbench.exercises.thread_forms.pushing import CREEPS, EFFICIENCY, FRICTION, PARTING, PUSH
from workbench.exercises.thread_forms.spindle import FINE, REPAIR, TENSIONER
from workbench.exercises.thread_forms.starts import LEAD_ANGLE, PART_TURN, TURNS
from workbench.exercises.thread_forms.telling import MEAN_DIAMETER, ROOT, TRIANGLE

EXERCISES = (
    HOLD, MEAN_DIAMETER, ROOT, TRIANGLE,
    CHOOSE_FORM, BUTTRESS, REVERSED,
    PUSH, PARTING, FRICTION, EFFICIENCY,
    PART_TURN, LEAD_ANGLE, TURNS, CREEPS,
    FINE, TENSIONER, REPAIR,
)  # fmt: skip
