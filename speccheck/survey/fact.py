"""Facts: a value with where it came from, what it rests on, and what is missing when there is none."""

from enum import StrEnum
from typing import NamedTuple

__all__ = ["Fact", "FactValue", "Gap", "Key", "Origin"]

FactValue = float | str | bool | tuple[str, ...]
Key = tuple[str, str]
"""Place and fact name, such as ``("north-wall.fill", "layer.resistance")``."""


class Origin(StrEnum):
    """Where a fact's value came from."""

    DECLARED = "declared"
    PRODUCT = "product"
    TABLE = "table"
    COMPUTED = "computed"
    ASSUMED = "assumed"
    UNKNOWN = "unknown"
    INAPPLICABLE = "inapplicable"


class Gap(NamedTuple):
    """A value the document does not show, and the question to put to whoever knows it.

    ``path`` is the document path where the value would stand; ``wanted`` names the property; ``question`` is
    one plain sentence. Two gaps with the same place and property are the same gap.
    """

    place: str
    wanted: str
    question: str
    path: tuple[str | int, ...] = ()

    @property
    def key(self) -> tuple[str, str]:
        """What makes two gaps the same."""
        return (self.place, self.wanted)


class Fact(NamedTuple):
    """One fact about one place.

    ``value`` is None when it is unknown (then ``missing`` says why) or when it does not apply (then ``method``
    says why). ``low`` and ``high`` bound the value where it comes from a table range. ``assumed`` holds a
    sentence for each table value or convention that stands in for something not declared.
    """

    place: str
    name: str
    value: FactValue | None
    origin: Origin
    low: float | None = None
    high: float | None = None
    method: str = ""
    source: str = ""
    inputs: tuple[Key, ...] = ()
    assumed: tuple[str, ...] = ()
    missing: tuple[Gap, ...] = ()

    @property
    def key(self) -> Key:
        """Place and name together."""
        return (self.place, self.name)

    @property
    def known(self) -> bool:
        """Is there a value?"""
        return self.value is not None

    @property
    def inapplicable(self) -> bool:
        """Is there no such thing at this place?"""
        return self.origin is Origin.INAPPLICABLE
