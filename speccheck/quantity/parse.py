"""From a text such as ``5 1/2 in`` or ``sd 2 m`` to a quantity in SI units."""

import math
import re
from functools import lru_cache

from speccheck.quantity.kind import Kind
from speccheck.quantity.refusal import no_number, not_a_quantity, plain, unknown_unit, wrong_kind
from speccheck.quantity.spelling import fold, signature
from speccheck.quantity.units import DELTA_AIR, Unit, unit_named, units_by_signature
from speccheck.quantity.value import Quantity, QuantityError

__all__ = ["parse"]

_LONGEST = 120
_FORM = re.compile(
    r"""
    (?:(?P<label>(?i:rsi|r|u|s_?d|mu|μ|(?:ach|n|q)_?[0-9]{2,3}(?=[\s=:])))(?i:[ -](?:value|factor))?
       (?:\s*[=:]\s*|(?<=[riuRIU])\s*-\s*|\s*))?
    (?P<sign>[-+]?)\s*
    (?:(?:(?P<whole>[0-9]+)(?:\s+|\s*-\s*))?(?P<top>[0-9]+)\s*/\s*(?P<bottom>[0-9]+)
      |(?P<decimal>(?:[0-9]+\.?[0-9]*|\.[0-9]+)(?:[eE][-+]?[0-9]+|\s*[x×*·]\s*10(?:\^[-+]?|[-+])[0-9]+)?))
    (?P<unit>[^@]*?)
    (?:(?:@|\bat\b)(?P<at>.*))?
    """,
    re.VERBOSE,
)
_TIMES_TEN = re.compile(r"\s*[x×*·]\s*10\^?")
_PRESSURE_IN_NAME = re.compile(r"(?i)\b(ach|cfm|n|q)[_ ]?([0-9]{2,3})(?![0-9])")
_TRAILING_SD = re.compile(r"\(?\bs_?d\)?$", re.IGNORECASE)
_FEET_AND_INCHES = re.compile(
    r"([0-9]+)\s*(?:ft\.?|feet|foot|')[\s-]*([0-9][^'f]*?(?:in(?:ch(?:es)?)?\.?|\"))"
)
_AIR = (Kind.AIR_PERMEANCE, Kind.AIR_CHANGE)
# Test standards print 0.3 in w.g. and 1.57 psf beside the 75 Pa they mean; those read as the round value.
_TEST_PRESSURES = (50.0, 75.0, 100.0, 300.0)
_TEST_PRESSURE_ROUNDING = 0.005


def parse(text: str | float, kind: Kind) -> Quantity:
    """Read one quantity of the kind wanted.

    Spelling is read with patience (``·``, ``*`` or a space between factors, ``²`` or ``^2``, ``R-23`` or
    ``R23``, ``5-1/2 in``); meaning is not guessed: a number without its unit, or with one of another kind,
    is refused.

    Args:
        text: the text as written; a plain number is read for a fraction only.
        kind: the kind wanted.

    Returns:
        The quantity, its value in the SI unit of the kind.

    Raises:
        QuantityError: with what is wrong, what was expected and what to do.

    Example:
        >>> parse("5 1/2 in", Kind.LENGTH).value
        0.1397
        >>> round(parse("R-23", Kind.THERMAL_RESISTANCE).value, 2)
        4.05
        >>> parse("0.02 L/(s·m²) at 75 Pa", Kind.AIR_PERMEANCE).reference_pressure
        75.0
        >>> parse("12.7", Kind.LENGTH)
        Traceback (most recent call last):
        ...
        speccheck.quantity.value.QuantityError: '12.7' has no unit. Expected a length, such as 12.7 mm, ...

    Source: the units and their sources stand in `speccheck.quantity.units.UNITS`.
    """
    if isinstance(text, str):
        return _parse(text, kind)
    if isinstance(text, bool):
        raise not_a_quantity(str(text).lower(), kind, "is a yes or no", "write a number and its unit")
    if kind is not Kind.FRACTION:
        raise plain(str(text), kind)
    if not math.isfinite(text):
        raise no_number(str(text), kind)
    return Quantity(float(text), kind, str(text), "1")


@lru_cache(maxsize=4096)
def _parse(text: str, kind: Kind) -> Quantity:
    if len(text) > _LONGEST:
        raise not_a_quantity(text, kind, "is too long for a quantity", "write one number and its unit")
    folded = fold(text)
    form = _FORM.fullmatch(folded)
    if form is None:
        raise no_number(text, kind)
    label = (form["label"] or "").lower().replace("_", "")
    unit_text, pressure = _pressure(text, label, form, kind)
    found = _units(label, unit_text)
    unit = next((unit for unit in found if unit.kind is kind), None)
    if unit is None:
        return _exceptional(text, folded, unit_text, found, kind)
    value = _si(text, _number(text, form, kind), unit)
    return Quantity(value, kind, text, unit.name, pressure)


def _exceptional(text: str, folded: str, unit_text: str, found: tuple[Unit, ...], kind: Kind) -> Quantity:
    """Read the two forms that are not number and unit, or raise the error that fits."""
    if kind is Kind.LENGTH and (pair := _FEET_AND_INCHES.fullmatch(folded)):
        inches = _parse(pair[2], kind)
        return Quantity(_parse(f"{pair[1]} ft", kind).value + inches.value, kind, text, "in")
    if found:
        raise wrong_kind(text, found, kind)
    if unit_text:
        raise unknown_unit(text, unit_text, kind)
    if kind is not Kind.FRACTION or folded != text.strip():
        raise plain(text, kind)
    try:
        return Quantity(float(folded), kind, text, "1")
    except ValueError:
        raise plain(text, kind) from None


def _number(text: str, form: re.Match[str], kind: Kind) -> float:
    if form["decimal"]:
        number = float(_TIMES_TEN.sub("e", form["decimal"]))
    elif float(form["bottom"]) == 0.0:
        raise not_a_quantity(text, kind, "divides by zero", "write the fraction again")
    else:
        number = float(form["whole"] or 0) + float(form["top"]) / float(form["bottom"])
    if not math.isfinite(number):
        raise not_a_quantity(text, kind, "is too large a number", "write a number of ordinary size")
    return -number if form["sign"] == "-" else number


def _si(text: str, number: float, unit: Unit) -> float:
    try:
        value = unit.to_si(number)
    except ZeroDivisionError:
        raise not_a_quantity(
            text,
            unit.kind,
            "is a resistance of zero, which has no reciprocal",
            "leave the layer out, or write its value",
        ) from None
    if unit.kind is Kind.TEMPERATURE and value < -273.15:
        raise not_a_quantity(text, unit.kind, "lies below absolute zero", "check the sign and the unit")
    if not math.isfinite(value):
        raise not_a_quantity(text, unit.kind, "is too large a number", "write a number of ordinary size")
    return value


@lru_cache(maxsize=1024)
def _units(label: str, unit_text: str) -> tuple[Unit, ...]:
    """Return what a label (``R``, ``sd``...) and a unit text stand for together, one unit for each kind."""
    if not label and _TRAILING_SD.search(unit_text):
        label, unit_text = "sd", _TRAILING_SD.sub("", unit_text).strip()
    spelled = signature(unit_text) if unit_text else frozenset()
    written = units_by_signature().get(spelled, ()) if spelled else ()
    if not label:
        return written
    if label in {"mu", "μ"}:
        return () if unit_text else (unit_named("mu", Kind.PERMEABILITY),)
    if label == "sd":
        return tuple(
            Unit(f"sd {unit.name}", Kind.PERMEANCE, DELTA_AIR / unit.factor, unit.source, inverse=True)
            for unit in written
            if unit.kind is Kind.LENGTH
        )
    if label in {"r", "rsi"}:
        return _resistance(label, spelled, unit_text, written)
    wanted = {"u": Kind.TRANSMITTANCE, "q": Kind.AIR_PERMEANCE}.get(label[0], Kind.AIR_CHANGE)
    if wanted is Kind.AIR_CHANGE and not unit_text:
        return (unit_named("ACH", wanted),)
    return tuple(unit for unit in written if unit.kind is wanted)


def _resistance(label: str, spelled: object, unit_text: str, written: tuple[Unit, ...]) -> tuple[Unit, ...]:
    """Return the unit of an R or RSI: bare, per inch, or with a unit that does not contradict the label."""
    if not unit_text:
        return (unit_named("R" if label == "r" else "RSI", Kind.THERMAL_RESISTANCE),)
    if label == "r" and spelled == signature("/in"):
        return (unit_named("R/in", Kind.CONDUCTIVITY),)
    return tuple(
        unit
        for unit in written
        if unit.kind is Kind.THERMAL_RESISTANCE and not (label == "rsi" and unit.name == "h·ft²·°F/Btu")
    )


def _pressure(text: str, label: str, form: re.Match[str], kind: Kind) -> tuple[str, float | None]:
    """Return the unit text without its reference pressure, and that pressure [Pa] or None."""
    unit_text = form["unit"].strip()
    stated: list[float] = []
    in_name = _PRESSURE_IN_NAME.search(unit_text)
    if in_name:
        unit_text = f"{unit_text[: in_name.start()]}{in_name[1]}{unit_text[in_name.end() :]}"
        stated.append(float(in_name[2]))
    if label[:3] == "ach" or (label[:1] in {"n", "q"} and label):
        stated.append(float(label.lstrip("achnq")))
    if form["at"] is not None:
        if kind not in _AIR:
            raise not_a_quantity(
                text,
                kind,
                "carries a test condition",
                "leave out 'at ...'; the condition belongs to the evidence",
            )
        stated.append(_test_pressure(form["at"].strip()))
    if len(set(stated)) > 1:
        raise not_a_quantity(text, kind, "states two different pressures", "state the test pressure once")
    return unit_text, stated[0] if stated else None


def _test_pressure(text: str) -> float:
    pressure = _parse(text, Kind.PRESSURE)
    if pressure.value <= 0:
        raise QuantityError(
            f"the reference pressure {text} is not above zero",
            "a test pressure, such as 75 Pa",
            "write it again",
        )
    if pressure.unit not in {"Pa", "kPa", "hPa"}:
        for round_value in _TEST_PRESSURES:
            if abs(pressure.value / round_value - 1) <= _TEST_PRESSURE_ROUNDING:
                return round_value
    return pressure.value
