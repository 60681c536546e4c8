"""One value of a table, with its range and where it comes from."""

from collections.abc import Iterable
from typing import NamedTuple

__all__ = ["Statement", "TableValue", "spanning"]


class TableValue(NamedTuple):
    """A number from a table, in SI units, that knows its range and its provenance.

    Attributes:
        value: the representative value, in the SI unit of the property that holds it.
        low, high: the usual range, same unit; None when no range is known.
        source: source ids; ``source_title`` in ``speccheck.tables.materials`` says what stands behind one.
        how: how the value is known: ``read``, ``memory``, ``mixed`` or ``derived``.
        confidence: ``high``, ``medium`` or ``low``.
        note: what a reader should know beside it, or None.
    """

    value: float
    low: float | None
    high: float | None
    source: tuple[str, ...]
    how: str
    confidence: str
    note: str | None = None

    def scaled(self, factor: float) -> "TableValue":
        """Return the value and its range multiplied by a positive factor [1].

        Example:
            >>> TableValue(2.0, 1.0, None, ("x",), "read", "high").scaled(0.5).value
            1.0
        """
        if factor == 1.0:
            return self
        low = None if self.low is None else self.low * factor
        high = None if self.high is None else self.high * factor
        return self._replace(value=self.value * factor, low=low, high=high)


class Statement(NamedTuple):
    """Something a table says in a word or with yes and no, and where that comes from.

    Attributes:
        value: true, false or a word.
        source, how, confidence, note: as for :class:`TableValue`.
    """

    value: bool | str
    source: tuple[str, ...]
    how: str
    confidence: str
    note: str | None = None


def spanning(value: TableValue, others: Iterable[TableValue | None]) -> TableValue:
    """Return the value with a range that also takes in the values and ranges of others, same unit.

    Example:
        >>> a, b = (TableValue(v, None, None, ("x",), "read", "high") for v in (3.0, 5.0))
        >>> spanning(a, [b, None]).high
        5.0
    """
    marks = [
        mark
        for one in (value, *others)
        if one is not None
        for mark in (one.value, one.low, one.high)
        if mark is not None
    ]
    if min(marks) == max(marks):
        return value
    return value._replace(low=min(marks), high=max(marks))
