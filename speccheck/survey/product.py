"""The facts of a declared product: what its data sheet states, and the tests behind it."""

from speccheck.document.product import Product
from speccheck.survey.cup import cup_value
from speccheck.survey.fact import Gap, Origin
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
    _enter_cups(page, name, product)
    air = product.air_permeance
    at_75 = (
        air is not None and air.reference_pressure is not None and abs(air.reference_pressure - 75.0) < 0.5
    )
    gap = Gap(name, "air permeance", f"What is the air permeance of {name} at 75 Pa?", path)
    _enter(page, "air_permeance", air.value if air is not None and at_75 else None, gap)
    family = product.family
    _enter(
        page,
        "family",
        family,
        Gap(name, "generic family", f"Which generic family does {name} belong to?", path),
    )


def _enter_cups(page: Page, name: str, product: Product) -> None:
    """Enter the permeance by either cup, stated or read from the curve, and by which of them it is told."""
    cups = product.permeance
    found = {cup: cup_value(cups, cup) if cups is not None else None for cup in ("dry", "wet")}
    for cup, value in found.items():
        if value is not None:
            origin = Origin.COMPUTED if value.method else Origin.DECLARED
            page.declare(
                f"permeance_{cup}", value.value, origin=origin, source=value.source, method=value.method
            )
        else:
            question = f"What is the {cup}-cup permeance of {name}?"
            page.unknown(f"permeance_{cup}", Gap(name, f"{cup}-cup permeance", question, ("products", name)))
    told = [cup for cup, value in found.items() if value is not None]
    page.declare("states_one_cup_only", len(told) == 1)
    if cups is not None and cups.cup_not_stated is not None:
        question = f"By which cup was the {cups.cup_not_stated.text} of {name} tested, dry or wet?"
        gap = Gap(name, "cup of the permeance", question, ("products", name, "permeance"))
        page.unknown("permeance_by_cup", gap)
    else:
        page.declare("permeance_by_cup", "both" if len(told) == 2 else "".join(told) or "none")


def _enter(page: Page, name: str, value: float | str | None, gap: Gap) -> None:
    if value is None:
        page.unknown(name, gap)
    else:
        page.declare(name, value)
