"""US ZIP codes: their county, climate zones and point, and what is known of a code that is not listed."""

import re
from collections import Counter
from functools import lru_cache
from typing import NamedTuple

from speccheck.tables.climate.counties import CountyZones, zones_of_county
from speccheck.tables.climate.great_circle import middle
from speccheck.tables.climate.lines import line_of, lines
from speccheck.tables.climate.zones import map_of

__all__ = ["ZipZones", "point_of_county", "zones_of_zip"]

_FILE = "zip-areas.txt"
_ZIP = re.compile(r"(\d{5})(?:-\d{4})?")
_POINT = re.compile(r"([+-]?\d+)([+-]\d+)")


class ZipZones(NamedTuple):
    """What is known of a ZIP code.

    `listed` is false for a code that is no Census area (post-office boxes, large single users): then there
    is no county and no point [°], and `prefix_zones_2018` and `prefix_zones_2021` tell, commonest first,
    the zones of the areas with the same first three digits. `other_counties` are those the area touches,
    however little, whose zone or warm-humid mark differs. `source` names an entry of the sources.
    """

    zip: str
    listed: bool
    county: CountyZones | None = None
    other_counties: tuple[CountyZones, ...] = ()
    latitude: float | None = None
    longitude: float | None = None
    prefix_zones_2018: tuple[str, ...] = ()
    prefix_zones_2021: tuple[str, ...] = ()
    source: str = "us-zip-areas"

    def zone(self, edition: int) -> str:
        """Return the zone under a code edition, given by its year; nothing where the code is not listed."""
        return self.county.zone(edition) if self.county else ""

    def other_zones(self, edition: int) -> tuple[str, ...]:
        """Return the other zones the area touches under an edition; if there are any, ask for the county."""
        zones = {county.zone(edition) for county in self.other_counties}
        return tuple(sorted(zones - {self.zone(edition)}))

    def prefix_zones(self, edition: int) -> tuple[str, ...]:
        """Return the zones found under the first three digits, commonest first."""
        return self.prefix_zones_2018 if map_of(edition) == 2018 else self.prefix_zones_2021

    @property
    def zone_2018(self) -> str:
        """The zone on the 2018 map."""
        return self.zone(2018)

    @property
    def zone_2021(self) -> str:
        """The zone on the 2021 map, which is also that of 2024."""
        return self.zone(2021)

    @property
    def other_zones_2018(self) -> tuple[str, ...]:
        """Other zones the area touches on the 2018 map."""
        return self.other_zones(2018)

    @property
    def other_zones_2021(self) -> tuple[str, ...]:
        """Other zones the area touches on the 2021 map."""
        return self.other_zones(2021)


def _known(fips: str) -> CountyZones:
    county = zones_of_county(fips)
    if not isinstance(county, CountyZones):
        raise LookupError(f"{_FILE} names county {fips}, which counties.csv does not hold")
    return county


def _point(text: str) -> tuple[float, float]:
    form = _POINT.fullmatch(text)
    if form is None:
        raise ValueError(f"{_FILE}: {text!r} is no point such as 4189-8762")
    return int(form[1]) / 100, int(form[2]) / 100


def _listed(code: str, fips: str, area: str) -> ZipZones:
    _, point, *touched = area.split("/")
    others = tuple(_known(other) for other in touched[0].split("+")) if touched else ()
    latitude, longitude = _point(point)
    return ZipZones(code, True, _known(fips), others, latitude, longitude)


def _not_listed(code: str, blocks: list[str]) -> ZipZones:
    old: Counter[str] = Counter()
    new: Counter[str] = Counter()
    for block in blocks:
        county, areas = _known(block[:5]), block.count(",") + 1
        old[county.zone_2018] += areas
        new[county.zone_2021] += areas
    ranked = [tuple(zone for zone, _ in count.most_common()) for count in (old, new)]
    return ZipZones(code, False, prefix_zones_2018=ranked[0], prefix_zones_2021=ranked[1])


@lru_cache(maxsize=256)
def zones_of_zip(zip: str) -> ZipZones | None:  # noqa: A002 - the trade's word
    """Return county, climate zones and point of a US ZIP code.

    Args:
        zip: five digits, or ZIP+4.

    Returns:
        what is known; None where the text is no ZIP code or its first three digits hold no area at all.

    Notes:
        the area's county is the one its Census point lies in. An area that touches a county of another zone
        says so.

    Example:
        >>> seattle = zones_of_zip("98104")
        >>> seattle.county.name, seattle.zone_2018, seattle.zone_2021
        ('King', '4C', '4C')
        >>> zones_of_zip("98337").zone_2018, zones_of_zip("98337").zone_2021
        ('4C', '5C')

    Source: Census ZCTA points, county shapes of 2017 and ZCTA-county relationship of 2010; county tables of
    the IRC; read.
    """
    form = _ZIP.fullmatch(zip.strip())
    line = line_of(_FILE, form[1][:3], " ") if form else None
    if form is None or line is None:
        return None
    code, blocks = form[1], line.split(" ")[1:]
    for block in blocks:
        fips, _, areas = block.partition(":")
        for area in areas.split(","):
            if area.startswith(code[3:] + "/"):
                return _listed(code, fips, area)
    return _not_listed(code, blocks)


@lru_cache(maxsize=256)
def point_of_county(fips: str) -> tuple[float, float] | None:
    """Return the middle of a county's ZIP areas: where its people are, roughly.

    Args:
        fips: five-digit FIPS code.

    Returns:
        latitude and longitude [°], or None where no ZIP area has its point in the county.

    Example:
        >>> [round(angle, 1) for angle in point_of_county("17031")]
        [41.8, -87.8]

    Source: Census ZCTA points, read; the middle is computed.
    """
    mark = f" {fips}:"
    blocks = [line.partition(mark)[2].partition(" ")[0] for line in lines(_FILE) if mark in line]
    points = [_point(area.split("/")[1]) for block in blocks for area in block.split(",")]
    return middle(points) if points else None
