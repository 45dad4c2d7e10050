"""Call-outs: read as printed, typed and spoken; written back; refused with the place."""

import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from workbench.tables import table
from workbench.threads.designation import (
    LETTERS,
    Designation,
    NotACallOut,
    coarse_pitch_mm,
    metric_pitches_mm,
    parse,
    write,
)
from workbench.threads.explanation import explain, spoken

METRIC = list(table("iso_261_metric").rows.values())
UNIFIED = list(table("unified_sizes").rows.values())
TRAPEZOIDAL = list(table("trapezoidal_sizes").rows.values())
ACME = list(table("acme_sizes").rows.values())


@pytest.mark.parametrize(("text", "fields"), [
    # forms of writing: ISO 965-1 clause on designation (from memory)
    ("M6", {"form": "metric", "major_mm": 6, "pitch_mm": 1, "supplied": ("pitch",)}),
    ("M6×1", {"pitch_mm": 1, "supplied": ()}),
    ("M6x1-6g", {"screw_class": "6g", "nut_class": ""}),
    ("M10 × 1.25 − 6H/6g", {"pitch_mm": 1.25, "nut_class": "6H", "screw_class": "6g"}),
    ("M10x1-5g6g", {"screw_class": "5g6g"}),
    ("M20×2-7H-L-LH", {"nut_class": "7H", "engagement": "L", "left_hand": True}),
    ("M16×Ph3P1.5", {"starts": 2, "pitch_mm": 1.5, "lead_mm": 3}),
    ("M16xPh3P1.5-6H-LH (2 starts)", {"starts": 2, "left_hand": True}),
    ("M6x20", {"pitch_mm": 1, "length_mm": 20, "supplied": ("pitch",)}),
    ("M6x1x20 full thread", {"length_mm": 20, "full_thread": True}),
    ("M8 x 40 thread length 22 - 8.8", {"thread_length_mm": 22, "length_mm": 40, "property_class": "8.8"}),
    ("m6x1mm", {"pitch_mm": 1}),
    ("M10 x 1.25 mm x 30 mm", {"pitch_mm": 1.25, "length_mm": 30}),
    ("m8 x 1,25", {"major_mm": 8, "pitch_mm": 1.25}),
    ("MJ6x1-4h6h", {"form": "MJ", "screw_class": "4h6h"}),
    # ISO 2902, ISO 2903 (from memory)
    ("Tr20×4", {"form": "trapezoidal", "pitch_mm": 4, "starts": 1}),
    ("Tr40×14(P7)LH-7e", {"pitch_mm": 7, "starts": 2, "left_hand": True, "screw_class": "7e"}),
    ("Tr 40 x 14 P7", {"pitch_mm": 7, "starts": 2}),
    ("Tr40x7-7H/7e-140", {"nut_class": "7H", "screw_class": "7e", "engagement": "140"}),
    ("S48x8-7e", {"form": "buttress 3/30", "pitch_mm": 8}),
    ("Sq24x5", {"form": "square", "pitch_mm": 5}),
    # ASME B1.1, B1.5, B1.9 (from memory)
    ("1/2-10 Acme 2G", {"form": "acme", "major_mm": 12.7, "pitch_mm": 2.54, "screw_class": "2G"}),
    ("2.750-0.4P-0.8L-ACME-3G", {"starts": 2, "size": "2 3/4", "screw_class": "3G"}),
    ("2.75-.3334P-.6667L Acme", {"starts": 2, "pitch_mm": pytest.approx(25.4 / 3)}),
    ("1/4-20 UNC-2A", {"form": "unified", "series": "UNC", "screw_class": "2A", "pitch_mm": 1.27}),
    ("1/4-20", {"series": "UNC", "supplied": ("series",)}),
    ("10-32 UNF-2B", {"size": "#10", "nut_class": "2B", "major_mm": pytest.approx(4.826)}),
    ("#10-32", {"size": "#10", "series": "UNF"}),
    ("2-8 UN", {"size": "2", "major_mm": 50.8}),
    ("2-56", {"size": "#2", "major_mm": pytest.approx(0.086 * 25.4)}),
    (".250-28 UNF-3A-LH", {"size": "1/4", "left_hand": True}),
    ("1-1/8-7 UNC", {"size": "1 1/8"}),
    ("1½-6 UNC", {"size": "1 1/2"}),
    ("1/4-28 UNJF-3A", {"form": "UNJ"}),
    ("1/4-20 UNC-2A×1 1/2", {"length_mm": 38.1}),
    ("2.5-8 BUTT-2A", {"form": "buttress 7/45", "pushes": False}),
    ("2.5-8 PUSH-BUTT-2A", {"pushes": True}),
    # spoken
    ("M six by one", {"major_mm": 6, "pitch_mm": 1}),
    ("M three by point five", {"pitch_mm": 0.5}),
    ("M ten by one point two five class six small g", {"pitch_mm": 1.25, "screw_class": "6g"}),
    ("trapezoidal forty by fourteen pitch seven left hand", {"starts": 2, "left_hand": True}),
    ("one quarter twenty U N C two A", {"size": "1/4", "screw_class": "2A"}),
    ("number ten thirty-two", {"size": "#10", "series": "UNF"}),
    ("one half ten acme two G", {"form": "acme", "screw_class": "2G"}),
    ("one and a half six U N C", {"size": "1 1/2"}),
    ("M eight by twenty one", {"length_mm": 21}),
    ("M8x40 thread length 40", {"length_mm": 40, "thread_length_mm": 40}),
    ("M eight by one hundred and twenty one", {"length_mm": 121}),
    ("M eight by one hundred and nineteen", {"length_mm": 119}),
])
def test_a_call_out_is_read(text, fields):
    """Each accepted form of writing and speaking gives its fields, and writing them reads back the same."""
    found = parse(text)
    assert {name: getattr(found, name) for name in fields} == fields
    assert parse(write(found)) == found


def test_every_metric_thread_of_the_table():
    """Each thread of ISO 261 reads back, and the coarse pitch is supplied where it is left out."""
    for row in METRIC:
        found = parse(row["thread"])
        assert (found.major_mm, found.pitch_mm) == (row["diameter_mm"], row["pitch_mm"])
        assert parse(write(found)) == found == parse(spoken(found))
        if row["series"] == "coarse":
            assert parse(row["thread"].split("x")[0]).pitch_mm == row["pitch_mm"]


def test_every_inch_and_trapezoidal_thread_of_the_tables():
    """Each tabulated Unified, Acme and trapezoidal thread reads, writes and speaks back the same."""
    for text in [
        *(f"{row['size']}-{row['threads_per_inch']:g} {row['series']}-2A" for row in UNIFIED),
        *(f"{row['size']}-{row['threads_per_inch']:g} Acme-2G" for row in ACME),
        *(f"{row['thread']}-7e" for row in TRAPEZOIDAL),
    ]:
        found = parse(text)
        assert parse(write(found)) == found == parse(spoken(found))


@pytest.mark.parametrize(("text", "place", "likely"), [
    ("", 0, "such as M6x1"),
    ("M", 1, "M10"),
    ("M6xx1", 3, "pitch or length"),
    ("M6x", 3, "pitch or length"),
    ("Mx1", 1, "M10"),
    ("6x1", 0, "begins with M"),
    ("M6-6k", 4, "small letter"),
    ("M6-6g/6H", 6, "other way round"),
    ("M6-6g/6h", 6, "must be capital"),
    ("M6-6H/6G", 6, "must be small"),
    ("M6x1.25", 3, "M8"),
    ("M6x2", 3, "coarse pitch of M14"),
    ("M8x1.52", 3, "1.25, 1, 0.75"),
    ("M7.3", 4, "M7 or M8"),
    ("M6x20x1", 5, "pitch before length"),
    ("M6x1 zinc", 5, "length, class"),
    ("M6x1-", 5, "6g, or LH"),
    ("M8-8.7", 3, "8.8"),
    ("M16xPh3P2", 4, "swapped"),
    ("M8x40 thread length 50", 20, "swapped"),
    ("M10-6H/", 7, "6H/6g"),
    ("M six by by one", 9, "pitch or length"),
    ("Tr20", 4, "states it"),
    ("Tr40x14", 5, "(P7)"),
    ("Tr20x4.5", 5, "pitches of Tr20"),
    ("M10-1.5", 4, "write M10x1.5"),
    ("M6-20", 3, "follow x"),
    ("2 BA", 0, "by name"),
    ("1/2 NPT", 0, "by name"),
    ("1/4-24 UNC", 4, "28 UNF"),
    ("1/4-27", 6, "20 UNC"),
    ("1/0-3", 0, "1/4"),
    ("1/3-20 UN", 0, "mistyped"),
    ("#14-20", 0, "inch"),
    ("#13-20", 0, "inch"),  # ASME B1.1: the number sizes end with #12
    ("1/2-10 Acme 2A", 12, "2G"),
    ("1/4-20 NC", 7, "UNC"),
    ("G1/2", 0, "pipe"),
    ("ISO 4014 - M8x40", 0, "product standard"),
    ("bolt", 0, "begins with M"),
    ("M6" + " " * 300, 200, "pasted"),
])
def test_a_malformed_call_out_names_place_and_likely_meaning(text, place, likely):
    """The refusal points at the sign that is wrong and says what was probably meant."""
    with pytest.raises(NotACallOut) as refusal:
        parse(text)
    assert refusal.value.place == place
    assert likely in str(refusal.value)


@pytest.mark.parametrize(("text", "said"), [
    ("1/2-10 Acme 2G", "class"), ("M10-6g", "class of the screw"), ("M10-6H", "class of the nut"),
    ("1/4-20 UNC-2B", "class of the nut")])
def test_a_class_is_said_of_the_part_that_it_belongs_to(text, said):
    """An Acme class is one for screw and nut (ASME B1.5); elsewhere screw and nut have their own."""
    assert [field.name for field in explain(parse(text)) if field.name.startswith("class")] == [said]


def test_a_unified_class_says_its_part():
    """A is a screw, B is a nut (ASME B1.1)."""
    for text, said in (("1/4-20 UNC-2A", "A is a screw"), ("1/4-20 UNC-2B", "B is a nut")):
        assert any(said in field.meaning for field in explain(parse(text)))


def test_the_same_length_twice_is_not_taken_for_a_pitch():
    """M8x20x20 gives its length twice; M8x20x1 has its pitch behind the length. Each refusal says which."""
    with pytest.raises(NotACallOut, match="given twice"):
        parse("M8x20x20")
    with pytest.raises(NotACallOut, match="pitch before length"):
        parse("M8x20x1")


@pytest.mark.parametrize("thing", [None, 6, ["M6"], b"M6"])
def test_what_is_no_text_is_refused(thing):
    """A number or a list gets the same kind of refusal."""
    with pytest.raises(NotACallOut, match="a call-out is text"):
        parse(thing)


def check_any_text(text):
    """Any text is either read, and then written back to the same, or refused with a place inside it."""
    try:
        found = parse(text)
    except NotACallOut as refusal:
        assert 0 <= refusal.place <= len(text)
        assert refusal.likely and refusal.rule
    else:
        assert parse(write(found)) == found


PIECES = ["M", "MJ", "Tr", "S", "Sq", "x", "×", "-", "−", "/", "(", ")", "P", "Ph", "LH", "UNC", "UNF", "UN", "Acme",
          "BUTT", "6", "6g", "6H", "7e", "2A", "2G", "1.25", ".5", "1/4", "#10", "10", "20", "40", " ", "full thread",
          "thread length", "8.8", "six", "point", "two", "twenty", "hundred", "and", "a", "half", "by", "0", "S", "½",
          "capital", "small", "class", "starts", "L", "\u00a0", "٣", "１"]
CALL_OUTS = st.one_of(
    st.text(max_size=30),
    st.text("MTrSqxPhLH0123456789./-()gHeAB UNCFacme#", max_size=24),
    st.lists(st.sampled_from(PIECES), max_size=10).map("".join),
    st.lists(st.sampled_from(PIECES), max_size=10).map(" ".join),
)


@settings(max_examples=1000, deadline=None)
@given(CALL_OUTS)
def test_no_text_makes_the_reader_crash(text):
    """Whatever is typed is read or refused, and each refusal names its place."""
    check_any_text(text)


@pytest.mark.slow
@pytest.mark.exhaustive
@settings(max_examples=100_000, deadline=None)
@given(CALL_OUTS)
def test_no_text_of_a_hundred_thousand_makes_the_reader_crash(text):
    """The same for 100,000 texts."""
    check_any_text(text)


SCREW = st.sampled_from(["", "6g", "5g6g", "4h", "6e", "8g"])
NUT = st.sampled_from(["", "6H", "5H6H", "6G", "7H"])


@st.composite
def designations(draw):
    """Designations of every form, with every field that the form may carry."""
    form = draw(st.sampled_from(["metric", "trapezoidal", "unified", "acme", "buttress 3/30", "buttress 7/45"]))
    left = draw(st.booleans())
    starts = draw(st.sampled_from([1, 1, 2, 3]))
    if form == "metric":
        row = draw(st.sampled_from(METRIC))
        length = draw(st.sampled_from([None, *(round(row["diameter_mm"] * part, 1) for part in (1, 2.5, 7))]))
        ends = {} if length is None else draw(st.sampled_from(
            [{}, {"full_thread": True}, {"thread_length_mm": round(length / 2, 2)}]))
        return Designation("metric", f"{row['diameter_mm']:g}", row["diameter_mm"], row["pitch_mm"], starts, left,
                           screw_class=draw(SCREW), nut_class=draw(NUT), length_mm=length,
                           engagement=draw(st.sampled_from(["", "S", "L"])),
                           property_class=draw(st.sampled_from(["", "8.8", "10.9"])), **ends)
    if form in ("trapezoidal", "buttress 3/30"):
        row = draw(st.sampled_from(TRAPEZOIDAL))
        return Designation(form, f"{row['diameter_mm']:g}", row["diameter_mm"], row["pitch_mm"], starts, left,
                           screw_class=draw(st.sampled_from(["", "7e", "8e"])),
                           nut_class=draw(st.sampled_from(["", "7H"])), engagement=draw(st.sampled_from(["", "90"])))
    if form == "unified":
        row = draw(st.sampled_from(UNIFIED))
        series, classes = row["series"], ["", "2A", "3A", "1A"]
    else:
        row, series = draw(st.sampled_from(ACME)), ""
        classes = ["", "2G", "3G"] if form == "acme" else ["", "2A", "3A"]
    text = f"{row['size']}-{row['threads_per_inch']:g} {series or {'acme': 'Acme'}.get(form, 'BUTT')}"
    one = parse(text)
    return Designation(form, one.size, one.major_mm, one.pitch_mm, starts, left, series=series,
                       screw_class=draw(st.sampled_from(classes)))


@settings(max_examples=400, deadline=None)
@given(designations(), st.booleans())
def test_what_is_written_reads_back(one, show_pitch):
    """Reading what was written gives the same designation, for every form and field."""
    assert parse(write(one, show_pitch)) == one


@settings(max_examples=200, deadline=None)
@given(designations())
def test_what_is_spoken_reads_back(one):
    """Reading the spoken call-out gives the same thread, hand and classes."""
    heard = parse(spoken(one))
    same = ("form", "size", "major_mm", "pitch_mm", "starts", "left_hand", "screw_class", "nut_class", "series")
    assert all(getattr(heard, name) == getattr(one, name) for name in same)


@settings(max_examples=200, deadline=None)
@given(designations())
def test_every_field_is_explained(one):
    """Each field that is written is explained with the very signs that stand for it."""
    found = parse(write(one))
    fields = {field.name: field for field in explain(found)}
    assert {"form", "diameter", "pitch", "lead", "hand"} <= set(fields)
    for field in fields.values():
        assert len(field.meaning) > 10
        assert field.written == (found.text[slice(*field.span)] if field.span else "")
    assert ("left hand" in fields["hand"].meaning) == one.left_hand
    assert fields["lead"].meaning.startswith("one start" if one.starts == 1 else f"{one.starts} starts")


def test_explaining_says_what_was_left_out():
    """The coarse pitch and the series that tables supplied are named as supplied."""
    by_name = {field.name: field for field in explain(parse("M10"))}
    assert by_name["pitch"].meaning.startswith("left out") and "1.5 mm" in by_name["pitch"].meaning
    by_name = {field.name: field for field in explain(parse("1/4-20"))}
    assert by_name["series"].meaning.startswith("left out") and "UNC" in by_name["series"].meaning


def test_number_sizes_follow_their_rule():
    """Number N is 0.060 in + 0.013 in x N (ASME B1.1), in the table as in the call-out."""
    for row in UNIFIED:
        if row["size"].startswith("#"):
            number = int(row["size"][1:])
            assert row["major_in"] == pytest.approx(0.060 + 0.013 * number)
            assert parse(f"{row['size']}-{row['threads_per_inch']:g}").major_mm == pytest.approx(
                25.4 * row["major_in"])


def test_letters_name_their_forms():
    """Each letter of a metric-sized form is read as that form."""
    for form, letters in LETTERS.items():
        assert parse(f"{letters}40x3").form == form


def test_pitches_of_one_diameter_come_coarse_first():
    """The first pitch of a diameter is its coarse one, and no fine pitch is larger."""
    for diameter in {row["diameter_mm"] for row in METRIC}:
        pitches = metric_pitches_mm(diameter)
        coarse = coarse_pitch_mm(diameter)
        if coarse is not None:
            assert pitches[0] == coarse == max(pitches)


def test_a_long_refused_text_is_shown_shortly():
    """Ten thousand signs give a message of one screen line or two."""
    with pytest.raises(NotACallOut) as refusal:
        parse("M6x1 " + "z" * 10_000)
    assert len(str(refusal.value)) < 300


def test_writing_needs_a_designation():
    """Text given to write is refused with the way out."""
    with pytest.raises(ValueError, match=re.escape("parse the text first")):
        write("M6")
