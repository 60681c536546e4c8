"""Months damp and warm enough for mould: 80 % while 5 to 40 °C (ASHRAE 160-2009, read in an abstract)."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from speccheck.physics.damp_months import DampMonths, damp_months

WARM, DAMP, DRY = 15.0, 0.85, 0.6


def year(**months):
    """Twelve warm dry months, some of them damp by their number."""
    return [DAMP if number in months["damp"] else DRY for number in range(1, 13)]


def test_a_run_goes_on_over_the_turn_of_the_year():
    assert damp_months([WARM] * 12, year(damp={11, 12, 1, 2})) == DampMonths(4, 4)


def test_a_dry_month_ends_the_run():
    assert damp_months([WARM] * 12, year(damp={1, 2, 3, 5, 6})) == DampMonths(5, 3)


def test_all_year_is_twelve_and_not_more():
    assert damp_months([WARM] * 12, [1.2] * 12) == DampMonths(12, 12)


@pytest.mark.parametrize(
    ("temperature", "humidity", "counts"),
    [(5.0, 0.80, 12), (4.99, 0.80, 0), (5.0, 0.799, 0), (40.0, 0.9, 12), (40.1, 0.9, 0)],
)
def test_the_edges(temperature, humidity, counts):
    assert damp_months([temperature] * 12, [humidity] * 12).count == counts


@given(st.lists(st.booleans(), min_size=12, max_size=12), st.integers(0, 11))
def test_where_the_year_begins_does_not_matter(damp, turn):
    humidities = [DAMP if one else DRY for one in damp]
    turned = humidities[turn:] + humidities[:turn]
    found = damp_months([WARM] * 12, humidities)
    assert damp_months([WARM] * 12, turned) == found
    assert found.longest_run <= found.count == sum(damp)


def test_twelve_months_or_none():
    with pytest.raises(ValueError, match="twelve"):
        damp_months([WARM] * 11, [DAMP] * 12)
    with pytest.raises(ValueError, match="humidity"):
        damp_months([WARM] * 12, [DAMP] * 12, damp=1.2)
