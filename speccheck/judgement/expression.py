"""Conditions of rules: compiles them once, evaluates them on facts, takes no hole for an answer."""

from __future__ import annotations

from dataclasses import dataclass, field
from math import isfinite
from typing import TYPE_CHECKING

from speccheck.judgement.expression_error import ExpressionError
from speccheck.judgement.runtime import RuntimeRefusalError, chosen_runtime, program
from speccheck.judgement.spelled import Spelled, spelled
from speccheck.judgement.value_type import SHORT, ValueType

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from speccheck.judgement.runtime import Program, Runtime

__all__ = ["Expression", "ExpressionError", "NotEvaluated", "ValueType", "compile", "ready"]

MOST_ELEMENTS = 1000
MOST_TOLD = 256
"""How many answers a condition remembers; what it meets after these is worked out each time."""
_KINDS = {letter: kind for kind, letter in SHORT.items()}
_RESULTS = {ValueType.number: float, ValueType.text: str, ValueType.truth: bool}
# A name that stands alone, as in every third condition and most limits, leaves a runtime nothing to work out.
_ALONE: dict[str, Program] = {
    "b0": lambda taken: taken["b0"],
    "!b0": lambda taken: not taken["b0"],
    "n0": lambda taken: taken["n0"],
}


@dataclass(frozen=True, slots=True)
class NotEvaluated:
    """No answer, and why: an expression could not be evaluated on the values at hand.

    Args:
        reason: Why, in one plain sentence, the same in every runtime.
        missing: The names that have no value, in alphabetical order; empty when the reason is another one.
    """

    reason: str
    missing: tuple[str, ...] = ()

    def __bool__(self) -> bool:
        raise TypeError(f"an expression without an answer is neither true nor false: {self.reason}")


@dataclass(frozen=True, slots=True)
class Expression:
    """A compiled expression.

    Args:
        source: The text it comes from.
        result: The type of its answer.
        names: The dotted names it reads.
    """

    source: str
    result: ValueType
    names: frozenset[str]
    _inputs: tuple[tuple[str, str, Callable[[object], object]], ...] = field(repr=False, compare=False)
    _keys: tuple[tuple[str, str], ...] = field(repr=False, compare=False)
    _program: Program = field(repr=False, compare=False)
    _word: str = field(repr=False, compare=False, default="")
    """The one name a condition reads where that is a text or a truth, as it is for most."""
    _told: dict[object, bool] = field(repr=False, compare=False, default_factory=dict)
    """What such a condition answered before: the same few words come back at every layer of every document."""

    def evaluate(self, values: Mapping[str, object]) -> float | str | bool | NotEvaluated:
        """Evaluate the expression on values by dotted name.

        Args:
            values: Numbers (int or float, finite), texts, truths, lists of texts, lists of options (text -> number),
                in the SI units of the facts. Names the expression does not read are ignored; `None` is no value.

        Returns:
            The answer in the result type. `NotEvaluated` when any name it reads has no value (also one that
                the answer would not hang on), a value is of the wrong type, a divisor is zero, a number leaves
                the finite range, or an option lacks a key that is read. Never raises.

        Example:
            >>> thick = compile("wall.r >= 2.0", {"wall.r": ValueType.number})
            >>> thick.evaluate({"wall.r": 3.1})
            True
            >>> thick.evaluate({})
            NotEvaluated(reason='wall.r is not shown', missing=('wall.r',))
        """
        if self._word:
            word = values.get(self._word)
            if (type(word) is str or type(word) is bool) and word in self._told:
                return self._told[word]
        try:
            taken = {short: take(values[name]) for name, short, take in self._inputs}
        except (KeyError, TypeError, ValueError, OverflowError):
            return self._untaken(values)
        try:
            answer = self._program(taken)
        except RuntimeRefusalError:
            return NotEvaluated(self._why(values))
        if type(answer) is not _RESULTS[self.result]:
            return NotEvaluated(f"the expression gives no {self.result}")
        if self._word and len(self._told) < MOST_TOLD:
            self._told[next(iter(taken.values()))] = answer  # type: ignore[assignment]  # checked above
        return answer  # type: ignore[return-value]  # the line above checked it

    def _untaken(self, values: Mapping[str, object]) -> NotEvaluated:
        """Tell which names have no value or, where all have one, which value is of the wrong type."""
        missing = sorted(name for name, _, _ in self._inputs if values.get(name) is None)
        if missing:
            verb = "is" if len(missing) == 1 else "are"
            return NotEvaluated(f"{', '.join(missing)} {verb} not shown", tuple(missing))
        for name, _, take in self._inputs:
            try:
                take(values[name])
            except (TypeError, ValueError, OverflowError) as problem:
                return NotEvaluated(f"{name} {problem}")
        raise AssertionError("every value could be taken")

    def _why(self, values: Mapping[str, object]) -> str:
        """Find the reason of a refusal in the values, so that it reads the same in every runtime."""
        for name, key in self._keys:
            for place, option in enumerate(_options(values[name]), start=1):
                if key not in option:
                    return f"option {place} of {name} has no {key!a}"
        return "the expression divides by zero or leaves the range of numbers"


def compile(  # noqa: A001  # the verb of the language; callers read `expression.compile`
    source: str,
    declared: Mapping[str, ValueType],
    result: ValueType = ValueType.truth,
    runtime: Runtime | None = None,
) -> Expression:
    """Compile an expression of the reduced profile.

    Args:
        source: The expression, at most 500 characters.
        declared: The dotted names it may read, with their types.
        result: The type of the answer: number, text or truth.
        runtime: `first`, `second`, or the one that is installed (the first when both are).

    Returns:
        Ready to evaluate any number of times.

    Raises:
        ExpressionError: Syntax outside the profile, an undeclared name, a wrong type; with the offset.
        ImportError: The runtime is not installed.

    Notes:
        The profile and the types are checked here, the same for both runtimes, since the second one checks none.
        `||` and `&&` go from left to right and stop at the first side that decides; unlike in the full language,
        an error to the left of that side is never swallowed.

    Example:
        >>> share = compile("1.0 - a / b", {"a": ValueType.number, "b": ValueType.number}, ValueType.number)
        >>> share.evaluate({"a": 1.0, "b": 4.0})
        0.75
        >>> share.evaluate({"a": 1.0, "b": 0.0})
        NotEvaluated(reason='the expression divides by zero or leaves the range of numbers', missing=())

    Source: Common Expression Language specification (open standard); the profile is our own.
    """
    if result not in _RESULTS:
        raise ExpressionError(f"an expression gives a number, a text or a truth, not {result}", 0, source)
    return ready(source, spelled(source, declared, result), result, runtime)


def ready(
    source: str, strict: Spelled, result: ValueType = ValueType.truth, runtime: Runtime | None = None
) -> Expression:
    """Make an expression that was read and spelled before, as those of a compiled pack are, ready to evaluate.

    Args:
        source: The expression.
        strict: What `spelled` gave for it.
        result: The type of the answer: number, text or truth.
        runtime: `first`, `second`, or the one that is installed (the first when both are).

    Raises:
        ExpressionError: The runtime does not read the strict spelling.
        ImportError: The runtime is not installed.
    """
    try:
        runs = _ALONE.get(strict.text) or program(strict.text, runtime or chosen_runtime())
    except RuntimeRefusalError as problem:
        raise ExpressionError(str(problem), 0, source) from problem
    kinds = [_KINDS[short[0]] for short in strict.names]
    truth = result is ValueType.truth
    single = truth and kinds in (["text"], ["truth"])
    if truth and not single and "options" not in kinds:
        runs = _remembering(runs)
    return Expression(
        source=source,
        result=result,
        names=frozenset(strict.names.values()),
        _inputs=tuple(
            (name, short, _TAKERS[kind])
            for (short, name), kind in zip(strict.names.items(), kinds, strict=True)
        ),
        _keys=strict.keys,
        _program=runs,
        _word=next(iter(strict.names.values())) if single else "",
    )


def _remembering(runs: Program) -> Program:
    """Return a condition that does not work out again what it was asked before.

    Only truths are kept: to them 0.0 and -0.0, which are one key, are the same.
    """
    told: dict[tuple[object, ...], object] = {}

    def run(taken: dict[str, object]) -> object:
        met = tuple([tuple(value) if type(value) is list else value for value in taken.values()])
        if met in told:
            return told[met]
        answer = runs(taken)
        if len(told) < MOST_TOLD:
            told[met] = answer
        return answer

    return run


def _number(value: object) -> float:
    if isinstance(value, bool) or not isinstance(value, (int, float)):
        raise TypeError("is not a number")
    try:
        number = float(value)
    except OverflowError:
        raise ValueError("is not a finite number") from None
    if not isfinite(number):
        raise ValueError("is not a finite number")
    return number


def _text(value: object) -> str:
    if not isinstance(value, str):
        raise TypeError("is not a text")
    text = str.__str__(value)  # an enumeration member gives its value
    # A zero letter would end the text early in the first runtime.
    if "\0" in text or not (text.isascii() or _can_be_written(text)):
        raise ValueError("holds letters that cannot be written")
    return text


def _can_be_written(text: str) -> bool:
    try:
        text.encode()
    except UnicodeEncodeError:
        return False
    return True


def _truth(value: object) -> bool:
    if not isinstance(value, bool):
        raise TypeError("is neither true nor false")
    return value


def _elements(value: object) -> list[object] | tuple[object, ...]:
    if not isinstance(value, (list, tuple)):
        raise TypeError("is not a list")
    if len(value) > MOST_ELEMENTS:
        raise ValueError(f"has more than {MOST_ELEMENTS} elements")
    return value


def _texts(value: object) -> list[str]:
    return [_text(element) for element in _elements(value)]


def _options(value: object) -> list[dict[str, float]]:
    options: list[dict[str, float]] = []
    for element in _elements(value):
        if not isinstance(element, dict):
            raise TypeError("holds something that is no option")
        options.append({_text(key): _number(number) for key, number in element.items()})
    return options


_TAKERS: dict[str, Callable[[object], object]] = {
    "number": _number,
    "text": _text,
    "truth": _truth,
    "texts": _texts,
    "options": _options,
}
