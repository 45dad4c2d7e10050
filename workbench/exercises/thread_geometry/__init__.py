"""The geometry of a thread: from one triangle to all diameters, limits of a pair, wires and gauges, tapping."""

from workbench.exercises.thread_geometry.gauging import ACTS_AS, BEST_WIRE, MEASURED, VERDICT
from workbench.exercises.thread_geometry.pair import PLATED, PLAY, THINNEST
from workbench.exercises.thread_geometry.tapping import DRILL, HOLE_DEPTH, OVER_LIMIT, PERCENT, SWARF
from workbench.exercises.thread_geometry.triangle import BORE, ENGAGEMENT, PITCH_DIAMETER, ROOT

EXERCISES = (
    SWARF, PITCH_DIAMETER, BORE, ENGAGEMENT,
    ROOT, THINNEST, PLAY, PLATED,
    BEST_WIRE, MEASURED, ACTS_AS, VERDICT,
    PERCENT, DRILL, OVER_LIMIT, HOLE_DEPTH,
)  # fmt: skip
