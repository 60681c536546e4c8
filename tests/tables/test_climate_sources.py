"""Every climate result names a source that is written down, and the package hands on what it says."""

import subprocess
import sys

import pytest

import speccheck.tables.climate as climate
from speccheck.shelf import rules_folder
from speccheck.tables.climate import (
    canadian_place,
    monthly,
    source,
    station,
    typical_station,
    zone_from_degree_days,
    zones_of_county,
    zones_of_zip,
)
from speccheck.tables.climate.lines import line_of, lines


@pytest.mark.parametrize(
    "result",
    [
        zones_of_county("53033"), zones_of_zip("98104"), station("725300"), monthly("725300"), typical_station("7"),
        canadian_place("Banff"), canadian_place("Duncan"), canadian_place("Agassiz"), zone_from_degree_days(5000, 1000),
    ],
)  # fmt: skip
def test_a_result_names_its_source(result: object) -> None:
    found = source(result.source)  # type: ignore[attr-defined]
    assert found.document
    assert found.known in {"read", "computed", "memory"}
    assert found.limits
    assert found.licence


def test_other_sources_and_no_source() -> None:
    assert source("weather-file").known == "computed"
    assert source("canada-bands").known == "read"
    with pytest.raises(KeyError):
        source("hearsay")


def test_every_file_is_named_in_the_sources() -> None:
    folder = rules_folder() / "climate"
    heading = (folder / "sources.yaml").read_text(encoding="utf-8").split("us-county-zones:")[0]
    for path in folder.iterdir():
        assert path.name in heading or path.name == "sources.yaml"


def test_all_names_are_handed_on() -> None:
    assert sorted(climate.__all__) == list(climate.__all__) or set(climate.__all__) == set(climate._ROOM_OF)
    for name in climate.__all__:
        assert getattr(climate, name) is not None
    with pytest.raises(AttributeError, match="no_such_name"):
        climate.no_such_name  # noqa: B018


def test_looking_up_a_zip_loads_nothing_heavy() -> None:
    code = (
        "import sys; from speccheck.tables.climate import station_of_zip, monthly\n"
        "assert monthly(station_of_zip('60601').station.id)\n"
        "print([name for name in ('numpy', 'pandas', 'pvlib', 'yaml', 'csv', 'pydantic') if name in sys.modules])"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"


def test_a_line_is_found_by_its_whole_key() -> None:
    assert line_of("counties.csv", "5303") is None
    assert line_of("counties.csv", "fips") is None
    assert (line_of("stations.csv", lines("stations.csv")[-1][:6]) or "") == lines("stations.csv")[-1]
