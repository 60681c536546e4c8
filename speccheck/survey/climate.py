"""The climate of the place: its zone on each map, its winter and its summer, and how the place tells them."""

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from speccheck.document.project import Location
from speccheck.physics.climate_means import coldest_months, mean_over, warmest_months, winter_mean
from speccheck.physics.psychrometrics import dew_point
from speccheck.survey.fact import Fact, Gap, Origin
from speccheck.survey.ledger import Page
from speccheck.tables import climate as tables

__all__ = ["survey_climate"]

_PATH = ("project", "place")
_WHERE = Gap(
    "project", "climate zone", "Where does the building stand (ZIP code, county or climate zone)?", _PATH
)
_COLD = Gap(
    "project",
    "outdoor temperatures",
    "Which ZIP code, county, station or weather file gives the outdoor temperatures?",
    _PATH,
)
_COLD_FROM = 3000.0
"""Heating degree days below 18 °C [K·d] from which a place without a zone counts as cold."""
_MONTHS = "mean of three months"
_TYPICAL_YEAR = "Typical meteorological year data set, 1991 to 2005, monthly means of hourly values (read)"


@dataclass(frozen=True, slots=True)
class _Zones:
    """Zones of a place on both maps, and how it tells them; a gap where a map does not tell which."""

    zone_2018: str
    zone_2021: str
    warm_humid: bool | None
    origin: Origin
    source: str
    other: tuple[str, ...] = ()
    gap_2018: Gap | None = None
    gap_2021: Gap | None = None


@dataclass(frozen=True, slots=True)
class _Months:
    """Twelve months, and where they were measured."""

    temperature: Sequence[float]
    vapour_pressure: Sequence[float]
    source: str
    distance: float | None = None
    stands_for: str = ""
    degree_days: float | None = None


def survey_climate(
    page: Page, place: Location | None, folder: Path, sealing_months: Sequence[int] | None = None
) -> None:
    """Enter the facts of the climate.

    Args:
        page: the page of the climate.
        place: where the building stands, as declared.
        folder: the folder a weather file's path starts from.
        sealing_months: months, 1 to 12, in which the air barrier is sealed, as declared.
    """
    zones = _zones(place)
    if place is not None and place.town is not None and zones is None:
        for name in ("zone", "zone_2018", "zone_2021", "zone_number", "moisture_regime", "warm_humid"):
            page.inapplicable(name, "a place in Canada has degree days, not a zone of the United States")
        page.declare("other_zones", (), origin=Origin.TABLE)
        page.unknown("cold", _WHERE)
    else:
        _enter_zones(page, zones)
    months = _months(place, zones, folder)
    _enter_months(page, months, place, zones)
    _enter_sealing(page, months, sealing_months)
    if zones is None and page["heating_degree_days"].known:
        page.compute(
            "cold",
            lambda days: days >= _COLD_FROM,
            [page["heating_degree_days"]],
            method="3000 heating degree days and more, where US zone 5 begins",
            source="IECC 2021 Table R301.3(1), zone 5 (read)",
        )


def _temperatures_gap(place: Location | None, zones: _Zones | None) -> Gap:
    """Return what is asked for the temperatures: of a place that no table knows, no more than the place itself."""
    if place is None:
        return _WHERE
    lost = zones.gap_2021 if zones is not None and not zones.zone_2021 else None
    return lost or _COLD


def _zones(place: Location | None) -> _Zones | None:
    if place is None:
        return None
    if place.zone is not None:
        return _Zones(place.zone, place.zone, None, Origin.DECLARED, "declared; taken for every map edition")
    if place.fips is not None or place.county is not None:
        return _county_zones(place)
    if place.zip is not None:
        return _zip_zones(place.zip)
    if place.station is not None:
        found = tables.station_called(place.station)
        return (
            _station_zones(found, f"county of station {found.id}") if found else _lost_station(place.station)
        )
    if place.latitude is not None and place.longitude is not None:
        near = tables.nearest_station(place.latitude, place.longitude)
        words = (
            f"county of the nearest station, {near.station.name}, {near.distance / 1000:.0f} km away"
            if near
            else ""
        )
        return _station_zones(near.station, words, Origin.ASSUMED) if near else None
    return None


def _station_zones(found: "tables.Station", words: str, origin: Origin = Origin.TABLE) -> _Zones:
    return _Zones(found.zone_2018, found.zone_2021, None, origin, words)


def _nothing(gap: Gap) -> _Zones:
    return _Zones("", "", None, Origin.UNKNOWN, "", gap_2018=gap, gap_2021=gap)


def _lost_station(id_: str) -> _Zones:
    near = tables.near_stations(id_)
    hint = f" (near it: {', '.join(near)})" if near else ""
    question = f"No station {id_!r} is in the table{hint}: which ZIP code, county or zone is it?"
    return _nothing(Gap("project", "climate zone", question, (*_PATH, "station")))


def _county_zones(place: Location) -> _Zones:
    found = tables.zones_of_county(fips=place.fips, name=place.county, state=place.state)
    if not isinstance(found, tables.CountyZones):
        asked = place.fips or f"{place.county}, {place.state}"
        near = [county.name for county in found.fits] or list(found.near)
        hint = f" Near it: {', '.join(near)}." if near else ""
        question = f"The county table does not tell which county {asked!r} is.{hint} Which one is meant?"
        return _nothing(
            Gap("project", "climate zone", question, (*_PATH, "fips" if place.fips else "county"))
        )
    source = f"county table of the residential code, {found.name}, {found.state} (read)"
    return _Zones(found.zone_2018, found.zone_2021, found.warm_humid_2021, Origin.TABLE, source)


def _zip_zones(code: str) -> _Zones:
    found = tables.zones_of_zip(code)
    if found is None or found.county is None:
        question = f"ZIP {code} is not in the table of ZIP areas: which county or zone is it?"
        return _nothing(Gap("project", "climate zone", question, (*_PATH, "zip")))
    other = tuple(sorted({*found.other_zones(2018), *found.other_zones(2021)}))
    old = _border(code, found.zone_2018, found.other_zones(2018))
    new = _border(code, found.zone_2021, found.other_zones(2021))
    county = f"{found.county.name}, {found.county.state}"
    source = f"ZIP area {code} in {county}, county table of the residential code (read)"
    warm = found.county.warm_humid_2021
    return _Zones(found.zone_2018, found.zone_2021, warm, Origin.TABLE, source, other, old, new)


def _border(code: str, zone: str | None, others: Sequence[str]) -> Gap | None:
    """Return the question a ZIP area on a border of zones raises, or None where it lies in one zone."""
    if not others:
        return None
    zones = " and ".join(sorted({str(zone), *others}))
    return Gap(
        "project",
        "county",
        f"ZIP {code} touches more than one zone ({zones}): which county is it?",
        (*_PATH, "zip"),
    )


def _enter_zones(page: Page, zones: _Zones | None) -> None:
    gaps = {
        "zone_2018": _WHERE if zones is None else zones.gap_2018,
        "zone_2021": _WHERE if zones is None else zones.gap_2021,
    }
    for name, gap in gaps.items():
        if zones is None or gap is not None:
            page.unknown(name, gap or _WHERE)
        else:
            page.declare(name, getattr(zones, name), origin=zones.origin, source=zones.source)
    zone = page.copy("zone", page["zone_2021"], method="the newest map")
    page.compute("zone_number", _number, [zone], method="first figure of the zone")
    page.compute("moisture_regime", _letter, [zone], method="letter of the zone")
    page.compute("cold", _is_cold, [zone], method="zones 4C, 5, 6, 7 and 8")
    if zones is None or not zone.known:
        page.unknown("warm_humid", *zone.missing)
    else:
        _enter_warm_humid(page, zones)
    page.declare("other_zones", zones.other if zones else (), origin=Origin.TABLE)


def _enter_warm_humid(page: Page, zones: _Zones) -> None:
    if zones.warm_humid is not None:
        page.declare("warm_humid", zones.warm_humid, origin=Origin.TABLE, source=zones.source)
    elif _number(zones.zone_2021) >= 4 or zones.zone_2021[-1] in "BC":
        page.compute(
            "warm_humid", lambda _: False, [page["zone"]], method="no county of such a zone carries the mark"
        )
    else:
        gap = Gap("project", "county", "Which county is it (the warm-humid mark goes by county)?", _PATH)
        page.unknown("warm_humid", gap)


def _number(zone: str) -> float:
    return float(zone[0])


def _letter(zone: str) -> str:
    return zone[1:]


def _is_cold(zone: str) -> bool:
    return zone == "4C" or _number(zone) >= 5


def _months(place: Location | None, zones: _Zones | None, folder: Path) -> _Months | None:
    if place is None:
        return None
    if place.weather_file is not None:
        read = tables.read_weather_file(folder / place.weather_file).climate
        return _Months(read.temperature, read.vapour_pressure, f"weather file {place.weather_file}")
    near = _near_station(place, zones)
    if near is not None:
        return _at_station(near)
    if zones is not None and zones.zone_2021 and place.zone is not None:
        return _typical(zones.zone_2021)
    return None


def _near_station(place: Location, zones: _Zones | None) -> "tables.NearStation | None":
    zone = (zones.zone_2021 or None) if zones else None
    if place.station is not None:
        found = tables.station_called(place.station)
        return tables.NearStation(found, 0.0, True) if found else None
    if place.latitude is not None and place.longitude is not None:
        return tables.nearest_station(place.latitude, place.longitude, zone)
    if place.zip is not None:
        return tables.station_of_zip(place.zip, zone)
    if place.fips is not None or place.county is not None:
        found_county = tables.zones_of_county(fips=place.fips, name=place.county, state=place.state)
        if isinstance(found_county, tables.CountyZones):
            return tables.station_of_county(found_county.fips)
    return None


def _at_station(near: "tables.NearStation") -> _Months | None:
    months = tables.monthly(near.station.id)
    if months is None:
        return None
    station = near.station
    source = f"{_TYPICAL_YEAR}, station {station.id} {station.name}"
    far = (
        f"outdoor climate from station {station.name}, {near.distance / 1000:.0f} km away"
        if near.distance
        else ""
    )
    return _Months(months.temperature, months.vapour_pressure, source, near.distance, far, station.hdd18)


def _typical(zone: str) -> _Months | None:
    found = tables.typical_station(zone)
    if found is None:
        return None
    months = tables.monthly(found.station.id)
    if months is None:
        return None
    own = found.station
    stands_for = (
        f"outdoor climate of {own.name}, {own.state} stands in for zone {zone}, since only the zone is given"
    )
    source = f"{_TYPICAL_YEAR}, station {own.id} {own.name}, a representative place of the zone"
    return _Months(months.temperature, months.vapour_pressure, source, None, stands_for, own.hdd18)


def _enter_months(page: Page, months: _Months | None, place: Location | None, zones: _Zones | None) -> None:
    page.table = months
    _enter_degree_days(page, months, place, zones)
    names = (
        "winter_mean_temperature", "winter_mean_vapour_pressure", "coldest_month_temperature",
        "warmest_month_temperature", "summer_dew_point", "months_below_45f",
    )  # fmt: skip
    if months is None:
        gap = _temperatures_gap(place, zones)
        for name in names:
            page.unknown(name, gap)
        page.unknown("station_distance", gap)
        return
    cold, warm = coldest_months(months.temperature, 3), warmest_months(months.temperature, 3)
    summer = dew_point(mean_over(warm, months.vapour_pressure))
    values = {
        "winter_mean_temperature": (winter_mean(months.temperature), f"{_MONTHS}, the coldest"),
        "winter_mean_vapour_pressure": (mean_over(cold, months.vapour_pressure), f"{_MONTHS}, the coldest"),
        "coldest_month_temperature": (min(months.temperature), "mean of the coldest month"),
        "warmest_month_temperature": (max(months.temperature), "mean of the warmest month"),
        "summer_dew_point": (summer, "dew point of the mean vapour pressure of the three warmest months"),
        "months_below_45f": (
            float(sum(t < 7.2222 for t in months.temperature)),
            "months whose mean is below 7.2 °C",
        ),
    }
    for name, (value, method) in values.items():
        page.from_table(name, value, source=months.source, stands_for=months.stands_for, method=method)
    if months.distance is None:
        page.inapplicable("station_distance", "no station was looked for")
    else:
        page.declare("station_distance", months.distance, origin=Origin.TABLE, source=months.source)


def _enter_sealing(page: Page, months: _Months | None, declared: Sequence[int] | None) -> None:
    name = "sealing_temperature"
    if not declared:
        question = "In which months is the air barrier sealed?"
        page.unknown(name, Gap("project", "months of sealing", question, ("project",)))
    elif months is None:
        page.unknown(name, *page["coldest_month_temperature"].missing)
    else:
        page.from_table(
            name,
            min(months.temperature[month - 1] for month in declared),
            source=months.source,
            stands_for=months.stands_for,
            method="mean of the coldest of the months in which the air barrier is sealed",
        )


def _enter_degree_days(
    page: Page, months: _Months | None, place: Location | None, zones: _Zones | None
) -> None:
    if place is not None and place.degree_days is not None:
        days = page.declare("heating_degree_days", place.degree_days.value)
    elif place is not None and place.town is not None:
        days = _town_degree_days(page, place.town, place.state)
    elif months is not None and months.degree_days is not None:
        days = page.from_table(
            "heating_degree_days", months.degree_days, source=months.source, stands_for=months.stands_for
        )
    else:
        page.unknown("heating_degree_days", _temperatures_gap(place, zones))
        page.inapplicable("canada_band", "no degree days are given")
        page.unknown("degree_day_thousands", *page["heating_degree_days"].missing)
        return
    page.compute(
        "degree_day_thousands", lambda d: float(d // 1000), [days], method="whole thousands, rounded down"
    )
    page.compute(
        "canada_band",
        tables.canada_band,
        [days],
        method="degree-day bands",
        source="National Building Code of Canada 2020, Table 9.36.1.2., bands of degree days (read)",
    )


def _town_degree_days(page: Page, town: str, province: str | None) -> Fact:
    found = tables.canadian_place(town, province)
    if isinstance(found, tables.CanadianPlace) and found.hdd18 is not None:
        source = f"National Building Code of Canada, Appendix C, {found.name} (read)"
        return page.from_table("heating_degree_days", found.hdd18, source=source, stands_for="")
    near = (
        f" Near it: {', '.join(found.near)}."
        if not isinstance(found, tables.CanadianPlace) and found.near
        else ""
    )
    question = f"The table of Canadian places has no degree days for {town!r}.{near} How many are there?"
    return page.unknown("heating_degree_days", Gap("project", "degree days", question, (*_PATH, "town")))
