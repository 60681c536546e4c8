"""Permeance curves that cannot be read as one: a humidity given twice, too few points, a permeance that turns.

The walk runs over the plain data, not the models, so that no fault elsewhere in an entry hides these.
"""

from collections.abc import Iterator, Mapping
from itertools import pairwise
from math import isclose
from typing import Any

from speccheck.document.fault_words import shown
from speccheck.document.plain import entries, items, mapping
from speccheck.document.problem import Path, Problem
from speccheck.document.source import Source
from speccheck.quantity.kind import Kind
from speccheck.quantity.parse import parse
from speccheck.quantity.value import QuantityError

__all__ = ["curve_problems"]

_LEVEL = 0.01
"""Points closer than this share of their permeance lie level: one reading, rounded in two units."""
_RISES = ("rises", "falls", "less open")
_FALLS = ("falls", "rises", "more open")
_EXPECTED = "two points or more, such as {25 %: 0.9 perm, 80 %: 8 perm}"


def curve_problems(source: Source) -> Iterator[Problem]:
    """Yield a problem for each permeance curve of a product or a layer that is no curve.

    Args:
        source: the document as plain data.
    """
    for name, product in entries(source.data.get("products")):
        yield from _curve_problems(source, ("products", name), product)
    for name, assembly in entries(source.data.get("assemblies")):
        for index, layer in enumerate(items(assembly.get("layers"))):
            yield from _curve_problems(source, ("assemblies", name, "layers", index), mapping(layer))


def _curve_problems(source: Source, holder: Path, thing: Mapping[str, Any]) -> Iterator[Problem]:
    curve = mapping(thing.get("permeance")).get("curve")
    if not isinstance(curve, dict):  # the models tell what is no mapping
        return
    path = (*holder, "permeance", "curve")
    if not curve:
        yield source.problem(
            path, "the curve has no point", _EXPECTED, "add its points, or take the curve out"
        )
    elif len(curve) == 1:
        do = "add a point, or write the permeance under the cup of its test"
        yield source.problem(path, f"the curve has one point, {shown(next(iter(curve)))}", _EXPECTED, do)
    else:
        yield from _repeats(source, path, curve)
        yield from _turn(source, path, curve)


def _repeats(source: Source, path: Path, curve: Mapping[Any, Any]) -> Iterator[Problem]:
    first: dict[float, Any] = {}
    for key in curve:
        humidity = _humidity(key)
        if humidity is None:  # the models tell it
            continue
        if humidity in first:
            earlier = source.key_mark((*path, first[humidity]))
            line = f" (first in line {earlier.line})" if earlier else ""
            what = f"{shown(key)} is the same humidity as {shown(first[humidity])}{line}"
            expected = "each humidity of the curve once"
            yield source.problem((*path, key), what, expected, "take one of the two out", at_key=True)
        first.setdefault(humidity, key)


def _turn(source: Source, path: Path, curve: Mapping[Any, Any]) -> Iterator[Problem]:
    """Tell the first point at which a curve that rose falls, or one that fell rises."""
    points = sorted(_points(curve))
    direction = 0
    for (_, before, earlier), (_, after, key) in pairwise(points):
        step = 0 if isclose(before, after, rel_tol=_LEVEL) else 1 if after > before else -1
        if step and direction and step != direction:
            was, now, never = _RISES if direction > 0 else _FALLS
            what = f"the permeance {was} up to {shown(earlier)} and {now} again at {shown(key)}"
            expected = f"never {never} at a higher humidity than at a lower one, as it begins"
            yield source.problem((*path, key), what, expected, "check the points against the test report")
            return
        direction = direction or step


def _points(curve: Mapping[Any, Any]) -> Iterator[tuple[float, float, Any]]:
    """Yield humidity, permeance and key of each point that can be read; the models tell the others."""
    for key, value in curve.items():
        humidity = _humidity(key)
        try:
            permeance = parse(value, Kind.PERMEANCE).value if isinstance(value, str) else 0.0
        except QuantityError:
            continue
        if humidity is not None and 0 <= humidity <= 1 and permeance > 0:
            yield humidity, permeance, key


def _humidity(key: Any) -> float | None:
    """Return the humidity a key stands for, rounded so that two spellings of one meet; None where it is none."""
    try:
        return round(parse(key, Kind.FRACTION).value, 9) if isinstance(key, str) else None
    except QuantityError:
        return None
