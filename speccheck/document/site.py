"""Site readings and waivers: what was measured, and what was set aside with a reason."""

from typing import Annotated, Literal

from pydantic import Field, StringConstraints

from speccheck.document.entry import Day, Entry, Words
from speccheck.quantity.field import AirChange, AirPermeance, Fraction, Temperature

__all__ = ["SiteTest", "Waiver"]


class SiteTest(Entry):
    """One reading taken on the building."""

    kind: Literal["blower-door", "infrared", "moisture-meter", "smoke", "water", "adhesion", "photo"] = Field(
        description="How the reading was taken."
    )
    date: Day | None = Field(None, description="Day of the reading.", examples=["2026-03-31"])
    at: Words | None = Field(None, description="Where: an assembly, assembly.layer, junction, opening.")
    stage: Literal["interim", "final"] | None = Field(
        None, description="While the air barrier can still be reached, or at the end."
    )
    result: AirChange | AirPermeance | Fraction | Temperature | None = Field(
        None,
        union_mode="left_to_right",
        description="What was read, with its unit.",
        examples=["1.2 ACH50", "17 %", "14 °C"],
    )
    inside: Temperature | None = Field(
        None, description="Air temperature indoors at the time.", examples=["20 °C"]
    )
    outside: Temperature | None = Field(
        None, description="Air temperature outdoors at the time.", examples=["2 °C"]
    )
    method: Words | None = Field(
        None, description="Standard it was taken by.", examples=["ASTM E779", "ISO 9972"]
    )
    note: Words | None = Field(
        None, description="For people who read the document; nothing is worked out from it."
    )


class Waiver(Entry):
    """One finding set aside: one rule at one place, with a reason, a name and an end."""

    rule: Annotated[str, StringConstraints(pattern=r"^[a-z][a-z0-9-]*(\.[a-z0-9][a-z0-9-]*)+$")] = Field(
        description="Id of the rule, as the report names it.", examples=["vapour.falls-outward"]
    )
    place: Words = Field(description="The place as the report names it, such as `north-wall.sheathing`.")
    reason: Annotated[str, StringConstraints(min_length=10, max_length=2000)] = Field(
        description="Why it is set aside, in a sentence that others can judge."
    )
    agreed_by: Annotated[str, StringConstraints(min_length=2, max_length=200)] = Field(
        description="Who agreed, by role or name."
    )
    until: Day = Field(description="Last day it holds.")
