"""Telling a person what the models found wrong: each fault in plain words with its line and column."""

from collections.abc import Iterable, Iterator, Sequence
from difflib import get_close_matches
from typing import Any

from pydantic import BaseModel
from pydantic_core import ErrorDetails

from speccheck.document.fields import known_keys
from speccheck.document.problem import Path, Problem, printable
from speccheck.document.source import Source

__all__ = ["tell"]

_KINDS = {
    "bool_type": ("not true or false", "true or false"),
    "bool_parsing": ("not true or false", "true or false"),
    "int_type": ("not a whole number", "a whole number"),
    "int_parsing": ("not a whole number", "a whole number"),
    "int_from_float": ("not a whole number", "a whole number"),
    "float_type": ("not a number", "a plain number"),
    "float_parsing": ("not a number", "a plain number"),
    "string_type": ("not a text", "a text; put it in quotes"),
    "dict_type": ("not a mapping", "keys and values"),
    "model_type": ("not a mapping", "keys and values"),
    "model_attributes_type": ("not a mapping", "keys and values"),
    "tuple_type": ("not a list", "a list"),
    "list_type": ("not a list", "a list"),
    "date_from_datetime_parsing": ("not a date", "a date such as 2026-03-31"),
    "date_parsing": ("not a date", "a date such as 2026-03-31"),
    "date_type": ("not a date", "a date such as 2026-03-31"),
}

_PATTERNS = {
    "zip": 'five digits in quotes, such as "04101"',
    "fips": 'five digits in quotes, such as "23005"',
    "state": "two capital letters, such as ME",
    "zone": "a climate zone such as 6A, 4C or 7",
    "joins": "assembly.side, such as north-wall.base",
    "from": "assembly.layer, such as north-wall.control",
    "to": "assembly.layer, such as north-wall.control",
    "rule": "a rule id such as vapour.falls-outward",
}


def tell(source: Source, top: type[BaseModel], errors: Iterable[ErrorDetails]) -> Iterator[Problem]:
    """Yield a problem for each fault; the alternatives of one value are told as one."""
    told: dict[tuple[Path, str], list[ErrorDetails]] = {}
    for error in errors:
        # of a key that is too many or missing, the location is the key itself
        by_key = error["type"] in ("extra_forbidden", "missing")
        path = tuple(error["loc"]) if by_key else _real(source.data, error["loc"])
        told.setdefault((path, "" if error["type"] == "quantity" else error["type"]), []).append(error)
    for (path, _), group in told.items():
        yield _problem(source, top, path, group)


def _real(data: Any, loc: Sequence[str | int]) -> Path:
    """Return the part of a location that stands in the document; pydantic adds names of its own behind it."""
    path: list[str | int] = []
    here = data
    for step in loc:
        if isinstance(here, dict) and step in here:
            here = here[step]
        elif isinstance(here, list) and isinstance(step, int) and step < len(here):
            here = here[step]
        else:
            break
        path.append(step)
    return tuple(path)


def _problem(source: Source, top: type[BaseModel], path: Path, group: Sequence[ErrorDetails]) -> Problem:
    error = group[0]
    kind = error["type"]
    if kind == "extra_forbidden":
        return _unknown_key(source, top, path)
    if kind == "missing":
        return _missing_key(source, top, path)
    what, expected, do = _words(path, group)
    key_fault = bool(error["loc"]) and error["loc"][-1] == "[key]"
    mark = source.key_mark(path) if key_fault else source.mark(path)
    return Problem(what, expected, do, path, mark, source.name)


def _unknown_key(source: Source, top: type[BaseModel], path: Path) -> Problem:
    *above, key = path
    known = known_keys(top, above)
    near = get_close_matches(str(key), known, n=1, cutoff=0.6)
    do = f"did you mean `{near[0]}`?" if near else "correct or remove it"
    expected = f"one of {', '.join(known)}" if known else ""
    return Problem(f"unknown key {printable(str(key), 60)!r}", expected, do, path, source.key_mark(path), source.name)


def _missing_key(source: Source, top: type[BaseModel], path: Path) -> Problem:
    *above, key = path
    if key == "speccheck" and not above:
        return Problem(
            "this is no speccheck document: the key 'speccheck' is missing",
            "`speccheck: 1` at the top",
            "add it as the first line",
            path,
            source.mark(()),
            source.name,
        )
    example = {"kind": "such as `kind: wall`", "layers": "a list of layers, inside first", "in": "the assembly it sits in"}
    return Problem(
        f"the key {key!r} is missing", example.get(str(key), f"`{key}`"), "add it", path, source.mark(tuple(above)), source.name
    )


def _words(path: Path, group: Sequence[ErrorDetails]) -> tuple[str, str, str]:
    error = group[0]
    context = error.get("ctx", {})
    if "what" in context:
        expected = " or ".join(dict.fromkeys(str(e.get("ctx", {}).get("expected", "")) for e in group))
        return str(context["what"]), expected, str(context["do"])
    value = printable(repr(error["input"]), 60)
    kind = error["type"]
    if kind in _KINDS:
        what, expected = _KINDS[kind]
        return f"{value} is {what}", expected, "correct it"
    if kind == "literal_error":
        return _literal(error, value)
    if kind in ("string_pattern_mismatch",):
        key = next((str(step) for step in reversed(path) if isinstance(step, str)), "")
        return (
            f"{value} is not of the form wanted",
            _PATTERNS.get(key, "a name of letters, digits, - and _ that begins with a letter, 64 at most"),
            "correct it",
        )
    return f"{value}: {error['msg'][0].lower()}{error['msg'][1:]}", "", "correct it"


def _literal(error: ErrorDetails, value: str) -> tuple[str, str, str]:
    context = error.get("ctx", {})
    choices = str(context.get("expected", "")).replace("'", "")
    options = [part.strip() for part in choices.replace(" or ", ", ").split(",")]
    near = get_close_matches(str(error["input"]), options, n=1, cutoff=0.6)
    return f"{value} is not one of the choices", choices, f"did you mean {near[0]}?" if near else "choose one"
