"""A JSON syntax error in plain words."""

import json

from speccheck.document.problem import Mark, Problem, Unreadable

__all__ = ["refuse_broken"]

# Part of the parser's words, then what is wrong and what to do.
_WORDS: tuple[tuple[str, str, str], ...] = (
    ("property name", "a key in double quotes is missing here", "write the key in double quotes"),
    (
        "',' delimiter",
        "a comma or a closing bracket is missing here",
        "write the comma, or close the bracket",
    ),
    ("':' delimiter", "a colon is missing after the key", "write the colon and a value"),
    ("Unterminated string", "a quote is opened and never closed", "close the quote"),
    ("control character", "a line break or a tab stands inside quotes", "write it as \\n or \\t"),
    ("escape", "a backslash begins an unknown escape", "double the backslash"),
    (
        "Extra data",
        "the document is closed, and more text follows",
        "take out what follows, or the bracket before it",
    ),
    (
        "value",
        "a value is missing here, or is not in double quotes",
        "write the value; a text in double quotes",
    ),
)
_COMMA = "a comma stands before a closing bracket", "take the comma out"
_COMMENT = "a comment stands here, and JSON has none", "take it out, or name the file .yaml"
_ELSE = (
    "the text is not JSON at this place",
    "check this line and the one above for quotes, commas and brackets",
)


def refuse_broken(text: str, name: str) -> None:
    """Refuse a text that is meant as JSON and breaks its syntax.

    Words that only some JSON readers know, such as NaN, are let pass: they are told as values.

    Args:
        text: the text, not empty.
        name: name of the file for messages.

    Raises:
        Unreadable: with the place where the syntax breaks.
    """
    try:
        json.loads(text, parse_constant=str)
    except json.JSONDecodeError as error:
        raise Unreadable(_problem(error, text, name)) from None
    except (ValueError, RecursionError):
        return  # numbers too long and nesting too deep are told by the reader


def _problem(error: json.JSONDecodeError, text: str, name: str) -> Problem:
    # releases of the parser place a comma too many at the comma or at the bracket behind it
    rest = text[error.pos :].lstrip()
    before = text[: error.pos].rstrip()
    if rest[:1] in ("}", "]") and before.endswith(","):
        (what, do), at = _COMMA, len(before) - 1
    elif rest[:1] == "," and rest[1:].lstrip()[:1] in ("}", "]") and "trailing comma" in error.msg:
        (what, do), at = _COMMA, error.pos
    elif rest.startswith(("//", "/*", "#")):
        (what, do), at = _COMMENT, len(text) - len(rest)
    else:
        (what, do), at = _in_plain_words(error.msg), error.pos
    return Problem(what, "JSON, as the name of the file says", do, (), _mark(text, at), name)


def _in_plain_words(message: str) -> tuple[str, str]:
    return next(((what, do) for part, what, do in _WORDS if part in message), _ELSE)


def _mark(text: str, offset: int) -> Mark:
    return Mark(text.count("\n", 0, offset) + 1, offset - text.rfind("\n", 0, offset))
