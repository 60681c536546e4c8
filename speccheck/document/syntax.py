"""A YAML syntax error in plain words."""

from typing import Any

from speccheck.document.problem import Mark, Problem

__all__ = ["syntax_problem"]

# Part of the parser's words, then what is wrong and what to do.
_WORDS: tuple[tuple[str, str, str], ...] = (
    (
        "mapping values are not allowed",
        "a colon and a space stand where no key can begin",
        "put the value in quotes, mend the indentation, or add the colon the line above lacks",
    ),
    ("unexpected end of stream", "a quote is opened and never closed", "close the quote"),
    (
        "could not find expected ':'",
        "a line has no colon after its key",
        "write key: value, or mend the indentation",
    ),
    (
        "expected ',' or ']'",
        "a list in brackets is not closed or lacks a comma",
        "close it with ] or add the comma",
    ),
    (
        "expected ',' or '}'",
        "a mapping in braces is not closed or lacks a comma",
        "close it with } or add the comma",
    ),
    ("expected '-' indicator", "a key stands among the items of a list", "mend the indentation of this line"),
    ("expected key", "the indentation does not fit the lines above", "mend the indentation of this line"),
    (
        "expected <block end>",
        "the indentation does not fit the lines above",
        "mend the indentation of this line",
    ),
    ("expected the node content", "a value is missing here", "write the value, or close the brackets"),
    (
        "unknown escape",
        "a backslash in double quotes begins an unknown escape",
        "use single quotes, or double the backslash",
    ),
    (
        "escape code",
        "a backslash escape in double quotes is not a character",
        "use single quotes, or write the character",
    ),
    (
        "undefined alias",
        "a reference (*) stands here",
        "write the value in place, or put it in quotes if it is text",
    ),
    (
        "directive",
        "a line begins with %, which YAML keeps for directives",
        "delete it, or put the text in quotes",
    ),
    ("duplicate", "the same directive or anchor stands twice", "delete one"),
    ("nesting", "the nesting is too deep", "flatten the document"),
)
# These are told where the opening stands, not where the parser gave up.
_UNCLOSED = ("unexpected end of stream", "expected ',' or ']'", "expected ',' or '}'", "directive")
_ELSE = (
    "the text is not YAML at this place",
    "check this line and the one above for quotes, brackets and indentation",
)
_TAB = "a tab stands where only spaces may", "indent with spaces"


def syntax_problem(error: Exception, text: str, name: str) -> Problem:
    """Return the problem for an error of the YAML parser.

    Args:
        error: what the parser raised.
        text: the text it read.
        name: name of the file for messages.
    """
    mark: Any = getattr(error, "problem_mark", None)
    words = str(getattr(error, "problem", None) or error)
    context = str(getattr(error, "context", None) or "")
    if "directive" in context:  # the parser's own words differ with what follows the percent sign
        words = context
    if any(part in words for part in _UNCLOSED):
        mark = getattr(error, "context_mark", None) or mark
    what, do = _in_plain_words(words, text, mark)
    place = Mark(mark.line + 1, mark.column + 1) if mark is not None else None
    return Problem(what, "", do, (), place, name)


def _in_plain_words(words: str, text: str, mark: Any) -> tuple[str, str]:
    if "cannot start any token" in words and mark is not None:
        return _at_character(_character(text, mark.line, mark.column))
    for part, what, do in _WORDS:
        if part in words:
            return what, do
    return _ELSE


def _character(text: str, line: int, column: int) -> str:
    lines = text.splitlines()
    return lines[line][column : column + 1] if line < len(lines) else ""


def _at_character(character: str) -> tuple[str, str]:
    if character == "\t":
        return _TAB
    if character in {"@", "`", "%"}:
        return f"a value may not begin with {character}", "put the value in quotes"
    return _ELSE
