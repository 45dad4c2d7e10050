import pytest

from instructor.refusal import Refusal
from instructor.roll import parse_range, read_number, read_roll, write_roll


def test_ranges_and_numbers_are_read_once_each_in_order():
    """Overlapping ranges give every candidate once, sorted."""
    assert parse_range("3-5, 1,4") == (1, 3, 4, 5)


@pytest.mark.parametrize("text", ["", "0", "5-2", "a", "1-", "10000", "-3", "1;2"])
def test_a_text_that_is_no_range_is_refused_with_its_value(text):
    """The refusal shows what was typed."""
    with pytest.raises(Refusal, match="not a candidate's number"):
        parse_range(text)


def test_leading_noughts_do_not_matter():
    """007 and 7 are one candidate."""
    assert read_number("007") == read_number(" 7 ") == 7
    assert read_number("12345") is None


def test_a_roll_keeps_order_and_passes_other_columns_over(tmp_path):
    """A roll may have further columns and a byte order mark."""
    path = tmp_path / "roll.csv"
    path.write_bytes("\ufeffbay,candidate\nA,12\nB,3\n".encode())
    assert read_roll(path) == (3, 12)


def test_a_roll_is_read_as_it_was_written(tmp_path):
    """Writing and reading a roll agree."""
    write_roll(tmp_path / "roll.csv", [1, 2, 9999])
    assert read_roll(tmp_path / "roll.csv") == (1, 2, 9999)


@pytest.mark.parametrize(
    "content, said",
    [
        (b"number\n1\n", "no column 'candidate'"),
        (b"candidate\n1\n1\n", "line 3: candidate 1 stands on the roll twice"),
        (b"candidate\nAda\n", "line 2: 'Ada'"),
        (b"candidate\n", "names no candidate"),
        (b"candidate\n\xff\xfe\n", "not UTF-8"),
        (b"", "no column 'candidate'"),
    ],
)
def test_a_faulty_roll_is_refused_with_line_and_value(tmp_path, content, said):
    """The refusal says what is wrong and where."""
    (tmp_path / "roll.csv").write_bytes(content)
    with pytest.raises(Refusal, match=said):
        read_roll(tmp_path / "roll.csv")
