"""Setting a blind rivet, step by step, as true geometry: the tail grows, the shank fills the hole, the pin breaks.

Half sections, points (z, r) in mm: z along the rivet, 0 at the sheet under the manufactured head, positive away from
the tool; r from the centre line. What the pulled mandrel head takes from the length of the tail goes into its width
and into the hole: the volume of the body is kept, and the outer radius follows from it. Assumed for teaching: the
tail is set at 1.4 D (common practice, no source), the shank fills the hole up to D from the tail and fades out at 2 D,
bore and mandrel have one diameter, the mandrel's head is 0.95 D with a cone of 45 degrees, and the notch is placed to
break flush at the least grip. Real tails are rounder.
"""

import math
from dataclasses import dataclass
from functools import lru_cache

from workbench.refusals import one_number, refuse
from workbench.rivets.blind import body_size, judge_hole
from workbench.rivets.grip import grip_range

TAIL_DIAMETERS = 1.4  # width of the set tail, in body diameters
MANDREL_HEAD_DIAMETERS = 0.95
_STEPS = 24  # straight pieces of the tail's outer side
_FILLS_FROM = 0.45  # share of the pull after which the shank begins to fill the hole


@dataclass(frozen=True)
class BlindRivet:
    """An unset rivet: sizes in mm, the grips it is made for, and the notch's distance from the mandrel head's cone."""

    standard: str
    body_mm: float
    length_mm: float
    mandrel_mm: float
    head_mm: float
    head_height_mm: float
    least_grip_mm: float
    largest_grip_mm: float
    notch_mm: float

    @property
    def mandrel_head_mm(self):
        """Diameter of the mandrel's head: it has to pass through the hole."""
        return MANDREL_HEAD_DIAMETERS * self.body_mm

    @property
    def cone_mm(self):
        """Height of the cone under the mandrel's head (45 degrees)."""
        return (self.mandrel_head_mm - self.mandrel_mm) / 2


@dataclass(frozen=True)
class Stage:
    """One moment of the setting: closed half outlines of body and mandrel (two pieces once it is broken).

    travel_mm: how far the mandrel's head has come; tail_mm: widest diameter of the tail; shank_mm: diameter at the
    tail; fills: there the shank touches the hole; broken; stub_mm: how far the mandrel left in the rivet stands out
    of the head (negative: below its top), once it is broken.
    """

    body: tuple
    mandrel: tuple
    travel_mm: float
    tail_mm: float
    shank_mm: float
    fills: bool
    broken: bool
    stub_mm: float | None


def volume_mm3(outline):
    """Volume of a closed half outline turned about the centre line: pi x the sum of dz (r1^2 + r1 r2 + r2^2) / 3.

    >>> round(volume_mm3(((0, 0), (0, 1), (3, 1), (3, 0))) / math.pi, 9)
    3.0
    """
    total = 0.0
    for (z1, r1), (z2, r2) in zip(outline, outline[1:] + outline[:1], strict=True):
        total += (z2 - z1) * (r1 * r1 + r1 * r2 + r2 * r2)
    return abs(total) * math.pi / 3


@lru_cache(maxsize=200)
def blind_rivet(standard, body_mm, length_mm):
    """The unset rivet of a standard's table (mandrel of ISO 15977), with its notch placed.

    >>> one = blind_rivet("ISO 15977", 4, 10)
    >>> one.least_grip_mm, one.largest_grip_mm, one.mandrel_mm
    (5.0, 6.5, 2.45)
    """
    made, row = grip_range(standard, body_mm, length_mm), body_size(body_mm)
    head = (row["head_largest_mm"] + row["head_least_mm"]) / 2
    bare = BlindRivet(standard, made.body_mm, made.length_mm, row["mandrel_mm"], head, row["head_height_mm"],
                      made.least_mm, made.largest_mm, 0.0)  # fmt: skip
    seat = _set_seat_mm(bare, made.least_mm, row["hole_least_mm"])
    return BlindRivet(**{**bare.__dict__, "notch_mm": seat + bare.head_height_mm})


def set_rivet(rivet, grip_mm, hole_mm, pulled=1.0, broken=False):
    """The rivet when a share `pulled` (0 to 1) of its setting travel is done; broken: the pin has parted (pulled = 1).

    Refused: a grip outside the rivet's range, a hole that is too small or too large, a break before the tail is set.

    >>> one = blind_rivet("ISO 15977", 4, 10)
    >>> stage = set_rivet(one, 6, 4.1, broken=True)
    >>> round(stage.tail_mm, 6), round(stage.shank_mm, 6), stage.stub_mm < 0
    (5.6, 4.1, True)
    >>> set_rivet(one, 7, 4.1)
    Traceback (most recent call last):
    ...
    ValueError: grip_mm = 7: must be 5 to 6.5 mm for this rivet; too thick: no tail is left, take a longer body
    """
    if not isinstance(rivet, BlindRivet):
        refuse("rivet", rivet, "must be a BlindRivet", "as from blind_rivet('ISO 15977', 4, 10)")
    one_number("grip_mm", grip_mm, above=0)
    if not rivet.least_grip_mm - 1e-9 <= grip_mm <= rivet.largest_grip_mm + 1e-9:
        thin = grip_mm < rivet.least_grip_mm
        refuse("grip_mm", grip_mm, f"must be {rivet.least_grip_mm:g} to {rivet.largest_grip_mm:g} mm for this rivet",
               "too thin: the mandrel breaks high, take a shorter body" if thin
               else "too thick: no tail is left, take a longer body")
    judged = judge_hole(hole_mm, rivet.body_mm)
    if judged != "good":
        row = body_size(rivet.body_mm)
        refuse("hole_mm", hole_mm, f"must be {row['hole_least_mm']:g} to {row['hole_largest_mm']:g} mm",
               "the rivet will not enter" if judged == "small" else "the shank cannot fill it")
    one_number("pulled", pulled, at_least=0, at_most=1, cause="give the share of the travel")
    if broken and pulled != 1:
        refuse("broken", broken, "comes only at pulled = 1", "the pin breaks when the tail is set")
    seat = rivet.length_mm - pulled * (rivet.length_mm - _set_seat_mm(rivet, grip_mm, hole_mm))
    return _stage(rivet, float(grip_mm), float(hole_mm), float(seat), float(pulled), bool(broken))


def pushed_in(rivet, grip_mm, hole_mm):
    """The rivet before the pull, in any stack that it reaches through and any hole that it enters.

    >>> pushed_in(blind_rivet("ISO 15977", 4, 10), 3, 4.5).tail_mm
    4.0
    """
    _enters(rivet, grip_mm, hole_mm)
    return _stage(rivet, float(grip_mm), float(hole_mm), rivet.length_mm, 0.0, False)


def badly_set(rivet, grip_mm, hole_mm):
    """What a sawn rivet shows that was set in a stack or hole outside its table; see `stub_mm`.

    >>> badly_set(blind_rivet("ISO 15977", 4, 10), 4, 4.1).stub_mm > 0
    True
    """
    _enters(rivet, grip_mm, hole_mm)
    return _stage(rivet, float(grip_mm), float(hole_mm), _set_seat_mm(rivet, grip_mm, hole_mm), 1.0, True)


def _enters(rivet, grip_mm, hole_mm):
    one_number("grip_mm", grip_mm, above=0)
    if grip_mm >= rivet.length_mm:
        refuse("grip_mm", grip_mm, f"must be below the body's {rivet.length_mm:g} mm", "it does not reach through")
    if judge_hole(hole_mm, rivet.body_mm) == "small":
        refuse("hole_mm", hole_mm, f"must be at least {rivet.body_mm + 0.1:g} mm", "the rivet will not enter")


def stub_mm(rivet, grip_mm, hole_mm):
    """How far the broken mandrel stands out of the head: notch - seat - head height; negative: below the top.

    Unlike `set_rivet` it answers for grips and holes outside the table too, to show what goes wrong there.

    >>> one = blind_rivet("ISO 15977", 4, 10)
    >>> stub_mm(one, 6.5, 4.1) < abs(stub_mm(one, 5, 4.1)) < 1e-6 < stub_mm(one, 4, 4.1)
    True
    """
    _enters(rivet, grip_mm, hole_mm)
    return rivet.notch_mm - _set_seat_mm(rivet, grip_mm, hole_mm) - rivet.head_height_mm


def _shape(x, late):
    """Share of the swelling at a place of the tail: at first its end flares, in the end it is a barrel."""
    barrel = math.sin(math.pi * (0.2 + 0.62 * x))
    return (1 - late) * x**3 + late * barrel


def _shank(rivet, grip_mm, hole_mm, pulled):
    """Points of the shank's outer side, from the head to the tail; its swollen radius is the last one."""
    body = rivet.body_mm / 2
    swollen = body + (hole_mm / 2 - body) * max(0.0, pulled - _FILLS_FROM) / (1 - _FILLS_FROM)
    if grip_mm <= 2 * rivet.body_mm:
        return [(0.0, swollen), (grip_mm, swollen)]
    fades, full = grip_mm - 2 * rivet.body_mm, grip_mm - rivet.body_mm
    return [(0.0, body), (fades, body), (full, swollen), (grip_mm, swollen)]


def _tail(rivet, grip_mm, hole_mm, seat, pulled):
    """Points of the tail's outer side (from the sheet to the lip), its inner side back, and the widest radius."""
    body, bore, wide = rivet.body_mm / 2, rivet.mandrel_mm / 2, rivet.mandrel_head_mm / 2
    opened = min(rivet.length_mm - seat, wide - bore)  # how far the lip has climbed the cone
    lip = seat + opened
    late = min(1.0, pulled / 0.8)
    taken = volume_mm3(((0.0, 0.0), *_shank(rivet, grip_mm, hole_mm, pulled), (grip_mm, 0.0))) / math.pi
    wanted = body**2 * rivet.length_mm - taken - bore**2 * (rivet.length_mm - grip_mm)  # of the tail, volume / pi
    hollow = bore**2 * (seat - grip_mm) + opened * (bore**2 + bore * (bore + opened) + (bore + opened) ** 2) / 3
    # outer radius = body + swelling x shape: the volume is a square in the swelling
    dz = (lip - grip_mm) / _STEPS
    shapes = [_shape(step / _STEPS, late) for step in range(_STEPS + 1)]
    linear = sum(one + other for one, other in zip(shapes, shapes[1:], strict=False)) * body * dz
    square = sum(one * one + one * other + other * other for one, other in zip(shapes, shapes[1:], strict=False))
    square *= dz / 3
    missing = wanted + hollow - body**2 * (lip - grip_mm)
    swelling = (-linear + math.sqrt(max(0.0, linear**2 + 4 * square * missing))) / (2 * square)
    outer = [(grip_mm + step * dz, body + swelling * shape) for step, shape in enumerate(shapes)]
    inner = [(lip, bore + opened), (seat, bore)] if opened > 1e-9 else [(seat, bore)]
    return outer, inner, body + swelling * max(shapes)


@lru_cache(maxsize=500)
def _set_seat_mm(rivet, grip_mm, hole_mm):
    """Where the cone of the mandrel's head begins once the tail is TAIL_DIAMETERS wide."""
    low, high = grip_mm, rivet.length_mm
    if _tail(rivet, grip_mm, hole_mm, low + 1e-6, 1.0)[2] < TAIL_DIAMETERS * rivet.body_mm / 2:
        refuse("grip_mm", grip_mm, "leaves no length for a tail", "take a longer body")
    for _ in range(45):
        middle = (low + high) / 2
        if _tail(rivet, grip_mm, hole_mm, middle, 1.0)[2] > TAIL_DIAMETERS * rivet.body_mm / 2:
            low = middle
        else:
            high = middle
    return (low + high) / 2


@lru_cache(maxsize=500)
def _stage(rivet, grip_mm, hole_mm, seat, pulled, broken):
    outer, inner, widest = _tail(rivet, grip_mm, hole_mm, seat, pulled)
    shank = _shank(rivet, grip_mm, hole_mm, pulled)
    bore, top, rim, swollen = rivet.mandrel_mm / 2, -rivet.head_height_mm, rivet.head_mm / 2, shank[-1][1]
    turns = (math.radians(90 * step / 8) for step in range(9))  # a flat on top, then a quarter of an ellipse
    dome = [(top * math.cos(turn), (0.35 + 0.65 * math.sin(turn)) * rim) for turn in turns]
    body = [(top, bore), *dome[:-1], (0.0, rim), *shank, *outer, *inner]
    notch = seat - rivet.notch_mm
    stub = top - notch if broken else None
    return Stage(tuple(body), _mandrel(rivet, seat, notch, broken), rivet.length_mm - seat, 2 * widest, 2 * swollen,
                 swollen >= hole_mm / 2 - 1e-9, broken, stub)  # fmt: skip


def _mandrel(rivet, seat, notch, broken):
    """Half outlines of the mandrel: whole, or what stays and what the tool pulls off."""
    bore, wide = rivet.mandrel_mm / 2, rivet.mandrel_head_mm / 2
    deep, half = 0.65 * bore, 0.35 * bore  # radius left in the notch; half its width
    end = seat - rivet.length_mm - rivet.head_height_mm - 3.6 * rivet.body_mm  # the part that the tool holds
    head = seat + rivet.cone_mm + 0.25 * rivet.body_mm
    stays = [(notch, deep), (notch + half, bore), (seat, bore), (seat + rivet.cone_mm, wide), (head, wide), (head, 0.0)]
    goes = [(end, 0.0), (end, bore), (notch - half, bore), (notch, deep)]
    if not broken:
        return (tuple(goes + stays[1:]),)
    away = 0.8 * rivet.body_mm  # drawn a little apart
    return (tuple([(notch, 0.0), *stays]), tuple((z - away, r) for z, r in [*goes, (notch, 0.0)]))
