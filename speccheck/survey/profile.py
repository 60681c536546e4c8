"""The lines through a section, at the winter mean and by month: temperature, vapour pressure and saturation.

Worked out when a report draws it, never for a plain check: no rule reads these lines. The figures rest on the facts of
the layers and of the climate and on the same steady heat flow as the facts of the condensing plane.
"""

from collections.abc import Sequence
from itertools import pairwise
from typing import NamedTuple, TypeAlias

from speccheck.physics.moisture_section import (
    MoistureLayer,
    MoistureSection,
    Strips,
    profile_of,
    strips_of,
)
from speccheck.physics.psychrometrics import dew_point, saturation_pressure
from speccheck.physics.taut_string import line_under
from speccheck.survey.fact import Fact
from speccheck.survey.ledger import Page
from speccheck.survey.moisture.path import AIR_LAYER_SD
from speccheck.survey.moisture.table import MonthRow, YearTable
from speccheck.survey.subject import Surveyed

__all__ = ["NoLines", "Point", "SectionLines", "layer_pages", "month_lines", "winter_profile"]

_OPEN_AIR = ("outdoors", "balcony", "attic")
_STILL_UNEVEN = 1e-12
_STEPS = 4

Face: TypeAlias = tuple[tuple[int, float], float, float, float]
"""A face of the balance: layer and depth, temperature [°C], vapour pressure [Pa], water held [kg/m²]."""


class Point(NamedTuple):
    """One place in the section.

    ``layer`` counts from the inside, 0 first; ``depth`` is 0 at its inner and 1 at its outer face. ``temperature``
    [°C]; ``pressure`` and ``saturation`` [Pa]. ``condensing`` is 0 where it is dry: else at the winter mean the rate at
    which water gathers [kg/(m²·s)], in a month the water held at its end [kg/m²].
    """

    layer: int
    depth: float
    temperature: float
    pressure: float
    saturation: float
    condensing: float


class SectionLines(NamedTuple):
    """The lines through a section at the mean of a season or a month.

    ``points`` run from the inside surface to the outside surface of the layers that take part; ``dew_point`` is that of
    the room [°C]. ``plane`` is the number of the layer whose inner face is the condensing plane, None where there is
    none.
    """

    points: tuple[Point, ...]
    dew_point: float
    plane: int | None

    @property
    def condensing(self) -> tuple[Point, ...]:
        """The points where vapour that diffuses condenses."""
        return tuple(point for point in self.points if point.condensing > 0.0)


class NoLines(NamedTuple):
    """Why there are no lines: a reason in words, and the questions whose answers are missing."""

    reason: str
    questions: tuple[str, ...] = ()


def layer_pages(surveyed: Surveyed, assembly: str) -> list[Page]:
    """Return the pages of an assembly's layers, inside first, finishes and facings on their own."""
    return [subject.pages[0] for subject in surveyed.of_kind("layer") if subject.pages[1].place == assembly]


def winter_profile(surveyed: Surveyed, assembly: str) -> SectionLines | NoLines:
    """Return the lines through an assembly at the winter mean, or why there are none.

    Args:
        surveyed: the facts.
        assembly: its name in the document.

    Returns:
        the profile along the insulated path, away from framing, dry cup throughout; layers beyond a ventilated cavity
        take no part.

    Notes:
        Steady heat flow through resistances in series; vapour by the taut string under saturation, so that the line
        shows condensation where it occurs. Storage, rain, sun and moving air are not in it.

    Source: ISO 13788:2012, clause 6, memory; saturation by its annex E.
    """
    page = surveyed.ledger.page("assembly", assembly)
    outside = page["outside"].value
    if outside not in _OPEN_AIR:
        return NoLines(f"It borders on {outside}, whose climate is not that of the open air.")
    layers = [one for one in layer_pages(surveyed, assembly) if one["side"].value != "beyond"]
    project, climate = surveyed.ledger.page("project", "project"), surveyed.ledger.page("climate", "climate")
    ends = [
        page["film_inside"],
        page["film_outside"],
        project["indoor_temperature"],
        climate["winter_mean_temperature"],
        project["indoor_vapour_pressure"],
        climate["winter_mean_vapour_pressure"],
        project["indoor_dew_point"],
    ]
    needed = [*ends, *(one["resistance"] for one in layers), *(one["sd_dry"] for one in _solid(layers))]
    absent = _absent(needed)
    if absent is not None:
        return absent
    values = [_number(fact) for fact in ends]
    try:
        return _profile(layers, values, _plane_index(layers, page))
    except ValueError as error:
        return NoLines(f"The lines cannot be worked out: {error}.")


def month_lines(surveyed: Surveyed, assembly: str) -> tuple[tuple[str, SectionLines], ...]:
    """Return the lines of each month of the moisture balance, January first; none where there is no balance.

    Notes:
        They follow the path of the balance (through the insulation or through the framing, whichever is worse) with the
        cups it uses. Where a place holds water at the end of the month it counts as wet.
    """
    page = surveyed.ledger.page("assembly", assembly)
    verdict = page.fact("assembly.moisture_verdict")
    if verdict is None or not verdict.known or page.table is None:
        return ()
    table: YearTable = page.table
    plane = _plane_index(layer_pages(surveyed, assembly), page)
    return tuple([(row.month, _month(table.places, row, plane)) for row in table.months])


def _month(places: Sequence[tuple[int, float]], row: MonthRow, plane: int | None) -> SectionLines:
    faces = [
        (place, temperature, min(humidity, 1.0) * saturation_pressure(temperature), water)
        for place, temperature, humidity, water in zip(
            places, row.temperature, row.humidity, row.water, strict=True
        )
    ]
    points = [point for before, after in pairwise(faces) for point in _between(before, after)]
    # the balance may end at a ventilated cavity before it
    reached = any(layer == plane for layer, _ in places)
    return SectionLines(tuple(points), dew_point(faces[0][2]), plane if reached else None)


def _between(before: Face, after: Face) -> list[Point]:
    """Return both ends of a stretch of one layer and what lies between: straight in both, saturation curved."""
    (layer, start), (next_layer, end) = before[0], after[0]
    end = 1.0 if next_layer != layer else end
    points = []
    for step in range(_STEPS + 1):
        share = step / _STEPS
        temperature = before[1] + (after[1] - before[1]) * share
        pressure = before[2] + (after[2] - before[2]) * share
        water = before[3] if step == 0 else after[3] if step == _STEPS else 0.0
        points.append(
            Point(
                layer,
                start + (end - start) * share,
                temperature,
                pressure,
                saturation_pressure(temperature),
                water,
            )
        )
    return points


def _solid(layers: Sequence[Page]) -> list[Page]:
    return [one for one in layers if one["group"].value != "air"]


def _absent(facts: Sequence[Fact]) -> NoLines | None:
    missing = tuple(dict.fromkeys(gap.question for fact in facts for gap in fact.missing))
    if missing:
        return NoLines("Something that the lines rest on is not shown.", missing)
    unknown = [fact for fact in facts if not isinstance(fact.value, float)]
    return NoLines(f"{unknown[0].name.partition('.')[2]} does not apply.") if unknown else None


def _number(fact: Fact) -> float:
    assert isinstance(fact.value, float)
    return fact.value


def _sd(layer: Page) -> float:
    return AIR_LAYER_SD if layer["group"].value == "air" else _number(layer["sd_dry"])


def _plane_index(layers: Sequence[Page], page: Page) -> int | None:
    plane = page["condensing_plane"].value
    return next((i for i, layer in enumerate(layers) if layer.place == plane), None)


def _profile(layers: Sequence[Page], values: Sequence[float], plane: int | None) -> SectionLines:
    film_in, film_out, inside, outside, pressure_in, pressure_out, dew_point = values
    section = MoistureSection(
        tuple([MoistureLayer(_number(layer["resistance"]), _sd(layer)) for layer in layers]),
        film_in,
        film_out,
    )
    strips = strips_of(section)
    lines = profile_of(strips, inside, outside, pressure_in, pressure_out)
    vapour = line_under(strips.positions, lines.ceiling)
    rates = {
        contact: rate
        for contact, rate in zip(vapour.contacts, vapour.rates, strict=True)
        if rate > _STILL_UNEVEN
    }
    return SectionLines(
        points=_points(strips, lines.temperatures, vapour.pressures, lines.saturation, rates),
        dew_point=dew_point,
        plane=plane,
    )


def _points(
    strips: Strips,
    temperatures: Sequence[float],
    pressures: Sequence[float],
    saturation: Sequence[float],
    rates: dict[int, float],
) -> tuple[Point, ...]:
    """Return both faces of every layer, and what lies between them."""
    count = len(strips.places)
    points = []
    for number, (place, after) in enumerate(pairwise(strips.places)):
        figures = [(temperatures[n], pressures[n], saturation[n]) for n in (number, number + 1)]
        points.append(Point(place.layer, place.depth, *figures[0], rates.get(number, 0.0)))
        if after.layer != place.layer or number == count - 2:
            points.append(Point(place.layer, 1.0, *figures[1], rates.get(number + 1, 0.0)))
    return tuple(points)
