"""Equilibrium moisture content against the Wood Handbook, its inverse, and the gain from condensate."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from speccheck.physics.wood import (
    equilibrium_moisture_content,
    humidity_for_moisture_content,
    moisture_gain,
)

HUMIDITIES = range(5, 100, 5)

# Wood Handbook FPL-GTR-190 (2010), table 4-2, in percent at 5 to 95 % relative humidity, by °F. Rows of 30, 70, 90 and
# 140 °F read; 40, 50, 60 and 80 °F memory (a reading of all eight gave the largest deviations that stand beside them).
TABLE = {
    30: (
        0.051,
        [
            1.4,
            2.6,
            3.7,
            4.6,
            5.5,
            6.3,
            7.1,
            7.9,
            8.7,
            9.5,
            10.4,
            11.3,
            12.4,
            13.5,
            14.9,
            16.5,
            18.5,
            21.0,
            24.3,
        ],
    ),
    40: (
        0.049,
        [
            1.4,
            2.6,
            3.7,
            4.6,
            5.5,
            6.3,
            7.1,
            7.9,
            8.7,
            9.5,
            10.4,
            11.3,
            12.3,
            13.5,
            14.9,
            16.5,
            18.5,
            21.0,
            24.3,
        ],
    ),
    50: (
        0.044,
        [
            1.4,
            2.6,
            3.6,
            4.6,
            5.5,
            6.3,
            7.1,
            7.9,
            8.7,
            9.5,
            10.3,
            11.2,
            12.3,
            13.4,
            14.8,
            16.4,
            18.4,
            20.9,
            24.3,
        ],
    ),
    60: (
        0.052,
        [
            1.3,
            2.5,
            3.6,
            4.6,
            5.4,
            6.2,
            7.0,
            7.8,
            8.6,
            9.4,
            10.2,
            11.1,
            12.1,
            13.3,
            14.6,
            16.2,
            18.2,
            20.7,
            24.1,
        ],
    ),
    70: (
        0.052,
        [
            1.3,
            2.5,
            3.5,
            4.5,
            5.4,
            6.2,
            6.9,
            7.7,
            8.5,
            9.2,
            10.1,
            11.0,
            12.0,
            13.1,
            14.4,
            16.0,
            17.9,
            20.5,
            23.9,
        ],
    ),
    80: (
        0.047,
        [
            1.3,
            2.4,
            3.5,
            4.4,
            5.3,
            6.1,
            6.8,
            7.6,
            8.3,
            9.1,
            9.9,
            10.8,
            11.7,
            12.9,
            14.2,
            15.7,
            17.7,
            20.2,
            23.6,
        ],
    ),
    90: (
        0.052,
        [
            1.2,
            2.3,
            3.4,
            4.3,
            5.1,
            5.9,
            6.7,
            7.4,
            8.1,
            8.9,
            9.7,
            10.5,
            11.5,
            12.6,
            13.9,
            15.4,
            17.3,
            19.8,
            23.3,
        ],
    ),
    140: (
        0.047,
        [
            0.9,
            1.9,
            2.8,
            3.6,
            4.3,
            5.0,
            5.7,
            6.3,
            7.0,
            7.7,
            8.4,
            9.1,
            10.0,
            11.0,
            12.1,
            13.6,
            15.3,
            17.7,
            21.0,
        ],
    ),
}
CELLS = [
    (fahrenheit, humidity, percent)
    for fahrenheit, (_, row) in TABLE.items()
    for humidity, percent in zip(HUMIDITIES, row, strict=True)
]


def percent_at(fahrenheit, humidity):
    return 100.0 * equilibrium_moisture_content((fahrenheit - 32.0) / 1.8, humidity / 100.0)


def test_all_cells_are_there():
    assert len(CELLS) == 152


@pytest.mark.parametrize(("fahrenheit", "humidity", "percent"), CELLS)
def test_cells_of_the_handbook(fahrenheit, humidity, percent):
    assert percent_at(fahrenheit, humidity) == pytest.approx(percent, abs=0.06)


@pytest.mark.parametrize("fahrenheit", TABLE)
def test_largest_deviation_of_each_row(fahrenheit):
    largest, row = TABLE[fahrenheit]
    gaps = [abs(percent_at(fahrenheit, rh) - cell) for rh, cell in zip(HUMIDITIES, row, strict=True)]
    assert max(gaps) == pytest.approx(largest, abs=0.0015)


def test_the_equation_not_the_older_table():
    # An encyclopaedia gives 8.4 by the equation and 8.0 "tabulated" for 140 °F and 55 %: the 2010 handbook says 8.4 (read).
    assert percent_at(140, 55) == pytest.approx(8.4, abs=0.05)
    assert percent_at(140, 55) != pytest.approx(8.0, abs=0.3)


@pytest.mark.parametrize(("humidity", "percent"), [(0.25, 5.3), (0.60, 11.1), (0.84, 17.6), (0.87, 19.0)])
def test_examples_of_a_public_calculator(humidity, percent):
    # A public page on the same research note, 70 °F (read). It shows a tenth more at places, and 25.0 at 97 %, where
    # the equation gives 25.6: the curve is steep there and past the table.
    assert 100 * equilibrium_moisture_content(21.1, humidity) == pytest.approx(percent, abs=0.15)


@given(st.floats(-40.0, 100.0), st.floats(0.0, 0.99), st.floats(0.0005, 0.01))
def test_more_humid_air_means_wetter_wood(temperature, humidity, more):
    drier = equilibrium_moisture_content(temperature, humidity)
    assert 0.0 <= drier < equilibrium_moisture_content(temperature, humidity + more) < 0.5


@given(st.floats(-40.0, 100.0), st.floats(0.01, 1.0))
def test_the_inverse_comes_back(temperature, humidity):
    content = equilibrium_moisture_content(temperature, humidity)
    assert humidity_for_moisture_content(temperature, content) == pytest.approx(humidity, abs=1e-6)


def test_moisture_that_no_air_brings():
    assert humidity_for_moisture_content(21.1, 0.40) is None


def test_gain_of_a_board():
    # Textbook wall: 0.269 to 0.27 kg/m² in 19 mm at 700 kg/m³, 2.0 % (its 0.02 % is a misprint, read).
    assert 100 * moisture_gain(0.27, 0.019, 700.0) == pytest.approx(2.0, abs=0.05)
    assert moisture_gain(0.0, 0.019, 700.0) == 0.0
    assert moisture_gain(1.0, 1e-200, 1e-200) == math.inf


@pytest.mark.parametrize(
    ("call", "words"),
    [
        (lambda: equilibrium_moisture_content(101.0, 0.5), "temperature must lie"),
        (lambda: equilibrium_moisture_content(20.0, 50.0), "relative humidity"),
        (lambda: humidity_for_moisture_content(20.0, -0.1), "moisture content"),
        (lambda: moisture_gain(-1.0, 0.019, 700.0), "mass of water"),
        (lambda: moisture_gain(1.0, 0.0, 700.0), "thickness"),
    ],
)
def test_what_cannot_be_is_refused(call, words):
    with pytest.raises(ValueError, match=words):
        call()
