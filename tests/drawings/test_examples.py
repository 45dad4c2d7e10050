"""The examples in the docstrings of drawings."""

import doctest
from importlib import import_module

import pytest


@pytest.mark.parametrize("name", ["cylinder", "dimensions", "hatching", "measuring_screw"])
def test_examples_hold(name):
    """Each example of the module gives what it says."""
    failed, tried = doctest.testmod(import_module(f"workbench.drawings.{name}"))
    assert tried and not failed
