"""Entering the moisture facts, one group at a time; each returns the questions that keep it from being told."""

from collections.abc import Callable, Sequence
from dataclasses import replace
from math import isfinite

from speccheck.physics.drying import drying_potential
from speccheck.physics.heat import temperature_factor
from speccheck.physics.moisture_section import MoistureLayer, MoistureSection, strips_of
from speccheck.physics.monthly_balance import MonthlyClimate
from speccheck.physics.surface_year import surface_year
from speccheck.physics.wood import equilibrium_moisture_content
from speccheck.survey.fact import Fact, Gap
from speccheck.survey.moisture.balance import (
    MONTHS,
    Balance,
    balance_of,
    balances_of,
    bounds_of,
    place_words,
    worse_of,
    worse_verdict,
)
from speccheck.survey.moisture.case import Case
from speccheck.survey.moisture.climate import Year, indoor_at, year_of
from speccheck.survey.moisture.path import curves_of
from speccheck.survey.moisture.periods import enter_periods
from speccheck.survey.moisture.summer import enter_summer
from speccheck.survey.moisture.table import year_table

__all__ = [
    "enter_bounds", "enter_drying", "enter_limits", "enter_periods", "enter_summer", "enter_surface", "enter_year",
]  # fmt: skip

_ISO = "ISO 13788:2012, 6, monthly balance (from memory)"
_SURFACE_SOURCE = "ISO 13788:2012, 5 (read in textbook notes)"
MOULD_FILM = 0.25
"""Inside surface resistance of the mould check [m²·K/W]: the film behind furniture and in corners."""
_NEAR = 1.0 / 256.0
_MOST_R = 20.0


def _year(case: Case) -> Year | tuple[Gap, ...]:
    return year_of(case.climate, case.project)


def _rests_on(case: Case, year: Year) -> tuple[Fact, ...]:
    return (*case.inputs, *year.facts)


def enter_year(case: Case) -> tuple[Gap, ...] | None:
    """Enter what the monthly balance gives, by the worse of the paths."""
    year = _year(case)
    if not isinstance(year, Year):
        return year
    balances = balances_of(case.paths, case.films, year.climate)
    worst = worse_of(balances)
    facts = _rests_on(case, year)
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
            name, value, facts, method if value is not None else "nothing condenses, or it does not dry", _ISO
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
    case.enter("plane_rh_max", humidity, facts, "dampest month at the inner face of the plane", _ISO)
    case.enter("plane_rh_month", MONTHS[dampest.month - 1], facts, "the month of it", _ISO)
    # only wood is asked: what other planes would take on is no fact, and may lie outside the handbook's range
    wooden = balance.path.slices[plane].group == "wood"
    case.enter(
        "plane_wood_moisture",
        equilibrium_moisture_content(dampest.temperatures[face], humidity) if wooden else None,
        facts,
        "equilibrium with the air there" if wooden else "the plane is not of wood",
        "Wood Handbook, FPL-GTR-190, equation 4-5 (read)",
    )


def enter_bounds(case: Case) -> tuple[Gap, ...] | None:
    """Enter what the verdict would be by dry cup and by wet cup throughout, and whether it rests on either."""
    year = _year(case)
    if not isinstance(year, Year):
        return year
    facts = _rests_on(case, year)
    dry, wet = bounds_of(case.paths, case.films, year.climate)
    case.enter("moisture_by_dry_cup", dry, facts, "every layer by its dry cup", _ISO)
    case.enter("moisture_by_wet_cup", wet, facts, "every layer by its wet cup", _ISO)
    case.enter("moisture_rests_on_cup", dry != wet, facts, "the verdicts by the two cups differ", _ISO)
    followed = worse_of([balance_of(path, case.films, year.climate) for path in case.paths]).year.verdict
    rests = any(curves_of(path) for path in case.paths) and followed != dry
    words = "a layer that opens with humidity changes the verdict its dry cup would give"
    case.enter("moisture_rests_on_variable_layer", rests, facts, words, _ISO)
    return None


def enter_surface(case: Case) -> tuple[Gap, ...] | None:
    """Enter the temperature factor of the plain section, and the one the governing month asks of it."""
    own = case.page.compute(
        "frsi",
        lambda whole, film: temperature_factor(whole - film + MOULD_FILM, MOULD_FILM),
        [case.page["r_series"], case.page["film_inside"]],
        method=f"one-dimensional, away from framing and corners, inside film of {MOULD_FILM:g} m²·K/W",
        source="ISO 13788:2012, 4.4.1 (from memory); DIN 4108-2 takes the same film (read in textbook notes)",
    )
    year = _year(case)
    if not isinstance(year, Year):
        return year
    governs = surface_year(year.climate).governs
    factor = governs.factor if governs else None
    if factor is not None and not isfinite(factor):
        # rooms and weather differ by less than a number can tell: no surface is asked to be warmer than either
        governs, factor = None, None
    facts = year.facts
    method = f"80 % relative humidity at the surface; indoors by {year.method}"
    if factor is None:
        method = "no month is colder outdoors than the rooms"
    case.enter("frsi_required", factor, facts, method, _SURFACE_SOURCE)
    case.enter(
        "frsi_required_month", MONTHS[governs.month - 1] if governs else None, facts, method, _SURFACE_SOURCE
    )
    if factor is None or not own.known:
        case.page.unknown("frsi_margin", *own.missing) if own.missing else case.page.inapplicable(
            "frsi_margin", "no month asks for a factor"
        )
    else:
        case.page.compute(
            "frsi_margin",
            lambda a, b: a - b,
            [own, case.page["frsi_required"]],
            method="plain section less required",
        )
    return None


def enter_drying(case: Case) -> tuple[Gap, ...] | None:
    """Enter what would leave the condensing plane, and each layer moisture harms, in a year if it were wet."""
    year = _year(case)
    if not isinstance(year, Year):
        return year
    path, plane = case.paths[0], case.section.plane
    section = path.section(case.films, "wet")
    strips = strips_of(section)
    facts = _rests_on(case, year)
    for index, piece in enumerate(path.slices):
        if index == 0 or not (index == plane or piece.page["moisture_sensitive"].value is True):
            continue
        potential = drying_potential(section, year.climate, strips.faces(index)[0])
        method = f"vapour that would leave the inner face of {piece.words}, wet throughout, by wet cups"
        values = {"inward": potential.inward, "outward": potential.outward}
        for name, value in values.items():
            piece.page.compute(f"drying_{name}", lambda *_, v=value: v, facts, method=method, source=_ISO)
        if index == plane:
            for name, value in {**values, "net": potential.net}.items():
                case.enter(f"drying_{name}", value, facts, method, _ISO)
    return None


def enter_limits(case: Case) -> tuple[Gap, ...] | None:
    """Enter the indoor humidities and the outboard resistance at which the monthly verdict turns."""
    year = _year(case)
    if not isinstance(year, Year):
        return year
    facts = _rests_on(case, year)
    sections = [path.section(case.films) for path in case.paths]

    def at(humidity: float) -> str:
        return worse_verdict(sections, indoor_at(year, humidity))

    method = "bisection on the winter humidity indoors, usual cups, the worse of the paths, to 0.4 %"
    dry = _turns(lambda rh: at(rh) == "none")
    drying = _turns(lambda rh: at(rh) != "accumulates")
    case.enter("humidity_without_condensation", dry, facts, method, _ISO)
    case.enter("humidity_drying_in_year", drying, facts, method, _ISO)
    more = _resistance_to_add(case, sections, year.climate)
    method = "bisection on resistance added outboard of the plane, open to vapour, until no path condenses"
    case.enter("outboard_r_to_add", more, facts, method, _ISO)
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
