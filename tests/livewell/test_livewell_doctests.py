"""The worked examples in the docstrings are run, and every public function of the models has one."""

import ast
import doctest
import importlib
import inspect
import pkgutil
import sys
from pathlib import Path

import pytest

import weighin.livewell

MODULES = [module.name for module in pkgutil.walk_packages(weighin.livewell.__path__, "weighin.livewell.")]


def public_functions(module):
    for label, thing in vars(module).items():
        if inspect.isfunction(thing) and thing.__module__ == module.__name__ and not label.startswith("_"):
            yield label, thing


@pytest.mark.parametrize("name", MODULES)
def test_the_worked_examples_come_out(name):
    result = doctest.testmod(importlib.import_module(name), optionflags=doctest.ELLIPSIS)
    assert result.failed == 0


@pytest.mark.parametrize("name", MODULES)
def test_every_function_that_asks_for_physical_values_has_a_worked_example(name):
    module = importlib.import_module(name)
    assert module.__doc__
    for label, function in public_functions(module):
        assert function.__doc__, f"{name}.{label}"
        if "Parameters\n" in function.__doc__:
            assert ">>>" in function.__doc__, f"{name}.{label}"


def test_nothing_but_the_standard_library_and_itself_is_imported():
    for path in Path(weighin.livewell.__file__).parent.rglob("*.py"):
        for node in ast.walk(ast.parse(path.read_text())):
            names = [alias.name for alias in node.names] if isinstance(node, ast.Import) else []
            if isinstance(node, ast.ImportFrom):
                names = [node.module]
            for each in names:
                ours = each.startswith("weighin.livewell")
                assert ours or each.split(".")[0] in sys.stdlib_module_names, f"{path.name} imports {each}"
