"""Canadian places of the codes' climatic tables, found by name and province."""

from functools import lru_cache
from typing import NamedTuple

from speccheck.tables.climate.degree_days import canada_band
from speccheck.tables.climate.lines import lines

__all__ = ["CanadianPlace", "NoCanadianPlace", "canadian_place"]

_MILLIMETRE = 0.001


class CanadianPlace(NamedTuple):
    """A row of a climatic table; None where the table read has no such column or the row was cut.

    `elevation` [m]; `january_2_5`, `january_1` [°C], design temperature passed below in 2.5 % and 1 % of
    January hours; `july_dry`, `july_wet` [°C], dry and wet bulb passed in 2.5 % of July hours; `hdd18`,
    `hdd15` [K·d]; `rain_year`, `precipitation_year` [m]; `moisture_index` [-]; `driving_rain` [Pa], wind
    pressure in driving rain once in 5 years; `source`, an entry of the sources.
    """

    name: str
    province: str
    elevation: float
    january_2_5: float
    january_1: float
    july_dry: float
    july_wet: float
    hdd18: float
    hdd15: float | None
    rain_year: float | None
    moisture_index: float | None
    precipitation_year: float | None
    driving_rain: float | None
    source: str

    @property
    def zone(self) -> str:
        """The zone by heating degree days."""
        return canada_band(self.hdd18)


class NoCanadianPlace(NamedTuple):
    """What was asked is not held; names that are `near`."""

    asked: str
    near: tuple[str, ...]


def _number(text: str, unit: float = 1.0) -> float | None:
    return float(text) * unit if text else None


def _place(line: str) -> CanadianPlace:
    cells = line.split(",")
    name, province, hdd15, rain, index, precipitation, driving, source = (
        cells[column] for column in (0, 1, 8, 11, 12, 13, 14, 15)
    )
    elevation, january_2_5, january_1, july_dry, july_wet, hdd18 = map(float, cells[2:8])
    return CanadianPlace(
        name,
        province,
        elevation,
        january_2_5,
        january_1,
        july_dry,
        july_wet,
        hdd18,
        _number(hdd15),
        _number(rain, _MILLIMETRE),
        _number(index),
        _number(precipitation, _MILLIMETRE),
        _number(driving),
        source,
    )


@lru_cache(maxsize=64)
def canadian_place(name: str, province: str | None = None) -> CanadianPlace | NoCanadianPlace:
    """Return a place of the Canadian climatic tables.

    Args:
        name: as the table prints it, any case.
        province: postal code, where given.

    Returns:
        the place, or names that are near.

    Notes:
        only the rows that could be read: 25 places of British Columbia and 12 of Alberta. For any other,
        ask for the degree days and the January design temperature.

    Example:
        >>> canadian_place("Banff").hdd18, canadian_place("banff", "AB").zone
        (5500.0, '7A')
        >>> canadian_place("Abbottsford", "BC").near
        ('Abbotsford BC',)

    Source: BC Building Code 2024 Table C-2, NBC 2023 Alberta Edition Table C-2, NECB Table C-1; read.
    """
    wanted = " ".join(name.lower().split())
    places = [
        place
        for place in map(_place, lines("canada.csv"))
        if not province or place.province == province.upper()
    ]
    for place in places:
        if place.name.lower() == wanted:
            return place
    from difflib import get_close_matches

    names = {place.name.lower(): f"{place.name} {place.province}" for place in places}
    near = tuple(names[close] for close in get_close_matches(wanted, names, n=4, cutoff=0.75))
    return NoCanadianPlace(f"{name}, {province}" if province else name, near)
