"""Entering what the monthly balance gives, by the worse of the paths, and the year at the condensing plane."""

from speccheck.physics.wood import equilibrium_moisture_content
from speccheck.survey.fact import Fact, Gap
from speccheck.survey.moisture.balance import MONTHS, Balance, balances_of, place_words, prepared, worse_of
from speccheck.survey.moisture.case import MONTHLY_BALANCE, Case
from speccheck.survey.moisture.climate import Year, year_of
from speccheck.survey.moisture.table import year_table

__all__ = ["enter_year"]


def enter_year(case: Case) -> tuple[Gap, ...] | None:
    """Enter what the monthly balance gives, by the worse of the paths."""
    year = year_of(case.climate, case.project)
    if not isinstance(year, Year):
        return year
    balances = balances_of([prepared(path, case.films) for path in case.paths], year.climate)
    worst = worse_of(balances)
    facts = case.rests_on(year.facts)
    method = f"monthly balance through the {worst.path.name}; indoors by {year.method}"
    found, peak = worst.year, worst.year.peak
    values = {
        "moisture_verdict": found.verdict,
        "moisture_peak": peak.peak if peak else 0.0,
        "moisture_peak_place": place_words(worst, peak.interface) if peak else None,
        "moisture_peak_month": MONTHS[peak.peak_month - 1] if peak else None,
        "moisture_dry_month": MONTHS[found.dry_month - 1] if found.dry_month else None,
        "moisture_residual": sum(found.water),
        "moisture_path": worst.path.name,
        "moisture_settled": worst.settled,
    }
    for name, value in values.items():
        case.enter(
            name,
            value,
            facts,
            method if value is not None else "nothing condenses, or it does not dry",
            MONTHLY_BALANCE,
        )
    shown = worst.year.peak.interface if worst.year.peak else None
    case.page.table = year_table(case.page.place, worst, year.method, shown)
    _enter_plane(case, balances[0], facts)
    return None


def _enter_plane(case: Case, balance: Balance, facts: tuple[Fact, ...]) -> None:
    """Enter the dampest month at the condensing plane, and what wood there takes on."""
    plane = case.section.plane
    if plane is None or plane >= len(balance.path.slices):
        for name in ("plane_rh_max", "plane_rh_month", "plane_wood_moisture"):
            case.page.inapplicable(name, "no condensing plane")
        return
    face = balance.strips.faces(plane)[0]
    dampest = max(balance.year.months, key=lambda month: month.humidities[face])
    humidity = min(dampest.humidities[face], 1.0)
    case.enter(
        "plane_rh_max", humidity, facts, "dampest month at the inner face of the plane", MONTHLY_BALANCE
    )
    case.enter("plane_rh_month", MONTHS[dampest.month - 1], facts, "the month of it", MONTHLY_BALANCE)
    # only wood is asked: what other planes would take on is no fact, and may lie outside the handbook's range
    wooden = balance.path.slices[plane].group == "wood"
    case.enter(
        "plane_wood_moisture",
        equilibrium_moisture_content(dampest.temperatures[face], humidity) if wooden else None,
        facts,
        "equilibrium with the air there" if wooden else "the plane is not of wood",
        "Wood Handbook, FPL-GTR-190, equation 4-5 (read)",
    )
