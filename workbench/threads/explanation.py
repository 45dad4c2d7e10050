"""A call-out explained: every field in plain words, and the call-out as it is spoken."""

from dataclasses import dataclass

from workbench.threads.designation import INCH_MM, LETTERS, metric_pitches_mm


@dataclass(frozen=True)
class Field:
    """One field of a call-out: its name, what is written for it ("" where left out), what it says, and where."""

    name: str
    written: str
    meaning: str
    span: tuple = ()


_FORMS = {
    "metric": "metric ISO thread, 60° between the flanks, sizes in millimetres",
    "MJ": "metric thread with a large root radius (ISO 5855), 60°; its nut has a larger bore",
    "trapezoidal": "metric trapezoidal thread, 30° between the flanks: it moves things",
    "buttress 3/30": "metric buttress thread, flanks 3° and 30°: it takes thrust one way",
    "square": "square thread, upright flanks: it moves things; no standard in use gives its sizes",
    "acme": "Acme thread, 29° between the flanks, sizes in inches: it moves things",
    "unified": "Unified inch thread, 60° between the flanks",
    "UNJ": "Unified inch thread with a large root radius, 60°; its nut has a larger bore",
}
_SERIES = {"UNC": "coarse series", "UNF": "fine series", "UNEF": "extra-fine series",
           "UN": "series of constant threads an inch", "UNS": "special, outside the series"}
_ENGAGEMENT = {"S": "short", "N": "normal", "L": "long"}


def _form(one):
    if one.form == "buttress 7/45":
        how = "pushes" if one.pushes else "pulls"
        return f"buttress thread, flanks 7° and 45°, sizes in inches: it takes thrust one way, this one {how}"
    return _FORMS[one.form]


def _diameter(one):
    if one.size.startswith("#"):
        return (f"number size {one.size[1:]}: 0.060 in + 0.013 in × {one.size[1:]} = {one.major_mm / INCH_MM:.3f} in "
                f"= {one.major_mm:.3f} mm over the crests of the screw")
    inch = f" in = {one.major_mm:.3f}" if one.inch else ""
    return f"nominal major diameter {one.size}{inch} mm, over the crests of the screw"


def _pitch(one):
    if one.inch:
        tpi = f"{one.threads_per_inch:.6f}".rstrip("0").rstrip(".")
        text = f"{tpi} threads an inch: pitch 25.4 / {tpi} = {one.pitch_mm:.4f} mm from crest to crest"
    else:
        text = f"pitch {one.pitch_mm:g} mm from crest to crest"
    known = metric_pitches_mm(one.major_mm) if one.form == "metric" else ()
    if "pitch" in one.supplied:
        return f"left out, so the coarse pitch counts (ISO 261): {text}"
    if known:
        listed = "coarse" if one.pitch_mm == known[0] else "fine" if one.pitch_mm in known else "not in ISO 261 here"
        return f"{text} ({listed})"
    return text


def _class(text, where):
    if where == "both":
        fit = "general purpose" if text.endswith("G") else "centralizing: guided on the major diameter"
        return f"tolerance class {text}, for screw and nut alike: {fit}; a higher figure fits closer"
    if text[-1] in "AB":
        return (f"tolerance class {text}: {'A is a screw' if text[-1] == 'A' else 'B is a nut'}; "
                "1 is loose, 2 usual, 3 close")
    other = "crest" if len(text) > 2 else ""
    words = f"{text[:2]} at the pitch diameter, {text[2:]} at the {other}" if other else text
    letter = "small letter" if where == "screw" else "capital letter"
    start = {"g": "just below nominal", "h": "at nominal", "e": "well below nominal", "H": "at nominal",
             "G": "just above nominal"}.get(text[1], "away from nominal")
    return f"tolerance class of the {where} ({letter}): {words}; the zone begins {start}; a higher grade is wider"


def explain(designation):
    """Every field of a designation in plain words, in the order of a call-out; what was left out is said too.

    >>> for one in explain(__import__("workbench.threads.designation").threads.designation.parse("M6x20")):
    ...     print(one.name, "|", one.written, "|", one.meaning)
    form | M | metric ISO thread, 60° between the flanks, sizes in millimetres
    diameter | 6 | nominal major diameter 6 mm, over the crests of the screw
    pitch |  | left out, so the coarse pitch counts (ISO 261): pitch 1 mm from crest to crest
    lead |  | one start: a turn advances one pitch, 1 mm
    hand |  | right hand: it tightens clockwise
    length | 20 | length 20 mm, counted from where the head form says
    """
    one, found = designation, []

    def say(name, key, meaning):
        span = one.spans.get(key, ())
        found.append(Field(name, one.text[slice(*span)] if span else "", meaning, span))

    say("form", "form" if "form" in one.spans else "series", _form(one))
    say("diameter", "diameter", _diameter(one))
    if one.series:
        kind = {"R": ", rounded root", "J": ", large root radius"}.get(one.series[2:3], "")
        known = _SERIES["UN" + one.series[2:].lstrip("RJ")]
        say("series", "series", ("left out, found by size and threads an inch: " if "series" in one.supplied else "")
            + f"{one.series}, {known}{kind}")
    say("pitch", "pitch", _pitch(one))
    if one.starts == 1:
        say("lead", "lead", f"one start: a turn advances one pitch, {one.pitch_mm:.4g} mm")
    else:
        say("lead", "lead", f"{one.starts} starts: a turn advances the lead, {one.lead_mm:.6g} mm = {one.starts} × "
            f"{one.pitch_mm:.6g} mm")
    say("hand", "left_hand", "left hand: it tightens anticlockwise" if one.left_hand
        else "right hand: it tightens clockwise")
    both = one.form == "acme"
    for key, where in (("nut_class", "nut"), ("screw_class", "both" if both else "screw")):
        if getattr(one, key):
            say("class" if both else f"class of the {where}", key, _class(getattr(one, key), where))
    if one.engagement:
        say("engagement", "engagement",
            f"{_ENGAGEMENT.get(one.engagement, one.engagement + ' mm')} length of engagement")
    if one.length_mm is not None:
        say("length", "length_mm", f"length {one.length_mm:g} mm, counted from where the head form says")
    if one.full_thread:
        say("thread length", "full_thread", "threaded over its whole length")
    if one.thread_length_mm is not None:
        say("thread length", "thread_length_mm", f"threaded over {one.thread_length_mm:g} mm from the end")
    if one.property_class:
        tensile, share = one.property_class.split(".")
        say("property class", "property_class", f"nominal strength {100 * int(tensile)} MPa, of which "
            f"{share} tenths, {10 * int(tensile) * int(share)} MPa, before it yields")
    return tuple(found)


_UNITS = ("zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen "
          "seventeen eighteen nineteen").split()
_TENS = "twenty thirty forty fifty sixty seventy eighty ninety".split()
_PARTS = {2: "half", 4: "quarter", 8: "eighth", 16: "sixteenth", 32: "thirty-second", 64: "sixty-fourth"}


def number_words(value):
    """A number from 0 to 999.999999 as it is spoken.

    >>> number_words(1.25), number_words(42), number_words(120)
    ('one point two five', 'forty-two', 'one hundred and twenty')
    """
    whole, _, digits = f"{value:.6f}".rstrip("0").rstrip(".").partition(".")
    whole = int(whole)
    words = []
    if whole >= 100:
        words.append(f"{_UNITS[whole // 100]} hundred" + (" and" if whole % 100 else ""))
    rest = whole % 100
    if rest or whole == 0:
        tens, unit = ("", rest) if rest < 20 else (_TENS[rest // 10 - 2], rest % 10)
        words.append("-".join(part for part in (tens, _UNITS[unit] if unit or not tens else "") if part))
    return " ".join(words + (["point", *(_UNITS[int(one)] for one in digits)] if digits else []))


def _size_words(size):
    if size.startswith("#"):
        return f"number {number_words(int(size[1:]))}"
    words = []
    for part in size.split():
        if "/" in part:
            above, below = (int(one) for one in part.split("/"))
            words.append(f"{number_words(above)} {_PARTS[below]}{'s' if above > 1 else ''}")
        else:
            words.append(number_words(float(part)))
    return " and ".join(words)


def _class_words(text):
    steps = [text[at : at + 2] for at in range(0, len(text), 2)]
    return " ".join(f"{number_words(int(grade))} {'capital' if letter.isupper() else 'small'} {letter.lower()}"
                    for grade, letter in steps)


def spoken(designation):
    """The call-out as it is said aloud; `parse` reads it back. Screw lengths and further fields are left as written.

    >>> from workbench.threads.designation import parse
    >>> spoken(parse("M6×1-6g"))
    'M six by one class six small g'
    >>> spoken(parse("1/4-20 UNC-2A"))
    'one quarter twenty U N C class two A'
    """
    one = designation
    if one.inch:
        name = {"acme": "acme", "buttress 7/45": "push butt" if one.pushes else "butt"}.get(
            one.form, " ".join(one.series))
        words = [_size_words(one.size), "dash"] if "." in one.size else [_size_words(one.size)]
        words += [number_words(one.threads_per_inch), name]
        words += [f"class {' slash '.join(f'{number_words(int(part[0]))} {part[1]}' for part in classes)}"
                  for classes in [[part for part in (one.nut_class, one.screw_class) if part]] if classes]
        if one.starts > 1:
            words.append(f"{one.starts} starts")
    else:
        name = {"Tr": "trapezoidal", "Sq": "square"}.get(LETTERS[one.form], LETTERS[one.form])
        words = [name, number_words(one.major_mm), "by"]
        if one.starts > 1:
            lead = "lead " if one.form in ("metric", "MJ") else ""
            words.append(f"{lead}{number_words(one.lead_mm)} pitch {number_words(one.pitch_mm)}")
        else:
            words.append(number_words(one.pitch_mm))
        classes = [_class_words(part) for part in (one.nut_class, one.screw_class) if part]
        words += [f"class {' slash '.join(classes)}"] if classes else []
    return " ".join(words + ["left hand"] * one.left_hand)
