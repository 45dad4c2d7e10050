"""Length engaged against stripping of unequal materials."""

import math

import pytest

from workbench.screws.stripping import Engagement, nut_shear_mm, screw_shear_mm, shear_strength_mpa
from workbench.threads.property_classes import nut_proof_mpa
from workbench.threads.strength import stress_area_mm2


def test_ridges_without_overlap_shear_on_half_their_circumference():
    """Where crest and pitch line meet, half of every pitch is ridge: pi D / 2 a millimetre (geometry)."""
    assert screw_shear_mm(1.5, 9, 9) == pytest.approx(math.pi * 9 / 2)
    assert nut_shear_mm(1.5, 9, 9) == pytest.approx(math.pi * 9 / 2)


@pytest.mark.parametrize("part, whose", [(150, "part"), (250, "part"), (800, "screw"), (1200, "screw")])
def test_the_weaker_of_the_two_threads_strips(part, whose):
    """In soft metal the tapped thread shears, in hard metal that of the screw."""
    assert Engagement(10, 1.5, 800, part).stripping_n(12)[1] == whose


@pytest.mark.parametrize("size, pitch", [(6, 1), (10, 1.5), (20, 2.5)])
@pytest.mark.parametrize("part", [150, 250, 400, 800])
def test_at_the_needed_length_stripping_and_breaking_meet(size, pitch, part):
    """At the needed length the first thread strips at the load that breaks the screw."""
    one = Engagement(size, pitch, 800, part)
    assert one.stripping_n(one.needed_mm)[0] == pytest.approx(one.breaking_n)


def test_softer_parts_need_more_thread_and_never_less_than_a_pitch():
    """Length needed falls with the strength of the part until the screw's own thread decides."""
    needed = [Engagement(12, 1.75, 800, part).needed_mm for part in (100, 200, 300, 600, 2000, 9000)]
    assert needed[0] > needed[1] > needed[2] > needed[3] and needed[4] == needed[5] >= 1.75


@pytest.mark.parametrize("size, pitch, height", [(8, 1.25, 6.44), (10, 1.5, 8.04), (12, 1.75, 10.37), (16, 2, 14.1)])
def test_a_standard_nut_of_class_8_holds_its_proof_load(size, pitch, height):
    """ISO 4032 least heights m, ISO 898-2 proof stress (both from memory): the thread does not strip below it."""
    proof = nut_proof_mpa("8", size) * stress_area_mm2(size, pitch)
    assert Engagement(size, pitch, 1040, 800).stripping_n(height)[0] > proof


def test_shear_strength_is_that_of_von_mises():
    """0.577 of tensile is 1 / sqrt 3."""
    assert shear_strength_mpa(1000) == pytest.approx(1000 / math.sqrt(3), rel=1e-3)


@pytest.mark.parametrize("act, says", [
    (lambda: Engagement(10, 1.5, 800, 250).stripping_n(1.4), "shorter than one pitch"),
    (lambda: Engagement(10, 1.5, 800, 0), "must be above 0"),
    (lambda: screw_shear_mm(1.5, 12, 9), "belong together"),
])  # fmt: skip
def test_less_than_a_pitch_and_threads_that_miss_are_refused(act, says):
    """Engagement under one pitch, no strength, a nut far too wide: refused."""
    with pytest.raises(ValueError, match=says):
        act()
