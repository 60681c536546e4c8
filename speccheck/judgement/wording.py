"""Wording: the sentences of a rule with their placeholders filled by values in readable units."""

from collections.abc import Callable, Iterator, Mapping
from typing import Any

from speccheck.judgement.sentence import render
from speccheck.quantity import show

__all__ = ["FILTERS", "Wording", "word"]

_PLAIN = ("text", "texts", "truth", "number", "options")


def _number(value: float) -> str:
    return f"{value:.3g}" if abs(value) < 1000 else f"{value:.0f}"


def word(value: Any, kind: str, system: str = "both") -> str:
    """Return a value of a kind in words: numbers with US and SI units, lists joined, yes or no."""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, tuple | list):
        return ", ".join(str(item) for item in value) or "none"
    if isinstance(value, str):
        return value
    if kind == "sd":
        return f"{_number(float(value))} m"
    if kind in _PLAIN:
        return _number(float(value))
    return show(float(value), kind, system)  # type: ignore[arg-type]


FILTERS: dict[str, Callable[[str], str]] = {"lower": str.lower, "upper": str.upper}
"""Filters a sentence may use; values arrive as words with units already."""


class _Words(Mapping[str, str]):
    """The values a sentence sees, put into words when asked for."""

    def __init__(self, values: Mapping[str, Any], kinds: Mapping[str, str], system: str) -> None:
        self._values = values
        self._kinds = kinds
        self._system = system

    def __getitem__(self, name: str) -> str:
        return word(self._values[name], self._kinds.get(name, "text"), self._system)

    def __contains__(self, name: object) -> bool:
        return name in self._values

    def __iter__(self) -> Iterator[str]:
        return iter(self._values)

    def __len__(self) -> int:
        return len(self._values)


class Wording:
    """Sentences about one case."""

    def __init__(self, values: Mapping[str, Any], kinds: Mapping[str, str], system: str = "both") -> None:
        self._words = _Words(values, kinds, system)

    def say(self, sentence: str) -> str:
        """Return the sentence with its placeholders filled."""
        return render(sentence, self._words, FILTERS) if "{" in sentence else sentence
