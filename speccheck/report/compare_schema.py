"""The form of a comparison in JSON, published as a schema; runs do not import it."""

from typing import Literal

from pydantic import BaseModel, ConfigDict, Field

__all__ = ["ComparisonForm"]

Severity = Literal["outside", "caution", "refer", "ask", "held-back", "waived", "pass"]
Value = float | bool | str | list[str] | None


class _Form(BaseModel):
    model_config = ConfigDict(extra="forbid", alias_generator=lambda n: n.replace("_", "-"))


class SideForm(_Form):
    """One document as it came out on one side."""

    file: str
    verdict: Severity
    counts: dict[Severity, int]


class MovedForm(_Form):
    """How a rule at a place came out before and after. Rule and place together identify it."""

    rule: str
    place: str
    trend: Literal["new", "worse", "unsure", "better", "gone"]
    title: str
    before: Severity | None = Field(description="Null where the rule had nothing to say there.")
    after: Severity | None
    reason: str | None = Field(description="What the rule says after.")
    margin_before: float | None = Field(description="In the SI unit of what was measured; positive is kept.")
    margin_after: float | None


class DifferingForm(_Form):
    """A fact that differs, in SI units of its kind; null where it is not known."""

    place: str
    name: str
    kind: str
    before: Value
    after: Value


class FellForm(DifferingForm):
    """A fact of quality, such as the effective resistance, that is worse on the second side, with its document."""

    file: str


class PairForm(_Form):
    """A document that is on both sides."""

    before: SideForm
    after: SideForm
    moves: list[MovedForm]
    as_before: int = Field(description="How many findings to act on are as they were.")
    facts: list[DifferingForm] | None = Field(
        description="Null where a side is a report that was written without facts."
    )


class ComparisonForm(_Form):
    """Two documents, or two reports, side by side."""

    speccheck_compare: Literal[1]
    before: str
    after: str
    verdict: Literal["worse", "ask", "better", "as before", "no document is on both sides"] = Field(
        description="How the findings compare; read it with `fell`."
    )
    fell: list[FellForm] = Field(
        description="Facts of quality that fell by more than the slack, whatever the findings."
    )
    deferral: str
    slack: float = Field(description="Share of the limit by which a margin may move and count as unchanged.")
    pairs: list[PairForm]
    only_before: list[SideForm]
    only_after: list[SideForm]
