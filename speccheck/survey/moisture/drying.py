"""Entering what would leave the condensing plane, and each layer moisture harms, if it were wet."""

from collections.abc import Mapping

from speccheck.physics.drying import DryingPotential, drying_potential
from speccheck.physics.moisture_section import strips_of
from speccheck.survey.build_up import Slice
from speccheck.survey.fact import Fact, FactValue, Gap
from speccheck.survey.moisture.case import MONTHLY_BALANCE, Case
from speccheck.survey.moisture.climate import Year, year_of
from speccheck.survey.moisture.drying_year import drying_year

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
        face = strips.faces(index)[0]
        if strips.at_surface[face]:
            continue  # nothing that resists vapour lies between it and the air: nothing limits its drying
        potential = drying_potential(section, year.climate, face)
        table = drying_year(
            case.page.place, piece.words, potential, is_plane=index == plane, method=year.method
        )
        piece.page.table = table
        method = (
            f"vapour that would leave the inner face of {piece.words}, wet throughout, and reach the air, by wet "
            f"cups; most in {table.best.month}; indoors by {year.method}"
        )
        _enter_layer(piece, _sums(potential), facts, method)
        if index == plane:
            _enter_plane(case, potential, facts, method)
    return None


def _sums(potential: DryingPotential) -> dict[str, float]:
    return {
        "drying_inward": potential.inward,
        "drying_outward": potential.outward,
        "drying_moved": potential.moved,
        "drying_net": potential.net,
    }


def _enter_layer(piece: Slice, values: Mapping[str, float], facts: tuple[Fact, ...], method: str) -> None:
    for name, value in values.items():
        piece.page.compute(name, lambda *_, v=value: v, facts, method=method, source=MONTHLY_BALANCE)


def _enter_plane(case: Case, potential: DryingPotential, facts: tuple[Fact, ...], method: str) -> None:
    drying = [month for month in potential.months if month.net > 0.0]
    values: dict[str, FactValue] = {**_sums(potential), "drying_months": float(len(drying))}
    for name, value in values.items():
        case.enter(name, value, facts, method, MONTHLY_BALANCE)
