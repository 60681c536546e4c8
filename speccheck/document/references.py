"""Names that point nowhere: every id a document refers to must be declared in it, or held by a table.

The walk runs over the plain data, not the models, so that these faults are told together with all others.
"""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from difflib import get_close_matches
from typing import Any

from speccheck.document.assembly import name_layers
from speccheck.document.problem import Problem
from speccheck.document.source import Source

__all__ = ["Known", "reference_problems"]

Path = tuple[str | int, ...]


@dataclass(frozen=True, slots=True)
class Known:
    """What lies outside the document but may be named in it; each returns near names, or None where it is known."""

    material: Callable[[str], Sequence[str] | None]


@dataclass(slots=True)
class _Names:
    """The names a document declares."""

    assemblies: dict[str, tuple[str, ...]] = field(default_factory=dict)
    products: tuple[str, ...] = ()
    openings: tuple[str, ...] = ()
    penetrations: tuple[str, ...] = ()


def reference_problems(source: Source, known: Known) -> Iterator[Problem]:
    """Yield a problem for each name that points nowhere, in document order by kind."""
    names = _names(source.data)
    yield from _assembly_problems(source, names, known)
    yield from _product_problems(source, known)
    yield from _connection_problems(source, names)
    yield from _host_problems(source, names)


def _mapping(value: Any) -> Mapping[str, Any]:
    return value if isinstance(value, dict) else {}


def _list(value: Any) -> Sequence[Any]:
    return value if isinstance(value, list) else ()


def _text(value: Any) -> str | None:
    return value if isinstance(value, str) else None


def _names(data: Mapping[str, Any]) -> _Names:
    names = _Names(
        products=tuple(_mapping(data.get("products"))),
        openings=tuple(_mapping(data.get("openings"))),
        penetrations=tuple(_mapping(data.get("penetrations"))),
    )
    for name, assembly in _mapping(data.get("assemblies")).items():
        layers = [_mapping(layer) for layer in _list(_mapping(assembly).get("layers"))]
        names.assemblies[name] = name_layers(
            (_text(layer.get("id")), _text(layer.get("material")) or _text(layer.get("product"))) for layer in layers
        )
    return names


def _lost(source: Source, path: Path, what: str, name: str, near: Sequence[str], do: str) -> Problem:
    hint = f"one of those declared; nearest: {', '.join(near)}" if near else "a name that is declared"
    return Problem(
        what=f"{what} {name!r} is not known", expected=hint, do=do, path=path, mark=source.mark(path), file=source.name
    )


def _near(name: str, names: Sequence[str]) -> Sequence[str]:
    return get_close_matches(name, names, n=3, cutoff=0.5) or list(names)[:4]


def _assembly_problems(source: Source, names: _Names, known: Known) -> Iterator[Problem]:
    for name, assembly in _mapping(source.data.get("assemblies")).items():
        ids = names.assemblies[name]
        framing = _mapping(assembly).get("framing")
        seen: set[str] = set()
        for index, (id_, layer) in enumerate(zip(ids, _list(_mapping(assembly).get("layers")), strict=True)):
            path: Path = ("assemblies", name, "layers", index)
            if id_ in seen:
                yield Problem(
                    what=f"two layers of {name} are called {id_!r}",
                    expected="a name of its own for each layer",
                    do="rename one",
                    path=(*path, "id"),
                    mark=source.mark((*path, "id")),
                    file=source.name,
                )
            seen.add(id_)
            yield from _layer_problems(source, path, _mapping(layer), names, known)
            if _mapping(layer).get("framed") is True and framing is None:
                yield Problem(
                    what=f"layer {id_!r} is framed, but {name} has no framing",
                    expected="`framing` of the assembly, with material, spacing and fraction as known",
                    do=f"add `framing` to {name}, or drop `framed`",
                    path=(*path, "framed"),
                    mark=source.mark((*path, "framed")),
                    file=source.name,
                )


def _layer_problems(
    source: Source, path: Path, layer: Mapping[str, Any], names: _Names, known: Known
) -> Iterator[Problem]:
    product = _text(layer.get("product"))
    if product is not None and product not in names.products:
        do = "declare it under `products`, or correct the name"
        yield _lost(source, (*path, "product"), "product", product, _near(product, names.products), do)
    for key in ("material", "finish", "facing"):
        yield from _material_problem(source, (*path, key), _text(layer.get(key)), known)


def _material_problem(source: Source, path: Path, name: str | None, known: Known) -> Iterator[Problem]:
    near = known.material(name) if name is not None else None
    if name is not None and near is not None:
        do = "use an id of the material table (`speccheck explain materials` lists them), or declare a product"
        yield _lost(source, path, "material", name, near, do)


def _product_problems(source: Source, known: Known) -> Iterator[Problem]:
    for name, product in _mapping(source.data.get("products")).items():
        family = _text(_mapping(product).get("family"))
        yield from _material_problem(source, ("products", name, "family"), family, known)


_PARTS = ("junctions", "openings", "penetrations")


def _connection_problems(source: Source, names: _Names) -> Iterator[Problem]:
    for part in _PARTS:
        for name, thing in _mapping(source.data.get(part)).items():
            for index, side in enumerate(_list(_mapping(thing).get("joins"))):
                yield from _side_problem(source, (part, name, "joins", index), _text(side), names)
            for control in ("air", "water", "vapour"):
                for index, connection in enumerate(_list(_mapping(thing).get(control))):
                    for end in ("from", "to"):
                        path = (part, name, control, index, end)
                        yield from _end_problem(source, path, _text(_mapping(connection).get(end)), names)


def _side_problem(source: Source, path: Path, place: str | None, names: _Names) -> Iterator[Problem]:
    if place is None:
        return
    assembly = place.partition(".")[0]
    if assembly not in names.assemblies:
        do = "write it as assembly.side, with an assembly of this document"
        yield _lost(source, path, "assembly", assembly, _near(assembly, tuple(names.assemblies)), do)


def _end_problem(source: Source, path: Path, place: str | None, names: _Names) -> Iterator[Problem]:
    if place is None or "." not in place:
        return
    thing, _, layer = place.partition(".")
    if thing in names.openings or thing in names.penetrations:
        return
    if thing not in names.assemblies:
        known = (*names.assemblies, *names.openings, *names.penetrations)
        do = "write it as assembly.layer, opening.frame or penetration.ring"
        yield _lost(source, path, "assembly, opening or penetration", thing, _near(thing, known), do)
    elif layer not in names.assemblies[thing]:
        do = f"name a layer of {thing}"
        yield _lost(source, path, "layer", place, _near(layer, names.assemblies[thing]), do)


def _host_problems(source: Source, names: _Names) -> Iterator[Problem]:
    for part in ("openings", "penetrations"):
        for name, thing in _mapping(source.data.get(part)).items():
            host = _text(_mapping(thing).get("in"))
            if host is not None and host not in names.assemblies:
                do = "name the assembly it sits in"
                yield _lost(source, (part, name, "in"), "assembly", host, _near(host, tuple(names.assemblies)), do)
