"""Ways of locking: what suits, what it costs, the pair of nuts, the nut that drags."""

import pytest

from workbench.screws.locking import (
    DEMANDS,
    cost_of,
    method,
    methods,
    nut_pair_loads_n,
    pays_from,
    still_drags,
    suits,
)


def test_the_spring_washer_suits_no_joint_that_asks_anything():
    """Under any single demand the split spring washer is refused with that reason (DIN 127 withdrawn, from memory)."""
    for demand, words in DEMANDS.items():
        assert suits((demand,))["split spring washer"] == (words,)
    assert suits()["split spring washer"] == ()


def test_heat_refuses_plastic_and_glue_before_steel():
    """At 200 degC plastic ring and adhesive fall out, the pin stays (limits: common practice, no source)."""
    at_200 = suits((), 200)
    assert at_200["nut with plastic ring"] == ("it bears about 110 degC only",)
    assert at_200["thread adhesive"] and not at_200["slotted nut and split pin"]
    assert not suits((), 110)["nut with plastic ring"]


def test_every_way_is_answered_and_reasons_add_up():
    """Each way has its list of reasons; two demands unmet are two reasons."""
    found = suits(("slip", "preload"))
    assert tuple(found) == methods()
    assert found["split spring washer"] == (DEMANDS["slip"], DEMANDS["preload"])
    assert [name for name in found if not found[name]] == ["thread adhesive", "wedge washer pair"]


def test_unknown_demands_are_refused():
    """A demand that is none, or a plain word for a tuple, is refused with the names."""
    with pytest.raises(ValueError, match="must be one of slip, lost, preload"):
        suits(("rust",))
    with pytest.raises(ValueError, match="is a comma missing"):
        suits("slip")


def test_a_pin_and_a_wire_are_never_used_twice():
    """Re-use: the pin never, the wire never (common practice, no source)."""
    assert method("slotted nut and split pin")["again"].endswith("never")
    assert method("lock wire")["again"] == "never"


def test_time_costs_more_than_the_pin():
    """6 min at 45 an hour and a pin of 0.10: 4.50 + 0.10 = 4.60 (by hand)."""
    assert cost_of(6, 45, 0.1) == pytest.approx(4.6)
    assert cost_of(0, 0, 0) == 0


def test_a_lock_pays_from_the_chance_at_which_it_saves_its_cost():
    """4.60 against a loss of 2300: from 1 in 500 (by hand)."""
    assert pays_from(4.6, 2300) == pytest.approx(1 / 500)
    with pytest.raises(ValueError, match="loss = 0"):
        pays_from(4.6, 0)


def test_the_outer_nut_of_a_pair_carries():
    """Statics: the two add to the clamp, and pressed together as hard as the joint the outer carries all."""
    for between in (0, 4000, 10000, 12000):
        inner, outer = nut_pair_loads_n(10000, between)
        assert inner + outer == 10000 and outer == between
    assert nut_pair_loads_n(10000, 10000) == (0, 10000)


def test_a_nut_is_judged_by_its_drag():
    """M12: at least 2.3 N m the first time off, 1.6 the fifth (ISO 2320, from memory)."""
    assert still_drags("M12", 2.3) and not still_drags("M12", 2.29)
    assert still_drags("M12", 1.6, removal=5) and not still_drags("M12", 1.59, removal=5)
    with pytest.raises(ValueError, match="first and the fifth"):
        still_drags("M12", 2, removal=3)
