"""Sentences of rules: text with named placeholders, checked with the pack, filled in for a finding.

A sentence is Jinja2 syntax, and of that only `{{ dotted.name }}`, `{{ dotted.name | filter }}` and
`{% if %} ... {% elif %} ... {% else %} ... {% endif %}` over comparisons and logic. It words what is known
and computes nothing. Plain placeholders and plain conditions are filled in without the template engine; the
rest goes to a sandboxed template.
"""

from __future__ import annotations

import re
from functools import lru_cache
from typing import TYPE_CHECKING, NamedTuple

from speccheck.judgement.sentence_choice import every_branch, resolved
from speccheck.judgement.sentence_error import NOT_SHOWN, SentenceError

if TYPE_CHECKING:
    from collections.abc import Callable, Collection, Mapping

    from speccheck.judgement.sentence_template import Template

__all__ = ["NOT_SHOWN", "SentenceError", "check_sentence", "render"]

LONGEST = 1000
_PLACEHOLDER = re.compile(
    r"\{\{[ \t]*(?P<name>[A-Za-z_][A-Za-z0-9_]*(?:\.[A-Za-z_][A-Za-z0-9_]*)*)"
    r"(?:[ \t]*\|[ \t]*(?P<filter>[A-Za-z_][A-Za-z0-9_]*))?[ \t]*\}\}"
)
_RICHEST = re.compile(r"\{[{%#]|\r")
_RICHER = re.compile(r"\{[{%#]|\r|\{\Z")
# Words of the template language that look like names.
_WORDS = frozenset(
    {"true", "false", "none", "True", "False", "None", "not", "and", "or", "in", "is", "if", "else"}
)


class _Piece(NamedTuple):
    """Words as they stand and, after them, a placeholder (none after the last words)."""

    words: str
    name: str
    filter: str
    at: int


def check_sentence(text: str, names: Collection[str], filters: Collection[str]) -> frozenset[str]:
    """Check a sentence of a rule pack.

    Args:
        text: The sentence, at most 1000 characters.
        names: The dotted names it may show.
        filters: The names of the filters it may use.

    Returns:
        The dotted names it shows or asks about.

    Raises:
        SentenceError: Syntax beyond placeholders and conditions, or an unknown name or filter; with the offset.

    Example:
        >>> sorted(check_sentence("{{ share | percent }} outboard.", {"share"}, {"percent"}))
        ['share']
    """
    pieces = _pieces(text)
    if pieces is None:
        return _template(text).check(names, filters)
    for piece in pieces:
        if piece.name and piece.name not in names:
            raise SentenceError(f"nothing is declared under the name {piece.name!a}", piece.at)
        if piece.filter and piece.filter not in filters:
            raise SentenceError(f"{piece.filter!a} is not among the filters", piece.at)
    return frozenset(piece.name for piece in pieces if piece.name)


def render(text: str, values: Mapping[str, object], filters: Mapping[str, Callable[..., object]]) -> str:
    """Fill in a sentence.

    Args:
        text: The sentence.
        values: The values by dotted name, in SI units; a name that is absent or `None` shows as "not shown".
        filters: The filters by name; a filter is not asked about a value that is not shown.

    Returns:
        The sentence in words.

    Raises:
        SentenceError: The text is outside what a sentence may hold, or a filter cannot word its value.

    Example:
        >>> render("{{ share | percent }} outboard of {{ wall }}.", {"share": 0.31},
        ...        {"percent": lambda share: f"{share:.0%}"})
        '31% outboard of not shown.'
    """
    pieces = _pieces(text)
    if pieces is None:
        plain = resolved(text, values)
        # what does not stand now must be as plain: the engine refuses a text for any of its branches
        every = None if plain is None else _pieces(every_branch(text))
        if (
            plain is not None
            and every is not None
            and all(not one.filter or one.filter in filters for one in every)
        ):
            pieces = _pieces(plain)
    if pieces is None:
        return _template(text).render(values, filters)
    shown: list[str] = []
    for words, name, word_filter, at in pieces:
        shown.append(words)
        if name:
            shown.append(_shown(values.get(name), word_filter, filters, at))
    return "".join(shown)


def _shown(value: object, name: str, filters: Mapping[str, Callable[..., object]], at: int) -> str:
    if name and name not in filters:
        raise SentenceError(f"{name!a} is not among the filters", at)
    if value is None:
        return NOT_SHOWN
    try:
        return str(filters[name](value) if name else value)
    except Exception as problem:
        raise SentenceError(f"the sentence cannot be worded: {problem}", at) from problem


@lru_cache(maxsize=2048)
def _pieces(text: str) -> tuple[_Piece, ...] | None:
    """Cut a text of plain placeholders into pieces; `None` when it holds anything richer."""
    if len(text) > LONGEST:
        raise SentenceError(f"the sentence is longer than {LONGEST} characters", LONGEST)
    pieces: list[_Piece] = []
    end = 0
    for match in _PLACEHOLDER.finditer(text):
        words, name = text[end : match.start()], match["name"]
        # A brace right before a placeholder would open it one letter earlier.
        if _RICHER.search(words) or name.partition(".")[0] in _WORDS:
            return None
        pieces.append(_Piece(words, name, match["filter"] or "", match.start()))
        end = match.end()
    if _RICHEST.search(text, end):
        return None
    return (*pieces, _Piece(text[end:], "", "", len(text)))


@lru_cache(maxsize=512)
def _template(text: str) -> Template:
    # Imported here: few sentences need it, and the template engine is slow to load.
    from speccheck.judgement.sentence_template import Template

    return Template(text)
