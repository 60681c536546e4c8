"""The survey: from a document and the reference tables to facts. It knows no rules."""

from pathlib import Path

from speccheck.document import Document
from speccheck.survey.air_continuity import survey_air_continuity
from speccheck.survey.assembly import SurveyedAssembly, survey_assembly
from speccheck.survey.climate import survey_climate
from speccheck.survey.junction import survey_junctions
from speccheck.survey.ledger import Ledger
from speccheck.survey.opening import survey_openings, survey_penetrations
from speccheck.survey.product import survey_product
from speccheck.survey.project import enter_cooling, survey_project
from speccheck.survey.sealing import survey_sealing
from speccheck.survey.slab_edge import survey_slab_depth
from speccheck.survey.subject import Subject, Surveyed
from speccheck.survey.water_and_vapour import survey_vapour_line, survey_water_line

__all__ = ["survey"]


def survey(document: Document, folder: Path = Path()) -> Surveyed:
    """Return the facts of a document.

    Args:
        document: what is declared.
        folder: the folder from which a weather file's path starts.

    Raises:
        speccheck.tables.climate.WeatherFileError: when a weather file cannot be read.
    """
    ledger = Ledger()
    project = ledger.page("project", "project")
    climate = ledger.page("climate", "climate")
    survey_project(project, document)
    survey_climate(climate, document.project.place, folder, document.project.sealing_months)
    number = climate["zone_number"].value
    enter_cooling(project, number if isinstance(number, float) else None)
    assemblies = [
        survey_assembly(ledger, name, assembly, document.products)
        for name, assembly in document.assemblies.items()
    ]
    survey_slab_depth(ledger, document)
    survey_junctions(ledger, document)
    survey_openings(ledger, document)
    survey_penetrations(ledger, document)
    survey_air_continuity(ledger, document, assemblies)
    survey_water_line(ledger, document, assemblies)
    survey_vapour_line(ledger, document, assemblies)
    survey_sealing(ledger, document)
    for name, product in document.products.items():
        survey_product(ledger.page("product", name), name, product)
    return Surveyed(ledger, _subjects(ledger, document, assemblies))


def _subjects(ledger: Ledger, document: Document, assemblies: list[SurveyedAssembly]) -> list[Subject]:
    everywhere = (ledger.page("project", "project"), ledger.page("climate", "climate"))
    subjects = [Subject("project", "project", ("project",), everywhere)]
    by_name = {built.name: built.page for built in assemblies}
    for built in assemblies:
        subjects.append(
            Subject("assembly", built.name, ("assemblies", built.name), (built.page, *everywhere))
        )
        subjects.extend(
            Subject("layer", piece.page.place, piece.path, (piece.page, built.page, *everywhere))
            for piece in built.slices
        )
    subjects += [
        Subject("junction", name, ("junctions", name), (ledger.page("junction", name), *everywhere))
        for name in document.junctions
    ]
    for kind, key, things in (
        ("opening", "openings", document.openings),
        ("penetration", "penetrations", document.penetrations),
    ):
        for name, thing in things.items():
            pages = (ledger.page(kind, name), by_name[thing.within], *everywhere)
            subjects.append(Subject(kind, name, (key, name), pages))
    subjects += [
        Subject("product", name, ("products", name), (ledger.page("product", name), *everywhere))
        for name in document.products
    ]
    return subjects
