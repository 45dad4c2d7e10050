"""Diameter of a solid rivet from the sheets it joins: rules of thumb, with both senses of "three times the sheet".

The trade takes D of about 3 t of the *thicker* sheet and then the nearest size. A naval manual says t <= D <= 3 t:
3 t is the *most*, t the least. Unwin's rule belongs to boiler plate and is history. A rule gives a start: the load
decides. Sources: common practice; NAVEDTRA 14014; Unwin as in textbooks of machine design.
"""

import math
from dataclasses import dataclass

from workbench.refusals import numbers, one_number, refuse
from workbench.tables import table

INCH_MM = table("definitions").row("inch")["value"]
SYSTEMS = {"metric": "rivets_metric", "inch": "rivet_sizes_inch"}


def stack_mm(sheets_mm):
    """A tuple of sheet thicknesses, two at least, each above 0; gives them back.

    >>> stack_mm((1.0, 1.6))
    (1.0, 1.6)
    """
    if not isinstance(sheets_mm, tuple) or len(sheets_mm) < 2:
        refuse("sheets_mm", sheets_mm, "must be a tuple of two sheets or more", "write (1.0, 1.6)")
    for place, sheet in enumerate(sheets_mm, start=1):
        one_number(f"sheets_mm, sheet {place}", sheet, above=0, at_most=50, cause="is it in mm?")
    return sheets_mm


def trade_diameter_mm(sheets_mm):
    """Rule of the trade: D about 3 t of the thicker sheet. Take the nearest size. Common practice, no source.

    >>> round(trade_diameter_mm((1.0, 1.6)), 9)
    4.8
    """
    return 3 * max(stack_mm(sheets_mm))


def least_and_most_mm(sheets_mm):
    """The other sense of 3 t: D at least t of the thickest sheet and at most 3 t. Source: NAVEDTRA 14014.

    >>> least_and_most_mm((1.0, 1.5))
    (1.5, 4.5)
    """
    thickest = max(stack_mm(sheets_mm))
    return thickest, 3 * thickest


def unwin_mm(plate_mm):
    """Unwin's rule for boiler plate: d = 6 sqrt(t), in mm; t above 8 mm. History: today the load decides.

    plate_mm t > 8, number or array. Refused: thinner plate, for which it gives rivets far too large.

    >>> round(unwin_mm(13), 1)
    21.6
    """
    numbers("plate_mm", plate_mm, above=8, cause="Unwin's rule is one for boiler plate over 8 mm")
    return 6 * plate_mm**0.5


def unwin_in(plate_in):
    """The same rule in inch: d = 1.2 sqrt(t), for plate over 0.315 in (8 mm).

    >>> round(unwin_in(0.5), 4)
    0.8485
    """
    numbers("plate_in", plate_in, above=8 / INCH_MM, cause="Unwin's rule is one for boiler plate over 8 mm")
    return 1.2 * plate_in**0.5


def tube_least_mm(outer_mm):
    """Least rivet through a tube: D of an eighth of the outside diameter. Source: FAA AC 43.13-1B chapter 4.

    >>> tube_least_mm(32)
    4.0
    """
    return numbers("outer_mm", outer_mm, above=0) / 8


def sizes_mm(system="metric"):
    """Shank diameters that are made, name -> mm: metric first choice of ISO 1051, or inch.

    >>> list(sizes_mm())[:4], round(sizes_mm("inch")["1/8"], 3)
    (['1', '1.2', '1.6', '2'], 3.175)
    """
    if system not in SYSTEMS:
        refuse("system", system, "must be 'metric' or 'inch'")
    rows = table(SYSTEMS[system]).rows
    if system == "inch":
        return {name: row["diameter_in"] * INCH_MM for name, row in rows.items()}
    return {name: row["diameter_mm"] for name, row in rows.items() if row["series"] == "first"}


def nearest_size(diameter_mm, system="metric"):
    """Name of the size nearest to a wanted diameter; of two as near, the larger.

    >>> nearest_size(4.8), nearest_size(4.8, "inch")
    ('5', '3/16')
    """
    one_number("diameter_mm", diameter_mm, above=0)
    made = sizes_mm(system)
    least, most = min(made.values()), max(made.values())
    one_number("diameter_mm", diameter_mm, at_least=0.75 * least, at_most=1.25 * most,
               cause=f"solid rivets here run from {least:g} to {most:g} mm")
    return min(made, key=lambda name: (round(abs(made[name] - diameter_mm), 9), -made[name]))


def next_size(size, system="metric"):
    """The next larger size that is made, for a hole that was spoilt.

    >>> next_size("4"), next_size("1/8", "inch")
    ('5', '5/32')
    """
    made = sizes_mm(system)
    if size not in made:
        refuse("size", size, "must be one of " + ", ".join(made), "give its name as text")
    larger = [name for name in made if made[name] > made[size]]
    if not larger:
        refuse("size", size, "is the largest made here", "refer to the designer")
    return larger[0]


@dataclass(frozen=True)
class DiameterCheck:
    """Each rule's objection to a diameter for a stack of sheets; "" where it has none."""

    trade: str
    naval: str
    thin_sheet: str

    @property
    def objections(self):
        """Those that object."""
        return tuple(text for text in (self.trade, self.naval, self.thin_sheet) if text)


def check_diameter(diameter_mm, sheets_mm):
    """What the rules say of a diameter: trade 2.5 to 3.5 t (within half a size), naval t to 3 t, thinnest t/D >= 0.18.

    The last is the limit below which tabulated bearing loads no longer hold (MIL-HDBK-5 chapter 8).

    >>> check_diameter(5, (1.0, 1.6)).naval
    '5 mm is more than 3 × 1.6 mm'
    >>> check_diameter(4, (1.2, 1.6)).objections
    ()
    """
    one_number("diameter_mm", diameter_mm, above=0)
    least, most = least_and_most_mm(sheets_mm)
    thickest, thinnest = max(sheets_mm), min(sheets_mm)
    ratio = diameter_mm / thickest
    trade = "" if 2.5 <= ratio <= 3.5 + 1e-9 else f"{diameter_mm:g} mm is {ratio:.1f} times the thicker sheet, not 3"
    naval = ""
    if diameter_mm < least:
        naval = f"{diameter_mm:g} mm is less than the thicker sheet, {thickest:g} mm"
    elif diameter_mm > most and not math.isclose(diameter_mm, most):
        naval = f"{diameter_mm:g} mm is more than 3 × {thickest:g} mm"
    thin = ""
    if thinnest / diameter_mm < 0.18:
        thin = f"the sheet of {thinnest:g} mm is under 0.18 D: printed bearing loads do not hold"
    return DiameterCheck(trade, naval, thin)
