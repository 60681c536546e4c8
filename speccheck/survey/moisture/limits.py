"""Entering what an assembly is good for: the indoor humidities and the outboard resistance at which the year turns."""

from collections.abc import Callable
from functools import cache

from speccheck.physics.followed_section import FollowedSection
from speccheck.physics.humidity_dependent import gathers
from speccheck.physics.moisture_year import TRACE
from speccheck.physics.monthly_balance import MonthlyClimate
from speccheck.survey.fact import Gap
from speccheck.survey.moisture.balance import Prepared, any_accumulates, prepared
from speccheck.survey.moisture.case import MONTHLY_BALANCE, Case
from speccheck.survey.moisture.climate import Year, indoor_at

__all__ = [
    "STEPS",
    "by_step",
    "enter_dry_limit",
    "enter_drying_limit",
    "enter_outboard_limit",
    "greatest",
]

STEPS = 256
"""Steps of humidity from dry to saturated air: a limit is told to 0.4 %."""
_R_STEP, _FIRST_R_STEPS, _MOST_R_STEPS = 0.04, 16, 500
"""Resistance [m²·K/W] is tried in steps of 0.04, up to 20."""

_TRACE = TRACE / 12.0
"""What a month may gather and still count as dry [kg/m²]: twelve of them are no more than a trace in a year."""
_At = Callable[[int], MonthlyClimate]
_FOLLOWED = "curves followed as in the balance, the worse of the paths, to 0.4 %"


def enter_dry_limit(case: Case) -> tuple[Gap, ...] | None:
    """Enter the winter humidity indoors up to which nothing condenses in any month."""
    year = case.year
    if not isinstance(year, Year):
        return year
    paths = [prepared(path, case.films) for path in case.paths]
    method = f"bisection on the winter humidity indoors, {_FOLLOWED}"
    limit = _dry_steps(paths, by_step(year)) / STEPS
    case.enter("humidity_without_condensation", limit, case.rests_on(year.facts), method, MONTHLY_BALANCE)
    return None


def enter_drying_limit(case: Case) -> tuple[Gap, ...] | None:
    """Enter the winter humidity indoors up to which what condenses dries within the year."""
    year = case.year
    if not isinstance(year, Year):
        return year
    paths, at = [prepared(path, case.films) for path in case.paths], by_step(year)
    dry = case.page.fact("assembly.humidity_without_condensation")
    low = round(dry.value * STEPS) if dry is not None and isinstance(dry.value, float) else 0
    limit = greatest(lambda step: not any_accumulates(paths, at(step)), low, STEPS)
    method = f"bisection on the winter humidity indoors, {_FOLLOWED}"
    case.enter("humidity_drying_in_year", limit / STEPS, case.rests_on(year.facts), method, MONTHLY_BALANCE)
    return None


def enter_outboard_limit(case: Case) -> tuple[Gap, ...] | None:
    """Enter the resistance that added outboard of the plane, open to vapour, ends condensation."""
    year = case.year
    if not isinstance(year, Year):
        return year
    plane = case.section.plane
    if plane is None or plane >= len(case.paths[0].slices) or _closed_outside(case):
        return None
    added: dict[int, list[Prepared]] = {}

    def paths(step: int) -> list[Prepared]:
        if step not in added:
            added[step] = [prepared(path, case.films, step * _R_STEP) for path in case.paths]
        return added[step]

    least = _least_dry(paths, year.climate)
    more = None if least is None else least * _R_STEP
    method = "bisection on resistance added outboard of the plane, open to vapour, until no path condenses in a year"
    case.enter("outboard_r_to_add", more, case.rests_on(year.facts), method, MONTHLY_BALANCE)
    return None


def _closed_outside(case: Case) -> bool:
    """Does a roof covering, or a layer of class I that is no insulation, close the section: nothing goes outside it?"""
    outermost = case.paths[0].slices[-1]
    covered = case.page["kind"].value == "roof" and case.section.beyond == len(case.section.slices)
    return not outermost.is_insulation and (covered or outermost.page["vapour_class"].value == "I")


def by_step(year: Year) -> _At:
    """Return the climates of a year at each step of humidity indoors, worked out once each."""
    return cache(lambda step: indoor_at(year, step / STEPS))


def _dry_steps(paths: list[Prepared], at: _At) -> int:
    """Return the greatest step of humidity at which no path condenses in any month.

    The month that condenses first decides, and most months never do: each is asked once at the limit found so far, and
    only one that condenses there lowers it.
    """
    limit = STEPS
    for path in paths:
        plain = _steps_of(path.plain, at, 0, limit)
        if path.followed is None or (path is not paths[0] and plain == limit):
            limit = plain
        else:
            floor = 0 if path is paths[0] else plain
            limit = _steps_of(path.followed, at, floor, limit)
    return limit


def _steps_of(section: FollowedSection, at: _At, floor: int, limit: int) -> int:
    for month in _coldest_first(at(limit)):

        def dry(step: int, month: int = month) -> bool:
            return not gathers(section, at(step), month, _TRACE)

        if limit > floor and not dry(limit):
            limit = greatest(dry, floor, limit)
    return limit


def _least_dry(paths: Callable[[int], list[Prepared]], climate: MonthlyClimate) -> int | None:
    """Return the least step of resistance with which no path condenses in any month; None where none is enough."""
    least = 0
    for month in _coldest_first(climate):

        def wet(step: int, month: int = month) -> bool:
            return any(gathers(path.followed or path.plain, climate, month, _TRACE) for path in paths(step))

        if wet(least):
            # a thick layer has many strips: try the thin ones first
            high = max(_FIRST_R_STEPS, 2 * least)
            while high < _MOST_R_STEPS and wet(high):
                least, high = high, 2 * high
            if high >= _MOST_R_STEPS and wet(high := _MOST_R_STEPS):
                return None
            least = greatest(wet, least, high) + 1
    return least


def greatest(holds: Callable[[int], bool], low: int, high: int) -> int:
    """Return the greatest step up to ``high`` at which a condition holds that is taken to hold at ``low``.

    The highest step is asked last: most often it need not be, and it is the one that costs most.
    """
    top = high
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (middle, high) if holds(middle) else (low, middle)
    return top if low + 1 == top and holds(top) else low


def _coldest_first(climate: MonthlyClimate) -> list[int]:
    return sorted(range(1, 13), key=lambda month: climate.outside_temperature[month - 1])
