"""What every entry of a document has in common: closed keys, kebab-case names, frozen values."""

from typing import Annotated

from pydantic import BaseModel, ConfigDict, StringConstraints
from pydantic_core import PydanticCustomError

__all__ = ["Entry", "Identifier", "Place", "Words", "fault", "kebab"]

Identifier = Annotated[str, StringConstraints(pattern=r"^[A-Za-z][A-Za-z0-9_-]{0,63}$")]
"""A short name a person gives to a thing: letters, digits, hyphen, underscore; begins with a letter."""

Place = Annotated[str, StringConstraints(pattern=r"^[A-Za-z][A-Za-z0-9_-]{0,63}\.[A-Za-z][A-Za-z0-9_-]{0,63}$")]
"""Two identifiers joined by a dot, such as ``north-wall.sheathing``: a part of a thing."""

Words = Annotated[str, StringConstraints(max_length=2000)]
"""Free text of a person; never interpreted."""


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
    words = {"message": f"{what}. Expected {expected}. Do: {do}.", "what": what, "expected": expected, "do": do}
    return PydanticCustomError("fault", "{message}", words)
