"""Ways to name the place that contradict each other: a zone the place is not in, points too far apart.

The walk runs over the plain data, not the models, so that no fault elsewhere in an entry hides these.
"""

from collections.abc import Callable, Iterator, Mapping
from typing import Any, NamedTuple

from speccheck.document.fault_words import shown
from speccheck.document.plain import mapping, text
from speccheck.document.problem import Path, Problem
from speccheck.document.source import Source

__all__ = ["Distance", "NamedPlace", "PlaceOf", "Point", "contradictions"]

Point = tuple[float, float]
"""Latitude and longitude [°]."""

_PATH: Path = ("project", "place")
_WAYS = {"zip": "ZIP code", "fips": "FIPS code", "county": "county", "station": "station"}
_DO = "keep the one that is meant, and take the other out"


class NamedPlace(NamedTuple):
    """What the tables hold of a place: its zones in any edition, its point, how far [m] it may reach from there."""

    zones: frozenset[str]
    point: Point | None
    reach: float


PlaceOf = Callable[[str, str, str | None], NamedPlace | None]
"""What the tables hold of a key of the place, its value and the state; None where they hold nothing."""

Distance = Callable[[Point, Point], float]
"""How far two points lie apart [m]."""


def contradictions(source: Source, place_of: PlaceOf, distance: Distance) -> Iterator[Problem]:
    """Yield a problem for each way to name the place that contradicts another.

    Args:
        source: the document as plain data.
        place_of: what the tables hold of a key of the place, its value and the state; None where they do not.
        distance: how far two points lie from each other [m].
    """
    place = mapping(mapping(source.data.get("project")).get("place"))
    if sum(place.get(key) is not None for key in (*_WAYS, "zone", "latitude")) < 2:
        return
    named = {
        key: found
        for key in _WAYS
        if (name := text(place.get(key))) is not None
        and (found := place_of(key, name, text(place.get("state")))) is not None
    }
    yield from _other_zone(source, place, named)
    yield from _far_apart(source, place, named, distance)


def _other_zone(
    source: Source, place: Mapping[str, Any], named: Mapping[str, NamedPlace]
) -> Iterator[Problem]:
    zone = text(place.get("zone"))
    for key, found in named.items():
        if zone and found.zones and not any(_alike(zone, other) for other in found.zones):
            zones = " or ".join(sorted(found.zones))
            what = f"zone {shown(zone)} is not where the {_WAYS[key]} {shown(place[key])} lies"
            yield source.problem((*_PATH, "zone"), what, f"zone {zones}, as the county table has it", _DO)
            return


def _alike(zone: str, other: str) -> bool:
    """Say whether two zones may be one, where either may lack its letter."""
    return zone == other or (zone[:1] == other[:1] and 1 in (len(zone), len(other)))


def _far_apart(
    source: Source,
    place: Mapping[str, Any],
    named: Mapping[str, NamedPlace],
    distance: Distance,
) -> Iterator[Problem]:
    """Tell the first named place that lies too far from the one named before it, or from the coordinates."""
    stated = [
        (key, f"the {_WAYS[key]} {shown(place[key])}", found.point, found.reach)
        for key, found in named.items()
        if found.point is not None
    ]
    here = _coordinates(place)
    if here is not None:
        stated.append(("latitude", f"the point {here[0]:g}, {here[1]:g}", here, 0.0))
    if len(stated) < 2:
        return
    _, first, start, reach = stated[0]
    for key, words, point, its_reach in stated[1:]:
        away, most = distance(start, point), max(reach, its_reach)
        if away > most:
            what = f"{words} lies {away / 1000:.0f} km from {first}"
            expected = f"one place; {most / 1000:.0f} km apart at most"
            yield source.problem((*_PATH, key), what, expected, _DO)
            return


def _coordinates(place: Mapping[str, Any]) -> Point | None:
    latitude, longitude = place.get("latitude"), place.get("longitude")
    for value, most in ((latitude, 90), (longitude, 180)):
        if isinstance(value, bool) or not isinstance(value, (int, float)):
            return None
        if not abs(value) <= most:  # also where it is no number at all; the models tell it
            return None
    return (float(latitude), float(longitude))  # type: ignore[arg-type]
