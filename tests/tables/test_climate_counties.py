"""County zones against a second source, and names as people write them."""

from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from speccheck.tables.climate import CountyUnclear, CountyZones, zone, zones_of_county
from speccheck.tables.climate.lines import lines

HERE = Path(__file__).parent
# The file says where its zones come from: the DOE/PNNL county file of 2022 and its forerunner.
SECOND = [line.split(",") for line in (HERE / "second_source_counties.csv").read_text().splitlines()[3:]]
ROWS = [line.split(",", 8) for line in lines("counties.csv")]


def county(**place: str) -> CountyZones:
    found = zones_of_county(**place)
    assert isinstance(found, CountyZones), found
    return found


def unclear(**place: str) -> CountyUnclear:
    found = zones_of_county(**place)
    assert isinstance(found, CountyUnclear), found
    return found


@pytest.mark.parametrize(("fips", "on_2015", "on_2021"), SECOND)
def test_the_second_source_agrees(fips: str, on_2015: str, on_2021: str) -> None:
    found = county(fips=fips)
    assert (found.zone(2015), found.zone(2021), found.zone(2024)) == (on_2015, on_2021, on_2021)


def test_the_sample_of_the_second_source_is_large_and_holds_changes() -> None:
    assert len(SECOND) >= 100
    assert sum(old != new for _, old, new in SECOND) >= 40


@pytest.mark.parametrize(
    ("fips", "edition", "other"), [("19047", 2018, "6A"), ("20101", 2021, "5A"), ("34021", 2021, "5A")]
)
def test_where_the_second_source_differs_the_county_says_so(fips: str, edition: int, other: str) -> None:
    # DOE/PNNL county file of 2022 against the adopted code table (both read): the code leads.
    found = county(fips=fips)
    assert found.zone(edition) != other
    assert "second source differs" in found.note
    assert other in found.note


def test_as_many_counties_as_the_code_lists() -> None:
    # 515 counties carry the warm-humid asterisk in the 2018 table, as counted in the copy read.
    assert len(ROWS) == 3247
    assert 3100 < len({row[0] for row in ROWS}) == len(ROWS)
    assert sum(row[6] == "1" for row in ROWS) == 515


def test_every_row_is_whole() -> None:
    for row in ROWS:
        assert len(row) == 9
        assert len(row[0]) == 5
        assert row[0].isdigit()
        assert len(row[1]) == 2
        assert not zone(row[3]).lacks_letter
        assert row[4] == row[5], "the maps of 2021 and 2024 are the same"
        assert {row[6], row[7]} <= {"0", "1"}
    assert [row[0] for row in ROWS] == sorted(row[0] for row in ROWS)


def test_only_zones_1_to_3_are_warm_and_humid() -> None:
    # The mark is for moist places with many hours above 67 °F wet bulb (IRC N1101.7, read): none is colder than zone 3 or dry.
    for row in ROWS:
        if row[7] == "1":
            assert row[4] in {"1A", "2A", "3A"}


@pytest.mark.parametrize(
    ("name", "state", "fips"),
    [
        ("King", "WA", "53033"),
        ("King County", "WA", "53033"),
        ("county of king", "Washington", "53033"),
        ("St. Louis city", "MO", "29510"),
        ("City of Saint Louis", "MO", "29510"),
        ("Saint Louis County", "MO", "29189"),
        ("Carson City", "NV", "32510"),
        ("Charles City County", "VA", "51036"),
        ("Charles City", "VA", "51036"),
        ("Baltimore County", "MD", "24005"),
        ("baltimore CITY", "MD", "24510"),
        ("Bedford", "VA", "51019"),
        ("Orleans Parish", "LA", "22071"),
        ("De Kalb", "IL", "17037"),
        ("Dona Ana", "NM", "35013"),
        ("Doña Ana County", "new mexico", "35013"),
        ("Prince Georges", "MD", "24033"),
        ("Juneau City and Borough", "AK", "02110"),
        ("Norfolk", "VA", "51710"),
    ],
)
def test_names_as_people_write_them(name: str, state: str, fips: str) -> None:
    # FIPS codes of the Census county list, memory; names in both writings are our own.
    assert county(name=name, state=state).fips == fips


def test_a_state_may_follow_a_comma() -> None:
    assert county(name="Cook County, IL").fips == "17031"


def test_a_county_and_a_city_of_one_name_are_asked_about() -> None:
    found = unclear(name="Richmond", state="VA")
    assert {one.fips for one in found.fits} == {"51159", "51760"}
    assert found.agreed(2021) == "4A"


def test_one_name_in_several_states_is_asked_about() -> None:
    found = unclear(name="King")
    assert {(one.state, one.zone_2021) for one in found.fits} == {("TX", "3B"), ("WA", "4C")}
    assert found.agreed(2021) == ""


def test_near_names_are_offered() -> None:
    assert "Hennepin MN" in unclear(name="Hennepen", state="MN").near
    assert "Miami-Dade FL" in unclear(name="Dade", state="FL").near
    assert unclear(name="King", state="ZZ") == CountyUnclear("King, ZZ")
    assert unclear(fips="99999").fits == ()
    assert unclear(fips="53").near == ()


def test_nothing_given_is_an_error() -> None:
    with pytest.raises(ValueError, match="FIPS"):
        zones_of_county()


def test_franklin_in_virginia_carries_its_doubt() -> None:
    assert "one of them may be wrong" in county(name="Franklin County", state="VA").note
    assert "one of them may be wrong" in county(name="Franklin city", state="VA").note


@given(st.sampled_from(ROWS))
@settings(max_examples=60)
def test_each_county_is_found_by_its_own_name(row: list[str]) -> None:
    found = zones_of_county(name=row[2], state=row[1])
    fits = found.fits if isinstance(found, CountyUnclear) else (found,)
    assert row[0] in {one.fips for one in fits}


@given(st.text(max_size=30), st.sampled_from(["", "WA", "Texas", "?"]))
@settings(max_examples=60)
def test_any_name_gives_an_answer(name: str, state: str) -> None:
    assert isinstance(zones_of_county(name=name, state=state), CountyZones | CountyUnclear)
