"""A quantity as it was read, and the error that says why a text is not one."""

from dataclasses import dataclass

from speccheck.quantity.kind import Kind

__all__ = ["Quantity", "QuantityError"]


@dataclass(frozen=True, slots=True)
class Quantity:
    """A value in SI units together with the words it was written in.

    Args:
        value: the value in the SI unit of its kind, see `speccheck.quantity.kind.KINDS`.
        kind: what the value is.
        text: the text as written.
        unit: canonical name of the unit written.
        reference_pressure: pressure difference [Pa] of an air permeance or air change, None when not stated.
    """

    value: float
    kind: Kind
    text: str
    unit: str
    reference_pressure: float | None = None

    def __str__(self) -> str:
        return self.text


class QuantityError(ValueError):
    """A text that does not hold the quantity wanted: what is wrong, what was expected, what to do."""

    def __init__(self, what: str, expected: str, do: str) -> None:
        super().__init__(what, expected, do)
        self.what = what
        self.expected = expected
        self.do = do

    def __str__(self) -> str:
        return f"{self.what}. Expected {self.expected}. Do: {self.do}."
