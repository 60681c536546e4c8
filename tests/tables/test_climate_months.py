"""Twelve months at every station: whole, physical, and the right way round."""

from math import exp

import pytest

from speccheck.tables.climate import MonthlyClimate, monthly, station
from speccheck.tables.climate.lines import lines

CODES = [line[:6] for line in lines("stations.csv")]


def climate(code: str) -> MonthlyClimate:
    found = monthly(code)
    assert found is not None
    return found


def test_every_station_has_its_months() -> None:
    assert [line[:6] for line in lines("monthly.csv")] == CODES


def most_vapour(mean: float) -> float:
    """Saturation over water at a month's mean, and room for its hours, the warm ones holding most of the vapour."""
    # WMO formula over water, as dew points are reported; the swing of arctic winter hours is some 10 K (common practice).
    swing = 1.6 if mean < -10 else 1.15
    return 611.2 * exp(17.62 * mean / (243.12 + mean)) * swing


@pytest.mark.parametrize("part", range(8))
def test_months_are_physical(part: int) -> None:
    for code in CODES[part::8]:
        found = climate(code)
        flagged = found.flag.startswith("April mean")
        for temperature, pressure in zip(found.temperature, found.vapour_pressure, strict=True):
            # No US month is colder or warmer (common practice, no source).
            assert -40 < temperature < 41, code
            assert 10 < pressure <= most_vapour(temperature), code
        steps = [abs(a - b) for a, b in zip(found.temperature, found.temperature[1:], strict=False)]
        assert max(steps) < 20 or flagged, code


def test_summer_is_in_the_middle_of_the_year() -> None:
    for code in CODES:
        its_station = station(code)
        assert its_station is not None
        months = climate(code).temperature
        if its_station.latitude > 20:
            assert sum(months[5:8]) > sum((*months[:2], months[11])), code
            assert min(months) in (*months[:4], months[10], months[11]), code
        elif its_station.latitude < 0:  # American Samoa
            assert sum(months[5:8]) < sum((*months[:2], months[11])), code


def test_the_mean_of_the_months_is_that_of_the_year() -> None:
    days = (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)
    for code in CODES:
        its_station = station(code)
        assert its_station is not None
        mean = sum(a * b for a, b in zip(days, climate(code).temperature, strict=True)) / 365
        assert mean == pytest.approx(its_station.mean, abs=0.06), code


def test_known_years_in_chicago_and_miami() -> None:
    # NOAA normals 1981-2010: Chicago O'Hare January -4.6 °C and July 23.3 °C, Miami January 20.1 °C (memory); a typical month is a
    # real one and may be 2 K off.
    chicago, miami = climate("725300"), climate("722020")
    assert chicago.temperature[0] == pytest.approx(-4.6, abs=2.5)
    assert chicago.temperature[6] == pytest.approx(23.3, abs=2.5)
    assert miami.temperature[0] == pytest.approx(20.1, abs=2.5)
    assert (
        miami.vapour_pressure[6] > 2500
    )  # dew point above 21 °C in a Miami July, common practice, no source


def test_a_number_that_is_not_held() -> None:
    assert monthly("000000") is None
    assert monthly("703884") is None  # Hydaburg, left out: July mean of 37 °C in the record


def test_a_flag_travels_with_the_months() -> None:
    assert "April" in climate("703407").flag
    assert climate("725300").flag == ""


def test_a_year_has_twelve_months() -> None:
    with pytest.raises(ValueError, match="twelve"):
        MonthlyClimate((1.0,) * 11, (500.0,) * 12, "somewhere", "2000")
