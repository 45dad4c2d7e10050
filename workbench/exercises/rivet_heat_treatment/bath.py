"""At the bath: dry first, degrees of two scales, the setting, the soak, the quench delay."""

from itertools import permutations

from workbench.exercises.draws import as_round
from workbench.exercises.exercise import Choice, Exercise, Misstep, Quantity
from workbench.exercises.rivet_heat_treatment.figures import clock, unprinted
from workbench.exercises.rivet_heat_treatment.outcomes import BATH
from workbench.rivets.heat_treatment import (
    band,
    celsius,
    delay_in_hand_s,
    quench_delay_s,
    setting_window,
    soak_end,
    soak_min,
)

_DAMP = {
    "stop": "It stays out. First it is dried through and checked: water in hot salts bursts into steam.",
    "slow": "It goes in slowly: then the drops dry off above the salts before they touch.",
    "straight": "It goes straight in: at 500 °C a few drops are gone in a moment.",
    "wipe": "It is wiped with an oily rag first: oil drives the water out.",
}


def _damp_draws():
    return [
        {"thing": thing, "after": after, "order": order}
        for thing in ("basket", "hook")
        for after in ("the last quench", "a wash")
        for order in permutations(_DAMP)
    ]


def _celsius(v):
    return round(celsius(v["chart"]), 1)


def _celsius_draws():
    draws = [{"chart": chart, "less": chart - 32} for chart in range(901, 960) if (chart - 32) % 9]
    return as_round(draws, _celsius, 1)


def _setting(v):
    one = band(v["alloy"])
    return setting_window(one, round(v["furnace"] + v["gauge"], 1))[1]


def _setting_draws():
    """Furnace and instrument off by unlike tenths; what is left of the band is wider than nothing."""
    draws = []
    for alloy in ("2024", "2017"):
        one = band(alloy)
        low, high = int(one.low_degc), int(one.high_degc)
        for furnace in (1.7, 2.1, 2.3, 2.6, 2.9, 3.2):
            for gauge in (0.4, 0.6, 0.9, 1.2, 1.5, 1.9):
                if low + furnace + gauge < high - furnace - gauge - 0.5 and furnace - gauge > 0.25:
                    draws.append({"alloy": alloy, "low": low, "high": high, "furnace": furnace, "gauge": gauge})
    draws = [draw for draw in draws if abs(_setting(draw) - 500) > 0.2]
    return as_round(draws, lambda v: round(_setting(v), 1), 1)


def _soaked(v):
    return soak_end(v["warmed"], v["soak"])


def _soak_draws():
    """Loaded and in the band on either side of a full hour, so that clock times cannot be taken off as figures."""
    draws = []
    for furnace in ("salt bath", "air furnace"):
        soak = int(soak_min(4, furnace, "rivets")[0])
        for loaded in (8 * 60 + 47, 9 * 60 + 52, 13 * 60 + 49, 14 * 60 + 51, 21 * 60 + 46):
            for warmed in (15, 17, 18, 19, 21, 22):
                draws.append({"furnace": furnace, "soak": soak, "loaded": clock(loaded),
                              "ready": clock(loaded + warmed), "warmed": warmed, "mixed": warmed + 40})
    return unprinted(draws, _soaked)


def _in_hand(v):
    return round(delay_in_hand_s(v["limit"], v["lift"], v["carry"], v["sink"]), 1)


def _in_hand_draws():
    limit = int(quench_delay_s(4, "handbook"))
    draws = [
        {"limit": limit, "lift": lift, "carry": carry, "sink": sink}
        for lift in (1.4, 1.7, 2.2, 2.4, 2.6)
        for carry in (2.1, 2.8, 3.3, 3.9)
        for sink in (0.8, 1.2, 1.9)
    ]
    draws = [draw for draw in draws if len({draw["lift"], draw["carry"], draw["sink"], _in_hand(draw)}) == 4]
    draws = [draw for draw in draws if 0.5 < _in_hand(draw) and abs(2 * _in_hand(draw) - limit) > 0.3]
    return unprinted(as_round(draws, _in_hand, 1), _in_hand, also=(1.5, 4, 4.5, 5))


DAMP = Exercise(
    key="rivet_heat_treatment.damp",
    asks="The {thing} is damp after {after}. The salts stand at 495 °C. What happens with the {thing} now, and why?",
    answer=Choice(_DAMP),
    draws=_damp_draws,
    right=lambda v: "stop",
    missteps=(
        Misstep(
            "damp-thing-lowered-slowly",
            lambda v: "slow",
            "Your choice agrees with drops that dry in time. A drop under the surface bursts all the same.",
            "What becomes of water that is shut in by salts of 495 °C?",
        ),
        Misstep(
            "damp-thing-straight-in",
            lambda v: "straight",
            "Your choice agrees with drops that go quietly. Water becomes steam at once, and throws hot salts.",
            "How much room does a drop need as steam? Who stands near?",
        ),
        Misstep(
            "oil-near-salts",
            lambda v: "wipe",
            "Your choice agrees with oil as a help. Nitrate salts feed a fire: oil in them burns fiercely.",
            "Which things must never come near the salts? Look at the list of hazards.",
        ),
    ),
    hints=(
        "Ask of each choice: is any water or oil left when it meets the salts?",
        "Dry means dry through, checked by somebody before the bath.",
        "A similar case: wet tongs never go into molten lead. They are warmed and dried first.",
    ),
    marks=1,
    outcome=BATH,
    critical=True,
)

CELSIUS = Exercise(
    key="rivet_heat_treatment.celsius",
    asks="The old chart of the bath is in °F, the controller in °C. The chart says {chart} °F. A workmate has begun:\n"
    "First take 32 off: {chart} − 32 = {less}.\n"
    "Then divide by 1.8: ? °C.\n\n"
    "Fill in the last line.",
    answer=Quantity("degC", 0.1, (300, 1200)),
    draws=_celsius_draws,
    right=lambda v: celsius(v["chart"]),
    missteps=(
        Misstep(
            "thirty-two-not-taken-off",
            lambda v: v["chart"] / 1.8,
            "{entry} agrees with a sum that starts from the chart itself. It is about 18 °C too hot.",
            "Try the sum with boiling water, 212 °F. It must give 100.",
        ),
        Misstep(
            "thirty-two-taken-off-last",
            lambda v: v["chart"] / 1.8 - 32,
            "{entry} agrees with a division first and the 32 taken off afterwards.",
            "Try the sum with freezing water, 32 °F. It must give 0.",
        ),
        Misstep(
            "thirty-two-added",
            lambda v: (v["chart"] + 32) / 1.8,
            "{entry} agrees with 32 added.",
            "Water freezes at 32 °F and at 0 °C. Which number is the larger?",
        ),
        Misstep(
            "halved",
            lambda v: v["less"] / 2,
            "{entry} agrees with half. That rule serves for the weather, not for a furnace.",
            "Divide by the figure of line 2.",
        ),
        Misstep(
            "multiplied-by-one-point-eight",
            lambda v: v["less"] * 1.8,
            "{entry} comes from a multiplication.",
            "One step of a degree Celsius is larger than one of a degree Fahrenheit. So which number is smaller?",
        ),
    ),
    hints=(
        "The first line is sound. Only one division is left.",
        "°C = (°F − 32) ÷ 1.8.",
        "A similar case: 212 °F. 212 − 32 = 180. 180 ÷ 1.8 = 100 °C.",
    ),
    marks=1,
    outcome=BATH,
)

SETTING = Exercise(
    key="rivet_heat_treatment.setting",
    asks="Rivets of {alloy} must be heated. The document prints {low} to {high} °C. "
    "The last survey says: the hottest corner may stand {furnace:.1f} °C above the setting. "
    "The instrument may be off by {gauge:.1f} °C as well. "
    "Both can come together. How high may you set the furnace at most?",
    answer=Quantity("degC", 0.1, (400, 600)),
    draws=_setting_draws,
    right=_setting,
    missteps=(
        Misstep(
            "top-of-the-band",
            lambda v: v["high"],
            "{entry} agrees with the top of the band. The hottest corner then passes it.",
            "How hot is the hottest corner at this setting?",
        ),
        Misstep(
            "about-five-hundred",
            lambda v: 500,
            "{entry} agrees with the round figure of the trade.",
            "Each alloy has a band of its own. Put the errors to this figure: where do you land?",
        ),
        Misstep(
            "furnace-error-alone",
            lambda v: v["high"] - v["furnace"],
            "{entry} agrees with the furnace's error alone.",
            "The instrument may be off too. Take both off the top.",
            keeps=1,
        ),
        Misstep(
            "instrument-error-alone",
            lambda v: v["high"] - v["gauge"],
            "{entry} agrees with the instrument's error alone.",
            "The hottest corner counts too. Take both off the top.",
            keeps=1,
        ),
        Misstep(
            "errors-added-to-the-top",
            lambda v: v["high"] + v["furnace"] + v["gauge"],
            "{entry} agrees with errors added to the top.",
            "An error must leave room. Should the setting lie above or below the top?",
        ),
        Misstep(
            "errors-set-against-each-other",
            lambda v: v["high"] - v["furnace"] + v["gauge"],
            "{entry} comes from errors that help each other.",
            "What if both push the same way? Think of the worst moment.",
        ),
        Misstep(
            "lowest-setting",
            lambda v: v["low"] + v["furnace"] + v["gauge"],
            "{entry} agrees with the lowest setting: it keeps the coldest corner in the band.",
            "Which end of the band does the hottest corner pass?",
        ),
    ),
    hints=(
        "Think of the worst moment: hottest corner and instrument both off the wrong way.",
        "Highest setting = top of the band − both errors.",
        "A similar case: a band up to 541 °C, errors 4 °C and 1 °C. 541 − 5 = 536 °C.",
    ),
    marks=2,
    outcome=BATH,
    critical=True,
)

SOAK_END = Exercise(
    key="rivet_heat_treatment.soak_end",
    asks="A basket goes into the {furnace} at {loaded}. The probe between the rivets reaches the band at {ready}. "
    "The document wants a soak of {soak} min. How many minutes after loading may the basket come out at the earliest?",
    answer=Quantity("minute", 1, (5, 300)),
    draws=_soak_draws,
    right=_soaked,
    missteps=(
        Misstep(
            "soak-counted-from-loading",
            lambda v: v["soak"],
            "{entry} agrees with a soak that begins at loading.",
            "The soak counts from when the rivets are in the band. When was that?",
        ),
        Misstep(
            "warming-alone",
            lambda v: v["warmed"],
            "{entry} agrees with the time until the band was reached.",
            "That is when the soak begins. Add it.",
        ),
        Misstep(
            "clock-times-taken-off-as-figures",
            lambda v: v["mixed"] + v["soak"],
            "{entry} agrees with clock times taken off like plain figures. An hour then has 100 minutes.",
            "Count first to the full hour, then on from it.",
        ),
        Misstep(
            "warming-taken-off",
            lambda v: v["soak"] - v["warmed"],
            "{entry} agrees with a soak made shorter by the warming.",
            "While it warms up, the metal is below the band. Does that time count?",
        ),
        Misstep(
            "soak-of-the-other-furnace",
            lambda v: v["warmed"] + 90 - v["soak"],
            "{entry} agrees with the soak of the other kind of furnace.",
            "Salts or air: which soak does the question print?",
        ),
    ),
    hints=(
        "How many minutes lie between the two clock times? Count to the full hour first.",
        "Minutes after loading = minutes until in the band + soak.",
        "A similar case: in at 07:56, in the band at 08:09, soak 70 min. 4 + 9 = 13, and 13 + 70 = 83 min.",
    ),
    marks=1,
    outcome=BATH,
)

IN_HAND = Exercise(
    key="rivet_heat_treatment.in_hand",
    asks="A dry run with a cold basket, by stopwatch. The time starts when the first rivet leaves the salts. "
    "Lifting out takes {lift:.1f} s, carrying {carry:.1f} s. "
    "Sinking takes {sink:.1f} s until the last rivet is under water. "
    "The document allows a quench delay of {limit} s. How many seconds are in hand?",
    answer=Quantity("second", 0.1, (0.1, 20)),
    draws=_in_hand_draws,
    right=_in_hand,
    missteps=(
        Misstep(
            "only-the-carry-timed",
            lambda v: v["limit"] - v["carry"],
            "{entry} agrees with the carry alone.",
            "When does the first rivet leave the heat? When is the last one under water?",
        ),
        Misstep(
            "sinking-left-out",
            lambda v: v["limit"] - v["lift"] - v["carry"],
            "{entry} agrees with a clock that stops at the water's surface.",
            "The upper rivets are still hot and dry then. Count until the last is under.",
        ),
        Misstep(
            "lifting-left-out",
            lambda v: v["limit"] - v["carry"] - v["sink"],
            "{entry} agrees with a clock that starts when the basket hangs free.",
            "The first rivets leave the heat earlier. Start there.",
        ),
        Misstep(
            "delay-for-what-is-left",
            lambda v: v["lift"] + v["carry"] + v["sink"],
            "{entry} agrees with the delay itself.",
            "That is what you use. What is left of the time allowed?",
            keeps=1,
        ),
        Misstep(
            "delay-added",
            lambda v: v["limit"] + v["lift"] + v["carry"] + v["sink"],
            "{entry} comes from times added to the limit.",
            "Does each second on the way leave more time, or less?",
        ),
    ),
    hints=(
        "The clock runs from the first rivet out of the heat to the last one under water.",
        "In hand = time allowed − (lifting + carrying + sinking).",
        "A similar case: allowed 15 s, parts of 4.5 s, 5.0 s and 4.0 s. 15 − 13.5 = 1.5 s.",
    ),
    marks=2,
    outcome=BATH,
    critical=True,
)
