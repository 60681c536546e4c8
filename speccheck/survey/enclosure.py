"""The sides by which an assembly meets its neighbours, which of them a name means, and which no junction names.

Sides follow from the kind of assembly; a document that lists its own overrides them. A name may say more than the
side it is on: ``top-north`` and ``north-top`` are both tops, ``ends`` are both ends, ``perimeter`` is all round.
"""

from collections.abc import Iterable, Mapping
from functools import lru_cache
from typing import NamedTuple

__all__ = ["Bounds", "side_kind", "sides_meant", "sides_of", "unnamed_sides"]

_Sides = dict[str, tuple[str, ...]]
_WALL: _Sides = {
    "base": ("base", "bottom", "foot", "sill", "foundation"),
    "top": ("top", "head", "eave", "eaves", "gable", "rake", "verge", "plate", "parapet"),
    "left": ("left", "start", "ends", "corner", "corners", "sides"),
    "right": ("right", "end", "ends", "corner", "corners", "sides"),
}
_ROOF: _Sides = {
    "eave": ("eave", "eaves", "low", "bottom", "foot"),
    "rake": ("rake", "rakes", "verge", "verges", "gable", "gables", "end", "ends", "side", "sides"),
    "ridge": ("ridge", "top", "high"),
}
_FLAT: _Sides = {"perimeter": ("perimeter",)}
_WORDS: dict[str, _Sides] = {
    "wall": _WALL,
    "below-grade-wall": _WALL,
    "roof": _ROOF,
    "ceiling": _FLAT,
    "floor": _FLAT,
    "slab": _FLAT,
}
_ALL_ROUND = frozenset(("perimeter", "edge", "edges", "all", "border"))
_ENDS = {"left": "end", "right": "end"}


class Bounds(NamedTuple):
    """What an assembly is bounded by: its kind, and its own list of sides where it has one."""

    kind: str
    declared: tuple[str, ...] | None = None


def sides_of(bounds: Bounds) -> tuple[str, ...]:
    """Return the sides an assembly has.

    Args:
        bounds: its kind and declared sides.

    Example:
        >>> sides_of(Bounds("wall"))
        ('base', 'top', 'left', 'right')
        >>> sides_of(Bounds("wall", ("base", "party")))
        ('base', 'party')
    """
    return bounds.declared if bounds.declared is not None else tuple(_WORDS[bounds.kind])


@lru_cache(maxsize=4096)
def sides_meant(bounds: Bounds, name: str) -> tuple[str, ...]:
    """Return the sides a name stands for; a name of no usual side is a side of its own.

    Args:
        bounds: kind and declared sides of the assembly.
        name: the side as a junction names it.

    Example:
        >>> sides_meant(Bounds("wall"), "ends"), sides_meant(Bounds("wall"), "top-north")
        (('left', 'right'), ('top',))
        >>> sides_meant(Bounds("wall"), "perimeter")
        ('base', 'top', 'left', 'right')
        >>> sides_meant(Bounds("wall"), "floor-line")
        ('floor-line',)
    """
    if bounds.declared is not None:
        return (name,)
    words = _WORDS[bounds.kind]
    if len(words) == 1:
        return tuple(words)
    parts = set(name.lower().replace("_", "-").split("-"))
    meant = tuple(side for side, names in words.items() if parts.intersection(names))
    if not meant and parts & _ALL_ROUND:
        return tuple(words)
    return meant or (name,)


def side_kind(side: str) -> str:
    """Return the kind of a side, which is one question: both ends of a wall are of one kind."""
    return _ENDS.get(side, side)


def unnamed_sides(
    assemblies: Mapping[str, Bounds], named: Iterable[tuple[str, str]]
) -> dict[str, tuple[str, ...]]:
    """Return the sides of each assembly that no junction names; an assembly with none is left out.

    Args:
        assemblies: each assembly by name.
        named: assembly and side as junctions name them.

    Example:
        >>> unnamed_sides({"wall": Bounds("wall")}, [("wall", "base"), ("wall", "ends")])
        {'wall': ('top',)}
    """
    met: dict[str, set[str]] = {name: set() for name in assemblies}
    for assembly, side in named:
        if assembly in met:
            met[assembly].update(sides_meant(assemblies[assembly], side))
    left = {
        name: tuple(side for side in sides_of(bounds) if side not in met[name])
        for name, bounds in assemblies.items()
    }
    return {name: sides for name, sides in left.items() if sides}
