"""Every public function of the physics says what it takes, in what unit, by whose word; its examples run."""

import doctest
import importlib
import inspect
import pkgutil
import re

import pytest

from speccheck import physics

MODULES = sorted(name for _, name, _ in pkgutil.iter_modules(physics.__path__) if not name.startswith("_"))


def public_functions(name):
    module = importlib.import_module(f"speccheck.physics.{name}")
    return [getattr(module, entry) for entry in module.__all__ if inspect.isfunction(getattr(module, entry))]


FUNCTIONS = [
    pytest.param(function, id=f"{name}.{function.__name__}")
    for name in MODULES
    for function in public_functions(name)
]


def argument_text(function, parameter):
    section = inspect.getdoc(function).split("Args:", 1)[1].split("\nReturns:", 1)[0]
    found = re.search(rf"^    {parameter}: (.+?)(?=^    \w+: |\Z)", section, re.MULTILINE | re.DOTALL)
    return found.group(1) if found else None


def test_the_package_has_functions_to_read():
    assert len(FUNCTIONS) > 40


@pytest.mark.parametrize("function", FUNCTIONS)
def test_each_parameter_is_explained_with_its_unit(function):
    for parameter in inspect.signature(function).parameters.values():
        text = argument_text(function, parameter.name)
        assert text, f"{parameter.name} is not explained"
        # Counts, choices and records have no unit of their own; every number that is a quantity has.
        if "float" in str(parameter.annotation):
            assert re.search(r"\[[^\]]+\]", text), f"{parameter.name} has no unit in brackets"


@pytest.mark.parametrize("function", FUNCTIONS)
def test_no_parameter_is_explained_that_does_not_exist(function):
    doc = inspect.getdoc(function)
    if "Args:" not in doc:
        assert not inspect.signature(function).parameters
        return
    section = doc.split("Args:", 1)[1].split("\nReturns:", 1)[0]
    assert set(re.findall(r"^    (\w+): ", section, re.MULTILINE)) == set(
        inspect.signature(function).parameters
    )


@pytest.mark.parametrize("function", FUNCTIONS)
def test_returns_example_and_source_are_there(function):
    doc = inspect.getdoc(function)
    assert "\nReturns:\n" in doc
    assert ">>> " in doc
    source = doc.split("\nSource: ", 1)
    assert len(source) == 2, "no source line"
    assert re.search(r"\b(read|memory|definition|arithmetic|no source)\b", source[1]), (
        "how the source is known is missing"
    )


@pytest.mark.parametrize("function", FUNCTIONS)
def test_summary_is_one_sentence(function):
    first = inspect.getdoc(function).split("\n\n", 1)[0]
    assert "\n" not in first
    assert first.endswith(".")


@pytest.mark.parametrize("name", MODULES)
def test_examples_run(name):
    module = importlib.import_module(f"speccheck.physics.{name}")
    outcome = doctest.testmod(module)
    assert outcome.failed == 0
