"""Reads call-outs that begin with a letter: M, MJ, Tr, S (buttress 3/30) and Sq, sizes in mm."""

from workbench.tables import table
from workbench.threads.designation import LETTERS, Designation, coarse_pitch_mm, metric_pitches_mm
from workbench.threads.spelling import NotACallOut

_FORMS = {letters.lower(): form for form, letters in LETTERS.items()}
_END = r"(?![A-WYZa-wyz0-9])"  # nothing but a blank, a sign or the x of a length follows
_SCREW = {"M": rf"(?:[3-9]\s*[a-h]\s*){{1,2}}{_END}", "Tr": rf"[7-9]\s*[ceh]{_END}"}
_NUT = {"M": rf"(?:[3-9]\s*[E-H]\s*){{1,2}}{_END}", "Tr": rf"[7-9]\s*H{_END}"}
_LENGTH_FROM = 0.75  # of the diameter: no screw on sale is shorter, no pitch is so coarse


def read(line):
    """The designation on this line, or None where it begins with none of the letters."""
    letters = line.take(r"MJ|M|Tr|Sq|S")
    if not letters:
        return None
    spans = {"form": line.span}
    form = _FORMS[letters.lower()]
    diameter = line.number()
    if not diameter or not float(diameter):
        line.fail(f"the diameter in mm is due after {LETTERS[form]}", f"as in {LETTERS[form]}10")
    spans["diameter"] = line.span
    parts = {"form": form, "size": f"{float(diameter):g}", "major_mm": float(diameter), "text": line.text,
             "spans": spans}
    line.take("mm")
    (_metric_pitch if form in ("metric", "MJ") else _moving_pitch)(line, parts)
    line.take("mm")
    while not line.done:
        _rest(line, parts)
    if (parts.get("thread_length_mm") or 0) > parts.get("length_mm", float("inf")):
        raise NotACallOut(line.text, spans["thread_length_mm"][0], "the thread is longer than the screw",
                          "were the two lengths swapped?")
    if parts.get("full_thread") and "thread_length_mm" in parts:
        raise NotACallOut(line.text, spans["full_thread"][0], "full thread and a thread length exclude each other",
                          "strike one out")
    return Designation(**parts)


def _starts(line, parts, lead, pitch, at):
    starts = round(lead / pitch)
    if starts < 1 or abs(lead - starts * pitch) > 1e-6:
        line.fail(f"a lead of {lead:g} mm holds no whole number of pitches of {pitch:g} mm",
                  "lead = pitch x number of starts; were the two swapped?", at)
    if starts > 24:
        line.fail(f"{starts} starts are more than any thread has", "was the pitch mistyped?", at)
    parts.update(pitch_mm=pitch, starts=starts)


def _some_number(line, rule, likely):
    number = line.number()
    if not number or not float(number):
        line.fail(rule, likely)
    return float(number)


def _metric_pitch(line, parts):
    """After the diameter: nothing (coarse), x pitch, x Ph lead P pitch, or x length."""
    diameter, spans = parts["major_mm"], parts["spans"]
    coarse, before = coarse_pitch_mm(diameter), line.at
    if line.take("x"):
        at = line.at
        if line.take("Ph"):
            lead = _some_number(line, "the lead is due after Ph", "as in M16xPh3P1.5: lead 3, pitch 1.5")
            spans["lead"] = line.span
            if not line.take("P"):
                line.fail("the pitch is due after the lead", f"write Ph{lead:g}P and the pitch")
            pitch = _some_number(line, "the pitch is due after P", "as in M16xPh3P1.5")
            spans["pitch"] = line.span
            return _starts(line, parts, lead, pitch, at)
        number = _some_number(line, "a number is due", "pitch or length")
        if coarse is None or number <= coarse:
            spans["pitch"] = line.span
            return _listed(line, parts, number, at)
        if number < _LENGTH_FROM * diameter:
            known = ", ".join(f"{pitch:g}" for pitch in metric_pitches_mm(diameter))
            line.fail(f"{number:g} is no pitch of M{diameter:g} and too short for its length",
                      f"M{diameter:g} has the pitches {known}; {_with_pitch(number)}", at)
        line.at = before  # the number is the length: the pitch was left out
    if coarse is None:
        near = sorted({row["diameter_mm"] for row in table("iso_261_metric").rows.values()},
                      key=lambda one: abs(one - diameter))[:2]
        line.fail(f"ISO 261 as stored here has no coarse pitch for {diameter:g} mm",
                  "write the pitch, or was " + " or ".join(f"M{one:g}" for one in sorted(near)) + " meant?")
    parts.update(pitch_mm=coarse, supplied=("pitch",))


def _with_pitch(pitch):
    sizes = [row["thread"].split("x")[0] for row in table("iso_261_metric").rows.values()
             if row["pitch_mm"] == pitch and row["series"] == "coarse"]
    return f"{pitch:g} is the coarse pitch of {' and '.join(sizes)}" if sizes else "was the point misplaced?"


def _listed(line, parts, pitch, at):
    """A pitch that ISO 261 lists for the diameter, or at least uses for others; refuse the rest."""
    known = metric_pitches_mm(parts["major_mm"])
    every = {row["pitch_mm"] for row in table("iso_261_metric").rows.values()}
    if pitch not in every or pitch > parts["major_mm"] / 3:
        shown = ", ".join(f"{one:g}" for one in known) or "given by the drawing only"
        line.fail(f"{pitch:g} is no metric pitch for this diameter",
                  f"pitches of M{parts['major_mm']:g}: {shown}", at)
    parts["pitch_mm"] = pitch


def _moving_pitch(line, parts):
    """After Tr, S or Sq: x pitch, or x lead (P pitch)."""
    letters, diameter, spans = LETTERS[parts["form"]], parts["major_mm"], parts["spans"]
    if not line.take("x"):
        line.fail("the pitch is due", f"a {letters} thread always states it, as {letters}{diameter:g}x4")
    at = line.at
    first = _some_number(line, "a pitch or a lead is due after x", f"as in {letters}40x7 or {letters}40x14(P7)")
    spans["pitch"] = line.span
    bracket = line.take(r"\(")
    if bracket or line.take(r"P"):
        spans["lead"] = spans["pitch"]
        if bracket and not line.take("P"):
            line.fail("P and the pitch are due in the bracket", f"as in {letters}40x14(P7)")
        pitch = _some_number(line, "the pitch is due after P", f"as in {letters}40x14(P7)")
        spans["pitch"] = line.span
        if bracket and not line.take(r"\)"):
            line.fail("the bracket is left open", "close it after the pitch")
        _starts(line, parts, first, pitch, at)
    else:
        parts["pitch_mm"] = first
    known = [row["pitch_mm"] for row in table("trapezoidal_sizes").rows.values() if row["diameter_mm"] == diameter]
    pitch, starts = parts["pitch_mm"], parts.get("starts", 1)
    if parts["form"] == "trapezoidal":
        listed = {row["pitch_mm"] for row in table("trapezoidal_clearances").rows.values()}
        shown = ", ".join(f"{one:g}" for one in known) or "other than this"
        if starts == 1 and pitch not in known and known and not pitch % known[0]:
            line.fail(f"Tr{diameter:g} has no pitch {pitch:g}",
                      f"was it the lead? write Tr{diameter:g}x{pitch:g}(P{known[0]:g})", at)
        if pitch not in listed:
            line.fail(f"{pitch:g} is no trapezoidal pitch", f"pitches of Tr{diameter:g}: {shown}", at)
    if pitch > diameter / 2:
        line.fail(f"a pitch of {pitch:g} mm leaves no core in {diameter:g} mm", "were the two swapped?", at)


def _once(line, parts, name, value, at):
    if name in parts:
        line.fail(f"the {name.replace('_mm', '').replace('_', ' ')} is given twice", "strike one out", at)
    parts[name] = value
    parts["spans"][name] = line.span


def _rest(line, parts):
    """One item after the pitch: class, engagement, hand, property class, lengths, number of starts."""
    kind = "M" if parts["form"] in ("metric", "MJ") else "Tr"
    dash = line.take("-")
    if dash and line.done:
        line.fail("the call-out ends in a dash", "a class such as 6g, or LH, follows a dash")
    line.blanks()
    at = line.at
    if line.take("x"):
        value = _some_number(line, "the length is due after x", "as in M6x1x20")
        if "length_mm" in parts and value < parts["length_mm"]:
            line.fail("the length stands already", f"pitch before length: x{value:g}x{parts['length_mm']:g}", at)
        line.take("mm")
        return _once(line, parts, "length_mm", value, at)
    if line.take(r"LH\b|left\b"):
        return _once(line, parts, "left_hand", True, at)
    if line.take(r"RH\b|right\b"):
        return _once(line, parts, "left_hand", False, at)
    if line.take(r"full(?:y)?[ -]thread(?:ed)?\b"):
        return _once(line, parts, "full_thread", True, at)
    if line.take(r"(?:thread )?length\b|thread\b|b\s*="):
        value = _some_number(line, "the thread length in mm is due", "as in: thread length 22")
        line.take("mm")
        return _once(line, parts, "thread_length_mm", value, at)
    count = line.take(r"\(?\s*[0-9]{1,2}\s+starts?\s*\)?")
    if count:
        said = int("".join(sign for sign in count if sign.isdigit()))
        if said != parts.get("starts", 1):
            line.fail(f"{said} starts do not fit lead and pitch, which make {parts.get('starts', 1)}",
                      "lead = pitch x starts", at)
        return None
    property_class = line.take(r"[0-9]{1,2}\.[0-9](?![0-9])")
    if property_class:
        known = {row["property_class"] for row in _classes()}
        if float(property_class) in metric_pitches_mm(parts["major_mm"]) and property_class not in known:
            line.fail("a pitch follows x, not a dash",
                      f"write {LETTERS[parts['form']]}{parts['size']}x{property_class}", at)
        if property_class not in known:
            line.fail(f"{property_class} is no property class", "known: " + ", ".join(sorted(known, key=float)), at)
        return _once(line, parts, "property_class", property_class, at)
    return _class(line, parts, kind, at, dash)


def _classes():
    rows = table("iso_898_1_classes").rows.values()
    return [{"property_class": f"{row['property_class']:.1f}"} for row in rows]


def _class(line, parts, kind, at, dash):
    nut = "".join(line.take(_NUT[kind], case=True).split())
    if nut:
        _once(line, parts, "nut_class", nut, at)
        if not line.take("/"):
            return
    screw_at = line.at
    screw = "".join(line.take(_SCREW[kind], case=True).split())
    if screw:
        _once(line, parts, "screw_class", screw, at)
        if line.take("/"):
            after = line.at
            if line.take(_NUT[kind], case=True):
                line.fail("nut and screw stand the other way round",
                          "the class of the nut, with its capital letter, comes first", after)
            line.fail(f"the nut comes first, but {screw} has a small letter: that is a screw",
                      "which of the letters must be capital?", after)
        return
    if nut:
        second = "".join(line.take(_NUT[kind], case=True).split())
        if second:
            line.fail(f"{second} has a capital letter: two nuts", "which letter must be small, for a screw?", screw_at)
        line.fail("the class of the screw is due after the stroke", f"as in {nut}/6g", screw_at)
    if line.take(r"[SNL](?![a-z])", case=True):
        return _once(line, parts, "engagement", line.signs[line.at - 1], at)
    if kind == "Tr" and dash:
        number = line.number()
        if number:
            return _once(line, parts, "engagement", number, at)
    line.blanks()
    if line.take(r"[0-9]{1,2}\s*[a-z]", case=False):
        line.fail("no such tolerance class", "small letter for a screw (6g), capital for a nut (6H)",
                  line.at - 1)
    if line.take(r"[0-9]"):
        line.fail("a bare figure says nothing here", "pitch and length follow x, as in M6x1x20", line.at - 1)
    line.fail("this does not belong to a call-out",
              "after the pitch come length, class (6g), LH, or property class (8.8)")
