"""What the moisture tests share: the reference year as a weather file, any other twelve months, and a wall of layers."""

import math
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any, NamedTuple

import pytest

from speccheck.physics.psychrometrics import vapour_pressure

DAYS = (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)
# A made-up year without a station, for which independent implementations were run.
TEMPERATURES = (-1.0, 0.0, 4.0, 9.0, 14.0, 17.0, 18.0, 18.0, 14.0, 9.0, 4.0, 1.0)
HUMIDITIES = (0.85, 0.84, 0.78, 0.72, 0.70, 0.70, 0.72, 0.74, 0.78, 0.83, 0.88, 0.88)


def _dew_point_over_water(pressure: float) -> float:
    """Return the dew point [°C] that a weather file would give for a vapour pressure [Pa]."""
    log = math.log(pressure / 611.2)
    return 243.12 * log / (17.62 - log)


@pytest.fixture(scope="session")
def reference_year(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder with ``reference.epw``: every hour of a month at the monthly means of the reference year."""
    folder = tmp_path_factory.mktemp("reference-year")
    lines = ["LOCATION,Nowhere,XX,XXX,made up,000000,45.0,8.0,1.0,120.0", *["DESIGN CONDITIONS,0"] * 7]
    for month, days in enumerate(DAYS, 1):
        temperature = TEMPERATURES[month - 1]
        dew = _dew_point_over_water(vapour_pressure(temperature, HUMIDITIES[month - 1]))
        lines += [
            f"2001,{month},{day},{hour},0,?,{temperature},{dew:.8f},70,101325" + ",0" * 25
            for day in range(1, days + 1)
            for hour in range(1, 25)
        ]
    (folder / "reference.epw").write_text("\n".join(lines) + "\n")
    return folder


class _Read(NamedTuple):
    climate: Any


class _Months(NamedTuple):
    temperature: tuple[float, ...]
    vapour_pressure: tuple[float, ...]


@pytest.fixture(scope="session")
def moist(facts_of: Callable[..., Any]) -> Callable[..., Any]:
    """Return what surveys a document whose weather file holds the reference year, or other twelve months.

    ``temperatures`` [°C] and ``pressures`` [Pa] are the other months; one number stands for a year of it.
    """

    def facts(
        document: Any,
        temperatures: Sequence[float] | float = TEMPERATURES,
        pressures: Sequence[float] | float | None = None,
    ) -> Any:
        outside = _twelve(temperatures)
        if pressures is None:
            pressures = [vapour_pressure(t, rh) for t, rh in zip(outside, HUMIDITIES, strict=True)]
        with pytest.MonkeyPatch.context() as patch:
            months = _Months(outside, _twelve(pressures))
            patch.setattr("speccheck.tables.climate.read_weather_file", lambda _: _Read(months))
            return facts_of(document)

    return facts


def _twelve(values: Sequence[float] | float) -> tuple[float, ...]:
    return (float(values),) * 12 if isinstance(values, int | float) else tuple(values)


@pytest.fixture(scope="session")
def year_table() -> Callable[..., Any]:
    """Return what gives the year of moisture of the assembly ``wall``."""
    return lambda facts: facts.surveyed.ledger.page("assembly", "wall").table


_CAVITY = {"id": "cavity", "material": "air-cavity", "thickness": "25 mm", "ventilation": "ventilated"}


def _layer(name: str, resistance: float, sd: float, more: dict[str, Any]) -> dict[str, Any]:
    cups = {"dry-cup": f"sd {sd!r} m", "wet-cup": f"sd {sd!r} m"}
    return {"id": name, "thermal-resistance": f"{resistance!r} m²·K/W", "permeance": cups} | more


@pytest.fixture(scope="session")
def section_document() -> Callable[..., dict[str, Any]]:
    """Return what builds a document of one assembly ``wall`` from layers, inside first.

    A layer is (name, R [m²·K/W], sd [m], material, more keys): both cups are declared alike, so that every value the
    balance takes is the one given. ``cavity`` in the place of one is a ventilated air layer.
    """

    def build(
        layers: Sequence[Any],
        indoor: dict[str, Any] | None = None,
        kind: str = "wall",
        project: dict[str, Any] | None = None,
        **assembly: Any,
    ) -> dict[str, Any]:
        stated: list[dict[str, Any]] = []
        for layer in layers:
            if layer == "cavity":
                stated.append(_CAVITY)
                continue
            name, resistance, sd, material, *more = layer
            thickness = {} if material == "polyethylene-film" else {"thickness": "20 mm"}
            extra = {"material": material, **thickness, **(more[0] if more else {})}
            stated.append(_layer(name, float(resistance), float(sd), extra))
        return {
            "speccheck": 1,
            "project": {
                "place": {"weather-file": "reference.epw"},
                "indoor": {"temperature": "20 °C", "humidity-class": 2} if indoor is None else indoor,
                **(project or {}),
            },
            "assemblies": {"wall": {"kind": kind, "layers": stated, **assembly}},
        }

    return build
