"""Site readings and waivers: what was measured, and what was set aside with a reason."""

from typing import Annotated, Literal

from pydantic import Field, StringConstraints

from speccheck.document.entry import Day, Entry, Words
from speccheck.quantity.field import AirChange, AirPermeance, Fraction, Temperature

__all__ = ["SiteTest", "Waiver"]


class SiteTest(Entry):
    """One reading taken on the building."""

    kind: Literal["blower-door", "infrared", "moisture-meter", "smoke", "water", "adhesion", "photo"]
    date: Day | None = None
    at: Words | None = Field(None, description="Where: an assembly, assembly.layer, junction, opening.")
    stage: Literal["interim", "final"] | None = None
    result: AirChange | AirPermeance | Fraction | Temperature | None = Field(None, union_mode="left_to_right")
    inside: Temperature | None = None
    outside: Temperature | None = None
    method: Words | None = None
    note: Words | None = None


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
