"""Entering what the monthly balance gives, by the worse of the paths, and the year at the condensing plane."""

from speccheck.physics.damp_months import damp_months
from speccheck.physics.humidity_dependent import followed_year
from speccheck.physics.wood import equilibrium_moisture_content
from speccheck.survey.fact import Fact, FactValue, Gap
from speccheck.survey.moisture.alike import enter_alike
from speccheck.survey.moisture.balance import MONTHS, Balance, balances_of, place_words, prepared, worse_of
from speccheck.survey.moisture.case import MONTHLY_BALANCE, Case
from speccheck.survey.moisture.climate import Year
from speccheck.survey.moisture.faces import WOOD_HANDBOOK, enter_limit
from speccheck.survey.moisture.table import year_table
from speccheck.survey.moisture.wood_face import limit_of, wood_faces

__all__ = ["PLANE_FACTS", "enter_year"]

PLANE_FACTS = (
    "plane_rh_max", "plane_rh_month", "plane_damp_months", "plane_damp_run", "plane_wood_moisture",
    "plane_moisture_limit",
)  # fmt: skip
"""Names of the facts of the condensing plane."""

DAMP_CRITERION = "ASHRAE 160-2009, criterion of thirty days (read in an abstract), here by calendar months"
"""The source of the months that count as damp."""


def enter_year(case: Case) -> tuple[Gap, ...] | None:
    """Enter what the monthly balance gives, by the worse of the paths."""
    year = case.year
    if not isinstance(year, Year):
        return year
    balances = balances_of(case.ready, year.climate)
    worst = worse_of(balances)
    facts = case.rests_on(year.facts)
    method = f"monthly balance through the {worst.path.name}; indoors by {year.method}"
    found, peak = worst.year, worst.year.peak
    values: dict[str, FactValue | None] = {
        "moisture_verdict": found.verdict,
        "moisture_peak": peak.peak if peak else 0.0,
        "moisture_peak_place": place_words(worst, peak.interface) if peak else None,
        "moisture_peak_month": MONTHS[peak.peak_month - 1] if peak else None,
        "moisture_dry_month": MONTHS[found.dry_month - 1] if found.dry_month else None,
        "moisture_residual": sum(found.water),
        "moisture_yearly_gain": _second_year(worst, year, case.films),
        "moisture_path": worst.path.name,
        "moisture_settled": worst.settled,
    }
    enter_alike(case.page, values, facts, method, MONTHLY_BALANCE, "nothing condenses, or it does not dry")
    shown = worst.year.peak.interface if worst.year.peak else None
    wood = wood_faces(case.section, balances)
    case.page.table = year_table(case.page.place, worst, _told(year, worst), shown, wood, year.climate)
    _enter_plane(case, balances[0], facts)
    return None


def _told(year: Year, worst: Balance) -> str:
    """Return how the year came about, for the table, which shows it from January on wherever it begins."""
    start = f"; run from {MONTHS[worst.year.starting_month - 1]} on" if worst.year.wet else ""
    unsettled = "" if worst.settled else "; layers that follow their humidity did not settle in every month"
    return f"{year.method}{start}{unsettled}"


def _second_year(worst: Balance, year: Year, films: tuple[float, float]) -> float:
    """Return what a second year adds to the water the first leaves [kg/m²]: next to nothing where it has settled."""
    if worst.year.verdict != "accumulates":
        return 0.0
    ready = prepared(worst.path, films)
    section = (ready.followed if worst.curved else None) or ready.plain
    left = worst.year.water
    second = followed_year(section, year.climate, worst.year.starting_month, water=left).year
    return sum(second.water) - sum(left)


def _enter_plane(case: Case, balance: Balance, facts: tuple[Fact, ...]) -> None:
    """Enter the dampest month at the condensing plane, how long it is damp while warm, and what wood there takes on."""
    plane = case.section.plane
    if plane is None or plane >= len(balance.path.slices):
        for name in PLANE_FACTS:
            case.page.inapplicable(name, "no condensing plane")
        return
    face = balance.strips.faces(plane)[0]
    months = sorted(balance.year.months, key=lambda month: month.month)
    temperatures = [month.temperatures[face] for month in months]
    humidities = [min(month.pressures[face] / month.saturation[face], 1.0) for month in months]
    dampest = max(range(12), key=humidities.__getitem__)
    words = "at the inner face of the plane"
    air: dict[str, FactValue | None] = {
        "plane_rh_max": humidities[dampest],
        "plane_rh_month": MONTHS[dampest],
    }
    enter_alike(case.page, air, facts, f"dampest month {words}", MONTHLY_BALANCE)
    damp = damp_months(temperatures, humidities)
    counted: dict[str, FactValue | None] = {
        "plane_damp_months": float(damp.count),
        "plane_damp_run": float(damp.longest_run),
    }
    criterion = f"months at 80 % or more and 5 to 40 °C {words}: how many, how many in a row"
    enter_alike(case.page, counted, facts, criterion, DAMP_CRITERION)
    # only wood is asked: what other planes would take on is no fact, and may lie outside the handbook's range
    piece = balance.path.slices[plane]
    wooden = piece.group == "wood"
    enter_limit(case.page, "plane_moisture_limit", limit_of(piece.row) if wooden else None)
    case.enter(
        "plane_wood_moisture",
        equilibrium_moisture_content(temperatures[dampest], humidities[dampest]) if wooden else None,
        facts,
        "equilibrium with the air there" if wooden else "the plane is not of wood",
        WOOD_HANDBOOK,
    )
