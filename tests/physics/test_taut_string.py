"""The vapour-pressure line against dew-point examples, a linear program, and what must hold of any such line."""

import math
import os
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from speccheck.physics.heat import interface_temperatures
from speccheck.physics.psychrometrics import saturation_pressure
from speccheck.physics.taut_string import (
    IMPERMEABLE,
    NO_RESISTANCE,
    at_a_surface,
    line_under,
    positions_of,
    taut_string,
    vapour_line,
)
from speccheck.physics.vapour import DELTA_AIR, US_PERM, sd_of, vapour_resistance

# How many random profiles are solved by the linear program: SPECCHECK_EXAMPLES=20000 for a long run.
EXAMPLES = int(os.environ.get("SPECCHECK_EXAMPLES", "2000"))


@st.composite
def profiles(draw, most_layers=20, wet=True):
    """sd of the layers, saturation at the interfaces, pressures of the air, wet interfaces."""
    count = draw(st.integers(1, most_layers))
    sd = draw(st.lists(st.floats(-3.0, 3.0).map(lambda x: 10.0**x), min_size=count, max_size=count))
    saturation = draw(st.lists(st.floats(20.0, 5000.0), min_size=count + 1, max_size=count + 1))
    inside, outside = draw(st.floats(0.0, 5000.0)), draw(st.floats(0.0, 5000.0))
    some = st.sets(st.integers(1, max(1, count - 1)), max_size=4) if wet and count > 1 else st.just(set())
    return sd, saturation, inside, outside, sorted(draw(some))


def by_linear_program(sd, saturation, inside, outside, wet):
    """Return the highest convex line under the saturation pressures, through the wet ones, from HiGHS."""
    import numpy as np
    from scipy.optimize import linprog

    last = len(sd)
    rows = []
    for j in range(1, last):
        if j not in wet:
            share = sd[j] / (sd[j - 1] + sd[j])
            row = np.zeros(last + 1)
            row[j], row[j - 1], row[j + 1] = 1.0, -share, share - 1.0
            rows.append(row)
    bounds = [(None, pressure / 1000.0) for pressure in saturation]
    for j in wet:
        bounds[j] = (saturation[j] / 1000.0,) * 2
    bounds[0], bounds[-1] = (inside / 1000.0,) * 2, (outside / 1000.0,) * 2
    found = linprog(
        -np.ones(last + 1),
        A_ub=np.array(rows) if rows else None,
        b_ub=np.zeros(len(rows)) if rows else None,
        bounds=bounds,
        method="highs",
        options={"primal_feasibility_tolerance": 1e-10, "dual_feasibility_tolerance": 1e-10},
    )
    assert found.status == 0, found.message
    return [1000.0 * value for value in found.x]


class TestLinearProgram:
    """The same obstacle problem solved by scipy's linear programming: an independent method."""

    @settings(max_examples=EXAMPLES, deadline=None)
    @given(profiles())
    def test_pressures_agree(self, profile):
        line = vapour_line(*profile)
        expected = by_linear_program(*profile)
        assert line.pressures == pytest.approx(expected, abs=1e-3, rel=1e-9)

    @settings(max_examples=max(EXAMPLES // 2, 10), deadline=None)
    @given(profiles())
    def test_rates_agree(self, profile):
        sd = profile[0]
        line = vapour_line(*profile)
        pressures = by_linear_program(*profile)
        slopes = [(b - a) / width for (a, b), width in zip(pairwise(pressures), sd, strict=True)]
        bends = dict(enumerate((DELTA_AIR * (b - a) for a, b in pairwise(slopes)), start=1))
        rates = dict(zip(line.contacts, line.rates, strict=True))
        for j, bend in bends.items():
            slack = DELTA_AIR * 2e-3 * (1.0 / sd[j - 1] + 1.0 / sd[j])
            assert rates.get(j, 0.0) == pytest.approx(bend, abs=slack, rel=1e-6)


class TestAnyLine:
    """What holds of every line, whatever the profile."""

    @given(profiles())
    def test_never_above_saturation_and_touching_at_contacts(self, profile):
        _, saturation, inside, outside, wet = profile
        line = vapour_line(*profile)
        assert line.pressures[0] == inside
        assert line.pressures[-1] == outside
        for j in range(1, len(saturation) - 1):
            if j in line.contacts:
                assert line.pressures[j] == saturation[j]
            else:
                assert line.pressures[j] <= saturation[j] * (1.0 + 1e-9)
        assert set(wet) <= set(line.contacts)

    @given(profiles())
    def test_only_wet_interfaces_evaporate(self, profile):
        line = vapour_line(*profile)
        for number, rate in zip(line.contacts, line.rates, strict=True):
            assert rate >= 0.0 or number in profile[4]

    @given(profiles())
    def test_mass_is_conserved(self, profile):
        line = vapour_line(*profile)
        largest = max(map(abs, (line.inflow, line.outflow, *line.rates)))
        assert math.fsum(line.rates) == pytest.approx(
            line.inflow - line.outflow, abs=1e-13 * largest, rel=0.0
        )

    @given(profiles())
    def test_mirrored_section_has_the_mirrored_line(self, profile):
        sd, saturation, inside, outside, wet = profile
        last = len(sd)
        line = vapour_line(*profile)
        mirrored = vapour_line(sd[::-1], saturation[::-1], outside, inside, [last - j for j in wet])
        assert mirrored.pressures == pytest.approx(line.pressures[::-1], rel=1e-9, abs=1e-9)
        assert mirrored.inflow == pytest.approx(-line.outflow, rel=1e-6, abs=1e-18)
        assert mirrored.outflow == pytest.approx(-line.inflow, rel=1e-6, abs=1e-18)

    @given(profiles(), st.floats(0.1, 10.0))
    def test_twice_the_resistance_is_half_the_rate(self, profile, factor):
        sd, saturation, inside, outside, wet = profile
        line = vapour_line(*profile)
        wider = vapour_line([factor * value for value in sd], saturation, inside, outside, wet)
        assert wider.pressures == pytest.approx(line.pressures, rel=1e-9, abs=1e-9)
        assert factor * wider.inflow == pytest.approx(line.inflow, rel=1e-6, abs=1e-18)

    @given(profiles(), st.floats(0.1, 10.0))
    def test_twice_the_pressures_are_twice_the_rates(self, profile, factor):
        sd, saturation, inside, outside, wet = profile
        line = vapour_line(*profile)
        higher = vapour_line(sd, [factor * p for p in saturation], factor * inside, factor * outside, wet)
        assert higher.pressures == pytest.approx([factor * p for p in line.pressures], rel=1e-9, abs=1e-9)
        assert higher.outflow == pytest.approx(factor * line.outflow, rel=1e-6, abs=1e-18)

    @given(profiles(wet=False), st.floats(1.0, 100.0))
    def test_tighter_inside_never_condenses_more_in_winter(self, profile, factor):
        sd, saturation, inside, outside, _ = profile
        # Winter: the section grows colder outward, and the moister air is inside.
        falling = sorted(saturation, reverse=True)
        inside, outside = max(inside, outside), min(inside, outside, falling[-1])
        before = vapour_line(sd, falling, inside, outside)
        after = vapour_line([factor * sd[0], *sd[1:]], falling, inside, outside)
        slack = 1e-9 * max(abs(before.inflow), abs(before.outflow))
        assert math.fsum(after.rates) <= math.fsum(before.rates) + slack

    @given(profiles(wet=False), st.floats(1.0, 2.0))
    def test_a_warmer_section_never_condenses_more(self, profile, factor):
        sd, saturation, inside, outside, _ = profile
        before = vapour_line(sd, saturation, inside, outside)
        after = vapour_line(sd, [factor * p for p in saturation], inside, outside)
        slack = 1e-9 * max(abs(before.inflow), abs(before.outflow))
        assert math.fsum(after.rates) <= math.fsum(before.rates) + slack

    @given(profiles(), st.data())
    def test_cutting_a_layer_in_two_changes_nothing(self, profile, data):
        sd, saturation, inside, outside, wet = profile
        cut = data.draw(st.integers(0, len(sd) - 1))
        line = vapour_line(*profile)
        finer = vapour_line(
            [*sd[:cut], sd[cut] / 2.0, sd[cut] / 2.0, *sd[cut + 1 :]],
            [*saturation[: cut + 1], 9000.0, *saturation[cut + 1 :]],
            inside,
            outside,
            [j if j <= cut else j + 1 for j in wet],
        )
        kept = [*finer.pressures[: cut + 1], *finer.pressures[cut + 2 :]]
        assert kept == pytest.approx(list(line.pressures), rel=1e-9, abs=1e-9)


class TestPrintedCases:
    """Planes that condense in printed dew-point examples."""

    def test_frame_wall_at_minus_sixteen(self):
        # Heat-transfer textbook, ch. 14, example 14-6: inputs and chain read, printed fluxes memory. 20 °C and 60 %
        # inside, -16 °C and 70 % outside; resistances in m²·s·Pa/ng from inside: gypsum, glass fibre, fibreboard, siding.
        sd = [DELTA_AIR * 1e12 * resistance for resistance in (0.012, 0.0004, 0.0138, 0.019)]
        temperature = 20.0 - 36.0 * (3.05 - 0.4) / 3.05
        assert temperature == pytest.approx(-11.3, abs=0.05)
        saturation = [2200.0, 2190.0, 234.0, 181.3, 155.0]
        line = vapour_line(sd, saturation, 1404.0, 106.0)
        assert line.contacts == (2,)
        assert line.inflow * 1e12 == pytest.approx(94355, rel=0.001)
        assert line.outflow * 1e12 == pytest.approx(3902, rel=0.001)
        assert line.rates[0] * 1e12 == pytest.approx(90453, rel=0.001)
        assert line.pressures[3] == pytest.approx(178.7, abs=2.0)

    def test_frame_wall_at_minus_sixteen_over_ice(self):
        # The same with our saturation over ice; over supercooled water the plane would be at 258 Pa (computed).
        sd = [DELTA_AIR * 1e12 * resistance for resistance in (0.012, 0.0004, 0.0138, 0.019)]
        plane = saturation_pressure(-11.28)
        assert plane == pytest.approx(232.0, abs=1.5)
        line = vapour_line(sd, [2200.0, 2190.0, plane, 181.3, 155.0], 1404.0, 106.0)
        assert line.rates[0] * 1e12 == pytest.approx(90636, rel=0.01)

    def test_inch_pound_dew_point_method(self):
        # ASHRAE Handbook Fundamentals, dew-point method example, ch. 23/24 (1993-2005), 27 (2009 on): memory.
        # 70 °F and 40 % in, 20 °F and 50 % out; films 0.68 and 0.17; gypsum, batt, plywood, siding.
        inch_of_mercury, grain = 3386.389, 64.79891e-6 / (3600.0 * 0.09290304)
        celsius = interface_temperatures([0.68, 0.45, 11.0, 0.62, 1.0, 0.17], 21.111, -6.667)[1:-1]
        assert [1.8 * t + 32.0 for t in celsius] == pytest.approx([67.6, 66.0, 26.4, 24.2, 20.6], abs=0.2)
        saturation = [saturation_pressure(t) for t in celsius]
        sd = [sd_of(perm * US_PERM) for perm in (5.0, 30.0, 0.5, 35.0)]
        line = vapour_line(sd, saturation, 0.2959 * inch_of_mercury, 0.0514 * inch_of_mercury)
        assert line.contacts == (2,)
        assert line.pressures[2] / inch_of_mercury == pytest.approx(0.1395, abs=0.002)
        assert line.inflow / grain == pytest.approx(0.67, abs=0.01)
        assert line.outflow / grain == pytest.approx(0.0434, abs=0.002)
        assert line.rates[0] / grain == pytest.approx(0.627, abs=0.01)

    def test_plaster_boards_then_a_film(self):
        # Heat and mass transfer textbook, 5th ed., ch. 14: statement read, follow-up and answers memory.
        board, film = 2.86e-9, 9.1e-12
        day = 24.0 * 86400.0
        saturation = [2339.0] * 3
        open_wall = vapour_line([sd_of(board)], saturation[:2], 0.6 * 2339.0, 0.0)
        assert open_wall.inflow * day == pytest.approx(8.32, abs=0.01)
        tight = vapour_line([sd_of(board), sd_of(film)], saturation, 0.6 * 2339.0, 0.0)
        assert 1000.0 * tight.outflow * day == pytest.approx(26.4, abs=0.1)
        assert vapour_resistance(film) > 300.0 * vapour_resistance(board)

    def test_two_planes_of_the_january_reference(self):
        # Computed reference of our own, cross-checked by time stepping and by a complementarity solution.
        line = vapour_line([0.5, 0.1, 3.0, 0.1, 5.0], [2280, 2270, 854.9, 820, 582.6, 565], 1071.7, 477.7)
        assert line.contacts == (2, 4)
        assert line.rates == pytest.approx((5.47142e-08, 1.3377e-08), rel=0.001, abs=0.0)


class TestEdges:
    """Layers that resist nothing or everything, and air that is saturated."""

    def test_one_layer_has_a_straight_line(self):
        line = vapour_line([2.0], [2300.0, 600.0], 1200.0, 400.0)
        assert line.contacts == ()
        assert line.inflow == line.outflow == pytest.approx(DELTA_AIR * 400.0, rel=1e-12, abs=0.0)

    def test_no_vapour_at_all(self):
        assert vapour_line([1.0, 1.0], [600.0] * 3, 0.0, 0.0).inflow == 0.0

    def test_saturated_on_both_sides_at_one_temperature(self):
        line = vapour_line([1.0, 0.3, 7.0], [1000.0] * 4, 1000.0, 1000.0)
        assert line.pressures == (1000.0,) * 4
        assert line.rates == ()

    def test_an_interface_without_resistance_to_the_air_takes_the_pressure_of_the_air(self):
        line = vapour_line([0.0, 1.0, 1.0], [400.0, 400.0, 900.0, 400.0], 1200.0, 300.0)
        assert at_a_surface([0.0, 1.0, 1.0]) == (True, True, False, True)
        assert line.contacts == ()
        assert line.pressures[1] == pytest.approx(1200.0, abs=0.01)

    def test_of_two_coinciding_interfaces_the_colder_holds_the_water(self):
        line = vapour_line([1.0, 0.0, 1.0], [2000.0, 700.0, 500.0, 300.0], 1200.0, 200.0)
        assert line.contacts == (2,)
        assert line.pressures[1] == pytest.approx(500.0, abs=0.01)

    def test_impermeable_on_both_sides_keeps_the_water(self):
        line = vapour_line([math.inf, 1.0, 1.0, math.inf], [900.0] * 5, 500.0, 500.0, wet=[2])
        year = 365 * 86400.0
        assert 0.0 < -line.rates[0] * year < 1e-5

    def test_bounds_of_the_axis(self):
        assert positions_of([0.0, math.inf]) == (0.0, NO_RESISTANCE, NO_RESISTANCE + IMPERMEABLE)

    def test_sixty_layers(self):
        saturation = [2200.0 * 0.97**j for j in range(61)]
        line = vapour_line([0.2] * 60, saturation, 1900.0, 200.0)
        assert len(line.contacts) > 10
        assert math.fsum(line.rates) == pytest.approx(line.inflow - line.outflow, rel=1e-12, abs=0.0)

    @given(
        st.lists(st.sampled_from([0.0, 1e-12, 1e-6, 0.01, 1.0, 1e4, 1e9, math.inf]), min_size=2, max_size=60),
        st.data(),
    )
    def test_hostile_profiles_stay_finite(self, sd, data):
        pressures = st.floats(0.001, 1.0e5)
        saturation = data.draw(st.lists(pressures, min_size=len(sd) + 1, max_size=len(sd) + 1))
        wet = data.draw(st.sets(st.integers(1, len(sd) - 1), max_size=5))
        line = vapour_line(sd, saturation, data.draw(pressures), data.draw(pressures), wet)
        assert all(math.isfinite(p) and p >= -1e-6 for p in line.pressures)
        assert all(map(math.isfinite, (line.inflow, line.outflow, *line.rates)))

    @pytest.mark.parametrize(
        ("sd", "saturation", "inside", "outside", "wet", "words"),
        [
            ([], [600.0], 500.0, 300.0, (), "at least one layer"),
            ([-1.0], [600.0] * 2, 500.0, 300.0, (), "must not be negative"),
            ([math.nan], [600.0] * 2, 500.0, 300.0, (), "must not be negative"),
            ([1.0, 1.0], [600.0] * 2, 500.0, 300.0, (), "3 interfaces"),
            ([1.0, 1.0], [600.0, 0.0, 600.0], 500.0, 300.0, (), "above zero"),
            ([1.0, 1.0], [600.0] * 3, -1.0, 300.0, (), "indoor"),
            ([1.0, 1.0], [600.0] * 3, 500.0, math.inf, (), "outdoor"),
            ([1.0, 1.0], [600.0] * 3, 500.0, 2.0e5, (), "outdoor"),
            ([1.0, 1.0], [600.0] * 3, 500.0, 300.0, (0,), "between two layers"),
            ([1.0, 1.0], [600.0] * 3, 500.0, 300.0, (2,), "between two layers"),
        ],
    )
    def test_what_cannot_be_is_refused(self, sd, saturation, inside, outside, wet, words):
        with pytest.raises(ValueError, match=words):
            vapour_line(sd, saturation, inside, outside, wet)


class TestString:
    """The string itself."""

    def test_it_rests_on_the_lowest_points_only(self):
        assert taut_string([0, 1, 2, 3, 4], [10, 5, 4, 5, 10]) == [0, 1, 2, 3, 4]
        assert taut_string([0, 1, 2, 3, 4], [10, 9, 1, 9, 10]) == [0, 2, 4]

    def test_a_point_on_the_straight_line_is_no_contact(self):
        assert taut_string([0, 1, 2], [4, 3, 2]) == [0, 2]

    def test_every_point_pinned(self):
        assert taut_string([0, 1, 2, 3], [4, 9, 1, 2], [1, 2]) == [0, 1, 2, 3]

    def test_an_unbounded_point_is_passed_by(self):
        assert line_under([0.0, 1.0, 2.0], [4.0, math.inf, 2.0]).pressures == (4.0, 3.0, 2.0)
