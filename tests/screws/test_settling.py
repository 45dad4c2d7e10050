"""Settling after tightening."""

import pytest

from workbench.screws.settling import preload_loss_n, settling_mm
from workbench.screws.stiffness import Springs, bolt_n_per_mm


def test_a_loss_by_hand():
    """Rz 16, one joint: 3 + 2 x 3 + 2 = 11 um; at 240 kN/mm 2.64 kN are lost."""
    assert settling_mm(16, 1) == pytest.approx(0.011)
    assert preload_loss_n(0.011, Springs(300000, 1200000)) == pytest.approx(2640)


def test_a_long_bolt_loses_less():
    """The same settling takes less preload from a longer, softer bolt."""
    short, long = (Springs(bolt_n_per_mm(10, 1.5, 0, grip), 1e6) for grip in (15, 60))
    assert preload_loss_n(0.011, long) < 0.5 * preload_loss_n(0.011, short)


def test_rougher_and_more_joints_settle_more():
    """Rougher faces, more joints and load across the bolt settle more."""
    assert settling_mm(8, 1) < settling_mm(16, 1) < settling_mm(100, 1) < settling_mm(100, 2)
    assert settling_mm(16, 1) < settling_mm(16, 1, "shear")


@pytest.mark.parametrize("act, says", [
    (lambda: settling_mm(200, 1), "micrometres"),
    (lambda: settling_mm(16, 1, "twist"), "must be 'pull' or 'shear'"),
    (lambda: preload_loss_n(0.01, 5), "must be Springs"),
])  # fmt: skip
def test_bad_input_is_refused(act, says):
    """Roughness outside the table, an unknown load, a number for springs: refused."""
    with pytest.raises(ValueError, match=says):
        act()
