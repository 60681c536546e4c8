"""Coldest and warmest months, and means over months."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from speccheck.physics.climate_means import coldest_months, mean_over, warmest_months, winter_mean

# Monthly means of the sample climate of ISO 13788:2012 annex C (memory): January first.
MONTHS = [-1.0, 0.0, 4.0, 9.0, 14.0, 18.0, 19.0, 19.0, 15.0, 10.0, 5.0, 1.0]
years = st.lists(st.floats(-60, 50), min_size=12, max_size=12)


def test_months_by_hand() -> None:
    assert coldest_months(MONTHS, 3) == (1, 2, 12)
    assert coldest_months(MONTHS) == (1,)
    assert warmest_months(MONTHS) == (7,)  # of July and August, equal, the earlier
    assert warmest_months(MONTHS, 2) == (7, 8)
    assert winter_mean(MONTHS) == pytest.approx(0.0)
    assert mean_over((6, 7, 8), MONTHS) == pytest.approx(56 / 3)


@given(years, st.integers(1, 12))
def test_what_is_left_is_never_colder(year: list[float], count: int) -> None:
    cold = coldest_months(year, count)
    left = [month for month in range(1, 13) if month not in cold]
    assert len(cold) == count
    assert cold == tuple(sorted(cold))
    if left:
        assert max(year[month - 1] for month in cold) <= min(year[month - 1] for month in left)


@given(years)
def test_cold_months_of_a_year_turned_over_are_its_warm_ones(year: list[float]) -> None:
    assert warmest_months(year, 4) == coldest_months([-month for month in year], 4)
    assert min(year) - 1e-9 <= winter_mean(year) <= sum(year) / 12 + 1e-9


@pytest.mark.parametrize("count", [0, 13])
def test_a_count_out_of_range_is_refused(count: int) -> None:
    with pytest.raises(ValueError, match="twelve"):
        coldest_months(MONTHS, count)


def test_a_short_year_is_refused() -> None:
    with pytest.raises(ValueError, match="not 11"):
        winter_mean(MONTHS[:11])
    with pytest.raises(ValueError, match="not 11"):
        mean_over((1,), MONTHS[:11])
    for months in ((), (0,), (13,)):
        with pytest.raises(ValueError, match="no months"):
            mean_over(months, MONTHS)
