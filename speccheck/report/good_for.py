"""The room humidity an assembly is good for, told beside each finding that rests on its balance or condensing plane.

The figures cost some milliseconds an assembly and are worked out only when a finding or a page asks for them here.
"""

from typing import NamedTuple

from speccheck.judgement.finding import Finding
from speccheck.judgement.wording import word
from speccheck.survey import Surveyed
from speccheck.survey.ledger import Page

__all__ = [
    "GoodFor",
    "good_for",
    "good_for_assembly",
    "good_for_line",
    "good_for_words",
    "rests_on_moisture",
]

_RESTS_ON = (
    "assembly.moisture_", "assembly.plane_", "assembly.humidity_", "assembly.outboard_r_to_add",
    "assembly.critical_indoor_rh", "assembly.outboard_share", "assembly.drying_inward", "assembly.drying_outward",
    "assembly.drying_net",
    "assembly.sheathing_rh", "assembly.sheathing_wood", "assembly.sheathing_moisture",
    "assembly.framing_rh", "assembly.framing_wood", "assembly.framing_moisture",
)  # fmt: skip
"""Beginnings of the names of the facts that come from the monthly balance or from the condensing plane."""

_OF_AN_ASSEMBLY = ("assembly", "layer")


class GoodFor(NamedTuple):
    """The winter humidity indoors at which the verdicts on an assembly turn, None where one is not known.

    Up to ``dry`` [1] nothing condenses by diffusion in any month, up to ``drying`` [1] what condenses dries within the
    year; ``plane`` [1] is where room air that reaches the condensing plane meets its dew point at the winter mean.
    ``more_outboard`` [m²·K/W] is the resistance, open to vapour, that added outboard ends condensation at the humidity
    of the document: None where none is needed or none helps.
    """

    dry: float | None
    drying: float | None
    plane: float | None
    more_outboard: float | None


def rests_on_moisture(finding: Finding) -> bool:
    """Does a finding rest on the monthly balance or on the condensing plane of an assembly?"""
    if finding.subject not in _OF_AN_ASSEMBLY:
        return False
    measured = finding.measured.fact if finding.measured else ""
    return measured.startswith(_RESTS_ON) or any(name.startswith(_RESTS_ON) for name, _ in finding.observed)


def good_for(surveyed: Surveyed, finding: Finding) -> GoodFor | None:
    """Return what the assembly of a finding is good for; None where the finding rests on other things."""
    if not rests_on_moisture(finding):
        return None
    return good_for_assembly(surveyed, finding.place.partition(".")[0])


def good_for_assembly(surveyed: Surveyed, assembly: str) -> GoodFor | None:
    """Return what an assembly is good for; None where no humidity is known at which a verdict turns.

    Args:
        surveyed: the facts.
        assembly: its name in the document.
    """
    page = surveyed.ledger.page("assembly", assembly)
    found = GoodFor(
        dry=_value(page, "humidity_without_condensation"),
        drying=_value(page, "humidity_drying_in_year"),
        plane=_value(page, "critical_indoor_rh"),
        more_outboard=_value(page, "outboard_r_to_add") or None,
    )
    return None if found.dry is None and found.drying is None and found.plane is None else found


def _value(page: Page, name: str) -> float | None:
    fact = page.fact(f"assembly.{name}")
    return fact.value if fact is not None and isinstance(fact.value, float) else None


def good_for_words(limits: GoodFor, system: str = "both") -> tuple[tuple[str, str], ...]:
    """Return what holds and up to which winter humidity indoors, in words.

    Args:
        limits: the figures of an assembly.
        system: units to show: ``both``, ``us`` or ``si``.

    Example:
        >>> good_for_words(GoodFor(0.25, 1.0, None, None))
        (('no condensation by diffusion', 'up to 25 %'), ('drying within the year', 'at any humidity'))
    """
    told = [
        (what, _up_to(humidity))
        for what, humidity in (
            ("no condensation by diffusion", limits.dry),
            ("drying within the year", limits.drying),
            ("leaking room air clear of its dew point at the condensing plane", limits.plane),
        )
        if humidity is not None
    ]
    if limits.more_outboard is not None:
        more = word(limits.more_outboard, "thermal-resistance", system)
        told.append(
            ("no condensation at the humidity declared", f"with {more} more outboard, open to vapour")
        )
    return tuple(told)


def good_for_line(limits: GoodFor, system: str = "both") -> str:
    """Return the same in one line, to stand behind ``Good for:``."""
    told = "; ".join(f"{what} {until}" for what, until in good_for_words(limits, system))
    return f"{told} (room humidity in winter)"


def _up_to(humidity: float) -> str:
    if humidity <= 0.0:
        return "at no humidity"
    return "at any humidity" if humidity >= 1.0 else f"up to {word(humidity, 'fraction')}"
