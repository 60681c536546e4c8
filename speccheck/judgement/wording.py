"""Wording: the sentences of a rule with their placeholders filled by values in readable units."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from typing import Any

from speccheck.judgement.sentence import render
from speccheck.quantity import show

__all__ = ["FILTERS", "Wording", "word", "word_options"]

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


_MEMBERS = {"cavity": "between the framing"}


def word_options(
    options: Sequence[Mapping[str, float]], kinds: Mapping[str, str], system: str = "both"
) -> str:
    """Return alternatives in words.

    Args:
        options: of each alternative, its members by name; one that is nought is left out.
        kinds: the kind of each member; a plain number where none is named.
        system: units to show: ``both``, ``us`` or ``si``.

    Example:
        >>> rows = [{"cavity": 3.522, "continuous": 0.0}, {"cavity": 2.289, "continuous": 0.8806}]
        >>> kinds = {"cavity": "thermal-resistance", "continuous": "thermal-resistance"}
        >>> word_options(rows, kinds, "us")
        'R-20 between the framing, or R-13 between the framing with R-5 continuous'
    """
    said = [
        " with ".join(
            f"{word(number, kinds.get(member, 'number'), system)} {_MEMBERS.get(member, member.replace('_', ' '))}"
            for member, number in option.items()
            if number
        )
        or "nothing"
        for option in options
    ]
    *most, last = said or ["none"]
    return f"{', '.join(most)}, or {last}" if most else last


FILTERS: dict[str, Callable[[str], str]] = {"lower": str.lower, "upper": str.upper}
"""Filters a sentence may use; values arrive as words with units already."""


class _Words(Mapping[str, str]):
    """The values a sentence sees, put into words when asked for."""

    def __init__(self, values: Mapping[str, Any], kinds: Mapping[str, str], system: str) -> None:
        self._values = values
        self._kinds = kinds
        self._system = system

    def __getitem__(self, name: str) -> str:
        value = self._values[name]
        if self._kinds.get(name) == "options":
            kinds = {
                m: self._kinds[f"{name}.{m}"]
                for option in value
                for m in option
                if f"{name}.{m}" in self._kinds
            }
            return word_options(value, kinds, self._system)
        return word(value, self._kinds.get(name, "text"), self._system)

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
