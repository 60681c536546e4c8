"""Entering what would leave the condensing plane, and each layer moisture harms, if it were wet."""

from speccheck.physics.drying import potential_at
from speccheck.physics.moisture_section import strips_of
from speccheck.physics.monthly_balance import profiles_of
from speccheck.survey.fact import Gap
from speccheck.survey.moisture.alike import enter_alike
from speccheck.survey.moisture.case import MONTHLY_BALANCE, Case
from speccheck.survey.moisture.climate import Year
from speccheck.survey.moisture.drying_year import drying_year

__all__ = ["enter_drying"]


def enter_drying(case: Case) -> tuple[Gap, ...] | None:
    """Enter what would leave the condensing plane, and each layer moisture harms, in a year if it were wet."""
    year = case.year
    if not isinstance(year, Year):
        return year
    path, plane = case.paths[0], case.section.plane
    strips = strips_of(path.section(case.films, "wet"))
    profiles = profiles_of(strips, year.climate)
    facts = case.rests_on(year.facts)
    for index, piece in enumerate(path.slices):
        if index == 0 or not (index == plane or piece.page["moisture_sensitive"].value is True):
            continue
        face = strips.faces(index)[0]
        if strips.at_surface[face]:
            continue  # nothing that resists vapour lies between it and the air: nothing limits its drying
        potential = potential_at(strips, profiles, face)
        table = drying_year(
            case.page.place, piece.words, potential, is_plane=index == plane, method=year.method
        )
        piece.page.table = table
        method = (
            f"vapour that would leave the inner face of {piece.words}, wet throughout, and reach the air, by wet "
            f"cups; most in {table.best.month}; indoors by {year.method}"
        )
        values = {
            "drying_inward": potential.inward,
            "drying_outward": potential.outward,
            "drying_moved": potential.moved,
            "drying_net": potential.net,
        }
        enter_alike(piece.page, values, facts, method, MONTHLY_BALANCE)
        if index == plane:
            drying = [month for month in potential.months if month.net > 0.0]
            values["drying_months"] = float(len(drying))
            enter_alike(case.page, values, facts, method, MONTHLY_BALANCE)
    return None
