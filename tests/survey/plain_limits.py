"""The limits of an assembly found the slow way: every verdict by halves, nothing kept, nothing taken from another room."""

from __future__ import annotations

from typing import TYPE_CHECKING

from speccheck.physics.humidity_dependent import gathers, month_begun_dry
from speccheck.physics.moisture_year import TRACE
from speccheck.physics.surface_year import surface_year
from speccheck.survey.moisture.balance import Prepared, balances_of, prepared
from speccheck.survey.moisture.climate import Year, indoor_at
from speccheck.survey.moisture.wood_face import content_of, wood_faces, wood_places

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from speccheck.physics.followed_section import FollowedSection
    from speccheck.physics.monthly_balance import MonthlyClimate
    from speccheck.survey.moisture.case import Case
    from speccheck.survey.moisture.wood_face import WoodPlace

__all__ = ["PlainLimits"]

_STEPS, _TRACE = 256, TRACE / 12.0


class PlainLimits:
    """The limits of one assembly, in steps of humidity."""

    def __init__(self, case: Case) -> None:
        assert isinstance(case.year, Year)
        self.case, self.year = case, case.year

    def dry(self) -> int:
        """Return up to which step nothing condenses in any month."""
        limit = _STEPS
        paths = self._paths()
        for path in paths:
            plain = self._dry(path.plain, 0, limit)
            if path.followed is None or (path is not paths[0] and plain == limit):
                limit = plain
            else:
                limit = self._dry(path.followed, 0 if path is paths[0] else plain, limit)
        return limit

    def drying(self) -> int:
        """Return up to which step what condenses dries within the year."""
        return _greatest(lambda step: not _any_accumulates(self._paths(), self._at(step)), self.dry(), _STEPS)

    def wood(self) -> int | None:
        """Return up to which step the wood stays within what it bears; None where there is none."""
        places = [place for place in wood_places(self.case.section, self.case.paths) if place.limit]
        if not places:
            return None
        limit, low, paths = _STEPS, self.dry(), self._paths()
        for place in places:
            path = paths[place.path]
            section = path.plain if place.path else path.followed or path.plain
            for month in range(1, 13):
                limit = self._wood_month(section, place, month, limit)
        if limit <= low:
            return limit
        return _STEPS if self._wood_year(_STEPS) else _greatest(self._wood_year, low, _STEPS)

    def surface(self, factor: float) -> int:
        """Return up to which step no month asks a greater temperature factor of the surface."""

        def holds(step: int) -> bool:
            try:
                governs = surface_year(self._at(step)).governs
            except ValueError:
                return False
            return governs is None or governs.factor is None or governs.factor <= factor

        return _greatest(holds, 0, _STEPS)

    def _paths(self) -> list[Prepared]:
        return [prepared(path, self.case.films) for path in self.case.paths]

    def _at(self, step: int) -> MonthlyClimate:
        return indoor_at(self.year, step / _STEPS)

    def _dry(self, section: FollowedSection, floor: int, limit: int) -> int:
        outside = self.year.climate.outside_temperature
        for month in sorted(range(1, 13), key=lambda month: outside[month - 1]):

            def dry(step: int, month: int = month) -> bool:
                return not gathers(section, self._at(step), month, _TRACE)

            if limit > floor and not dry(limit):
                limit = _greatest(dry, floor, limit)
        return limit

    def _wood_month(self, section: FollowedSection, place: WoodPlace, number: int, limit: int) -> int:
        face = section.strips.faces(place.layer)[place.side]

        def bears(step: int) -> bool:
            month = month_begun_dry(section, self._at(step), number)
            humidity = min(month.pressures[face] / month.saturation[face], 1.0)
            return _within(place, content_of(month.temperatures[face], humidity))

        return limit if limit == 0 or bears(limit) else _greatest(bears, 0, limit)

    def _wood_year(self, step: int) -> bool:
        faces = wood_faces(self.case.section, balances_of(self._paths(), self._at(step)))
        return all(_within(face, content) for face in faces for content in face.moisture)


def _any_accumulates(paths: Sequence[Prepared], climate: MonthlyClimate) -> bool:
    return any(balance.year.verdict == "accumulates" for balance in balances_of(paths, climate))


def _within(place: object, content: float | None) -> bool:
    limit = getattr(place, "limit", None)
    most = limit.limit if limit is not None else None
    return most is None or content is None or content <= most


def _greatest(holds: Callable[[int], bool], low: int, high: int) -> int:
    top = high
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (middle, high) if holds(middle) else (low, middle)
    return top if low + 1 == top and holds(top) else low
