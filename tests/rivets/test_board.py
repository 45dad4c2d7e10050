"""The board for the wall: its times agree with the plan's limits, and other documents stand beside the one kept."""

import pytest

from workbench.rivets import board
from workbench.rivets.clock import minute
from workbench.rivets.documents import Rule, rule
from workbench.rivets.planning import Bath, Handling, plan
from workbench.rivets.shifts import EXAMPLE, Shift, read_shifts

WEEK = read_shifts(EXAMPLE)


def test_a_small_board_by_hand():
    """Work 10:00 to 10:30 at 60 an hour; quench 09:40, in the store 09:43, kept 24 h; portions 20 - 3 - 4 = 13 min.

    Out 09:56, 10:09, 10:22; hard 17 min after: 10:13, 10:26, 10:39.
    """
    shift = Shift("early", 600, 630, 60, (), "white", "disc")
    found = plan([shift], Bath((40,), 20, 120), rule("navy", "2017"), Handling(3, 4, -18))
    assert board.batch_rows(found, [shift]) == [
        ("Mon-early-1", "white disc", "Mon 09:20", "Mon 09:40", "Mon 09:43", "Mon 09:56", "Mon 10:22", "Tue 09:43",
         40, 30, 10)]
    assert [row[1:] for row in board.portion_rows(found)] == [
        ("Mon 09:56", 13, "Mon 10:00", "Mon 10:13", "Mon 10:13"),
        ("Mon 10:09", 13, "Mon 10:13", "Mon 10:26", "Mon 10:26"),
        ("Mon 10:22", 4, "Mon 10:26", "Mon 10:30", "Mon 10:39"),
    ]


def test_without_a_store_nothing_is_kept():
    """Straight from the quench: a batch is kept until its drive limit, and a portion is hard then too."""
    shift = Shift("early", 600, 630, 60)
    found = plan([shift], Bath((10,), 5, 120), rule("navy", "2017"), Handling(0, 4, None))
    for row in board.batch_rows(found, [shift]):
        assert row[4] == "-" and minute(row[7]) - minute(row[3]) == 20
    for row in board.portion_rows(found):
        assert minute(row[4]) <= minute(row[5])


def test_rows_hold_every_rivet_once():
    """Portions add up to what is to drive; made is that and what is left for re-treatment."""
    found = plan(WEEK, Bath((200, 320)), rule("shortest", "2024"))
    rows = board.batch_rows(found, WEEK)
    assert sum(row[9] for row in rows) == sum(row[2] for row in board.portion_rows(found)) == 8780
    assert all(row[8] == row[9] + row[10] for row in rows)
    assert len({row[0] for row in rows}) == len(rows)


def test_the_limits_say_the_document_kept_and_what_others_print():
    """The shortest is kept, the others are shown with their figures, the joint is loaded after nine days."""
    said = " ".join(board.limits(plan(WEEK, Bath((300,)), rule("shortest", "2017"))))
    for part in ("Drive within 20 min", "handbook 60", "navy 20", "transactions 30", "Load the joint 9 days",
                 "handbook 216", "air force 96", "for 24 h at most"):
        assert part in said


def test_an_own_document_is_said_alone():
    """A shop's own document stands on its board without the course's documents."""
    own = Rule("bay sheet", "2017", 25, -18, 48, 3, None, "tin by tin")
    said = " ".join(board.limits(plan(WEEK, Bath((300,)), own), (own,)))
    assert "Heats in all: 4" in said and "tin by tin" in said and "navy" not in said and "ask who answers" in said


@pytest.mark.parametrize("hazard", ["Salts near 500", "water", "magnesium", "oil", "damp basket", "approved document"])
def test_the_board_names_the_hazards(hazard):
    """What can hurt stands on every board (common practice)."""
    assert hazard in " ".join(board.CAUTIONS)
