"""Reads call-outs that begin with a size in inches: Unified, Acme and 7/45 buttress."""

import re
from fractions import Fraction

from workbench.tables import table
from workbench.threads.designation import INCH_MM, Designation

_SIZE = r"#\s*[0-9]{1,2}|[0-9]{1,2}[ -]\s*[0-9]{1,2}/[0-9]{1,2}|[0-9]{1,2}/[0-9]{1,2}|[0-9]{0,2}\.[0-9]{1,4}|[0-9]{1,2}"
_END = r"(?![A-WYZa-wyz0-9])"  # nothing but a blank, a sign or the x of a length follows
_CLASS = {"unified": rf"[123]\s*[AB]{_END}", "UNJ": rf"3\s*[AB]{_END}", "acme": rf"[2-4]\s*[GC]{_END}",
          "buttress 7/45": rf"[23]\s*[AB]{_END}"}
_SHOWN = {"unified": "1A, 2A, 3A on a screw, 1B, 2B, 3B in a nut", "UNJ": "3A or 3B", "acme": "2G, 3G or 4G",
          "buttress 7/45": "2A, 3A, 2B or 3B"}


def _inches(text):
    """A size as a fraction of an inch; ZeroDivisionError where the text says x/0."""
    return sum(Fraction(part) for part in text.replace("-", " ").split())


def size_text(inches):
    """The usual way to write a size: whole and fraction in sixty-fourths, else a decimal.

    >>> size_text(Fraction(9, 8)), size_text(Fraction("0.19"))
    ('1 1/8', '0.19')
    """
    if (inches * 64).denominator != 1:
        return f"{float(inches):g}"
    whole, part = divmod(inches, 1)
    return " ".join(str(one) for one in (whole, part) if one) or "0"



def read(line):
    """The designation on this line, or None where it does not begin with a figure."""
    size_at = line.at
    size = line.take(_SIZE)
    if not size:
        return None
    spans = {"diameter": line.span}
    line.take(r"in\b|\"")
    try:
        inches = _inches(size.replace("#", ""))
    except ZeroDivisionError:
        line.fail("the fraction has nothing below its stroke", "as in 1/4-20 UNC", size_at)
    if line.take("x"):
        line.fail("x follows only a size in mm", f"a metric call-out begins with M: M{size}x ...", size_at)
    if not line.take("-") and line.done:
        line.fail("threads an inch are due after the size", "as in 1/4-20 UNC, or did M come before the figure?")
    other = line.take(r"BSW|BSF|BA\b|NPT|BSP")
    if other:
        line.fail(f"{other.upper()} threads are not read here",
                  "Whitworth (BS 84), BA (BS 93) and pipe threads: look among the known threads by name", size_at)
    pitch_at = line.at
    pitch, starts = _pitch(line, spans)
    form, series, pushes = _name(line, spans)
    rows = table("unified_sizes").rows
    tpi = f"{float(Fraction(INCH_MM) / pitch):g}" if pitch else ""
    shown = None
    if size.startswith("#") or (form in ("", "unified", "UNJ") and _is_number(size, tpi, rows)):
        number = int(inches)
        if number > 12 or inches != number:
            line.fail("number sizes run from #0 to #12", "larger screws are named by the inch, as 1/4", size_at)
        shown, inches = f"#{number}", Fraction(60 + 13 * number, 1000)
    elif form in ("", "unified", "UNJ"):
        shown = next((row["size"] for row in rows.values() if abs(row["major_in"] - inches) < 1e-9), None)
    if not inches:
        line.fail("a size of nothing", "as in 1/4-20 UNC, or #0-80 UNF", size_at)
    shown = shown or size_text(inches)
    if "/" in size and (inches * 64).denominator != 1:
        line.fail("inch sizes go by halves, quarters ... sixty-fourths", f"was {size} mistyped?", size_at)
    parts = {"form": form, "size": shown, "major_mm": float(inches * Fraction(str(INCH_MM))),
             "pitch_mm": float(pitch), "starts": starts, "series": series, "pushes": pushes, "spans": spans,
             "text": line.text}
    if parts["pitch_mm"] > parts["major_mm"] / 2:
        line.fail("so few threads an inch leave no core in this size", "was the figure mistyped?", pitch_at)
    _series(line, parts, tpi, pitch_at)
    while not line.done:
        _rest(line, parts)
    return Designation(**parts)


def _is_number(size, tpi, rows):
    """10-32: 10 is a number size if the table lists it with so many threads an inch."""
    row = rows.get(f"{size}-{tpi}")
    return row is not None and row["size"].startswith("#") and row["size"][1:] == size


def _pitch(line, spans):
    """Threads an inch, or pitch P and lead L in inches; pitch in mm as an exact fraction, and starts."""
    inch = Fraction(str(INCH_MM))
    pitch = line.take(r"[0-9]?\.[0-9]{1,6}(?=\s*P)")
    if pitch:
        spans["pitch"] = line.span
        line.take("P")
        line.take("-")
        lead = line.take(r"[0-9]{0,2}\.?[0-9]{1,6}(?=\s*L)")
        if not lead or not float(pitch) or not float(lead):
            line.fail("lead in inches and L are due after the pitch", "as in 0.25P-0.5L")
        spans["lead"] = line.span
        line.take("L")
        starts = round(float(lead) / float(pitch))
        if not 1 <= starts <= 24 or abs(float(lead) / float(pitch) - starts) > 0.01:
            line.fail("the lead holds no whole number of pitches", "lead = pitch x starts")
        quarter_tpi = round(4 / float(pitch))
        near = abs(4 / float(pitch) - quarter_tpi) < 0.002 * quarter_tpi
        return (inch * Fraction(4, quarter_tpi) if near else inch * Fraction(pitch)), starts
    at = line.at
    tpi = line.number()
    if not tpi or not 1 <= float(tpi) <= 120:
        line.fail("threads an inch are due here, 1 to 120", "as in 1/4-20 UNC", at if tpi else None)
    spans["pitch"] = line.span
    return inch / Fraction(tpi), 1


def _name(line, spans):
    """Form, series and, for buttress, whether it pushes."""
    line.take("-")
    at = line.at
    series = line.take(r"UN[JR]?(?:EF|[CFS])?(?![A-Z])")
    if series:
        spans["series"] = line.span
        series = series.upper()
        return ("UNJ" if series.startswith("UNJ") else "unified"), series, False
    if line.take(r"stub"):
        line.fail("stub threads are not read here", "a stub Acme is less deep: see ASME B1.8", at)
    name = line.take(r"acme|push[ -]?butt(?:ress)?|butt(?:ress)?")
    if name:
        spans["form"] = line.span
        return ("acme" if name.lower() == "acme" else "buttress 7/45"), "", name.lower().startswith("push")
    if line.take(r"NC|NF|NEF|BSW|BSF|BA"):
        line.fail("not a series of Unified threads",
                  "the Unified series are UNC, UNF, UNEF, UN; BSW and BSF are Whitworth threads (BS 84)", at)
    return "", "", False


def _series(line, parts, tpi, at):
    """Supply a series that was left out; refuse threads an inch that the named series does not have."""
    rows = [row for row in table("unified_sizes").rows.values() if row["size"] == parts["size"]]
    listed = ", ".join(f"{row['threads_per_inch']:g} {row['series']}" for row in rows) or "none in the table"
    if not parts["form"]:
        found = [row["series"] for row in rows if f"{row['threads_per_inch']:g}" == tpi]
        if not found:
            line.fail(f"no series is named, and the table has no {parts['size']}-{tpi}",
                      f"{parts['size']} has {listed}; name the series, or Acme, or BUTT")
        parts.update(form="unified", series=found[0], supplied=("series",))
        return
    series = re.sub(r"^UN[JR]", "UN", parts["series"])
    wanted = [row for row in rows if row["series"] == series]
    if series in ("UNC", "UNF", "UNEF") and parts["starts"] == 1:
        if not wanted:
            line.fail(f"{parts['size']} has no {series} thread", f"it has {listed}", at)
        if f"{wanted[0]['threads_per_inch']:g}" != tpi:
            line.fail(f"{parts['size']} {series} has {wanted[0]['threads_per_inch']:g} threads an inch, not {tpi}",
                      f"it has {listed}", at)


def _rest(line, parts):
    """One item after the name: class, hand, starts, length."""
    if line.take("-") and line.done:
        line.fail("the call-out ends in a dash", "a class such as 2A, or LH, follows a dash")
    line.blanks()
    at = line.at
    name, value = "", None
    if line.take(r"LH\b|RH\b|left\b|right\b"):
        name, value = "left_hand", line.signs[line.at - 2 : line.at].upper() == "LH" or "left" in line.signs[at:line.at]
    elif line.take(r"full(?:y)?[ -]thread(?:ed)?\b"):
        name, value = "full_thread", True
    elif line.take("x"):
        length = line.take(_SIZE.split("|", 1)[1])
        if not length or "/0" in length or not _inches(length):
            line.fail("the length in inches is due after x", "as in x 1 1/2")
        name, value = "length_mm", float(_inches(length) * Fraction(str(INCH_MM)))
        line.take(r"in\b|\"")
    else:
        count = line.take(r"\(?\s*[0-9]{1,2}\s+starts?\s*\)?")
        if count:
            said = int("".join(sign for sign in count if sign.isdigit()))
            if not said or parts["starts"] not in (1, said):
                line.fail(f"{said} starts do not fit lead and pitch", "lead = pitch x starts", at)
            parts["starts"] = said
            return
        return _class(line, parts, at)
    if name in parts:
        line.fail(f"the {name.replace('_mm', '').replace('_', ' ')} is given twice", "strike one out", at)
    parts[name] = value
    parts["spans"][name] = line.span


def _class(line, parts, at):
    pattern = _CLASS[parts["form"]]
    for _ in range(2):
        found = "".join(line.take(pattern).upper().split())
        if not found:
            line.fail("this does not belong to the call-out", f"classes here: {_SHOWN[parts['form']]}; LH = left hand")
        name = "nut_class" if found.endswith("B") else "screw_class"
        if name in parts:
            line.fail("the class is given twice", "strike one out", at)
        parts[name] = found
        parts["spans"][name] = line.span
        if not line.take("/"):
            return
    line.fail("two classes are enough", "one for the screw, one for the nut")
