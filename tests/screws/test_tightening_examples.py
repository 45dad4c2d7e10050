"""The examples in the docstrings of the tightening calculations."""

import doctest
from importlib import import_module

import pytest

MODULES = ("stiffness", "turning", "torque", "preload", "scatter", "joint", "settling", "fatigue", "bearing",
           "stripping", "torque_wrench", "grip", "blind_hole")  # fmt: skip


@pytest.mark.parametrize("name", [*(f"screws.{one}" for one in MODULES), "exercises.tightening.sizes"])
def test_examples_hold(name):
    """Each example of the module gives what it says."""
    failed, tried = doctest.testmod(import_module(f"workbench.{name}"))
    assert tried and not failed
