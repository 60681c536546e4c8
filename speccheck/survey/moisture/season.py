"""Entering which share of the drying season the water of the wettest place needs: how near it is to staying wet."""

from speccheck.physics.drying import DryingPotential, drying_potential
from speccheck.physics.moisture_section import Place, strips_of
from speccheck.survey.fact import Gap
from speccheck.survey.moisture.balance import MONTHS
from speccheck.survey.moisture.case import MONTHLY_BALANCE, Case
from speccheck.survey.moisture.climate import Year, year_of
from speccheck.survey.moisture.table import YearTable

__all__ = ["enter_season"]


def enter_season(case: Case) -> tuple[Gap, ...] | None:
    """Enter the water at the wettest place over what could leave that place in the months after its peak."""
    page = case.page
    verdict, peak = page.fact("assembly.moisture_verdict"), page.fact("assembly.moisture_peak")
    month = page.fact("assembly.moisture_peak_month")
    if verdict is None or not verdict.known:
        return verdict.missing if verdict is not None else None
    year = year_of(case.climate, case.project)
    if peak is None or month is None or not isinstance(peak.value, float) or not isinstance(year, Year):
        return None
    if month.value not in MONTHS:
        page.inapplicable("moisture_season_share", "nothing condenses")
        return None
    season = _season(_potential(case, page.table, year), MONTHS.index(month.value))
    words = "water at the wettest place over what would leave it, kept wet, in the months after its peak, usual cups"
    share = peak.value / season if season > 0.0 else None
    case.enter("moisture_season_share", share, (verdict, peak, month), words, MONTHLY_BALANCE)
    return None


def _potential(case: Case, table: YearTable, year: Year) -> DryingPotential:
    path = next(path for path in case.paths if path.name == table.path)
    section = path.section(case.films)
    interface = strips_of(section).places.index(Place(*table.places[table.worst]))
    return drying_potential(section, year.climate, interface)


def _season(potential: DryingPotential, peak: int) -> float:
    """Return what leaves in the unbroken run of drying months after the month of the peak [kg/m²]."""
    season = 0.0
    for step in range(1, 12):
        leaves = potential.months[(peak + step) % 12].leaves
        if leaves <= 0.0:
            break
        season += leaves
    return season
