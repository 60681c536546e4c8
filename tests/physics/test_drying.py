"""What a wet interface could lose, which way, and the reserve."""

import math

import pytest

from speccheck.physics.drying import (
    RESERVE_ROOF,
    RESERVE_WALL,
    drying_month,
    drying_potential,
    drying_reserve,
)
from speccheck.physics.moisture_section import profile_of, strips_of
from speccheck.physics.moisture_year import MONTH_SECONDS
from speccheck.physics.monthly_balance import monthly_balance
from speccheck.physics.period_balance import period_balance

WALL = ((0.05, 0.1), (0.0, 2.0), (4.0, 0.16), (0.06, 3.0))


def test_by_hand_at_one_temperature(section_of):
    # 20 °C at half saturation: 1168.5 Pa over sd 0.5 m inward and 4 m outward for 31 days.
    strips = strips_of(section_of((0.1, 0.5), (0.1, 4.0)))
    month = drying_month(strips, profile_of(strips, 20.0, 20.0, 1168.5, 1168.5), 1, MONTH_SECONDS[0])
    assert month.inward == pytest.approx(2e-10 * 1168.5 / 0.5 * 31 * 86400, rel=1e-4)
    assert month.outward == pytest.approx(2e-10 * 1168.5 / 4.0 * 31 * 86400, rel=1e-4)
    assert month.net == month.inward + month.outward


def test_the_potential_is_the_rate_of_the_year_while_water_lies_there(section_of, reference_year):
    # In April and May the plane of the reference wall is wet throughout: what it loses is its potential.
    section, climate = section_of(*WALL), reference_year(2)
    plane = strips_of(section).faces(2)[1]
    potential = drying_potential(section, climate, plane)
    year = monthly_balance(section, climate)
    for number, grams in ((4, -62.35), (5, -163.02)):
        month = next(month for month in year.months if month.month == number)
        assert month.change[plane] == pytest.approx(-potential.months[number - 1].net, rel=1e-9)
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


def test_reserve_of_the_textbook_wall():
    # Textbook example a (read): 0.659 kg/m² could evaporate, 0.27 condenses; DIN 68800-2 asks 100 g/m² of a wall (memory).
    from speccheck.physics.moisture_section import MoistureLayer

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
