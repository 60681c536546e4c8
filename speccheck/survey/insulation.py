"""How the insulation is split: between the framing, continuous, outboard, warm side; sums as the codes count them."""

from collections.abc import Callable, Sequence

from speccheck.survey.build_up import Slice
from speccheck.survey.fact import Fact, Origin
from speccheck.survey.ledger import Page
from speccheck.survey.section import Section

__all__ = ["survey_insulation"]


def survey_insulation(page: Page, section: Section) -> None:
    """Enter the sums of nominal insulation resistance by where the insulation lies."""
    slices = section.slices
    insulation = [piece for piece in slices if piece.is_insulation]
    framed = [piece for piece in insulation if piece.framing is not None]
    continuous = [piece for piece in insulation if piece.framing is None]
    outboard = _outboard_continuous(section)
    _sum(page, "insulation_r", insulation, "nominal resistances of all insulation layers")
    _sum(page, "cavity_r", framed, "nominal resistances of the insulation between framing")
    _sum(page, "continuous_r", continuous, "nominal resistances of the insulation not cut by framing")
    _sum(
        page,
        "continuous_r_outboard",
        outboard,
        "continuous insulation outboard of the framing or of the plane",
    )
    foam = [piece for piece in outboard if piece.page["foam_plastic"].value is True]
    _sum(page, "foam_outboard_r", foam, "foam plastic outboard of the framing or of the plane")
    _enter_wind(section)
    _enter_air_impermeable(page, section)
    _enter_warm_side(page, section)
    declare: dict[str, bool] = {
        "has_insulation": bool(insulation),
        "cavity_full": bool(framed),
        "foam_outboard": bool(foam),
        "continuous_interrupted": any(_interrupted(piece) for piece in continuous),
        "all_insulation_outboard": bool(outboard) and len(outboard) == len(insulation),
    }
    for name, value in declare.items():
        page.declare(name, value, origin=Origin.COMPUTED)


def _interrupted(piece: Slice) -> bool:
    return piece.layer is not None and any(what != "fasteners" for what in piece.layer.interrupted_by)


def _sum(page: Page, name: str, slices: Sequence[Slice], method: str) -> Fact:
    if not slices:
        return page.declare(name, 0.0, origin=Origin.COMPUTED, method=f"{method}: none")
    return page.compute(
        name, lambda *r: sum(r), [p.page["resistance"] for p in slices], method=method, rises="+"
    )


def _outboard_continuous(section: Section) -> list[Slice]:
    """Return the continuous insulation outboard of the framed layers; without framing, from the plane outward."""
    framed = [i for i, piece in enumerate(section.slices) if piece.framing is not None]
    start = max(framed) + 1 if framed else section.plane
    if start is None:
        return []
    return [
        piece
        for piece in section.slices[start : section.beyond]
        if piece.is_insulation and piece.framing is None
    ]


def _enter_wind(section: Section) -> None:
    """Enter for each insulation whether outdoor air moves along its outer face."""
    for index, piece in enumerate(section.slices):
        if not piece.is_insulation:
            piece.page.inapplicable("faces_moving_air", "no insulation")
            continue
        outer = section.slices[index + 1] if index + 1 < len(section.slices) else None
        if outer is None or not outer.is_air:
            piece.page.declare(
                "faces_moving_air", outer is None, origin=Origin.COMPUTED, method="next layer out"
            )
        else:
            ventilation = outer.page["ventilation"]
            piece.page.compute(
                "faces_moving_air",
                lambda v: v in ("vented", "ventilated"),
                [ventilation],
                method="by the air layer",
            )


def _enter_air_impermeable(page: Page, section: Section) -> None:
    """Enter the insulation from the condensing plane outward, and of that the part air cannot pass.

    Air-impermeable insulation that touches the plane from inside counts too.
    """
    if section.plane is None:
        for name in ("air_impermeable_r", "insulation_r_beyond_plane"):
            page.inapplicable(name, "no condensing plane")
        return
    start = section.plane
    while start > 0 and _tight_insulation(section.slices[start - 1]):
        start -= 1
    outward = [piece for piece in section.slices[start : section.beyond] if piece.is_insulation]
    _sum(
        page, "insulation_r_beyond_plane", outward, "insulation of any kind from the condensing plane outward"
    )
    chosen = [piece for piece in outward if _tight_insulation(piece)]
    _sum(page, "air_impermeable_r", chosen, "air-impermeable insulation from the condensing plane outward")


def _tight_insulation(piece: Slice) -> bool:
    return piece.is_insulation and piece.page["air_impermeable"].value is True


def _enter_warm_side(page: Page, section: Section) -> None:
    """Enter the share of the resistance on the warm side of the tightest inboard layer."""
    inboard = [(i, piece) for i, piece in enumerate(section.inboard) if not piece.is_air]
    known: list[tuple[float, int]] = [
        (value, i) for i, piece in inboard if isinstance(value := piece.page["permeance_dry"].value, float)
    ]
    if not inboard:
        page.inapplicable("warm_side_share", "nothing lies inboard of the main insulation")
        return
    if len(known) < len(inboard):
        missing = tuple(gap for _, piece in inboard for gap in piece.page["permeance_dry"].missing)
        page.unknown("warm_side_share", *dict.fromkeys(missing))
        return
    tightest = min(known)[1]
    warm = [page["film_inside"], *(piece.page["resistance"] for piece in section.slices[:tightest])]
    share: Callable[..., float] = lambda whole, *r: sum(r) / whole  # noqa: E731 - read beside its inputs
    page.compute(
        "warm_side_share",
        share,
        [page["r_series"], *warm],
        method="resistance inboard of the tightest inboard layer over the whole, away from framing",
    )
