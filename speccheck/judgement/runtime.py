"""The two runtimes of the expression language behind one shape: text in, a callable over flat values out."""

from __future__ import annotations

from functools import cache, lru_cache
from importlib import import_module
from typing import TYPE_CHECKING, Any, Literal

from speccheck.judgement.value_type import MOST_NAMES, SHORT

if TYPE_CHECKING:
    from collections.abc import Callable

    Runtime = Literal["first", "second"]
    Program = Callable[[dict[str, object]], object]

__all__ = ["RuntimeRefusalError", "chosen_runtime", "program"]

_MODULES = {"first": "cel_expr_python.cel", "second": "cel"}


class RuntimeRefusalError(ValueError):
    """A runtime does not read a text, or ends its evaluation in an error."""


@cache
def chosen_runtime() -> Runtime:
    """Tell which runtime is installed, the first one when both are.

    Returns:
        `first` or `second`.

    Raises:
        ImportError: Neither is installed.
    """
    names: tuple[Runtime, Runtime] = ("first", "second")
    for name in names:
        try:
            import_module(_MODULES[name])
        except ImportError:
            continue
        return name
    raise ImportError(
        "no runtime for rule expressions is installed; install cel-expr-python or common-expression-language"
    )


@lru_cache(maxsize=2048)
def program(text: str, runtime: Runtime) -> Program:
    """Compile an expression in strict spelling; the same words with other names are compiled once.

    Args:
        text: The expression, reading the short names `n0`, `t0`, ...
        runtime: Which runtime compiles it.

    Returns:
        Takes the values by short name; returns the result, raises `RuntimeRefusalError` when there is none.

    Raises:
        RuntimeRefusalError: The runtime does not read the text.
    """
    return _first(text) if runtime == "first" else _second(text)


@cache
def _environment() -> tuple[Any, Any]:
    """Declare every short name once; all expressions share the environment."""
    cel = import_module(_MODULES["first"])
    kinds = {
        "number": cel.Type.DOUBLE,
        "text": cel.Type.STRING,
        "truth": cel.Type.BOOL,
        "texts": cel.Type.List(cel.Type.STRING),
        "options": cel.Type.List(cel.Type.Map(cel.Type.STRING, cel.Type.DOUBLE)),
    }
    names = {f"{SHORT[kind]}{number}": kinds[kind] for kind in kinds for number in range(MOST_NAMES)}
    return cel.NewEnv(variables=names), cel.Type.ERROR


def _first(text: str) -> Program:
    environment, error = _environment()
    try:
        compiled = environment.compile(text)
    except RuntimeError as problem:
        raise RuntimeRefusalError(str(problem)) from problem

    def run(values: dict[str, object]) -> object:
        try:
            value = compiled.eval(environment.Activation(values))
        except (RuntimeError, TypeError, ValueError) as problem:
            raise RuntimeRefusalError(str(problem)) from problem
        # An error is a value here, and it would count as true.
        if value.type() == error:
            raise RuntimeRefusalError(str(value.value()))
        result: object = value.value()
        return result

    return run


def _second(text: str) -> Program:
    cel = import_module(_MODULES["second"])
    try:
        compiled = cel.compile(text)
    except ValueError as problem:
        raise RuntimeRefusalError(str(problem)) from problem

    def run(values: dict[str, object]) -> object:
        try:
            result: object = compiled.execute(values)
        except (KeyError, RuntimeError, TypeError, ValueError) as problem:
            raise RuntimeRefusalError(str(problem)) from problem
        return result

    return run
