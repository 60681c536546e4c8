"""Values that are right alone and wrong together: in a layer, in a place, among names.

The walk runs over the plain data, not the models, so that no fault elsewhere in an entry hides these.
"""

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from speccheck.document.assembly import KINDS
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
    project = mapping(source.data.get("project"))
    yield from _place_problems(source, mapping(project.get("place")))
    yield from _indoor_problems(source, mapping(project.get("indoor")))
    yield from _shared_names(source, names)
    for name, assembly in entries(source.data.get("assemblies")):
        yield from _edge_problems(source, name, assembly)
        yield from _same_ids(source, name, items(assembly.get("layers")), names.assemblies[name])
        for index, layer in enumerate(items(assembly.get("layers"))):
            path = ("assemblies", name, "layers", index)
            yield from _layer_problems(source, path, layer, assembly)


def _stated(thing: Mapping[str, Any], key: str) -> bool:
    return thing.get(key) is not None


def _place_problems(source: Source, place: Mapping[str, Any]) -> Iterator[Problem]:
    path: Path = ("project", "place")
    for one, other in (("latitude", "longitude"), ("longitude", "latitude")):
        if _stated(place, one) and not _stated(place, other):
            yield source.problem(
                (*path, one),
                f"`{one}` stands without its {other}",
                "both coordinates",
                f"add `{other}`, or take `{one}` out",
            )
    if _stated(place, "county") and not _stated(place, "state"):
        yield source.problem(
            (*path, "county"),
            f"the county {shown(place['county'])} stands without its state",
            "a county and its state, as many states have a county of one name",
            "add `state`, such as ME, or give the county's `fips` code",
        )
    if _stated(place, "town") and not _stated(place, "state"):
        yield source.problem(
            (*path, "town"),
            f"the town {shown(place['town'])} stands without its province",
            "a town and its province",
            "add `state`, such as BC",
        )


def _indoor_problems(source: Source, indoor: Mapping[str, Any]) -> Iterator[Problem]:
    if _stated(indoor, "monthly") and _stated(indoor, "humidity-class"):
        yield source.problem(
            ("project", "indoor", "monthly"),
            "the rooms are given month by month and by a humidity class",
            "one of the two; a class stands in where the months are not known",
            "take `monthly` or `humidity-class` out",
            at_key=True,
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
                yield source.problem((part, name), what, expected, "rename one of the two", at_key=True)
            taken.setdefault(name, noun)


def _edge_problems(source: Source, name: str, assembly: Mapping[str, Any]) -> Iterator[Problem]:
    kind = text(assembly.get("kind"))
    if _stated(assembly, "edge") and kind in KINDS and kind != "slab":
        yield source.problem(
            ("assemblies", name, "edge"),
            f"{shown(name)} is a {kind}, and only a slab has an `edge`",
            "`edge` in an assembly of kind slab",
            "take `edge` out, or move it to the slab",
            at_key=True,
        )


def _same_ids(source: Source, assembly: str, layers: Sequence[Any], ids: Sequence[str]) -> Iterator[Problem]:
    first: dict[str, int] = {}
    for index, id_ in enumerate(ids):
        if id_ in first and text(mapping(layers[index]).get("id")) == id_:
            path = ("assemblies", assembly, "layers", index, "id")
            earlier = source.mark((*path[:3], first[id_]))
            line = f" (first in line {earlier.line})" if earlier else ""
            what = f"a second layer of {shown(assembly)} is called {shown(id_)}{line}"
            yield source.problem(path, what, "a name of its own for each layer", "rename one")
        first.setdefault(id_, index)


def _layer_problems(source: Source, path: Path, value: Any, assembly: Mapping[str, Any]) -> Iterator[Problem]:
    layer = mapping(value)
    if not isinstance(value, dict):  # the models tell it
        return
    if _stated(layer, "material") and _stated(layer, "product"):
        yield source.problem(
            (*path, "product"),
            "the layer names both a material and a product",
            "one of the two; a product names its material under `family`",
            "take `material` or `product` out",
        )
    if not _stated(layer, "material") and not _stated(layer, "product"):
        yield source.problem(
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
        yield source.problem(
            path,
            "the layer has both `framed: true` and a `framing` of its own",
            "`framed` where the framing of the assembly cuts it, `framing` where another does",
            "take one of the two out",
        )
    elif not _stated(assembly, "framing"):
        name = path[1]
        yield source.problem(
            path,
            f"the layer is framed, but {shown(name)} has no framing",
            "`framing` in the assembly, with spacing and fraction as known",
            "add `framing` to the assembly, or take `framed` out",
        )
