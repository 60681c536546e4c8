"""Entering the indoor humidities up to which the inside surface and the wood in an assembly stay dry enough."""

from collections.abc import Sequence

from speccheck.physics.moisture_year import MoistureMonth
from speccheck.physics.wood import humidity_for_moisture_content
from speccheck.survey.fact import Gap
from speccheck.survey.moisture.case import MONTHLY_BALANCE, Case
from speccheck.survey.moisture.climate import Year
from speccheck.survey.moisture.rooms import STEPS, rooms_of
from speccheck.survey.moisture.stepped import Stepped, SteppedPath, at_step
from speccheck.survey.moisture.turning import greatest, greatest_near
from speccheck.survey.moisture.wood_face import WoodPlace, content_of, wood_places

__all__ = ["enter_surface_limit", "enter_wood_limit"]

_SURFACE_SOURCE = "ISO 13788:2012, 5 (read in textbook notes)"


def enter_surface_limit(case: Case) -> tuple[Gap, ...] | None:
    """Enter the winter humidity indoors up to which no month asks for a warmer surface than the plain section has."""
    year = case.year
    if not isinstance(year, Year):
        return year
    own, rooms = case.page.fact("assembly.frsi"), rooms_of(year)
    if own is None or not isinstance(own.value, float):
        return own.missing if own is not None else None
    factor = own.value
    limit = greatest(lambda step: rooms.surface_factor(step) <= factor, 0, STEPS)
    method = "bisection on the winter humidity indoors, 80 % at the surface in no month, to 0.4 %"
    case.enter("humidity_surface_bears", limit / STEPS, (own, *year.facts), method, _SURFACE_SOURCE)
    return None


def enter_wood_limit(case: Case) -> tuple[Gap, ...] | None:
    """Enter the winter humidity indoors up to which sheathing and framing stay within what their material bears."""
    year = case.year
    if not isinstance(year, Year):
        return year
    places = [place for place in wood_places(case.section, case.paths) if place.limit]
    if not places:
        case.page.inapplicable(
            "humidity_wood_bears", "no wood toward the cold whose table names what it bears"
        )
        return None
    limit = _wood_steps(case, places)
    words = " and the ".join(place.words for place in places)
    method = f"bisection on the winter humidity indoors, moisture content at the {words} by month, to 0.4 %"
    facts = case.rests_on(year.facts)
    case.enter("humidity_wood_bears", limit / STEPS, facts, method, MONTHLY_BALANCE)
    return None


def _wood_steps(case: Case, places: Sequence[WoodPlace]) -> int:
    """Return the greatest step of humidity that the wood bears.

    While nothing condenses each month stands for itself, and the months can be asked one by one; above that, water left
    from the month before counts, and the year is run as a whole.
    """
    paths, limit = case.steps, STEPS
    for place in places:
        path = paths[place.path]
        section = path.plain if place.path else path.best
        for month in range(1, 13):
            limit = _month_steps(section, place, month, limit)
    dry = case.page.fact("assembly.humidity_without_condensation")
    low = round(dry.value * STEPS) if dry is not None and isinstance(dry.value, float) else 0
    if limit <= low:
        return limit
    if _year_bears(paths, places, STEPS):  # as much wood does, that lies warm or dries fast
        return STEPS
    return greatest(lambda step: _year_bears(paths, places, step), low, STEPS)


def _month_steps(section: Stepped, place: WoodPlace, number: int, limit: int) -> int:
    """Return the greatest step up to ``limit`` that the wood at a place bears in one month that begins dry."""
    face = section.section.strips.faces(place.layer)[place.side]

    def bears(step: int) -> bool:
        return _bears(place, section.month(step, number), face)

    if limit == 0 or bears(limit):
        return limit
    if not section.turns_once:
        return greatest(bears, 0, limit)
    month = section.month(limit, number)
    humidity = _humidity_for(place, month.temperatures[face])
    return greatest_near(
        bears, 0, limit, section.room_step(number, [(face, humidity * month.saturation[face])], limit)
    )


def _humidity_for(place: WoodPlace, temperature: float) -> float:
    """Return the humidity of the air at which the wood comes to what it bears, at a temperature [°C]."""
    most = place.limit.limit if place.limit is not None else None
    found = humidity_for_moisture_content(temperature, most) if most is not None else None
    return 1.0 if found is None else found


def _year_bears(paths: Sequence[SteppedPath], places: Sequence[WoodPlace], step: int) -> bool:
    sections = list(at_step(paths, step))
    for place in places:
        section = sections[place.path]
        face = section.section.strips.faces(place.layer)[place.side]
        if not all(_bears(place, month, face) for month in section.months(step)):
            return False
    return True


def _bears(place: WoodPlace, month: MoistureMonth, face: int) -> bool:
    most = place.limit.limit if place.limit is not None else None
    content = content_of(month.temperatures[face], min(month.pressures[face] / month.saturation[face], 1.0))
    return most is None or content is None or content <= most
