"""Sentences with plain conditions, resolved without the template engine, which takes long to load.

A condition is plain where it asks `name is defined`, `name == "text"`, `name != "text"` or `name in ["a", "b"]`, and
where none stands inside another. It means what it means to the engine; whatever else a sentence holds is left to it.
"""

from __future__ import annotations

import re
from functools import lru_cache
from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

__all__ = ["every_branch", "resolved"]

_BLOCK = re.compile(r"\{%[ \t\n]*(?:(if|elif)[ \t\n]+([^%{}]+?)|(else|endif))[ \t\n]*%\}")
_NAME = r"[A-Za-z_][A-Za-z0-9_]*(?:\.[A-Za-z_][A-Za-z0-9_]*)+"
_TEXT = r'"[^"\\]*"'
_TEST = re.compile(
    rf"({_NAME})\s+(?:(is\s+defined)|([=!]=)\s*({_TEXT})|in\s*\[\s*({_TEXT}(?:\s*,\s*{_TEXT})*)\s*\])"
)


class _Test(NamedTuple):
    """What a condition asks of a name: to be one of some texts, or ``other`` than them, or only to be shown (no texts).

    A name that is not shown is neither one of them nor other than they are.
    """

    name: str
    texts: tuple[str, ...]
    other: bool = False

    def holds(self, values: Mapping[str, object]) -> bool:
        value = values.get(self.name)
        return value is not None and (not self.texts or (value in self.texts) != self.other)


class _Branch(NamedTuple):
    """Words that stand where a test holds; without a test they stand where none before them did."""

    test: _Test | None
    words: str


def resolved(text: str, values: Mapping[str, object]) -> str | None:
    """Return a sentence with its conditions resolved, its placeholders left as they are.

    Args:
        text: The sentence.
        values: The values by dotted name; a name that is absent or `None` is not defined and equals nothing.

    Returns:
        The words that stand, or `None` where the sentence holds more than plain conditions.

    Example:
        >>> resolved("{% if a.b is defined %}It is {{ a.b }}.{% else %}Ask.{% endif %}", {"a.b": 3})
        'It is {{ a.b }}.'
    """
    choices = _choices(text)
    return None if choices is None else "".join(_standing(branches, values) for branches in choices)


def every_branch(text: str) -> str:
    """Return the words of all branches of a sentence that `resolved` resolves, those that do not stand among them.

    Args:
        text: The sentence.

    Example:
        >>> every_branch("{% if a.b is defined %}It is {{ a.b }}.{% else %}Ask.{% endif %}")
        ' It is {{ a.b }}. Ask. '
    """
    return " ".join(branch.words for branches in _choices(text) or () for branch in branches)


def _standing(branches: Iterable[_Branch], values: Mapping[str, object]) -> str:
    return next((words for test, words in branches if test is None or test.holds(values)), "")


@lru_cache(maxsize=512)
def _choices(text: str) -> tuple[tuple[_Branch, ...], ...] | None:
    """Cut a sentence into runs of branches, of which one each stands; `None` where it is not that plain."""
    choices: list[list[_Branch]] = [[]]
    test: _Test | None = None
    state, end = "endif", 0
    for block in _BLOCK.finditer(text):
        words, word = text[end : block.start()], block[1] or block[3]
        # A brace right before a statement would open it one letter earlier.
        if words.endswith("{") or "{%" in words or not _follows(word, state):
            return None
        choices[-1].append(_Branch(test, words))
        test = _test(block[2]) if block[2] else None
        if block[2] and test is None:
            return None
        if word in ("if", "endif"):
            choices.append([])
        state, end = word, block.end()
    if state != "endif" or "{%" in text[end:]:
        return None
    choices[-1].append(_Branch(None, text[end:]))
    return tuple(map(tuple, choices))


def _follows(word: str, state: str) -> bool:
    """Tell whether a statement may stand after the one before it; the text begins as after an `endif`."""
    if state == "endif":
        return word == "if"
    return word == "endif" if state == "else" else word != "if"


def _test(words: str) -> _Test | None:
    found = _TEST.fullmatch(words)
    if found is None:
        return None
    listed = found[4] or found[5] or ""
    return _Test(found[1], tuple(text for text in listed.split('"')[1::2]), found[3] == "!=")
