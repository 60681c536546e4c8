"""Why a text is not the quantity wanted: the words for each way of getting it wrong."""

import re
from collections.abc import Sequence

from speccheck.quantity.kind import KINDS, Kind
from speccheck.quantity.spelling import signature
from speccheck.quantity.units import Unit
from speccheck.quantity.value import QuantityError

__all__ = ["excerpt", "no_number", "not_a_quantity", "plain", "unknown_unit", "wrong_kind"]

_LONGEST_EXCERPT = 60
_COMMA = re.compile(r"[0-9],[0-9]")
_RANGE = re.compile(r"[0-9]\s*(?:-|to\b|\.\.+)\s*[0-9]")
_BOUND = re.compile(r"^\s*(?:[<>≤≥~≈±]|(?i:max|min|about|approx|less|more|up to|under|over)\b)")
_NOT_FINITE = re.compile(r"^\s*[-+]?\.?(?i:nan|inf(?:inity)?)\b")

# What a person has in mind who writes a unit of the second kind where the first is wanted.
_MIX_UPS: dict[tuple[Kind, Kind], str] = {
    (Kind.PERMEANCE, Kind.PERMEABILITY): (
        "perm-inch is for the stuff, perm for the sheet: divide by the thickness and write perm, "
        "or give the value as a permeability"
    ),
    (Kind.PERMEABILITY, Kind.PERMEANCE): (
        "perm is for the sheet, perm-inch for the stuff: multiply by the thickness tested and write perm-in, "
        "or give the value as a permeance"
    ),
    (
        Kind.PERMEANCE,
        Kind.LENGTH,
    ): "write sd before a length that is an equivalent air layer, for example sd 2 m",
    (Kind.THERMAL_RESISTANCE, Kind.CONDUCTIVITY): (
        "give the R of the whole layer, or state this as the conductivity and let the thickness do the rest"
    ),
    (Kind.CONDUCTIVITY, Kind.THERMAL_RESISTANCE): (
        "an R-value is for the layer; for the stuff write it per thickness, for example R-3.8 per inch"
    ),
    (
        Kind.THERMAL_RESISTANCE,
        Kind.TRANSMITTANCE,
    ): "write the resistance; U is its reciprocal and includes films",
    (Kind.TRANSMITTANCE, Kind.THERMAL_RESISTANCE): "write the transmittance U with its unit",
    (Kind.AREA_MASS, Kind.DENSITY): "write the mass of one square metre or square foot of the layer",
}

# Units that are well formed but cannot stand for the value, by signature of the spelling.
_DEAD_ENDS: tuple[tuple[tuple[str, ...], str], ...] = (
    (
        ("g/(m2 day)", "grain/(ft2 h)", "g/(m2 h)"),
        "a transmission rate hangs on the vapour pressures of its test; ask for the permeance",
    ),
    (("month", "year"), "months and years differ in length; write days"),
)


def excerpt(text: str) -> str:
    """Return the text for a message: in quotes, without control characters, cut when long."""
    shown = "".join(character if character.isprintable() else "\ufffd" for character in text)
    return f"'{shown}'" if len(shown) <= _LONGEST_EXCERPT else f"'{shown[:_LONGEST_EXCERPT]}…'"


def _error(what: str, kind: Kind, do: str) -> QuantityError:
    return QuantityError(what, KINDS[kind].expected, do)


def plain(text: str, kind: Kind) -> QuantityError:
    """Return the error for a number that stands without a unit."""
    first = KINDS[kind].examples[0]
    return _error(
        f"{excerpt(text)} has no unit", kind, f"write the unit after the number, for example {first}"
    )


def no_number(text: str, kind: Kind) -> QuantityError:
    """Return the error for a text in which no number could be read."""
    if not text.strip():
        return _error("the value is empty", kind, "write the value, or leave the line out if it is not known")
    if _NOT_FINITE.match(text):
        return _error(
            f"{excerpt(text)} is not a finite number", kind, "write a number, or leave the line out"
        )
    if _BOUND.match(text):
        return _error(
            f"{excerpt(text)} is a bound, not a value",
            kind,
            "write one value: the one the test report states",
        )
    return _error(f"{excerpt(text)} does not begin with a number", kind, "write a number and its unit")


def not_a_quantity(text: str, kind: Kind, why: str, do: str) -> QuantityError:
    """Return an error with words of its own for why and what to do."""
    return _error(f"{excerpt(text)} {why}", kind, do)


def unknown_unit(text: str, unit: str, kind: Kind) -> QuantityError:
    """Return the error for a number followed by something that is no unit of the table."""
    if _COMMA.search(text):
        return _error(
            f"{excerpt(text)} has a comma in the number",
            kind,
            "write a decimal point, and no mark for thousands",
        )
    if _RANGE.search(text):
        return _error(f"{excerpt(text)} reads like a range", kind, "write one value")
    if unit[:1].isdigit():
        return _error(f"{excerpt(text)} has a space inside the number", kind, "write the digits together")
    spelled = signature(unit)
    for spellings, do in _DEAD_ENDS:
        if spelled is not None and spelled in {signature(spelling) for spelling in spellings}:
            return _error(f"{excerpt(text)} cannot stand for {KINDS[kind].words}", kind, do)
    return _error(
        f"{excerpt(unit)} in {excerpt(text)} is not a unit known here", kind, "write one of these units"
    )


def wrong_kind(text: str, found: Sequence[Unit], kind: Kind) -> QuantityError:
    """Return the error for a quantity of another kind than the one wanted."""
    other = found[0].kind
    do = _MIX_UPS.get((kind, other), f"write {KINDS[kind].words}, for example {KINDS[kind].examples[0]}")
    return _error(f"{excerpt(text)} is {KINDS[other].words}", kind, do)
