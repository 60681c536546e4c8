"""A representative station for a place known only by its climate zone."""

from functools import lru_cache
from typing import NamedTuple

from speccheck.tables.climate.lines import line_of
from speccheck.tables.climate.stations import Station, station
from speccheck.tables.climate.zones import zone

__all__ = ["TypicalStation", "typical_station"]


class TypicalStation(NamedTuple):
    """A station that stands in for a zone, and how wide the zone is.

    `hdd18_lowest`, `hdd18_median`, `hdd18_highest` [K·d] are those of the zone's class I and II stations;
    `assumed` is the sentence a report owes its reader.
    """

    zone_2021: str
    station: Station
    hdd18_lowest: float
    hdd18_median: float
    hdd18_highest: float
    source: str = "typical-stations"

    @property
    def assumed(self) -> str:
        """Say what is assumed."""
        place = f"{self.station.name} {self.station.state}"
        return f"assumed: {place} is taken as a representative place of zone {self.zone_2021}"


@lru_cache(maxsize=32)
def typical_station(zone_2021: str) -> TypicalStation | None:
    """Return a representative station of a zone of the 2021 map.

    Args:
        zone_2021: zone with its moisture letter (none for 7 and 8).

    Returns:
        the station and the spread of the zone, or None where no US station lies in the zone or the letter
        is wanting.

    Raises:
        ValueError: where the text is no zone.

    Notes:
        an assumption; whoever uses it must say so.

    Example:
        >>> typical_station("5A").station.id, typical_station("5A").hdd18_highest
        ('725300', 4367.0)
        >>> typical_station("5") is None
        True

    Source: our own choice out of the NREL typical years: nearest to the zone's median heating degree days;
    computed.
    """
    line = line_of("typical-stations.csv", str(zone(zone_2021)))
    if line is None:
        return None
    its_zone, code, lowest, median, highest = line.split(",")
    found = station(code)
    return TypicalStation(its_zone, found, float(lowest), float(median), float(highest)) if found else None
