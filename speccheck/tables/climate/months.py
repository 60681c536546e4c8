"""Twelve months of outdoor temperature and vapour pressure at a station."""

from dataclasses import dataclass
from functools import lru_cache

from speccheck.tables.climate.lines import line_of
from speccheck.tables.climate.stations import station

__all__ = ["MonthlyClimate", "monthly"]


@dataclass(frozen=True, slots=True)
class MonthlyClimate:
    """Mean outdoor `temperature` [°C] and `vapour_pressure` [Pa] of January to December.

    `place` is a station number or a file name, `years` the years the months come from, `source` an entry of
    the sources, `flag` what is wrong with the record (nothing where nothing is known).
    """

    temperature: tuple[float, ...]
    vapour_pressure: tuple[float, ...]
    place: str
    years: str
    source: str = "us-typical-year"
    flag: str = ""

    def __post_init__(self) -> None:
        if len(self.temperature) != 12 or len(self.vapour_pressure) != 12:
            raise ValueError(f"{self.place}: a year has twelve months of temperature and of vapour pressure")


@lru_cache(maxsize=64)
def monthly(station_id: str) -> MonthlyClimate | None:
    """Return the monthly climate of a station.

    Args:
        station_id: six-digit number of the station.

    Returns:
        mean temperature [°C] to 0.1 K and mean vapour pressure [Pa], January to December; None where the
        number is not held.

    Notes:
        each month is a real one chosen as typical, so single months scatter. Vapour pressure is the mean of
        hourly values from the dew point, not made from mean humidity, which would be 1 % too low on average
        and 20 % at worst.

    Example:
        >>> chicago = monthly("725300")
        >>> chicago.temperature[0], chicago.vapour_pressure[6] > 1500
        (-4.7, True)

    Source: NREL typical meteorological years, third edition, read and averaged.
    """
    line, its_station = line_of("monthly.csv", station_id.strip()), station(station_id)
    if line is None or its_station is None:
        return None
    code, *numbers = line.split(",")
    values = tuple(map(float, numbers))
    years = "typical months out of 1976-2005 or 1991-2005"
    return MonthlyClimate(values[:12], values[12:], code, years, flag=its_station.flag)
