"""Part numbers of solid rivets, read and written; what has two readings is handed back with its place."""

import pytest

from workbench.rivets.alloy import alloys
from workbench.rivets.part_number import PartNumber, read, write
from workbench.tables import table
from workbench.threads.spelling import NotACallOut

# FAA-H-8083-31, hardware chapter, from memory: AN470AD3-5, AN426 and AN430 examples; 1100 is A, 5056 is B, 2024 is DD
READ = [
    ("AN470AD3-5", "universal", 0, "2117", 3 / 32, 5 / 16),
    ("MS20470AD4-6", "universal", 0, "2117", 1 / 8, 3 / 8),
    ("AN426AD3-5", "countersunk 100", 100, "2117", 3 / 32, 5 / 16),
    ("MS20426DD5-8", "countersunk 100", 100, "2024", 5 / 32, 1 / 2),
    ("AN430DD4-7", "round", 0, "2024", 1 / 8, 7 / 16),
    ("AN442A4-4", "flat", 0, "1100", 1 / 8, 1 / 4),
    ("AN456B4-5", "brazier", 0, "5056", 1 / 8, 5 / 16),
    ("MS20470D6-8", "universal", 0, "2017", 3 / 16, 1 / 2),
    ("MS20435M4-8", "round", 0, "monel", 1 / 8, 1 / 2),
    ("AN435-4-6", "round", 0, "carbon steel", 1 / 8, 3 / 8),
    ("MS20427C3-4", "countersunk 100", 100, "copper", 3 / 32, 1 / 4),
    ("AN425AD8-16", "countersunk 78", 78, "2117", 1 / 4, 1),
]


@pytest.mark.parametrize("text, head, angle, alloy, diameter, length", READ, ids=[row[0] for row in READ])
def test_a_part_number_says_head_alloy_diameter_and_length(text, head, angle, alloy, diameter, length):
    """Head by number, alloy by letters, 32nds and 16ths by dashes (FAA-H-8083-31, from memory)."""
    one = read(text)
    assert (one.head, one.angle_deg, one.alloy) == (head, angle, alloy)
    assert (one.diameter_in, one.length_in) == (diameter, length)


@pytest.mark.parametrize("typed", [
    "ms20470ad4-6", " MS 20470 AD 4-6 ", "MS20470-AD4-6", "ms20470AD4–6", "MS20470AD-4-6",
])  # fmt: skip
def test_capitals_blanks_and_dashes_do_not_matter(typed):
    """However it is typed, it is the same rivet."""
    assert write(read(typed)) == "MS20470AD4-6"


def test_what_is_written_is_read_again():
    """Every number with every alloy and diameter of the table comes back as it was written."""
    codes = {one.code or "NONE": name for name, one in alloys().items()}
    seen = 0
    for number, row in table("rivet_part_numbers").rows.items():
        for letters in row["letters"].split():
            for diameter in (2, 3, 4, 5, 6, 8):
                part = PartNumber(number, codes[letters], diameter, 9)
                assert read(write(part)) == part
                seen += 1
    assert seen > 400


HANDED_BACK = [
    ("MS20470AD46", 9, "two figures without a dash"),
    ("MS20470AD410", 9, "three figures without a dash"),
    ("MS20470AD4", 10, "length in 16ths is missing"),
    ("MS20470-4-6", 7, "no letters say the alloy"),
    ("MS20470A D4-6", 7, "letters apart"),
    ("MS20470AD4-4-5", 12, "more follows"),
    ("MS20470AD4-6 7", 13, "more follows"),
    ("MS20470M4-6", 7, "M is monel, which is not made as MS20470"),
    ("MS20470Q4-6", 7, "no code of an alloy"),
    ("MS20471AD4-6", 2, "no number of a solid rivet"),
    ("AN20470AD4-6", 2, "no number of a solid rivet"),
    ("AD4-6", 0, "must begin with AN or MS"),
    ("4-6", 0, "must begin with AN or MS"),
    ("MS20470AD7-9", 9, "must be one of"),
    ("MS20470AD12-4", 12, "no longer than its diameter"),
    ("MS20470AD4-2", 11, "no longer than its diameter"),
    ("AN435Q4-6", 5, "AN435 is made as F, C, M"),
    ("MS20470AD4-99", 11, "at most 48"),
    ("MS20600AD4W3", 0, "blind rivet"),
    ("", 0, "nothing is typed"),
    ("MS20470AD", 9, "a diameter in 32nds is due"),
    ("ß" * 70, 60, "at most 60 signs"),
]


@pytest.mark.parametrize("typed, place, rule", HANDED_BACK, ids=[row[0][:14] for row in HANDED_BACK])
def test_what_cannot_be_read_is_handed_back_with_its_place(typed, place, rule):
    """The refusal names the sign and says what is wrong and what was likely meant."""
    with pytest.raises(NotACallOut) as caught:
        read(typed)
    assert rule in str(caught.value)
    assert (caught.value.place, bool(caught.value.likely)) == (place, True)


@pytest.mark.parametrize("thing", [None, 4, ["MS20470AD4-6"]])
def test_a_part_number_is_text(thing):
    """A number or a list is refused."""
    with pytest.raises(NotACallOut, match="a part number is text"):
        read(thing)
    with pytest.raises(ValueError, match="must be a PartNumber"):
        write(thing)
