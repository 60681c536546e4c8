"""Climate: zones by county and ZIP code, weather stations, monthly means."""

from speccheck.tables.climate.counties import CountyUnclear, CountyZones, zones_of_county
from speccheck.tables.climate.great_circle import distance
from speccheck.tables.climate.monthly import MonthlyClimate, monthly
from speccheck.tables.climate.stations import (
    NearStation,
    Station,
    nearest_station,
    station,
    station_of_county,
    station_of_zip,
)
from speccheck.tables.climate.zips import ZipZones, point_of_county, zones_of_zip
from speccheck.tables.climate.zone import Zone, map_of, zone

__all__ = [
    "CountyUnclear",
    "CountyZones",
    "MonthlyClimate",
    "NearStation",
    "Station",
    "ZipZones",
    "Zone",
    "distance",
    "map_of",
    "monthly",
    "nearest_station",
    "point_of_county",
    "station",
    "station_of_county",
    "station_of_zip",
    "zone",
    "zones_of_county",
    "zones_of_zip",
]
