"""What an apprentice typed, read as a value in the asked unit.

The one place where entries are read and units converted: lesson, marking run and paper use the same
function. An entry is never guessed at: where it has two readings, or none, `NotRead` says why, and the
entry counts as not judged.
"""

import math
import numbers
import re
import unicodedata
from dataclasses import dataclass, replace
from functools import cache
from itertools import pairwise

from workbench import unit_names
from workbench.exercises.exercise import Choice, Designation, Order, Quantity, Variant, letters

LONGEST = 200
_TIMES = ("second", "minute", "hour")
QUOTES = "\"'`´“”„‟‘’‚‛«»"
_DIGITS = r"(?:\d[\d ]*(?:[.,][\d ]*\d|[.,])*|[.,]\d+)"
_NUMBER = re.compile(
    rf"(?P<sign>[-+]?)\s*(?P<digits>{_DIGITS})(?P<power>(?:e|\s*[x*·]\s*10\s*\^?)\s*[-+]?\d+)?", re.A | re.I
)
_FRACTION = re.compile(r"(?P<sign>[-+]?)\s*(?:(?P<whole>\d+)[\s-]+)?(?P<over>\d+)\s*/\s*(?P<under>\d+)", re.A)
_ANGLE = re.compile(
    r"""(?P<sign>[-+]?)\s*(?P<deg>\d+(?:[.,]\d+)?)\s*(?:°|deg(?:rees?)?)\s*
        (?:(?P<min>\d+(?:[.,]\d+)?)\s*(?:'|′|min(?:utes?)?)\s*)?
        (?:(?P<sec>\d+(?:[.,]\d+)?)\s*(?:"|″|′′|''|sec(?:onds?)?)\s*)?$""",
    re.A | re.I | re.X,
)
_FIGURES = {"O": "0", "o": "0", "I": "1", "l": "1", "S": "5", "s": "5"}  # letters typed for figures like them
_PAIR = re.compile(r"(?P<nut>\d\s*[A-Ha-h])\s*/\s*(?P<screw>\d\s*[A-Ha-h])(?![A-Za-z0-9])")
_DRILL = re.compile(r"(?:#|no\.?\s*|number\s+|drill\s+)?(?P<size>\d{1,2}|[a-z])$", re.A | re.I)


class NotRead(ValueError):
    """The entry was not read; the text says why and how to write it. It is never a wrong answer."""


@dataclass(frozen=True)
class Reading:
    """value: in the asked unit (float), an option's name, a tuple of them, or a call-out; shown: the echo."""

    value: object
    shown: str


def as_text(value: object) -> str | None:
    """An entry as text, from whatever a cell holds: text, a number, a pint quantity, or None for nothing.

    Only these types are looked at, so that an object cannot act as a number. Raises `NotRead` for others.

    >>> as_text(3.25)
    '3.25'
    """
    kind = type(value)
    if value is None or kind is str:
        return value
    if kind is bool:
        raise NotRead("True or False is not an answer here")
    if kind in (int, float):
        if kind is int and abs(value) >= 10**18 or not math.isfinite(value):
            raise NotRead("that number is not finite, or far too large")
        return repr(value)
    if kind.__module__ == "numpy" and isinstance(value, numbers.Real):
        return as_text(value.item())
    if kind.__module__.startswith("pint") and hasattr(value, "magnitude"):
        return f"{as_text(value.magnitude)} {value.units:~}"
    raise NotRead(f"a {kind.__name__} is not an answer: give one value, such as 3.25 mm")


def read(text: str | None, kind: Quantity | Choice | Order | Designation, variant: Variant) -> Reading:
    """Read an entry of the given kind.

    text: what was typed, quotes or not. kind: the exercise's answer. variant: its numbers (a choice
    lists its options in its own order). Raises `NotRead` with the reason.

    >>> read("3,25 mm", Quantity("mm", 0.01, (0, 25)), {}).value
    3.25
    """
    text = plain(text)
    if isinstance(kind, Order):
        return _order(text, variant)
    if isinstance(kind, Choice):
        return _choice(text, kind, variant)
    if isinstance(kind, Designation):
        return _designation(text, kind)
    return _quantity(text, kind)


def plain(text: str | None) -> str:
    """The entry without quotes and odd white space, minus signs made alike; `NotRead` if nothing is left."""
    if text is None:
        raise NotRead("nothing is typed yet")
    if type(text) is not str:
        raise NotRead(f"a {type(text).__name__} is not text: type one value, such as 3.25 mm")
    if len(text) > LONGEST:
        raise NotRead(f"that is {len(text):,} characters long: type one value, such as 3.25 mm")
    # ½ and ⅛ behind a whole number need a space before they become 1/2 and 1/8
    text = re.sub(r"(?<=\d)(?=[¼-¾⅐-⅞])", " ", text)
    text = unicodedata.normalize("NFKC", text).replace("⁄", "/")
    text = re.sub(r"^\s*[−–—‐]", "-", text).replace("−", "-").replace("×", "x")
    text = " ".join(text.split()).strip()
    # an inch mark or a minute mark at the end belongs to the number; a lone opening quote does not
    if text[:1] in tuple(QUOTES) and text[:1]:
        text = text[1:].strip(" ")
        text = text[:-1].strip() if text[-1:] and text[-1] in QUOTES else text
    elif text[-1:] and text[-1] in QUOTES and not re.search(r"\d\s*[\"'”’]{1,2}$", text):
        text = text[:-1].strip()
    if not text:
        raise NotRead("nothing is typed yet")
    return text


def in_unit(value: float, unit: str, wanted: str) -> float:
    """A value converted between two units that pint knows: in_unit(1, "inch", "mm") is 25.4."""
    if unit == wanted:
        return value
    return float(_registry().Quantity(value, unit).to(wanted).magnitude)


@cache
def _registry():
    import pint

    return pint.UnitRegistry(cache_folder=None)


def _quantity(text: str, kind: Quantity) -> Reading:
    text = text.lstrip("=").strip()
    if re.search(r"±|\+/-|~|≈|<|>|\bto\b|\bor\b|\?|\d\s*\.\.+\s*\d|\b(about|approx)", text, re.I):
        raise NotRead(f"“{text}” is not one value: give the one that you stand by")
    if "drill" in kind.forms and (found := _DRILL.fullmatch(text)):
        return _drill(found["size"], kind)
    if kind.unit == "deg" and (found := _ANGLE.fullmatch(text)):
        return _angle(found, text)
    if letter := _letter_for_figure(text, kind):
        raise NotRead(f"a letter {letter} stands in the number of “{text[:40]}”: type the figure {_FIGURES[letter]}")
    if "fraction" in kind.forms and (found := _FRACTION.match(text)):
        if not int(found["under"]):
            raise NotRead(f"“{text}” divides by zero")
        value = int(found["whole"] or 0) + int(found["over"]) / int(found["under"])
        values = [-value if found["sign"] == "-" else value]
    elif found := _NUMBER.match(text):
        values = _numbers(found, text)
    else:
        if re.search(r"\d", text):
            raise NotRead(f"“{text[:40]}” does not begin with a number: type only the value behind the = sign")
        raise NotRead(f"no number is found in “{text}”: type it as 3.25 {_unit_label(kind.unit)}".rstrip())
    rest = text[found.end() :].strip()
    if re.match(r"[\d.,/]", rest):
        raise NotRead(f"“{text}” is not one number: look at “{rest}”")
    unit = _unit(rest, kind)
    values = [_converted(value, unit, kind.unit) for value in values]
    low, high = kind.within
    fitting = values if len(values) == 1 else [value for value in values if low <= value <= high]
    if len(fitting) != 1:
        raise NotRead(
            f"“{text}” can be read in two ways: write a decimal point for a decimal ({text.replace(',', '.')}), "
            f"and no mark for thousands ({text.replace(',', '')})"
        )
    value = fitting[0]
    if kind.step == 1 and kind.unit in unit_names.COUNTS.values() and value != round(value):
        raise NotRead(f"“{text}” is no whole number: {kind.unit} are counted, so type a whole number")
    if not math.isfinite(value):
        raise NotRead(f"“{text}” is far too large")
    return Reading(value, _shown(text, rest, value, kind))


def _letter_for_figure(text: str, kind: Quantity) -> str:
    """The letter that stands among the figures of a number, as in 1.O58; "" where all letters may be a unit."""
    word = re.match(r"[-+]?\s*(?P<whole>[\d.,/]*(?P<letter>[OoIlSs])[\dOoIlSs.,/]*)(?P<after>.*)", text)
    if not word or not re.search(r"\d", word["whole"]):
        return ""
    before, tail = re.fullmatch(r"(.*?)([OoIlSs]*)", word["whole"]).groups()
    if tail:  # figures, then letters alone: perhaps a unit, or the beginning of one
        after, unit = word["after"].strip(), unit_names.SPELLINGS.get((tail + word["after"]).strip().casefold())
        if unit == "second":
            return "S" if tail == "S" and (before[-1:] in ".," or kind.unit not in _TIMES) else ""
        if unit or after and not (unit_names.SPELLINGS.keys() | unit_names.COUNTS.keys()) & {after, after.casefold()}:
            return ""
    return word["letter"]


def _numbers(found: re.Match, text: str) -> list[float]:
    """All that a number can mean: one value, or two where a comma may be a decimal or a thousands mark."""
    digits = found["digits"].rstrip(" ")
    if " " in digits and not re.fullmatch(r"\d{1,3}( \d{3})+([.,]\d*)?", digits):
        raise NotRead(f"“{text}” holds two numbers: type one value, such as 18.5")
    digits = digits.replace(" ", "")
    power = re.sub(r"\s|e|[x*·]\s*10\s*\^?", "", found["power"] or "", flags=re.I) or "0"
    if abs(int(power[:9])) > 30:
        raise NotRead(f"“{text}” is far too large or too small")

    def value(plain: str) -> float:
        return float(f"{found['sign']}{plain}e{power}")

    dots, commas = digits.count("."), digits.count(",")
    if dots and commas:
        last = max(digits, key=lambda mark: digits.rfind(mark) if mark in ".," else -1)
        other = "," if last == "." else "."
        if digits.count(last) > 1 or not re.fullmatch(rf"\d{{1,3}}([{other}]\d{{3}})+[{last}]\d*", digits):
            raise NotRead(f"the points and commas in “{text}” do not fit together")
        return [value(digits.replace(other, "").replace(last, "."))]
    if dots > 1 or commas > 1:
        mark = "." if dots else ","
        if not re.fullmatch(rf"\d{{1,3}}([{mark}]\d{{3}})+", digits):
            raise NotRead(f"“{text}” has more than one decimal mark")
        return [value(digits.replace(mark, ""))]
    as_decimal = value(digits.replace(",", "."))
    if re.fullmatch(r"[1-9]\d{0,2},\d{3}", digits):
        return [as_decimal, value(digits.replace(",", ""))]
    return [as_decimal]


def _unit(rest: str, kind: Quantity) -> str:
    """The unit that stands behind the number, as pint or a count knows it."""
    spelled = rest.strip(" .") if rest not in unit_names.SPELLINGS else rest
    folded = re.sub(r"\s*[*·.]\s*", " ", spelled).casefold() if spelled else ""
    for name in (spelled, spelled.casefold(), folded):
        if name in unit_names.AMBIGUOUS:
            raise NotRead(unit_names.AMBIGUOUS[name])
    is_count = kind.unit in unit_names.COUNTS.values()
    if not spelled:
        if not (kind.unit_given or is_count or not kind.unit):
            raise NotRead(f"the unit is missing: a bare number could be anything (write it as 3.25 {kind.unit})")
        return kind.unit
    if is_count and unit_names.COUNTS.get(folded) == kind.unit:
        return kind.unit
    for name in (spelled, folded):
        if name in unit_names.SPELLINGS:
            return unit_names.SPELLINGS[name]
    if folded in unit_names.COUNTS:
        asked = f"asked for are {kind.unit}" if is_count else f"asked for is a value in {_unit_label(kind.unit)}"
        raise NotRead(f"“{rest}” counts something else: {asked}")
    raise NotRead(f"the unit “{rest[:30]}” is not known here: write {_unit_label(kind.unit) or 'no unit'}")


def _converted(value: float, unit: str, wanted: str) -> float:
    if unit == wanted:
        return value
    if wanted in unit_names.COUNTS.values() or not wanted:
        plain = f"count of {wanted}" if wanted else "number"
        raise NotRead(f"a unit ({_unit_label(unit)}) is out of place: asked for is a plain {plain}")
    import pint

    try:
        return in_unit(value, unit, wanted)
    except pint.DimensionalityError:
        raise NotRead(
            f"{_unit_label(unit)} is another kind of quantity: asked for is a value in {_unit_label(wanted)}"
        ) from None


def _unit_label(unit: str) -> str:
    return unit_names.PRINTED.get(unit, unit.replace("*", " "))


def _shown(text: str, rest: str, value: float, kind: Quantity) -> str:
    """The echo: the entry, and its value in the asked unit where that says something new."""
    asked = _unit_label(kind.unit)
    here = f"{value:.10g} {asked}".rstrip()
    if not rest or rest.replace(" ", "") == asked.replace(" ", ""):
        return here
    if unit_names.SPELLINGS.get(rest, rest) == kind.unit:
        return here
    # a converted value to the figures asked for, or to three figures where those would show less
    places = max(kind.decimals, 2 - math.floor(math.log10(abs(value)))) if value else 0
    return f"{text} = {round(value, places):.10g} {asked}".rstrip()


def _angle(found: re.Match, text: str) -> Reading:
    degrees, minutes, seconds = (float((found[part] or "0").replace(",", ".")) for part in ("deg", "min", "sec"))
    if minutes >= 60 or seconds >= 60:
        raise NotRead(f"“{text}”: minutes and seconds of angle stay below 60")
    value = degrees + minutes / 60 + seconds / 3600
    value = -value if found["sign"] == "-" else value
    shown = f"{value:.10g}°"
    return Reading(value, shown if not found["min"] else f"{text} = {shown}")


def _drill(size: str, kind: Quantity) -> Reading:
    from workbench import tables

    try:
        row = tables.table("number_drills").row(size.upper())
    except ValueError as reason:
        raise NotRead(f"there is no drill {size.upper()}: {reason}") from None
    value = in_unit(float(row["diameter_in"]), "inch", kind.unit)
    return Reading(value, f"drill {size.upper()} = {value:.4g} {_unit_label(kind.unit)}")


def _choice(text: str, kind: Choice, variant: Variant) -> Reading:
    named = letters(variant)
    found = re.fullmatch(r"(?:option |answer )?\(?([a-z])[.):]*", text.casefold())
    if not found or found[1] not in named:
        raise NotRead(f"“{text[:40]}” is not one of the letters {', '.join(named)}: type one letter")
    return Reading(named[found[1]], f"{found[1]}: {kind.options[named[found[1]]]}")


def _order(text: str, variant: Variant) -> Reading:
    named = letters(variant)
    typed = re.sub(r"[\s,;>/.\-]|\bthen\b|\band\b", "", text.casefold())
    wrong = [letter for letter in typed if letter not in named]
    if wrong or not typed:
        raise NotRead(f"“{text[:40]}” holds more than the letters {', '.join(named)}: type them in order")
    doubled = [first for first, second in pairwise(sorted(typed)) if first == second]
    missing = [letter for letter in named if letter not in typed]
    if doubled or missing:
        said = [f"{letter} stands twice" for letter in doubled] + [f"{letter} is missing" for letter in missing]
        raise NotRead(f"every letter once: {', '.join(said)}")
    return Reading(tuple(named[letter] for letter in typed), " ".join(typed))


def _designation(text: str, kind: Designation) -> Reading:
    from workbench.threads import designation

    try:
        found = designation.parse(text.lstrip("=").strip())
    except ValueError as reason:  # names the place and the likely meaning
        found = _alike(text, kind)
        if found is None:
            raise NotRead(str(reason)) from None
    left_out = "pitch" in found.supplied
    if left_out and kind.with_pitch:
        raise NotRead(f"the pitch is left out in “{text[:40]}”: write it too, as in M64x4")
    return Reading(found, designation.write(found, show_pitch=not left_out))


def _alike(text: str, kind: Designation):
    """The call-out of a pair whose two class letters are both capital or both small; None for any other.

    No pair is written so, but where both classes are asked the slip is plain and can be judged.
    """
    from workbench.threads import designation

    pair = _PAIR.search(text)
    if not pair or not {"nut_class", "screw_class"} <= {*kind.also} or pair["nut"].isupper() != pair["screw"].isupper():
        return None
    proper = f"{pair['nut'].upper()}/{pair['screw'].lower()}"
    try:
        found = designation.parse(text[: pair.start()] + proper + text[pair.end() :])
    except ValueError:
        return None
    return replace(found, nut_class="".join(pair["nut"].split()), screw_class="".join(pair["screw"].split()))
