"""Showing quantities: what a person sees, and that it reads back as what it was."""

import math
import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from speccheck.quantity import DELTA_AIR, PERM, Kind, parse, show, show_apart, show_sd

SHOWN = [
    # value, kind, both systems; the US figures are worked by hand from the exact factors
    (1.99, Kind.THERMAL_RESISTANCE, "R-11.3 (1.99 m²·K/W)"),
    (0.9 * PERM, Kind.PERMEANCE, "0.9 perm (51 ng/(Pa·s·m²))"),
    (11 * PERM, Kind.PERMEANCE, "11 perm (630 ng/(Pa·s·m²))"),
    (PERM * 0.0254, Kind.PERMEABILITY, "1 perm-in (1.5 ng/(Pa·s·m))"),
    (4.2, Kind.TEMPERATURE, "4.2 °C (39.6 °F)"),
    (-0.04, Kind.TEMPERATURE, "0 °C (31.9 °F)"),
    (-17.8, Kind.TEMPERATURE, "-17.8 °C (0 °F)"),
    (10.0, Kind.TEMPERATURE_DIFFERENCE, "10 K (18 °F)"),
    (0.0127, Kind.LENGTH, "12.7 mm (1/2 in)"),
    (0.14, Kind.LENGTH, "140 mm (5 1/2 in)"),
    (0.1397, Kind.LENGTH, "139.7 mm (5 1/2 in)"),
    (0.038, Kind.LENGTH, "38 mm (1 1/2 in)"),
    (0.089, Kind.LENGTH, "89 mm (3 1/2 in)"),
    (0.011, Kind.LENGTH, "11 mm (7/16 in)"),
    (0.019, Kind.LENGTH, "19 mm (3/4 in)"),
    (0.016, Kind.LENGTH, "16 mm (5/8 in)"),
    (0.012, Kind.LENGTH, "12 mm (15/32 in)"),
    (0.025, Kind.LENGTH, "25 mm (1 in)"),
    (0.406, Kind.LENGTH, "406 mm (16 in)"),
    (0.05, Kind.LENGTH, "50 mm (1.97 in)"),
    (0.002, Kind.LENGTH, "2 mm (0.0787 in)"),
    (0.00015, Kind.LENGTH, "0.15 mm (5.9 mil)"),
    (2.4384, Kind.LENGTH, "2.44 m (8 ft)"),
    (0.038, Kind.CONDUCTIVITY, "0.038 W/(m·K) (0.263 Btu·in/(h·ft²·°F))"),
    (0.35, Kind.TRANSMITTANCE, "0.35 W/(m²·K) (0.0616 Btu/(h·ft²·°F))"),
    (75.0, Kind.PRESSURE, "75 Pa (0.301 in w.g.)"),
    (2e-5, Kind.AIR_PERMEANCE, "0.02 L/(s·m²) (0.0039 cfm/ft²)"),
    (1.5, Kind.AIR_CHANGE, "1.5 ACH"),
    (0.35, Kind.FRACTION, "35 %"),
    (0.005, Kind.FRACTION, "0.5 %"),
    (0.625, "percent", "63 %"),
    (0.6666, "number", "0.667"),
    (0.0, "number", "0"),
    (123456.0, "number", "123000"),
    (1.0, Kind.DURATION, "1 day"),
    (30.0, Kind.DURATION, "30 days"),
    (3000.0, Kind.DEGREE_DAYS, "3000 K·day (5400 °F·day)"),
    (0.2, Kind.AREA_MASS, "200 g/m² (0.655 oz/ft²)"),
    (0.0083, Kind.AREA_MASS, "8.3 g/m² (0.0272 oz/ft²)"),
    (1.2, Kind.AREA_MASS, "1.2 kg/m² (3.93 oz/ft²)"),
    (8.0, Kind.AREA_MASS, "8 kg/m² (1.64 lb/ft²)"),
    (0.9996, Kind.AREA_MASS, "1 kg/m² (3.28 oz/ft²)"),
    (1250.0, Kind.VAPOUR_PRESSURE, "1250 Pa (0.369 inHg)"),
    (32.0, Kind.DENSITY, "32 kg/m³ (2 lb/ft³)"),
    (1.5e-3, Kind.AREA_PER_LENGTH, "1500 mm²/m (0.709 in²/ft)"),
    (120.0, Kind.AREA, "120 m² (1290 ft²)"),
    (450.0, Kind.VOLUME, "450 m³ (15900 ft³)"),
    (True, "bool", "yes"),
    (math.inf, Kind.PERMEANCE, "unlimited"),
    (math.nan, Kind.LENGTH, "not a number"),
]


@pytest.mark.parametrize(("value", "kind", "words"), SHOWN, ids=[f"{s[1]}-{s[0]}" for s in SHOWN])
def test_both_systems(value: float, kind: Kind | str, words: str):
    assert show(value, kind) == words
    assert show(value, str(kind)) == words


def test_one_system():
    assert show(1.99, Kind.THERMAL_RESISTANCE, "us") == "R-11.3"
    assert show(1.99, Kind.THERMAL_RESISTANCE, "si") == "1.99 m²·K/W"


def test_halves_round_away_from_zero_whatever_the_binary_form():
    # 0.25, 0.35 and 2.675 lie on different sides of the half in binary; a person sees one rule.
    assert show(0.25, Kind.TEMPERATURE, "si") == "0.3 °C"
    assert show(0.35, Kind.TEMPERATURE, "si") == "0.4 °C"
    assert show(-0.25, Kind.TEMPERATURE, "si") == "-0.3 °C"
    assert show(2.675, "number") == "2.68"


def test_sd():
    # sd = 2.0e-10 / permeance (ISO 13788 convention): 0.9 perm is 3.88 m of air.
    assert show_sd(0.9 * PERM) == "sd 3.9 m"
    assert show_sd(DELTA_AIR / 2) == "sd 2 m"
    assert show_sd(0.0) == "sd unlimited"


def test_values_beyond_their_limit_are_told_apart():
    assert show_apart(1.004 * PERM, PERM, Kind.PERMEANCE, "us") == ("1.004 perm", "1 perm")
    assert show_apart(PERM, PERM, Kind.PERMEANCE, "us") == ("1 perm", "1 perm")
    assert show_apart(2 * PERM, PERM, Kind.PERMEANCE, "us") == ("2 perm", "1 perm")


def test_unknown_kind_is_an_error():
    with pytest.raises(ValueError, match="no such kind"):
        show(1.0, "colour")


# Range of ordinary values per kind, and how far the shown digits may lie from the value: half a unit of the last digit.
ROUND_TRIP = {
    Kind.AREA: (1, 1e4, 0.005),
    Kind.VOLUME: (1, 1e4, 0.005),
    Kind.AREA_PER_LENGTH: (1e-5, 1e-1, 0.005),
    Kind.THERMAL_RESISTANCE: (0.01, 20, 0.005),
    Kind.TRANSMITTANCE: (0.05, 6, 0.005),
    Kind.CONDUCTIVITY: (0.01, 200, 0.005),
    Kind.PERMEANCE: (1e-14, 1e-8, 0.05),
    Kind.PERMEABILITY: (1e-14, 2e-10, 0.05),
    Kind.PRESSURE: (1, 1e5, 0.005),
    Kind.VAPOUR_PRESSURE: (400, 1e4, 0.005),
    Kind.AIR_PERMEANCE: (1e-7, 1e-2, 0.05),
    Kind.AIR_CHANGE: (0.1, 50, 0.05),
    Kind.DENSITY: (1, 1e4, 0.005),
    Kind.AREA_MASS: (0.01, 100, 0.005),
    Kind.DURATION: (1, 1e4, 0.005),
    Kind.DEGREE_DAYS: (10, 1e4, 0.0005),
    Kind.FRACTION: (0.1, 1, 0.05),
}


@pytest.mark.parametrize("system", ["us", "si"])
@pytest.mark.parametrize("kind", ROUND_TRIP)
@given(share=st.floats(0, 1))
def test_what_is_shown_reads_back(kind, system, share):
    low, high, tolerance = ROUND_TRIP[kind]
    value = low * (high / low) ** share
    assert parse(show(value, kind, system), kind).value == pytest.approx(value, rel=tolerance * 1.001)


@given(value=st.floats(-60, 100), system=st.sampled_from(["us", "si"]))
def test_a_temperature_shown_reads_back_to_a_tenth(value, system):
    assert parse(show(value, Kind.TEMPERATURE, system), Kind.TEMPERATURE).value == pytest.approx(
        value, abs=0.0501
    )


@given(value=st.floats(1e-5, 30), system=st.sampled_from(["us", "si"]))
def test_a_length_shown_reads_back(value, system):
    # Two significant digits below 1 mm (40 mil), three above; an inch fraction may lie 0.1 mm or 2.5 % off, whichever
    # is less; a nominal name such as 140 mm for 5 1/2 in half a millimetre.
    read = parse(show(value, Kind.LENGTH, system), Kind.LENGTH).value
    digits = 0.05 * value if value < 1.02e-3 else 0.005 * value
    nominal = 0.000501 if value > 0.009 else 0.0
    assert abs(read - value) <= max(digits, min(1.001e-4, 0.025 * value), nominal)


@given(st.floats(allow_nan=True, allow_infinity=True), st.sampled_from([*Kind, "number", "percent"]))
def test_no_value_breaks_the_writer(value, kind):
    words = show(value, kind)
    assert not re.search(r"(?<!R)-0(\.0*)?(?![.0-9])", words)
