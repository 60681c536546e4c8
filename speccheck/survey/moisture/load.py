"""Entering the verdict under a quarter more vapour in the rooms: where it turns, the true one is near its limit."""

from speccheck.physics.monthly_balance import MonthlyClimate
from speccheck.physics.psychrometrics import saturation_pressure
from speccheck.survey.fact import Gap
from speccheck.survey.moisture.balance import balances_of, worse_of
from speccheck.survey.moisture.case import MONTHLY_BALANCE, Case
from speccheck.survey.moisture.climate import Year

__all__ = ["HIGHER_LOAD", "enter_load"]

HIGHER_LOAD = 1.25
"""Excess of vapour indoors over outdoors against the true one [-]: a load that this much brings to its limit stands
within a fifth of it."""


def enter_load(case: Case) -> tuple[Gap, ...] | None:
    """Enter the verdict of the monthly balance were the excess of vapour in the rooms a quarter greater."""
    year = case.year
    if not isinstance(year, Year):
        return year
    worst = worse_of(balances_of(case.ready, _loaded(year.climate)))
    method = (
        f"monthly balance with {HIGHER_LOAD:g} times the excess of vapour indoors; indoors by {year.method}"
    )
    case.enter(
        "moisture_by_higher_load", worst.year.verdict, case.rests_on(year.facts), method, MONTHLY_BALANCE
    )
    return None


def _loaded(climate: MonthlyClimate) -> MonthlyClimate:
    """Return both climates with the greater excess; no room is more than saturated."""
    rooms = [
        min(outside + HIGHER_LOAD * (inside - outside), saturation_pressure(temperature))
        if inside > outside
        else inside
        for temperature, inside, outside in zip(
            climate.inside_temperature, climate.inside_pressure, climate.outside_pressure, strict=True
        )
    ]
    return MonthlyClimate(
        climate.inside_temperature, tuple(rooms), climate.outside_temperature, climate.outside_pressure
    )
