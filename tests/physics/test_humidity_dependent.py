"""Layers that follow their own humidity: what was found agrees with itself, and what was not found says so."""

import math
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from speccheck.physics.humidity_dependent import TOLERANCE, curve_bounds, steady_state, variable_year
from speccheck.physics.moisture_section import MoistureLayer, MoistureSection
from speccheck.physics.monthly_balance import monthly_balance
from speccheck.physics.vapour import permeance_at, permeance_from_sd, sd_of

# A film of the kind that is tight in dry air and opens in damp (generic; end points of sd 10 m and 0.25 m read).
FILM = [(0.30, permeance_from_sd(10.0)), (0.60, permeance_from_sd(4.0)), (0.90, permeance_from_sd(0.25))]
WALL = ((0.05, 0.1), (0.0, 0.0), (4.0, 0.16), (0.06, 3.0))
WINTER = (20.0, -5.0, 1168.0, 321.0)


@st.composite
def variable_sections(draw):
    count = draw(st.integers(1, 5))
    resistance = st.sampled_from([0.0, 0.05, 0.2, 3.0])
    sd = st.floats(-2.0, 2.0).map(lambda x: 10.0**x)
    layers = tuple(MoistureLayer(draw(resistance), draw(sd)) for _ in range(count))
    humidities = draw(st.lists(st.integers(0, 100), min_size=1, max_size=5, unique=True).map(sorted))
    permeance = st.floats(-12.0, -9.0).map(lambda x: 10.0**x)
    curve = [(humidity / 100.0, draw(permeance)) for humidity in humidities]
    return MoistureSection(layers, 0.13, 0.04), {draw(st.integers(0, count - 1)): curve}


class TestSteady:
    """One pair of climates."""

    @settings(max_examples=100, deadline=None)
    @given(variable_sections(), st.floats(-25.0, 15.0), st.floats(300.0, 1800.0), st.floats(50.0, 600.0))
    def test_what_converged_agrees_with_its_own_line(self, case, outside, room, air):
        section, curves = case
        state = steady_state(section, curves, 20.0, outside, room, air)
        (layer, curve), (found,) = next(iter(curves.items())), state.states
        faces = state.strips.faces(layer)
        humidity = (
            sum(min(1.0, state.line.pressures[face] / state.profile.saturation[face]) for face in faces) / 2.0
        )
        assert found.gap == pytest.approx(humidity - found.humidity, abs=1e-12)
        assert found.sd == sd_of(permeance_at(curve, found.humidity))
        assert state.converged == (abs(found.gap) <= TOLERANCE)
        assert all(map(math.isfinite, state.line.pressures))

    def test_nearly_all_random_sections_settle(self):
        random, settled = Random(5), 0
        for _ in range(200):
            curve = [(h, 10.0 ** random.uniform(-12.0, -9.0)) for h in (0.2, 0.5, 0.7, 0.9)]
            layers = (
                (0.1, 10.0 ** random.uniform(-2, 1)),
                (0.0, 0.0),
                (3.0, 0.2),
                (0.1, 10.0 ** random.uniform(-2, 2)),
            )
            section = MoistureSection(tuple(MoistureLayer(*layer) for layer in layers), 0.13, 0.04)
            settled += steady_state(
                section, {1: curve}, 20.0, random.uniform(-20, 10), 1168.0, 300.0
            ).converged
        assert settled >= 195

    def test_a_flat_curve_is_a_plain_layer(self, section_of):
        flat = [(0.0, permeance_from_sd(2.0)), (1.0, permeance_from_sd(2.0))]
        state = steady_state(section_of(*WALL), {1: flat}, *WINTER)
        plain = steady_state(section_of(WALL[0], (0.0, 2.0), *WALL[2:]), {}, *WINTER)
        assert state.converged
        assert plain.rounds == 1
        assert state.line.rates == pytest.approx(plain.line.rates, rel=1e-12, abs=0.0)

    def test_the_film_is_tight_in_winter_and_open_in_summer(self, section_of):
        winter = steady_state(section_of(*WALL), {1: FILM}, *WINTER)
        summer = steady_state(section_of(*WALL), {1: FILM}, 22.0, 28.0, 1700.0, 2900.0)
        assert winter.converged
        assert summer.converged
        assert winter.states[0].sd > 4.0 > summer.states[0].sd

    def test_a_search_that_is_cut_short_says_so(self, section_of):
        state = steady_state(section_of(*WALL), {1: FILM}, *WINTER, most_rounds=1)
        assert not state.converged
        assert abs(state.states[0].gap) > TOLERANCE

    def test_a_curve_that_jumps_does_not_run_forever(self, section_of):
        # Open just below and shut just above the humidity it then has: there is no state that agrees to 1e-12.
        curve = [(0.0, 1e-9), (0.43, 1e-9), (0.430001, 1e-14), (1.0, 1e-14)]
        state = steady_state(section_of(*WALL), {1: curve}, *WINTER, tolerance=1e-12, most_rounds=50)
        assert state.rounds <= 50


class TestYear:
    """A year of months."""

    def test_flat_curves_give_the_plain_year(self, section_of, reference_year):
        flat = [(0.5, permeance_from_sd(2.0))]
        found = variable_year(section_of(*WALL), {1: flat}, reference_year(2))
        plain = monthly_balance(section_of(WALL[0], (0.0, 2.0), *WALL[2:]), reference_year(2))
        assert found.settled
        assert found.year.verdict == plain.verdict
        assert found.year.peak.peak == pytest.approx(plain.peak.peak, rel=1e-9)

    def test_the_year_lies_between_its_bounds(self, section_of, reference_year):
        climate = reference_year(3)
        tight, loose = curve_bounds(FILM)
        assert (tight, loose) == pytest.approx((10.0, 0.25))
        peaks = [
            monthly_balance(section_of(WALL[0], (0.0, sd), *WALL[2:]), climate).peak.peak
            for sd in (tight, loose)
        ]
        found = variable_year(section_of(*WALL), {1: FILM}, climate)
        assert found.settled
        assert peaks[0] < found.year.peak.peak < peaks[1]
        assert len(found.states) == len(found.converged) == 12

    def test_states_belong_to_their_months(self, section_of, reference_year):
        found = variable_year(section_of(*WALL), {1: FILM}, reference_year(3))
        for month, (state,) in zip(found.year.months, found.states, strict=True):
            faces = [min(1.0, month.humidities[face]) for face in (1, 2)]
            assert sum(faces) / 2.0 == pytest.approx(state.humidity, abs=2 * TOLERANCE)

    def test_months_that_do_not_settle_are_named(self, section_of, reference_year):
        found = variable_year(section_of(*WALL), {1: FILM}, reference_year(3), most_rounds=1)
        assert not found.settled
        assert len(found.converged) == 12


@pytest.mark.parametrize(
    ("curves", "words"),
    [
        ({9: FILM}, "no layer 9"),
        ({1: []}, "at least one point"),
        ({1: [(0.6, 1e-10), (0.3, 1e-10)]}, "must rise"),
        ({1: [(60.0, 1e-10)]}, "relative humidity of a curve point"),
        ({1: [(0.5, -1e-10)]}, "permeance of a curve point"),
    ],
)
def test_curves_that_cannot_be_are_refused(section_of, curves, words):
    with pytest.raises(ValueError, match=words):
        steady_state(section_of(*WALL), curves, *WINTER)


def test_tolerance_and_rounds_are_checked(section_of):
    with pytest.raises(ValueError, match="tolerance"):
        steady_state(section_of(*WALL), {1: FILM}, *WINTER, tolerance=0.0)
    with pytest.raises(ValueError, match="at least one round"):
        steady_state(section_of(*WALL), {1: FILM}, *WINTER, most_rounds=0)
