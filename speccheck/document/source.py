"""A YAML or JSON document as plain data, with the line and column of every value and key."""

import json
import os
import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from speccheck.document.json_syntax import refuse_broken
from speccheck.document.nodes import build
from speccheck.document.problem import Mark, Path, Problem
from speccheck.document.text import decode, read_bytes

__all__ = ["Source", "read_file", "read_source"]

_ESCAPES = re.compile(r"\\(?:u([dD][89abAB][0-9a-fA-F]{2})\\u([dD][c-fC-F][0-9a-fA-F]{2})|.)", re.DOTALL)


@dataclass(frozen=True, slots=True)
class Source:
    """What a file holds: plain data, where each value stands, and what is wrong with how it is written.

    `data` is whole even when there are problems: a value on which YAML readers disagree is kept as its text.
    """

    data: dict[str, Any]
    marks: Mapping[Path, Mark]
    name: str
    problems: tuple[Problem, ...] = ()
    key_marks: Mapping[Path, Mark] = field(default_factory=dict)

    def mark(self, path: Path) -> Mark | None:
        """Return where the value at that path stands, or its nearest ancestor; None for data from no file."""
        return _nearest(self.marks, path)

    def key_mark(self, path: Path) -> Mark | None:
        """Return where the key at the end of that path stands; for a list item where the item stands."""
        return self.key_marks.get(path) or self.mark(path)

    def problem(self, path: Path, what: str, expected: str, do: str, at_key: bool = False) -> Problem:
        """Return the problem of the value at that path, or of its key."""
        mark = self.key_mark(path) if at_key else self.mark(path)
        return Problem(what, expected, do, path, mark, self.name)


def _nearest(marks: Mapping[Path, Mark], path: Path) -> Mark | None:
    for length in range(len(path), -1, -1):
        mark = marks.get(path[:length])
        if mark is not None:
            return mark
    return None


def read_source(data: bytes, name: str) -> Source:
    r"""Read a document from bytes.

    Args:
        data: UTF-8 text, YAML or JSON, up to 1 MB, 32 levels and 50,000 values.
        name: name of the file for messages.

    Returns:
        The source; its `problems` hold every fault of writing that leaves the rest readable, with its place.

    Raises:
        Unreadable: when no data can be had of it.

    Example:
        >>> source = read_source(b"wall:\n  depth: 140 mm\n", "wall.yaml")
        >>> source.data, source.mark(("wall", "depth"))
        ({'wall': {'depth': '140 mm'}}, Mark(line=2, column=10))
    """
    text = decode(data, name)
    if name.lower().endswith(".json") and text.strip():
        refuse_broken(text, name)
    is_json = _is_json(text, name)
    if is_json:
        text = _as_yaml(text)
    built = build(text, name, is_json)
    return Source(built.data, built.marks, name, tuple(built.problems), built.key_marks)


def read_file(path: str | os.PathLike[str]) -> Source:
    """Read a document from an ordinary file.

    Args:
        path: where the file lies.

    Raises:
        Unreadable: when the file cannot be read, see `read_source` and `speccheck.document.text.read_bytes`.
    """
    return read_source(read_bytes(path), os.fspath(path))


def _is_json(text: str, name: str) -> bool:
    """Tell whether the text is JSON by the letter, so that what only JSON allows can be let pass."""
    if not (name.endswith(".json") or text.lstrip()[:1] == "{"):
        return False
    try:
        json.loads(text, parse_constant=_refuse)
    except (ValueError, RecursionError):
        return False
    return True


def _refuse(constant: str) -> None:
    raise ValueError(constant)


def _as_yaml(text: str) -> str:
    """Write JSON so that every YAML reader takes it: tabs as spaces, surrogate pairs as one escape."""
    text = text.replace("\t", " ")
    return _ESCAPES.sub(_one_escape, text) if "\\u" in text else text


def _one_escape(found: re.Match[str]) -> str:
    high, low = found.groups()
    if high is None:
        return found[0]
    return f"\\U{0x10000 + ((int(high, 16) - 0xD800) << 10) + (int(low, 16) - 0xDC00):08x}"
