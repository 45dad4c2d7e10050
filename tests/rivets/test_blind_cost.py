"""Cost of fastening and choice of a method: hand-worked sums, every refusal with its reason."""

import numpy
import pytest

from workbench.rivets.cost import break_even_quantity, cost_each, labour_cost, total_cost
from workbench.rivets.fastening_choice import Job, Price, choose

PRICES = {"solid rivet": Price(300, 0.03, 2, 20), "blind rivet": Price(200, 0.08, 1, 15),
          "screw and nut": Price(0, 0.15, 1, 40)}  # fmt: skip
STRENGTHS = {"solid rivet": (2400, 2000), "blind rivet": (1850, 2600), "screw and nut": (4000, 6000)}


def test_two_workers_cost_twice_their_time():
    """2 x 20 s x 40 / 3600 = 0.44444; one worker 0.22222 (hand-worked)."""
    assert labour_cost(2, 20, 40) == pytest.approx(0.444444, abs=1e-6)
    assert labour_cost(1, 20, 40) == pytest.approx(0.222222, abs=1e-6)


def test_cost_lines_cross_where_both_methods_cost_the_same():
    """200 + 0.9 n = 1200 + 0.4 n at n = 2000: 2000 each way (hand-worked); below it the cheap tool wins."""
    crossing = break_even_quantity(200, 0.9, 1200, 0.4)
    assert crossing == pytest.approx(2000)
    assert total_cost(200, 0.9, crossing) == total_cost(1200, 0.4, crossing) == pytest.approx(2000)
    counts = numpy.array([1999, 2001])
    assert list(total_cost(200, 0.9, counts) < total_cost(1200, 0.4, counts)) == [True, False]


def test_nothing_costs_nothing_and_small_differences_count():
    """No piece costs the tool alone; 0.50 of tool against 0.50 of saving crosses at one piece."""
    assert total_cost(0, 0, 0) == 0 and total_cost(12, 0.5, 0) == 12 and cost_each(0, 1, 0, 0) == 0
    assert break_even_quantity(0, 0.9, 0.5, 0.4) == pytest.approx(1)


def test_break_even_does_not_depend_on_the_order():
    """Swapping the two methods gives the same quantity."""
    assert break_even_quantity(1200, 0.4, 200, 0.9) == break_even_quantity(200, 0.9, 1200, 0.4)


@pytest.mark.parametrize(("lines", "said"), [
    ((200, 0.4, 1200, 0.9), "first method is always"), ((1200, 0.9, 200, 0.4), "second method is always"),
    ((200, 0.4, 300, 0.4), "side by side"), ((200, 0.5, 200, 0.4), "second method is always"),
    ((200, 0.4, 200, 0.5), "first method is always"),
    ((-1, 0.5, 200, 0.4), "at least 0"), ((0, "x", 200, 0.4), "must be one number")])  # fmt: skip
def test_lines_that_do_not_cross_are_refused(lines, said):
    """Where one method is always the cheaper there is no break-even, and the refusal says which."""
    with pytest.raises(ValueError, match=said):
        break_even_quantity(*lines)


def test_with_both_sides_open_the_cheapest_wins_and_the_others_cost_more():
    """500 pieces at 36 an hour: solid 300 + 500 (0.03 + 0.40) = 515; blind 200 + 500 (0.08 + 0.15) = 315;
    screw 500 (0.15 + 0.40) = 275 (hand-worked)."""
    advice = choose(Job(2, 500, 36), PRICES, STRENGTHS)
    assert advice.costs == {"solid rivet": pytest.approx(515), "blind rivet": pytest.approx(315),
                            "screw and nut": pytest.approx(275)}  # fmt: skip
    assert advice.method == "screw and nut"
    assert advice.refused == {"solid rivet": "costs 240.00 more for 500", "blind rivet": "costs 40.00 more for 500"}
    assert choose(Job(2, 5000, 36), PRICES, STRENGTHS).method == "blind rivet"


def test_one_side_leaves_the_blind_rivet():
    """Bar and spanner both need the far side."""
    advice = choose(Job(1, 10, 36), PRICES, STRENGTHS)
    assert advice.method == "blind rivet"
    assert "bar" in advice.refused["solid rivet"] and "spanner" in advice.refused["screw and nut"]


@pytest.mark.parametrize(("job", "method", "refused", "said"), [
    (Job(2, 10, 36, loosened=True), "screw and nut", "blind rivet", "drilled out"),
    (Job(2, 9000, 0, softness="soft"), "blind rivet", "solid rivet", "bursts"),
    (Job(1, 10, 36, room_mm=6, reach_mm=9), "", "blind rivet", "there are 6 mm"),
    (Job(2, 10, 36, shear_n=700), "screw and nut", "blind rivet", "may carry 616.667 N in shear"),
    (Job(2, 10, 36, pull_n=700), "screw and nut", "solid rivet", "in pull"),
])  # fmt: skip
def test_each_refusal_gives_its_reason(job, method, refused, said):
    """Taken apart, soft material, no room behind, shear over S/3, pull over T/3 (factor 3)."""
    advice = choose(job, PRICES, STRENGTHS)
    assert advice.method == method and said in advice.refused[refused]


def test_a_full_rivet_is_still_a_rivet():
    """Exactly a third of the breaking load is permitted, with factor 3; without a load nothing is asked of it."""
    both = {"blind rivet": (1800, 2700)}, {"blind rivet": PRICES["blind rivet"]}
    assert choose(Job(1, 10, 36, shear_n=600, pull_n=900), both[1], both[0]).method == "blind rivet"
    assert choose(Job(1, 10, 36, shear_n=600.1), both[1], both[0]).method == ""
    assert choose(Job(1, 10, 36, room_mm=0.5), both[1], {"blind rivet": (0.9, 0.9)}).method == "blind rivet"
    assert choose(Job(1, 10, 36, room_mm=9, reach_mm=9), both[1], both[0]).method == "blind rivet"


def test_nothing_is_forced_where_nothing_can_be_made():
    """One side, to be taken apart: no method, three reasons."""
    advice = choose(Job(1, 10, 36, loosened=True), PRICES, STRENGTHS)
    assert advice.method == "" and set(advice.refused) == set(PRICES) and not advice.costs


@pytest.mark.parametrize(("call", "said"), [
    (lambda: Job(3, 10, 36), "1 or 2"), (lambda: Job(1, 0, 36), "at least 1"), (lambda: Job(1, 10, -1), "at least 0"),
    (lambda: Job(1, 10, 36, softness="wood"), "'metal' or 'soft'"), (lambda: Job(1, 2.5, 36), "whole number"),
    (lambda: choose("job", PRICES, STRENGTHS), "must be a Job"),
    (lambda: choose(Job(1, 10, 36), {"glue": Price(0, 0, 1, 1)}, STRENGTHS), "must name methods"),
    (lambda: choose(Job(1, 10, 36), PRICES, {"blind rivet": (1, 1)}), "same methods"),
    (lambda: choose(Job(1, 10, 36), PRICES, STRENGTHS, 0.5), "at least 1"),
    (lambda: labour_cost(0, 20, 40), "bar is paid"), (lambda: cost_each(-1, 1, 1, 1), "at least 0"),
    (lambda: total_cost(1, 1, -5), "nought or more"),
])  # fmt: skip
def test_bad_jobs_are_refused(call, said):
    """Sides, quantity, rate, material, methods and factor that cannot be meant."""
    with pytest.raises(ValueError, match=said):
        call()
