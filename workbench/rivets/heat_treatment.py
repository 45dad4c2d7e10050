"""Solution heat treatment of rivets: the band of each alloy less the furnace's error, soak, quench delay.

The round figure of 500 degC lies above the band of 2024-type alloys: its grain boundaries melt and the load is scrap.
Bands and times are those of the document named; they are looked up, never interpolated. Figures are for learning:
a heat treatment that must hold follows the approved document and a surveyed furnace.
"""

import math
from dataclasses import dataclass

from workbench.refusals import numbers, one_number, refuse
from workbench.tables import table

FURNACES = ("salt bath", "air furnace")


@dataclass(frozen=True)
class Band:
    """A solution band: `low_degc` to `high_degc`, both allowed, and the document that prints it."""

    document: str
    alloy: str
    low_degc: float
    high_degc: float


def celsius(degf):
    """degF as degC: (F - 32) / 1.8. degf: any number or array.

    >>> round(celsius(925), 1)
    496.1
    """
    return (numbers("degf", degf) - 32) / 1.8


def fahrenheit(degc):
    """degC as degF: 1.8 C + 32. degc: any number or array.

    >>> round(fahrenheit(500), 1)
    932.0
    """
    return 1.8 * numbers("degc", degc) + 32


def bands(alloy):
    """All printed bands of an alloy, so that a difference between documents is seen.

    >>> [(one.document, one.low_degc) for one in bands("2017")]
    [('specification', 496.0), ('rivet table', 496.0), ('heat table', 499.0)]
    """
    rows = table("solution_bands").rows.values()
    found = [Band(row["document"], _name(row["alloy"]), row["low_degc"], row["high_degc"])
             for row in rows if _name(row["alloy"]) == str(alloy)]
    if not found:
        known = sorted({_name(row["alloy"]) for row in rows})
        refuse("alloy", alloy, f"no band is printed here; known are {', '.join(known)}", "is it an alloy of 2000 type?")
    return found


def band(alloy, document="specification"):
    """The solution band of an alloy by one document.

    >>> band("2024")
    Band(document='specification', alloy='2024', low_degc=488.0, high_degc=499.0)
    """
    found = {one.document: one for one in bands(alloy)}
    if document not in found:
        refuse("document", document, f"prints no band of {alloy}; those that do: {', '.join(found)}")
    return found[document]


def safest_band(alloy):
    """What every printed band of an alloy allows: the highest low end to the lowest high end.

    >>> safest_band("2017").low_degc, safest_band("2017").high_degc
    (499.0, 510.0)
    """
    found = bands(alloy)
    low, high = max(one.low_degc for one in found), min(one.high_degc for one in found)
    if low > high:
        refuse("alloy", alloy, "its documents have no temperature in common: choose one of them")
    return Band("all that print it", found[0].alloy, low, high)


def setting_window(one, error_degc):
    """Lowest and highest safe setting: (low + e, high - e), with e the error of furnace and instrument together.

    one: Band; error_degc e >= 0, as the last survey gives it, either way. Refused where nothing is left of the band.

    >>> setting_window(band("2024"), 5)
    (493.0, 494.0)
    """
    _band_given(one)
    error = one_number("error_degc", error_degc, at_least=0, cause="give the size of the error; it counts both ways")
    low, high = one.low_degc + error, one.high_degc - error
    if low > high:
        refuse("error_degc", error_degc, f"leaves nothing of the band {one.low_degc:g} to {one.high_degc:g} degC",
               "this furnace cannot treat this alloy: refer it")
    return low, high


def judged(degc, one):
    """What a true metal temperature means: "under" (not dissolved), "in band", or "over" (scrap, never re-treated).

    >>> judged(500, band("2024")), judged(500, band("2017"))
    ('over', 'in band')
    """
    _band_given(one)
    degc = one_number("degc", degc)
    return "over" if degc > one.high_degc else "under" if degc < one.low_degc else "in band"


def true_degc(reading_degc, correction_degc):
    """True temperature: reading + correction, the correction with the sign of the certificate.

    >>> true_degc(496, -3)
    493
    """
    return numbers("reading_degc", reading_degc) + numbers("correction_degc", correction_degc)


def _band_given(one):
    if not isinstance(one, Band):
        refuse("band", one, "must be a Band", "as from band('2024')")


def soak_min(size_mm, furnace, document="specification"):
    """Soak time at temperature in min: (least, most); most is None where the document names none.

    size_mm: thickness or rivet diameter, > 0; furnace: "salt bath" or "air furnace";
    document: "specification", "handbook" or "rivets". The clock starts when the metal has reached the band.

    >>> soak_min(4, "salt bath"), soak_min(4, "air furnace", "rivets")
    ((35.0, 45.0), (60.0, None))
    """
    if furnace not in FURNACES:
        refuse("furnace", furnace, f"must be one of {', '.join(FURNACES)}")
    rows = [row for row in table("soak_times").rows.values()
            if row["document"] == document and row["furnace"] in (furnace, "either")]
    row = _row_of_size(rows, size_mm, document)
    return row["least_min"], row["most_min"] or None


def soak_end(at_temperature_min, soak):
    """When the soak ends: at temperature + soak, in the minutes of the clock used. Loading time does not count.

    >>> soak_end(12, 30)
    42
    """
    return numbers("at_temperature_min", at_temperature_min) + numbers("soak", soak, above=0)


def quench_delay_s(size_mm, document="specification"):
    """Longest quench delay in s, from the first corner out of the heat to the last one under water.

    size_mm: thickness or rivet diameter, > 0.

    >>> quench_delay_s(2), quench_delay_s(4), quench_delay_s(4, "handbook")
    (10.0, 15.0, 10.0)
    """
    rows = [row for row in table("quench_delays").rows.values() if row["document"] == document]
    return _row_of_size(rows, size_mm, document)["delay_s"]


def delay_in_hand_s(limit_s, lift_s, carry_s, sink_s):
    """Seconds in hand: limit - (lift + carry + sink); below nought the load is late and must be treated again.

    >>> delay_in_hand_s(10, 3, 4, 2)
    1
    """
    spent = sum(numbers(name, value, at_least=0)
                for name, value in (("lift_s", lift_s), ("carry_s", carry_s), ("sink_s", sink_s)))
    return numbers("limit_s", limit_s, above=0) - spent


def cold_storage_days(alloy, store_degc):
    """Days that as-quenched parts keep in a store, and the longest delay into it in min: (days, delay).

    The warmest printed step that the store meets counts; between two steps nothing is gained. (0, delay) where
    the store is too warm for any.

    >>> cold_storage_days("2024", -20), cold_storage_days("2024", -5)
    ((30.0, 15.0), (0, 15.0))
    """
    store = one_number("store_degc", store_degc, at_least=-273)
    rows = [row for row in table("cold_storage").rows.values() if str(alloy) in row["alloys"].split()]
    if not rows:
        refuse("alloy", alloy, "is not in the table of cold storage")
    met = [row["days"] for row in rows  # both scales are printed, each rounded: either counts
           if store <= row["at_most_degc"] or fahrenheit(store) <= row["at_most_degf"] + 1e-9]
    return max(met, default=0), rows[0]["delay_min"]


def _row_of_size(rows, size_mm, document):
    """The row whose thickness range (in inches) holds a size in mm."""
    size_in = one_number("size_mm", size_mm, above=0) / 25.4
    for row in rows:
        if row["over_in"] < size_in <= row["up_to_in"] or math.isclose(size_in, row["up_to_in"]):
            return row
    if not rows:
        refuse("document", document, "prints no such table", "known: specification, handbook; for soak also rivets")
    refuse("size_mm", size_mm, f"the table of {document} ends at {25.4 * rows[-1]['up_to_in']:.1f} mm")


def _name(alloy):
    """An alloy's number as text: a column of plain numbers is read as numbers."""
    return f"{alloy:g}" if isinstance(alloy, float) else alloy
