"""The facts of a declared product: what its data sheet states, and the tests behind it."""

from speccheck.document.product import Product
from speccheck.survey.fact import Gap
from speccheck.survey.ledger import Page

__all__ = ["survey_product"]

_STATED = ("permeance", "air_permeance", "thermal_resistance", "conductivity")


def survey_product(page: Page, name: str, product: Product) -> None:
    """Enter the facts of a product; ``name`` is its id in the document."""
    path = ("products", name)
    tested = tuple(dict.fromkeys(entry.property for entry in product.evidence))
    stated = tuple(key.replace("_", "-") for key in _STATED if getattr(product, key) is not None)
    page.declare("evidence_count", float(len(product.evidence)))
    page.declare("evidence_properties", tested)
    page.declare("properties_stated", stated)
    page.declare("evidence_for_permeance", "permeance" in tested)
    page.declare("evidence_for_air", "air-permeance" in tested)
    cups = product.permeance
    page.declare("cup_not_stated", cups is not None and cups.cup_not_stated is not None)
    one = cups is not None and (cups.dry_cup is None) != (cups.wet_cup is None)
    page.declare("states_one_cup_only", one)
    for cup in ("dry", "wet"):
        value = getattr(cups, f"{cup}_cup") if cups else None
        question = f"What is the {cup}-cup permeance of {name}?"
        _enter(
            page,
            f"permeance_{cup}",
            value.value if value else None,
            Gap(name, f"{cup}-cup permeance", question, path),
        )
    air = product.air_permeance
    at_75 = (
        air is not None and air.reference_pressure is not None and abs(air.reference_pressure - 75.0) < 0.5
    )
    gap = Gap(name, "air permeance", f"What is the air permeance of {name} at 75 Pa?", path)
    _enter(page, "air_permeance", air.value if air is not None and at_75 else None, gap)
    _enter_cups(page, name, product)
    family = product.family
    _enter(
        page,
        "family",
        family,
        Gap(name, "generic family", f"Which generic family does {name} belong to?", path),
    )


def _enter_cups(page: Page, name: str, product: Product) -> None:
    cups = product.permeance
    if cups is not None and cups.cup_not_stated is not None:
        question = f"By which cup was the {cups.cup_not_stated.text} of {name} tested, dry or wet?"
        gap = Gap(name, "cup of the permeance", question, ("products", name, "permeance"))
        page.unknown("permeance_by_cup", gap)
        return
    dry, wet = cups is not None and cups.dry_cup is not None, cups is not None and cups.wet_cup is not None
    page.declare("permeance_by_cup", "both" if dry and wet else "dry" if dry else "wet" if wet else "none")


def _enter(page: Page, name: str, value: float | str | None, gap: Gap) -> None:
    if value is None:
        page.unknown(name, gap)
    else:
        page.declare(name, value)
