"""Entering how long water that was closed in with the insulation takes to leave the section."""

from speccheck.physics.monthly_balance import drying_time
from speccheck.survey.fact import Gap
from speccheck.survey.moisture.case import Case
from speccheck.survey.moisture.climate import Year

__all__ = ["enter_enclosed"]

_CLAUSE = "ISO 13788:2012, 7, drying of enclosed water (from memory)"
_MASS = 1.0
_YEARS = 10


def enter_enclosed(case: Case) -> tuple[Gap, ...] | None:
    """Enter the months until a kilogram per square metre in the middle of the main insulation is gone."""
    year = case.year
    if not isinstance(year, Year):
        return year
    path = case.paths[0]
    section = path.section(case.films)
    found = drying_time(section, year.climate, path.main, _MASS, years=_YEARS)
    facts = case.rests_on(year.facts)
    method = (
        f"{_MASS:g} kg/m² in the middle of {path.slices[path.main].words} in October, for up to {_YEARS} years, "
        f"usual cups; indoors by {year.method}"
    )
    months = float(12 * _YEARS) if found is None else float(found)
    case.enter("enclosed_water_dries", found is not None, facts, method, _CLAUSE)
    case.enter("enclosed_water_months", months, facts, method, _CLAUSE)
    return None
