"""The room humidity an assembly is good for, told beside each finding that rests on its moisture.

The figures cost some milliseconds an assembly and are worked out only when a finding or a page asks for them here; a
finding asks only for those that matter to it.
"""

from collections.abc import Iterable
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

_RESTS_ON_WOOD = (
    "assembly.plane_wood", "assembly.plane_moisture_limit",
    "assembly.sheathing_wood", "assembly.sheathing_moisture",
    "assembly.framing_wood", "assembly.framing_moisture",
)  # fmt: skip
_RESTS_ON_BALANCE = (
    "assembly.moisture_", "assembly.plane_", "assembly.humidity_", "assembly.outboard_r_to_add",
    "assembly.critical_indoor_rh", "assembly.outboard_share", "assembly.drying_inward", "assembly.drying_outward",
    "assembly.drying_net", "assembly.sheathing_rh", "assembly.framing_rh", *_RESTS_ON_WOOD,
)  # fmt: skip
"""Beginnings of the names of the facts that come from the monthly balance or from the condensing plane."""
_RESTS_ON_SURFACE = ("assembly.frsi",)

_FACTS = {
    "dry": "assembly.humidity_without_condensation",
    "drying": "assembly.humidity_drying_in_year",
    "plane": "assembly.critical_indoor_rh",
    "surface": "assembly.humidity_surface_bears",
    "wood": "assembly.humidity_wood_bears",
    "more_outboard": "assembly.outboard_r_to_add",
}
"""The fact behind each figure."""
_OF_THE_BALANCE = ("dry", "drying", "plane", "more_outboard")

_OF_AN_ASSEMBLY = ("assembly", "layer")


class GoodFor(NamedTuple):
    """The winter humidity indoors at which the verdicts on an assembly turn, None where one is not known or not asked.

    Up to ``dry`` [1] nothing condenses by diffusion in any month, up to ``drying`` [1] what condenses dries within the
    year; ``plane`` [1] is where room air that reaches the condensing plane meets its dew point at the winter mean. Up
    to ``surface`` [1] no month has 80 % at the inside surface, up to ``wood`` [1] wood toward the cold stays within
    what it bears. ``more_outboard`` [m²·K/W] is the resistance, open to vapour, that added outboard ends condensation
    at the humidity of the document: None where none is needed or none helps.
    """

    dry: float | None = None
    drying: float | None = None
    plane: float | None = None
    more_outboard: float | None = None
    surface: float | None = None
    wood: float | None = None


def rests_on_moisture(finding: Finding) -> bool:
    """Does a finding rest on the monthly balance, the condensing plane or the inside surface of an assembly?"""
    return bool(_that_matter(finding))


def good_for(surveyed: Surveyed, finding: Finding) -> GoodFor | None:
    """Return what the assembly of a finding is good for, as far as it matters to the finding.

    Args:
        surveyed: the facts.
        finding: one that rests on moisture; of any other, None is returned.
    """
    figures = _that_matter(finding)
    return _found(surveyed, finding.place.partition(".")[0], figures) if figures else None


def good_for_assembly(surveyed: Surveyed, assembly: str) -> GoodFor | None:
    """Return what an assembly is good for in every respect; None where no humidity is known at which a verdict turns.

    Args:
        surveyed: the facts.
        assembly: its name in the document.
    """
    return _found(surveyed, assembly, _FACTS)


def _that_matter(finding: Finding) -> tuple[str, ...]:
    """Return which figures matter to a finding: those of the balance, of wood or of the surface, by its facts."""
    if finding.subject not in _OF_AN_ASSEMBLY:
        return ()
    names = [name for name, _ in finding.observed]
    if finding.measured is not None:
        names.append(finding.measured.fact)

    def rests_on(beginnings: tuple[str, ...]) -> bool:
        return any(name.startswith(beginnings) for name in names)

    return (
        *(_OF_THE_BALANCE if rests_on(_RESTS_ON_BALANCE) else ()),
        *(("wood",) if rests_on(_RESTS_ON_WOOD) else ()),
        *(("surface",) if rests_on(_RESTS_ON_SURFACE) else ()),
    )


def _found(surveyed: Surveyed, assembly: str, figures: Iterable[str]) -> GoodFor | None:
    page = surveyed.ledger.page("assembly", assembly)
    values = {figure: _value(page, _FACTS[figure]) for figure in figures}
    values["more_outboard"] = values.get("more_outboard") or None
    humidities = [value for figure, value in values.items() if figure != "more_outboard"]
    return None if all(value is None for value in humidities) else GoodFor(**values)


def _value(page: Page, name: str) -> float | None:
    fact = page.fact(name)
    return fact.value if fact is not None and isinstance(fact.value, float) else None


def good_for_words(limits: GoodFor, system: str = "both") -> tuple[tuple[str, str], ...]:
    """Return what holds and up to which winter humidity indoors, in words.

    Args:
        limits: the figures of an assembly.
        system: units to show: ``both``, ``us`` or ``si``.

    Example:
        >>> good_for_words(GoodFor(dry=0.25, drying=1.0))
        (('no condensation by diffusion', 'up to 25 %'), ('drying within the year', 'at any humidity'))
    """
    told = [
        (what, _up_to(humidity))
        for what, humidity in (
            ("no condensation by diffusion", limits.dry),
            ("drying within the year", limits.drying),
            ("leaking room air clear of its dew point at the condensing plane", limits.plane),
            ("wood toward the cold within what it bears", limits.wood),
            ("the inside surface below 80 %", limits.surface),
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
    words = good_for_words(limits, system)
    humidities = len(words) - (limits.more_outboard is not None)
    told = [f"{what} {until}" for what, until in words]
    told[humidities - 1] += " (room humidity in winter)"
    return "; ".join(told)


def _up_to(humidity: float) -> str:
    if humidity <= 0.0:
        return "at no humidity"
    return "at any humidity" if humidity >= 1.0 else f"up to {word(humidity, 'fraction')}"
