"""Which limit counts, for the alloy and for the use; what becomes of a rivet whose clock is in doubt."""

from itertools import permutations

from workbench.exercises.exercise import Choice, Exercise, Misstep, Quantity
from workbench.exercises.rivet_heat_treatment.figures import limit_min, unprinted
from workbench.exercises.rivet_heat_treatment.outcomes import DECIDE
from workbench.rivets.documents import printed_rules, rule

_RETURNED = {
    "tin": "Into the tin for re-treatment: nobody knows their clock any more.",
    "back": "Back into the cold store: it is cold enough to keep them soft.",
    "now": "They are driven at once: a soft feel under the hammer shows that they are good.",
    "next": "Left on the bench for the next shift: its clock begins anew.",
}


def _left_24(v):
    return v["limit_dd"] - v["warm"]


def _other_draws():
    dd, d = limit_min("handbook", "2024"), limit_min("handbook", "2017")
    draws = [
        {"warm": warm, "tray": tray, "limit_dd": dd, "limit_d": d, "shown": d - warm}
        for warm in (3, 4, 6, 7)
        for tray in ("left", "middle", "right", "upper", "lower", "front", "rear", "first", "second", "third", "spare")
    ]
    return unprinted(draws, _left_24, also=(1, 2))


def _load(document):
    return int(rule(document, "2017").load_after_h)


def _wait(v):
    return v["late"] - v["gone"]


def _wait_draws():
    late = max(int(one.load_after_h) for one in printed_rules() if one.alloy == "2017" and one.load_after_h)
    early = _load("air force")
    draws = [
        {"seam": seam, "days": late // 24, "gone": gone, "late": late, "early": early}
        for seam in ("lid", "base", "handle")
        for gone in (23, 26, 29, 31, 34, 38, 41, 44, 46, 47, 49, 51, 53, 55, 58, 61)
    ]
    return unprinted(draws, _wait)


def _returned_draws():
    return [
        {"when": when, "number": number, "order": order}
        for when in ("the end of the run", "a call to another job")
        for number in (14, 19)
        for order in permutations(_RETURNED)
    ]


OTHER_ALLOY = Exercise(
    key="rivet_heat_treatment.other_alloy",
    asks="Find the mistake. On the {tray} tray lie rivets with two raised dashes. They have been warm for {warm} min. "
    "By the handbook, 2017 may be driven for {limit_d} min and 2024 for {limit_dd} min. A workmate writes:\n"
    "1. The document allows {limit_d} min.\n"
    "2. {limit_d} − {warm} = {shown} min left.\n\n"
    "How many minutes are really left?",
    answer=Quantity("minute", 1, (0, 120)),
    draws=_other_draws,
    right=_left_24,
    missteps=(
        Misstep(
            "limit-of-the-other-alloy",
            lambda v: v["shown"],
            "{entry} agrees with the working as it stands. That is the limit of the other alloy.",
            "What do two raised dashes tell? Look at the head marks.",
        ),
        Misstep(
            "limit-without-the-minutes-warm",
            lambda v: v["limit_dd"],
            "{entry} agrees with rivets that come fresh from the quench.",
            "Line 1 is mended. Line 2 still takes the warm minutes off.",
            keeps=1,
        ),
        Misstep(
            "difference-of-the-limits",
            lambda v: v["limit_d"] - v["limit_dd"],
            "{entry} agrees with one limit taken off the other.",
            "Only one limit counts here. Whose?",
        ),
        Misstep(
            "warm-minutes-added",
            lambda v: v["limit_dd"] + v["warm"],
            "{entry} agrees with warm minutes added.",
            "Do warm minutes make the rest longer or shorter?",
        ),
    ),
    hints=(
        "The head mark tells the alloy. The alloy tells the limit.",
        "Minutes left = limit of this alloy − minutes warm.",
        "A similar case: limit 240 min, warm for 65 min. 240 − 65 = 175 min are left.",
    ),
    marks=2,
    outcome=DECIDE,
    critical=True,
)

LOAD_WAIT = Exercise(
    key="rivet_heat_treatment.load_wait",
    asks="The {seam} of the instrument case was riveted with 2017. That was {gone} h ago. "
    "One document says: full strength after {early} h. Another says: after about {days} days. "
    "Somebody wants to hang a load on it. By the safer document, how many hours must he still wait?",
    answer=Quantity("hour", 1, (0, 400)),
    draws=_wait_draws,
    right=_wait,
    missteps=(
        Misstep(
            "earlier-document-taken",
            lambda v: v["early"] - v["gone"],
            "{entry} agrees with the shorter time. To drive, the shorter is safer.",
            "Is a joint safer when it is loaded early or late?",
        ),
        Misstep(
            "days-of-eight-hours",
            lambda v: 8 * v["days"] - v["gone"],
            "{entry} agrees with days of 8 hours. Ageing goes on at night.",
            "Mark it on a calendar. How many hours has a whole day?",
        ),
        Misstep(
            "both-documents-added",
            lambda v: v["late"] + v["early"] - v["gone"],
            "{entry} agrees with both documents one after the other.",
            "They speak of the same time. Choose one.",
        ),
        Misstep(
            "hours-gone-left-in",
            lambda v: v["late"],
            "{entry} agrees with the whole time from driving.",
            "Some of it is over already. Take that off.",
            keeps=1,
        ),
        Misstep(
            "hours-gone-added",
            lambda v: v["late"] + v["gone"],
            "{entry} comes from the hours since riveting added.",
            "Do hours that are over make the wait longer or shorter?",
        ),
        Misstep(
            "earlier-document-whole",
            lambda v: v["early"],
            "{entry} agrees with the whole shorter time.",
            "When is the joint safer: loaded early or late? And what is over already?",
        ),
    ),
    hints=(
        "To drive, the shorter limit is safer. To load, the later one.",
        "Turn the days into hours: × 24. Then take off the hours that are over.",
        "A similar case: 3 days, 10 h over. 3 × 24 = 72, and 72 − 10 = 62 h.",
    ),
    marks=2,
    outcome=DECIDE,
    critical=True,
)

RETURNED = Exercise(
    key="rivet_heat_treatment.returned",
    asks="At {when}, {number} soft rivets lie unused in a tin on the bench. Nobody wrote down when they came out. "
    "Where do they go, and why?",
    answer=Choice(_RETURNED),
    draws=_returned_draws,
    right=lambda v: "tin",
    missteps=(
        Misstep(
            "put-back-into-the-store",
            lambda v: "back",
            "Your choice agrees with a store that makes rivets new. Their clock is no longer known.",
            "Could anybody tell these from the good ones afterwards?",
        ),
        Misstep(
            "judged-by-feel",
            lambda v: "now",
            "Your choice agrees with a test by feel. A rivet may form and still crack inside.",
            "Which choice needs no guess about minutes?",
        ),
        Misstep(
            "clock-begun-anew",
            lambda v: "next",
            "Your choice agrees with a clock that belongs to the shift. It belongs to the rivets.",
            "When does the clock of a rivet begin? When does it begin anew?",
        ),
    ),
    hints=(
        "What does a document need to know before a rivet may be driven?",
        "Only a new heat and quench begin the clock anew.",
        "A similar case: glue from a pot without a date is not used. It goes into the waste tin.",
    ),
    marks=1,
    outcome=DECIDE,
    critical=True,
)
