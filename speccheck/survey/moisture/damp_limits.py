"""Entering the indoor humidities up to which the inside surface and the wood in an assembly stay dry enough."""

from collections.abc import Callable, Sequence

from speccheck.physics.followed_section import FollowedSection
from speccheck.physics.humidity_dependent import month_begun_dry
from speccheck.physics.monthly_balance import MonthlyClimate
from speccheck.physics.surface_year import surface_year
from speccheck.survey.fact import Gap
from speccheck.survey.moisture.balance import Prepared, balances_of, prepared
from speccheck.survey.moisture.case import MONTHLY_BALANCE, Case
from speccheck.survey.moisture.climate import Year
from speccheck.survey.moisture.limits import STEPS, by_step, greatest
from speccheck.survey.moisture.wood_face import WoodPlace, content_of, wood_faces, wood_places
from speccheck.tables.material import MoistureLimit

__all__ = ["enter_surface_limit", "enter_wood_limit"]

_SURFACE_SOURCE = "ISO 13788:2012, 5 (read in textbook notes)"


def enter_surface_limit(case: Case) -> tuple[Gap, ...] | None:
    """Enter the winter humidity indoors up to which no month asks for a warmer surface than the plain section has."""
    year = case.year
    if not isinstance(year, Year):
        return year
    own, at = case.page.fact("assembly.frsi"), by_step(year)
    if own is None or not isinstance(own.value, float):
        return own.missing if own is not None else None
    factor = own.value

    def holds(step: int) -> bool:
        try:
            governs = surface_year(at(step)).governs
        except (
            ValueError
        ):  # near saturation in a room near boiling no surface can be told, and none is warm enough
            return False
        return governs is None or governs.factor is None or governs.factor <= factor

    limit = greatest(holds, 0, STEPS)
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
    limit = _wood_steps(case, places, by_step(year))
    words = " and the ".join(place.words for place in places)
    method = f"bisection on the winter humidity indoors, moisture content at the {words} by month, to 0.4 %"
    facts = case.rests_on(year.facts)
    case.enter("humidity_wood_bears", limit / STEPS, facts, method, MONTHLY_BALANCE)
    return None


def _wood_steps(case: Case, places: Sequence[WoodPlace], at: Callable[[int], MonthlyClimate]) -> int:
    """Return the greatest step of humidity that the wood bears.

    While nothing condenses each month stands for itself, and the months can be asked one by one; above that, water left
    from the month before counts, and the year is run as a whole.
    """
    paths = [prepared(path, case.films) for path in case.paths]
    limit = STEPS
    for place in places:
        path = paths[place.path]
        section = path.plain if place.path else path.followed or path.plain
        for month in range(1, 13):
            limit = _month_steps(section, place, month, at, limit)
    dry = case.page.fact("assembly.humidity_without_condensation")
    low = round(dry.value * STEPS) if dry is not None and isinstance(dry.value, float) else 0
    if limit <= low:
        return limit
    if _year_bears(case, paths, at(STEPS)):  # as much wood does, that lies warm or dries fast
        return STEPS
    return greatest(lambda step: _year_bears(case, paths, at(step)), low, STEPS)


def _month_steps(
    section: FollowedSection, place: WoodPlace, number: int, at: Callable[[int], MonthlyClimate], limit: int
) -> int:
    """Return the greatest step up to ``limit`` that the wood at a place bears in one month that begins dry."""
    face = section.strips.faces(place.layer)[place.side]

    def bears(step: int) -> bool:
        month = month_begun_dry(section, at(step), number)
        humidity = min(month.pressures[face] / month.saturation[face], 1.0)
        return _within(place.limit, content_of(month.temperatures[face], humidity))

    return limit if limit == 0 or bears(limit) else greatest(bears, 0, limit)


def _year_bears(case: Case, paths: Sequence[Prepared], climate: MonthlyClimate) -> bool:
    faces = wood_faces(case.section, balances_of(paths, climate))
    return all(_within(face.limit, content) for face in faces for content in face.moisture)


def _within(limit: MoistureLimit | None, content: float | None) -> bool:
    most = limit.limit if limit is not None else None
    return most is None or content is None or content <= most
