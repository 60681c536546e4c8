"""Twelve months of a face that is kept wet, as a table: what would reach either air, for a report to show."""

from typing import NamedTuple

from speccheck.physics.drying import DryingPotential
from speccheck.survey.moisture.balance import MONTHS

__all__ = ["DryingRow", "DryingYear", "drying_year"]


class DryingRow(NamedTuple):
    """One month: what would reach the indoor and the outdoor air, and what would condense elsewhere [kg/m²].

    ``inward`` and ``outward`` are negative where vapour comes from that side to the wet face instead.
    """

    month: str
    inward: float
    outward: float
    moved: float

    @property
    def net(self) -> float:
        """What reaches either air less what comes from it [kg/m²]."""
        return self.inward + self.outward


class DryingYear(NamedTuple):
    """Twelve months in the order of the calendar, of a layer whose inner face is wet throughout.

    ``assembly`` and ``layer`` are places; ``face`` says in words which face is wet, ``is_plane`` whether it is the
    condensing plane, ``method`` how the indoor climate came about.
    """

    assembly: str
    layer: str
    face: str
    is_plane: bool
    method: str
    months: tuple[DryingRow, ...]

    @property
    def best(self) -> DryingRow:
        """The month in which most would dry."""
        return max(self.months, key=lambda row: row.net)


def drying_year(
    assembly: str, layer: str, potential: DryingPotential, *, is_plane: bool, method: str
) -> DryingYear:
    """Return the table of a drying potential.

    Args:
        assembly: place of the assembly.
        layer: place of the layer whose inner face is wet.
        potential: what it would lose, January first.
        is_plane: whether that face is the condensing plane.
        method: how the indoor climate came about, in words.
    """
    rows = zip(MONTHS, potential.months, strict=True)
    return DryingYear(
        assembly=assembly,
        layer=layer,
        face=f"inner face of {layer}",
        is_plane=is_plane,
        method=method,
        months=tuple(DryingRow(name, one.inward, one.outward, one.moved) for name, one in rows),
    )
