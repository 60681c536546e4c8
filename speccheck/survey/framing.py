"""Framing of an assembly: depth, spacing, share of the area, and the members' own resistance."""

from collections.abc import Sequence

from speccheck.document.assembly import Assembly, Framing
from speccheck.survey.build_up import Slice
from speccheck.survey.convention import Practice
from speccheck.survey.fact import Fact, Gap, Origin
from speccheck.survey.ledger import Page
from speccheck.survey.table_words import source_words
from speccheck.tables.construction import framing_fraction
from speccheck.tables.materials import material

__all__ = ["enter_framing", "member_resistance"]

_TABLE_KIND = {
    "wall": "wall",
    "below-grade-wall": "wall",
    "roof": "roof",
    "ceiling": "ceiling",
    "floor": "floor",
}
_2X4_TO = 0.115
"""Framing up to this depth [m] counts as 2x4, deeper as 2x6: code tables know only the two."""
_FAMILY = {"softwood": "wood", "hardwood": "wood", "engineered-wood": "wood", "steel": "metal"}


def enter_framing(page: Page, assembly: Assembly, framed: Sequence[Slice], practice: Practice) -> None:
    """Enter the framing facts; the main framed layer is the deepest."""
    names = ("stud_depth", "framing_spacing", "framing_fraction")
    if not framed:
        for name in names:
            page.inapplicable(name, "no framing")
        for name in ("framing_material", "framing_family", "stud_size"):
            page.declare(name, "none", origin=Origin.COMPUTED)
        return
    main = max(framed, key=_depth_of)
    framing = main.framing
    assert framing is not None
    page.declare("framing_material", framing.material)
    page.declare("framing_family", _FAMILY[framing.material])
    _enter_depth(page, main, framing)
    page.compute(
        "stud_size", lambda d: "2x4" if d <= _2X4_TO else "2x6", [page["stud_depth"]], method="by depth"
    )
    path = ("assemblies", page.place, "framing")
    if framing.spacing is not None:
        page.declare("framing_spacing", framing.spacing.value)
    else:
        gap = Gap(
            page.place, "framing spacing", f"At which spacing does the framing of {page.place} stand?", path
        )
        page.unknown("framing_spacing", gap)
    _enter_fraction(page, assembly, framing, practice)


def _depth_of(piece: Slice) -> float:
    value = piece.page["thickness"].value
    return value if isinstance(value, float) else 0.0


def _enter_depth(page: Page, main: Slice, framing: Framing) -> None:
    if framing.depth is not None:
        page.declare("stud_depth", framing.depth.value)
    else:
        page.copy("stud_depth", main.page["thickness"], method="thickness of the framed layer")


def _enter_fraction(page: Page, assembly: Assembly, framing: Framing, practice: Practice) -> None:
    if framing.fraction is not None:
        page.declare("framing_fraction", framing.fraction.value)
        return
    path = ("assemblies", page.place, "framing")
    gap = Gap(page.place, "framing fraction", f"Which share of {page.place} is framing?", path)
    if framing.material == "steel":
        page.inapplicable("framing_fraction", "metal framing is reckoned by its own methods")
        return
    kind = _TABLE_KIND.get(assembly.kind)
    spacing = framing.spacing.value if framing.spacing else None
    found = _look_up(kind, spacing, practice) if kind else None
    if found is None:
        page.unknown("framing_fraction", gap)
        return
    fraction, source = found
    page.from_table(
        "framing_fraction",
        fraction,
        source=source,
        stands_for=f"framing fraction {fraction:.2f} of {page.place}, since none is declared",
        origin=Origin.ASSUMED,
    )


def _look_up(kind: str, spacing: float | None, practice: Practice) -> tuple[float, str] | None:
    for convention in dict.fromkeys((practice.fractions, "us", "nbc", "ansi-301")):
        for construction in ("typical", "lumber joists", "lumber rafters", "typical trusses"):
            row = framing_fraction(kind, spacing, convention, construction)  # type: ignore[arg-type]
            if row is not None:
                return row.value, source_words(row)
    return None


def member_resistance(piece: Slice) -> Fact:
    """Enter and return the resistance of the framing that crosses a slice, over the slice's thickness."""
    page, framing = piece.page, piece.framing
    assert framing is not None
    if framing.conductivity is not None:
        conductivity = page.declare("member_conductivity", framing.conductivity.value)
    else:
        conductivity = _table_conductivity(page, framing)
    return page.compute(
        "member_resistance",
        lambda d, k: d / k,
        [page["thickness"], conductivity],
        method="depth of the member within the layer over its conductivity",
        source="ISO 6946:2017, 6.7.1",
    )


def _table_conductivity(page: Page, framing: Framing) -> Fact:
    name = {"engineered-wood": "laminated-veneer-lumber"}.get(framing.material, framing.material)
    found = material(name) or material("softwood")
    value = found.row_for().row.conductivity if found else None
    if found is None or value is None:
        gap = Gap(
            page.place,
            "conductivity of the framing",
            f"What is the conductivity of the framing of {page.place}?",
        )
        return page.unknown("member_conductivity", gap)
    return page.from_table(
        "member_conductivity",
        value.value,
        source=source_words(value),
        stands_for=f"conductivity of the framing in {page.place} from the material table ({found.title})",
        low=value.low,
        high=value.high,
    )
