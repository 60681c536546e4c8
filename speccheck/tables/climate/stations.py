"""US weather stations: one by its number, and the usable one nearest to a place."""

from functools import lru_cache
from typing import NamedTuple

from speccheck.tables.climate.counties import CountyZones, zones_of_county
from speccheck.tables.climate.great_circle import distance
from speccheck.tables.climate.lines import line_of, lines
from speccheck.tables.climate.zips import point_of_county, zones_of_zip

__all__ = [
    "LIMIT",
    "NearStation",
    "Station",
    "nearest_station",
    "station",
    "station_of_county",
    "station_of_zip",
]

_FILE = "stations.csv"
LIMIT = 250_000.0
"""How far from a place a station may stand to speak for it [m]; our own choice, no source."""


class Station(NamedTuple):
    """A station of the typical-year set.

    `latitude`, `longitude` [°], `elevation` [m]; `county`, FIPS code; zones on the 2018 and 2021 maps;
    `quality`, class I (best) to III of the set; `hdd18`, `cdd10` [K·d], `mean` [°C] of the typical year;
    `low_0_4`, `low_1`, temperature [°C] passed below in 0.4 % and 1 % of its hours (no design values);
    `flag`, what is wrong with its record; `source`, an entry of the sources.
    """

    id: str
    name: str
    state: str
    latitude: float
    longitude: float
    elevation: float
    county: str
    zone_2018: str
    zone_2021: str
    quality: str
    hdd18: float
    cdd10: float
    mean: float
    low_0_4: float
    low_1: float
    flag: str
    source: str = "us-typical-year"

    @property
    def usable(self) -> bool:
        """Say whether the record is good enough to stand for other places: class I or II."""
        return self.quality in ("I", "II")


class NearStation(NamedTuple):
    """A station, its distance from the place [m], and whether it lies in the place's zone on the 2021 map.

    `same_zone` is None where the zone of the place was not given.
    """

    station: Station
    distance: float
    same_zone: bool | None


def _station(line: str) -> Station:
    code, name, state, latitude, longitude, elevation, county, old, new, quality, *numbers, flag = line.split(
        ","
    )
    place = (float(latitude), float(longitude), float(elevation))
    hdd18, cdd10, mean, low_0_4, low_1 = map(float, numbers)
    return Station(
        code, name, state, *place, county, old, new, quality, hdd18, cdd10, mean, low_0_4, low_1, flag
    )


@lru_cache(maxsize=256)
def station(id: str) -> Station | None:  # noqa: A002 - the trade's word
    """Return a station by its number.

    Args:
        id: six-digit number of the station.

    Returns:
        the station, usable or not, or None where the number is not held.

    Example:
        >>> station("725300").zone_2021, station("725300").hdd18
        ('5A', 3430.0)

    Source: NREL typical meteorological years, third edition (1976-2005 or 1991-2005), read and averaged.
    """
    line = line_of(_FILE, id.strip())
    return _station(line) if line else None


@lru_cache(maxsize=1)
def _usable() -> tuple[tuple[float, float, str, str], ...]:
    rows = (line.split(",", 10) for line in lines(_FILE))
    return tuple((float(row[3]), float(row[4]), row[8], row[0]) for row in rows if row[9] in ("I", "II"))


def nearest_station(
    latitude: float, longitude: float, zone_2021: str | None = None, limit: float = LIMIT
) -> NearStation | None:
    """Return the nearest usable station, one of the same zone before any other.

    Args:
        latitude: [°], -90 to 90.
        longitude: [°], -180 to 180, east positive.
        zone_2021: zone of the place on the 2021 map.
        limit: [m], how far a station may stand.

    Returns:
        the nearest usable station of the same zone within the limit, else the nearest usable one of any
        zone within the limit, else None.

    Raises:
        ValueError: where the coordinates are no place on earth.

    Notes:
        height is not looked at; in mountains compare the elevations.

    Example:
        >>> near = nearest_station(41.88, -87.62, "5A")
        >>> near.station.name, round(near.distance / 1000), near.same_zone
        ('Chicago Midway AP', 15, True)

    Source: our own choice of rule, no source.
    """
    if not (-90 <= latitude <= 90 and -180 <= longitude <= 180):
        raise ValueError(f"latitude {latitude} and longitude {longitude} are no place on earth")
    reach = limit / 110_000 + 0.1  # degrees of latitude beyond which no station can be near enough
    near = [
        (distance(latitude, longitude, row[0], row[1]), row[2], row[3])
        for row in _usable()
        if abs(row[0] - latitude) <= reach
    ]
    within = [row for row in near if row[0] <= limit]
    alike = [row for row in within if row[1] == zone_2021]
    if not within:
        return None
    away, its_zone, code = min(alike or within)
    found = station(code)
    return NearStation(found, away, None if zone_2021 is None else its_zone == zone_2021) if found else None


@lru_cache(maxsize=256)
def station_of_zip(zip: str, zone_2021: str | None = None) -> NearStation | None:  # noqa: A002 - the trade's word
    """Return the usable station nearest to a ZIP area's point.

    Args:
        zip: ZIP code.
        zone_2021: zone on the 2021 map where the county is known better than from the ZIP code.

    Returns:
        station and distance, or None where the code is not listed or no station is near enough.

    Example:
        >>> station_of_zip("60601").station.id
        '725340'

    Source: our own choice of rule, no source.
    """
    place = zones_of_zip(zip)
    if place is None or place.latitude is None or place.longitude is None:
        return None
    return nearest_station(place.latitude, place.longitude, zone_2021 or place.zone_2021)


@lru_cache(maxsize=256)
def station_of_county(fips: str) -> NearStation | None:
    """Return the usable station nearest to the middle of a county's ZIP areas.

    Args:
        fips: five-digit FIPS code.

    Returns:
        station and distance, or None where the county has no ZIP area or no station is near enough.

    Example:
        >>> station_of_county("53033").station.zone_2021
        '4C'

    Source: our own choice of rule, no source.
    """
    county, point = zones_of_county(fips), point_of_county(fips)
    if point is None or not isinstance(county, CountyZones):
        return None
    return nearest_station(*point, county.zone_2021)
