"""Telling a person what the models found wrong: each fault once, in plain words, at its line and column."""

from collections.abc import Iterable, Iterator, Sequence
from typing import Any

from pydantic import BaseModel
from pydantic_core import ErrorDetails

from speccheck.document.fault_words import fault_words, shown
from speccheck.document.fields import choices, field_at, known_keys, nearest_key, rooms_of
from speccheck.document.problem import Path, Problem, printable, where
from speccheck.document.source import Source

__all__ = ["tell"]

_KEY = "[key]"
"""The last step of a location where a key, not its value, is at fault."""

_SHOWN_KEYS = 26
_NOTHING = object()


def tell(source: Source, top: type[BaseModel], errors: Iterable[ErrorDetails]) -> Iterator[Problem]:
    """Yield a problem for each fault; the alternatives of one value are told as one.

    Args:
        source: the document the models refused.
        top: the model of the whole document.
        errors: what pydantic says of it.
    """
    told: dict[tuple[Path, bool], list[ErrorDetails]] = {}
    for error in errors:
        if _counted_wrong(error):
            continue
        # of a key that is too many or missing, the location is the key itself
        by_key = error["type"] in ("extra_forbidden", "missing", "invalid_key")
        path = tuple(error["loc"]) if by_key else _real(source.data, error["loc"])
        told.setdefault((path, by_key or error["loc"][-1:] == (_KEY,)), []).append(error)
    deeper = {path[:length] for path, _ in told for length in range(len(path))}
    for (path, by_key), group in told.items():
        # where one form of a value goes wrong further in, the other forms are not what was meant
        alternative = not by_key and all(len(error["loc"]) > len(path) for error in group)
        if not (alternative and path in deeper):
            yield _problem(source, top, path, by_key, group)


def _counted_wrong(error: ErrorDetails) -> bool:
    """Tell whether too few entries are told of only because others are at fault, and told by themselves."""
    value = error["input"]
    return (
        error["type"] == "too_short"
        and isinstance(value, (dict, list, tuple))
        and len(value) >= error.get("ctx", {}).get("min_length", 1)
    )


def _real(data: Any, loc: Sequence[str | int]) -> Path:
    """Return the steps of a location that stand in the document; pydantic adds names of its own between."""
    path: list[str | int] = []
    here = data
    for step in loc:
        below = _step(here, step)
        if below is not _NOTHING:
            here = below
            path.append(step)
    return tuple(path)


def _step(here: Any, step: str | int) -> Any:
    if isinstance(here, dict):
        return here.get(step, _NOTHING)
    if isinstance(here, (list, tuple)) and isinstance(step, int) and step < len(here):
        return here[step]
    return _NOTHING


def _problem(
    source: Source, top: type[BaseModel], path: Path, by_key: bool, group: Sequence[ErrorDetails]
) -> Problem:
    kind = group[0]["type"]
    if kind == "extra_forbidden":
        return _unknown_key(source, top, path)
    if kind == "missing":
        return _missing_key(source, top, path)
    if kind == "invalid_key":
        return _no_text_key(source, path)
    what, expected, do = fault_words(path, group, known_keys(top, path))
    return source.problem(path, what, expected, do, by_key)


def _no_text_key(source: Source, path: Path) -> Problem:
    what = f"{shown(path[-1])} stands where a key is wanted"
    return source.problem(path, what, "a text", "put it in quotes", at_key=True)


def _unknown_key(source: Source, top: type[BaseModel], path: Path) -> Problem:
    *above, key = path
    known = known_keys(top, above)
    rooms = rooms_of(top, above, str(key))
    near = nearest_key(str(key), known)
    expected = ""
    if rooms:
        do = f"move it under `{rooms[0]}`"
    elif near is not None:
        do = f"did you mean `{near}`?"
    else:
        expected = f"one of {', '.join(known[:_SHOWN_KEYS])}" if known else ""
        do = "correct it or take it out"
    place = f" in {printable(where(tuple(above)), 80)}" if above else " at the top"
    what = f"the key {shown(key)} is not known{place}"
    return source.problem(path, what, expected, do, at_key=True)


def _missing_key(source: Source, top: type[BaseModel], path: Path) -> Problem:
    *above, key = path
    if key == "speccheck" and not above:
        what = "this is no speccheck document: the key 'speccheck' is missing"
        do = "add it as the first line"
        return Problem(what, "speccheck: 1 at the top", do, path, source.mark(()), source.name)
    place = f" in {printable(where(tuple(above)), 80)}" if above else " at the top"
    what = f"the key '{key}' is missing{place}"
    expected = f"`{key}`{_meaning(top, path)}"
    return Problem(what, expected, "add it", path, source.key_mark(tuple(above)), source.name)


def _meaning(top: type[BaseModel], path: Path) -> str:
    """Say what stands behind a key: its choices, an example, or its description."""
    field = field_at(top, path)
    if field is None:
        return ""
    options = choices(field.annotation)
    if options:
        return f", one of {', '.join(options)}"
    if field.examples:
        return f", such as {field.examples[0]}"
    words = (field.description or "").rstrip(".")
    return f": {words[:1].lower()}{words[1:]}" if words else ""
