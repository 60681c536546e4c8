"""What an assembly holds: materials, cladding, cavity, sheathing, control layers, and what moisture harms."""

from collections.abc import Iterable, Sequence

from speccheck.document.assembly import Assembly
from speccheck.survey.build_up import Slice
from speccheck.survey.fact import Gap, Origin
from speccheck.survey.ledger import Page
from speccheck.survey.section import Section

__all__ = ["survey_contents"]

_ABOVE_GRADE = ("wall", "roof", "ceiling", "floor")
_SHEATHING_KIND = {
    "osb": "wood-panel", "osb-overlaid": "wood-panel", "plywood": "wood-panel", "fibreboard-sheathing": "fibreboard",
}  # fmt: skip
"""Boards the vapour tables of the codes tell apart; gypsum goes by its group."""


def survey_contents(page: Page, assembly: Assembly, section: Section) -> None:
    """Enter what the assembly is made of and what its layers are named to control."""
    slices = section.slices
    page.declare("layer_count", float(len(slices)), origin=Origin.COMPUTED)
    above = assembly.kind in _ABOVE_GRADE and page["outside"].value != "ground"
    page.declare("above_grade", above, origin=Origin.COMPUTED)
    page.declare("groups", _unique(piece.group for piece in slices if piece.group), origin=Origin.TABLE)
    page.declare("materials", _unique(piece.material_id for piece in slices), origin=Origin.COMPUTED)
    page.declare(
        "layers_of_unknown_material",
        tuple(piece.words for piece in slices if piece.material is None),
        origin=Origin.COMPUTED,
        method="products without a family",
    )
    _enter_drying(page, assembly)
    _enter_main(page, section)
    _enter_cladding(page, section)
    _enter_cavity(page, section)
    _enter_sensitive(page, slices)
    _enter_controls(page, section)


def _unique(words: Iterable[str]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(words))


def _enter_drying(page: Page, assembly: Assembly) -> None:
    if assembly.drying is not None:
        page.declare("drying_stated", assembly.drying)
    else:
        path = ("assemblies", page.place)
        gap = Gap(page.place, "drying direction", f"Which way is {page.place} meant to dry?", path)
        page.unknown("drying_stated", gap)


def _enter_main(page: Page, section: Section) -> None:
    slices = section.slices
    if section.main is None:
        for name in ("main_insulation", "main_insulation_material"):
            page.inapplicable(name, "no insulation")
        page.declare("has_air_permeable_insulation", False, origin=Origin.COMPUTED)
    else:
        page.declare("main_insulation", slices[section.main].words, origin=Origin.COMPUTED)
        page.declare("main_insulation_material", slices[section.main].material_id, origin=Origin.COMPUTED)
        open_ = [p.page["air_impermeable"] for p in slices if p.is_insulation]
        if any(fact.value is False for fact in open_):
            page.declare("has_air_permeable_insulation", True, origin=Origin.COMPUTED)
        else:
            page.compute(
                "has_air_permeable_insulation",
                lambda *tight: not all(tight),
                open_,
                method="any that lets air through",
            )
    _enter_fibre(page, [piece for piece in slices if piece.is_insulation])
    sheathing = _sheathing(section)
    if sheathing is None:
        page.inapplicable("sheathing_material", "no board outboard of the insulation")
    else:
        page.declare("sheathing_material", sheathing.material_id, origin=Origin.COMPUTED)
    wood = section.wooden_sheathing
    page.declare(
        "wooden_sheathing",
        slices[wood].words if wood is not None else "none",
        origin=Origin.COMPUTED,
        method="first wood outboard of the main insulation, else a condensing plane of wood",
    )
    page.declare("sheathing_kind", _sheathing_kind(sheathing), origin=Origin.COMPUTED)


def _enter_fibre(page: Page, insulation: Sequence[Slice]) -> None:
    """Enter whether any insulation but foam plastic lets air through: a board of foam holds no air that moves."""
    other = [piece for piece in insulation if piece.page["foam_plastic"].value is not True]
    facts = [piece.page["air_impermeable"] for piece in other]
    if not facts or any(fact.value is False for fact in facts):
        page.declare("has_fibre_insulation", bool(facts), origin=Origin.COMPUTED)
    else:
        page.compute(
            "has_fibre_insulation", lambda *tight: not all(tight), facts, method="any that lets air through"
        )


def _sheathing_kind(sheathing: Slice | None) -> str:
    if sheathing is None:
        return "none"
    return _SHEATHING_KIND.get(sheathing.material_id, "gypsum" if sheathing.group == "gypsum" else "other")


def _sheathing(section: Section) -> Slice | None:
    framed = [i for i, piece in enumerate(section.slices) if piece.framing is not None]
    start = max(framed) if framed else section.main
    if start is None:
        return None
    boards = ("wood", "gypsum", "masonry", "cladding")
    return next(
        (
            piece
            for piece in section.slices[start + 1 : section.beyond]
            if piece.group in boards and not piece.is_air
        ),
        None,
    )


def _enter_cladding(page: Page, section: Section) -> None:
    outermost = next(
        (piece for piece in reversed(section.slices) if not piece.is_air and not piece.is_skin), None
    )
    if outermost is None or section.main is None or section.slices.index(outermost) <= section.main:
        page.inapplicable("cladding_material", "no layer outboard of the insulation")
        page.declare("reservoir_cladding", False, origin=Origin.COMPUTED)
        return
    page.copy("cladding_material", outermost.page["material"])
    page.copy("reservoir_cladding", outermost.page["reservoir"], method="the outermost layer")


def _enter_cavity(page: Page, section: Section) -> None:
    if section.cavity is None:
        page.declare("cavity_ventilation", "none", origin=Origin.COMPUTED, method="no air layer outboard")
        page.inapplicable("cavity_depth", "no air layer outboard of the insulation")
        page.declare("has_ventilated_cavity", False, origin=Origin.COMPUTED)
        page.declare("has_vented_cavity", False, origin=Origin.COMPUTED)
        return
    own = section.slices[section.cavity].page
    ventilation = page.copy("cavity_ventilation", own["ventilation"])
    page.copy("cavity_depth", own["thickness"])
    page.compute(
        "has_ventilated_cavity", lambda v: v == "ventilated", [ventilation], method="open at base and top"
    )
    page.compute(
        "has_vented_cavity", lambda v: v in ("vented", "ventilated"), [ventilation], method="open at the base"
    )


def _enter_sensitive(page: Page, slices: Sequence[Slice]) -> None:
    facts = [piece.page["moisture_sensitive"] for piece in slices]
    known = any(fact.value is True for fact in facts) or any(piece.framing is not None for piece in slices)
    if known:
        page.declare(
            "encloses_wood",
            True,
            origin=Origin.COMPUTED,
            method="a layer or the framing is harmed by moisture",
        )
    else:
        page.compute(
            "encloses_wood", lambda *marks: any(marks), facts, method="no layer is harmed by moisture"
        )


def _enter_controls(page: Page, section: Section) -> None:
    by_control: dict[str, list[int]] = {"air": [], "water": [], "vapour": [], "thermal": []}
    for index, piece in enumerate(section.slices):
        for control in piece.layer.controls if piece.layer is not None else ():
            by_control[control].append(index)
    for name, found in by_control.items():
        page.declare(
            f"{name}_control_layers", tuple(section.slices[i].id for i in found), origin=Origin.COMPUTED
        )
    air, main = by_control["air"], section.main if section.main is not None else len(section.slices)
    for barrier, words in (("air", "air barrier"), ("water", "water-resistive barrier")):
        names = page[f"{barrier}_control_layers"]
        if names.value:
            page.copy(f"{barrier}_barrier", names, method="layers named to control it")
        else:
            question = f"Which layer of {page.place} is the {words}?"
            page.unknown(f"{barrier}_barrier", Gap(page.place, words, question, ("assemblies", page.place)))
    page.declare("air_control_count", float(len(air)), origin=Origin.COMPUTED)
    page.declare("air_barrier_named", bool(air), origin=Origin.COMPUTED)
    page.declare("water_barrier_named", bool(by_control["water"]), origin=Origin.COMPUTED)
    page.declare("air_barrier_inside", any(i < main for i in air), origin=Origin.COMPUTED)
    page.declare("air_barrier_outside", any(i > main for i in air), origin=Origin.COMPUTED)
    _enter_air_barrier(page, section, air, main)


def _enter_air_barrier(page: Page, section: Section, air: Sequence[int], main: int) -> None:
    if not air:
        page.inapplicable("tightest_air_permeance", "no layer is named to control air")
    else:
        facts = [section.slices[i].page["air_permeance"] for i in air]
        shown = [fact for fact in facts if fact.known] or facts
        page.compute(
            "tightest_air_permeance", min, shown, method="lowest among the layers named", rises="+"
        ) if len(shown) > 1 else page.copy("tightest_air_permeance", shown[0])
    outer = [i for i in air if i > main]
    if outer:
        page.copy("air_barrier_permeance", section.slices[max(outer)].page["permeance_dry"])
    else:
        page.inapplicable("air_barrier_permeance", "no air-control layer outboard of the main insulation")
