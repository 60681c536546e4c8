"""The facts of one assembly, in order: its layers, its section, heat, vapour, the condensing plane, what it holds."""

from collections.abc import Mapping, Sequence
from typing import NamedTuple

from speccheck.document.assembly import Assembly
from speccheck.document.product import Product
from speccheck.survey.build_up import Slice, build_up
from speccheck.survey.contact import survey_contact
from speccheck.survey.contents import survey_contents
from speccheck.survey.convention import practice_of
from speccheck.survey.cover import survey_cover
from speccheck.survey.fact import Gap, Origin
from speccheck.survey.films import enter_air_layers, enter_films
from speccheck.survey.heat import survey_heat
from speccheck.survey.insulation import survey_insulation
from speccheck.survey.layer import survey_layer
from speccheck.survey.layer_ratio import survey_layer_ratio
from speccheck.survey.ledger import Ledger, Page
from speccheck.survey.moisture import survey_moisture
from speccheck.survey.plane import survey_plane
from speccheck.survey.section import Section, section
from speccheck.survey.slab_edge import survey_slab_edge
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
    survey_layer_ratio(parts, films)
    survey_contents(page, assembly, parts)
    survey_cover(slices)
    survey_contact(page, slices)
    survey_slab_edge(page, name, assembly)
    _enter_beyond(page, name, assembly)
    survey_moisture(page, assembly, parts, climate, project)
    return SurveyedAssembly(name, page, parts)


def _enter_beyond(page: Page, name: str, assembly: Assembly) -> None:
    """Enter what the document says of the space beyond, and of a leakage test of the assembly."""
    path = ("assemblies", name)
    if page["outside"].value not in ("attic", "crawlspace"):
        page.inapplicable("space_ventilated", "neither attic nor crawlspace lies beyond")
    elif assembly.space_ventilated is None:
        question = f"Is the {page['outside'].value} beyond {name} open to outdoor air?"
        page.unknown("space_ventilated", Gap(name, "ventilation of the space beyond", question, path))
    else:
        page.declare("space_ventilated", assembly.space_ventilated)
    leakage = assembly.stated.air_leakage if assembly.stated is not None else None
    if leakage is None:
        page.inapplicable("stated_air_leakage", "no test of the assembly with its joints is stated")
    elif leakage.reference_pressure is None or abs(leakage.reference_pressure - 75.0) > 0.5:
        question = f"What is the air leakage of {name}, tested as an assembly, at 75 Pa?"
        page.unknown("stated_air_leakage", Gap(name, "air leakage of the assembly", question, path))
    else:
        page.declare("stated_air_leakage", leakage.value)
