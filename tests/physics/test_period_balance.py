"""The two-season period balance against two textbook cases and two worked cases with two planes."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from speccheck.physics.moisture_section import MoistureLayer, MoistureSection, strips_of
from speccheck.physics.period_balance import (
    CONDENSATE_LIMIT,
    CONDENSATE_LIMIT_NON_CAPILLARY,
    ROOF_PERIODS,
    WALL_PERIODS,
    PeriodClimate,
    evaporable_from,
    period_balance,
)
from speccheck.physics.wood import PANEL_GAIN_LIMIT, moisture_gain


def layers_of(*pairs):
    return [MoistureLayer(*pair) for pair in pairs]


TWO_PLANES = layers_of((0.05, 0.5), (3.0, 0.1), (0.1, 3.0), (1.0, 0.1), (0.05, 5.0))
TWO_PLANES_TIGHT = layers_of((0.05, 0.5), (2.0, 0.1), (0.1, 3.0), (2.0, 0.1), (0.05, 10.0))


class TestTextbookCases:
    """A building-physics textbook, section 13.2.5, examples a and b after DIN 4108-3 (read in study notes)."""

    def test_wall_of_two_particleboards(self):
        wall = layers_of((0.15, 0.95), (0.0, 2.0), (4.0, 0.16), (0.15, 1.9))
        balance = period_balance(wall)
        strips = balance.strips
        at = [strips.faces(0)[0], strips.faces(0)[1], strips.faces(2)[1], len(strips.places) - 1]
        assert [balance.winter.temperatures[j] for j in at] == pytest.approx(
            [18.6, 17.8, -4.0, -4.8], abs=0.06
        )
        assert [balance.winter.saturation[j] for j in at] == pytest.approx([2142, 2037, 437, 408], abs=8)
        (plane,) = balance.planes
        assert plane.first == plane.last == strips.faces(2)[1]
        # The book rounds temperatures to 0.1 K first.
        assert plane.rate == pytest.approx(3.48e-08, rel=0.007, abs=0.0)
        assert balance.condensed == pytest.approx(0.27, abs=0.003)
        assert plane.drying_rate == pytest.approx(8.48e-08, rel=0.001, abs=0.0)
        assert balance.evaporable == pytest.approx(0.659, abs=0.001)
        assert balance.dries
        assert balance.condensed < CONDENSATE_LIMIT_NON_CAPILLARY
        gain = moisture_gain(balance.condensed, 0.019, 700.0)
        assert 100 * gain == pytest.approx(2.0, abs=0.05)
        assert gain < PANEL_GAIN_LIMIT

    def test_concrete_flat_roof(self):
        roof = layers_of((0.086, 12.6), (0.0, 20.0), (3.5, 4.2), (0.0, 600.0))
        balance = period_balance(roof, ROOF_PERIODS)
        (plane,) = balance.planes
        assert plane.last == balance.strips.faces(2)[1]
        assert balance.winter.temperatures[plane.last] == pytest.approx(-4.7, abs=0.06)
        assert plane.rate == pytest.approx(4.078e-09, rel=0.005, abs=0.0)
        assert balance.condensed == pytest.approx(0.032, abs=0.0005)
        assert plane.drying_rate == pytest.approx(4.614e-09, rel=0.001, abs=0.0)
        assert balance.evaporable == pytest.approx(0.036, abs=0.0005)
        assert balance.dries

    def test_the_roof_with_the_pressure_of_walls_does_not_dry(self):
        # Negative control: 1700 Pa instead of 2000 Pa at the plane turns the verdict.
        roof = layers_of((0.086, 12.6), (0.0, 20.0), (3.5, 4.2), (0.0, 600.0))
        assert not period_balance(roof, WALL_PERIODS).dries


class TestTwoPlanes:
    """Two planes after DIN 4108-3 annex A, worked out beside this code (computed, not outside evidence)."""

    def test_both_dry_within_the_period(self):
        balance = period_balance(TWO_PLANES)
        inner, outer = balance.planes
        assert inner.rate == pytest.approx(1.431741e-07, rel=0.001, abs=0.0)
        assert inner.condensed == pytest.approx(1.113322, rel=0.001)
        assert outer.rate == pytest.approx(1.337478e-08, rel=0.001, abs=0.0)
        assert outer.condensed == pytest.approx(0.104002, rel=0.001)
        assert balance.condensed == pytest.approx(1.217324, rel=0.001)
        assert inner.drying_rate == pytest.approx(1.666667e-07, rel=0.001, abs=0.0)
        assert inner.drying_time / 86400 == pytest.approx(77.31, abs=0.1)
        assert outer.drying_rate == pytest.approx(2.0e-08, rel=0.001, abs=0.0)
        assert outer.drying_time / 86400 == pytest.approx(60.19, abs=0.1)
        assert balance.evaporable == pytest.approx(1.431803, rel=0.001)
        assert balance.dries
        assert balance.condensed > CONDENSATE_LIMIT
        assert balance.reserve == pytest.approx(0.2145, abs=0.002)

    def test_the_outer_one_does_not_dry_alone(self):
        balance = period_balance(TWO_PLANES_TIGHT)
        inner, outer = balance.planes
        assert inner.rate == pytest.approx(1.263497e-08, rel=0.001, abs=0.0)
        assert inner.condensed == pytest.approx(0.098249, rel=0.001)
        assert outer.rate == pytest.approx(3.649782e-08, rel=0.001, abs=0.0)
        assert outer.condensed == pytest.approx(0.283807, rel=0.001)
        assert inner.drying_time / 86400 == pytest.approx(6.82, abs=0.05)
        assert outer.drying_time / 86400 == pytest.approx(328.48, abs=0.5)
        assert balance.evaporable == pytest.approx(0.370239, rel=0.001)
        assert not balance.dries
        assert balance.governing == outer.last

    def test_three_planes_by_hand(self):
        # Each outer plane dries to its side, the middle one only once a neighbour is dry. Two boards of sd 1 m between
        # three fibre layers; the sum is stepped by the hour here, with the planes held at 1700 Pa.
        layers = layers_of(
            (0.0, 0.4), (3.0, 0.02), (0.0, 1.0), (1.0, 0.02), (0.0, 1.0), (0.5, 0.02), (0.0, 15.0)
        )
        balance = period_balance(layers)
        assert len(balance.planes) == 3
        assert balance.planes[1].drying_rate == pytest.approx(0.0, abs=1e-18)
        assert balance.planes[1].drying_time > 1e12
        assert balance.evaporable == pytest.approx(stepped_potential(balance), rel=0.01)


def stepped_potential(balance):
    whole = balance.strips.positions[-1]
    water = {plane.position: plane.condensed for plane in balance.planes}
    total = 0.0
    for _ in range(90 * 24):
        wet = sorted(place for place, mass in water.items() if mass > 0.0)
        for place in wet:
            left = max((other for other in wet if other < place), default=None)
            right = min((other for other in wet if other > place), default=None)
            inward = 0.0 if left is not None else 2e-10 * 500.0 / place
            outward = 0.0 if right is not None else 2e-10 * 500.0 / (whole - place)
            loss = (inward + outward) * 3600.0
            total += loss
            if len(wet) > 1:
                water[place] -= loss
    return total


class TestZones:
    """A zone inside a layer, when its saturation curve sags below the line."""

    def test_a_damp_homogeneous_wall_has_one_zone(self):
        damp = PeriodClimate(inside_pressure=2100.0, outside_pressure=395.0)
        balance = period_balance(layers_of((2.0, 3.0), (0.01, 0.1)), damp)
        (zone,) = balance.planes
        assert zone.last > zone.first
        assert zone.position == pytest.approx(
            (balance.strips.positions[zone.first] + balance.strips.positions[zone.last]) / 2.0
        )
        # Both ends of the path are open: what the zone gains is what flows in less what flows out.
        assert zone.drying_rate == pytest.approx(
            2e-10 * 500.0 * (1.0 / zone.position + 1.0 / (3.1 - zone.position)), rel=1e-9, abs=0.0
        )


class TestNothingCondenses:
    """The reserve of a section that stays dry."""

    def test_the_reserve_is_that_of_the_interface_nearest_to_condensing(self):
        dry = layers_of((0.05, 10.0), (4.0, 0.2), (0.05, 0.2))
        balance = period_balance(dry)
        assert balance.planes == ()
        assert balance.dries
        assert balance.governing == balance.strips.faces(1)[1]
        by_hand = 2e-10 * 500.0 * (1.0 / 10.2 + 1.0 / 0.2) * 7_776_000.0
        assert balance.reserve == pytest.approx(by_hand, rel=1e-9)

    def test_a_single_layer_without_strips_has_no_place_for_water(self):
        balance = period_balance(layers_of((0.2, 1.0)))
        assert balance.reserve is None
        assert balance.governing is None
        assert balance.dries

    def test_a_surface_has_no_reserve(self):
        strips = strips_of(MoistureSection(tuple(layers_of((0.1, 0.0), (0.1, 1.0), (0.1, 1.0))), 0.25, 0.04))
        for interface in (0, 1, 3):
            with pytest.raises(ValueError, match="at a surface"):
                evaporable_from(strips, interface)


@given(
    st.lists(
        st.builds(
            MoistureLayer,
            st.sampled_from([0.0, 0.1, 1.0, 5.0]),
            st.sampled_from([0.0, 0.01, 0.5, 10.0, 1e6, math.inf]),
        ),
        min_size=1,
        max_size=12,
    ),
    st.sampled_from([WALL_PERIODS, ROOF_PERIODS, PeriodClimate(inside_pressure=2300.0)]),
)
def test_hostile_sections_stay_finite(layers, climate):
    balance = period_balance(layers, climate)
    assert math.isfinite(balance.condensed)
    assert balance.condensed >= 0.0
    assert balance.evaporable is None or math.isfinite(balance.evaporable)
    assert balance.condensed == pytest.approx(sum(plane.condensed for plane in balance.planes))


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"inside_temperature": math.nan}, "indoor temperature"),
        ({"inside_pressure": -1.0}, "inside pressure"),
        ({"plane_saturation": 0.0}, "plane saturation"),
        ({"evaporation_seconds": 0.0}, "evaporation seconds"),
    ],
)
def test_climates_that_cannot_be_are_refused(changes, words):
    with pytest.raises(ValueError, match=words):
        PeriodClimate(**changes)
