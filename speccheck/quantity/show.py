"""From a value in SI units to the words a person reads, in SI, in US units, or both."""

from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction
from functools import cache, lru_cache
from math import isfinite, isnan
from typing import Literal, NamedTuple

from speccheck.quantity.kind import Kind
from speccheck.quantity.units import DELTA_AIR, INCH, Unit, unit_named

__all__ = ["System", "show", "show_apart", "show_sd"]

System = Literal["both", "us", "si"]
UNLIMITED = "unlimited"
_QUANTITIES: dict[str, Kind] = {kind.value: kind for kind in Kind}
_OTHER_KINDS = ("number", "percent", "bool", "text")
NOT_A_NUMBER = "not a number"
# Rounding starts from this many digits, which drop the noise of a conversion, so that halves round up.
_TRUSTED_DIGITS = 12
# Larger numbers are written with an exponent.
_WRITTEN_OUT = 1e9
# Less than this many kg/m², which would round to one, is written in grams.
_KILOGRAM = 0.9995
_FRACTION_MATCH = 1e-4
_NOMINAL_MATCH = 0.025


_LABEL = "R-{}"


def _is_label(number: float) -> bool:
    """Is it an R of a table or a label: a multiple of a quarter, such as 11.25, that rounding would spoil?"""
    return number < 1000 and abs(number * 4 - round(number * 4)) < 1e-6 * max(1.0, abs(number))


class _Form(NamedTuple):
    """One way to write a kind: a unit, how many digits, and whether digits count from the decimal point."""

    unit: Unit
    template: str
    digits: int
    decimals: bool = False

    def write(self, value: float, more: int) -> str:
        number = self.unit.from_si(value)
        digits = self.digits + more
        if self.template == _LABEL and _is_label(number):
            return self.template.format(_plain(Decimal(round(number * 4)) / 4))
        return self.template.format(
            _decimals(number, digits) if self.decimals else _significant(number, digits)
        )


def _form(name: str, kind: Kind, digits: int, template: str | None = None, decimals: bool = False) -> _Form:
    return _Form(unit_named(name, kind), template or f"{{}} {name}", digits, decimals)


@cache
def _forms() -> dict[Kind, tuple[_Form, _Form, bool]]:
    """Return for each kind its SI form, its US form, and whether the US form stands first."""
    return {
        Kind.AREA: (_form("m²", Kind.AREA, 3), _form("ft²", Kind.AREA, 3), False),
        Kind.VOLUME: (_form("m³", Kind.VOLUME, 3), _form("ft³", Kind.VOLUME, 3), False),
        Kind.AREA_PER_LENGTH: (
            _form("mm²/m", Kind.AREA_PER_LENGTH, 3),
            _form("in²/ft", Kind.AREA_PER_LENGTH, 3),
            False,
        ),
        Kind.THERMAL_RESISTANCE: (
            _form("m²·K/W", Kind.THERMAL_RESISTANCE, 3),
            _form("R", Kind.THERMAL_RESISTANCE, 3, _LABEL),
            True,
        ),
        Kind.TRANSMITTANCE: (
            _form("W/(m²·K)", Kind.TRANSMITTANCE, 3),
            _form("Btu/(h·ft²·°F)", Kind.TRANSMITTANCE, 3),
            False,
        ),
        Kind.CONDUCTIVITY: (
            _form("W/(m·K)", Kind.CONDUCTIVITY, 3),
            _form("Btu·in/(h·ft²·°F)", Kind.CONDUCTIVITY, 3),
            False,
        ),
        Kind.PERMEANCE: (_form("ng/(Pa·s·m²)", Kind.PERMEANCE, 2), _form("perm", Kind.PERMEANCE, 2), True),
        Kind.PERMEABILITY: (
            _form("ng/(Pa·s·m)", Kind.PERMEABILITY, 2),
            _form("perm·in", Kind.PERMEABILITY, 2, "{} perm-in"),
            True,
        ),
        Kind.TEMPERATURE: (
            _form("°C", Kind.TEMPERATURE, 1, decimals=True),
            _form("°F", Kind.TEMPERATURE, 1, decimals=True),
            False,
        ),
        Kind.TEMPERATURE_DIFFERENCE: (
            _form("K", Kind.TEMPERATURE_DIFFERENCE, 1, decimals=True),
            _form("°F", Kind.TEMPERATURE_DIFFERENCE, 1, decimals=True),
            False,
        ),
        Kind.PRESSURE: (_form("Pa", Kind.PRESSURE, 3), _form("inH2O", Kind.PRESSURE, 3, "{} in w.g."), False),
        Kind.VAPOUR_PRESSURE: (
            _form("Pa", Kind.VAPOUR_PRESSURE, 3),
            _form("inHg", Kind.VAPOUR_PRESSURE, 3, decimals=True),
            False,
        ),
        Kind.AIR_PERMEANCE: (
            _form("L/(s·m²)", Kind.AIR_PERMEANCE, 2),
            _form("cfm/ft²", Kind.AIR_PERMEANCE, 2),
            False,
        ),
        Kind.DENSITY: (_form("kg/m³", Kind.DENSITY, 3), _form("lb/ft³", Kind.DENSITY, 3), False),
        Kind.AREA_MASS: (_form("kg/m²", Kind.AREA_MASS, 3), _form("lb/ft²", Kind.AREA_MASS, 3), False),
        Kind.DEGREE_DAYS: (_form("K·day", Kind.DEGREE_DAYS, 4), _form("°F·day", Kind.DEGREE_DAYS, 4), False),
    }


@cache
def _light_forms() -> tuple[_Form, _Form]:
    return _form("g/m²", Kind.AREA_MASS, 3), _form("oz/ft²", Kind.AREA_MASS, 3)


def _mass_forms(value: float) -> tuple[_Form, _Form]:
    """Return the forms of a mass per area: water that gathers in a wall is some grams, or part of an ounce."""
    (grams, ounces), (kilograms, pounds, _) = _light_forms(), _forms()[Kind.AREA_MASS]
    light = abs(value) < _KILOGRAM
    return grams if light else kilograms, ounces if abs(pounds.unit.from_si(value)) < 1.0 else pounds


def show(value: float, kind: Kind | str, system: System = "both", more_digits: int = 0) -> str:
    """Write a value for a person.

    Args:
        value: the value [SI unit of the kind]; infinite reads as unlimited.
        kind: a quantity kind, or `number`, `percent`, `bool`, `text`.
        system: which units to write; `both` puts the second in brackets.
        more_digits: digits beyond the usual number, for telling close values apart.

    Returns:
        The words, for example `R-11.3 (1.99 m²·K/W)`.

    Example:
        >>> show(1.99, "thermal-resistance")
        'R-11.3 (1.99 m²·K/W)'
        >>> show(0.0127, Kind.LENGTH), show(0.14, Kind.LENGTH)
        ('12.7 mm (1/2 in)', '140 mm (5 1/2 in)')
        >>> show(4.2, Kind.TEMPERATURE, "us"), show(0.35, Kind.FRACTION)
        ('39.6 °F', '35 %')

    Source: unit factors in `speccheck.quantity.units.UNITS`; digits are our choice.
    """
    if not isinstance(kind, Kind):
        if kind not in _QUANTITIES and kind not in _OTHER_KINDS:
            raise ValueError(f"no such kind to show: {kind}")
        if kind in ("bool", "text"):
            return _word(value)
        kind = _QUANTITIES.get(kind, kind)
    return _shown(value, kind, system, more_digits)


# The same few values and limits are shown at every place they matter.
@lru_cache(maxsize=4096)
def _shown(value: float, kind: Kind | str, system: System, more_digits: int) -> str:
    if not isfinite(value):
        return NOT_A_NUMBER if isnan(value) else ("-" if value < 0 else "") + UNLIMITED
    return _one_system(value, kind, more_digits) or _two_systems(value, Kind(kind), system, more_digits)


def _word(value: object) -> str:
    if isinstance(value, bool):
        return "yes" if value else "no"
    return str(value)


def _one_system(value: float, kind: Kind | str, more: int) -> str:
    """Write a kind that is the same in both systems; empty for the others."""
    if kind in {Kind.FRACTION, "percent"}:
        percent = value * 100
        return f"{_decimals(percent, (0 if abs(percent) >= 10 else 1) + more)} %"
    if kind == "number":
        return _significant(value, 3 + more)
    if kind is Kind.AIR_CHANGE:
        return f"{_significant(value, 2 + more)} ACH"
    if kind is Kind.DURATION:
        number = _significant(value, 3 + more)
        return f"{number} day" if number == "1" else f"{number} days"
    return ""


def _two_systems(value: float, kind: Kind, system: System, more: int) -> str:
    if kind is Kind.LENGTH:
        si, us, us_first = _metric_length(value, more), _us_length(value, more), False
    else:
        si_form, us_form, us_first = _forms()[kind]
        if kind is Kind.AREA_MASS:
            si_form, us_form = _mass_forms(value)
        if system == "si":
            return si_form.write(value, more)
        if system == "us":
            return us_form.write(value, more)
        si, us = si_form.write(value, more), us_form.write(value, more)
    if system == "both":
        return f"{us} ({si})" if us_first else f"{si} ({us})"
    return si if system == "si" else us


def _metric_length(value: float, more: int) -> str:
    if abs(value) >= 1.2:
        return f"{_decimals(value, 2 + more)} m"
    millimetres = value * 1e3
    if abs(millimetres) < 1:
        return f"{_significant(millimetres, 2 + more)} mm"
    return f"{_decimals(millimetres, (1 if abs(millimetres) >= 10 else 2) + more)} mm"


def _us_length(value: float, more: int) -> str:
    inches = value / INCH
    if abs(inches) < 0.04:
        return f"{_significant(inches * 1000, 2 + more)} mil"
    if abs(value) >= 1.2:
        return f"{_decimals(inches / 12, 2 + more)} ft"
    fraction = _usual_fraction(value) if more == 0 else None
    return f"{fraction} in" if fraction else f"{_significant(inches, 3 + more)} in"


def _usual_fraction(value: float) -> str | None:
    """Return the inch fraction a length is sold as, or None when there is none near.

    A fraction within 0.1 mm (of a thin sheet within 2.5 %) is the same length. A whole number of millimetres
    that is the rounded form of a quarter inch (of a sixteenth below one inch) is its nominal name: 140 mm is
    5 1/2 in.
    """
    inches = value / INCH
    for denominator in (2, 4, 8, 16, *((32,) if inches < 1 else ())):
        top = round(inches * denominator)
        if top > 0 and abs(top / denominator * INCH - value) <= min(_FRACTION_MATCH, _NOMINAL_MATCH * value):
            return _mixed(Fraction(top, denominator))
    millimetres = round(value * 1e3)
    if abs(millimetres - value * 1e3) < 1e-6:
        denominator = 4 if inches > 0.95 else 16
        top = round(inches * denominator)
        near = top / denominator * 25.4
        if top > 0 and round(near) == millimetres and abs(near / millimetres - 1) <= _NOMINAL_MATCH:
            return _mixed(Fraction(top, denominator))
    return None


def _mixed(fraction: Fraction) -> str:
    whole, rest = divmod(fraction.numerator, fraction.denominator)
    if rest == 0:
        return str(whole)
    return f"{whole} {rest}/{fraction.denominator}" if whole else f"{rest}/{fraction.denominator}"


def _decimals(number: float, places: int) -> str:
    """Write a number with that many digits after the point, fewer where they would be zeros."""
    if not abs(number) < _WRITTEN_OUT:
        return _significant(number, 3)
    exact = Decimal(f"{number:.{_TRUSTED_DIGITS}g}")
    return _plain(exact.quantize(Decimal(1).scaleb(-places), rounding=ROUND_HALF_UP))


def _significant(number: float, digits: int) -> str:
    """Write a number with that many significant digits, with an exponent where it is very large or small."""
    if number == 0:
        return "0"
    if not isfinite(number):
        return UNLIMITED
    exact = Decimal(f"{number:.{_TRUSTED_DIGITS}g}")
    rounded = exact.quantize(Decimal(1).scaleb(exact.adjusted() - digits + 1), rounding=ROUND_HALF_UP)
    if rounded.adjusted() > -7 and abs(number) < _WRITTEN_OUT:
        return _plain(rounded)
    return f"{_plain(rounded.scaleb(-rounded.adjusted()))}e{rounded.adjusted()}"


def _plain(number: Decimal) -> str:
    """Write without exponent, without trailing zeros and without a negative zero."""
    text = f"{number:f}"
    if "." in text:
        text = text.rstrip("0").rstrip(".")
    return "0" if text in {"-0", ""} else text


def show_sd(permeance: float) -> str:
    """Write a vapour permeance [kg/(m²·s·Pa)] as the equivalent air layer sd.

    Example:
        >>> show_sd(0.9 * 57.2135e-12)
        'sd 3.9 m'

    Source: ISO 13788 and ISO 12572, sd = 2.0e-10 kg/(m·s·Pa) / permeance; memory.
    """
    if permeance <= 0:
        return f"sd {UNLIMITED}"
    return f"sd {_significant(DELTA_AIR / permeance, 2)} m"


def show_apart(first: float, second: float, kind: Kind | str, system: System = "both") -> tuple[str, str]:
    """Write two values with as many digits as it takes to tell them apart, up to three more than usual.

    Example:
        >>> show_apart(1.04 * 57.2135e-12, 57.2135e-12, Kind.PERMEANCE, "us")
        ('1.04 perm', '1 perm')
    """
    for more in range(4):
        texts = show(first, kind, system, more), show(second, kind, system, more)
        if texts[0] != texts[1] or first == second:
            break
    return texts
