"""Looking into plain data that may be of any shape: what is not of the kind wanted counts as absent."""

from collections.abc import Mapping, Sequence
from typing import Any

__all__ = ["entries", "items", "mapping", "text"]


def mapping(value: Any) -> Mapping[str, Any]:
    """Return the value where it is a mapping, else an empty one."""
    return value if isinstance(value, dict) else {}


def items(value: Any) -> Sequence[Any]:
    """Return the value where it is a list, else an empty one."""
    return value if isinstance(value, (list, tuple)) else ()


def text(value: Any) -> str | None:
    """Return the value where it is a text, else None."""
    return value if isinstance(value, str) else None


def entries(value: Any) -> Sequence[tuple[str, Mapping[str, Any]]]:
    """Return the names and mappings in a mapping of named things; a thing of another shape is empty."""
    return [(name, mapping(thing)) for name, thing in mapping(value).items() if isinstance(name, str)]
