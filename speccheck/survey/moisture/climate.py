"""The two climates of a year: the place's twelve months outside, and the rooms by set-point, class or daily mean."""

from collections.abc import Callable, Sequence
from typing import NamedTuple

from speccheck.physics.indoor_climate import (
    IndoorMonth,
    by_daily_mean,
    by_humidity_class,
    by_set_point,
    measured,
)
from speccheck.physics.monthly_balance import MonthlyClimate
from speccheck.survey.fact import Fact, Gap, Origin
from speccheck.survey.ledger import Page

__all__ = ["Year", "indoor_at", "year_of"]


class Year(NamedTuple):
    """Both climates by month, how the indoor one came about, and the facts both rest on."""

    climate: MonthlyClimate
    method: str
    facts: tuple[Fact, ...]
    dried: bool = False
    """Whether the rooms may hold less vapour than the outdoor air: they are cooled, or were measured so."""


def year_of(climate: Page, project: Page) -> Year | tuple[Gap, ...]:
    """Return both climates of the place, or the questions that must be answered first."""
    months = climate.table
    outside = climate["winter_mean_temperature"]
    if months is None or not outside.known:
        return outside.missing
    inside = project["indoor_temperature"]
    temperature = inside.value if isinstance(inside.value, float) else 21.0
    class_, humidity = project["humidity_class"], project["indoor_rh"]
    declared = project.table
    if declared is not None:
        rooms = list(measured(declared.temperature, declared.humidity))
        return Year(_joined(rooms, months), "the months declared", (outside, inside, humidity), dried=True)
    if isinstance(class_.value, float) and class_.value < 5:
        number = int(class_.value)
        rooms = _months(months, lambda t, p: by_humidity_class(t, p, number, temperature))  # type: ignore[arg-type]
        method = f"humidity class {number} of ISO 13788, with its factor of 1.10"
        return Year(_joined(rooms, months), method, (outside, inside, class_))
    if isinstance(humidity.value, float):
        point, cooled = by_set_point(temperature, humidity.value), project["cooled"]
        if cooled.value is True:
            method = "set-point through the year, since the rooms are cooled and so dried"
            rooms = _months(months, lambda *_: point)
            return Year(_joined(rooms, months), method, (outside, inside, humidity, cooled), dried=True)
        rooms = _months(months, lambda _, pressure: _at_least(point, pressure))
        method = "set-point of the winter; in the other months never drier than outdoor air"
        return Year(_joined(rooms, months), method, (outside, inside, humidity))
    if class_.known:
        # a pool or a laundry has no excess of its own, and the model of dwellings does not stand for it
        return humidity.missing
    rooms = _months(months, lambda t, _: by_daily_mean(t))
    model = project.from_table(
        "indoor_model",
        "daily mean",
        source="EN 15026:2007, annex C, normal occupancy (from memory)",
        stands_for="indoor climate through the year by the outdoor daily mean, since no humidity is declared",
        origin=Origin.ASSUMED,
    )
    return Year(
        _joined(rooms, months), "the daily mean outdoors, since no humidity is declared", (outside, model)
    )


def indoor_at(year: Year, humidity: float) -> MonthlyClimate:
    """Return the climates of a year with another winter humidity indoors [-], at the temperatures the rooms have."""
    climate = year.climate
    # rooms are as warm in most months: one set-point serves all of them
    held = {one: by_set_point(one, humidity) for one in set(climate.inside_temperature)}
    given = zip(climate.inside_temperature, climate.outside_pressure, strict=True)
    rooms = [
        held[temperature] if year.dried else _at_least(held[temperature], pressure)
        for temperature, pressure in given
    ]
    return MonthlyClimate(
        climate.inside_temperature,
        tuple([room.pressure for room in rooms]),
        climate.outside_temperature,
        climate.outside_pressure,
    )


def _months(months: "object", model: Callable[[float, float], IndoorMonth]) -> list[IndoorMonth]:
    pairs = zip(months.temperature, months.vapour_pressure, strict=True)  # type: ignore[attr-defined]
    return [model(temperature, pressure) for temperature, pressure in pairs]


def _at_least(room: IndoorMonth, outdoor_pressure: float) -> IndoorMonth:
    """Return a room that is not drier than the outdoor air: nothing takes moisture out of it."""
    if room.pressure >= outdoor_pressure:
        return room
    most = by_set_point(room.temperature, 1.0).pressure
    return IndoorMonth(room.temperature, min(outdoor_pressure, most), room.capped)


def _joined(rooms: Sequence[IndoorMonth], months: "object") -> MonthlyClimate:
    return MonthlyClimate(
        tuple(room.temperature for room in rooms),
        tuple(room.pressure for room in rooms),
        tuple(months.temperature),  # type: ignore[attr-defined]
        tuple(months.vapour_pressure),  # type: ignore[attr-defined]
    )
