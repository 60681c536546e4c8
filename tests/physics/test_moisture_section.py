"""Sections cut into strips, and their temperatures and saturation pressures."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from speccheck.physics.heat import interface_temperatures
from speccheck.physics.moisture_section import (
    MOST_STRIPS,
    MoistureLayer,
    MoistureSection,
    profile_of,
    strips_of,
)
from speccheck.physics.psychrometrics import saturation_pressure


def test_strips_as_the_reference_cases_have_them(section_of):
    # ISO 13788:2012 clause 6 (memory): strips of at most 0.25 m²·K/W; 4.0 is 16 strips, 1.0 is 4, 0.25 stays whole.
    strips = strips_of(section_of((4.0, 0.16), (1.0, 0.1), (0.25, 1.0), (0.0, 2.0)))
    per_layer = [sum(1 for place in strips.places if place.layer == layer) for layer in range(4)]
    assert per_layer == [16, 4, 1, 2]  # the last holds the outside surface as well
    assert strips.positions[16] == pytest.approx(0.16)


def test_faces_of_a_layer(section_of):
    strips = strips_of(section_of((4.0, 0.16), (0.0, 2.0)))
    assert strips.faces(0) == (0, 16)
    assert strips.faces(1) == (16, 17)
    with pytest.raises(ValueError, match="no layer 2"):
        strips.faces(2)


def test_temperatures_are_those_of_the_heat_calculation(section_of):
    # University of Iceland course notes, table 2.7 (read): 18.9, 18.8, -3.8, -4.6, -4.7 °C.
    layers = [0.025 / 1.2, 0.1 / 0.036, 0.18 / 1.95, 0.02 / 1.4]
    strips = strips_of(section_of(*((r, 1.0) for r in layers)), counts=(1, 1, 1, 1))
    profile = profile_of(strips, 20.0, -5.0, 1168.0, 321.0)
    assert profile.temperatures == pytest.approx([18.94, 18.77, -3.81, -4.56, -4.67], abs=0.01)
    assert profile.temperatures == pytest.approx(
        interface_temperatures([0.13, *layers, 0.04], 20.0, -5.0)[1:-1], abs=1e-9
    )
    assert profile.saturation == tuple(saturation_pressure(t) for t in profile.temperatures)
    assert profile.ceiling == (1168.0, *profile.saturation[1:-1], 321.0)


def test_more_outboard_resistance_never_makes_a_plane_colder(section_of):
    coldest = -100.0
    for outboard in (0.0, 0.5, 1.0, 3.0, 9.0):
        strips = strips_of(section_of((3.0, 0.2), (0.1, 1.0), (outboard, 1.0)))
        plane = profile_of(strips, 20.0, -10.0, 1000.0, 200.0).temperatures[strips.faces(1)[1]]
        assert plane >= coldest
        coldest = plane


@given(st.lists(st.tuples(st.floats(0.0, 60.0), st.floats(0.0, 1e7)), min_size=1, max_size=30))
def test_places_are_in_order_whatever_the_layers(layers):
    section = MoistureSection(tuple(MoistureLayer(r, sd) for r, sd in layers), 0.13, 0.04)
    strips = strips_of(section)
    order = [(place.layer, place.depth) for place in strips.places]
    assert order == sorted(order)
    assert list(strips.positions) == sorted(set(strips.positions))
    assert list(strips.coolness) == sorted(strips.coolness)
    assert len(strips.places) <= 1 + MOST_STRIPS * len(layers)


@pytest.mark.parametrize(
    ("resistance", "sd"), [(-1.0, 1.0), (math.inf, 1.0), (math.nan, 1.0), (1.0, -0.1), (1.0, math.nan)]
)
def test_layers_that_cannot_be_are_refused(resistance, sd):
    with pytest.raises(ValueError, match="must"):
        MoistureLayer(resistance, sd)


def test_sections_that_cannot_be_are_refused():
    layer = MoistureLayer(0.0, 1.0)
    with pytest.raises(ValueError, match="at least one layer"):
        MoistureSection((), 0.13, 0.04)
    with pytest.raises(ValueError, match="total thermal resistance"):
        MoistureSection((layer,), 0.0, 0.0)
    with pytest.raises(ValueError, match="outside film"):
        MoistureSection((layer,), 0.13, -0.04)


def test_counts_must_fit_the_layers(section_of):
    section = section_of((1.0, 1.0), (1.0, 1.0))
    for counts in ((1,), (1, 0), (1, 1, 1)):
        with pytest.raises(ValueError, match="counts"):
            strips_of(section, counts)
