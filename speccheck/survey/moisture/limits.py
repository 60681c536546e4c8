"""Entering what an assembly is good for: the indoor humidities and the outboard resistance at which the year turns."""

from collections.abc import Callable, Sequence

from speccheck.physics.humidity_dependent import gathers
from speccheck.physics.monthly_balance import MonthlyClimate
from speccheck.survey.fact import Gap
from speccheck.survey.moisture.balance import Prepared, prepared, rank_of
from speccheck.survey.moisture.case import MONTHLY_BALANCE, Case
from speccheck.survey.moisture.climate import Year
from speccheck.survey.moisture.rooms import STEPS
from speccheck.survey.moisture.stepped import MONTH_TRACE, Stepped, SteppedPath, at_step
from speccheck.survey.moisture.turning import greatest

__all__ = ["enter_dry_limit", "enter_drying_limit", "enter_outboard_limit"]

_R_STEP, _FIRST_R_STEPS, _MOST_R_STEPS = 0.04, 16, 500
"""Resistance [m²·K/W] is tried in steps of 0.04, up to 20."""

_FOLLOWED = "curves followed as in the balance, the worse of the paths, to 0.4 %"


def enter_dry_limit(case: Case) -> tuple[Gap, ...] | None:
    """Enter the winter humidity indoors up to which nothing condenses in any month."""
    year = case.year
    if not isinstance(year, Year):
        return year
    method = f"bisection on the winter humidity indoors, {_FOLLOWED}"
    limit = _dry_steps(case.steps) / STEPS
    case.enter("humidity_without_condensation", limit, case.rests_on(year.facts), method, MONTHLY_BALANCE)
    return None


def enter_drying_limit(case: Case) -> tuple[Gap, ...] | None:
    """Enter the winter humidity indoors up to which what condenses dries within the year."""
    year = case.year
    if not isinstance(year, Year):
        return year
    dry = case.page.fact("assembly.humidity_without_condensation")
    low = round(dry.value * STEPS) if dry is not None and isinstance(dry.value, float) else 0
    limit = _drying_steps(case.steps, low)
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
        if step == 0:
            return case.ready
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


def _dry_steps(paths: Sequence[SteppedPath]) -> int:
    """Return the greatest step of humidity at which no path condenses in any month.

    A path through the framing follows its curves only between its limit by the usual cups and that of the first path.
    """
    first, *others = paths
    limit = first.best.dry_steps(0, STEPS)
    for path in others:
        plain = path.plain.dry_steps(0, limit)
        follows = path.followed is not None and plain < limit
        limit = path.best.dry_steps(plain, limit) if follows else plain
    return limit


def _drying_steps(paths: Sequence[SteppedPath], low: int) -> int:
    """Return the greatest step of humidity at which no path keeps water after the year, taken to be so at ``low``."""
    first, *others = paths
    if not all(path.turns_once for path in paths):
        return greatest(lambda step: not any(one.keeps(step) for one in at_step(paths, step)), low, STEPS)
    limit = first.best.kept_steps(low, STEPS)
    for path in others:
        limit = _drying_beside(first.best, path, low, limit)
    return limit


def _drying_beside(first: Stepped, path: SteppedPath, low: int, limit: int) -> int:
    """Return up to which step a path through the framing keeps no water either, where the first keeps none to a limit.

    It follows its curves only where by its usual cups it is the worse one. By those it is wherever it keeps water;
    where it would keep some only by its curves, that is asked step by step.
    """
    plain, followed = path.plain.kept_steps(low, limit), path.followed
    if followed is None:
        return plain
    if plain == low or not followed.keeps(plain):
        return followed.kept_steps_near(plain, limit, plain + 1)

    def dries(step: int) -> bool:
        if step > plain:
            return False
        return not followed.keeps(step) or rank_of(path.plain.year(step)) <= rank_of(first.year(step))

    return greatest(dries, low, STEPS)


def _least_dry(paths: Callable[[int], list[Prepared]], climate: MonthlyClimate) -> int | None:
    """Return the least step of resistance with which no path condenses in any month; None where none is enough."""
    least = 0
    for month in _coldest_first(climate):

        def wet(step: int, month: int = month) -> bool:
            return any(
                gathers(path.followed or path.plain, climate, month, MONTH_TRACE)
                for path in paths(step)
                if not (step == 0 and path.stayed_dry(climate))
            )

        if wet(least):
            # a thick layer has many strips: try the thin ones first
            high = max(_FIRST_R_STEPS, 2 * least)
            while high < _MOST_R_STEPS and wet(high):
                least, high = high, 2 * high
            if high >= _MOST_R_STEPS and wet(high := _MOST_R_STEPS):
                return None
            least = greatest(wet, least, high) + 1
    return least


def _coldest_first(climate: MonthlyClimate) -> list[int]:
    return sorted(range(1, 13), key=lambda month: climate.outside_temperature[month - 1])
