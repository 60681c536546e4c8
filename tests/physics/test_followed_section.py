"""A section made ready for many rounds gives what the plain functions give, round after round."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from speccheck.physics.followed_section import FollowedSection
from speccheck.physics.humidity_dependent import gathers, variable_year
from speccheck.physics.moisture_section import MoistureLayer, MoistureSection, profile_of, strips_of
from speccheck.physics.moisture_year import TRACE
from speccheck.physics.vapour import permeance_at, sd_of

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
