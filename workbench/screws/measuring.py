"""The measuring screw: what a gap shows on sleeve, thimble and vernier, and back.

One turn moves the spindle by one pitch (a measuring screw has one start). The sleeve carries one line a
turn; every few lines make a main line (1 mm, or a numbered tenth of an inch). The thimble divides the
turn, the vernier divides a thimble division. Inside, every reading is a whole number of resolution
steps, so that gap and scales are exact inverses.

Sources: the principle and the inch and vernier scales, US Navy training manuals NAVEDTRA 14001 and 14003;
the rest common practice.
"""

from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property

from workbench.refusals import numbers, one_number, refuse, whole
from workbench.tables import table

MM_PER_INCH = table("definitions").row("inch")["value"]


def travel(pitch_mm, turns, starts=1):
    """Travel of a screw: pitch x starts x turns.

    pitch_mm: pitch P > 0 (travel comes back in the unit of the pitch); turns: any, negative = backing off,
    `3 + 20/100` for 3 turns and 20 of 100 divisions; starts: whole number k >= 1. Numbers or arrays.
    Refuses a pitch that is not above 0 or not finite. Source: geometry of the helix (lead = k P).

    >>> travel(0.5, 3)
    1.5
    >>> round(travel(1.5, 3 + 20/100, starts=2), 9)
    9.6
    """
    numbers("pitch_mm", pitch_mm, above=0, cause="for backing off give the turns the minus sign")
    return pitch_mm * whole("starts", starts, cause="count the thread beginnings") * numbers("turns", turns)


def turns_for(pitch_mm, travel_mm, starts=1):
    """Turns for a wanted travel, the inverse of `travel`: travel / (pitch x starts); negative = back.

    >>> turns_for(0.5, 1.75)
    3.5
    """
    numbers("pitch_mm", pitch_mm, above=0, cause="for backing off give the travel the minus sign")
    starts = whole("starts", starts, cause="count the thread beginnings")
    return numbers("travel_mm", travel_mm) / (pitch_mm * starts)


def division_value(pitch_mm, divisions, starts=1):
    """Travel for one division: pitch x starts / divisions, in the unit of the pitch.

    >>> division_value(0.5, 50)
    0.01
    >>> division_value(0.025, 25)
    0.001
    """
    divisions = whole("divisions", divisions, cause="a thimble or dial needs at least one division")
    return travel(pitch_mm, 1, starts) / divisions


def pitch_of_tpi_mm(threads_per_inch):
    """Pitch in mm of a screw with so many threads an inch: 25.4 / n.

    >>> pitch_of_tpi_mm(40)
    0.635
    """
    return MM_PER_INCH / numbers("threads_per_inch", threads_per_inch, above=0)


def _exact(value):
    """The decimal meant: 0.1 is one tenth, 3 x 0.1 three tenths; nine decimals are finer than any screw."""
    return Fraction(str(round(float(value), 9)))


@dataclass(frozen=True)
class Scales:
    """What a measuring screw shows.

    main_lines: main lines passed (whole mm; tenths of an inch); sub_lines: sleeve lines beyond the last
    main line (metric 0.5 mm pitch: 1 = the half line is out; inch: 0 to 3 lines of 0.025); thimble_line:
    the last thimble line that has passed the datum; vernier_line: the vernier line that meets a thimble
    line (0 where there is no vernier). below_zero: the thimble stands short of the sleeve's zero, as
    closed faces with a negative zero error show. On a depth instrument the covered lines are counted.
    """

    main_lines: int
    sub_lines: int
    thimble_line: int
    vernier_line: int = 0
    below_zero: bool = False


@dataclass(frozen=True)
class Instrument:
    """A measuring screw: lengths in its own `unit` ("mm" or "in").

    pitch: travel of a turn; divisions: on the thimble; vernier: vernier divisions, 0 = none; main_line: the
    value of a main sleeve line, a whole number of pitches; start, end: its range, start = faces closed;
    kind: "outside", or "depth", where covered lines count; zero_error: what it shows, with sign, where it
    should show `start`. Refuses a pitch, divisions or range that no instrument has.

    >>> METRIC.resolution
    0.01
    >>> Instrument("coarse", "mm", 1, 100).resolution
    0.01
    """

    name: str
    unit: str
    pitch: float
    divisions: int
    vernier: int = 0
    main_line: float = 1.0
    start: float = 0.0
    end: float = 25.0
    kind: str = "outside"
    zero_error: float = 0.0

    def __post_init__(self):
        if self.unit not in ("mm", "in"):
            refuse("unit", self.unit, "must be 'mm' or 'in'", "convert the instrument's data first")
        if self.kind not in ("outside", "depth"):
            refuse("kind", self.kind, "must be 'outside' or 'depth'")
        one_number("pitch", self.pitch, above=0, cause="backing off is a matter of turns, not pitch")
        whole("divisions", self.divisions, cause="a thimble needs at least one division")
        whole("vernier", self.vernier, at_least=0)
        if self.vernier == 1:
            refuse("vernier", 1, "must be 0 or at least 2", "one vernier division divides nothing")
        one_number("main_line", self.main_line, above=0)
        if (_exact(self.main_line) / _exact(self.pitch)).denominator != 1:
            refuse("main_line", self.main_line, f"must be a whole number of pitches of {self.pitch}",
                   "are pitch and lines in the same unit?")
        one_number("start", self.start, at_least=0)
        one_number("end", self.end, above=self.start, cause="are start and end swapped?")
        one_number("zero_error", self.zero_error)
        for name in ("start", "end", "zero_error"):
            if (_exact(getattr(self, name)) / self._step).denominator != 1:
                rule = f"must be a whole number of steps of {self.resolution} {self.unit}"
                refuse(name, getattr(self, name), rule, "is it in another unit, or finer than it reads?")
        if abs(_exact(self.zero_error)) >= _exact(self.pitch):
            refuse("zero_error", self.zero_error, f"must be smaller than one turn ({self.pitch} {self.unit})",
                   "an instrument so far out needs setting, not a correction")

    @cached_property
    def _step(self):
        return _exact(self.pitch) / (self.divisions * max(self.vernier, 1))

    @cached_property
    def _range_and_zero(self):
        """Start, end and zero error in resolution steps."""
        return self.steps_of(self.start), self.steps_of(self.end), self.steps_of(self.zero_error)

    @property
    def resolution(self):
        """The smallest step it shows: pitch / divisions, divided again by the vernier where there is one."""
        return float(self._step)

    @property
    def span(self):
        """Its range in words: "25 to 50 mm"."""
        return f"{self.start:g} to {self.end:g} {self.unit}"

    @cached_property
    def lines_per_main(self):
        """Sleeve lines (turns) to a main line: 2 for 0.5 mm pitch, 4 for the inch, 1 for 1 mm pitch."""
        return int(_exact(self.main_line) / _exact(self.pitch))

    @property
    def steps_per_turn(self):
        """Resolution steps in one turn of the thimble."""
        return self.divisions * max(self.vernier, 1)

    def steps_of(self, length):
        """The nearest whole number of resolution steps to a length; half a step goes up.

        >>> METRIC.steps_of(7.88)
        788
        """
        return (_exact(one_number("length", length)) / self._step + Fraction(1, 2)).__floor__()

    def length_of(self, steps):
        """The length of so many resolution steps, as the nearest decimal.

        >>> METRIC.length_of(788)
        7.88
        """
        return float(steps * self._step)


def instrument(name):
    """The measuring screw of that name from the table `measuring_screws`.

    >>> instrument("inch 0-1").pitch
    0.025
    """
    row = dict(table("measuring_screws").row(name))
    row["divisions"], row["vernier"] = int(row["divisions"]), int(row["vernier"])
    return Instrument(**row)


METRIC = instrument("metric 0-25")
METRIC_VERNIER = instrument("metric 0-25 vernier")
INCH = instrument("inch 0-1")
INCH_VERNIER = instrument("inch 0-1 vernier")


def scales_of(gap, instrument=METRIC):
    """What the instrument shows for a gap (in its unit), zero error included: the exact split.

    steps = (gap + zero error - start) / resolution, split into main lines, sleeve lines beyond, thimble
    line and vernier line. A gap between two steps shows the nearest. Refuses a gap outside the range.

    >>> scales_of(7.88)
    Scales(main_lines=7, sub_lines=1, thimble_line=38, vernier_line=0, below_zero=False)
    >>> scales_of(0.364, INCH)
    Scales(main_lines=3, sub_lines=2, thimble_line=14, vernier_line=0, below_zero=False)
    """
    one_number("gap", gap)
    if not _exact(instrument.start) <= _exact(gap) <= _exact(instrument.end):
        refuse("gap", gap, f"{instrument.name} spans {instrument.span}", "is it in another unit or range?")
    start, _, zero = instrument._range_and_zero
    sleeve, rest = divmod(instrument.steps_of(gap) + zero - start, instrument.steps_per_turn)
    thimble, vernier = divmod(rest, max(instrument.vernier, 1))
    if sleeve < 0:
        return Scales(0, 0, thimble, vernier, below_zero=True)
    main, sub = divmod(sleeve, instrument.lines_per_main)
    return Scales(main, sub, thimble, vernier)


def reading_of(scales, instrument=METRIC):
    """The reading that the scales give, the start of the range included, the zero error *not* taken off.

    reading = start + main x main_line + sub x pitch + thimble x division + vernier x resolution, less one
    turn where the thimble stands below zero. Refuses scales that the instrument cannot show.

    >>> reading_of(Scales(7, 1, 38))
    7.88
    >>> reading_of(Scales(12, 1, 31, 7), METRIC_VERNIER)
    12.817
    """
    limits = {
        "main_lines": (None, "count from the sleeve's zero"),
        "sub_lines": (instrument.lines_per_main - 1, "is it one main line more?"),
        "thimble_line": (instrument.divisions - 1, "a full turn of the thimble is the next sleeve line"),
        "vernier_line": (max(instrument.vernier, 1) - 1, "is it another instrument?"),
    }
    for name, (most, cause) in limits.items():
        whole(name, getattr(scales, name), at_least=0, at_most=most, cause=cause)
    if scales.below_zero and (scales.main_lines or scales.sub_lines):
        rule = "no sleeve line counts while the thimble stands below zero"
        refuse("scales", scales, rule, "count the lines again")
    lines = scales.main_lines * instrument.lines_per_main + scales.sub_lines - bool(scales.below_zero)
    steps = lines * instrument.steps_per_turn
    steps += scales.thimble_line * max(instrument.vernier, 1) + scales.vernier_line
    start, end, zero = instrument._range_and_zero
    reading = instrument.length_of(start + steps)
    if not start <= start + steps - zero <= end:
        rule = f"{instrument.name} spans {instrument.span} with zero error {instrument.zero_error:g}"
        refuse("reading", reading, rule, "is a line counted twice, or the zero error's sign wrong?")
    return reading


def line_in_view(scales, instrument=METRIC):
    """The sleeve line at the thimble's edge that can be seen, as a length from the sleeve's zero.

    Outside: the last line counted. Depth: the line after it, since the lines counted are covered.

    >>> line_in_view(Scales(11, 0, 22), instrument("metric depth 0-25"))
    11.5
    """
    reading_of(scales, instrument)  # refuses what the instrument cannot show
    lines = scales.main_lines * instrument.lines_per_main + scales.sub_lines + (instrument.kind == "depth")
    return instrument.length_of(lines * instrument.steps_per_turn)


def zero_error_of(thimble_line, side, instrument=METRIC, vernier_line=0):
    """Zero error, with sign, from the closed faces: the thimble line at the datum and its side of zero.

    past zero: + line x division; short of zero: - (divisions - line) x division; vernier steps on top.
    side: "past" or "short"; line 48 of 50 stands two lines short of zero, not 48 past it.

    >>> zero_error_of(48, "short")
    -0.02
    >>> zero_error_of(3, "past")
    0.03
    """
    if side not in ("past", "short"):
        refuse("side", side, "must be 'past' or 'short'", "is the thimble's zero beyond the datum?")
    steps_per_line = max(instrument.vernier, 1)
    line = whole("thimble_line", thimble_line, at_least=0, at_most=instrument.divisions - 1)
    steps = line * steps_per_line + whole("vernier_line", vernier_line, at_least=0, at_most=steps_per_line - 1)
    return instrument.length_of(steps - (instrument.steps_per_turn if side == "short" else 0))


def size_of(reading, zero_error):
    """Size = reading - zero error, both in one unit. An instrument that shows too much closed reads too much.

    >>> round(size_of(7.88, 0.02), 9)
    7.86
    """
    return numbers("reading", reading) - numbers("zero_error", zero_error)


def gap_of(scales, instrument=METRIC):
    """The gap behind the scales, the zero error taken off: the exact inverse of `scales_of`.

    >>> gap_of(scales_of(7.88))
    7.88
    """
    _, _, zero = instrument._range_and_zero
    return instrument.length_of(instrument.steps_of(reading_of(scales, instrument)) - zero)
