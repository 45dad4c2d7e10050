"""Where rivets may stand, and rows that fit a seam."""

import pytest
from hypothesis import given
from hypothesis import strategies as some

from workbench.rivets.spacing import DOCUMENTS, drilled_holes, objections, row_of, rows_that_fit, spacing
from workbench.tables import table

flags = some.booleans()


def test_a_row_has_one_rivet_more_than_spaces():
    """320 mm with ends of 20 mm and 15 rivets: 14 spaces of 20 mm."""
    row = row_of(320, 4, 15, 20)
    assert row.pitch_mm == 20
    assert row.places_mm()[0] == 20 and row.places_mm()[-1] == 300


def test_the_documents_figures_are_kept_apart():
    """A document that gives no largest pitch sets none; nothing is merged from another."""
    assert spacing(4, "army").pitch_most_mm == 40
    assert spacing(4, "repair advisory").pitch_most_mm is None
    assert spacing(4, "navy").pitch_usual_mm is None


@given(some.floats(20, 2000), some.sampled_from([2.4, 3.2, 4.0, 4.8, 6.4]), some.sampled_from(DOCUMENTS), flags)
def test_every_row_that_fits_has_no_objections_and_none_is_missed(length, diameter, document, flush):
    """Against the limits read straight from the table, by counting up from two rivets."""
    limits = table("rivet_spacing").row(document)
    end = limits["edge_flush_least_d" if flush else "edge_least_d"] * diameter
    wanted = []
    for count in range(2, 2000):
        pitch = (length - 2 * end) / (count - 1)
        if pitch < limits["pitch_least_d"] * diameter - 1e-9:
            break
        if not limits["pitch_most_d"] or pitch <= limits["pitch_most_d"] * diameter + 1e-9:
            wanted.append(count)
    if not wanted:
        with pytest.raises(ValueError, match="the seam|length_mm"):
            rows_that_fit(length, diameter, document, flush)
        return
    found = rows_that_fit(length, diameter, document, flush)
    assert [row.count for row in found] == wanted
    assert not any(objections(row, document, flush) for row in found)


def test_objections_name_the_value_and_the_limit():
    """Edge of 6 mm and pitch of 44 mm with 4 mm rivets break 2 D and 10 D of the army manual."""
    assert objections(row_of(100, 4, 3, 6), "army") == [
        "end distance 6 mm is less than 8 mm (2 D)", "pitch 44 mm is more than 40 mm (10 D)"]  # fmt: skip


def test_a_flush_head_needs_more_edge():
    """8 mm is enough for a protruding 4 mm rivet, not for a flush one (2.5 D)."""
    row = row_of(100, 4, 5, 8)
    assert objections(row) == []
    assert objections(row, flush=True) == ["end distance 8 mm is less than 10 mm (2.5 D)"]


def test_a_hole_is_drilled_in_each_sheet():
    """15 rivets through two sheets: 30 holes."""
    assert drilled_holes(15, 2) == 30


@pytest.mark.parametrize(
    "call, rule",
    [
        (lambda: rows_that_fit(100, 4, at_least=9), "holds 8 at most; 9 are needed"),
        (lambda: rows_that_fit(25, 4), "too short for two"),
        (lambda: spacing(4, "somebody's"), "must be one of"),
        (lambda: row_of(30, 4, 2, 15), "twice the end distance"),
        (lambda: row_of(30, 4, 1, 8), "one rivet is no row"),
        (lambda: drilled_holes(4, 1), "two parts"),
    ],
)
def test_what_does_not_fit_is_refused(call, rule):
    """Too many rivets, a seam too short, an unknown document: refused with value, rule and cause."""
    with pytest.raises(ValueError, match=rule):
        call()
