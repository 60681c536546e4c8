"""Permeance, sd, series, flux, retarder class and humidity-dependent layers against printed values."""

import math
from functools import partial

import pytest
from hypothesis import given
from hypothesis import strategies as st

from speccheck import quantity
from speccheck.physics.heat import interface_temperatures
from speccheck.physics.psychrometrics import dew_point, saturation_pressure, vapour_pressure
from speccheck.physics.vapour import (
    DELTA_AIR,
    US_PERM,
    flux,
    permeance_at,
    permeance_from_resistance_factor,
    permeance_from_sd,
    permeance_of,
    sd_of,
    series_permeance,
    vapour_class,
    vapour_resistance,
    ventilation_permeance,
)

NANOGRAM = 1e-12

# Permeances and fluxes are so small that the absolute tolerance of approx, 1e-12, would let anything pass.
near = partial(pytest.approx, rel=1e-9, abs=0.0)
INCH = 0.0254
permeances = st.floats(1e-14, 1e-7)


class TestConstants:
    """One perm, one air, everywhere."""

    def test_units_and_physics_hold_the_same_constants(self):
        assert quantity.PERM == US_PERM
        assert quantity.DELTA_AIR == DELTA_AIR

    def test_perm_from_its_definition(self):
        # 1 grain/(h·ft²·inHg) with mercury at 0 °C, 3386.389 Pa (encyclopaedia article on the perm, read).
        assert near(64.79891e-6 / (3600 * 0.3048**2 * 3386.389), rel=1e-5) == US_PERM
        assert near(57.2135 * NANOGRAM, rel=1e-5) == US_PERM

    def test_perm_against_other_units(self):
        # The same article and the conversion annex of a Danish guideline (read): metric perm 86.8127 ng, 0.659045.
        metric = 1e-3 / (86400 * 133.322387)
        assert US_PERM / metric == near(0.659045, rel=1e-5)
        assert metric / US_PERM == near(1.51735, rel=1e-5)
        assert near(5.71e-11, rel=0.003) == US_PERM
        assert vapour_resistance(US_PERM) == near(1.75e10, rel=0.003)
        # Negative control: mercury at 60 °F gives 57.375 ng, which is not the perm in use.
        assert near(57.375 * NANOGRAM, rel=1e-3) != US_PERM


class TestConversions:
    """Permeability, mu, sd, permeance."""

    def test_membrane_of_housing_warranty_standard(self):
        # UK housing warranty standard 6.2.13 (read): 0.6 MN·s/g is sd 0.12 m.
        assert sd_of(1 / 0.6e9) == near(0.12)

    # Arithmetic of the definitions, US perm of an sd (computed).
    @pytest.mark.parametrize(
        ("sd", "perm"),
        [(0.02, 174.8), (0.1, 34.96), (0.35, 9.988), (2.0, 1.748), (10, 0.3496), (1500, 0.00233)],
    )
    def test_handy_table(self, sd, perm):
        assert permeance_from_sd(sd) / US_PERM == near(perm, rel=0.001)

    def test_thickness_rule(self):
        # A university extension sheet and a builder's material page (read).
        assert permeance_of(2.0 * US_PERM * INCH, 2 * INCH) / US_PERM == near(1.0)
        assert permeance_of(3.0 * US_PERM * INCH, 3 * INCH) / US_PERM == near(1.0)
        assert permeance_of(3.0 * US_PERM * INCH, 8 * INCH) / US_PERM == near(0.375)

    # Iceland course notes, table 3.4 (mu read; perm computed with 1.966e-10, hence 2 % on our 2.0e-10).
    @pytest.mark.parametrize(
        ("mu", "perm"), [(130, 2.08), (29, 9.33), (51, 5.31), (14, 19.3), (25, 10.8), (8, 33.8)]
    )
    def test_plywood_by_humidity(self, mu, perm):
        assert permeance_from_resistance_factor(mu, 0.0127) / US_PERM == near(perm, rel=0.021)

    @given(permeances)
    def test_sd_round_trip(self, permeance):
        assert permeance_from_sd(sd_of(permeance)) == near(permeance, rel=1e-12)

    def test_ends(self):
        assert sd_of(0.0) == math.inf
        assert sd_of(math.inf) == 0.0
        assert permeance_from_sd(0.0) == math.inf
        assert permeance_from_sd(math.inf) == 0.0


class TestSeries:
    """Layers one behind the other."""

    def test_two_class_iii_layers_make_class_ii(self):
        # A trade question and answer (read) prints 0.907, truncated; the sum is 0.9079.
        total = series_permeance([2.3 * US_PERM, 1.5 * US_PERM])
        assert total / US_PERM == pytest.approx(0.907, abs=0.001)
        assert vapour_class(2.3 * US_PERM) == vapour_class(1.5 * US_PERM) == "III"
        assert vapour_class(total) == "II"

    def test_paint_decides_on_gypsum(self):
        # Component values from practice pages (read), sum computed.
        total = series_permeance([5 * US_PERM, 49.75 * US_PERM])
        assert total / US_PERM == pytest.approx(4.54, abs=0.01)
        assert vapour_class(total) == "III"

    def test_wall_of_handbook(self):
        # ASHRAE Fundamentals 2021 ch. 27 example 8 (read), ng/(s·m²·Pa).
        parts = [value * NANOGRAM for value in (9200, 290, 1700, 29, 2010, 57000)]
        assert vapour_resistance(series_permeance(parts)) * NANOGRAM == near(0.03914, rel=0.001)

    @given(st.lists(permeances, min_size=1, max_size=6))
    def test_never_above_the_least(self, parts):
        assert series_permeance(parts) <= min(parts) * (1 + 1e-12)

    @given(st.permutations([1e-12, 3e-11, 2e-9, math.inf]))
    def test_order_does_not_matter(self, parts):
        assert series_permeance(parts) == series_permeance(sorted(parts))

    def test_ends(self):
        assert series_permeance([1e-10, 0.0]) == 0.0
        assert series_permeance([1e-10, math.inf]) == near(1e-10)
        assert series_permeance([]) == math.inf


class TestFlux:
    """Diffusion in steady state."""

    def test_gypsum_with_and_without_film(self):
        # A heat-transfer textbook, ch. 14 (statement read, follow-up and answers memory).
        inside = vapour_pressure(20.0, 0.6)
        mass = flux(2.86e-9, inside, 0.0) * 24 * 86400
        film = flux(series_permeance([2.86e-9, 9.1e-12]), inside, 0.0) * 24 * 86400
        assert mass == near(8.32, rel=0.003)
        assert film * 1000 == near(26.4, rel=0.003)
        assert mass / film == pytest.approx(315, abs=1)

    def test_gypsum_from_solubility_and_diffusivity(self):
        # Another heat-transfer textbook, problem 14.23 (read): 2.25e-10 kmol/s.
        permeability = 1e-9 * 0.005 / 1e5
        moles = flux(permeance_of(permeability, 0.01), 0.03e5, 0.0) * 15
        assert moles == near(2.25e-10, rel=1e-9)
        assert moles * 18 == near(4.05e-9, rel=1e-9)

    def test_freezing_plane_of_textbook(self):
        # A heat-transfer textbook, example 14-6 (inputs and chain read, fluxes memory), with its own pressures; the
        # resistances are in s·m²·Pa/ng.
        temperatures = interface_temperatures([3.05 - 0.4, 0.4], 20.0, -16.0)
        assert temperatures[1] == pytest.approx(-11.3, abs=0.05)
        inside, outside, plane = 0.6 * 2340, 0.7 * 151, 234
        towards = flux(series_permeance([1 / 0.012, 1 / 0.0004]), inside, plane)
        away = flux(series_permeance([1 / 0.0138, 1 / 0.019]), plane, outside)
        assert towards == near(94355, rel=0.005)
        assert away == near(3902, rel=0.005)
        assert towards - away == near(90453, rel=0.005)
        # With our own saturation pressures, over ice: within 1 %.
        plane = saturation_pressure(temperatures[1])
        own = flux(1 / 0.0124, vapour_pressure(20.0, 0.6), plane) - flux(
            1 / 0.0328, plane, vapour_pressure(-16.0, 0.7)
        )
        assert own == near(90453, rel=0.01)

    def test_wetting_of_handbook_wall(self):
        # ASHRAE Fundamentals 2021 ch. 27 example 8 (read): flow to and from the back of the sheathing.
        towards = flux(series_permeance([9200.0, 290.0, 1700.0]), 995.0, 478.0)
        away = flux(series_permeance([29.0, 2010.0, 57000.0]), 478.0, 175.0)
        assert towards == near(124746, rel=0.001)
        assert away == near(8661, rel=0.001)
        temperatures = interface_temperatures([0.12, 0.08, 1.90, 0.11, 0.18, 0.03], 21.0, -6.6)
        assert saturation_pressure(temperatures[3]) == near(478, rel=0.006)

    # ASHRAE Fundamentals 2021 ch. 27 example 9 (read): a wet board dries to both sides, in winter and in summer. Pa at
    # its two faces, ng/(s·m²), and g/m² in thirty days.
    @pytest.mark.parametrize(
        ("inside", "inner_face", "outer_face", "outside", "inward", "outward", "grams"),
        [(995.0, 751.0, 726.0, 175.0, 106, 28659, 74), (2219.0, 2929.0, 2923.0, 1967.0, -309, 49744, 130)],
    )
    def test_drying_of_handbook_board(self, inside, inner_face, outer_face, outside, inward, outward, grams):
        arriving = flux(series_permeance([9200.0, 290.0, 0.435, 1700.0]), inside, inner_face)
        leaving = flux(series_permeance([72.5, 185.0, 57000.0]), outer_face, outside)
        assert arriving == near(inward, rel=0.01)
        assert leaving == near(outward, rel=0.001)
        assert (leaving - arriving) * 1e-9 * 30 * 86400 == near(grams, rel=0.01)

    def test_dew_point_method_in_inch_pound(self):
        # ASHRAE Fundamentals ch. 23 to 27 by edition (memory): rep, inHg and grain/(h·ft²).
        parts = [5.0, 30.0, 0.5, 35.0]
        inch_of_mercury = 3386.389
        inside = vapour_pressure((70 - 32) / 1.8, 0.4) / inch_of_mercury
        outside = vapour_pressure((20 - 32) / 1.8, 0.5) / inch_of_mercury
        plane = saturation_pressure((26.4 - 32) / 1.8) / inch_of_mercury
        assert 1 / series_permeance(parts) == pytest.approx(2.26, abs=0.005)
        assert (inside, outside) == pytest.approx((0.296, 0.051), abs=0.002)
        assert flux(series_permeance(parts[:2]), inside, plane) == pytest.approx(0.67, abs=0.02)
        assert flux(series_permeance(parts[2:]), plane, outside) == pytest.approx(0.04, abs=0.02)

    def test_condensation_rate_of_textbook(self):
        # A German textbook on building physics, 13.2.5 examples a and b (read): g_c with the printed p_c.
        inward = flux(permeance_from_sd(0.95 + 2.0 + 0.16), 1168.0, 437.0)
        assert inward - flux(permeance_from_sd(1.9), 437.0, 321.0) == near(3.48e-8, rel=0.006)
        drying = flux(permeance_from_sd(3.11), 1700.0, 1200.0) + flux(permeance_from_sd(1.9), 1700.0, 1200.0)
        assert drying == near(8.48e-8, rel=0.001)
        inward = flux(permeance_from_sd(12.6 + 20.0 + 4.2), 1168.0, 412.0)
        assert inward - flux(permeance_from_sd(600.0), 412.0, 321.0) == near(4.078e-9, rel=0.004)

    def test_a_famous_ratio_is_no_constant(self):
        # Negative control: a trade article (read) has 0.3 L diffusing through a bare 32 ft² board in a season. At 70 °F
        # and 40 % (memory) against a cold outside, neither bare nor painted gypsum gives that.
        difference = vapour_pressure(21.1, 0.4) - vapour_pressure(-5.0, 0.7)
        for perm in (4.5, 50.0):
            litres = flux(perm * US_PERM, difference, 0.0) * 32 * 0.3048**2 * 180 * 86400
            assert litres > 2 * 0.315

    @given(permeances, st.floats(0, 5000), st.floats(0, 5000))
    def test_reversal_changes_the_sign_only(self, permeance, one, other):
        assert flux(permeance, one, other) == -flux(permeance, other, one)


class TestClass:
    """Retarder classes of the International Residential Code (R202, read)."""

    @pytest.mark.parametrize(
        ("perm", "name"),
        [
            (0.0, "I"),
            (0.06, "I"),
            (0.1, "I"),
            (0.1001, "II"),
            (1.0, "II"),
            (1.0001, "III"),
            (10.0, "III"),
            (10.001, "none"),
            (50.0, "none"),
        ],
    )
    def test_bounds_belong_to_the_tighter_class(self, perm, name):
        assert vapour_class(perm * US_PERM) == name

    @pytest.mark.parametrize(("perm", "name"), [(0.1, "I"), (1.0, "II"), (10.0, "III")])
    def test_rounding_of_a_unit_conversion_never_moves_a_class(self, perm, name):
        assert vapour_class(math.nextafter(perm * US_PERM, 1.0)) == name
        assert vapour_class(perm * US_PERM * (1 + 1e-6)) != name

    def test_canadian_barrier_limit_is_class_iii(self):
        # 60 ng dry cup (National Building Code of Canada, read) is 1.049 perm.
        assert vapour_class(60 * NANOGRAM) == "III"

    def test_sd_near_the_bounds(self):
        assert vapour_class(permeance_from_sd(3.4)) == "III"
        assert vapour_class(permeance_from_sd(3.5)) == "II"


class TestHumidityDependence:
    """Permeance from a curve."""

    CURVE = ((0.25, 50e-12), (0.50, 90e-12), (0.80, 480e-12))

    def test_points_lines_and_ends(self):
        assert [permeance_at(self.CURVE, humidity) for humidity, _ in self.CURVE] == [
            value for _, value in self.CURVE
        ]
        assert permeance_at(self.CURVE, 0.65) == near(285e-12)
        assert permeance_at(self.CURVE, 0.0) == 50e-12
        assert permeance_at(self.CURVE, 1.0) == 480e-12
        assert permeance_at([(0.5, 1e-10)], 0.9) == 1e-10

    @given(st.floats(0, 1), st.floats(0, 1))
    def test_a_rising_curve_rises(self, one, other):
        assert (one <= other) or permeance_at(self.CURVE, one) >= permeance_at(self.CURVE, other)

    @pytest.mark.parametrize(
        "curve",
        [(), ((0.5, 1e-10), (0.5, 2e-10)), ((0.8, 1e-10), (0.5, 2e-10)), ((1.5, 1e-10),), ((0.5, -1e-10),)],
    )
    def test_broken_curves_are_refused(self, curve):
        with pytest.raises(ValueError, match=r"must|needed"):
            permeance_at(curve, 0.5)


# Ideal gas arithmetic (computed): 25 mm and 10 ACH at 10 °C are 531 ng; 6 mm and 1 ACH 12.8 ng.
@pytest.mark.parametrize(
    ("depth", "changes", "nanograms"),
    [(0.025, 10, 531), (0.006, 1, 12.8), (0.006, 200, 2550), (0.010, 50, 1060)],
)
def test_ventilated_cavity(depth, changes, nanograms):
    assert ventilation_permeance(depth, changes, 10.0) / NANOGRAM == near(nanograms, rel=0.005)


def test_ventilated_cavity_agrees_with_handbook():
    # ASHRAE Fundamentals 2021 ch. 27, equivalent permeance (read): 1/Z = m·0.62/p_atm.
    density = 101325.0 / (287.055 * 283.15)
    handbook = density * 0.025 * 10 / 3600 * 0.62 / 101325.0
    assert ventilation_permeance(0.025, 10.0, 10.0) == near(handbook, rel=0.005)


def test_dew_point_follows_vapour_not_temperature():
    assert dew_point(vapour_pressure(20.0, 0.5)) == near(dew_point(vapour_pressure(20.0, 1.0) / 2))


@pytest.mark.parametrize(
    ("function", "arguments"),
    [
        (permeance_of, (1e-12, 0.0)),
        (permeance_of, (-1e-12, 0.1)),
        (permeance_from_resistance_factor, (0.5, 0.1)),
        (sd_of, (-1.0,)),
        (sd_of, (float("nan"),)),
        (permeance_from_sd, (-0.1,)),
        (series_permeance, ([1e-10, -1e-10],)),
        (flux, (math.inf, 1000.0, 500.0)),
        (flux, (1e-10, -1.0, 500.0)),
        (vapour_class, (-1e-12,)),
        (vapour_class, (float("nan"),)),
        (permeance_at, (((0.5, 1e-10),), 1.5)),
        (ventilation_permeance, (0.02, -1.0, 10.0)),
        (ventilation_permeance, (0.02, 1.0, -300.0)),
    ],
)
def test_impossible_layers_are_refused(function, arguments):
    with pytest.raises(ValueError, match="must"):
        function(*arguments)
