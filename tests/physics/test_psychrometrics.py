"""Saturation, dew point, relative humidity and vapour concentration against tables and three libraries."""

import CoolProp.CoolProp as CoolProp
import psychrolib
import pytest
from hypothesis import given
from hypothesis import strategies as st
from iapws._iapws import _Sublimation_Pressure
from iapws.iapws97 import _PSat_T

from speccheck.physics.psychrometrics import (
    SATURATION_PRESSURE_AT_ZERO,
    dew_point,
    relative_humidity,
    saturation_pressure,
    vapour_concentration,
    vapour_pressure,
)

temperatures = st.floats(-100.0, 100.0)

# How far the ISO 13788 constants lie from the IAPWS formulations, band by band: (from, to, tolerance).
ISO_ACCURACY = [(-40, -30, 0.020), (-30, -20, 0.011), (-20, 0, 0.006), (0, 30, 0.0015), (30, 50, 0.002)]


# DIN 4108-3 table as reproduced in a German building handbook, table 17.24 (read); tolerance 0.3 %.
@pytest.mark.parametrize(
    ("temperature", "pressure"),
    [
        (30, 4244),
        (25, 3169),
        (20, 2340),
        (15, 1706),
        (10, 1228),
        (5, 872),
        (0, 611),
        (-5, 401),
        (-10, 260),
        (-15, 165),
        (-20, 103),
    ],
)
def test_din_table(temperature, pressure):
    assert saturation_pressure(temperature) == pytest.approx(pressure, rel=0.003)


# The same table from the ISO 13788 equations, computed apart from this code (regression, not evidence).
@pytest.mark.parametrize(
    ("temperature", "pressure"),
    [
        (30, 4240.5),
        (25, 3165.9),
        (20, 2337.0),
        (15, 1704.4),
        (10, 1227.3),
        (5, 871.9),
        (0, 610.5),
        (-5, 401.2),
        (-10, 259.3),
        (-15, 164.7),
        (-20, 102.7),
    ],
)
def test_iso_equations(temperature, pressure):
    assert saturation_pressure(temperature) == pytest.approx(pressure, abs=0.06)


# ASHRAE Fundamentals 2017 ch. 1 table 3 as quoted in an open psychrometrics test file (read). The tolerance is the
# accuracy of the ISO constants, not of the table.
@pytest.mark.parametrize(
    ("temperature", "pressure", "tolerance"),
    [(-20, 103.24, 0.006), (-5, 401.74, 0.006), (5, 872.6, 0.002), (25, 3169.7, 0.002), (50, 12351.3, 0.002)],
)
def test_ashrae_table(temperature, pressure, tolerance):
    assert saturation_pressure(temperature) == pytest.approx(pressure, rel=tolerance)


# ASHRAE Fundamentals 1993-2005 ch. 6 table 3 as quoted in an open test file (read).
@pytest.mark.parametrize(("temperature", "pressure"), [(-10, 259.9), (5, 872.5), (20, 2338.8)])
def test_older_ashrae_table(temperature, pressure):
    assert saturation_pressure(temperature) == pytest.approx(pressure, rel=0.003)


def test_the_oracle_itself():
    # IAPWS R14-08 and IF97 verification values (230 K and 500 K read in the library's documentation, 300 K memory).
    assert _Sublimation_Pressure(230.0) * 1e6 == pytest.approx(8.94735, rel=1e-6)
    assert _PSat_T(300.0) == pytest.approx(0.353658941e-2, rel=1e-8)
    assert _PSat_T(500.0) == pytest.approx(0.263889776e1, rel=1e-8)


@pytest.mark.parametrize(("low", "high", "tolerance"), ISO_ACCURACY)
def test_accuracy_against_iapws(low, high, tolerance):
    for temperature in range(low, high + 1):
        kelvin = temperature + 273.15
        true = (_PSat_T(kelvin) if temperature >= 0 else _Sublimation_Pressure(kelvin)) * 1e6
        assert saturation_pressure(temperature) == pytest.approx(true, rel=tolerance)


@pytest.mark.parametrize(("low", "high", "tolerance"), ISO_ACCURACY)
def test_accuracy_against_psychrolib(low, high, tolerance):
    psychrolib.SetUnitSystem(psychrolib.SI)
    for temperature in range(low, high + 1):
        assert saturation_pressure(temperature) == pytest.approx(
            psychrolib.GetSatVapPres(temperature), rel=tolerance
        )


@pytest.mark.parametrize("temperature", [0.5, 5.0, 10.0, 20.0, 30.0, 50.0])
def test_accuracy_against_coolprop(temperature):
    true = CoolProp.PropsSI("P", "T", temperature + 273.15, "Q", 0, "Water")
    assert saturation_pressure(temperature) == pytest.approx(true, rel=0.002)


def test_ice_not_supercooled_water_below_zero():
    # Negative control: water at -11.3 °C would give 258 Pa, ice gives 232 Pa (IAPWS); a heat-transfer textbook
    # (example 14-6, read) uses 234 Pa, ice too.
    assert saturation_pressure(-11.3) == pytest.approx(232.0, rel=0.006)


# Dew points in air at 18 to 24 °C: three libraries agree within 0.01 K (computed); anchors 20 °C/50 % 9.3 °C and
# 70 °F/50 % 50 °F (read, a surveyor's page and a trade journal).
@pytest.mark.parametrize(
    ("temperature", "dew_points"),
    [
        (18, (-2.04, 0.18, 2.33, 4.21, 7.43, 10.13)),
        (20, (-0.53, 1.92, 4.09, 6.01, 9.27, 12.01)),
        (21, (0.24, 2.78, 4.97, 6.90, 10.19, 12.95)),
        (22, (1.09, 3.65, 5.85, 7.79, 11.11, 13.89)),
        (24, (2.78, 5.38, 7.61, 9.58, 12.95, 15.76)),
    ],
)
def test_dew_point_matrix(temperature, dew_points):
    for humidity, expected in zip((0.25, 0.30, 0.35, 0.40, 0.50, 0.60), dew_points, strict=True):
        assert dew_point(vapour_pressure(temperature, humidity)) == pytest.approx(expected, abs=0.02)


def test_dew_point_anchors():
    assert dew_point(vapour_pressure(20.0, 0.5)) == pytest.approx(9.3, abs=0.05)
    fahrenheit = dew_point(vapour_pressure((70.0 - 32.0) / 1.8, 0.5)) * 1.8 + 32.0
    assert fahrenheit == pytest.approx(50.0, abs=1.0)


def test_handbook_state():
    # ASHRAE Fundamentals 2017 ch. 1 example 1 (read in an open test file): 40 °C dry bulb, 20 °C wet bulb; the chart
    # gives 14 % and a dew point of 7 °C. Humidity ratio 0.0065 at 101325 Pa.
    pressure = 101325.0 * 0.0065 / (0.621945 + 0.0065)
    assert dew_point(pressure) == pytest.approx(7.0, abs=0.7)
    assert relative_humidity(40.0, pressure) == pytest.approx(0.14, abs=0.01)


# SBi guideline 224, annex A table 23 (read); tolerance 0.3 % there, here widened by the ISO constants at -20 °C.
@pytest.mark.parametrize(
    ("temperature", "pressure", "grams"),
    [(-20, 103.5, 0.886), (-19, 113.9, 0.971), (-18, 125.2, 1.063), (31, 4492, 32.0), (32, 4755, 33.76)],
)
def test_vapour_concentration_at_saturation(temperature, pressure, grams):
    assert vapour_concentration(temperature, pressure) * 1000 == pytest.approx(grams, rel=0.001)
    assert saturation_pressure(temperature) == pytest.approx(pressure, rel=0.008)


def test_branches_meet_at_zero():
    assert saturation_pressure(0.0) == SATURATION_PRESSURE_AT_ZERO
    assert saturation_pressure(-1e-9) == pytest.approx(SATURATION_PRESSURE_AT_ZERO, rel=1e-9)
    assert dew_point(SATURATION_PRESSURE_AT_ZERO) == 0.0


@given(temperatures)
def test_dew_point_inverts_saturation(temperature):
    assert dew_point(saturation_pressure(temperature)) == pytest.approx(temperature, abs=1e-9)


@given(temperatures, temperatures)
def test_saturation_rises_with_temperature(one, other):
    assert (one <= other) or saturation_pressure(one) >= saturation_pressure(other)


@given(st.floats(-40.0, 40.0), st.floats(0.01, 1.0))
def test_relative_humidity_inverts_vapour_pressure(temperature, humidity):
    pressure = vapour_pressure(temperature, humidity)
    assert relative_humidity(temperature, pressure) == pytest.approx(humidity, rel=1e-12)
    assert dew_point(pressure) <= temperature + 1e-9


def test_supersaturation_is_told_not_hidden():
    assert relative_humidity(0.0, vapour_pressure(20.0, 0.5)) > 1.0


@pytest.mark.parametrize(
    ("function", "arguments"),
    [
        (saturation_pressure, (-101.0,)),
        (saturation_pressure, (float("nan"),)),
        (dew_point, (0.0,)),
        (dew_point, (-5.0,)),
        (dew_point, (1e9,)),
        (dew_point, (1e-12,)),
        (vapour_pressure, (20.0, 1.2)),
        (vapour_pressure, (20.0, -0.1)),
        (relative_humidity, (20.0, -1.0)),
        (vapour_concentration, (-300.0, 100.0)),
    ],
)
def test_impossible_air_is_refused(function, arguments):
    with pytest.raises(ValueError, match=r"must|has no dew point"):
        function(*arguments)
