"""Stations: distances against another formula, the rule of choice, what is usable."""

from math import acos, cos, degrees, radians, sin

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from speccheck.tables.climate import (
    CountyZones,
    NearStation,
    Station,
    distance,
    nearest_station,
    station,
    station_of_county,
    station_of_zip,
    typical_station,
    zone,
    zones_of_county,
)
from speccheck.tables.climate.great_circle import EARTH_RADIUS, middle
from speccheck.tables.climate.lines import lines


def held(code: str) -> Station:
    found = station(code)
    assert found is not None
    return found


STATIONS = [held(line[:6]) for line in lines("stations.csv")]
USABLE = [one for one in STATIONS if one.usable]
# Their points, given to 0.02°, fall over the border river into a county of the same zone.
ON_A_BORDER = {"722250", "724050", "726564"}
latitudes, longitudes = st.floats(-89, 89), st.floats(-180, 180)


def by_vectors(a: float, b: float, c: float, d: float) -> float:
    """Angle between the unit vectors of two points: an independent formula for the distance."""
    first = (cos(radians(a)) * cos(radians(b)), cos(radians(a)) * sin(radians(b)), sin(radians(a)))
    second = (cos(radians(c)) * cos(radians(d)), cos(radians(c)) * sin(radians(d)), sin(radians(c)))
    return EARTH_RADIUS * acos(max(-1.0, min(1.0, sum(x * y for x, y in zip(first, second, strict=True)))))


@given(latitudes, longitudes, latitudes, longitudes)
def test_the_distance_agrees_with_unit_vectors(a: float, b: float, c: float, d: float) -> None:
    assert distance(a, b, c, d) == pytest.approx(
        by_vectors(a, b, c, d), abs=200
    )  # acos is coarse at small angles
    assert distance(a, b, c, d) == pytest.approx(distance(c, d, a, b))


def test_a_known_distance() -> None:
    # JFK to LAX is 3,983 km great-circle (published airport distance, memory; ellipsoid, so within 0.6 %).
    assert distance(40.64, -73.78, 33.94, -118.41) == pytest.approx(3_983_000, rel=0.006)


def test_the_middle_of_points_across_the_date_line() -> None:
    assert middle([(52.0, 179.0), (52.0, -179.0)])[1] == pytest.approx(180.0) or middle(
        [(52.0, 179.0), (52.0, -179.0)]
    )[1] == pytest.approx(-180.0)


@pytest.mark.parametrize("one", USABLE[::9], ids=lambda one: one.id)
def test_a_usable_station_is_nearest_to_itself(one: Station) -> None:
    near = nearest_station(one.latitude, one.longitude, one.zone_2021)
    assert near is not None
    assert near.distance == pytest.approx(0.0, abs=1.0)
    assert (near.station.latitude, near.station.longitude) == (one.latitude, one.longitude)


@given(st.floats(25, 49), st.floats(-124, -67), st.sampled_from(["", "3A", "5A", "6B", "7"]))
@settings(max_examples=40, deadline=None)
def test_the_choice_follows_the_rule(latitude: float, longitude: float, its_zone: str) -> None:
    within = [(by_vectors(latitude, longitude, one.latitude, one.longitude), one) for one in USABLE]
    within = [(away, one) for away, one in within if away <= 250_000]
    alike = [(away, one) for away, one in within if one.zone_2021 == its_zone]
    near = nearest_station(latitude, longitude, its_zone)
    if not within:
        assert near is None
        return
    assert near is not None
    assert near.distance == pytest.approx(min(away for away, _ in alike or within), abs=200)
    assert near.same_zone == bool(alike)
    assert near.station.usable


def test_class_iii_is_passed_over() -> None:
    # Carroll IA (725468) is class III in the station list of the set (read).
    carroll = held("725468")
    near = nearest_station(carroll.latitude, carroll.longitude, "5A")
    assert not carroll.usable
    assert near is not None
    assert near.station.id != carroll.id


def test_no_station_is_near_the_middle_of_the_ocean() -> None:
    assert nearest_station(0.0, -140.0) is None
    assert nearest_station(41.9, -87.7, limit=1.0) is None
    with pytest.raises(ValueError, match="no place"):
        nearest_station(91.0, 0.0)


def test_without_a_zone_the_zone_is_not_said_to_agree() -> None:
    near = nearest_station(41.9, -87.7)
    assert near is not None
    assert near.same_zone is None


# Nearest usable station by an independent computation on the same points: number and whole kilometres.
@pytest.mark.parametrize(
    ("code", "number", "kilometres"),
    [
        ("00601", "785203", 29),
        ("00612", "785140", 46),
        ("02126", "725090", 12),
        ("01720", "744904", 37),
        ("02912", "725070", 12),
    ],
)
def test_station_of_a_zip(code: str, number: str, kilometres: int) -> None:
    near = station_of_zip(code)
    assert near is not None
    # Points are kept to 0.01°, so of two stations equally far either may be taken.
    assert near.distance / 1000 == pytest.approx(kilometres, abs=1.6)
    other = held(number)
    assert (
        near.station.id == number
        or near.distance
        <= distance(other.latitude, other.longitude, other.latitude, other.longitude)
        + kilometres * 1000
        + 1600
    )


def test_a_zip_that_is_not_listed_has_no_station() -> None:
    assert station_of_zip("20500") is None
    assert station_of_zip("nowhere") is None


def test_a_county_known_better_than_the_zip_sets_the_zone() -> None:
    # 81623 lies in zone 7 (Pitkin) and touches 5B (Garfield).
    mountain, valley = station_of_zip("81623"), station_of_zip("81623", "5B")
    assert isinstance(mountain, NearStation)
    assert isinstance(valley, NearStation)
    assert (mountain.station.zone_2021, valley.station.zone_2021) == ("7", "5B")


def test_station_of_a_county() -> None:
    near = station_of_county("53033")
    assert near is not None
    assert near.same_zone
    assert near.station.state == "WA"
    assert station_of_county("99999") is None


def test_the_station_table_is_whole() -> None:
    assert len(STATIONS) == 1019  # 1,020 of the set, one left out for impossible temperatures
    assert len({one.id for one in STATIONS}) == len(STATIONS)
    assert [one.id for one in STATIONS] == sorted(one.id for one in STATIONS)
    for one in STATIONS:
        assert one.quality in {"I", "II", "III"}
        assert one.elevation < 3200
        assert 0 <= one.hdd18 < 12_000
        assert one.low_0_4 <= one.low_1 < one.mean
        county = zones_of_county(one.county)
        assert isinstance(county, CountyZones)
        assert (county.zone_2018, county.zone_2021) == (one.zone_2018, one.zone_2021)
        assert county.state == one.state or one.id in ON_A_BORDER


def test_degree_days_of_chicago() -> None:
    assert station("990000") is None
    assert held("725300").hdd18 == 3430  # published statistics file of the same typical year, read
    assert held("725300").cdd10 == 1743


@pytest.mark.parametrize(
    "text", ["1A", "2A", "2B", "3A", "3B", "3C", "4A", "4B", "4C", "5A", "5B", "5C", "6A", "6B", "7", "8"]
)
def test_a_zone_has_a_typical_station(text: str) -> None:
    found = typical_station(text)
    assert found is not None
    assert found.station.usable
    assert found.station.zone_2021 == text
    degree_days = [one.hdd18 for one in USABLE if one.zone_2021 == text]
    assert (found.hdd18_lowest, found.hdd18_highest) == (min(degree_days), max(degree_days))
    assert abs(found.station.hdd18 - found.hdd18_median) <= 620  # 5C has no place nearer that is class I
    assert found.assumed.startswith("assumed:")
    assert text in found.assumed


def test_a_zone_without_letter_or_without_stations_has_none() -> None:
    assert typical_station("5") is None
    assert typical_station("0A") is None
    assert zone("5").lacks_letter


def test_angles_are_degrees() -> None:
    assert degrees(distance(0, 0, 0, 90) / EARTH_RADIUS) == pytest.approx(90)
