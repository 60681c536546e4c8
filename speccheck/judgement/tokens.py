"""The words of an expression: cuts the text of a rule's condition into tokens, each with its place."""

from __future__ import annotations

import re
from typing import NamedTuple

from speccheck.judgement.expression_error import ExpressionError

__all__ = ["Token", "read_tokens"]

LONGEST = 500
_TOKEN = re.compile(
    r"(?P<space>[ \t\r\n\f]+|//[^\r\n]*)"
    r"|(?P<number>(?:[0-9]+\.[0-9]+|\.[0-9]+)(?:[eE][+-]?[0-9]+)?|[0-9]+[eE][+-]?[0-9]+)"
    r"|(?P<whole>[0-9]+)"
    r"|(?P<name>[A-Za-z_][A-Za-z0-9_]*)"
    r"|(?P<text>\"[^\"\\\r\n]*\"|'[^'\\\r\n]*')"
    r"|(?P<sign>&&|\|\||==|!=|<=|>=|[-+*/%<>!?:.,()\[\]])"
)


class Token(NamedTuple):
    """One word of an expression: its kind (number, whole, name, text, sign, end), its letters, its offset."""

    kind: str
    text: str
    at: int


def read_tokens(source: str) -> list[Token]:
    """Cut an expression into tokens, without white space and comments.

    Args:
        source: The expression, at most 500 characters.

    Returns:
        The tokens in order; the last one is of kind `end`.

    Raises:
        ExpressionError: The text is too long or holds something that is no word of the language.

    Example:
        >>> [token.text for token in read_tokens("wall.r >= 2.0 // m²·K/W")]
        ['wall', '.', 'r', '>=', '2.0', '']
    """
    if len(source) > LONGEST:
        raise ExpressionError(f"the expression is longer than {LONGEST} characters", LONGEST, source)
    tokens: list[Token] = []
    at = 0
    while at < len(source):
        match = _TOKEN.match(source, at)
        if match is None:
            raise ExpressionError(_no_word(source, at), at, source)
        kind, text = str(match.lastgroup), match.group()
        if kind != "space":
            _refuse_odd(kind, text, tokens, at, source)
            tokens.append(Token(kind, text, at))
        at = match.end()
    tokens.append(Token("end", "", at))
    return tokens


def _no_word(source: str, at: int) -> str:
    letter = source[at]
    if letter in "\"'":
        return "a text ends on the line where it begins and holds no backslash"
    return f"{letter!a} is no part of an expression"


def _refuse_odd(kind: str, text: str, before: list[Token], at: int, source: str) -> None:
    """Refuse what runtimes read in different ways: unseen letters, words run together (`1u`, `r"a"`)."""
    if kind == "text" and not text.isprintable():
        raise ExpressionError("a text holds printable characters only", at, source)
    last = before[-1] if before else None
    wordlike = kind in ("number", "whole", "name", "text")
    touching = last is not None and last.at + len(last.text) == at
    if last is not None and touching and wordlike and last.kind in ("number", "whole", "name", "text"):
        raise ExpressionError(
            f"{last.text + text!a} is neither a number nor a name nor a text", last.at, source
        )
