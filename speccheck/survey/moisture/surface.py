"""Entering the temperature factor of the plain section, and the one the governing month asks of it."""

from math import isfinite

from speccheck.physics.heat import temperature_factor
from speccheck.physics.surface_year import surface_year
from speccheck.survey.fact import Gap
from speccheck.survey.moisture.balance import MONTHS
from speccheck.survey.moisture.case import Case
from speccheck.survey.moisture.climate import Year

__all__ = ["MOULD_FILM", "enter_surface"]

_SURFACE_SOURCE = "ISO 13788:2012, 5 (read in textbook notes)"
MOULD_FILM = 0.25
"""Inside surface resistance of the mould check [m²·K/W]: the film behind furniture and in corners."""


def enter_surface(case: Case) -> tuple[Gap, ...] | None:
    """Enter the temperature factor of the plain section, and the one the governing month asks of it."""
    own = case.page.compute(
        "frsi",
        lambda whole, film: temperature_factor(whole - film + MOULD_FILM, MOULD_FILM),
        [case.page["r_series"], case.page["film_inside"]],
        method=f"one-dimensional, away from framing and corners, inside film of {MOULD_FILM:g} m²·K/W",
        source="ISO 13788:2012, 4.4.1 (from memory); DIN 4108-2 takes the same film (read in textbook notes)",
    )
    year = case.year
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
