"""Surface films and air layers of a section: resistances that hang on the place, not on the material alone."""

from speccheck.physics import air_layer
from speccheck.survey.build_up import Slice
from speccheck.survey.convention import Practice, heat_flow
from speccheck.survey.fact import Fact, Gap, Origin
from speccheck.survey.ledger import Page
from speccheck.survey.section import Section
from speccheck.survey.table_words import source_words
from speccheck.tables.construction import films

__all__ = ["enter_air_layers", "enter_films", "well_ventilated"]

_ISO_LAYER = "ISO 6946:2017, annex D (convection and radiation across the layer)"
_THICKEST = 0.3


def well_ventilated(section: Section) -> bool:
    """Is the cavity so open that its air counts as outdoor air?"""
    if section.cavity is None:
        return False
    layer = section.slices[section.cavity].layer
    if layer is not None and layer.vent_area is not None:
        return air_layer.ventilation_treatment(layer.vent_area.value).drop_outboard
    return section.ventilation in (None, "ventilated")


def enter_films(
    page: Page, kind: str, outside: str, section: Section, practice: Practice
) -> tuple[Fact, Fact]:
    """Enter the inside and the outside surface film and return them."""
    found = films(practice.films, heat_flow(kind))
    inside = page.from_table(
        "film_inside",
        found.interior.value,
        source=source_words(found.interior),
        stands_for="",
        method=f"{practice.films}, heat flow {found.direction}",
    )
    if outside == "ground":
        return inside, page.declare(
            "film_outside",
            0.0,
            origin=Origin.COMPUTED,
            method="no film against the ground; the ground is not counted",
        )
    sheltered = outside != "outdoors" or well_ventilated(section)
    value = found.sheltered if sheltered else found.exterior
    where = (
        "still air behind a ventilated cavity or toward a sheltered space"
        if sheltered
        else "outdoors in winter"
    )
    return inside, page.from_table(
        "film_outside",
        value.value,
        source=source_words(value),
        stands_for=_taken_as_open(section) if outside == "outdoors" else "",
        method=f"{practice.films}, {where}",
    )


def _taken_as_open(section: Section) -> str:
    """Return the sentence that says a cavity counts as well ventilated though nothing shows it; else nothing."""
    if section.cavity is None or section.ventilation is not None:
        return ""
    piece = section.slices[section.cavity]
    if piece.layer is not None and piece.layer.vent_area is not None:
        return ""
    return f"{piece.words} counted as well ventilated for heat: it and what lies outside it add no resistance"


def enter_air_layers(kind: str, section: Section) -> None:
    """Enter the resistance of each air layer by its thickness, direction and ventilation."""
    for index, piece in enumerate(section.slices):
        if piece.is_air:
            _enter_ventilation(piece, is_cavity=index == section.cavity)
            dropped = index == section.cavity and well_ventilated(section)
            _enter_resistance(piece, kind, section, dropped=dropped)


def _enter_ventilation(piece: Slice, *, is_cavity: bool) -> None:
    page, layer = piece.page, piece.layer
    if layer is not None and layer.ventilation is not None:
        page.declare("ventilation", layer.ventilation)
    elif is_cavity:
        question = f"Is the cavity {piece.words} closed, drained, vented or ventilated?"
        page.unknown("ventilation", Gap(page.place, "ventilation of the cavity", question, piece.path))
    else:
        page.from_table(
            "ventilation",
            "none",
            source="common practice, no source",
            stands_for=f"{piece.words} taken as a closed air layer, since its ventilation is not declared",
            origin=Origin.ASSUMED,
        )


def _enter_resistance(piece: Slice, kind: str, section: Section, *, dropped: bool) -> None:
    page, layer = piece.page, piece.layer
    if "resistance" in page:
        return
    if dropped:
        assumption = _taken_as_open(section)
        page.from_table(
            "resistance",
            0.0,
            source="ISO 6946:2017, 6.9.4, well ventilated air layers (memory)",
            stands_for=assumption,
            origin=Origin.ASSUMED if assumption else Origin.COMPUTED,
            method="a well ventilated layer and what lies outside it are left out",
        )
        return
    slightly = layer is not None and (
        layer.vent_area is not None or layer.ventilation in ("drained", "vented")
    )
    page.compute(
        "resistance",
        lambda d: _resistance(piece, kind, d),
        [page["thickness"]],
        method="slightly ventilated air layer: half the still value, or by its opening area"
        if slightly
        else "unventilated air layer between ordinary faces, emissivity as declared or 0.9",
        source=_ISO_LAYER,
    )


def _resistance(piece: Slice, kind: str, thickness: float) -> float:
    layer = piece.layer
    emissivity = layer.emissivity.value if layer is not None and layer.emissivity is not None else 0.9
    emittance = air_layer.effective_emittance(max(emissivity, 0.01), 0.9)
    direction = heat_flow(kind)
    still = air_layer.air_layer_resistance(min(thickness, _THICKEST), direction, emittance)
    if layer is not None and layer.vent_area is not None:
        area = layer.vent_area.value
        return still * air_layer.ventilation_treatment(area, direction).unventilated_weight
    # drained and vented layers are slightly ventilated; half the still value is the usual cautious reading
    return still * (0.5 if layer is not None and layer.ventilation in ("drained", "vented") else 1.0)
