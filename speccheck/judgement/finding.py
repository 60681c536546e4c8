"""Findings: what a rule says about one place, with everything a person needs to act on it."""

from enum import StrEnum
from typing import NamedTuple

from speccheck.survey.fact import FactValue, Gap

__all__ = ["LEVEL_ORDER", "SEVERITIES", "Finding", "Level", "Limit"]


class Level(StrEnum):
    """How a rule came out. There is no approval among them."""

    WARN = "warn"
    REFER = "refer"
    ASK = "ask"
    WAIVED = "waived"
    PASS = "pass"
    NOT_APPLICABLE = "not-applicable"


LEVEL_ORDER: dict[Level, int] = {level: rank for rank, level in enumerate(Level)}
"""Worst first."""

SEVERITIES = ("outside", "caution", "refer", "ask", "held-back", "waived", "pass")
"""Levels with their strength, worst first: *outside* passes a published limit, *caution* is a risky band."""


class Limit(NamedTuple):
    """The value observed and the limit it was held against, in SI units.

    ``margin`` is positive where the limit is kept, negative where it is passed. ``turns`` says that the limit lies
    inside the range of the table values the observed value rests on, so the verdict could turn within it.
    """

    fact: str
    kind: str
    observed: float
    limit: float
    sense: str
    margin: float
    low: float | None = None
    high: float | None = None
    turns: bool = False


class Finding(NamedTuple):
    """One rule at one place.

    ``do_is`` tells ``choices``, of which one will do, from ``steps``, which belong together; empty where ``do`` holds
    fewer than two.
    """

    level: Level
    strength: str
    rule: str
    pack: str
    title: str
    subject: str
    place: str
    path: tuple[str | int, ...]
    reason: str
    why: str = ""
    do: tuple[str, ...] = ()
    do_is: str = ""
    sources: tuple[str, ...] = ()
    consequence: str = ""
    confidence: str = ""
    disputed: tuple[str, ...] = ()
    measured: Limit | None = None
    observed: tuple[tuple[str, FactValue], ...] = ()
    assumed: tuple[str, ...] = ()
    gaps: tuple[Gap, ...] = ()
    withheld: bool = False
    from_memory: bool = False
    waiver: str = ""
    line: int = 0
    column: int = 0
    file: str = ""

    @property
    def severity(self) -> str:
        """One of SEVERITIES; a warning that is waived keeps its strength but counts as waived."""
        if self.withheld:
            return "held-back"
        return self.strength if self.level is Level.WARN else self.level.value

    @property
    def key(self) -> tuple[str, str]:
        """Rule and place: what identifies a finding from run to run."""
        return (self.rule, self.place)
