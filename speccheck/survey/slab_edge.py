"""The insulation at the edge of a slab: what is shown of it, and what is still to be asked."""

from speccheck.document import Document
from speccheck.document.assembly import Assembly
from speccheck.survey.fact import Gap, Origin
from speccheck.survey.ledger import Ledger, Page

__all__ = ["survey_slab_depth", "survey_slab_edge"]

_NUMBERS = ("slab_edge_r", "slab_edge_depth")


def survey_slab_edge(page: Page, name: str, assembly: Assembly) -> None:
    """Enter the insulation at the edge of an assembly that is a slab; ``name`` is its id in the document."""
    if assembly.kind != "slab":
        for fact in ("slab_edge_shown", *_NUMBERS):
            page.inapplicable(fact, "no slab")
        return
    edge = assembly.edge
    page.declare("slab_edge_shown", edge is not None)
    if edge is None:
        for fact in _NUMBERS:
            page.inapplicable(fact, "no insulation is shown at the edge of the slab")
        return
    path = ("assemblies", name, "edge")
    if edge.insulation is not None:
        page.declare("slab_edge_r", edge.insulation.value)
    else:
        question = f"What is the thermal resistance of the insulation at the edge of {name}?"
        page.unknown("slab_edge_r", Gap(name, "resistance of the edge insulation", question, path))
    if edge.depth is not None:
        page.declare("slab_edge_depth", edge.depth.value)
    elif edge.insulation is not None and edge.insulation.value == 0:
        page.inapplicable("slab_edge_depth", "no insulation lies at the edge of the slab")
    else:
        question = f"How far does the insulation at the edge of {name} run from the top of the slab?"
        page.unknown("slab_edge_depth", Gap(name, "depth of the edge insulation", question, path))


def survey_slab_depth(ledger: Ledger, document: Document) -> None:
    """Enter of each slab whether it lies at the foot of a wall below grade; one of which no junction tells does not."""
    walls = {name for name, one in document.assemblies.items() if one.kind == "below-grade-wall"}
    deep: set[str] = set()
    for junction in document.junctions.values():
        joined = {str(place).partition(".")[0] for place in junction.joins}
        if joined & walls:
            deep |= joined
    for name, assembly in document.assemblies.items():
        page = ledger.page("assembly", name)
        if assembly.kind == "slab":
            page.declare(
                "slab_below_grade", name in deep, origin=Origin.COMPUTED, method="by the junctions declared"
            )
        else:
            page.inapplicable("slab_below_grade", "no slab")
