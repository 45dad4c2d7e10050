"""Limits of ISO metric trapezoidal threads (ISO 2903): stored tolerances; nuts 7H, 8H, 9H, screws 7e, 8e, 8c, 9c."""

from workbench.refusals import one_number, refuse, whole
from workbench.tables import table
from workbench.threads.limits import Band, Limits, rounded

_NUTS, _SCREWS = ("7H", "8H", "9H"), ("7e", "8e", "8c", "9c")
# a multi-start thread needs room for the spacing of its starts: pitch diameter tolerances times these (ISO 2903)
_STARTS = {1: 1.0, 2: 1.12, 3: 1.25, 4: 1.4}
_FIVE_AND_MORE = 1.6


def trapezoidal_limits(diameter_mm, pitch_mm, tolerance_class, starts=1):
    """Limits of a trapezoidal thread Tr d x P, mm.

    diameter_mm, pitch_mm: one thread of ISO 2902 (Tr8 to Tr300), P the pitch also where there are several starts;
    starts: whole number, widens the pitch diameter tolerance (1.12, 1.25, 1.4, 1.6 for 2, 3, 4, 5 and more).
    Basic: d2 = D2 = d - P/2, D1 = d - P, d3 = d - P - 2 a_c, D4 = d + 2 a_c. Screw: major d, tolerance Td; pitch
    d2 + es, tolerance Td2; minor high d3, tolerance Td3. Nut: major low D4 (no upper limit); pitch D2 + TD2; minor
    D1 + TD1.
    The position c or e acts on the pitch diameter alone. Refused: a size that is not in ISO 2902, a class that is not
    recommended by ISO 2903. Source: ISO 2901, ISO 2902, ISO 2903 (tables as stored).

    >>> trapezoidal_limits(16, 4, "7e").pitch
    Band(low=13.64, high=13.905)
    """
    one_number("diameter_mm", diameter_mm, above=0)
    one_number("pitch_mm", pitch_mm, above=0)
    spread = _STARTS.get(whole("starts", starts, cause="count thread beginnings at the end face"), _FIVE_AND_MORE)
    if tolerance_class not in _NUTS + _SCREWS:
        refuse("tolerance_class", tolerance_class, "must be one of " + ", ".join(_NUTS + _SCREWS),
               "6g and 6H belong to the 60 degree metric thread")
    name = f"Tr{diameter_mm:g}x{pitch_mm:g}"
    if name not in table("trapezoidal_sizes").rows:
        pitches = [f"{row['pitch_mm']:g}" for row in table("trapezoidal_sizes").rows.values()
                   if row["diameter_mm"] == diameter_mm]
        refuse("thread", name, "is not in ISO 2902", f"Tr{diameter_mm:g} has P {', '.join(pitches)}; was the lead of "
               "several starts given as pitch?" if pitches else "Tr8 to Tr300 are stored")
    grade, position = int(tolerance_class[0]), tolerance_class[1]
    crest = table("iso_2903_crest").row(f"{pitch_mm:g}")
    (band,) = (row for row in table("iso_2903_pitch").rows.values()
               if row["over_mm"] < diameter_mm <= row["to_mm"] and row["pitch_mm"] == pitch_mm)
    clearance_mm = table("trapezoidal_clearances").row(f"{pitch_mm:g}")["crest_clearance_mm"]
    basic_pitch = diameter_mm - pitch_mm / 2

    def mm(low, high):
        return Band(rounded(low, 3), None if high is None else rounded(high, 3))

    if position == "H":
        minor_low = diameter_mm - pitch_mm
        return Limits(name, tolerance_class, True, "mm",
                      mm(diameter_mm + 2 * clearance_mm, None),
                      mm(basic_pitch, basic_pitch + spread * band[f"TD2_{grade}"] / 1000),
                      mm(minor_low, minor_low + crest["TD1_4"] / 1000))
    pitch_high = basic_pitch + crest[position] / 1000
    minor_high = diameter_mm - pitch_mm - 2 * clearance_mm
    wider = (spread - 1) * band[f"Td2_{grade}"]  # the root follows the pitch diameter: 1.25 times its extra tolerance
    return Limits(name, tolerance_class, False, "mm",
                  mm(diameter_mm - crest["Td_4"] / 1000, diameter_mm),
                  mm(pitch_high - spread * band[f"Td2_{grade}"] / 1000, pitch_high),
                  mm(minor_high - (band[f"Td3_{tolerance_class}"] + 1.25 * wider) / 1000, minor_high))
