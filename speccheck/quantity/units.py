"""The one table of units, with the factor of each to SI and where the factor comes from."""

from functools import cache
from typing import NamedTuple

from speccheck.quantity.kind import Kind
from speccheck.quantity.spelling import Signature, fold, signature

__all__ = [
    "CONVENTIONS",
    "DELTA_AIR",
    "INCH",
    "PERM",
    "PERM_23C",
    "UNITS",
    "Unit",
    "unit_named",
    "units_by_signature",
]

# Exact by definition.
INCH = 0.0254
FOOT = 0.3048
YARD = 0.9144
POUND = 0.45359237
OUNCE = POUND / 16
GRAIN = POUND / 7000
GRAVITY = 9.80665
HOUR = 3600.0
DAY = 86400.0
LITRE = 1e-3
BTU = 1055.05585262
RANKINE = 5 / 9
# Conventional: mercury 13595.1 kg/m³ (0 °C), water 1000 kg/m³, both at standard gravity.
MM_HG = 133.322387415
IN_HG = MM_HG * 25.4
IN_H2O = 249.08891

PERM = 57.2135e-12
"""Water-vapour permeance of one US perm [kg/(m²·s·Pa)]: 1 grain/(h·ft²·inHg) with mercury at 0 °C."""

PERM_23C = 57.4525e-12
"""The same unit with mercury at 23 °C [kg/(m²·s·Pa)]; named only to state the difference."""

DELTA_AIR = 2.0e-10
"""Vapour permeability of still air [kg/(m·s·Pa)] by the convention of ISO 13788; turns sd into permeance."""

CONVENTIONS: tuple[str, ...] = (
    "One perm is the US perm at 0 °C, 57.2135 ng/(Pa·s·m²). The perm at 23 °C, 57.4525 ng/(Pa·s·m²), is "
    "0.42 % larger; data sheets rarely say which of the two they mean.",
    "An sd value stands for that thickness of still air with a vapour permeability of 2.0e-10 kg/(m·s·Pa), "
    "the convention of ISO 13788. So sd 1 m is 200 ng/(Pa·s·m²), or 3.5 perm.",
    "R-values without a unit are h·ft²·°F/Btu; RSI is m²·K/W. One RSI is R-5.678.",
    "A Btu is the International Table Btu, 1055.05585262 J.",
    "0.3 in w.g. and 1.57 psf are read as the 75 Pa of the test standards that print them side by side, and "
    "the like for 50 Pa and 300 Pa.",
)

_SI = "International System of Units (SI), definition"
_1959 = "international yard and pound agreement, 1959: inch 25.4 mm, pound 0.45359237 kg, exact; memory"
_BTU = "International Table Btu, 1055.05585262 J, exact; NIST SP 811 appendix B; memory"
_R = "from inch, hour, °F and Btu: 1 h·ft²·°F/Btu = 0.1761101838 m²·K/W; NIST SP 811 appendix B.9; memory"
_PERM = (
    "1 grain/(h·ft²·inHg), mercury at 0 °C: 57.2135 ng/(Pa·s·m²); ASTM E96 table of units, "
    "NIST SP 811 appendix B.9 (perm, 0 °C); read in a public table of units, checked from the definitions"
)
_PERM_IN = "1 perm × 1 inch; NIST SP 811 appendix B.9 (perm inch, 0 °C): 1.45322e-12 kg/(m·s·Pa); memory"
_METRIC_PERM = "1 g/(24 h·m²·mmHg), mercury at 0 °C: 1 US perm = 0.659045 metric perm; read in a public note"
_SD = "ISO 13788 and ISO 12572: permeance = 2.0e-10 kg/(m·s·Pa) / sd; memory"
_Z = "reciprocal of vapour resistance, 1 MN·s/g = 1 GPa·s·m²/kg = 1e9 m²·s·Pa/kg; from SI"
_H2O = "conventional inch of water, 249.08891 Pa; NIST SP 811 appendix B; memory"
_HG = "conventional millimetre of mercury, 133.322387415 Pa; NIST SP 811 appendix B; memory"
_PSF = "pound-force per square foot, 47.88026 Pa, from pound, foot and standard gravity 9.80665 m/s² (exact)"
_CFM = "cubic foot per minute, from the foot (exact)"
_F = "°F = 1.8 °C + 32, a difference of 1 °F is 5/9 K, exact; NIST SP 811 appendix B; memory"
_LABEL = "R and RSI as the trade writes them, common practice, no source; factor from Btu, foot, °F and hour"


class Unit(NamedTuple):
    """One unit: in SI it is `number * factor + offset`, or `factor / number` where it is an inverse."""

    name: str
    kind: Kind
    factor: float
    source: str
    offset: float = 0.0
    inverse: bool = False

    def to_si(self, number: float) -> float:
        """Return the SI value of a number in this unit; zero of an inverse unit raises ZeroDivisionError."""
        return self.factor / number if self.inverse else number * self.factor + self.offset

    def from_si(self, value: float) -> float:
        """Return the number of this unit that an SI value is."""
        return self.factor / value if self.inverse else (value - self.offset) / self.factor


_R_IP = FOOT**2 * HOUR * RANKINE / BTU
_K_IP = BTU * INCH / (HOUR * FOOT**2 * RANKINE)

UNITS: tuple[Unit, ...] = (
    Unit("m", Kind.LENGTH, 1.0, _SI),
    Unit("cm", Kind.LENGTH, 1e-2, _SI),
    Unit("mm", Kind.LENGTH, 1e-3, _SI),
    Unit("in", Kind.LENGTH, INCH, _1959),
    Unit("ft", Kind.LENGTH, FOOT, _1959),
    Unit("yd", Kind.LENGTH, YARD, _1959),
    Unit("mil", Kind.LENGTH, INCH / 1000, _1959),
    Unit("m²", Kind.AREA, 1.0, _SI),
    Unit("cm²", Kind.AREA, 1e-4, _SI),
    Unit("mm²", Kind.AREA, 1e-6, _SI),
    Unit("ft²", Kind.AREA, FOOT**2, _1959),
    Unit("in²", Kind.AREA, INCH**2, _1959),
    Unit("m³", Kind.VOLUME, 1.0, _SI),
    Unit("L", Kind.VOLUME, LITRE, _SI),
    Unit("ft³", Kind.VOLUME, FOOT**3, _1959),
    Unit("m²/m", Kind.AREA_PER_LENGTH, 1.0, _SI),
    Unit("cm²/m", Kind.AREA_PER_LENGTH, 1e-4, _SI),
    Unit("mm²/m", Kind.AREA_PER_LENGTH, 1e-6, _SI),
    Unit("in²/ft", Kind.AREA_PER_LENGTH, INCH**2 / FOOT, _1959),
    Unit("R", Kind.THERMAL_RESISTANCE, _R_IP, _LABEL),
    Unit("RSI", Kind.THERMAL_RESISTANCE, 1.0, _LABEL),
    Unit("m²·K/W", Kind.THERMAL_RESISTANCE, 1.0, _SI),
    Unit("h·ft²·°F/Btu", Kind.THERMAL_RESISTANCE, _R_IP, _R),
    Unit("W/(m²·K)", Kind.TRANSMITTANCE, 1.0, _SI),
    Unit("Btu/(h·ft²·°F)", Kind.TRANSMITTANCE, 1 / _R_IP, _R),
    Unit("W/(m·K)", Kind.CONDUCTIVITY, 1.0, _SI),
    Unit("mW/(m·K)", Kind.CONDUCTIVITY, 1e-3, _SI),
    Unit("Btu·in/(h·ft²·°F)", Kind.CONDUCTIVITY, _K_IP, _BTU),
    Unit("Btu/(h·ft·°F)", Kind.CONDUCTIVITY, BTU / (HOUR * FOOT * RANKINE), _BTU),
    Unit("R/in", Kind.CONDUCTIVITY, _K_IP, _LABEL, inverse=True),
    Unit("m·K/W", Kind.CONDUCTIVITY, 1.0, _SI, inverse=True),
    Unit("h·ft²·°F/(Btu·in)", Kind.CONDUCTIVITY, _K_IP, _BTU, inverse=True),
    Unit("perm", Kind.PERMEANCE, PERM, _PERM),
    Unit("grain/(h·ft²·inHg)", Kind.PERMEANCE, PERM, _PERM),
    Unit("metric-perm", Kind.PERMEANCE, 1e-3 / (DAY * MM_HG), _METRIC_PERM),
    Unit("g/(day·m²·mmHg)", Kind.PERMEANCE, 1e-3 / (DAY * MM_HG), _METRIC_PERM),
    Unit("ng/(Pa·s·m²)", Kind.PERMEANCE, 1e-12, _SI),
    Unit("mg/(Pa·h·m²)", Kind.PERMEANCE, 1e-6 / HOUR, _SI),
    Unit("kg/(Pa·s·m²)", Kind.PERMEANCE, 1.0, _SI),
    Unit("MN·s/g", Kind.PERMEANCE, 1e-9, _Z, inverse=True),
    Unit("GPa·s·m²/kg", Kind.PERMEANCE, 1e-9, _Z, inverse=True),
    Unit("Pa·s·m²/kg", Kind.PERMEANCE, 1.0, _Z, inverse=True),
    Unit("perm·in", Kind.PERMEABILITY, PERM * INCH, _PERM_IN),
    Unit("ng/(Pa·s·m)", Kind.PERMEABILITY, 1e-12, _SI),
    Unit("mg/(Pa·h·m)", Kind.PERMEABILITY, 1e-6 / HOUR, _SI),
    Unit("kg/(Pa·s·m)", Kind.PERMEABILITY, 1.0, _SI),
    Unit("MN·s/(g·m)", Kind.PERMEABILITY, 1e-9, _Z, inverse=True),
    Unit("mu", Kind.PERMEABILITY, DELTA_AIR, _SD, inverse=True),
    Unit("°C", Kind.TEMPERATURE, 1.0, _SI),
    Unit("K", Kind.TEMPERATURE, 1.0, _SI, offset=-273.15),
    Unit("°F", Kind.TEMPERATURE, RANKINE, _F, offset=-32 * RANKINE),
    Unit("K", Kind.TEMPERATURE_DIFFERENCE, 1.0, _SI),
    Unit("°C", Kind.TEMPERATURE_DIFFERENCE, 1.0, _SI),
    Unit("°F", Kind.TEMPERATURE_DIFFERENCE, RANKINE, _F),
    Unit("Pa", Kind.PRESSURE, 1.0, _SI),
    Unit("hPa", Kind.PRESSURE, 1e2, _SI),
    Unit("kPa", Kind.PRESSURE, 1e3, _SI),
    Unit("inH2O", Kind.PRESSURE, IN_H2O, _H2O),
    Unit("inHg", Kind.PRESSURE, IN_HG, _HG),
    Unit("mmHg", Kind.PRESSURE, MM_HG, _HG),
    Unit("psf", Kind.PRESSURE, POUND * GRAVITY / FOOT**2, _PSF),
    Unit("lbf/ft²", Kind.PRESSURE, POUND * GRAVITY / FOOT**2, _PSF),
    Unit("Pa", Kind.VAPOUR_PRESSURE, 1.0, _SI),
    Unit("hPa", Kind.VAPOUR_PRESSURE, 1e2, _SI),
    Unit("kPa", Kind.VAPOUR_PRESSURE, 1e3, _SI),
    Unit("inHg", Kind.VAPOUR_PRESSURE, IN_HG, _HG),
    Unit("mmHg", Kind.VAPOUR_PRESSURE, MM_HG, _HG),
    Unit("L/(s·m²)", Kind.AIR_PERMEANCE, LITRE, _SI),
    Unit("m³/(s·m²)", Kind.AIR_PERMEANCE, 1.0, _SI),
    Unit("m³/(h·m²)", Kind.AIR_PERMEANCE, 1 / HOUR, _SI),
    Unit("cfm/ft²", Kind.AIR_PERMEANCE, FOOT / 60, _CFM),
    Unit("ft³/(min·ft²)", Kind.AIR_PERMEANCE, FOOT / 60, _CFM),
    Unit("ACH", Kind.AIR_CHANGE, 1.0, "air changes per hour, definition"),
    Unit("1/h", Kind.AIR_CHANGE, 1.0, "air changes per hour, definition"),
    Unit("%", Kind.FRACTION, 1e-2, "definition"),
    Unit("kg/m³", Kind.DENSITY, 1.0, _SI),
    Unit("g/cm³", Kind.DENSITY, 1e3, _SI),
    Unit("lb/ft³", Kind.DENSITY, POUND / FOOT**3, _1959),
    Unit("pcf", Kind.DENSITY, POUND / FOOT**3, _1959),
    Unit("kg/m²", Kind.AREA_MASS, 1.0, _SI),
    Unit("g/m²", Kind.AREA_MASS, 1e-3, _SI),
    Unit("gsm", Kind.AREA_MASS, 1e-3, _SI),
    Unit("oz/ft²", Kind.AREA_MASS, OUNCE / FOOT**2, _1959),
    Unit("oz/yd²", Kind.AREA_MASS, OUNCE / YARD**2, _1959),
    Unit("lb/ft²", Kind.AREA_MASS, POUND / FOOT**2, _1959),
    Unit("day", Kind.DURATION, 1.0, "definition"),
    Unit("week", Kind.DURATION, 7.0, "definition"),
    Unit("h", Kind.DURATION, 1 / 24, "definition"),
    Unit("K·day", Kind.DEGREE_DAYS, 1.0, _SI),
    Unit("°F·day", Kind.DEGREE_DAYS, RANKINE, _F),
)


@cache
def units_by_signature() -> dict[Signature, tuple[Unit, ...]]:
    """Return every unit that is spelled as a unit, under its signature; one spelling may serve two kinds."""
    table: dict[Signature, tuple[Unit, ...]] = {}
    for unit in UNITS:
        if unit.name in {"R", "RSI", "R/in", "mu"}:
            continue
        spelled = signature(fold(unit.name))
        if spelled is None:
            raise LookupError(f"the unit {unit.name} cannot be read by its own name")
        table[spelled] = (*table.get(spelled, ()), unit)
    return table


def unit_named(name: str, kind: Kind) -> Unit:
    """Return the unit of that canonical name and kind; raises LookupError when the table has none."""
    for unit in UNITS:
        if unit.name == name and unit.kind is kind:
            return unit
    raise LookupError(f"no unit {name} of {kind}")
