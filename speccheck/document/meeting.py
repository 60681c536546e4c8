"""Sides and connections that make no sense where things meet: at a junction, an opening, a penetration.

The walk runs over the plain data, not the models, so that no fault elsewhere in an entry hides these.
"""

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from speccheck.document.fault_words import shown
from speccheck.document.plain import entries, items, mapping, text
from speccheck.document.problem import Path, Problem
from speccheck.document.references import Names
from speccheck.document.source import Source

__all__ = ["meeting_problems"]


def meeting_problems(source: Source, names: Names) -> Iterator[Problem]:
    """Yield a problem for each side or connection that cannot be meant.

    Args:
        source: the document as plain data.
        names: what the document declares.
    """
    for name, junction in entries(source.data.get("junctions")):
        yield from _joins_problems(source, ("junctions", name, "joins"), items(junction.get("joins")))
    for part in ("junctions", "openings", "penetrations"):
        for name, thing in entries(source.data.get(part)):
            yield from _connection_problems(source, (part, name), thing, names)


def _joins_problems(source: Source, path: Path, sides: Sequence[Any]) -> Iterator[Problem]:
    seen: set[str] = set()
    for index, side in enumerate(sides):
        if not isinstance(side, str):
            continue
        if side in seen:
            yield source.problem(
                (*path, index),
                f"the side {shown(side)} stands here a second time",
                "each side that meets here once; of one assembly that turns a corner, its two sides",
                "take it out, or name the other side",
            )
        seen.add(side)


def _connection_problems(
    source: Source, path: Path, thing: Mapping[str, Any], names: Names
) -> Iterator[Problem]:
    sides = [side for side in items(thing.get("joins")) if isinstance(side, str)]
    assemblies = [side.partition(".")[0] for side in dict.fromkeys(sides)]
    for control in ("air", "water", "vapour"):
        for index, value in enumerate(items(thing.get(control))):
            here = (*path, control, index)
            connection = mapping(value)
            yield from _to_itself(source, here, connection, assemblies)
            if all(assembly in names.assemblies for assembly in assemblies):
                yield from _from_elsewhere(source, here, connection, assemblies, names)


def _to_itself(
    source: Source, path: Path, connection: Mapping[str, Any], assemblies: Sequence[str]
) -> Iterator[Problem]:
    """Tell a layer connected to itself.

    It goes on in itself where two sides of one assembly meet, and where the one side of a junction meets
    something that the document does not hold.
    """
    end = text(connection.get("from"))
    if end is None or end != connection.get("to"):
        return
    if len(assemblies) == 1 or assemblies.count(end.partition(".")[0]) > 1:
        return
    yield source.problem(
        (*path, "to"),
        f"{shown(end)} is connected to itself",
        "two layers, one on each side",
        "name the layer on the other side",
    )


def _from_elsewhere(
    source: Source, path: Path, connection: Mapping[str, Any], assemblies: Sequence[str], names: Names
) -> Iterator[Problem]:
    """Tell a connection at a junction to an assembly that does not meet there."""
    if not assemblies:  # an opening or a penetration, which may touch any assembly
        return
    for key in ("from", "to"):
        assembly = (text(connection.get(key)) or "").partition(".")[0]
        if assembly in names.assemblies and assembly not in assemblies:
            yield source.problem(
                (*path, key),
                f"{shown(assembly)} is connected here, but does not meet at this junction",
                f"a layer of {', '.join(dict.fromkeys(assemblies))}",
                f"add a side of {shown(assembly)} to `joins`, or correct the name",
            )
