"""Heat treatment of rivets: the bath, the clock of a batch, the limit that counts, portions and baskets."""

from workbench.exercises.rivet_heat_treatment.bath import CELSIUS, DAMP, IN_HAND, SETTING, SOAK_END
from workbench.exercises.rivet_heat_treatment.clocks import HARD_AT, HOURS, LEFT
from workbench.exercises.rivet_heat_treatment.limits import LOAD_WAIT, OTHER_ALLOY, RETURNED
from workbench.exercises.rivet_heat_treatment.planning import BASKETS, LIFE, PORTION

EXERCISES = (
    DAMP, CELSIUS, SETTING, SOAK_END, IN_HAND,
    HARD_AT, LEFT, HOURS,
    OTHER_ALLOY, LOAD_WAIT, RETURNED,
    LIFE, PORTION, BASKETS,
)  # fmt: skip
