"""The facts of one assembly, in order: its layers, its section, heat, vapour, the condensing plane, what it holds."""

from collections.abc import Mapping, Sequence
from typing import NamedTuple

from speccheck.document.assembly import Assembly
from speccheck.document.product import Product
from speccheck.survey.build_up import Slice, build_up
from speccheck.survey.contents import survey_contents
from speccheck.survey.convention import practice_of
from speccheck.survey.cover import survey_cover
from speccheck.survey.fact import Origin
from speccheck.survey.films import enter_air_layers, enter_films
from speccheck.survey.heat import survey_heat
from speccheck.survey.insulation import survey_insulation
from speccheck.survey.layer import survey_layer
from speccheck.survey.ledger import Ledger, Page
from speccheck.survey.moisture import survey_moisture
from speccheck.survey.plane import survey_plane
from speccheck.survey.section import Section, section
from speccheck.survey.vapour import survey_vapour

__all__ = ["SurveyedAssembly", "survey_assembly"]


class SurveyedAssembly(NamedTuple):
    """An assembly with its page and its slices."""

    name: str
    page: Page
    section: Section

    @property
    def slices(self) -> Sequence[Slice]:
        """The slices, inside first."""
        return self.section.slices

    @property
    def air_layers(self) -> tuple[str, ...]:
        """Names of the layers that control air."""
        return tuple(
            piece.id for piece in self.slices if piece.layer is not None and "air" in piece.layer.controls
        )


def survey_assembly(
    ledger: Ledger, name: str, assembly: Assembly, products: Mapping[str, Product]
) -> SurveyedAssembly:
    """Enter all facts of an assembly and of its layers that do not hang on junctions."""
    page = ledger.page("assembly", name)
    climate, project = ledger.page("climate", "climate"), ledger.page("project", "project")
    slices = build_up(ledger, name, assembly, products)
    for position, piece in enumerate(slices, 1):
        survey_layer(piece, position)
    parts = section(slices)
    for index, piece in enumerate(slices):
        piece.page.declare("side", parts.side(index), origin=Origin.COMPUTED)
    outside = assembly.outside or ("ground" if assembly.kind in ("slab", "below-grade-wall") else "outdoors")
    page.declare("kind", assembly.kind)
    shown = Origin.DECLARED if assembly.outside else Origin.COMPUTED
    page.declare(
        "outside", outside, origin=shown, method="" if assembly.outside else "by the kind of assembly"
    )
    practice = practice_of(str(project["country"].value))
    films = enter_films(page, assembly.kind, outside, parts, practice)
    enter_air_layers(assembly.kind, parts)
    survey_heat(page, assembly, parts, practice, films)
    survey_insulation(page, parts)
    survey_vapour(page, parts, name)
    survey_plane(page, parts, climate, project, films)
    survey_contents(page, assembly, parts)
    survey_cover(slices)
    survey_moisture(page, assembly, parts, climate, project)
    return SurveyedAssembly(name, page, parts)
