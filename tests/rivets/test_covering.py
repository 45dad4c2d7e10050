"""Which runs to use: small cases counted by hand."""

import pytest

from workbench.rivets.covering import Stretch, as_late, fewest_wasted, first_short


def stretch(first, last, rivets):
    return Stretch(first, last, (), rivets)


def test_one_rivet_that_no_run_serves_is_short():
    """Work before the first quench has nothing to drive, not even one rivet."""
    early = stretch(0, 0, 1)
    assert first_short([early], [50]) is early
    assert first_short([stretch(0, 1, 50)], [50]) is None
    assert first_short([stretch(0, 1, 51)], [50]) is not None


def test_rivets_out_of_date_are_gone():
    """50 made by run 0, 10 driven; the next work is served by run 1 alone: the other 40 do not count."""
    work = [stretch(0, 1, 10), stretch(1, 2, 30)]
    assert first_short(work, [50, 0]) is work[1]
    assert first_short(work, [50, 30]) is None


@pytest.mark.parametrize(("loads", "chosen"), [
    ((20, 40), [40, 0]),  # two of 20 waste as little: the fewer batches win
    ((30, 50), [50, 0]),  # 50 wastes 10, 30 + 30 wastes 20
    ((20, 50), [20, 20]),  # two of 20 waste nothing: less waste wins over fewer batches
])
def test_least_waste_comes_before_fewest_batches(loads, chosen):
    """40 rivets, two runs that both serve them."""
    assert sorted(fewest_wasted([stretch(0, 2, 40)], loads, 2), reverse=True) == chosen


def test_batches_move_to_the_last_run_that_serves():
    """One batch of four possible runs goes to the last; two go to the last two."""
    work = [stretch(0, 4, 40)]
    assert as_late([40, 0, 0, 0], work) == [0, 0, 0, 40]
    assert as_late([20, 20, 0, 0], work) == [0, 0, 20, 20]
    assert as_late([40, 0, 0, 0], [stretch(0, 2, 40)]) == [0, 40, 0, 0]


def test_a_number_of_batches_is_kept_or_refused():
    """40 rivets from 20s and 50s: one batch is a 50, two are 20s; three of these runs are not there."""
    work = [stretch(0, 2, 40)]
    assert sum(fewest_wasted(work, (20, 50), 2, batches=1)) == 50
    assert sorted(fewest_wasted(work, (20, 50), 2, batches=2)) == [20, 20]
    with pytest.raises(ValueError, match="too few"):
        fewest_wasted(work, (20, 50), 2, batches=3)
