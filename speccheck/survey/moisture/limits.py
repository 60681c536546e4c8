"""Entering the indoor humidities and the outboard resistance at which the monthly verdict turns."""

from collections.abc import Callable, Sequence
from dataclasses import replace

from speccheck.physics.moisture_section import MoistureLayer, MoistureSection
from speccheck.physics.monthly_balance import MonthlyClimate
from speccheck.survey.fact import Gap
from speccheck.survey.moisture.balance import worse_verdict
from speccheck.survey.moisture.case import MONTHLY_BALANCE, Case
from speccheck.survey.moisture.climate import Year, indoor_at, year_of

__all__ = ["enter_limits"]

_NEAR = 1.0 / 256.0
_MOST_R = 20.0


def enter_limits(case: Case) -> tuple[Gap, ...] | None:
    """Enter the indoor humidities and the outboard resistance at which the monthly verdict turns."""
    year = year_of(case.climate, case.project)
    if not isinstance(year, Year):
        return year
    facts = case.rests_on(year.facts)
    sections = [path.section(case.films) for path in case.paths]

    def at(humidity: float) -> str:
        return worse_verdict(sections, indoor_at(year, humidity))

    method = "bisection on the winter humidity indoors, usual cups, the worse of the paths, to 0.4 %"
    dry = _turns(lambda rh: at(rh) == "none")
    drying = _turns(lambda rh: at(rh) != "accumulates")
    case.enter("humidity_without_condensation", dry, facts, method, MONTHLY_BALANCE)
    case.enter("humidity_drying_in_year", drying, facts, method, MONTHLY_BALANCE)
    more = _resistance_to_add(case, sections, year.climate)
    method = "bisection on resistance added outboard of the plane, open to vapour, until no path condenses"
    case.enter("outboard_r_to_add", more, facts, method, MONTHLY_BALANCE)
    return None


def _turns(holds: Callable[[float], bool]) -> float:
    """Return the greatest humidity up to which a condition holds; 0 where it never does, 1 where it always does."""
    low, high = 0.0, 1.0
    if holds(high):
        return high
    if not holds(low):
        return low
    while high - low > _NEAR:
        middle = (low + high) / 2.0
        low, high = (middle, high) if holds(middle) else (low, middle)
    return low


def _resistance_to_add(
    case: Case, sections: Sequence[MoistureSection], climate: MonthlyClimate
) -> float | None:
    plane = case.section.plane
    if plane is None or plane >= len(sections[0].layers):
        return None

    def wet(more: float) -> bool:
        added = [replace(section, layers=(*section.layers, MoistureLayer(more, 0.0))) for section in sections]
        return worse_verdict(added, climate) != "none"

    if not wet(0.0):
        return 0.0
    if wet(_MOST_R):
        return None
    low, high = 0.0, _MOST_R
    while high - low > 0.05:
        middle = (low + high) / 2.0
        low, high = (middle, high) if wet(middle) else (low, middle)
    return high
