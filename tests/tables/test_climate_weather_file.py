"""Weather files: the sample year pvlib ships, a year in EPW form made for the plumbing, and broken files."""

import sys
from itertools import pairwise
from math import cos, exp, pi
from pathlib import Path

import pytest

from speccheck.tables.climate import WeatherFileError, monthly, read_weather_file

pvlib = pytest.importorskip("pvlib")
SAMPLES = Path(pvlib.__file__).parent / "data"
DAYS = (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)


@pytest.mark.parametrize(("file", "code"), [("723170TYA.CSV", "723170"), ("703165TY.csv", "703165")])
def test_the_sample_year_gives_the_months_of_its_station(file: str, code: str) -> None:
    # Greensboro NC and Sand Point AK of the typical-year set; the table was averaged from another copy by
    # other code and rounded twice, to 0.01 and to 0.1 K.
    found, table = read_weather_file(SAMPLES / file), monthly(code)
    assert table is not None
    assert found.climate.temperature == pytest.approx(table.temperature, abs=0.056)
    assert found.climate.vapour_pressure == pytest.approx(table.vapour_pressure, abs=0.51)
    assert found.climate.place == file
    assert found.climate.source == "weather-file"


def test_the_place_of_the_sample_year() -> None:
    found = read_weather_file(str(SAMPLES / "723170TYA.CSV"))
    assert (found.latitude, found.longitude, found.elevation) == (36.1, -79.95, 273.0)
    assert found.name == "GREENSBORO PIEDMONT TRIAD INT"
    assert found.climate.years == "1980-2003"


def epw_lines() -> list[str]:
    """A made-up year for the plumbing only: no weather was ever like it."""
    heading = ["LOCATION,Nowhere,XX,XXX,made up,000000,45.0,8.0,1.0,120.0"] + ["DESIGN CONDITIONS,0"] * 7
    hours = []
    for month, days in enumerate(DAYS, start=1):
        warmth = 10 - 10 * cos((month - 0.5) * pi / 6)
        for day in range(1, days + 1):
            for hour in range(1, 25):
                dew = warmth - 5 + (1 if hour > 12 else -1)
                hours.append(f"2001,{month},{day},{hour},0,?,{warmth:.2f},{dew:.2f},70,101325" + ",0" * 25)
    return heading + hours


def written(path: Path, content: list[str]) -> Path:
    path.write_text("\n".join(content) + "\n")
    return path


def test_a_year_in_epw_form(tmp_path: Path) -> None:
    found = read_weather_file(written(tmp_path / "made-up.epw", epw_lines()))
    warmth = [10 - 10 * cos((month - 0.5) * pi / 6) for month in range(1, 13)]
    assert found.climate.temperature == pytest.approx(warmth, abs=0.006)
    assert (found.latitude, found.longitude, found.elevation, found.name) == (45.0, 8.0, 120.0, "Nowhere")
    # Half the hours have a dew point 1 K higher, half 1 K lower: the mean of pressures, not the pressure of the mean.
    for month, mean in enumerate(warmth):
        dew = [round(mean - 5 + side, 2) for side in (-1, 1)]
        pressure = sum(611.2 * exp(17.62 * t / (243.12 + t)) for t in dew) / 2
        assert found.climate.vapour_pressure[month] == pytest.approx(pressure, rel=1e-3)
    assert all(a < b for a, b in pairwise(found.climate.temperature[:6]))


def refused(path: Path) -> str:
    with pytest.raises(WeatherFileError) as caught:
        read_weather_file(path)
    return str(caught.value)


def test_a_cut_file_is_refused(tmp_path: Path) -> None:
    assert "5000 hours; expected 8760" in refused(written(tmp_path / "cut.epw", epw_lines()[:5008]))
    sample = (SAMPLES / "723170TYA.CSV").read_text().splitlines()
    assert "744 hours; expected 8760" in refused(written(tmp_path / "cut.csv", sample[: 2 + 744]))


def test_a_missing_month_is_refused(tmp_path: Path) -> None:
    content = [
        line.replace("2001,2,", "2001,3,", 1) if line.startswith("2001,2,") else line for line in epw_lines()
    ]
    assert "month 2 has 0 hours; expected 672" in refused(written(tmp_path / "gap.epw", content))


@pytest.mark.parametrize("column", [6, 7])
@pytest.mark.parametrize("value", ["99.9", "-9900", "nan", ""])
def test_a_missing_value_is_refused(tmp_path: Path, column: int, value: str) -> None:
    content = epw_lines()
    cells = content[8 + 99].split(",")
    cells[column] = value
    content[8 + 99] = ",".join(cells)
    assert "hour 100" in refused(written(tmp_path / "hole.epw", content))


@pytest.mark.parametrize(
    "text",
    ["", "nonsense", "LOCATION,x\n", "a,b,c\n1,2,3\n", "\x00\x01\x02", "LOCATION" + ",x" * 9 + "\n" * 9],
)
def test_what_is_no_weather_file_is_refused(tmp_path: Path, text: str) -> None:
    path = tmp_path / "no.epw"
    path.write_text(text)
    assert refused(path).startswith("no.epw:")


def test_no_file_and_too_large_a_file_are_refused(tmp_path: Path) -> None:
    assert "cannot be read" in refused(tmp_path / "absent.epw")
    assert "no file" in refused(tmp_path)
    with (tmp_path / "huge.epw").open("wb") as huge:
        huge.truncate(20_000_001)
    assert "20000001 bytes" in refused(tmp_path / "huge.epw")
    assert "cannot be read" in refused(Path("http://localhost/a.epw"))


def test_without_pvlib_the_message_says_what_to_install(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "pvlib.iotools", None)
    assert "pip install 'speccheck[weather]'" in refused(SAMPLES / "723170TYA.CSV")
