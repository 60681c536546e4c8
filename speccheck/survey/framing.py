"""Framing of an assembly: depth, spacing, share of the area, and the members' own resistance."""

from collections.abc import Sequence

from speccheck.document.assembly import Assembly, Framing
from speccheck.survey.build_up import Path, Slice
from speccheck.survey.convention import Practice
from speccheck.survey.fact import Fact, Gap, Origin
from speccheck.survey.ledger import Page
from speccheck.survey.table_words import source_words
from speccheck.tables.construction import framing_fraction
from speccheck.tables.materials import material

__all__ = ["enter_framing", "layer_fraction", "main_framed", "member_resistance"]

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
    main = main_framed(framed)
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
    _enter_fraction(page, path, assembly.kind, framing, practice)


def main_framed(framed: Sequence[Slice]) -> Slice:
    """Return the main framed layer, the deepest, of at least one."""
    return max(framed, key=_depth_of)


def _depth_of(piece: Slice) -> float:
    value = piece.page["thickness"].value
    return value if isinstance(value, float) else 0.0


def _enter_depth(page: Page, main: Slice, framing: Framing) -> None:
    if framing.depth is not None:
        page.declare("stud_depth", framing.depth.value)
    else:
        page.copy("stud_depth", main.page["thickness"], method="thickness of the framed layer")


def layer_fraction(piece: Slice, page: Page, assembly: Assembly, main: Slice, practice: Practice) -> Fact:
    """Enter and return the share of a framed layer that is framing: the assembly's, or that of its own members.

    Args:
        piece: the framed layer.
        page: the assembly's page, with the share of its main framing.
        assembly: what is declared of it.
        main: its main framed layer.
        practice: the practice of the place.
    """
    framing, own = piece.framing, piece.page
    assert framing is not None
    if framing is main.framing:
        return own.copy("framing_fraction", page["framing_fraction"], method="that of the assembly's framing")
    path = (*piece.path, "framing")
    if framing.fraction is None and framing is not assembly.framing:
        # the table's shares count plates and headers, which battens and furring have not
        return _share_of_members(own, framing, path)
    _enter_fraction(own, path, assembly.kind, framing, practice)
    return own["framing_fraction"]


def _share_of_members(own: Page, framing: Framing, path: Path) -> Fact:
    if framing.width is None or framing.spacing is None:
        question = (
            f"Which share of {own.place} is framing (or: how wide are its members, and at which spacing)?"
        )
        return own.unknown("framing_fraction", Gap(own.place, "framing fraction", question, path))
    share = min(framing.width.value / framing.spacing.value, 1.0)
    return own.declare(
        "framing_fraction", share, origin=Origin.COMPUTED, method="width of a member over the spacing"
    )


def _enter_fraction(page: Page, path: Path, kind: str, framing: Framing, practice: Practice) -> None:
    if framing.fraction is not None:
        page.declare("framing_fraction", framing.fraction.value)
        return
    gap = Gap(page.place, "framing fraction", f"Which share of {page.place} is framing?", path)
    if framing.material == "steel":
        page.inapplicable("framing_fraction", "metal framing is reckoned by its own methods")
        return
    listed = _TABLE_KIND.get(kind)
    spacing = framing.spacing.value if framing.spacing else None
    found = _look_up(listed, spacing, practice) if listed else None
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
