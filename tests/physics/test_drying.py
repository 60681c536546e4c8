"""What a wet interface could lose, which way, and the reserve."""

import math
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from speccheck.physics.drying import (
    RESERVE_ROOF,
    RESERVE_WALL,
    drying_month,
    drying_potential,
    drying_reserve,
)
from speccheck.physics.moisture_section import MoistureLayer, MoistureSection, profile_of, strips_of
from speccheck.physics.moisture_year import MONTH_SECONDS
from speccheck.physics.monthly_balance import MonthlyClimate, monthly_balance
from speccheck.physics.period_balance import period_balance
from speccheck.physics.wet_spell import through_spell

WALL = ((0.05, 0.1), (0.0, 2.0), (4.0, 0.16), (0.06, 3.0))


def test_by_hand_at_one_temperature(section_of):
    # 20 °C at half saturation: 1168.5 Pa over sd 0.5 m inward and 4 m outward for 31 days; nothing is colder.
    strips = strips_of(section_of((0.1, 0.5), (0.1, 4.0)))
    month = drying_month(strips, profile_of(strips, 20.0, 20.0, 1168.5, 1168.5), 1, MONTH_SECONDS[0])
    assert month.inward == pytest.approx(2e-10 * 1168.5 / 0.5 * 31 * 86400, rel=1e-4)
    assert month.outward == pytest.approx(2e-10 * 1168.5 / 4.0 * 31 * 86400, rel=1e-4)
    assert month.net == month.leaves == month.inward + month.outward
    assert month.moved == 0.0


def test_by_hand_under_a_tight_skin(section_of):
    # The skin is at 0 °C, 610.5 Pa (saturation by ISO 13788, memory): that much stands under it, and 500 Pa outside.
    section = section_of((0.0, 0.5), (2.0, 2.0), (0.0, 100.0), inside_film=0.0, outside_film=0.0)
    strips = strips_of(section, counts=(1, 1, 1))
    month = drying_month(strips, profile_of(strips, 20.0, 0.0, 1168.5, 500.0), 1, MONTH_SECONDS[0])
    a_month = 2e-10 * MONTH_SECONDS[0]
    assert month.inward == pytest.approx(a_month * (2337.0 - 1168.5) / 0.5, rel=1e-3)
    assert month.outward == pytest.approx(a_month * (610.5 - 500.0) / 100.0, rel=1e-3)
    reaching_the_skin = a_month * (2337.0 - 610.5) / 2.0
    assert month.moved == pytest.approx(reaching_the_skin - month.outward, rel=1e-3)


def test_vapour_from_the_room_that_condenses_on_the_way_neither_dries_nor_wets(section_of):
    # The place between is colder than the wet one outside of it: what it holds back from the room is no drying of either.
    section = section_of((2.0, 1.0), (0.0, 1.0), (0.0, 1.0), inside_film=0.0, outside_film=0.0)
    strips = strips_of(section, counts=(1, 1, 1))
    cold = profile_of(strips, 20.0, 0.0, 1168.5, 400.0)
    ceiling = (cold.ceiling[0], 500.0, *cold.ceiling[2:])
    month = drying_month(strips, cold._replace(ceiling=ceiling), 2, MONTH_SECONDS[0])
    assert month.inward == 0.0
    assert month.moved == pytest.approx(2e-10 * (610.5 - 500.0) / 1.0 * MONTH_SECONDS[0], rel=1e-3)


def test_the_potential_is_the_rate_of_the_year_while_water_lies_there(section_of, reference_year):
    # In April and May the plane of the reference wall is wet throughout: what it loses is its potential.
    section, climate = section_of(*WALL), reference_year(2)
    plane = strips_of(section).faces(2)[1]
    potential = drying_potential(section, climate, plane)
    year = monthly_balance(section, climate)
    for number, grams in ((4, -62.35), (5, -163.02)):
        month = next(month for month in year.months if month.month == number)
        assert month.change[plane] == pytest.approx(-potential.months[number - 1].leaves, rel=1e-9)
        assert 1000 * month.change[plane] == pytest.approx(grams, rel=0.001)
    january = potential.months[0]
    assert january.inward < 0.0 < january.outward
    assert january.net < 0.0


def test_tightening_one_side_closes_that_way_only(section_of, reference_year):
    climate = reference_year(2)
    open_wall = section_of(*WALL)
    tight_inside = section_of((0.05, 0.1), (0.0, 200.0), *WALL[2:])
    plane = strips_of(open_wall).faces(2)[1]
    before = drying_potential(open_wall, climate, plane)
    after = drying_potential(tight_inside, climate, plane)
    assert after.inward < 0.02 * before.inward
    assert after.outward == pytest.approx(before.outward)


def test_sums_leave_out_the_months_that_wet(section_of, reference_year):
    potential = drying_potential(
        section_of(*WALL), reference_year(2), strips_of(section_of(*WALL)).faces(2)[1]
    )
    drying = [month.net for month in potential.months if month.net > 0.0]
    assert 0 < len(drying) < 12
    assert potential.net == pytest.approx(sum(drying))
    assert potential.net > math.fsum(month.net for month in potential.months)


LAYERS = st.lists(
    st.builds(MoistureLayer, st.sampled_from([0.0, 0.05, 0.2, 1.0, 4.0]), st.floats(0.01, 50.0)),
    min_size=2,
    max_size=6,
)
TWELVE = st.lists(st.floats(-30.0, 35.0), min_size=12, max_size=12)
AIR = st.lists(st.floats(50.0, 3500.0), min_size=12, max_size=12)


@st.composite
def wet_places(draw):
    """A section, its climates and a place between two of its layers."""
    section = MoistureSection(tuple(draw(LAYERS)), 0.13, 0.04)
    climate = MonthlyClimate((20.0,) * 12, tuple(draw(AIR)), tuple(draw(TWELVE)), tuple(draw(AIR)))
    return section, climate, draw(st.integers(1, len(strips_of(section).positions) - 2))


class TestAnyPlace:
    """What holds of every wet place: conservation of mass, and the order that tighter layers bring."""

    @settings(max_examples=60, deadline=None)
    @given(wet_places())
    def test_what_leaves_arrives_somewhere(self, case):
        # Against the monthly account: so much water lies at the place that it does not run dry.
        section, climate, place = case
        strips = strips_of(section)
        lake = [0.0] * len(strips.positions)
        lake[place] = 1e6
        for number, month in enumerate(drying_potential(section, climate, place).months):
            profile = profile_of(
                strips,
                climate.inside_temperature[number],
                climate.outside_temperature[number],
                climate.inside_pressure[number],
                climate.outside_pressure[number],
            )
            spell = through_spell(strips.positions, profile.ceiling, lake, MONTH_SECONDS[number])
            assert month.leaves == pytest.approx(
                1e6 - spell.water[place], abs=1e-6 * (1.0 + abs(month.leaves))
            )
            assert month.moved >= 0.0
            # what is found elsewhere came from here or from the air
            elsewhere = sum(mass for number, mass in enumerate(spell.water) if number != place)
            assert month.moved <= elsewhere * (1 + 1e-9) + 1e-12
            # the air gets no more than passes its surface
            assert max(0.0, month.inward) <= max(0.0, -spell.inflow) * (1 + 1e-9) + 1e-12
            assert max(0.0, month.outward) <= max(0.0, spell.outflow) * (1 + 1e-9) + 1e-12

    @settings(max_examples=60, deadline=None)
    @given(wet_places(), st.floats(1.0, 1e4))
    def test_a_tighter_outside_never_lets_more_out(self, case, tighter):
        section, climate, place = case
        before, after = (
            drying_potential(
                replace(section, layers=(*section.layers, MoistureLayer(0.0, sd))), climate, place
            )
            for sd in (0.05, 0.05 * tighter)
        )
        assert after.outward <= before.outward * (1 + 1e-9)
        assert after.inward == pytest.approx(before.inward, rel=1e-9, abs=1e-12)

    @settings(max_examples=40, deadline=None)
    @given(wet_places())
    def test_nothing_gets_out_through_a_sealed_skin(self, case):
        section, climate, place = case
        skin = MoistureLayer(0.0, math.inf)
        sealed = replace(section, layers=(*section.layers, skin))
        potential = drying_potential(sealed, climate, place)
        # IMPERMEABLE is 1e6 m: at most 8 kPa over it for a year
        assert potential.outward <= 2e-10 * 8000.0 / 1e6 * sum(MONTH_SECONDS)
        sealed_inside = replace(section, layers=(skin, *section.layers))
        strips = strips_of(section), strips_of(sealed_inside)
        inner = place + len(strips[1].positions) - len(strips[0].positions)
        assert drying_potential(sealed_inside, climate, inner).inward <= 2e-10 * 8e3 / 1e6 * sum(
            MONTH_SECONDS
        )

    @settings(max_examples=40, deadline=None)
    @given(wet_places())
    def test_the_mirrored_section_dries_the_mirrored_way(self, case):
        section, climate, place = case
        mirrored = MoistureSection(section.layers[::-1], section.outside_film, section.inside_film)
        weather = MonthlyClimate(
            climate.outside_temperature,
            climate.outside_pressure,
            climate.inside_temperature,
            climate.inside_pressure,
        )
        count = len(strips_of(section).positions)
        one, other = (
            drying_potential(section, climate, place),
            drying_potential(mirrored, weather, count - 1 - place),
        )
        close = {"rel": 1e-6, "abs": 1e-9}
        assert one.inward == pytest.approx(other.outward, **close)
        assert one.outward == pytest.approx(other.inward, **close)
        assert one.moved == pytest.approx(other.moved, **close)
        assert one.net == pytest.approx(other.net, **close)


def test_reserve_of_the_textbook_wall():
    # Textbook example a (read): 0.659 kg/m² could evaporate, 0.27 condenses; DIN 68800-2 asks 100 g/m² of a wall (memory).
    balance = period_balance(
        [MoistureLayer(*pair) for pair in ((0.15, 0.95), (0.0, 2.0), (4.0, 0.16), (0.15, 1.9))]
    )
    reserve = drying_reserve(balance.condensed, balance.evaporable)
    assert reserve == pytest.approx(0.39, abs=0.003)
    assert reserve == balance.reserve
    assert reserve > RESERVE_ROOF > RESERVE_WALL
    assert drying_reserve(balance.condensed, balance.evaporable, convective=0.5) < 0.0


def test_surfaces_have_no_potential(section_of, reference_year):
    section = section_of((0.1, 0.0), (0.1, 1.0), (0.1, 1.0))
    for interface in (0, 1, 3):
        with pytest.raises(ValueError, match="at a surface"):
            drying_potential(section, reference_year(2), interface)
    with pytest.raises(ValueError, match="no interface 4"):
        drying_potential(section, reference_year(2), 4)


@pytest.mark.parametrize(
    "masses", [(-0.1, 0.5, 0.0), (0.1, math.nan, 0.0), (0.1, math.inf, 0.0), (0.1, 0.5, -0.1)]
)
def test_masses_that_cannot_be_are_refused(masses):
    with pytest.raises(ValueError, match="must"):
        drying_reserve(*masses)
