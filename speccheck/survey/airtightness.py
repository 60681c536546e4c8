"""The air-tightness target as facts: in which measure, the same at 50 and at 75 Pa, and the leakage reckoned with."""

from speccheck.quantity import Kind, Quantity
from speccheck.survey.fact import Gap, Origin
from speccheck.survey.ledger import Page

__all__ = ["ASSUMED_LEAKAGE", "enter_airtightness"]

ASSUMED_LEAKAGE = 3.0 / 3600.0
"""Leakage through a square metre of the enclosure at 50 Pa, where none is declared [m³/(s·m²)]: 3 m³/(h·m²), a middling
new building (German literature on leakage of timber roofs, from memory)."""

_PATH = ("project", "airtightness")


def enter_airtightness(page: Page, target: Quantity | None) -> None:
    """Enter the facts of the target of the fan-pressurisation test.

    Args:
        page: page of the project, which holds volume and enclosure area.
        target: as declared: air changes an hour at 50 Pa, or a flow through a square metre of the enclosure.
    """
    gap = Gap("project", "air-tightness target", "Which air-tightness is the building to reach?", _PATH)
    measure = {None: "none", Kind.AIR_CHANGE: "air-change"}.get(target.kind if target else None, "area")
    page.declare("airtightness_measure", measure, origin=Origin.COMPUTED)
    for name, kind in (
        ("airtightness_target", Kind.AIR_CHANGE),
        ("airtightness_target_area", Kind.AIR_PERMEANCE),
    ):
        if target is None:
            page.unknown(name, gap)
        elif target.kind is kind:
            page.declare(name, target.value)
        else:
            page.inapplicable(name, "the target is stated in another measure")
    for pressure in (50.0, 75.0):
        _enter_target_at(page, target, pressure)
    _enter_leakage(page, target)


def _enter_target_at(page: Page, target: Quantity | None, pressure: float) -> None:
    """Enter an area target at a pressure at which a limit is set."""
    name = f"airtightness_target_{pressure:.0f}"
    if target is None or target.kind is not Kind.AIR_PERMEANCE:
        page.inapplicable(name, "no target for each area of the enclosure")
    elif target.reference_pressure is None:
        question = "At which pressure is the air-tightness target for the enclosure area set?"
        page.unknown(name, Gap("project", "pressure of the target", question, _PATH))
    elif abs(target.reference_pressure - pressure) < 0.5:
        page.copy(name, page["airtightness_target_area"], method=f"the target is set at {pressure:g} Pa")
    else:
        _carry(page, name, target.value, target.reference_pressure, pressure)


def _carry(page: Page, name: str, value: float, from_: float, to: float) -> None:
    """Enter an area target carried to another pressure; no leak is measured yet, so its exponent is taken."""
    from speccheck.physics.air_leakage import flow_at_pressure

    orifice, usual, laminar = (flow_at_pressure(value, from_, to, n) for n in (0.5, 0.65, 1.0))
    stands_for = f"flow exponent of 0.65, to carry the air-tightness target from {from_:g} Pa to {to:g} Pa"
    page.from_table(
        name,
        usual,
        source="ASTM E779, power law (read); exponent by common practice, 0.5 to 1.0 as the range",
        stands_for=stands_for,
        low=min(orifice, laminar),
        high=max(orifice, laminar),
        origin=Origin.COMPUTED,
        method="power law from the pressure of the target, exponent 0.65",
    )


def _enter_leakage(page: Page, target: Quantity | None) -> None:
    """Enter the leakage of a square metre at 50 Pa: by the target, else by an assumption that is told."""
    name = "air_leakage_50"
    change, volume, area = (page[one] for one in ("airtightness_target", "volume", "enclosure_area"))
    told = page["airtightness_target_50"].known or (change.known and volume.known and area.known)
    page.declare("air_leakage_by", "target" if told else "assumed", origin=Origin.COMPUTED)
    if page["airtightness_target_50"].known:
        page.copy(name, page["airtightness_target_50"], method="the target for each area of the enclosure")
    elif told:
        page.compute(
            name,
            lambda n50, cubic, square: n50 * cubic / square / 3600.0,
            [change, volume, area],
            method="air changes times volume over enclosure area",
            source="ISO 9972, definition of the two",
        )
    else:
        why = "none is declared" if target is None else "the target declared does not tell it"
        page.from_table(
            name,
            ASSUMED_LEAKAGE,
            source="German literature on the leakage of timber roofs (from memory)",
            stands_for=f"leakage of 3 m³/(h·m²) at 50 Pa through the enclosure, since {why}",
            origin=Origin.ASSUMED,
        )
