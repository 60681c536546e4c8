"""Entering what the verdict would be by either cup throughout, and whether it rests on a cup or a curve."""

from speccheck.survey.fact import Gap
from speccheck.survey.moisture.balance import bounds_of, worse_of
from speccheck.survey.moisture.case import MONTHLY_BALANCE, Case
from speccheck.survey.moisture.climate import Year
from speccheck.survey.moisture.path import curves_of

__all__ = ["CUPS_DIFFER_BY", "enter_bounds"]

CUPS_DIFFER_BY = 5.0
"""How far the two cups of a layer may lie apart where one is not shown: common practice, no source."""


def enter_bounds(case: Case) -> tuple[Gap, ...] | None:
    """Enter what the verdict would be by dry cup and by wet cup throughout, and whether it rests on either."""
    year = case.year
    if not isinstance(year, Year):
        return year
    facts = case.rests_on(year.facts)
    dry, wet = bounds_of(case.paths, case.films, year.climate)
    case.enter("moisture_by_dry_cup", dry, facts, "every layer by its dry cup", MONTHLY_BALANCE)
    case.enter("moisture_by_wet_cup", wet, facts, "every layer by its wet cup", MONTHLY_BALANCE)
    _enter_rests_on_cup(case, year, (dry, wet))
    followed = worse_of([path.balance(year.climate) for path in case.ready]).year.verdict
    rests = any(curves_of(path) for path in case.paths) and followed != dry
    words = "a layer that opens with humidity changes the verdict its dry cup would give"
    case.enter("moisture_rests_on_variable_layer", rests, facts, words, MONTHLY_BALANCE)
    return None


def _enter_rests_on_cup(case: Case, year: Year, verdicts: tuple[str, str]) -> None:
    """Enter whether the verdict rests on a cup; where one that is not shown may decide it, that one is asked for."""
    name, facts = "moisture_rests_on_cup", case.rests_on(year.facts)
    dry, wet = verdicts
    wide = bounds_of(case.paths, case.films, year.climate, CUPS_DIFFER_BY)
    missing = [
        gap
        for cup, told, open_ in zip(("dry", "wet"), verdicts, wide, strict=True)
        if told != open_
        for path in case.paths
        for gap in path.not_shown(cup)
    ]
    if dry == wet and missing:
        case.page.unknown(name, *dict.fromkeys(missing))
        return
    words = (
        f"the verdicts by the two cups differ; a cup not shown, by up to {CUPS_DIFFER_BY:g} times the other"
    )
    case.enter(name, dry != wet, facts, words, MONTHLY_BALANCE)
