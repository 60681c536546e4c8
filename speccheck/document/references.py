"""Names that point nowhere: every id a document refers to must be declared in it, or held by a table.

The walk runs over the plain data, not the models, so that these faults are told together with all others.
"""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from difflib import get_close_matches
from typing import Any

from speccheck.document.assembly import name_layers
from speccheck.document.contradiction import Distance, PlaceOf
from speccheck.document.fault_words import shown
from speccheck.document.plain import entries, items, mapping, text
from speccheck.document.problem import Path, Problem
from speccheck.document.source import Source

__all__ = ["Known", "Names", "names_of", "reference_problems"]

_MOST_LISTED = 8


@dataclass(frozen=True, slots=True)
class Known:
    """What lies outside the document but may be named in it.

    `material` returns near names, or None where it is known; `place` what is held of a place, and `distance` how
    far two points lie apart [m].
    """

    material: Callable[[str], Sequence[str] | None]
    place: PlaceOf
    distance: Distance


@dataclass(frozen=True, slots=True)
class Names:
    """The names a document declares; of an assembly those of its layers, and of its sides where it lists them."""

    assemblies: dict[str, tuple[str, ...]] = field(default_factory=dict)
    sides: dict[str, tuple[str, ...]] = field(default_factory=dict)
    products: tuple[str, ...] = ()
    openings: tuple[str, ...] = ()
    penetrations: tuple[str, ...] = ()


def names_of(data: Mapping[str, Any]) -> Names:
    """Return the names that plain data declares."""
    names = Names(
        products=tuple(name for name, _ in entries(data.get("products"))),
        openings=tuple(name for name, _ in entries(data.get("openings"))),
        penetrations=tuple(name for name, _ in entries(data.get("penetrations"))),
    )
    for name, assembly in entries(data.get("assemblies")):
        layers = [mapping(layer) for layer in items(assembly.get("layers"))]
        names.assemblies[name] = name_layers(
            (text(layer.get("id")), text(layer.get("material")) or text(layer.get("product")))
            for layer in layers
        )
        if isinstance(assembly.get("sides"), (list, tuple)):
            names.sides[name] = tuple(side for side in items(assembly["sides"]) if isinstance(side, str))
    return names


def reference_problems(source: Source, known: Known, names: Names) -> Iterator[Problem]:
    """Yield a problem for each name that points nowhere.

    Args:
        source: the document as plain data.
        known: what the tables hold.
        names: what the document declares.
    """
    yield from _substance_problems(source, names, known)
    yield from _connection_problems(source, names)
    yield from _host_problems(source, names)


def _lost(source: Source, path: Path, what: str, name: str, declared: Sequence[str], do: str) -> Problem:
    """Return the problem of a name that nothing declared here bears."""
    near = get_close_matches(name[:100], declared, n=1, cutoff=0.6)
    declared = tuple(dict.fromkeys(declared))
    kind = what.split()[0].rstrip(",")
    more = len(declared) - _MOST_LISTED
    listed = ", ".join(declared[:_MOST_LISTED]) + (f" and {more} more" if more > 0 else "")
    expected = f"one of those declared: {listed}" if declared else f"a declared {kind}; there is none"
    if near:
        do = f"did you mean `{near[0]}`?"
    return source.problem(path, f"there is no {what} {shown(name)}", expected, do)


def _substance_problems(source: Source, names: Names, known: Known) -> Iterator[Problem]:
    for name, assembly in entries(source.data.get("assemblies")):
        for index, layer in enumerate(items(assembly.get("layers"))):
            yield from _layer_problems(
                source, ("assemblies", name, "layers", index), mapping(layer), names, known
            )
    for name, product in entries(source.data.get("products")):
        yield from _material_problem(source, ("products", name, "family"), product, known)


def _layer_problems(
    source: Source, path: Path, layer: Mapping[str, Any], names: Names, known: Known
) -> Iterator[Problem]:
    product = text(layer.get("product"))
    if product is not None and product not in names.products:
        do = "declare it under `products`, or correct the name"
        yield _lost(source, (*path, "product"), "product", product, names.products, do)
    for key in ("material", "finish", "facing"):
        yield from _material_problem(source, (*path, key), layer, known)


def _material_problem(
    source: Source, path: Path, thing: Mapping[str, Any], known: Known
) -> Iterator[Problem]:
    key = str(path[-1])
    name = text(thing.get(key))
    near = known.material(name) if name is not None else None
    if name is None or near is None:
        return
    expected = f"an id of that table{', such as ' + ', '.join(near) if near else ''}"
    do = "write one of these ids" if near else "look it up with `speccheck explain materials`"
    do += ", or declare a product" if key == "material" else ""
    yield source.problem(path, f"the {key} {shown(name)} is not in the material table", expected, do)


def _connection_problems(source: Source, names: Names) -> Iterator[Problem]:
    for part in ("junctions", "openings", "penetrations"):
        for name, thing in entries(source.data.get(part)):
            for index, side in enumerate(items(thing.get("joins"))):
                yield from _side_problem(source, (part, name, "joins", index), text(side), names)
            for control in ("air", "water", "vapour"):
                for index, connection in enumerate(items(thing.get(control))):
                    for end in ("from", "to"):
                        path = (part, name, control, index, end)
                        yield from _end_problem(source, path, text(mapping(connection).get(end)), names)


def _side_problem(source: Source, path: Path, place: str | None, names: Names) -> Iterator[Problem]:
    assembly, dot, side = (place or "").partition(".")
    if not dot:  # the models tell it
        return
    if assembly not in names.assemblies:
        yield _lost(
            source, path, "assembly", assembly, tuple(names.assemblies), "name an assembly of this document"
        )
    elif assembly in names.sides and side not in names.sides[assembly]:
        do = f"name a side that {shown(assembly)} lists under `sides`"
        yield _lost(source, path, f"side of {shown(assembly)} called", side, names.sides[assembly], do)


def _end_problem(source: Source, path: Path, place: str | None, names: Names) -> Iterator[Problem]:
    thing, dot, layer = (place or "").partition(".")
    if not dot or thing in names.openings or thing in names.penetrations:
        return
    if thing not in names.assemblies:
        known = (*names.assemblies, *names.openings, *names.penetrations)
        do = "write it as assembly.layer, opening.frame or penetration.ring"
        yield _lost(source, path, "assembly, opening or penetration", thing, known, do)
    elif layer not in names.assemblies[thing]:
        do = f"name a layer of {shown(thing)}"
        yield _lost(source, path, f"layer of {shown(thing)} called", layer, names.assemblies[thing], do)


def _host_problems(source: Source, names: Names) -> Iterator[Problem]:
    for part in ("openings", "penetrations"):
        for name, thing in entries(source.data.get(part)):
            host = text(thing.get("in"))
            if host is not None and host not in names.assemblies:
                do = "name the assembly it sits in"
                yield _lost(source, (part, name, "in"), "assembly", host, tuple(names.assemblies), do)
