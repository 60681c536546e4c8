"""Climate: zones by county and ZIP code, weather stations, monthly means, weather files, Canadian places.

A name is fetched from its room when it is first used: a document that gives a zone does not load the rest.
"""

from importlib import import_module
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from speccheck.tables.climate.canada import CanadianPlace, NoCanadianPlace, canadian_place
    from speccheck.tables.climate.counties import CountyUnclear, CountyZones, zones_of_county
    from speccheck.tables.climate.degree_days import (
        ComputedZone,
        canada_band,
        is_dry,
        is_marine,
        zone_from_degree_days,
    )
    from speccheck.tables.climate.great_circle import distance
    from speccheck.tables.climate.months import MonthlyClimate, monthly
    from speccheck.tables.climate.sources import Source, source
    from speccheck.tables.climate.station_names import near_stations, station_called
    from speccheck.tables.climate.stations import (
        NearStation,
        Station,
        nearest_station,
        station,
        station_of_county,
        station_of_zip,
    )
    from speccheck.tables.climate.typical import TypicalStation, typical_station
    from speccheck.tables.climate.weather_file import WeatherFile, WeatherFileError, read_weather_file
    from speccheck.tables.climate.zips import ZipZones, point_of_county, zones_of_zip
    from speccheck.tables.climate.zones import Zone, map_of, zone

__all__ = [
    "CanadianPlace",
    "ComputedZone",
    "CountyUnclear",
    "CountyZones",
    "MonthlyClimate",
    "NearStation",
    "NoCanadianPlace",
    "Source",
    "Station",
    "TypicalStation",
    "WeatherFile",
    "WeatherFileError",
    "ZipZones",
    "Zone",
    "canada_band",
    "canadian_place",
    "distance",
    "is_dry",
    "is_marine",
    "map_of",
    "monthly",
    "near_stations",
    "nearest_station",
    "point_of_county",
    "read_weather_file",
    "source",
    "station",
    "station_called",
    "station_of_county",
    "station_of_zip",
    "typical_station",
    "zone",
    "zone_from_degree_days",
    "zones_of_county",
    "zones_of_zip",
]

_ROOMS = {
    "canada": ("CanadianPlace", "NoCanadianPlace", "canadian_place"),
    "counties": ("CountyUnclear", "CountyZones", "zones_of_county"),
    "degree_days": ("ComputedZone", "canada_band", "is_dry", "is_marine", "zone_from_degree_days"),
    "great_circle": ("distance",),
    "months": ("MonthlyClimate", "monthly"),
    "sources": ("Source", "source"),
    "station_names": ("near_stations", "station_called"),
    "stations": (
        "NearStation",
        "Station",
        "nearest_station",
        "station",
        "station_of_county",
        "station_of_zip",
    ),
    "typical": ("TypicalStation", "typical_station"),
    "weather_file": ("WeatherFile", "WeatherFileError", "read_weather_file"),
    "zips": ("ZipZones", "point_of_county", "zones_of_zip"),
    "zones": ("Zone", "map_of", "zone"),
}
_ROOM_OF = {name: room for room, names in _ROOMS.items() for name in names}


def __getattr__(name: str) -> Any:
    """Fetch a name from its room on first use."""
    if name not in _ROOM_OF:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    value = getattr(import_module(f"{__name__}.{_ROOM_OF[name]}"), name)
    globals()[name] = value
    return value
