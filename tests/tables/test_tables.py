"""The table reader: sources on top, names in the first column, refusals that help."""

import hashlib
import subprocess
import sys
from pathlib import Path

import pytest

import workbench.tables
from workbench.tables import names, table

HEADER = "# standard: s\n# edition: e\n# clause: c\n# seen: from memory\n"
FOLDER = Path(workbench.tables.__file__).parent


def recorded():
    lines = (FOLDER / "checksums.txt").read_text().splitlines()
    return {name: digest for digest, name in (line.split("  ") for line in lines)}


def test_every_table_has_its_recorded_checksum():
    """A table changed by one letter, added or lost fails until its sha256 is recorded anew."""
    found = {
        path.name: hashlib.sha256(path.read_bytes().replace(b"\r\n", b"\n")).hexdigest()
        for path in FOLDER.glob("*.csv")
    }
    assert found == recorded()


@pytest.mark.parametrize("name", names())
def test_every_table_says_its_source(name):
    """Standard, edition, clause and how it was seen stand on top of every table."""
    one = table(name)
    assert all((one.standard, one.edition, one.clause, one.seen))
    assert one.rows


def test_a_table_is_read_once():
    """The same table comes back, not a second copy."""
    assert table("definitions") is table("definitions")


def test_rows_cannot_be_changed():
    """A caller that writes into a table is stopped."""
    with pytest.raises(TypeError):
        table("definitions").row("inch")["value"] = 25


def test_numbers_are_numbers_and_names_stay_text():
    """A drill named 1 is looked up as text, its diameter is a number."""
    row = table("number_drills").row("1")
    assert row["drill"] == "1" and row["diameter_in"] == pytest.approx(0.228)


@pytest.mark.parametrize(("asked", "near"), [("aluminum", "aluminium"), ("Steel", "steel")])
def test_unknown_row_names_the_nearest(asked, near):
    """An unknown row is refused with the nearest name."""
    with pytest.raises(ValueError, match=f"no row '{asked}' in table thermal_expansion.*{near}"):
        table("thermal_expansion").row(asked)


def test_unknown_table_names_the_nearest():
    """An unknown table is refused with the nearest name."""
    with pytest.raises(ValueError, match="no table 'number_drill'.*number_drills"):
        table("number_drill")


@pytest.mark.parametrize("asked", [None, ["inch"], 3, "x" * 10_000_000])
def test_a_row_that_is_no_name_is_refused_shortly(asked):
    """A list, a number or ten megabytes of text get the same short refusal."""
    with pytest.raises(ValueError, match="no row") as refusal:
        table("definitions").row(asked)
    assert len(str(refusal.value)) < 200


def test_a_long_name_is_cut_at_forty_letters():
    """Forty letters of an unknown name are shown, not one more."""
    with pytest.raises(ValueError, match=f"no row '{'x' * 40}' in"):
        table("definitions").row("x" * 41)
    with pytest.raises(ValueError, match=f"no table '{'x' * 40}';"):
        table("x" * 41)


@pytest.mark.parametrize(("asked", "listed"), [
    ("abxyz", ["abcde"]),  # two letters in five: just near enough
    ("axxyz", ["abcde", "k1", "k2", "k3", "k4", "k5"]),  # one in five is not: the first six names
])
def test_how_near_is_near(tmp_path, monkeypatch, asked, listed):
    """Names that share two letters in five, three at most; else the first six there are."""
    names_ = ["abcde", *(f"k{place}" for place in range(1, 8))]
    (tmp_path / "fresh.csv").write_text(HEADER + "name,value\n" + "".join(f"{name},1\n" for name in names_))
    monkeypatch.setattr(workbench.tables, "_HERE", tmp_path)
    with pytest.raises(ValueError) as refusal:
        table.__wrapped__("fresh").row(asked)
    assert str(refusal.value).split("nearest names: ")[1].split(", ") == listed
    with pytest.raises(ValueError, match=r"nearest names: k\d, k\d, k\d$"):
        table.__wrapped__("fresh").row("k")


def test_nothing_near_lists_what_there_is():
    """A name like nothing in the table gets the names that exist."""
    with pytest.raises(ValueError, match="arcsine, normal, normal k=2"):
        table("distributions").row("qqqq")


@pytest.mark.parametrize(("text", "message"), [
    ("# standard: s\nname,value\na,1\n", "must say its edition; add a line '# edition: ...' on top"),
    (HEADER + "name,value\na,1\na,2\n", "holds row 'a' twice"),
])
def test_a_table_without_source_or_with_a_double_row_is_refused(tmp_path, monkeypatch, text, message):
    """A new table without its source, or with the same row twice, does not load."""
    (tmp_path / "fresh.csv").write_text(text)
    monkeypatch.setattr(workbench.tables, "_HERE", tmp_path)
    with pytest.raises(ValueError, match=message):
        table.__wrapped__("fresh")


def test_a_source_may_hold_a_colon(tmp_path, monkeypatch):
    """What follows the first colon of a top line is taken whole."""
    (tmp_path / "fresh.csv").write_text(HEADER.replace("clause: c", "clause: table 2: coarse") + "name,value\na,1\n")
    monkeypatch.setattr(workbench.tables, "_HERE", tmp_path)
    assert table.__wrapped__("fresh").clause == "table 2: coarse"


def test_a_column_is_numeric_only_as_a_whole(tmp_path, monkeypatch):
    """One word in a column keeps the whole column text."""
    (tmp_path / "fresh.csv").write_text(HEADER + "name,value,note\na,1,2\nb,2,two\n")
    monkeypatch.setattr(workbench.tables, "_HERE", tmp_path)
    assert dict(table.__wrapped__("fresh").row("a")) == {"name": "a", "value": 1.0, "note": "2"}


def test_number_drills_run_without_a_step_back():
    """From 80 to 1 and on from A to Z each drill is larger than the one before."""
    order = [str(number) for number in range(80, 0, -1)] + [chr(letter) for letter in range(65, 91)]
    diameters = [table("number_drills").row(drill)["diameter_in"] for drill in order]
    assert len(table("number_drills").rows) == len(order) == 106
    assert all(small < large for small, large in zip(diameters, diameters[1:], strict=False))


def test_reading_tables_needs_no_numpy():
    """Tables and measuring screws load without numpy."""
    code = "import sys, workbench.screws.uncertainty, workbench.screws.feed; sys.exit('numpy' in sys.modules)"
    assert subprocess.run([sys.executable, "-c", code], check=False).returncode == 0
