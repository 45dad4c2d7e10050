"""The designation of a thread: what a call-out says, and the call-out that says it.

`parse("M6x1-6g")` reads a call-out as printed, typed or spoken; `write(designation)` prints it. Sources:
ISO 965-1 (metric), ISO 2902 (trapezoidal), ASME B1.1 (Unified), ASME B1.5 (Acme), ASME B1.9 and DIN 513
(buttress); square threads: common practice, no source. The wording of the grammars is from memory.
"""

from dataclasses import dataclass, field

from workbench.refusals import one_number, refuse, whole
from workbench.tables import table
from workbench.threads.spelling import NotACallOut, Scanner

INCH_MM = table("definitions").row("inch")["value"]
LETTERS = {"metric": "M", "MJ": "MJ", "trapezoidal": "Tr", "buttress 3/30": "S", "square": "Sq"}


@dataclass(frozen=True)
class Designation:
    """A thread as called out; lengths in mm, inch sizes as written beside them.

    size: the diameter as written ("6", "1/4", "#10"); pitch_mm: spacing of neighbouring ridges; series:
    UNC and so on; screw_class, nut_class: tolerance classes; engagement: S, N, L or a length; length_mm: of
    the screw; thread_length_mm or full_thread; property_class: "8.8". supplied: names of fields that the
    call-out left out and a table gave; spans: where each field stands in what was typed.
    """

    form: str
    size: str
    major_mm: float
    pitch_mm: float
    starts: int = 1
    left_hand: bool = False
    series: str = ""
    screw_class: str = ""
    nut_class: str = ""
    engagement: str = ""
    length_mm: float | None = None
    thread_length_mm: float | None = None
    full_thread: bool = False
    property_class: str = ""
    pushes: bool = False
    supplied: tuple = field(default=(), compare=False)
    spans: dict = field(default_factory=dict, compare=False, repr=False)
    text: str = field(default="", compare=False, repr=False)

    def __post_init__(self):
        one_number("major_mm", self.major_mm, above=0)
        one_number("pitch_mm", self.pitch_mm, above=0, at_most=self.major_mm,
                   cause="were diameter and pitch swapped?")
        whole("starts", self.starts)

    @property
    def lead_mm(self):
        """Advance for one turn: pitch x starts."""
        return self.pitch_mm * self.starts

    @property
    def threads_per_inch(self):
        """25.4 / pitch."""
        return INCH_MM / self.pitch_mm

    @property
    def inch(self):
        """Is the size given in inches?"""
        return self.form not in LETTERS


def coarse_pitch_mm(diameter_mm):
    """The coarse pitch of a metric diameter, from ISO 261; None where the table has no such diameter.

    >>> coarse_pitch_mm(10)
    1.5
    """
    return next((row["pitch_mm"] for row in table("iso_261_metric").rows.values()
                 if row["diameter_mm"] == diameter_mm and row["series"] == "coarse"), None)


def metric_pitches_mm(diameter_mm):
    """All pitches of a metric diameter in ISO 261, coarse first.

    >>> metric_pitches_mm(10)
    (1.5, 1.25, 1.0, 0.75)
    """
    return tuple(row["pitch_mm"] for row in table("iso_261_metric").rows.values()
                 if row["diameter_mm"] == diameter_mm)


def parse(text):
    """Read a call-out; NotACallOut (a ValueError) names the place and the likely meaning.

    >>> parse("M six by one").pitch_mm
    1.0
    >>> found = parse("Tr40x14(P7)LH-7e")
    >>> found.starts, found.left_hand, found.screw_class
    (2, True, '7e')
    >>> parse("M6x")
    Traceback (most recent call last):
    ...
    workbench.threads.spelling.NotACallOut: call-out 'M6x', after the last sign: a number is due; pitch or length
    """
    from workbench.threads import inch_call_out, metric_call_out

    line = Scanner(text)
    if line.done:
        line.fail("nothing to read", "write a call-out such as M6x1 or 1/4-20 UNC", at=0)
    found = metric_call_out.read(line) or inch_call_out.read(line)
    if found:
        return found
    for beginning, meaning in _OTHERS.items():
        if line.take(beginning):
            line.at = 0
            line.fail("this thread is not read here", meaning)
    line.fail("no call-out begins like this",
              "metric begins with M, trapezoidal with Tr, buttress with S; inch sizes with a figure, as 1/4-20 UNC")


_OTHERS = {
    r"(?:g|rp|rc|r|npt)\s*[0-9]": "a pipe thread (ISO 228, ISO 7): look it up among the pipe threads by its size",
    r"(?:bsw|bsf|w)(?![a-z])": "a Whitworth thread (BS 84): written 1/4-20 BSW",
    r"ba\b": "a BA thread (BS 93), as 2 BA",
    r"(?:iso|din|en)\b": "that is the number of a product standard; the thread comes after it, as M8x40",
}


def _figure(value):
    return f"{value:.6f}".rstrip("0").rstrip(".")


def _metric(one, show_pitch):
    text = f"{LETTERS[one.form]}{_figure(one.major_mm)}"
    lead, pitch = _figure(one.lead_mm), _figure(one.pitch_mm)
    if one.starts > 1:
        text += f"×Ph{lead}P{pitch}" if one.form in ("metric", "MJ") else f"×{lead}(P{pitch})"
    elif show_pitch or one.form not in ("metric", "MJ") or one.pitch_mm != coarse_pitch_mm(one.major_mm):
        text += f"×{pitch}"
    if one.length_mm is not None:
        text += f"×{_figure(one.length_mm)}"
    both = "/".join(part for part in (one.nut_class, one.screw_class) if part)
    text += "".join(f"-{part}" for part in (both, one.engagement, "LH" * one.left_hand, one.property_class) if part)
    if one.full_thread:
        text += " full thread"
    if one.thread_length_mm is not None:
        text += f" thread length {_figure(one.thread_length_mm)}"
    return text


def _inch(one):
    pitch = f"{_figure(one.pitch_mm / INCH_MM)}P-{_figure(one.lead_mm / INCH_MM)}L"
    text = f"{one.size}-" + (pitch if one.starts > 1 else _figure(one.threads_per_inch))
    name = {"acme": "Acme", "buttress 7/45": "PUSH-BUTT" if one.pushes else "BUTT"}.get(one.form, one.series)
    both = "/".join(part for part in (one.nut_class, one.screw_class) if part)
    text += f" {name}" + (f"-{both}" if both else "") + ("-LH" if one.left_hand else "")
    if one.length_mm is not None:
        text += f"×{_figure(one.length_mm / INCH_MM)}"
    return text + (" full thread" if one.full_thread else "")


def write(designation, show_pitch=False):
    """The call-out that says this designation; a coarse metric pitch is left out unless show_pitch.

    >>> write(parse("m10 x 1.25 - 6H/6g"))
    'M10×1.25-6H/6g'
    >>> write(parse("M6 x 1")), write(parse("M6"), show_pitch=True)
    ('M6', 'M6×1')
    """
    if not isinstance(designation, Designation):
        refuse("designation", designation, "must be a Designation", "parse the text first")
    return _inch(designation) if designation.inch else _metric(designation, show_pitch)


__all__ = ["Designation", "NotACallOut", "coarse_pitch_mm", "metric_pitches_mm", "parse", "write"]
