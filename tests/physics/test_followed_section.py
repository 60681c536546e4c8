"""A section made ready for many rounds gives what the plain functions give, round after round."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from speccheck.physics.followed_section import FollowedSection
from speccheck.physics.humidity_dependent import gathers, variable_year
from speccheck.physics.moisture_section import MoistureLayer, MoistureSection, profile_of, strips_of
from speccheck.physics.moisture_year import TRACE
from speccheck.physics.monthly_balance import MonthlyClimate
from speccheck.physics.psychrometrics import saturation_pressure
from speccheck.physics.taut_string import line_under
from speccheck.physics.vapour import permeance_at, permeance_from_sd, sd_of

RESISTANCES = st.sampled_from([0.0, 0.05, 0.2, 3.0])
SD = st.floats(-2.0, 2.0).map(lambda x: 10.0**x)
PERMEANCES = st.floats(-12.0, -9.0).map(lambda x: 10.0**x)


@st.composite
def sections(draw):
    count = draw(st.integers(1, 6))
    layers = tuple([MoistureLayer(draw(RESISTANCES), draw(SD)) for _ in range(count)])
    places = draw(st.lists(st.integers(0, 100), min_size=1, max_size=5, unique=True).map(sorted))
    curve = [(place / 100.0, draw(PERMEANCES)) for place in places]
    return MoistureSection(layers, 0.13, 0.04), {draw(st.integers(0, count - 1)): curve}


@settings(max_examples=200, deadline=None)
@given(sections(), st.lists(st.floats(0.0, 1.0), min_size=1, max_size=4))
def test_it_lies_as_the_plain_section_does_at_each_humidity(case, humidities):
    section, curves = case
    followed = FollowedSection(section, curves)
    ((layer, curve),) = curves.items()
    for humidity in humidities:
        sd = sd_of(permeance_at(curve, humidity))
        assert followed.sd(layer, humidity) == sd
        layers = [
            MoistureLayer(one.resistance, sd if n == layer else one.sd)
            for n, one in enumerate(section.layers)
        ]
        plain = strips_of(MoistureSection(tuple(layers), 0.13, 0.04))
        assert followed.strips_at({layer: humidity}) == plain
        assert followed.faces[layer] == plain.faces(layer)


@settings(max_examples=100, deadline=None)
@given(sections(), st.floats(-30.0, 30.0), st.lists(st.floats(0.0, 2000.0), min_size=2, max_size=4))
def test_a_profile_kept_is_the_profile_worked_out(case, outside, pressures):
    section, curves = case
    followed = FollowedSection(section, curves)
    for pressure in pressures:
        assert followed.profile(20.0, outside, pressure, 300.0) == profile_of(
            followed.strips, 20.0, outside, pressure, 300.0
        )


def test_pressures_are_checked_whenever_they_change():
    followed = FollowedSection(MoistureSection((MoistureLayer(1.0, 1.0),), 0.13, 0.04), {})
    followed.profile(20.0, 0.0, 1000.0, 500.0)
    with pytest.raises(ValueError, match="must not be negative"):
        followed.profile(20.0, 0.0, -1.0, 500.0)


@settings(max_examples=40, deadline=None)
@given(case=sections(), humidity_class=st.integers(1, 4))
def test_no_month_gathers_where_the_year_shows_no_condensation(case, humidity_class, reference_year):
    section, curves = case
    climate = reference_year(humidity_class)
    year = variable_year(section, curves, climate).year
    any_gathers = any(gathers(FollowedSection(section, curves), climate, month) for month in range(1, 13))
    if year.verdict == "none":
        assert not any_gathers
    elif year.peak.peak > 12 * TRACE:
        assert any_gathers


@settings(max_examples=60, deadline=None)
@given(sections(), st.floats(-20.0, 12.0), st.floats(0.3, 0.9))
def test_the_room_pressure_is_where_a_plain_section_begins_to_gather(case, outside, humidity):
    section, _ = case
    plain = FollowedSection(section, {})
    air = humidity * saturation_pressure(outside)
    profile = plain.profile(20.0, outside, 1000.0, air)
    free = plain.strips.at_surface
    bounds = [(n, profile.saturation[n]) for n in range(1, len(free) - 1) if not free[n]]
    pressure = plain.room_pressure(profile, bounds, 1e-4)
    if not bounds:
        assert pressure == math.inf
        return
    for part, gathered in ((0.999, False), (1.001, True)):
        month = plain.profile(20.0, outside, max(air, part * pressure), air)
        line = line_under(plain.strips.positions, month.ceiling)
        assert bool(line.contacts) == (gathered and part * pressure > air)


def test_the_room_pressure_follows_a_curve():
    # a membrane that opens in damp air inside of wool and a board: found by trying pressures one by one
    layers = (
        MoistureLayer(0.05, 0.1),
        MoistureLayer(0.0, 5.0),
        MoistureLayer(4.0, 0.16),
        MoistureLayer(0.06, 3.0),
    )
    curve = [(0.25, permeance_from_sd(10.0)), (0.6, permeance_from_sd(3.0)), (0.9, permeance_from_sd(0.3))]
    followed = FollowedSection(MoistureSection(layers, 0.13, 0.04), {1: curve})
    profile = followed.profile(20.0, -5.0, 2000.0, 300.0)
    bounds = [(n, profile.saturation[n]) for n in range(1, len(profile.saturation) - 1)]
    found = followed.room_pressure(profile, bounds, 1e-5)

    def gathers_at(pressure):
        climate = MonthlyClimate((20.0,) * 12, (pressure,) * 12, (-5.0,) * 12, (300.0,) * 12)
        return gathers(followed, climate, 1, TRACE)

    turn = next(pressure for pressure in range(300, 2300, 2) if gathers_at(float(pressure)))
    assert found == pytest.approx(turn, abs=6.0)


@pytest.mark.parametrize(
    ("permeances", "opens"), [((1e-11, 1e-11, 2e-11), True), ((1e-11, 3e-11, 2e-11), False), ((1e-11,), True)]
)
def test_a_curve_that_falls_is_told_from_one_that_only_opens(permeances, opens):
    curve = [(0.2 * n, permeance) for n, permeance in enumerate(permeances)]
    section = MoistureSection((MoistureLayer(1.0, 1.0),), 0.13, 0.04)
    assert FollowedSection(section, {0: curve}).only_opens is opens


def test_beyond_the_ends_of_a_curve_the_places_are_the_same_object():
    section = MoistureSection((MoistureLayer(1.0, 1.0), MoistureLayer(0.0, 2.0)), 0.13, 0.04)
    followed = FollowedSection(section, {1: [(0.3, 1e-11), (0.7, 1e-10)]})
    assert followed.positions({1: 0.8}) is followed.positions({1: 0.9})
    assert followed.positions({1: 0.5}) != followed.positions({1: 0.9})
