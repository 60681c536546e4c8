"""What stands between foam plastic and the room: gypsum board, wood panels and masonry inboard of it."""

from collections.abc import Sequence

from speccheck.survey.build_up import Slice
from speccheck.survey.fact import Fact, Gap
from speccheck.survey.ledger import Page

__all__ = ["survey_cover"]

_WOOD_PANELS = ("plywood", "osb", "osb-overlaid", "cross-laminated-timber", "laminated-veneer-lumber")


def survey_cover(slices: Sequence[Slice]) -> None:
    """Enter for each foam plastic what covers it toward the room; ``slices`` stand inside first."""
    for index, piece in enumerate(slices):
        if piece.page["foam_plastic"].value is not True:
            for name in ("gypsum_inboard", "wood_panel_inboard", "masonry_inboard"):
                piece.page.inapplicable(name, "no foam plastic")
            continue
        inner = slices[:index]
        unsure = tuple(_family_gap(one) for one in inner if one.material is None)
        _enter(
            piece.page,
            "gypsum_inboard",
            [one for one in inner if one.material_id.startswith("gypsum")],
            unsure,
        )
        _enter(
            piece.page,
            "wood_panel_inboard",
            [one for one in inner if one.material_id in _WOOD_PANELS],
            unsure,
        )
        _enter(piece.page, "masonry_inboard", [one for one in inner if one.group == "masonry"], unsure)


def _family_gap(piece: Slice) -> Gap:
    return Gap(piece.page.place, "generic family", f"What kind of material is {piece.words}?", piece.path)


def _enter(page: Page, name: str, cover: Sequence[Slice], unsure: tuple[Gap, ...]) -> Fact:
    if unsure:
        return page.unknown(name, *unsure)
    if not cover:
        return page.compute(name, lambda: 0.0, [], method="none inboard of it")
    return page.compute(
        name, lambda *thickness: sum(thickness), [one.page["thickness"] for one in cover], method="added up"
    )
