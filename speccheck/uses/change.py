"""Changing a document: a path and a new value, on plain data, without touching the original."""

from collections.abc import Mapping
from copy import deepcopy
from typing import Any

from speccheck.document.assembly import name_layers

__all__ = ["ChangeError", "changed"]


class ChangeError(ValueError):
    """A path that leads nowhere in the document."""


def changed(data: Mapping[str, Any], changes: Mapping[str, Any]) -> dict[str, Any]:
    """Return the document with each path set to its new value; None takes the entry away.

    Args:
        data: a document as plain data.
        changes: path to value. Steps are joined by dots; a step into a list is a layer's name or a position, such as
            ``assemblies.wall.layers.sheathing.thickness``.

    Raises:
        ChangeError: when a path leads nowhere.
    """
    copy = deepcopy(dict(data))
    for path, value in changes.items():
        _set(copy, path, deepcopy(value))
    return copy


def _set(data: dict[str, Any], path: str, value: Any) -> None:
    *above, last = path.split(".")
    here: Any = data
    for step in above:
        here = _into(here, step, path)
    if isinstance(here, list):
        position = _position(here, last, path)
        if value is None:
            del here[position]
        else:
            here[position] = value
    elif not isinstance(here, dict):
        raise ChangeError(f"{path}: nothing can be set inside a plain value")
    elif value is None:
        here.pop(last, None)
    else:
        here[last] = value


def _into(here: Any, step: str, path: str) -> Any:
    if isinstance(here, list):
        return here[_position(here, step, path)]
    if isinstance(here, dict):
        return here.setdefault(step, {})
    raise ChangeError(f"{path}: {step} leads into a plain value")


def _position(layers: list[Any], step: str, path: str) -> int:
    names = name_layers((_word(one, "id"), _word(one, "material") or _word(one, "product")) for one in layers)
    if step in names:
        return names.index(step)
    if step.isdecimal() and int(step) < len(layers):
        return int(step)
    raise ChangeError(f"{path}: no entry {step} in the list; there are {', '.join(names)}")


def _word(entry: Any, key: str) -> str | None:
    """Return a text of an entry; the document may hold anything as long as it has not been read."""
    found = entry.get(key) if isinstance(entry, Mapping) else None
    return found if isinstance(found, str) else None
