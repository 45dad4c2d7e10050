"""Choosing a power screw from a whole series: every size is tried, and each refusal says why.

Sizes: trapezoidal from ISO 2902, Acme from ASME B1.5; buttress 3/30 and square take the plan of ISO 2902 (DIN 513
uses its diameters and pitches, from memory). Friction is taken at its worst each time: the most there is for the
hand, the least there is for staying put. Figures are for learning, not for a screw that somebody stands under.
"""

from dataclasses import dataclass, field

from workbench.refusals import numbers, one_number, refuse, whole
from workbench.screws.buckling import critical_load_n, end_factor
from workbench.screws.power import collar_torque_nmm, holding, raising_torque_nmm
from workbench.screws.power_drive import hand_force_n, sliding_speed_m_min, travel_speed_mm_s
from workbench.screws.screw_stress import (
    flank_pressure_mpa,
    ridge_stress,
    ridges_engaged,
    root_axial_mpa,
    root_torsion_mpa,
    von_mises_mpa,
)
from workbench.screws.stiffness import modulus_mpa
from workbench.tables import table
from workbench.threads.profile import Profile, profile

_SERIES = {"trapezoidal": "trapezoidal_sizes", "acme": "acme_sizes",
           "buttress 3/30": "trapezoidal_sizes", "square": "trapezoidal_sizes"}  # fmt: skip
SAFETY = 3  # against yield and against buckling; nut 2 d long, collar 1.25 d in the mean: common practice, no source
NUT_LENGTH, COLLAR = 2, 1.25


@dataclass(frozen=True)
class Task:
    """What the screw must do.

    load_n, stroke_mm > 0; hand_n: most pull at the grip, crank_mm: from axis to grip; speed_mm_s: least travel, at
    turns_per_min of the crank; ends, steel, pair, collar, nut: rows of `column_ends`, `screw_steels`,
    `power_screw_friction`, `collar_friction`, and a material of `nut_pressures`; stays: must not run back by itself
    (a stop is needed all the same).
    """

    load_n: float
    stroke_mm: float
    hand_n: float
    crank_mm: float
    speed_mm_s: float = 0
    turns_per_min: float = 30
    stays: bool = True
    ends: str = "fixed free"
    steel: str = "C45+N"
    pair: str = "steel bronze oiled"
    collar: str = "soft steel on bronze"
    nut: str = "bronze"

    def __post_init__(self):
        for name in ("load_n", "stroke_mm", "hand_n", "crank_mm", "turns_per_min"):
            one_number(name, getattr(self, name), above=0)
        one_number("speed_mm_s", self.speed_mm_s, at_least=0)


@dataclass(frozen=True)
class Candidate:
    """One size tried for a task: what it would do, and the reasons against it (none: it serves)."""

    call: str
    thread: Profile
    torque_nmm: float
    hand_n: float
    speed_mm_s: float
    margin: float
    pressure_mpa: float
    stress_mpa: float
    buckles_at_n: float
    refusals: tuple[str, ...] = field(default=())


def allowed_pressure_mpa(material, sliding_m_min):
    """The lower (safer) figure of `nut_pressures` for a nut material at a sliding speed; between two rows the faster.

    >>> allowed_pressure_mpa("bronze", 2), allowed_pressure_mpa("bronze", 4)
    (11.0, 5.5)
    """
    speed = numbers("sliding_m_min", sliding_m_min, at_least=0)
    rows = [row for row in table("nut_pressures").rows.values() if row["material"] == material]
    if not rows:
        known = sorted({row["material"] for row in table("nut_pressures").rows.values()})
        refuse("material", material, f"is no nut of the table; there are {', '.join(known)}")
    for row in sorted(rows, key=lambda row: row["speed_most_m_min"]):
        if speed <= row["speed_most_m_min"]:
            return row["least_mpa"]
    refuse("sliding_m_min", sliding_m_min, "is faster than the table goes", "take more starts or a slower crank")


def series(form, starts=1):
    """All sizes of a form as (call-out, Profile), smallest first.

    >>> series("trapezoidal")[0][0], series("acme")[-1][0]
    ('Tr8x1.5', '5-2 Acme')
    """
    if form not in _SERIES:
        refuse("form", form, f"is no form for moving a load; there are {', '.join(_SERIES)}",
               "does it fasten? its flanks rub and spread the nut")
    count = whole("starts", starts, at_most=8, cause="count the beginnings of the thread at the end face")
    said, found = table("thread_forms").row(form)["said"], []
    inch = table("definitions").row("inch")["value"]
    for name, row in table(_SERIES[form]).rows.items():
        if form == "acme":
            major, pitch, call = inch * row["major_in"], inch / row["threads_per_inch"], f"{name} Acme"
        else:
            major, pitch = row["diameter_mm"], row["pitch_mm"]
            call = f"{said}{major:g}x{pitch:g}"
        found.append((call + (f", {count} starts" if count > 1 else ""), profile(form, major, pitch, count)))
    return sorted(found, key=lambda one: (one[1].major_mm, one[1].pitch_mm))


def tried(call, thread, task):
    """One size tried for a task: a Candidate with its reasons for refusal."""
    friction = table("power_screw_friction").row(task.pair)
    collar = table("collar_friction").row(task.collar)["starting"]
    torque = raising_torque_nmm(task.load_n, thread, friction["most"])
    torque += collar_torque_nmm(task.load_n, collar, COLLAR * thread.major_mm)
    pull, speed = hand_force_n(torque, task.crank_mm), travel_speed_mm_s(task.turns_per_min, thread)
    held = holding(thread, friction["least"])
    length, yields = NUT_LENGTH * thread.major_mm, table("screw_steels").row(task.steel)
    pressure = flank_pressure_mpa(task.load_n, thread, length)
    allowed = allowed_pressure_mpa(task.nut, sliding_speed_m_min(task.turns_per_min, thread))
    axial, shear = root_axial_mpa(task.load_n, thread), root_torsion_mpa(torque, thread)
    ridge = ridge_stress(task.load_n, thread, ridges_engaged(length, thread))
    stress = von_mises_mpa(-axial, shear, ridge.bending_mpa)
    free = task.stroke_mm + length / 2
    buckles = critical_load_n(thread.screw_minor_mm, free, end_factor(task.ends),
                              modulus_mpa(yields["material"]), yields["yield_mpa"])  # fmt: skip
    checks = (
        (pull > task.hand_n, f"the hand needs {pull:.0f} N, {task.hand_n:g} N are allowed"),
        (speed < task.speed_mm_s, f"it moves {speed:.3g} mm/s, {task.speed_mm_s:g} mm/s are wanted"),
        (task.stays and held.margin < 1, f"it runs back by itself (margin {held.margin:.2f})"),
        (pressure > allowed, f"its flanks carry {pressure:.3g} MPa, {allowed:g} MPa are allowed"),
        (stress * SAFETY > yields["yield_mpa"],
         f"its root carries {stress:.3g} MPa, yield of {task.steel} ÷ {SAFETY:g} is "
         f"{yields['yield_mpa'] / SAFETY:.0f} MPa"),
        (buckles < SAFETY * task.load_n,
         f"it buckles at {buckles:.0f} N, load × {SAFETY:g} is {SAFETY * task.load_n:.0f} N"),
    )  # fmt: skip
    reasons = tuple(reason for fails, reason in checks if fails)
    return Candidate(call, thread, torque, pull, speed, held.margin, pressure, stress, buckles, reasons)


def choose(task, form="trapezoidal", starts=(1, 2, 3, 4)):
    """Every size of a form with each number of starts, thinnest first; those without refusals serve.

    >>> task = Task(load_n=8000, stroke_mm=200, hand_n=150, crank_mm=300)
    >>> tries = choose(task, starts=(1,))
    >>> next(one.call for one in tries if not one.refusals)
    'Tr18x2'
    >>> tries[0].refusals[0]
    'its flanks carry 43.9 MPa, 17.2 MPa are allowed'
    """
    if not isinstance(task, Task):
        refuse("task", task, "must be a Task", "as from Task(load_n=8000, stroke_mm=200, hand_n=150, crank_mm=300)")
    found = [tried(call, thread, task) for count in starts for call, thread in series(form, count)]
    return sorted(found, key=lambda one: (one.thread.major_mm, one.hand_n))
