"""From one value of a record to a table value in SI units, and the factors of the units the tables use."""

from typing import Any, Final

from speccheck.tables.value import TableValue

__all__ = ["AIR_PERMEABILITY", "PERM", "R_US", "provenance", "value_of"]

PERM: Final = 57.2135e-12
"""One US perm at 0 °C [kg/(m²·s·Pa)]; a test holds it equal to that of ``speccheck.quantity``."""

AIR_PERMEABILITY: Final = 2.0e-10
"""Vapour permeability of air [kg/(m·s·Pa)] by the convention of ISO 13788; the same test."""

R_US: Final = 0.1761101838
"""One h·ft²·°F/Btu [m²·K/W]; the same test."""


def value_of(record: dict[str, Any], factor: float = 1.0, key: str | None = None) -> TableValue:
    """Return the value of a record in SI units, with its range and provenance.

    Args:
        record: a record with the value, ``source``, ``how``, ``confidence``, and maybe ``low`` and ``high``.
        factor: SI units in one unit of the record; without a key, ``r-value`` and ``rsi`` bring their own.
        key: the field that holds the value; without one, ``r-value``, ``rsi`` or ``value``.

    Raises:
        KeyError: when the record holds no such field.
    """
    if key is None:
        key = next(name for name in ("r-value", "rsi", "value") if name in record)
        factor = factor * R_US if key == "r-value" else factor
    low, high = (None if record.get(end) is None else record[end] * factor for end in ("low", "high"))
    return TableValue(record[key] * factor, low, high, *provenance(record))


def provenance(record: dict[str, Any]) -> tuple[tuple[str, ...], str, str, str | None]:
    """Return source ids, how the record is known, confidence, and its note or the figure as given."""
    note = record.get("note") or record.get("given")
    return tuple(record["source"]), record["how"], record["confidence"], note
