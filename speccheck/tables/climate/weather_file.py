"""Monthly climate out of an hourly weather file in TMY3 or EPW form, read through pvlib."""

from collections.abc import Sequence
from dataclasses import dataclass
from importlib import import_module
from math import exp
from pathlib import Path
from typing import Any

from speccheck.tables.climate.months import MonthlyClimate
from speccheck.tables.climate.weather_file_error import WeatherFileError

__all__ = ["WeatherFile", "WeatherFileError", "read_weather_file"]

_LARGEST = 20_000_000  # bytes; an hourly year has less than 2 MB
_HOURS = (744, 672, 744, 720, 744, 720, 744, 744, 720, 744, 720, 744)
_TEMPERATURES = (-90.0, 60.0)
_DEW_POINTS = (-100.0, 40.0)  # the marks for a missing value, 99.9 and -9900, lie outside


@dataclass(frozen=True, slots=True)
class WeatherFile:
    """What a weather file holds: monthly `climate`, `latitude`, `longitude` [°], `elevation` [m], `name`."""

    climate: MonthlyClimate
    latitude: float
    longitude: float
    elevation: float
    name: str


def _readers(path: Path) -> Any:
    try:
        return import_module("pvlib.iotools")
    except ImportError as error:
        raise WeatherFileError(
            f"{path.name}: reading a weather file needs pvlib; do: pip install 'speccheck[weather]'"
        ) from error


def _first_line(path: Path) -> str:
    try:
        size = path.stat().st_size
        if not path.is_file():
            raise WeatherFileError(f"{path.name}: this is no file; name a TMY3 or EPW file")
        if size > _LARGEST:
            raise WeatherFileError(f"{path.name}: {size} bytes; expected an hourly year, at most {_LARGEST}")
        with path.open(encoding="utf-8", errors="replace") as lines:
            return lines.readline(1000)
    except OSError as error:
        raise WeatherFileError(f"{path.name}: cannot be read ({error.strerror})") from error


def _parse(path: Path) -> tuple[Any, dict[str, Any], list[int], list[int]]:
    """Return the hours, the heading, and month and year of each hour."""
    is_epw = _first_line(path).startswith("LOCATION,")
    readers = _readers(path)
    try:
        if is_epw:
            hours, heading = readers.read_epw(str(path))
            return hours, heading, hours["month"].tolist(), hours["year"].tolist()
        hours, heading = readers.read_tmy3(str(path), coerce_year=None, map_variables=True)
        dates = [str(date).split("/") for date in hours["Date (MM/DD/YYYY)"]]
        return hours, heading, [int(date[0]) for date in dates], [int(date[2]) for date in dates]
    except (ValueError, KeyError, IndexError, TypeError, AttributeError) as error:
        form = "EPW" if is_epw else "TMY3"
        raise WeatherFileError(
            f"{path.name}: cannot be read as {form} ({error}); give an unchanged hourly file"
        ) from error


def _checked(name: str, what: str, values: Sequence[Any], bounds: tuple[float, float]) -> list[float]:
    low, high = bounds
    for hour, value in enumerate(values, start=1):
        if not (isinstance(value, int | float) and low <= value <= high):
            expected = f"expected {low:.0f} to {high:.0f} °C"
            raise WeatherFileError(f"{name}: hour {hour} has the {what} {value} °C; {expected}")
    return [float(value) for value in values]


def _whole_year(name: str, months: list[int]) -> None:
    if len(months) != sum(_HOURS):
        raise WeatherFileError(f"{name}: {len(months)} hours; expected 8760, a year without 29 February")
    for month, expected in enumerate(_HOURS, start=1):
        found = months.count(month)
        if found != expected:
            raise WeatherFileError(f"{name}: month {month} has {found} hours; expected {expected}")


def _vapour_pressure(dew_point: float) -> float:
    """Return the vapour pressure [Pa] of a dew point over water [°C], as weather services report it.

    Source: WMO guide to instruments (No. 8), formula over water, memory.
    """
    return 611.2 * exp(17.62 * dew_point / (243.12 + dew_point))


def _means(months: list[int], values: list[float]) -> tuple[float, ...]:
    sums = [0.0] * 12
    for month, value in zip(months, values, strict=True):
        sums[month - 1] += value
    return tuple(total / hours for total, hours in zip(sums, _HOURS, strict=True))


def read_weather_file(path: str | Path) -> WeatherFile:
    """Return monthly climate and place of an hourly weather file.

    Args:
        path: a TMY3 or EPW file of one year.

    Returns:
        monthly mean temperature [°C] and vapour pressure [Pa], and where the file says it stands.

    Raises:
        WeatherFileError: where pvlib is missing, or the file is too large, malformed, cut, or holds
            impossible values.

    Notes:
        the vapour pressure of a month is the mean of its hourly vapour pressures from the dew point.
        Nothing is fetched.

    Source: form of the files as pvlib reads it; ranges are our own choice.
    """
    file = Path(path)
    hours, heading, months, years = _parse(file)
    _whole_year(file.name, months)
    try:
        place = (float(heading["latitude"]), float(heading["longitude"]), float(heading["altitude"]))
        temperature, dew_point = hours["temp_air"].tolist(), hours["temp_dew"].tolist()
    except (KeyError, TypeError, ValueError) as error:
        raise WeatherFileError(f"{file.name}: {error} is missing or no number") from error
    temperature = _checked(file.name, "temperature", temperature, _TEMPERATURES)
    dew_point = _checked(file.name, "dew point", dew_point, _DEW_POINTS)
    pressures = [_vapour_pressure(value) for value in dew_point]
    span = f"{min(years)}-{max(years)}" if min(years) != max(years) else str(years[0])
    climate = MonthlyClimate(
        _means(months, temperature), _means(months, pressures), file.name, span, "weather-file"
    )
    name = str(heading.get("Name") or heading.get("city") or "").strip('" ')
    return WeatherFile(climate, *place, name)
