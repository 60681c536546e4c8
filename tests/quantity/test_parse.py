"""Reading quantities: patience with spelling, none with meaning."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from speccheck.quantity import DELTA_AIR, KINDS, PERM, Kind, Quantity, QuantityError, parse
from speccheck.quantity.units import UNITS

INCH = 0.0254
R = 0.1761101838

SPELLINGS = [
    # length; inch 25.4 mm (international agreement, 1959)
    (Kind.LENGTH, 0.0127, ["12.7 mm", "12.7mm", "1.27 cm", "0.0127 m", ".0127 m", "1/2 in", "0.5 in.", '1/2"', "½ in", "½″",
                           "1/2 inch", "0.5 inches", "1/2-in", "500 mil", "1.27e1 mm", "1.27E+1 mm", "12.7 millimetres", "12.7 MM", "+12.7 mm"]),
    (Kind.LENGTH, 0.1397, ["5 1/2 in", "5-1/2 in", "5½ in", "5½″", "5.5 in", '5 1/2"', "139.7 mm", "5.5 IN"]),
    (Kind.LENGTH, 66.5 * INCH, ["5' 6 1/2\"", "5 ft 6 1/2 in", "5'-6 1/2\"", "5ft 6.5in", "5′ 6½″"]),
    (Kind.LENGTH, 0.6096, ["2 ft", "2 feet", "2'", "24 in"]),
    (Kind.THERMAL_RESISTANCE, 23 * R, ["R-23", "R23", "R 23", "r-23", "R-value 23", "R = 23", "R: 23", "23 h·ft²·°F/Btu", "23 h ft2 F/Btu",
                                       "23 hr·ft2·degF/BTU", "23 (h·ft²·°F)/Btu", "23 ft²·h·°F/Btu", "23 h*ft^2*F/Btu", "23 ft²-h-°F/Btu",
                                       "23 hr sq ft F/Btu", "R-23 h·ft²·°F/Btu", "R‑23"]),
    (Kind.THERMAL_RESISTANCE, 4.05, ["RSI 4.05", "RSI-4.05", "RSI4.05", "rsi 4.05", "4.05 m²·K/W", "4.05 m2K/W", "4.05 m².K/W", "4.05 K·m²/W",
                                     "4.05 m2 K / W", "4.05 m²·°C/W", "R 4.05 m²·K/W", "4.05 m²KW⁻¹"]),
    (Kind.TRANSMITTANCE, 0.35, ["0.35 W/(m²·K)", "0.35 W/m²K", "0.35 W/m2-K", "U 0.35 W/(m2·K)", "U-0.35 W/(m²K)", "0.35 W·m⁻²·K⁻¹"]),
    (Kind.CONDUCTIVITY, 0.038, ["0.038 W/(m·K)", "0.038 W/mK", "0.038 W/m·K", "0.038 W/m/K", "0.038 W m-1 K-1", "38 mW/(m·K)", "0.038 W·m⁻¹·K⁻¹"]),
    (Kind.CONDUCTIVITY, 0.1442279 / 3.8, ["R-3.8/in", "R-3.8 per inch", "R3.8/in.", "R 3.8 / inch", "3.8 h·ft²·°F/(Btu·in)"]),
    (Kind.CONDUCTIVITY, 0.26 * 0.1442279, ["0.26 Btu·in/(h·ft²·°F)", "0.26 Btu-in/h-ft2-F", "0.26 BTU in / hr ft² °F"]),
    (Kind.PERMEANCE, 0.9 * PERM, ["0.9 perm", "0.9 perms", "0.9 US perm", "0.9 U.S. perms", "0.9 Perm", "0.9 grains/(h·ft²·inHg)", "0.9 gr/(hr ft2 in Hg)"]),
    (Kind.PERMEANCE, 60e-12, ["60 ng/(Pa·s·m²)", "60 ng/Pa·s·m²", "60 ng/(Pa s m2)", "60 ng/(m²·s·Pa)", "60 ng·Pa⁻¹·s⁻¹·m⁻²",
                              "6e-11 kg/(m²·s·Pa)", "6×10⁻¹¹ kg/(m²·s·Pa)", "6 x 10^-11 kg/(m2 s Pa)"]),
    (Kind.PERMEANCE, 1e-10, ["sd 2 m", "Sd = 2 m", "s_d 2 m", "sd 2000 mm", "2 m sd", "2 m (sd)", "sd: 2 m", "10 MN·s/g", "10 MN s/g", "10 GPa·s·m²/kg"]),
    (Kind.PERMEANCE, PERM, ["0.659045 metric perm", "0.659045 metric perms", "0.659045 g/(24h·m²·mmHg)", "0.659045 g/m²/day/mmHg"]),
    (Kind.PERMEABILITY, PERM * INCH, ["1 perm-in", "1 perm·inch", "1 perm in", "1 perm-inch", "1 perm.in"]),
    (Kind.PERMEABILITY, 4e-12, ["mu 50", "µ 50", "μ = 50", "mu=50", "4 ng/(Pa·s·m)", "4e-12 kg/(m·s·Pa)"]),
    (Kind.TEMPERATURE, 21.0, ["21 °C", "21°C", "21 C", "21 degC", "21 deg C", "21 ℃", "69.8 °F", "69.8 F", "294.15 K"]),
    (Kind.TEMPERATURE, -5.0, ["-5 °C", "−5 °C", "- 5 °C", "23 °F"]),
    (Kind.TEMPERATURE_DIFFERENCE, 10.0, ["10 K", "18 °F", "10 °C"]),
    (Kind.PRESSURE, 75.0, ["75 Pa", "0.075 kPa", "0.75 hPa", "75 pascals"]),
    (Kind.AIR_PERMEANCE, 2e-5, ["0.02 L/(s·m²)", "0.02 l/s·m²", "0.02 L/s/m2", "0.072 m³/(h·m²)", "2e-5 m³/(s·m²)"]),
    (Kind.AIR_PERMEANCE, 0.004 * 0.3048 / 60, ["0.004 cfm/ft²", "0.004 cfm/sf", "0.004 CFM/sq. ft.", "0.004 cfm per ft2", "0.004 ft³/min/ft²"]),
    (Kind.AIR_CHANGE, 1.5, ["1.5 ACH", "1.5 ach", "1.5 1/h", "1.5 /h", "1.5 h-1", "1.5 h⁻¹", "1.5/h"]),
    (Kind.FRACTION, 0.35, ["35 %", "35%", "35 percent", "0.35", ".35"]),
    (Kind.DENSITY, 2 * 16.01846337, ["2 lb/ft³", "2 pcf", "2 lb/cu ft", "2 lbs/ft3"]),
    (Kind.AREA_MASS, 0.2, ["200 g/m²", "200 gsm", "0.2 kg/m2"]),
    (Kind.AREA, 1.0, ["1 m²", "1 m2", "1 sq m", "1 m^2", "1 square metre"]),
    (Kind.VOLUME, 0.028316846592, ["1 ft³", "1 cu ft", "1 cubic foot", "28.316846592 L"]),
    (Kind.AREA_PER_LENGTH, 1.5e-3, ["1500 mm²/m", "15 cm2/m"]),
    (Kind.DURATION, 28.0, ["28 days", "28 d", "4 weeks", "672 h"]),
    (Kind.DEGREE_DAYS, 3000.0, ["3000 K·day", "3000 K·d", "3000 °C·days", "5400 °F·day", "5400 F days"]),
]  # fmt: skip


@pytest.mark.parametrize(
    ("kind", "si", "text"), [(kind, si, text) for kind, si, texts in SPELLINGS for text in texts], ids=str
)
def test_spelling(kind: Kind, si: float, text: str):
    read = parse(text, kind)
    assert read.value == pytest.approx(si, rel=2e-7)
    assert (read.kind, read.text) == (kind, text)


@pytest.mark.parametrize(
    ("text", "kind", "pressure"),
    [
        ("0.02 L/(s·m²) at 75 Pa", Kind.AIR_PERMEANCE, 75.0),
        ("0.02 L/(s·m²) @ 75 Pa", Kind.AIR_PERMEANCE, 75.0),
        ("0.02 L/(s·m²)@75Pa", Kind.AIR_PERMEANCE, 75.0),
        # ASTM test standards print 75 Pa beside 0.3 in w.g. and 1.57 psf (memory).
        ("0.004 cfm/ft² at 0.3 in w.g.", Kind.AIR_PERMEANCE, 75.0),
        ("0.004 cfm/ft² at 0.30 in. w.c.", Kind.AIR_PERMEANCE, 75.0),
        ("0.004 cfm/ft² at 1.57 psf", Kind.AIR_PERMEANCE, 75.0),
        ("0.004 cfm/ft² at 1.57 lbf/ft²", Kind.AIR_PERMEANCE, 75.0),
        ("0.06 cfm/ft² at 6.24 psf", Kind.AIR_PERMEANCE, 300.0),
        ("0.3 cfm75/ft2", Kind.AIR_PERMEANCE, 75.0),
        ("q50 3 m³/(h·m²)", Kind.AIR_PERMEANCE, 50.0),
        ("0.02 L/(s·m²)", Kind.AIR_PERMEANCE, None),
        ("1.5 ACH50", Kind.AIR_CHANGE, 50.0),
        ("1.5 ACH 50", Kind.AIR_CHANGE, 50.0),
        ("1.5 ACH at 50 Pa", Kind.AIR_CHANGE, 50.0),
        ("1.5 ACH50 at 50 Pa", Kind.AIR_CHANGE, 50.0),
        ("ACH50 = 1.5", Kind.AIR_CHANGE, 50.0),
        ("n50 0.6 1/h", Kind.AIR_CHANGE, 50.0),
        ("0.6 1/h at 50 Pa", Kind.AIR_CHANGE, 50.0),
        ("0.6 1/h at 4 Pa", Kind.AIR_CHANGE, 4.0),
        ("0.35 ACH", Kind.AIR_CHANGE, None),
    ],
)
def test_reference_pressure_is_kept(text: str, kind: Kind, pressure: float | None):
    assert parse(text, kind).reference_pressure == pressure


def test_a_pressure_off_the_test_pressures_is_not_rounded():
    assert parse("1 cfm/ft² at 1 psf", Kind.AIR_PERMEANCE).reference_pressure == pytest.approx(47.88026)
    assert parse("1 L/(s·m²) at 74.9 Pa", Kind.AIR_PERMEANCE).reference_pressure == 74.9


REFUSED = [
    # text, kind, part of `what`, part of `do`
    ("12.7", Kind.LENGTH, "has no unit", "12.7 mm"),
    (12.7, Kind.LENGTH, "has no unit", "12.7 mm"),
    (0, Kind.PERMEANCE, "has no unit", "perm"),
    (True, Kind.FRACTION, "is a yes or no", "number"),
    (float("nan"), Kind.FRACTION, "not a finite", "number"),
    ("12,7 mm", Kind.LENGTH, "comma", "decimal point"),
    ("1,000 Pa", Kind.PRESSURE, "comma", "thousands"),
    ("1 000 mm", Kind.LENGTH, "space inside the number", "together"),
    ("nan mm", Kind.LENGTH, "not a finite number", "leave the line out"),
    ("inf perm", Kind.PERMEANCE, "not a finite number", "leave the line out"),
    ("1e999 mm", Kind.LENGTH, "too large", "ordinary"),
    ("1e308 ft", Kind.AREA, "is a length", "area"),
    ("", Kind.LENGTH, "empty", "leave the line out"),
    ("   ", Kind.LENGTH, "empty", "leave the line out"),
    ("unknown", Kind.LENGTH, "does not begin with a number", "number"),
    ("< 0.1 perm", Kind.PERMEANCE, "bound", "one value"),
    ("≤ 0.1 perm", Kind.PERMEANCE, "bound", "one value"),
    ("max 0.1 perm", Kind.PERMEANCE, "bound", "one value"),
    ("1-2 perm", Kind.PERMEANCE, "range", "one value"),
    ("1 to 2 perm", Kind.PERMEANCE, "range", "one value"),
    ("1/0 in", Kind.LENGTH, "divides by zero", "again"),
    ("2 x 100 mm", Kind.LENGTH, "not a unit", "units"),
    ("5 wombats", Kind.LENGTH, "'wombats'", "units"),
    ("R-13 + R-5", Kind.THERMAL_RESISTANCE, "not a unit", "units"),
    ("RSI 4 h·ft²·°F/Btu", Kind.THERMAL_RESISTANCE, "not a unit", "units"),
    ("5 mN·s/g", Kind.PERMEANCE, "not a unit", "units"),
    ("5 W/(m·K", Kind.CONDUCTIVITY, "not a unit", "units"),
    ("5 (W/m)·K", Kind.CONDUCTIVITY, "not a unit", "units"),
    ("2 m", Kind.PERMEANCE, "is a length", "sd 2 m"),
    ("1 perm-in", Kind.PERMEANCE, "is a vapour permeability", "for the stuff"),
    ("1 perm", Kind.PERMEABILITY, "is a vapour permeance", "for the sheet"),
    ("sd 2 m", Kind.LENGTH, "is a vapour permeance", "12.7 mm"),
    ("mu 50", Kind.PERMEANCE, "is a vapour permeability", "divide by the thickness"),
    ("12 g/(m²·day)", Kind.PERMEANCE, "cannot stand for a vapour permeance", "transmission rate"),
    ("12 g/m2/24h", Kind.PERMEANCE, "cannot stand for a vapour permeance", "transmission rate"),
    ("R-13", Kind.CONDUCTIVITY, "is a thermal resistance", "per thickness"),
    ("R-3.8/in", Kind.THERMAL_RESISTANCE, "is a thermal conductivity", "whole layer"),
    ("0.35 W/(m²·K)", Kind.THERMAL_RESISTANCE, "is a thermal transmittance", "reciprocal"),
    ("21 °C", Kind.LENGTH, "is a temperature", "length"),
    ("-300 °C", Kind.TEMPERATURE, "absolute zero", "sign"),
    ("sd 0 m", Kind.PERMEANCE, "no reciprocal", "leave the layer out"),
    ("mu 0", Kind.PERMEABILITY, "no reciprocal", "leave"),
    ("0.9 perm at 50 %", Kind.PERMEANCE, "test condition", "evidence"),
    ("1.5 ACH50 at 75 Pa", Kind.AIR_CHANGE, "two different pressures", "once"),
    ("1.5 ACH at 50", Kind.AIR_CHANGE, "has no unit", "75 Pa"),
    ("1.5 ACH at 0 Pa", Kind.AIR_CHANGE, "not above zero", "again"),
    ("1.5 ACH at -50 Pa", Kind.AIR_CHANGE, "not above zero", "again"),
    ("6 months", Kind.DURATION, "cannot stand for a duration", "days"),
    ("1 m " * 60, Kind.LENGTH, "too long", "one number"),
    ("5 mm\x1b[31m", Kind.LENGTH, "�[31m", "units"),
]


@pytest.mark.parametrize(
    ("text", "kind", "what", "do"), REFUSED, ids=[f"{r[0]!r:.30}-{r[1]}" for r in REFUSED]
)
def test_refused_with_reason(text: str | float, kind: Kind, what: str, do: str):
    with pytest.raises(QuantityError) as caught:
        parse(text, kind)
    assert what in caught.value.what
    assert do in caught.value.do
    assert caught.value.expected
    assert str(caught.value).isprintable()


def test_a_bare_number_error_names_the_units_that_fit():
    with pytest.raises(QuantityError) as caught:
        parse("23", Kind.THERMAL_RESISTANCE)
    assert all(form in str(caught.value) for form in ("R-23", "RSI 4.05", "m²·K/W", "h·ft²·°F/Btu"))


@pytest.mark.parametrize("kind", Kind)
def test_every_example_shown_in_messages_is_read(kind: Kind):
    for example in KINDS[kind].examples:
        assert parse(example, kind).kind is kind


def test_zero_celsius_is_not_nothing():
    assert parse("0 °C", Kind.TEMPERATURE).value == 0.0
    assert parse("32 °F", Kind.TEMPERATURE).value == pytest.approx(0.0, abs=1e-12)


def test_plain_numbers_are_fractions_only():
    assert parse(0.35, Kind.FRACTION) == Quantity(0.35, Kind.FRACTION, "0.35", "1")
    assert parse(1, Kind.FRACTION).value == 1.0


@given(st.sampled_from([u for u in UNITS if u.name not in {"R", "RSI", "R/in", "mu"}]), st.floats(1e-6, 1e6))
def test_any_number_in_any_unit_reads_as_the_factor_says(unit, number):
    read = parse(f"{number!r} {unit.name}", unit.kind)
    assert math.isclose(read.value, unit.to_si(number), rel_tol=1e-12)


@given(st.floats(0.01, 1e4))
def test_sd_and_permeance_are_reciprocal(metres):
    assert math.isclose(parse(f"sd {metres!r} m", Kind.PERMEANCE).value * metres, DELTA_AIR, rel_tol=1e-12)


def read_or_refused(text: str, kind: Kind) -> bool:
    """Tell whether a text gave a finite value or an error with all its words, fit for a terminal."""
    try:
        return math.isfinite(parse(text, kind).value)
    except QuantityError as error:
        return all((error.what, error.expected, error.do)) and str(error).isprintable()


@given(st.text(max_size=140), st.sampled_from(list(Kind)))
def test_no_text_does_anything_but_read_or_be_refused(text, kind):
    assert read_or_refused(text, kind)


@given(
    st.lists(st.sampled_from(["R", "-", "1", "/", "2", " ", "½", "in", "m", "²", "sd", "mu", "ACH50", "at", "75 Pa", "perm", "e", ".", "(", ")", "·", "%", "°", "F", "x10^", "per", "'", '"'])),
    st.sampled_from(list(Kind)),
)  # fmt: skip
def test_no_mixture_of_known_pieces_breaks_the_reader(pieces, kind):
    assert read_or_refused("".join(pieces), kind)
