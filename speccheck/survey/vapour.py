"""Vapour through an assembly: both sides of the main insulation, both cups, the class of the inside retarder."""

from collections.abc import Sequence

from speccheck.physics.vapour import sd_of, series_permeance, vapour_class
from speccheck.survey.build_up import Slice
from speccheck.survey.fact import Fact, Gap
from speccheck.survey.ledger import Page
from speccheck.survey.section import Section

__all__ = ["survey_vapour"]

_SERIES = "resistances 1/W of the layers added"
_SERIES_SOURCE = "ISO 13788:2012, 4.4; ASTM E96 permeances in series"
_CLASS_SOURCE = "IRC 2021 R702.7, classes by dry cup (read)"


def survey_vapour(page: Page, section: Section, name: str) -> None:
    """Enter the vapour facts of an assembly; ``name`` is what reports call it."""
    if section.main is None:
        _nothing_to_part(page)
        return
    inboard = _solid(section.inboard)
    outboard = _outboard(page, section, name)
    _enter_side(page, "interior", inboard, "nothing lies inboard of the main insulation")
    _enter_side(page, "exterior", outboard, "nothing lies outboard of the main insulation")
    _enter_retarder(page, inboard)
    _enter_exterior_tightest(page, outboard)
    _enter_drying(page, "interior", inboard)
    _enter_drying(page, "exterior", outboard)
    _enter_sd(page)
    everything = _solid(section.slices[: section.beyond])
    _series(page, "total_permeance_dry", everything, "dry")


def _solid(slices: Sequence[Slice]) -> list[Slice]:
    """Return the layers that resist vapour; an air layer does not."""
    return [piece for piece in slices if not piece.is_air]


def _outboard(page: Page, section: Section, name: str) -> list[Slice] | Gap:
    """Return the layers outboard, or the question that must be answered before they can be told."""
    if section.cavity is not None and section.ventilation is None:
        piece = section.slices[section.cavity]
        return Gap(
            piece.page.place,
            "ventilation of the cavity",
            f"Is the cavity {piece.words} closed, drained, vented or ventilated?",
            piece.path,
        )
    return _solid(section.outboard)


def _nothing_to_part(page: Page) -> None:
    why = "no insulation parts an inboard from an outboard side"
    for name in (
        "interior_permeance_dry", "interior_permeance_wet", "exterior_permeance_dry", "exterior_permeance_wet",
        "retarder_permeance_dry", "retarder_permeance_wet", "interior_retarder", "interior_retarder_material",
        "interior_class", "interior_class_wet", "responsive_retarder", "exterior_tightest_dry",
        "exterior_tightest_wet", "exterior_retarder", "exterior_class", "sd_inside", "sd_outside", "sd_ratio",
        "total_permeance_dry", "interior_drying_permeance", "exterior_drying_permeance",
    ):  # fmt: skip
        page.inapplicable(name, why)


def _series(page: Page, name: str, slices: Sequence[Slice], cup: str) -> Fact:
    return page.compute(
        name,
        lambda *permeances: series_permeance(permeances),
        [piece.page[f"permeance_{cup}"] for piece in slices],
        method=_SERIES,
        source=_SERIES_SOURCE,
        rises="+",
    )


def _enter_side(page: Page, side: str, slices: list[Slice] | Gap, none: str) -> None:
    for cup in ("dry", "wet"):
        name = f"{side}_permeance_{cup}"
        if isinstance(slices, Gap):
            page.unknown(name, slices)
        elif slices:
            _series(page, name, slices, cup)
        else:
            page.inapplicable(name, none)


def _enter_drying(page: Page, side: str, slices: list[Slice] | Gap) -> None:
    """Enter the permeance by which a side dries: a damp layer counts by its wet cup, where that is shown."""
    name = f"{side}_drying_permeance"
    if isinstance(slices, Gap):
        page.unknown(name, slices)
    elif not slices:
        where = "inboard" if side == "interior" else "outboard"
        page.inapplicable(name, f"nothing lies {where} of the main insulation")
    else:
        cups = [(piece.page["permeance_wet"], piece.page["permeance_dry"]) for piece in slices]
        page.compute(
            name,
            lambda *permeances: series_permeance(permeances),
            [wet if wet.known else dry for wet, dry in cups],
            method=f"{_SERIES}: wet cup of each layer, dry cup where the wet cup is not shown",
            source=_SERIES_SOURCE,
            rises="+",
        )


def _tightest(page: Page, label: str, slices: Sequence[Slice], cup: str = "dry") -> Slice | None:
    """Enter which of the layers is the tightest; unknown where one of them is not known and could be."""
    facts = [piece.page[f"permeance_{cup}"] for piece in slices]
    known = [
        (fact.value, piece)
        for fact, piece in zip(facts, slices, strict=True)
        if isinstance(fact.value, float)
    ]
    missing = tuple(gap for fact in facts for gap in fact.missing)
    if missing:
        page.unknown(label, *dict.fromkeys(missing), inputs=tuple(fact.key for fact in facts))
        return None
    tightest = min(known, key=lambda pair: pair[0])[1]
    page.compute(
        label,
        lambda *_, tightest=tightest: tightest.words,
        facts,
        method=f"lowest {cup}-cup permeance of its side",
    )
    return tightest


def _enter_retarder(page: Page, inboard: Sequence[Slice]) -> None:
    names = (
        "interior_retarder", "interior_retarder_material", "retarder_permeance_dry", "retarder_permeance_wet",
        "interior_class", "interior_class_wet", "responsive_retarder",
    )  # fmt: skip
    if not inboard:
        for name in names:
            page.inapplicable(name, "nothing lies inboard of the main insulation")
        return
    tightest = _tightest(page, "interior_retarder", inboard)
    if tightest is None:
        missing = page["interior_retarder"].missing
        for name in names[1:]:
            page.unknown(name, *missing)
        return
    own = tightest.page
    page.copy("interior_retarder_material", own["material"])
    page.copy("retarder_permeance_dry", own["permeance_dry"], method="that of the tightest layer")
    page.copy("retarder_permeance_wet", own["permeance_wet"], method="that of the tightest layer")
    page.copy("responsive_retarder", own["responsive"], method="that of the tightest layer")
    _enter_class(page, "interior_class", own["permeance_dry"])
    _enter_class(page, "interior_class_wet", own["permeance_wet"])


def _enter_class(page: Page, name: str, permeance: Fact) -> None:
    page.compute(
        name, lambda w: str(vapour_class(w)), [permeance], method="class bounds", source=_CLASS_SOURCE
    )


def _enter_exterior_tightest(page: Page, outboard: list[Slice] | Gap) -> None:
    names = ("exterior_retarder", "exterior_tightest_dry", "exterior_tightest_wet", "exterior_class")
    if isinstance(outboard, Gap) or not outboard:
        for name in names:
            if isinstance(outboard, Gap):
                page.unknown(name, outboard)
            else:
                page.inapplicable(name, "nothing lies outboard of the main insulation")
        return
    tightest = _tightest(page, "exterior_retarder", outboard)
    if tightest is None:
        for name in names[1:]:
            page.unknown(name, *page["exterior_retarder"].missing)
        return
    page.copy("exterior_tightest_dry", tightest.page["permeance_dry"], method="that of the tightest layer")
    page.copy("exterior_tightest_wet", tightest.page["permeance_wet"], method="that of the tightest layer")
    _enter_class(page, "exterior_class", tightest.page["permeance_dry"])


def _enter_sd(page: Page) -> None:
    inside = _sd(page, "sd_inside", page["interior_permeance_dry"], "dry cup")
    outside = _sd(
        page,
        "sd_outside",
        page["exterior_drying_permeance"],
        "wet cup of each layer, dry cup where the wet is not shown",
    )
    page.compute(
        "sd_ratio",
        lambda i, o: i / o if o > 0 else 1.0e6,
        [inside, outside],
        method="sd inside over sd outside",
        rises="+-",
    )


def _sd(page: Page, name: str, permeance: Fact, cup: str) -> Fact:
    return page.compute(
        name,
        lambda w: sd_of(w) if w > 0 else 1.0e6,
        [permeance],
        method=f"equivalent air layer thickness, {cup}",
        source="sd = δ/W with δ of air 2.0e-10 kg/(m·s·Pa), the ISO 13788 convention",
        rises="-",
    )
