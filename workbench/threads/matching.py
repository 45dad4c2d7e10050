"""Call-out against part: which parts of a bin satisfy a call-out, which fail and by how much, and where the
instrument cannot tell.
"""

from dataclasses import dataclass, replace

from workbench.refusals import refuse
from workbench.tables import table
from workbench.threads.designation import INCH_MM, Designation
from workbench.threads.known_threads import known_threads
from workbench.threads.limits_called_out import limits_called_out
from workbench.threads.marks import read_marks
from workbench.threads.measured import CANNOT_TELL, FAILS, SATISFIES, Measured


@dataclass(frozen=True)
class Part:
    """A measured screw from the bin; lengths as Measured in mm, None where not measured.

    overall: with the head; threaded: the length with full thread; head: a row of the table `screw_heads`;
    head_height: what a hexagon head adds to the length; left_hand: True, False, or None where not looked at;
    marks: what is struck on the head.
    """

    major: Measured
    pitch: Measured
    overall: Measured | None = None
    threaded: Measured | None = None
    head: str = ""
    head_height: Measured | None = None
    left_hand: bool | None = None
    marks: str = ""

    def __post_init__(self):
        for name in ("major", "pitch", "overall", "threaded", "head_height"):
            value = getattr(self, name)
            if value is None and name not in ("major", "pitch"):
                continue
            if not isinstance(value, Measured):
                refuse(name, value, "must be Measured(value, uncertainty)", "with which instrument was it measured?")
        if self.head:
            table("screw_heads").row(self.head)

    @property
    def length(self):
        """The length as it is ordered: under the head, over all for a countersunk head or none; None if unknown."""
        if self.overall is None or not self.head:
            return None
        if table("screw_heads").row(self.head)["length_from"] == "over all":
            return self.overall
        if self.head_height is None:
            return None
        spread = (self.overall.uncertainty**2 + self.head_height.uncertainty**2) ** 0.5
        return Measured(self.overall.value - self.head_height.value, spread)


@dataclass(frozen=True)
class FieldVerdict:
    """One field of the call-out against the part: verdict, by how much it fails (+ too large), and in words."""

    name: str
    verdict: str
    by: float
    says: str


@dataclass(frozen=True)
class Comparison:
    """All fields of one part."""

    fields: tuple

    @property
    def verdict(self):
        """'fails' if any field fails, else 'cannot tell ...' if any cannot be told, else 'satisfies'."""
        found = {field.verdict for field in self.fields}
        return FAILS if FAILS in found else CANNOT_TELL if CANNOT_TELL in found else SATISFIES

    @property
    def failing(self):
        """The fields that fail."""
        return tuple(field for field in self.fields if field.verdict == FAILS)


def major_limits_mm(designation):
    """Lowest and highest size over the crests of a screw of this call-out, and the class used.

    Where no class is written the usual one counts (see limits_called_out; 4h6h for MJ, 3A for UNJ). Refused where
    no limits are stored or the standard gives none.

    >>> from workbench.threads.designation import parse
    >>> major_limits_mm(parse("M10"))
    (9.732, 9.968, '6g')
    """
    # the crests of MJ and UNJ screws have the limits of their plain classes (ISO 5855-2, ASME B1.15, from memory)
    form, usual = {"MJ": ("metric", "4h6h"), "UNJ": ("unified", "3A")}.get(designation.form, (designation.form, ""))
    series = designation.series and "UN" + designation.series[2:].lstrip("RJ")
    plain = replace(designation, form=form, series=series, screw_class=designation.screw_class or usual, nut_class="")
    found = limits_called_out(plain).screw
    scale = INCH_MM if found.unit == "in" else 1
    return round(found.major.low * scale, 4), round(found.major.high * scale, 4), found.tolerance_class


def _major(one, part):
    try:
        low, high, name = major_limits_mm(one)
    except ValueError as reason:
        return FieldVerdict("major diameter", CANNOT_TELL, 0.0, f"no limits for this call-out: {reason}")
    verdict, by = part.major.against(low, high)
    used = name if one.screw_class else f"{name}, the usual class"
    return _verdict("major diameter", verdict, by, part.major, f"{low:.3f} to {high:.3f} mm ({used})")


def _verdict(name, verdict, by, found, asked):
    says = f"{found.value:.3f} ± {found.uncertainty:.3f} mm against {asked}"
    if verdict == FAILS:
        says += f": {abs(by):.3f} mm too {'large' if by > 0 else 'small'}"
    if verdict == CANNOT_TELL:
        says += ": the limit lies within the uncertainty; take a finer instrument"
    return FieldVerdict(name, verdict, by if verdict == FAILS else 0.0, says)


def _pitch(one, part):
    """The pitch fails when the asked one is out of reach; it stays open while another real thread fits as well."""
    asked = f"{one.pitch_mm:.4g} mm"
    if not part.pitch.meets(one.pitch_mm, one.pitch_mm):
        return _verdict("pitch", FAILS, part.pitch.value - one.pitch_mm, part.pitch, asked)
    rivals = sorted({other.name for other in known_threads() if abs(other.pitch_mm - one.pitch_mm) > 1e-6
                     and part.pitch.meets(other.pitch_mm, other.pitch_mm)
                     and part.major.meets(*other.crest_band_mm)})
    if rivals:
        says = f"{part.pitch.value:.3f} ± {part.pitch.uncertainty:.3f} mm fits {asked}, but {rivals[0]} as well"
        return FieldVerdict("pitch", CANNOT_TELL, 0.0, says)
    return _verdict("pitch", SATISFIES, 0.0, part.pitch, asked)


def length_limits_mm(length_mm):
    """Lowest and highest length of a screw of product grade A (ISO 4759-1: js15).

    >>> length_limits_mm(40)
    (39.5, 40.5)
    """
    for row in table("screw_lengths").rows.values():
        if row["over_mm"] < length_mm <= row["up_to_mm"]:
            return length_mm - row["tolerance_mm"] / 2, length_mm + row["tolerance_mm"] / 2
    refuse("length_mm", length_mm, "must be above 0 and at most 500 mm", "was the unit meant to be another?")


def thread_length_mm(diameter_mm, length_mm):
    """Thread length b of a part-threaded bolt: 2 d + 6 up to 125 mm, + 12 up to 200 mm, + 25 above (ISO 888).

    >>> thread_length_mm(12, 80)
    30.0
    """
    for row in table("thread_lengths").rows.values():
        if row["over_mm"] < length_mm <= row["up_to_mm"]:
            return 2 * diameter_mm + row["added_mm"]
    refuse("length_mm", length_mm, "must be above 0 and at most 500 mm")


def _lengths(one, part):
    if one.length_mm is not None:
        low, high = length_limits_mm(one.length_mm)
        if part.length is None:
            says = "not measured, or head not known: a hexagon counts from under the head, a countersunk over all"
            yield FieldVerdict("length", CANNOT_TELL, 0.0, says)
        else:
            yield _verdict("length", *part.length.against(low, high), part.length, f"{low:g} to {high:g} mm")
    if one.full_thread and one.length_mm is not None:
        band = one.length_mm - 3 * one.pitch_mm, None, f"at least {one.length_mm - 3 * one.pitch_mm:g} mm (full thread)"
    elif one.thread_length_mm is not None:
        low, high = one.thread_length_mm, one.thread_length_mm + 2 * one.pitch_mm
        band = low, high, f"{low:g} to {high:g} mm (+ 2 pitches)"
    else:
        return
    if part.threaded is None:
        yield FieldVerdict("thread length", CANNOT_TELL, 0.0, "not measured")
    else:
        yield _verdict("thread length", *part.threaded.against(*band[:2]), part.threaded, band[2])


def compare(designation, part, head=""):
    """The call-out against one measured part, field by field; head: the head that is asked for, if any.

    Limits: major diameter by the class (see major_limits_mm), length js15 (ISO 4759-1), full thread to within
    three pitches of the head, thread length + 2 pitches (ISO 4759-1).

    >>> from workbench.threads.designation import parse
    >>> inch = Part(Measured(7.85, 0.02), Measured(1.411, 0.006))
    >>> [(field.name, field.says) for field in compare(parse("M8"), inch).failing]
    [('pitch', '1.411 ± 0.006 mm against 1.25 mm: 0.161 mm too large')]
    """
    if not isinstance(designation, Designation) or not isinstance(part, Part):
        refuse("designation, part", (type(designation).__name__, type(part).__name__),
               "must be a Designation and a Part", "parse the call-out first")
    fields = [_major(designation, part), _pitch(designation, part), *_lengths(designation, part)]
    asked = "left hand" if designation.left_hand else "right hand"
    if part.left_hand is not None:
        fits = part.left_hand == designation.left_hand
        says = f"{'left' if part.left_hand else 'right'} hand, asked: {asked}"
        fields.append(FieldVerdict("hand", SATISFIES if fits else FAILS, 0.0, says))
    elif designation.left_hand:
        fields.append(FieldVerdict("hand", CANNOT_TELL, 0.0, "not looked at; left hand is asked"))
    if head:
        table("screw_heads").row(head)
        says = f"{part.head or 'not looked at'}, asked: {head}"
        verdict = CANNOT_TELL if not part.head else SATISFIES if part.head == head else FAILS
        fields.append(FieldVerdict("head", verdict, 0.0, says))
    if designation.property_class:
        fields.append(_marked(designation.property_class, part.marks))
    return Comparison(tuple(fields))


def _marked(asked, marks):
    found = [mark.text for mark in (read_marks(marks) if marks else ()) if mark.kind in ("property class", "grade")]
    if not found:
        return FieldVerdict("property class", CANNOT_TELL, 0.0, f"no class is struck on it, asked: {asked}")
    verdict = SATISFIES if asked in found else FAILS
    return FieldVerdict("property class", verdict, 0.0, f"marked {' '.join(found)}, asked: {asked}")


def sort_bin(designation, parts, head=""):
    """Each part of a bin (a mapping from name to Part) with its Comparison, those that satisfy first.

    >>> from workbench.threads.designation import parse
    >>> parts = {"a": Part(Measured(7.85, 0.02), Measured(1.411, 0.006)),
    ...          "b": Part(Measured(7.88, 0.02), Measured(1.25, 0.006))}
    >>> {name: found.verdict for name, found in sort_bin(parse("M8"), parts).items()}
    {'b': 'satisfies', 'a': 'fails'}
    """
    if not isinstance(parts, dict) or not parts:
        refuse("parts", parts, "must be a mapping from name to Part, with at least one")
    order = (SATISFIES, CANNOT_TELL, FAILS)
    found = {name: compare(designation, part, head) for name, part in parts.items()}
    return dict(sorted(found.items(), key=lambda item: order.index(item[1].verdict)))
