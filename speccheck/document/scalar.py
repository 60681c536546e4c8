"""What a plain YAML word stands for, read strictly, and the words on which YAML readers disagree."""

import re

__all__ = ["Plain", "plain_scalar"]

Plain = str | int | float | bool | None

_NULLS = frozenset({"", "~", "null", "Null", "NULL"})
_BOOLS = {"true": True, "True": True, "TRUE": True, "false": False, "False": False, "FALSE": False}
_YES_NO = frozenset({"yes", "no", "on", "off"})
_INTEGER = re.compile(r"[-+]?(?:0|[1-9][0-9]*)")
_DECIMAL = re.compile(r"[-+]?(?:(?:0|[1-9][0-9]*)\.[0-9]*|\.[0-9]+)")
_EXPONENT = re.compile(r"[-+]?(?:[0-9]+\.?[0-9]*|\.[0-9]+)[eE][-+]?[0-9]+")
_LEADING_ZERO = re.compile(r"[-+]?0[0-9_]+(?:\.[0-9]*)?")
_OTHER_BASE = re.compile(r"[-+]?0[xXoObB][0-9a-fA-F_]+")
_UNDERSCORES = re.compile(r"[-+]?[0-9][0-9_]*_[0-9_]*(?:\.[0-9_]*)?")
_SIXTIES = re.compile(r"[-+]?[0-9]+(?::[0-9]{1,2})+(?:\.[0-9]*)?")
_NOT_FINITE = re.compile(r"[-+]?\.(?:inf|Inf|INF|nan|NaN|NAN)")
_MOST_DIGITS = 18
_LONGEST_SHOWN = 24

_QUOTE = 'put it in quotes if it is text, "{}"'
# Pattern of a word, then what is wrong with it and what to do; `{}` stands for the word.
_TRAPS: tuple[tuple[re.Pattern[str], str, str], ...] = (
    (
        _EXPONENT,
        "'{}' is a number with an exponent and no unit; YAML readers disagree on it",
        f"write the digits out, or the unit after it, or {_QUOTE}",
    ),
    (
        _LEADING_ZERO,
        "'{}' begins with a zero; YAML readers disagree on it",
        f"leave the zero out if it is a number, or {_QUOTE}",
    ),
    (_OTHER_BASE, "'{}' looks like a number of another base", f"write a decimal number, or {_QUOTE}"),
    (
        _UNDERSCORES,
        "'{}' is a number with underscores; YAML readers disagree on it",
        f"leave them out, or {_QUOTE}",
    ),
    (
        _SIXTIES,
        "'{}' may be read as a number in sixties by some YAML readers",
        _QUOTE.replace(" if it is text", ""),
    ),
    (_NOT_FINITE, "'{}' is not a finite number", "write a number, or leave the line out if it is not known"),
)
_FIRST = frozenset("+-.0123456789")


def plain_scalar(word: str, json: bool = False) -> tuple[Plain, tuple[str, str] | None]:
    """Return what an unquoted word stands for, and what is wrong with it and what to do, if anything.

    The YAML 1.2 core schema is read without the forms on which readers of YAML 1.1 and 1.2 disagree; those
    stay text.

    Args:
        word: the unquoted scalar.
        json: whether the document is JSON, where a number may have an exponent.

    Example:
        >>> plain_scalar("0.35"), plain_scalar("12.7 mm"), plain_scalar("~")
        ((0.35, None), ('12.7 mm', None), (None, None))
        >>> plain_scalar("no")[1]
        ("'no' is read as false by some YAML readers and as text by others", 'write true or false, or ...')

    Source: YAML 1.2.2, section 10.3 core schema; memory.
    """
    if word in _NULLS:
        return None, None
    if word[0] not in _FIRST:
        return _word(word)
    if len(word) > _MOST_DIGITS + 3 and re.fullmatch(r"[-+]?[0-9.]+", word):
        return word, (
            f"'{word[:_LONGEST_SHOWN]}…' has too many digits",
            "write a number of ordinary length, or put it in quotes",
        )
    if _INTEGER.fullmatch(word):
        return int(word), None
    if _DECIMAL.fullmatch(word) or (json and _EXPONENT.fullmatch(word)):
        return _finite(word)
    for pattern, what, do in _TRAPS:
        if pattern.fullmatch(word):
            shown = word if len(word) <= _LONGEST_SHOWN else f"{word[:_LONGEST_SHOWN]}…"
            return word, (what.format(shown), do.format(shown))
    return word, None


def _word(word: str) -> tuple[Plain, tuple[str, str] | None]:
    if word in _BOOLS:
        return _BOOLS[word], None
    lower = word.lower()
    if lower in _YES_NO:
        meaning = "true" if lower in {"yes", "on"} else "false"
        return word, (
            f"'{word}' is read as {meaning} by some YAML readers and as text by others",
            "write true or false, or " + _QUOTE.format(word),
        )
    return word, None


def _finite(word: str) -> tuple[Plain, tuple[str, str] | None]:
    number = float(word)
    if number in (float("inf"), float("-inf")):
        return word, (f"'{word}' is too large a number", "write a number of ordinary size")
    return number, None
