"""Zones by the criteria of both maps and of Canada."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from speccheck.tables.climate import (
    canada_band,
    canadian_place,
    is_dry,
    is_marine,
    monthly,
    station,
    zone_from_degree_days,
)
from speccheck.tables.climate.canada import CanadianPlace, NoCanadianPlace
from speccheck.tables.climate.lines import lines

FAHRENHEIT = 1 / 1.8


# IRC 2021 Table N1101.7.2, read: 9000, 10800, 6300 CDD50F; 3600, 5400, 7200, 9000, 12600 HDD65F; each limit on both sides.
@pytest.mark.parametrize(
    ("hdd65", "cdd50", "number"),
    [
        (0, 10801, 0), (0, 10799, 1), (0, 9001, 1), (0, 8999, 2), (1000, 6301, 2), (1000, 6299, 3), (3599, 4000, 3), (3601, 4000, 4),
        (5399, 4000, 4), (5401, 3000, 5), (7199, 3000, 5), (7201, 2500, 6), (8999, 2500, 6), (9001, 1500, 7), (12599, 1000, 7), (12601, 500, 8),
    ],
)  # fmt: skip
def test_the_bands_of_2021(hdd65: float, cdd50: float, number: int) -> None:
    assert zone_from_degree_days(hdd65 * FAHRENHEIT, cdd50 * FAHRENHEIT).numbers == (number,)


# IRC 2018 Table N1101.7.2(2), read: there the letter comes before the number of zones 3 and 4.
@pytest.mark.parametrize(
    ("hdd65", "cdd50", "marine", "number"),
    [
        (100, 9001, False, 1), (100, 8999, False, 2), (2000, 6299, False, 3), (5000, 4501, False, 3), (5000, 4499, False, 4),
        (3599, 2000, True, 3), (3601, 2000, True, 4), (5401, 2000, True, 5), (7201, 2000, False, 6), (9001, 900, False, 7), (12601, 400, False, 8),
    ],
)  # fmt: skip
def test_the_bands_of_2018(hdd65: float, cdd50: float, marine: bool, number: int) -> None:
    found = zone_from_degree_days(hdd65 * FAHRENHEIT, cdd50 * FAHRENHEIT, edition=2018, marine=marine)
    assert found.numbers == (number,)
    assert found.map == 2018


def test_the_letter() -> None:
    assert zone_from_degree_days(3430, 1743, marine=False, dry=True).zone == "5B"
    assert zone_from_degree_days(2543, 1060, marine=True).zone == "4C"
    assert zone_from_degree_days(6000, 800).zone == "7"
    assert zone_from_degree_days(4200, 1500, dry=False).zone == "6A"
    half = zone_from_degree_days(3430, 1743)
    assert (half.zone, half.moisture) == ("5", "")
    assert len(half.missing) == 2


def test_what_is_missing_is_named() -> None:
    warm = zone_from_degree_days(1500)
    assert warm.zone == ""
    assert warm.numbers == (0, 1, 2, 3)
    assert "cooling" in warm.missing[0]
    cool = zone_from_degree_days(3430)
    assert cool.numbers == (5,)
    assert "3500" in cool.notes[0]
    assert zone_from_degree_days(3430, 1743).notes == ()
    assert zone_from_degree_days(1900, 2000, edition=2018).numbers == (3, 4)  # 3C or 4: marine is not known


def test_no_place_with_that_much_heating_has_that_much_cooling() -> None:
    # The assumption behind the note, held against every station of the typical-year set.
    for line in lines("stations.csv"):
        cells = line.split(",")
        assert float(cells[11]) <= 3500 or float(cells[10]) < 2000, line


def test_the_rule_finds_most_published_zones() -> None:
    # Computed, not from outside: most stations, and nearly all within one number. The county table decides, not the rule.
    pairs = [(line.split(",")[8], *map(float, line.split(",")[10:12])) for line in lines("stations.csv")]
    known = [(zone, hdd, cdd) for zone, hdd, cdd in pairs if zone]
    right = [zone for zone, hdd, cdd in known if zone_from_degree_days(hdd, cdd).numbers == (int(zone[0]),)]
    near = [
        zone
        for zone, hdd, cdd in known
        if abs(zone_from_degree_days(hdd, cdd).numbers[0] - int(zone[0])) <= 1
    ]
    assert len(right) / len(known) > 0.78
    assert len(near) / len(known) > 0.98


@given(st.floats(0, 12000), st.floats(0, 7000))
def test_2021_leaves_no_gap_and_more_heating_is_never_a_warmer_zone(hdd18: float, cdd10: float) -> None:
    here = zone_from_degree_days(hdd18, cdd10).numbers
    if cdd10 <= 3500 or hdd18 <= 4000:
        assert len(here) == 1
    assert zone_from_degree_days(hdd18 + 500, cdd10).numbers[-1] >= here[-1]


def test_negative_degree_days_are_refused() -> None:
    with pytest.raises(ValueError, match="negative"):
        zone_from_degree_days(-1)
    with pytest.raises(ValueError, match="negative"):
        canada_band(-1)


def test_marine_needs_all_four_tests() -> None:
    seattle = monthly("727930")
    assert seattle is not None
    # Rain of 2012-2015 in Seattle: wettest cold month 161 mm, driest other 12 mm (public daily record, read); the rest filled in.
    rain = [140, 100, 95, 65, 50, 40, 12, 23, 43, 82, 150, 161]
    assert is_marine(seattle.temperature, rain)
    assert not is_marine(seattle.temperature, [50] * 12)
    assert not is_marine([t + 5 for t in seattle.temperature], rain)  # warmest month over 22 °C
    assert not is_marine([t - 9 for t in seattle.temperature], rain)  # coldest month below -3 °C
    assert not is_marine([5, 5, 5, 5, 5, 5, 11, 11, 11, 5, 5, 5], rain)  # three warm months only
    with pytest.raises(ValueError, match="twelve"):
        is_marine([5] * 11, rain)


# City, annual rain [mm] (US Statistical Abstract 1975, read) and mean temperature [°C] of the typical year; letter of the county table.
@pytest.mark.parametrize(
    ("number", "rain", "letter"),
    [
        ("722780", 178, "B"),
        ("722700", 198, "B"),
        ("723650", 198, "B"),
        ("725650", 330, "B"),
        ("725300", 874, "A"),
        ("722190", 1227, "A"),
        ("726580", 658, "A"),
    ],
)
def test_dry_as_the_county_table_has_it(number: str, rain: float, letter: str) -> None:
    its_station = station(number)
    assert its_station is not None
    assert is_dry(its_station.mean, rain / 1000) == (letter == "B")
    assert its_station.zone_2021.endswith(letter)


def test_summer_rain_dries_up_and_winter_rain_does_not() -> None:
    # At 20 °C (68 °F): 0.44 (68 - 7) = 26.8 in, 0.44 (68 - 19.5) = 21.3 in, 0.44 (68 - 32) = 15.8 in. Outer two from memory.
    inch = 0.0254
    assert [is_dry(20, 24 * inch, share) for share in (0.7, 0.5, 0.3)] == [True, False, False]
    assert [is_dry(20, 18 * inch, share) for share in (0.9, 0.31, 0.3)] == [True, True, False]
    assert is_dry(20, 15.8 * inch, 0.1)
    assert not is_dry(20, 15.9 * inch, 0.1)
    with pytest.raises(ValueError, match="share"):
        is_dry(20, 0.5, 70)


@pytest.mark.parametrize(
    ("hdd18", "band"),
    [
        (0, "4"),
        (2999.9, "4"),
        (3000, "5"),
        (3999, "5"),
        (4000, "6"),
        (4999, "6"),
        (5000, "7A"),
        (5999, "7A"),
        (6000, "7B"),
        (6999, "7B"),
        (7000, "8"),
    ],
)
def test_canadian_bands(hdd18: float, band: str) -> None:
    # NBC 9.36.2.6, read in four editions.
    assert canada_band(hdd18) == band


def test_a_canadian_place() -> None:
    # BC Building Code 2024 Table C-2, read.
    found = canadian_place("abbotsford", "bc")
    assert isinstance(found, CanadianPlace)
    assert (found.hdd18, found.january_2_5, found.zone) == (2860.0, -8.0, "4")
    assert found.precipitation_year == pytest.approx(1.6)
    assert found.rain_year == pytest.approx(1.525)
    cut = canadian_place("Duncan")
    assert isinstance(cut, CanadianPlace)
    assert cut.hdd15 is cut.rain_year is None


def test_a_canadian_place_that_is_not_held() -> None:
    assert canadian_place("Abbottsford") == NoCanadianPlace("Abbottsford", ("Abbotsford BC",))
    assert canadian_place("Banff", "BC") == NoCanadianPlace("Banff, BC", ())


def test_canadian_rows_are_plausible() -> None:
    rows = [line.split(",") for line in lines("canada.csv")]
    assert len(rows) == 37
    assert rows == sorted(rows, key=lambda row: (row[1], row[0]))
    for name, province, *_ in rows:
        found = canadian_place(name, province)
        assert isinstance(found, CanadianPlace)
        assert found.january_1 < found.january_2_5 < found.july_wet < found.july_dry
        assert 2500 < found.hdd18 < 7000
        assert found.hdd15 is None or found.hdd15 < found.hdd18
        if found.precipitation_year is not None and found.rain_year is not None:
            assert found.rain_year < found.precipitation_year
