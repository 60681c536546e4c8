"""Values that are right alone and wrong together: in a layer, in a place, at a junction.

The walk runs over the plain data, not the models, so that no fault elsewhere in an entry hides these.
"""

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from speccheck.document.fault_words import shown
from speccheck.document.plain import entries, items, mapping, text
from speccheck.document.problem import Path, Problem
from speccheck.document.references import Names
from speccheck.document.source import Source

__all__ = ["together_problems"]


def together_problems(source: Source, names: Names) -> Iterator[Problem]:
    """Yield a problem for each pair of values that do not go together.

    Args:
        source: the document as plain data.
        names: what the document declares.
    """
    yield from _place_problems(source, mapping(mapping(source.data.get("project")).get("place")))
    yield from _shared_names(source, names)
    for name, assembly in entries(source.data.get("assemblies")):
        yield from _same_ids(source, name, items(assembly.get("layers")), names.assemblies[name])
        for index, layer in enumerate(items(assembly.get("layers"))):
            path = ("assemblies", name, "layers", index)
            yield from _layer_problems(source, path, layer, assembly)
    for name, junction in entries(source.data.get("junctions")):
        yield from _joins_problems(source, ("junctions", name, "joins"), items(junction.get("joins")))
    for part in ("junctions", "openings", "penetrations"):
        for name, thing in entries(source.data.get(part)):
            yield from _connection_problems(source, (part, name), thing, names)


def _problem(source: Source, path: Path, what: str, expected: str, do: str) -> Problem:
    return Problem(what, expected, do, path, source.mark(path), source.name)


def _stated(thing: Mapping[str, Any], key: str) -> bool:
    return thing.get(key) is not None


def _place_problems(source: Source, place: Mapping[str, Any]) -> Iterator[Problem]:
    path: Path = ("project", "place")
    for one, other in (("latitude", "longitude"), ("longitude", "latitude")):
        if _stated(place, one) and not _stated(place, other):
            yield _problem(
                source,
                (*path, one),
                f"`{one}` stands without its {other}",
                "both coordinates",
                f"add `{other}`, or take `{one}` out",
            )
    if _stated(place, "county") and not _stated(place, "state"):
        yield _problem(
            source,
            (*path, "county"),
            f"the county {shown(place['county'])} stands without its state",
            "a county and its state, as many states have a county of one name",
            "add `state`, such as ME, or give the county's `fips` code",
        )
    if _stated(place, "town") and not _stated(place, "state"):
        yield _problem(
            source,
            (*path, "town"),
            f"the town {shown(place['town'])} stands without its province",
            "a town and its province",
            "add `state`, such as BC",
        )


def _shared_names(source: Source, names: Names) -> Iterator[Problem]:
    """Tell a name that an assembly, an opening or a penetration share: a connection could mean either."""
    taken = dict.fromkeys(names.assemblies, "an assembly")
    for part, noun, declared in (
        ("openings", "an opening", names.openings),
        ("penetrations", "a penetration", names.penetrations),
    ):
        for name in declared:
            if name in taken:
                what = f"{shown(name)} is the name of {taken[name]} and of {noun}"
                expected = "a name of its own for each, as connections name them"
                do, mark = "rename one of the two", source.key_mark((part, name))
                yield Problem(what, expected, do, (part, name), mark, source.name)
            taken.setdefault(name, noun)


def _same_ids(source: Source, assembly: str, layers: Sequence[Any], ids: Sequence[str]) -> Iterator[Problem]:
    first: dict[str, int] = {}
    for index, id_ in enumerate(ids):
        if id_ in first and text(mapping(layers[index]).get("id")) == id_:
            path = ("assemblies", assembly, "layers", index, "id")
            earlier = source.mark((*path[:3], first[id_]))
            line = f" (first in line {earlier.line})" if earlier else ""
            what = f"a second layer of {shown(assembly)} is called {shown(id_)}{line}"
            yield _problem(source, path, what, "a name of its own for each layer", "rename one")
        first.setdefault(id_, index)


def _layer_problems(source: Source, path: Path, value: Any, assembly: Mapping[str, Any]) -> Iterator[Problem]:
    layer = mapping(value)
    if not isinstance(value, dict):  # the models tell it
        return
    if _stated(layer, "material") and _stated(layer, "product"):
        yield _problem(
            source,
            (*path, "product"),
            "the layer names both a material and a product",
            "one of the two; a product names its material under `family`",
            "take `material` or `product` out",
        )
    if not _stated(layer, "material") and not _stated(layer, "product"):
        yield _problem(
            source,
            path,
            "the layer does not say what it is made of",
            "`material` or `product`",
            "add one, such as material: gypsum-board",
        )
    yield from _framing_problems(source, (*path, "framed"), layer, assembly)


def _framing_problems(
    source: Source, path: Path, layer: Mapping[str, Any], assembly: Mapping[str, Any]
) -> Iterator[Problem]:
    if layer.get("framed") is not True:
        return
    if _stated(layer, "framing"):
        yield _problem(
            source,
            path,
            "the layer has both `framed: true` and a `framing` of its own",
            "`framed` where the framing of the assembly cuts it, `framing` where another does",
            "take one of the two out",
        )
    elif not _stated(assembly, "framing"):
        name = path[1]
        yield _problem(
            source,
            path,
            f"the layer is framed, but {shown(name)} has no framing",
            "`framing` in the assembly, with spacing and fraction as known",
            "add `framing` to the assembly, or take `framed` out",
        )


def _joins_problems(source: Source, path: Path, sides: Sequence[Any]) -> Iterator[Problem]:
    seen: set[str] = set()
    for index, side in enumerate(sides):
        if not isinstance(side, str):
            continue
        if side in seen:
            yield _problem(
                source,
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
    yield _problem(
        source,
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
            yield _problem(
                source,
                (*path, key),
                f"{shown(assembly)} is connected here, but does not meet at this junction",
                f"a layer of {', '.join(dict.fromkeys(assemblies))}",
                f"add a side of {shown(assembly)} to `joins`, or correct the name",
            )
