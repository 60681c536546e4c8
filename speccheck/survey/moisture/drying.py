"""Entering what would leave the condensing plane, and each layer moisture harms, if it were wet."""

from speccheck.physics.drying import drying_potential
from speccheck.physics.moisture_section import strips_of
from speccheck.survey.fact import Gap
from speccheck.survey.moisture.case import MONTHLY_BALANCE, Case
from speccheck.survey.moisture.climate import Year, year_of

__all__ = ["enter_drying"]


def enter_drying(case: Case) -> tuple[Gap, ...] | None:
    """Enter what would leave the condensing plane, and each layer moisture harms, in a year if it were wet."""
    year = year_of(case.climate, case.project)
    if not isinstance(year, Year):
        return year
    path, plane = case.paths[0], case.section.plane
    section = path.section(case.films, "wet")
    strips = strips_of(section)
    facts = case.rests_on(year.facts)
    for index, piece in enumerate(path.slices):
        if index == 0 or not (index == plane or piece.page["moisture_sensitive"].value is True):
            continue
        potential = drying_potential(section, year.climate, strips.faces(index)[0])
        method = f"vapour that would leave the inner face of {piece.words}, wet throughout, by wet cups"
        values = {"inward": potential.inward, "outward": potential.outward}
        for name, value in values.items():
            piece.page.compute(
                f"drying_{name}", lambda *_, v=value: v, facts, method=method, source=MONTHLY_BALANCE
            )
        if index == plane:
            for name, value in {**values, "net": potential.net}.items():
                case.enter(f"drying_{name}", value, facts, method, MONTHLY_BALANCE)
    return None
