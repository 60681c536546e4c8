"""What every entry of a document has in common: closed keys, kebab-case names, frozen values."""

import re
from datetime import date, datetime
from typing import Annotated, Any

from pydantic import BaseModel, BeforeValidator, ConfigDict, StringConstraints
from pydantic_core import PydanticCustomError

from speccheck.document.fault_words import shown

__all__ = ["Day", "Entry", "Identifier", "Place", "Words", "fault", "kebab"]

Identifier = Annotated[str, StringConstraints(pattern=r"^[A-Za-z][A-Za-z0-9_-]{0,63}$")]
"""A short name a person gives to a thing: letters, digits, hyphen, underscore; begins with a letter."""

Place = Annotated[
    str, StringConstraints(pattern=r"^[A-Za-z][A-Za-z0-9_-]{0,63}\.[A-Za-z][A-Za-z0-9_-]{0,63}$")
]
"""Two identifiers joined by a dot, such as ``north-wall.sheathing``: a part of a thing."""

Words = Annotated[str, StringConstraints(max_length=2000)]
"""Free text of a person; never interpreted."""


_DAY = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}")


def _day(value: Any) -> date:
    """Read a day of the calendar; a number is not taken for a day, as it could be counted from anywhere."""
    if isinstance(value, date) and not isinstance(value, datetime):
        return value
    expected, do = "a date such as 2026-03-31", "write year, month and day, with hyphens"
    if not (isinstance(value, str) and _DAY.fullmatch(value)):
        raise fault(f"{shown(value)} is not a date", expected, do)
    try:
        return date.fromisoformat(value)
    except ValueError:
        raise fault(f"{shown(value)} is no day of the calendar", expected, "check month and day") from None


Day = Annotated[date, BeforeValidator(_day)]
"""A day, written year-month-day."""


def kebab(name: str) -> str:
    """Return the document's spelling of a Python name: ``wet_cup`` is written ``wet-cup``."""
    return name.replace("_", "-")


class Entry(BaseModel):
    """The base of all document models: unknown keys are errors, values do not change."""

    model_config = ConfigDict(
        extra="forbid", frozen=True, alias_generator=kebab, validate_default=False, defer_build=True
    )


def fault(what: str, expected: str, do: str) -> PydanticCustomError:
    """Return the error a model raises when its values do not go together."""
    words = {
        "message": f"{what}. Expected {expected}. Do: {do}.",
        "what": what,
        "expected": expected,
        "do": do,
    }
    return PydanticCustomError("fault", "{message}", words)
