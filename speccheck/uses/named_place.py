"""What the climate tables hold of a place by each way to name it, for the reader of documents."""

from speccheck.document.contradiction import NamedPlace, Point
from speccheck.tables import climate as tables

__all__ = ["apart", "named_place"]

_REACH = 200_000.0
"""How far from the point of a ZIP area or a county a building in it may stand [m]; our own choice, no source."""
_FAR_REACH = {"AK": 1_200_000.0}
"""The same [m] in Alaska, whose boroughs are as wide as that."""
_STATION_REACH = 250_000.0
"""How far a station may stand from the place it speaks for [m]: as far as one is looked for."""


def apart(one: Point, other: Point) -> float:
    """Return how far two points lie from each other [m]."""
    return tables.distance(*one, *other)


def named_place(key: str, name: str, state: str | None) -> NamedPlace | None:
    """Return what the tables hold of a place.

    Args:
        key: ``zip``, ``fips``, ``county`` or ``station``.
        name: the value of that key.
        state: two-letter code, where it is given.
    """
    if key == "zip":
        return _zip(name)
    return _station(name) if key == "station" else _county(key, name, state)


def _zip(code: str) -> NamedPlace | None:
    found = tables.zones_of_zip(code)
    if found is None or found.county is None:
        return None
    counties = (found.county, *found.other_counties)
    zones = frozenset(zone for one in counties for zone in (one.zone_2018, one.zone_2021))
    point = None
    if found.latitude is not None and found.longitude is not None:
        point = (found.latitude, found.longitude)
    return NamedPlace(zones, point, _FAR_REACH.get(found.county.state, _REACH))


def _county(key: str, name: str, state: str | None) -> NamedPlace | None:
    found = tables.zones_of_county(name) if key == "fips" else tables.zones_of_county(name=name, state=state)
    if not isinstance(found, tables.CountyZones):
        return None
    zones = frozenset((found.zone_2018, found.zone_2021))
    return NamedPlace(zones, tables.point_of_county(found.fips), _FAR_REACH.get(found.state, _REACH))


def _station(name: str) -> NamedPlace | None:
    found = tables.station_called(name)
    if found is None:
        return None
    zones = frozenset((found.zone_2018, found.zone_2021))
    return NamedPlace(zones, (found.latitude, found.longitude), _STATION_REACH)
