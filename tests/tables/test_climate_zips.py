"""ZIP codes: zones of both maps, areas on a border of zones, codes that are not listed."""

from pathlib import Path

import pytest

from speccheck.tables.climate import ZipZones, point_of_county, zones_of_zip
from speccheck.tables.climate.lines import lines
from speccheck.tables.climate.zips import _known, _point

HERE = Path(__file__).parent
# The file says where its zones come from: a public table on the old map, and the DOE/PNNL county file of 2022.
SECOND = [line.split(",") for line in (HERE / "second_source_zips.csv").read_text().splitlines()[3:]]


def place(code: str) -> ZipZones:
    found = zones_of_zip(code)
    assert found is not None
    return found


@pytest.mark.parametrize(("code", "state", "changed", "old", "new"), SECOND)
def test_the_second_source_agrees(code: str, state: str, changed: str, old: str, new: str) -> None:
    found = place(code)
    assert found.listed
    assert found.county is not None
    assert found.county.state == state
    assert (found.zone_2018, found.zone_2021, found.zone(2024)) == (old, new, new)
    assert (old != new) == (changed == "1")


def test_an_area_on_a_border_of_zones_names_the_other_county() -> None:
    # 81623 Carbondale CO: Census relationship file of 2010 lists Garfield, Gunnison, Pitkin and Eagle (read).
    found = place("81623")
    assert found.zone_2021 == "7"
    assert found.other_zones_2021 == ("5B", "6B")
    assert {"Garfield", "Eagle"} <= {county.name for county in found.other_counties}


def test_an_area_may_touch_two_zones_on_one_map_only() -> None:
    cells = [cell for line in lines("zip-areas.txt") for cell in _cells(line)]
    found = [place(cell[0]) for cell in cells if len(cell) > 3]
    assert (
        sum(bool(one.other_zones_2018) for one in found) == 970
    )  # counted from the Census relationship file
    assert sum(bool(one.other_zones_2021) for one in found) == 973  # as counted independently of this table
    assert any(one.other_zones_2018 and not one.other_zones_2021 for one in found)


def _cells(line: str) -> list[list[str]]:
    """Take a line apart without the code under test: ZIP code, county, point, other counties."""
    prefix, *blocks = line.split(" ")
    cells = []
    for block in blocks:
        fips, _, areas = block.partition(":")
        for area in areas.split(","):
            last, point, *others = area.split("/")
            cells.append([prefix + last, fips, point, *(others[0].split("+") if others else [])])
    return cells


@pytest.mark.parametrize("code", ["20500", "99999", "00600"])
def test_a_code_that_is_no_area_is_not_guessed(code: str) -> None:
    # 20500 belongs to one building in Washington DC (memory); the other two are unused.
    found = place(code)
    assert not found.listed
    assert found.county is None
    assert found.zone(2021) == found.zone(2018) == ""
    assert found.latitude is None
    assert found.prefix_zones(2021)


def test_zones_of_a_prefix_come_commonest_first() -> None:
    # All of Washington DC is zone 4A; the 816 prefix (western Colorado) holds several zones.
    assert place("20500").prefix_zones_2021 == ("4A",)
    assert len(place("81699").prefix_zones(2018)) > 1


@pytest.mark.parametrize("text", ["", "1234", "123456", "ABCDE", "60601-12", "60601\n606", "٦٠٦٠١"])
def test_what_is_no_code_gives_nothing(text: str) -> None:
    assert zones_of_zip(text) is None


def test_the_long_form_is_read() -> None:
    assert place("60601-1234") == place("60601")


def test_fairbanks_lies_where_fairbanks_is() -> None:
    # 64.84 N 147.72 W, memory; the source has the point at 67 N.
    found = place("99701")
    assert found.county is not None
    assert found.county.name == "Fairbanks North Star"
    assert found.latitude == pytest.approx(64.84, abs=0.1)


def test_every_area_has_a_county_and_a_point_on_us_soil() -> None:
    prefixes = [line[:3] for line in lines("zip-areas.txt")]
    assert prefixes == sorted(set(prefixes))
    cells = [cell for line in lines("zip-areas.txt") for cell in _cells(line)]
    codes = [cell[0] for cell in cells]
    assert len(codes) == len(set(codes)) == 33_144  # areas with a zone in the Census-based list read
    for fips in {fips for cell in cells for fips in (cell[1], *cell[3:])}:
        assert _known(fips).zone_2021
    for code, _, point, *_ in cells:
        latitude, longitude = _point(point)
        assert -15 < latitude < 72, code
        assert -180 <= longitude < -64 or 140 < longitude <= 180, code


def test_every_area_is_found() -> None:
    for line in lines("zip-areas.txt")[::40]:
        for code, fips, point, *others in _cells(line):
            found = place(code)
            assert found.county is not None
            assert found.county.fips == fips
            assert (found.latitude, found.longitude) == _point(point)
            assert [county.fips for county in found.other_counties] == others


def test_the_middle_of_a_county() -> None:
    # Cook County IL lies about Chicago, 41.9 N 87.8 W (memory).
    found = point_of_county("17031")
    assert found is not None
    assert found == pytest.approx((41.85, -87.8), abs=0.15)
    assert point_of_county("00000") is None
