"""Surface humidity, the temperature factor required and the indoor humidity a surface is good for."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from speccheck.physics.heat import surface_temperature
from speccheck.physics.psychrometrics import vapour_pressure
from speccheck.physics.surface import (
    MOULD_HUMIDITY,
    highest_indoor_humidity,
    minimum_surface_temperature,
    required_temperature_factor,
    surface_humidity,
)

INDOORS = vapour_pressure(20.0, 0.5)


def test_german_boundary_conditions():
    # DIN 4108-2 as worked by a building surveyor and two more pages (read): 20 °C/50 %, -5 °C, 80 % give 12.6 °C, 0.70;
    # the same air's dew point is 9.3 °C.
    assert minimum_surface_temperature(INDOORS) == pytest.approx(12.6, abs=0.05)
    assert required_temperature_factor(20.0, -5.0, INDOORS) == pytest.approx(0.704, abs=0.0015)
    assert minimum_surface_temperature(INDOORS, 1.0) == pytest.approx(9.3, abs=0.05)
    # Negative control: the round 0.70 itself gives 12.5 °C and a little over 80 %.
    assert surface_humidity(surface_temperature(0.70, 20.0, -5.0), INDOORS) > MOULD_HUMIDITY


# A German textbook on building physics, sect. 3.2 (read): indoor humidity two thermal bridges are good for.
@pytest.mark.parametrize(("factor", "percent"), [(0.56, 40.0), (0.48, 34.0)])
def test_humidity_a_bridge_is_good_for(factor, percent):
    assert 100 * highest_indoor_humidity(factor, 20.0, -5.0) == pytest.approx(percent, abs=1.0)


def test_single_pane_without_frost():
    # A heat-transfer textbook, example 3-2: a pane at -2.18 °C bears 21.8 % indoors (computed).
    factor = (-2.18 + 10.0) / 30.0
    assert highest_indoor_humidity(factor, 20.0, -10.0, 1.0) == pytest.approx(0.218, abs=0.002)


# Design temperature factors by humidity class for one made-up climate (computed apart from this code: regression).
@pytest.mark.parametrize(
    ("outside", "indoors", "factor"),
    [
        (1.0, 1141.9, 0.593),
        (0.0, 1403.8, 0.773),
        (-1.0, 1368.7, 0.765),
        (4.0, 1346.8, 0.676),
        (9.0, 1316.2, 0.496),
        (9.0, 1442.4, 0.625),
        (4.0, 1428.1, 0.733),
        (1.0, 1424.1, 0.772),
    ],
)
def test_factor_by_month(outside, indoors, factor):
    assert required_temperature_factor(20.0, outside, indoors) == pytest.approx(factor, abs=0.001)


@given(st.floats(0.2, 0.75), st.floats(-25, 10))
def test_required_factor_and_highest_humidity_are_one_question(humidity, outside):
    factor = required_temperature_factor(20.0, outside, vapour_pressure(20.0, humidity))
    if factor >= 0.0:
        assert highest_indoor_humidity(factor, 20.0, outside) == pytest.approx(humidity, rel=1e-9)


@given(st.floats(0, 1), st.floats(0, 1))
def test_a_warmer_surface_bears_more(one, other):
    poor, good = sorted((one, other))
    assert highest_indoor_humidity(poor, 20.0, -10.0) <= highest_indoor_humidity(good, 20.0, -10.0)


def test_air_too_humid_for_any_surface():
    assert required_temperature_factor(20.0, 0.0, vapour_pressure(20.0, 0.9)) > 1.0


def test_dry_air_asks_for_nothing():
    assert required_temperature_factor(20.0, 10.0, vapour_pressure(20.0, 0.2)) < 0.0


def test_highest_humidity_is_capped():
    assert highest_indoor_humidity(0.0, 20.0, 30.0) == 1.0


@pytest.mark.parametrize(
    ("function", "arguments"),
    [
        (minimum_surface_temperature, (1000.0, 0.0)),
        (minimum_surface_temperature, (1000.0, 1.1)),
        (minimum_surface_temperature, (0.0, 0.8)),
        (required_temperature_factor, (20.0, 20.0, 1000.0)),
        (highest_indoor_humidity, (0.7, 20.0, 0.0, 1.5)),
        (highest_indoor_humidity, (1.7, 20.0, 0.0)),
    ],
)
def test_impossible_surfaces_are_refused(function, arguments):
    with pytest.raises(ValueError, match="must"):
        function(*arguments)
