"""The examples in the docstrings of the rules."""

import doctest
from importlib import import_module
from pkgutil import walk_packages

import pytest

import weighin.rules

RULES = "weighin.rules."
WITH_EXAMPLES = {"weights", "scoring", "species", "payouts", "words.scores"}


@pytest.mark.parametrize(
    "name", [module.name.removeprefix(RULES) for module in walk_packages(weighin.rules.__path__, RULES)]
)
def test_the_examples_hold(name):
    found = doctest.testmod(import_module(RULES + name))
    assert found.failed == 0
    assert found.attempted > 0 or name not in WITH_EXAMPLES
