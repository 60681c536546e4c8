"""The section at the winter mean: temperature, vapour pressure and saturation from face to face.

Worked out when a report draws it, never for a plain check: no rule reads these lines. The figures rest on the facts of
the layers and of the climate and on the same steady heat flow as the facts of the condensing plane.
"""

from collections.abc import Sequence
from itertools import pairwise
from typing import NamedTuple

from speccheck.physics.moisture_section import (
    MoistureLayer,
    MoistureSection,
    Strips,
    profile_of,
    strips_of,
)
from speccheck.physics.taut_string import line_under
from speccheck.survey.fact import Fact
from speccheck.survey.ledger import Page
from speccheck.survey.subject import Surveyed

__all__ = ["NoProfile", "Point", "WinterProfile", "layer_pages", "winter_profile"]

AIR_LAYER_SD = 0.01
"""The sd of an air layer [m], whatever its depth: ISO 13788:2012, 4.4 (memory)."""

_OPEN_AIR = ("outdoors", "balcony", "attic")
_STILL_UNEVEN = 1e-12


class Point(NamedTuple):
    """One place in the section.

    ``layer`` counts from the inside, 0 first; ``depth`` is 0 at its inner and 1 at its outer face. ``temperature``
    [°C]; ``pressure`` and ``saturation`` [Pa]; ``condensing`` [kg/(m²·s)], 0 where no water gathers.
    """

    layer: int
    depth: float
    temperature: float
    pressure: float
    saturation: float
    condensing: float


class WinterProfile(NamedTuple):
    """The lines through a section at the mean of the three coldest months.

    ``points`` run from the inside surface to the outside surface of the layers that take part; ``indoor`` and
    ``outdoor`` are the temperature [°C] and vapour pressure [Pa] of the air on either side; ``dew_point`` that of the
    room [°C]. ``plane`` is the number of the layer whose inner face is the condensing plane, None where there is none.
    """

    points: tuple[Point, ...]
    indoor: tuple[float, float]
    outdoor: tuple[float, float]
    dew_point: float
    plane: int | None

    @property
    def condensing(self) -> tuple[Point, ...]:
        """The points where vapour that diffuses condenses."""
        return tuple(point for point in self.points if point.condensing > 0.0)


class NoProfile(NamedTuple):
    """Why there are no lines: a reason in words, and the questions whose answers are missing."""

    reason: str
    questions: tuple[str, ...] = ()


def layer_pages(surveyed: Surveyed, assembly: str) -> list[Page]:
    """Return the pages of an assembly's layers, inside first, finishes and facings on their own."""
    return [subject.pages[0] for subject in surveyed.of_kind("layer") if subject.pages[1].place == assembly]


def winter_profile(surveyed: Surveyed, assembly: str) -> WinterProfile | NoProfile:
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
        return NoProfile(f"It borders on {outside}, whose climate is not that of the open air.")
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
        return NoProfile(f"The lines cannot be worked out: {error}.")


def _solid(layers: Sequence[Page]) -> list[Page]:
    return [one for one in layers if one["group"].value != "air"]


def _absent(facts: Sequence[Fact]) -> NoProfile | None:
    missing = tuple(dict.fromkeys(gap.question for fact in facts for gap in fact.missing))
    if missing:
        return NoProfile("Something that the lines rest on is not shown.", missing)
    unknown = [fact for fact in facts if not isinstance(fact.value, float)]
    return NoProfile(f"{unknown[0].name.partition('.')[2]} does not apply.") if unknown else None


def _number(fact: Fact) -> float:
    assert isinstance(fact.value, float)
    return fact.value


def _sd(layer: Page) -> float:
    return AIR_LAYER_SD if layer["group"].value == "air" else _number(layer["sd_dry"])


def _plane_index(layers: Sequence[Page], page: Page) -> int | None:
    plane = page["condensing_plane"].value
    return next((i for i, layer in enumerate(layers) if layer.place == plane), None)


def _profile(layers: Sequence[Page], values: Sequence[float], plane: int | None) -> WinterProfile:
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
    return WinterProfile(
        points=_points(strips, lines.temperatures, vapour.pressures, lines.saturation, rates),
        indoor=(inside, pressure_in),
        outdoor=(outside, pressure_out),
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
