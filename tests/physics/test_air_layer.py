"""Air layers against the tables of ISO 6946 and of the American handbook."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from speccheck.physics.air_layer import (
    EXTERNAL_FILM,
    air_layer_resistance,
    convective_coefficient,
    effective_emittance,
    radiative_coefficient,
    slightly_ventilated_resistance,
    still_air_film,
    ventilation_treatment,
)

US_R = 0.1761102
DIRECTIONS = ("up", "horizontal", "down")

# ISO 6946 table of unventilated air layers with ordinary faces (read in textbook notes): mm, up, horizontal, down.
ISO_TABLE = [
    (5, 0.11, 0.11, 0.11),
    (7, 0.13, 0.13, 0.13),
    (10, 0.15, 0.15, 0.15),
    (15, 0.16, 0.17, 0.17),
    (25, 0.16, 0.18, 0.19),
    (50, 0.16, 0.18, 0.21),
    (100, 0.16, 0.18, 0.22),
    (300, 0.16, 0.18, 0.23),
]


@pytest.mark.parametrize(("millimetres", "up", "horizontal", "down"), ISO_TABLE)
def test_iso_table(millimetres, up, horizontal, down):
    found = [round(air_layer_resistance(millimetres / 1000, direction), 2) for direction in DIRECTIONS]
    assert found == [up, horizontal, down]


# National Building Code of Canada, RSI of air spaces (memory; interpolation 13 to 90 mm read): mm, ceiling, wall, floor.
@pytest.mark.parametrize(
    ("millimetres", "ceiling", "wall", "floor"),
    [(20, 0.15, 0.18, 0.18), (40, 0.16, 0.18, 0.20), (90, 0.16, 0.18, 0.22)],
)
def test_canadian_table(millimetres, ceiling, wall, floor):
    found = [air_layer_resistance(millimetres / 1000, direction) for direction in DIRECTIONS]
    assert found == pytest.approx([ceiling, wall, floor], abs=0.015)


# ASHRAE plane air spaces, horizontal flow, half an inch, 50 °F mean, 10 °F difference (memory): emittance, US R.
@pytest.mark.parametrize(
    ("emittance", "resistance"), [(0.03, 2.66), (0.05, 2.54), (0.20, 1.88), (0.50, 1.24), (0.82, 0.91)]
)
def test_american_table(emittance, resistance):
    found = air_layer_resistance(0.0127, "horizontal", emittance, 10.0, 5.6) / US_R
    assert found == pytest.approx(resistance, rel=0.12)


# An Australian reflective-insulation table (read): 13 mm vertical, 23 °C mean, 5 K: 0.147 bare, 0.444 with one foil face.
@pytest.mark.parametrize(("emittance", "resistance"), [(0.82, 0.147), (0.05, 0.444)])
def test_australian_table(emittance, resistance):
    assert air_layer_resistance(0.013, "horizontal", emittance, 23.0) == pytest.approx(resistance, rel=0.05)


def test_radiation():
    # ISO 6946 annex (memory): 5.1 at 10 °C and 5.7 at 20 °C for black faces.
    assert radiative_coefficient(10.0, 1.0) == pytest.approx(5.1, abs=0.05)
    assert radiative_coefficient(20.0, 1.0) == pytest.approx(5.7, abs=0.05)


def test_emittance_of_two_faces():
    # ASHRAE Fundamentals ch. 26 (memory).
    assert effective_emittance(0.9, 0.9) == pytest.approx(0.82, abs=0.005)
    assert effective_emittance(0.05, 0.9) == pytest.approx(0.05, abs=0.001)
    assert effective_emittance(1.0, 1.0) == 1.0


@pytest.mark.parametrize("direction", DIRECTIONS)
def test_small_and_large_differences_meet_at_5_kelvin(direction):
    below, above = (convective_coefficient(0.1, direction, difference) for difference in (5.0, 5.0001))
    assert below == pytest.approx(above, rel=0.015)


@given(st.floats(0.0, 0.3), st.sampled_from(DIRECTIONS), st.floats(0.02, 1.0), st.floats(0.02, 1.0))
def test_a_brighter_face_never_resists_less(thickness, direction, one, other):
    bright, dull = sorted((one, other))
    assert air_layer_resistance(thickness, direction, bright) >= air_layer_resistance(
        thickness, direction, dull
    )


@given(st.floats(0.001, 0.3), st.floats(0.001, 0.3))
def test_a_deeper_layer_never_resists_less(one, other):
    thin, deep = sorted((one, other))
    for direction in DIRECTIONS:
        assert air_layer_resistance(deep, direction) >= air_layer_resistance(thin, direction) * (1 - 1e-9)


def test_no_layer_no_resistance():
    assert air_layer_resistance(0.0, "up") == 0.0


class TestVentilation:
    """Openings to outdoors: limits of ISO 6946 (memory), 500 and 1500 mm² per metre."""

    @pytest.mark.parametrize(
        ("square_millimetres", "state", "weight", "drop"),
        [
            (0, "unventilated", 1.0, False),
            (500, "unventilated", 1.0, False),
            (501, "slightly", 0.999, False),
            (1000, "slightly", 0.5, False),
            (1499, "slightly", 0.001, False),
            (1500, "well", 0.0, True),
            (20000, "well", 0.0, True),
        ],
    )
    def test_states(self, square_millimetres, state, weight, drop):
        found = ventilation_treatment(square_millimetres * 1e-6)
        assert (found.state, found.drop_outboard) == (state, drop)
        assert found.unventilated_weight == pytest.approx(weight)

    def test_sheltered_film_is_that_of_still_air(self):
        # ISO 6946 (films read; the rule memory): 0.13 behind a wall's cladding, not 0.04.
        assert ventilation_treatment(1500e-6).sheltered_film == still_air_film("horizontal") == 0.13
        assert ventilation_treatment(1500e-6, "up").sheltered_film == still_air_film("up") == 0.10
        assert ventilation_treatment(1500e-6, "down").sheltered_film == still_air_film("down") == 0.17
        assert EXTERNAL_FILM == 0.04

    def test_slightly_ventilated(self):
        assert slightly_ventilated_resistance(750e-6, 3.0, 2.6) == pytest.approx(2.9)
        assert slightly_ventilated_resistance(100e-6, 3.0, 2.6) == 3.0
        assert slightly_ventilated_resistance(1500e-6, 3.0, 2.6) == 2.6

    @given(st.floats(0, 3000e-6), st.floats(0, 3000e-6))
    def test_more_opening_never_adds_resistance(self, one, other):
        tight, open_ = sorted((one, other))
        assert (
            slightly_ventilated_resistance(open_, 3.0, 2.6)
            <= slightly_ventilated_resistance(tight, 3.0, 2.6) + 1e-12
        )


@pytest.mark.parametrize(
    ("function", "arguments"),
    [
        (air_layer_resistance, (0.31, "up")),
        (air_layer_resistance, (-0.01, "up")),
        (air_layer_resistance, (0.02, "sideways")),
        (air_layer_resistance, (0.02, "up", 1.2)),
        (still_air_film, ("sideways",)),
        (effective_emittance, (0.0, 0.9)),
        (effective_emittance, (0.9, 1.1)),
        (radiative_coefficient, (-300.0, 0.9)),
        (ventilation_treatment, (-1e-6,)),
        (slightly_ventilated_resistance, (1e-3, -1.0, 1.0)),
    ],
)
def test_impossible_air_layers_are_refused(function, arguments):
    with pytest.raises(ValueError, match=r"must|room"):
        function(*arguments)
