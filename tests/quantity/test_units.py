"""Every factor of the table of units against an outside table of units, and the perm against its definition."""

import math

import pint
import pytest

from speccheck.quantity.kind import KINDS, Kind
from speccheck.quantity.spelling import fold, signature
from speccheck.quantity.units import CONVENTIONS, PERM, PERM_23C, UNITS, Unit, unit_named, units_by_signature

# Our name -> the same unit built from pint's own units, written by hand here, never derived from our table.
# pint takes its factors from NIST SP 811 and the SI brochure.
PINT = {
    "m": "meter",
    "cm": "centimeter",
    "mm": "millimeter",
    "in": "inch",
    "ft": "foot",
    "yd": "yard",
    "mil": "thou",
    "m²": "meter**2",
    "cm²": "centimeter**2",
    "mm²": "millimeter**2",
    "ft²": "foot**2",
    "in²": "inch**2",
    "m³": "meter**3",
    "L": "liter",
    "ft³": "foot**3",
    "m²/m": "meter**2/meter",
    "cm²/m": "centimeter**2/meter",
    "mm²/m": "millimeter**2/meter",
    "in²/ft": "inch**2/foot",
    "R": "hour*foot**2*delta_degF/Btu_it",
    "RSI": "meter**2*kelvin/watt",
    "m²·K/W": "meter**2*kelvin/watt",
    "h·ft²·°F/Btu": "hour*foot**2*delta_degF/Btu_it",
    "W/(m²·K)": "watt/meter**2/kelvin",
    "Btu/(h·ft²·°F)": "Btu_it/hour/foot**2/delta_degF",
    "W/(m·K)": "watt/meter/kelvin",
    "mW/(m·K)": "milliwatt/meter/kelvin",
    "Btu·in/(h·ft²·°F)": "Btu_it*inch/hour/foot**2/delta_degF",
    "Btu/(h·ft·°F)": "Btu_it/hour/foot/delta_degF",
    "R/in": "hour*foot**2*delta_degF/Btu_it/inch",
    "m·K/W": "meter*kelvin/watt",
    "h·ft²·°F/(Btu·in)": "hour*foot**2*delta_degF/Btu_it/inch",
    "perm": "grain/hour/foot**2/inch_Hg_32F",
    "grain/(h·ft²·inHg)": "grain/hour/foot**2/inch_Hg_32F",
    "metric-perm": "gram/day/meter**2/millimeter_Hg",
    "g/(day·m²·mmHg)": "gram/day/meter**2/millimeter_Hg",
    "ng/(Pa·s·m²)": "nanogram/pascal/second/meter**2",
    "mg/(Pa·h·m²)": "milligram/pascal/hour/meter**2",
    "kg/(Pa·s·m²)": "kilogram/pascal/second/meter**2",
    "MN·s/g": "meganewton*second/gram",
    "GPa·s·m²/kg": "gigapascal*second*meter**2/kilogram",
    "Pa·s·m²/kg": "pascal*second*meter**2/kilogram",
    "perm·in": "grain/hour/foot**2/inch_Hg_32F*inch",
    "ng/(Pa·s·m)": "nanogram/pascal/second/meter",
    "mg/(Pa·h·m)": "milligram/pascal/hour/meter",
    "kg/(Pa·s·m)": "kilogram/pascal/second/meter",
    "MN·s/(g·m)": "meganewton*second/gram/meter",
    "Pa": "pascal",
    "hPa": "hectopascal",
    "kPa": "kilopascal",
    "inH2O": "inch_water",
    "inHg": "inch_Hg_32F",
    "mmHg": "millimeter_Hg",
    "psf": "force_pound/foot**2",
    "lbf/ft²": "force_pound/foot**2",
    "L/(s·m²)": "liter/second/meter**2",
    "m³/(s·m²)": "meter/second",
    "m³/(h·m²)": "meter**3/hour/meter**2",
    "cfm/ft²": "foot**3/minute/foot**2",
    "ft³/(min·ft²)": "foot**3/minute/foot**2",
    "ACH": "1/hour",
    "1/h": "1/hour",
    "%": "percent",
    "kg/m³": "kilogram/meter**3",
    "g/cm³": "gram/centimeter**3",
    "lb/ft³": "pound/foot**3",
    "pcf": "pound/foot**3",
    "kg/m²": "kilogram/meter**2",
    "g/m²": "gram/meter**2",
    "gsm": "gram/meter**2",
    "oz/ft²": "ounce/foot**2",
    "oz/yd²": "ounce/yard**2",
    "lb/ft²": "pound/foot**2",
    "day": "day",
    "week": "week",
    "h": "hour",
    "K·day": "kelvin*day",
    "°F·day": "delta_degF*day",
}
SI = {
    Kind.LENGTH: "meter",
    Kind.AREA: "meter**2",
    Kind.VOLUME: "meter**3",
    Kind.AREA_PER_LENGTH: "meter",
    Kind.THERMAL_RESISTANCE: "meter**2*kelvin/watt",
    Kind.TRANSMITTANCE: "watt/meter**2/kelvin",
    Kind.CONDUCTIVITY: "watt/meter/kelvin",
    Kind.PERMEANCE: "kilogram/pascal/second/meter**2",
    Kind.PERMEABILITY: "kilogram/pascal/second/meter",
    Kind.PRESSURE: "pascal",
    Kind.VAPOUR_PRESSURE: "pascal",
    Kind.AIR_PERMEANCE: "meter/second",
    Kind.AIR_CHANGE: "1/hour",
    Kind.FRACTION: "dimensionless",
    Kind.DENSITY: "kilogram/meter**3",
    Kind.AREA_MASS: "kilogram/meter**2",
    Kind.DURATION: "day",
    Kind.DEGREE_DAYS: "kelvin*day",
}
TEMPERATURES = (Kind.TEMPERATURE, Kind.TEMPERATURE_DIFFERENCE)
# The perm is kept at the six digits the standards print; every other factor to the digits of a float.
PRINTED = {"perm", "grain/(h·ft²·inHg)", "perm·in"}


@pytest.fixture(scope="module")
def registry() -> pint.UnitRegistry:
    ureg = pint.UnitRegistry()
    # pint has mercury and water but no inch of mercury at 32 °F under this name: 13595.1 kg/m³ × g × 1 inch.
    ureg.define("inch_Hg_32F = 25.4 * millimeter_Hg")
    # The conventional inch of water: 1000 kg/m³ × g × 1 inch.
    ureg.define("inch_water = 25.4 * kilogram / meter**2 * g_0")
    return ureg


def test_every_unit_has_an_outside_check():
    assert {unit.name for unit in UNITS if unit.kind not in TEMPERATURES} == {*PINT, "mu"}


@pytest.mark.parametrize(
    "unit",
    [u for u in UNITS if u.name in PINT and u.kind not in TEMPERATURES],
    ids=lambda u: f"{u.kind}:{u.name}",
)
def test_factor_agrees_with_pint(unit: Unit, registry: pint.UnitRegistry):
    outside = registry.Quantity(1.0, PINT[unit.name])
    expected = (1 / outside if unit.inverse else outside).to(SI[unit.kind]).magnitude
    assert unit.to_si(1.0) == pytest.approx(expected, rel=2e-6 if unit.name in PRINTED else 1e-8)


@pytest.mark.parametrize(("name", "pint_name"), [("°C", "degC"), ("°F", "degF"), ("K", "kelvin")])
def test_temperatures_agree_with_pint(name: str, pint_name: str, registry: pint.UnitRegistry):
    for number in (-40.0, 0.0, 32.0, 300.0):
        outside = registry.Quantity(number, pint_name).to("degC").magnitude
        assert unit_named(name, Kind.TEMPERATURE).to_si(number) == pytest.approx(outside, abs=1e-9)
        delta = (
            registry.Quantity(number, {"K": "kelvin"}.get(name, f"delta_{pint_name}")).to("kelvin").magnitude
        )
        assert unit_named(name, Kind.TEMPERATURE_DIFFERENCE).to_si(number) == pytest.approx(delta, abs=1e-9)


def test_minus_forty_is_one_temperature():
    # Common knowledge: the scales of Celsius and Fahrenheit meet at -40.
    assert unit_named("°F", Kind.TEMPERATURE).to_si(-40) == pytest.approx(-40.0)


@pytest.mark.parametrize(
    ("name", "kind", "printed"),
    [
        # NIST SP 811, appendix B.9 (memory).
        ("perm", Kind.PERMEANCE, 5.72135e-11),
        ("perm·in", Kind.PERMEABILITY, 1.45322e-12),
        ("h·ft²·°F/Btu", Kind.THERMAL_RESISTANCE, 0.1761102),
        ("Btu/(h·ft²·°F)", Kind.TRANSMITTANCE, 5.678263),
        ("Btu·in/(h·ft²·°F)", Kind.CONDUCTIVITY, 0.1442279),
        ("Btu/(h·ft·°F)", Kind.CONDUCTIVITY, 1.730735),
        ("psf", Kind.PRESSURE, 47.88026),
        ("inHg", Kind.PRESSURE, 3386.389),
        ("inH2O", Kind.PRESSURE, 249.0889),
        ("mmHg", Kind.PRESSURE, 133.3224),
        ("lb/ft³", Kind.DENSITY, 16.01846),
        ("oz/ft²", Kind.AREA_MASS, 0.3051517),
        ("oz/yd²", Kind.AREA_MASS, 0.03390575),
    ],
)
def test_factor_agrees_with_printed_table(name: str, kind: Kind, printed: float):
    digits = len(f"{printed:e}".split("e")[0].rstrip("0")) - 2
    assert unit_named(name, kind).to_si(1.0) == pytest.approx(printed, rel=10.0**-digits)


def test_perm_from_its_definition():
    # 1 grain/(h·ft²·inHg): grain 64.79891 mg, foot 0.3048 m, mercury 13595.1 kg/m³ at 0 °C, g 9.80665 m/s².
    inch_of_mercury = 13595.1 * 9.80665 * 0.0254
    assert pytest.approx(64.79891e-6 / (3600 * 0.3048**2 * inch_of_mercury), rel=1e-6) == PERM
    # At 23 °C mercury is lighter by its expansion, 1.818e-4 per kelvin (handbook value, memory).
    assert pytest.approx(1 + 1.818e-4 * 23, rel=1e-4) == PERM_23C / PERM


def test_metric_perm_against_the_us_perm():
    # 1 US perm = 0.659045 metric perm, read in a public note on units.
    assert PERM / unit_named("metric-perm", Kind.PERMEANCE).factor == pytest.approx(0.659045, rel=2e-6)


def test_uk_vapour_resistance_against_sd():
    # UK usage: air has 0.2 g·m/(MN·s), so 1 m of air is 5 MN·s/g.
    assert unit_named("MN·s/g", Kind.PERMEANCE).to_si(5.0) == pytest.approx(2.0e-10)


def test_every_unit_reads_under_its_own_name_and_names_its_source():
    assert all(unit.source for unit in UNITS)
    for unit in UNITS:
        if unit.name not in {"R", "RSI", "R/in", "mu"}:
            assert unit in units_by_signature()[signature(fold(unit.name))]


def test_no_spelling_means_two_units_of_one_kind():
    for units in units_by_signature().values():
        kinds = [unit.kind for unit in units]
        assert len(kinds) == len(set(kinds))


def test_unit_round_trip():
    for unit in UNITS:
        assert math.isclose(unit.from_si(unit.to_si(12.5)), 12.5, rel_tol=1e-12)


def test_unknown_name_is_a_lookup_error():
    with pytest.raises(LookupError):
        unit_named("furlong", Kind.LENGTH)


def test_every_kind_has_words_units_and_conventions():
    assert set(KINDS) == set(Kind)
    assert {unit.kind for unit in UNITS} == set(Kind)
    assert all(sentence.endswith(".") for sentence in CONVENTIONS)
    assert any("57.2135" in sentence for sentence in CONVENTIONS)
