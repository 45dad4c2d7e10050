"""All threads that a bin may hold: metric, MJ, Unified, UNJ, Whitworth, pipe and BA, from their tables.

The size over the crests of a real screw lies below nominal by an allowance and a tolerance. Where many families
are compared, both are estimated alike for all: the formulas on which ISO 965-1 rests, grade 6, position g.
"""

from dataclasses import dataclass
from functools import cache

from workbench.tables import table
from workbench.threads.profile import profile

_INCH_MM = table("definitions").row("inch")["value"]


@dataclass(frozen=True)
class KnownThread:
    """One thread of a table: its name, family, form of the library, sizes; taper of the diameter along the axis."""

    name: str
    family: str
    form: str
    major_mm: float
    pitch_mm: float
    taper: float = 0.0

    @property
    def profile(self):
        """Its profile."""
        return profile(self.form, self.major_mm, self.pitch_mm)

    @property
    def allowance_mm(self):
        """Estimate of what a screw stays below nominal at best: (15 + 11 P) micrometres."""
        return (15 + 11 * self.pitch_mm) / 1000

    @property
    def crest_tolerance_mm(self):
        """Estimate of the tolerance over the crests: 180 P^(2/3) - 3.15 / sqrt(P) micrometres."""
        return (180 * self.pitch_mm ** (2 / 3) - 3.15 / self.pitch_mm**0.5) / 1000

    @property
    def crest_band_mm(self):
        """Sizes over the crests that a good screw may have, with the allowance or without (position g or h)."""
        return self.major_mm - self.allowance_mm - self.crest_tolerance_mm, self.major_mm

    @property
    def usual_crest_mm(self):
        """Size over the crests in the middle of the zone of position g."""
        return self.major_mm - self.allowance_mm - self.crest_tolerance_mm / 2

    @property
    def pitch_tolerance_mm(self):
        """Estimate of the tolerance of the pitch diameter of a screw: 90 P^0.4 d^0.1 micrometres."""
        return 90 * self.pitch_mm**0.4 * self.major_mm**0.1 / 1000


def _metric():
    for row in table("iso_261_metric").rows.values():
        size = row["thread"].split("x")[0] if row["series"] == "coarse" else row["thread"]
        sizes = row["diameter_mm"], row["pitch_mm"]
        yield KnownThread(size, f"metric {row['series']}", "metric", *sizes)
        if row["diameter_mm"] >= 1.6 and (row["iso_262"] or row["series"] == "coarse"):
            yield KnownThread("MJ" + row["thread"][1:], "MJ", "MJ", *sizes)


def _inch(name, family=None, form="unified"):
    for row in table(name).rows.values():
        kind = family or row["series"]
        sizes = row["major_in"] * _INCH_MM, _INCH_MM / row["threads_per_inch"]
        yield KnownThread(f"{row['size']}-{row['threads_per_inch']:g} {row['series']}", kind, form, *sizes)
        if row["series"] in ("UNC", "UNF"):
            series = row["series"].replace("UN", "UNJ")
            yield KnownThread(f"{row['size']}-{row['threads_per_inch']:g} {series}", series, "UNJ", *sizes)


def _pipe():
    for row in table("pipe_threads").rows.values():
        sizes = row["major_mm"], _INCH_MM / row["threads_per_inch"]
        yield KnownThread(row["thread"], "G pipe, parallel", "pipe", *sizes)
        if row["tapered"]:
            yield KnownThread(f"R {row['size']}", "R pipe, tapered", "pipe", *sizes, taper=1 / 16)


@cache
def known_threads():
    """Every thread of every table, metric first.

    >>> {"M8", "5/16-18 UNC", "G 1/2", "2 BA", "1/2-12 BSW"} <= {one.name for one in known_threads()}
    True
    """
    ba = (KnownThread(row["thread"], "BA", "BA", row["diameter_mm"], row["pitch_mm"])
          for row in table("ba_sizes").rows.values())
    return (*_metric(), *_inch("unified_sizes"), *_inch("whitworth_sizes", form="whitworth"), *_pipe(), *ba)


def known_thread(name):
    """The thread of that name; ValueError with the nearest names.

    >>> known_thread("M8").pitch_mm
    1.25
    """
    import difflib

    found = {one.name: one for one in known_threads()}
    if name in found:
        return found[name]
    near = difflib.get_close_matches(str(name)[:40], found, n=4, cutoff=0.3)
    raise ValueError(f"no thread {str(name)[:40]!r} in the tables; nearest names: {', '.join(near) or 'none'}")
