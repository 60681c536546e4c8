"""What lies next to what: the neighbours of each layer, and whether insulation touches the air barrier."""

from collections.abc import Sequence

from speccheck.survey.build_up import Slice
from speccheck.survey.fact import Origin
from speccheck.survey.ledger import Page

__all__ = ["survey_contact"]


def survey_contact(page: Page, slices: Sequence[Slice]) -> None:
    """Enter the neighbours of each layer, and for the assembly whether an air-control layer touches insulation.

    Args:
        page: of the assembly.
        slices: its layers as built, inside first.
    """
    for index, piece in enumerate(slices):
        inner = slices[index - 1].material_id if index else "room"
        outer = slices[index + 1].material_id if index + 1 < len(slices) else "beyond"
        piece.page.declare("inner_neighbour", inner, origin=Origin.COMPUTED)
        piece.page.declare("outer_neighbour", outer, origin=Origin.COMPUTED)
    control = [i for i, piece in enumerate(slices) if piece.layer and "air" in piece.layer.controls]
    fibre = [i for i, piece in enumerate(slices) if piece.is_insulation]
    name = "insulation_touches_air_barrier"
    if not control or not fibre:
        page.inapplicable(name, "no insulation, or no layer named to control air")
        return
    page.declare(
        name,
        any(_touches(i, fibre, slices) for i in control),
        origin=Origin.COMPUTED,
        method="no air layer lies between an air-control layer and the insulation nearest to it",
    )


def _touches(control: int, fibre: Sequence[int], slices: Sequence[Slice]) -> bool:
    return any(
        not any(piece.is_air for piece in slices[min(control, i) + 1 : max(control, i)]) for i in fibre
    )
