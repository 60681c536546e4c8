"""Where in its file a fault of a pack lies: an address such as ``own.enough.holds[0]`` gets its line and column."""

import re
from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import Any

from speccheck.judgement.pack import PackError

__all__ = ["error_in_file", "placed_faults"]

_STEP = re.compile(r"[^.\[\]]+")


def error_in_file(error: PackError, path: Path) -> PackError:
    """Return the error with file, line and column before each fault.

    Args:
        error: its faults begin with an address and a colon: ``own.enough.holds[0]: ...``, or as the form of a pack
            is addressed, ``rules.0.sources: ...``.
        path: the file the pack was read from.
    """
    addressed = ((fault.partition(": ")[0], fault) for fault in error.faults)
    return PackError(error.pack, placed_faults(path, addressed))


def placed_faults(path: Path, addressed: Iterable[tuple[str, str]]) -> list[str]:
    """Return faults with the file, line and column [from 1] of the thing they speak of, or of what holds it.

    Args:
        path: the file of the pack.
        addressed: address and words of each fault.
    """
    root = _root(path)
    return [f"{path}:{_line_and_column(root, address)}: {words}" for address, words in addressed]


def _root(path: Path) -> Any:
    """Return the nodes of the file, which keep their places; nothing where it holds none."""
    import yaml

    try:
        return yaml.compose(path.read_bytes(), Loader=getattr(yaml, "CSafeLoader", yaml.SafeLoader))
    except (OSError, yaml.YAMLError):
        return None


def _line_and_column(root: Any, address: str) -> str:
    found = root
    place = root
    for step in _steps(root, address):
        inside = _inside(found, step)
        if inside is not None:  # else the address tells more than the file, such as a kind of value
            place, found = inside
    return f"{place.start_mark.line + 1}:{place.start_mark.column + 1}" if place is not None else "1:1"


def _steps(root: Any, address: str) -> Iterator[str]:
    """Yield the steps of an address; one that begins with the id of a rule leads to that rule first."""
    rules = _inside(root, "rules")
    ids = [_id(node) for node in rules[1].value] if rules is not None and rules[1].id == "sequence" else []
    fitting = [id_ for id_ in ids if id_ and re.match(rf"{re.escape(id_)}(?![\w-])", address)]
    if fitting:
        id_ = max(fitting, key=len)
        yield from ("rules", str(ids.index(id_)))
        address = address.removeprefix(id_)
    yield from _STEP.findall(address)


def _id(rule: Any) -> str:
    inside = _inside(rule, "id")
    return str(inside[1].value) if inside is not None else ""


def _inside(node: Any, step: str) -> tuple[Any, Any] | None:
    """Return what marks the place of a part of a node, and the part: its key where it has one, else itself."""
    kind = getattr(node, "id", "")
    if kind == "mapping":
        return next(((key, value) for key, value in node.value if key.value == step), None)
    if kind == "sequence" and step.isdecimal() and int(step) < len(node.value):
        part = node.value[int(step)]
        return part, part
    return None
