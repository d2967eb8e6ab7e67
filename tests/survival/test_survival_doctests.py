"""The worked examples in the docstrings are run, and every public name says what it is."""

import doctest
import importlib
import inspect
import pkgutil

import pytest

import weighin.survival

MODULES = [module.name for module in pkgutil.walk_packages(weighin.survival.__path__, "weighin.survival.")]


@pytest.mark.parametrize("name", MODULES)
def test_the_worked_examples_come_out(name):
    result = doctest.testmod(importlib.import_module(name))
    assert result.failed == 0


@pytest.mark.parametrize("name", MODULES)
def test_every_module_and_public_name_says_what_it_is(name):
    module = importlib.import_module(name)
    assert module.__doc__
    for label, thing in vars(module).items():
        ours = inspect.isfunction(thing) or inspect.isclass(thing)
        if ours and thing.__module__ == name and not label.startswith("_"):
            assert thing.__doc__, f"{name}.{label}"
