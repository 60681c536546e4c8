"""Indoor climates by class, daily mean, set-point and measurement."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from speccheck.physics.indoor_climate import (
    by_daily_mean,
    by_humidity_class,
    by_set_point,
    excess_pressure,
    measured,
)
from speccheck.physics.psychrometrics import saturation_pressure

# The reference climate of the moisture tests (computed input): outdoor temperature, outdoor, class 2, class 3 pressures.
REFERENCE = [
    (-1.0, 477.7, 1071.7, 1368.7),
    (0.0, 512.8, 1106.8, 1403.8),
    (4.0, 634.0, 1109.2, 1346.8),
    (9.0, 826.2, 1152.9, 1316.2),
    (14.0, 1118.4, 1296.6, 1385.7),
    (18.0, 1485.2, 1544.6, 1574.3),
    (9.0, 952.4, 1279.1, 1442.4),
    (1.0, 577.6, 1141.9, 1424.1),
]


@pytest.mark.parametrize(("outside", "pressure", "second", "third"), REFERENCE)
def test_classes_of_the_reference_climate(outside, pressure, second, third):
    assert by_humidity_class(outside, pressure, 2).pressure == pytest.approx(second, abs=0.1)
    assert by_humidity_class(outside, pressure, 3).pressure == pytest.approx(third, abs=0.1)


def test_limits_of_the_classes():
    # ISO 13788:2012 annex A (memory, high confidence): 270, 540, 810, 1080 Pa up to 0 °C, none from 20 °C.
    assert [excess_pressure(0.0, humidity_class) for humidity_class in (1, 2, 3, 4)] == [270, 540, 810, 1080]
    assert excess_pressure(20.0, 4) == 0.0
    assert excess_pressure(10.0, 4) == 540.0


def test_class_five_must_be_declared():
    with pytest.raises(ValueError, match="declare it"):
        excess_pressure(0.0, 5)
    assert excess_pressure(0.0, 5, declared=1500.0) == 1500.0
    with pytest.raises(ValueError, match="no excess of its own"):
        excess_pressure(0.0, 6)


@given(st.floats(-40.0, 45.0), st.floats(0.0, 4000.0), st.sampled_from([1, 2, 3, 4]))
def test_indoor_air_never_holds_more_than_it_can(outside, pressure, humidity_class):
    room = by_humidity_class(outside, pressure, humidity_class)
    assert room.pressure <= saturation_pressure(20.0)
    assert room.capped == (
        pressure + 1.1 * excess_pressure(outside, humidity_class) > saturation_pressure(20.0)
    )


def test_a_humid_summer_month_is_capped_and_says_so():
    assert by_humidity_class(29.0, 2900.0, 2).capped
    assert not by_humidity_class(-5.0, 300.0, 4).capped


@pytest.mark.parametrize(
    ("outside", "occupancy", "temperature", "humidity"),
    [
        # EN 15026:2007 annex C (memory): 30 to 60 % normal, 40 to 70 % high; 20 °C to 25 °C.
        (-20.0, "normal", 20.0, 0.30),
        (-10.0, "normal", 20.0, 0.30),
        (5.0, "normal", 20.0, 0.45),
        (15.0, "normal", 22.5, 0.55),
        (30.0, "normal", 25.0, 0.60),
        (-10.0, "high", 20.0, 0.40),
        (20.0, "high", 25.0, 0.70),
    ],
)
def test_daily_mean_model(outside, occupancy, temperature, humidity):
    room = by_daily_mean(outside, occupancy, humidity_margin=0.0)
    assert room.temperature == temperature
    assert room.pressure / saturation_pressure(temperature) == pytest.approx(humidity)
    design = by_daily_mean(outside, occupancy)
    assert design.pressure / saturation_pressure(temperature) == pytest.approx(humidity + 0.05)


def test_set_points_and_measurements():
    # 20 °C and 50 % are 1168 Pa (DIN 4108-3 block climate, read).
    assert by_set_point(20.0, 0.5).pressure == pytest.approx(1168, abs=1)
    assert by_set_point(20.0, 0.5, 0.05).pressure == pytest.approx(0.55 * 2337.0, abs=1)
    assert by_set_point(20.0, 0.98, 0.05).capped
    year = measured([19.0] * 6 + [22.0] * 6, [0.4] * 12)
    assert len(year) == 12
    assert year[11].pressure == pytest.approx(0.4 * saturation_pressure(22.0))


@pytest.mark.parametrize(
    ("call", "words"),
    [
        (lambda: by_humidity_class(0.0, -1.0, 2), "outdoor vapour pressure"),
        (lambda: by_humidity_class(0.0, 500.0, 2, margin=0.9), "margin must be at least 1"),
        (lambda: by_daily_mean(0.0, "crowded"), "normal or high"),
        (lambda: by_daily_mean(0.0, "high", 0.5), "humidity margin"),
        (lambda: by_set_point(20.0, 1.2), "relative humidity"),
        (lambda: measured([20.0] * 11, [0.5] * 12), "twelve months, not 11 and 12"),
        (lambda: measured([20.0] * 12, [50.0] * 12), "relative humidity"),
    ],
)
def test_what_cannot_be_is_refused(call, words):
    with pytest.raises(ValueError, match=words):
        call()
