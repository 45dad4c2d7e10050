"""From strength to clamp, from clamp to torque; oil on a dry torque; friction under the head left out."""

from workbench.exercises.draws import as_round, up
from workbench.exercises.exercise import Exercise, Misstep, Quantity
from workbench.exercises.tightening.outcomes import CLAMP
from workbench.exercises.tightening.sizes import bolts, clamp_n, loads, lost
from workbench.screws.bearing import hexagon
from workbench.screws.torque import face_mean_mm, long_form, nut_factor_preload_n, nut_factor_torque_nmm
from workbench.threads.profile import profile
from workbench.threads.tapping import clearance_hole_mm

_SHARE = 0.75
# nut factor of a dry table, and after oiling
_DRY_OILED = ((0.20, 0.14), (0.19, 0.14), (0.18, 0.13), (0.21, 0.15), (0.17, 0.12), (0.16, 0.11))


def _preload(v):
    return _SHARE * loads(v).proof_n


def _preload_spread(v):
    return up(_preload(v) * lost(_SHARE * v["proof"], _preload(v)), 10)


def _torque(v):
    return nut_factor_torque_nmm(v["factor"], v["earlier"], v["size"]) / 1000


def _torque_spread(v):
    return up(_torque(v) * lost(v["earlier"], v["factor"] * v["earlier"], _torque(v)), 0.1)


def _torque_draws():
    draws = [{**bolt, "factor": factor} for bolt in bolts() for factor in (0.15, 0.16, 0.17, 0.18, 0.19)]
    return as_round(draws, lambda v: TORQUE.answer.rounded(_torque({**v, "earlier": _preload(v)})), 1)


def _oiled(v):
    return nut_factor_preload_n(v["oiled"], nut_factor_torque_nmm(v["dry"], v["clamp"], v["size"]), v["size"])


def _oiled_spread(v):
    return up(_oiled(v) * lost(v["dry"] / v["oiled"], _oiled(v)), 10)


def _oiled_draws():
    """Real bolts whose oiled clamp passes the proof load but not yet yield."""
    draws = [
        {**bolt, "clamp": clamp_n(bolt), "dry": dry, "oiled": oiled, "proof_load": round(loads(bolt).proof_n, -2)}
        for bolt in bolts()
        for dry, oiled in _DRY_OILED
    ]
    return [v for v in draws if 1.01 * v["proof_load"] < _oiled(v) < 0.99 * loads(v).yield_n]


def _long(v):
    return long_form(v["clamp"], v["pitch"], v["middle"], v["rubs"], v["face"], v["rubs"])


def _needed(v):
    return _long(v).total_nmm / 1000


def _needed_spread(v):
    """The printed 0.159 and 0.577 are off by a thousandth at most."""
    face = v["rubs"] * v["face"] / 2
    return up(_needed(v) * (0.001 + lost(face, v["total"] + face, _needed(v))), 0.1)


def _repair_draws():
    draws = []
    for bolt in bolts():
        middle = round(profile("metric", bolt["size"], bolt["pitch"]).pitch_diameter_mm, 2)
        face = round(face_mean_mm(hexagon(bolt["size"])["face_mm"], clearance_hole_mm(bolt["size"])), 1)
        for rubs in (0.11, 0.12, 0.13, 0.14):
            stretch, thread = (round(one + 1e-9, 3) for one in (0.159 * bolt["pitch"], 0.577 * rubs * middle))
            total, clamp = round(stretch + thread, 3), clamp_n(bolt)
            draws.append({**bolt, "clamp": clamp, "middle": middle, "face": face, "rubs": rubs, "stretch": stretch,
                          "thread": thread, "total": total, "shown": round(clamp * total / 1000, 1)})  # fmt: skip
    return as_round(draws, lambda v: REPAIR.answer.rounded(_needed(v)), 1)


PRELOAD = Exercise(
    key="tightening.preload",
    asks="A bolt M{size} {class} is to be tightened to 75 % of its proof load. "
    "Its proof stress is {proof:g} MPa. Its tensile strength is {tensile:g} MPa. "
    "Its stress area is {area:g} mm². Its plain shank has {shank_area:g} mm².\n"
    "Clamp force = 0.75 × stress × area = ? N.\n\n"
    "Choose the right stress and the right area. Fill in the last line.",
    answer=Quantity("N", 1, (100, 1000000), spread=_preload_spread),
    draws=_torque_draws,
    right=_preload,
    missteps=(
        Misstep(
            "shank-area-used",
            lambda v: _SHARE * v["proof"] * v["shank_area"],
            "{entry} agrees with the area of the plain shank.",
            "The bolt is weakest where it has thread. Which of the two areas belongs there?",
        ),
        Misstep(
            "tensile-strength-used",
            lambda v: _SHARE * v["tensile"] * v["area"],
            "{entry} agrees with the strength at which the bolt breaks.",
            "Which stress may the bolt bear without stretching for good?",
        ),
        Misstep(
            "whole-proof-load",
            lambda v: v["proof"] * v["area"],
            "{entry} agrees with the whole proof load.",
            "Something must be left for the load at work and for scatter. How much was asked?",
        ),
        Misstep(
            "divided-by-the-share",
            lambda v: v["proof"] * v["area"] / _SHARE,
            "{entry} agrees with a division by 0.75.",
            "Is three quarters of a load more or less than the load?",
        ),
    ),
    hints=(
        "Thread carries the load, so take the stress area.",
        "Proof stress is what the bolt bears without stretching for good.",
        "A similar case: proof stress 200 MPa, stress area 40 mm². 0.75 × 200 × 40 = 6000 N.",
    ),
    marks=1,
    outcome=CLAMP,
)

TORQUE = Exercise(
    key="tightening.torque",
    asks="The same bolt M{size} {class} gets the clamp force that you found. "
    "Its nut factor K is {factor:.2f}. Which torque does it need, in N m? Work with your clamp force.",
    answer=Quantity("N m", 0.1, (0.1, 5000), spread=_torque_spread),
    draws=_torque_draws,
    right=_torque,
    missteps=(
        Misstep(
            "newton-millimetres",
            lambda v: 1000 * _torque(v),
            "{entry} comes from N × mm: that gives N mm.",
            "How many mm has a metre? Picture that pull on a spanner one metre long.",
            keeps=1,
        ),
        Misstep(
            "factor-left-out",
            lambda v: _torque(v) / v["factor"],
            "{entry} agrees with clamp × diameter.",
            "Which figure in the question says how much friction there is?",
        ),
        Misstep(
            "radius-used",
            lambda v: _torque(v) / 2,
            "{entry} agrees with half of the diameter.",
            "The nut factor goes with the whole diameter. Look at the rule again.",
            keeps=1,
        ),
        Misstep(
            "divided-by-the-factor",
            lambda v: _torque(v) / v["factor"] ** 2,
            "{entry} agrees with a division by K.",
            "More friction needs more torque. Multiply or divide?",
        ),
    ),
    hints=(
        "Torque = K × clamp force × diameter.",
        "Clamp in N and diameter in mm give N mm. Divide by 1000 for N m.",
        "A similar case: K 0.25, 2000 N, M30. 0.25 × 2000 × 30 = 15000 N mm. That is 15.0 N m.",
    ),
    marks=2,
    outcome=CLAMP,
    follows=PRELOAD,
)

OILED = Exercise(
    key="tightening.oiled",
    asks="A table for dry bolts pulls an M{size} {class} to {clamp:.0f} N. Its nut factor is {dry:.2f}. "
    "Somebody oils the bolt: the nut factor falls to {oiled:.2f}. The torque stays as in the table. "
    "Which clamp force is reached? Compare it with the proof load of {proof_load:.0f} N.",
    answer=Quantity("N", 1, (100, 1000000), spread=_oiled_spread),
    draws=_oiled_draws,
    right=_oiled,
    missteps=(
        Misstep(
            "same-torque-same-clamp",
            lambda v: v["clamp"],
            "{entry} agrees with “same torque, same clamp”.",
            "Less of the torque is rubbed away. Where does the rest go?",
        ),
        Misstep(
            "ratio-upside-down",
            lambda v: v["clamp"] * v["oiled"] / v["dry"],
            "{entry} agrees with a clamp that oil makes smaller.",
            "Does oil let the nut turn further or less far?",
        ),
        Misstep(
            "gain-alone",
            lambda v: _oiled(v) - v["clamp"],
            "{entry} agrees with what oil adds.",
            "That is sound. Asked is the whole clamp.",
            keeps=1,
        ),
        Misstep(
            "factors-subtracted",
            lambda v: v["clamp"] * (1 + v["dry"] - v["oiled"]),
            "{entry} agrees with the difference of the two factors.",
            "Clamp and factor multiply to the same torque. So work with their ratio.",
        ),
    ),
    hints=(
        "The torque is K × clamp × diameter, before and after. Diameter and torque stay.",
        "So old K × old clamp = new K × new clamp.",
        "A similar case: K falls from 0.30 to 0.15. A clamp of 4000 N becomes 8000 N.",
    ),
    marks=2,
    outcome=CLAMP,
)

REPAIR = Exercise(
    key="tightening.repair",
    asks="A workmate works out the torque for an M{size} with {clamp:.0f} N of clamp. "
    "The pitch is {pitch:g} mm, the pitch diameter {middle:g} mm. "
    "The face under the nut has a mean diameter of {face:g} mm. "
    "The coefficient of friction is {rubs:g} everywhere. He writes:\n"
    "Stretching: 0.159 × {pitch:g} = {stretch:g} mm.\n"
    "Rubbing in the thread: 0.577 × {rubs:g} × {middle:g} = {thread:g} mm.\n"
    "Together: {total:g} mm. Times the clamp: {shown:g} N m.\n\n"
    "Every sum is right, but the joint stays too loose. Find what is missing. Which torque is needed?",
    answer=Quantity("N m", 0.1, (0.1, 5000), spread=_needed_spread),
    draws=_repair_draws,
    right=_needed,
    missteps=(
        Misstep(
            "face-left-out",
            lambda v: v["shown"],
            "{entry} agrees with the workmate's own figure.",
            "Which two faces rub besides the threads while the nut turns?",
        ),
        Misstep(
            "face-on-the-diameter",
            lambda v: (_long(v).in_thread_nmm + 2 * _long(v).face_nmm) / 1000,
            "{entry} agrees with the whole diameter of the face as lever.",
            "A force acts on the radius. How large is it?",
            keeps=1,
        ),
        Misstep(
            "face-alone",
            lambda v: _long(v).face_nmm / 1000,
            "{entry} agrees with the rubbing under the nut alone.",
            "That is the missing part. What did the workmate have already?",
            keeps=1,
        ),
        Misstep(
            "stretching-alone",
            lambda v: _long(v).stretch_nmm / 1000,
            "{entry} agrees with the part that stretches the bolt.",
            "Friction takes far more than that. Add its two parts.",
        ),
    ),
    hints=(
        "Three things take torque: stretching, rubbing in the thread, rubbing under the nut.",
        "Under the nut: coefficient × mean diameter ÷ 2. Add it in mm, then multiply by the clamp.",
        "A similar case: 0.5 mm and 1.5 mm are there. Coefficient 0.1, mean diameter 40 mm: 2 mm more. "
        "With 1000 N the 4 mm give 4.0 N m.",
    ),
    marks=2,
    outcome=CLAMP,
)
