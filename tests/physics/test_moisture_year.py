"""The year around the months: where it begins and what it is called."""

import pytest

from speccheck.physics.moisture_year import MONTH_SECONDS, TRACE, MoistureMonth, run_year


def months_that_gain(gains):
    """Run one interface that gains or loses so much in each month, January first, and never less than it has."""

    def run_month(number, water):
        mass = max(0.0, water[1] + gains[number - 1])
        row = (0.0, mass, 0.0)
        change = (0.0, mass - water[1], 0.0)
        top = (0.0, max(water[1], mass), 0.0)
        ones = (1.0,) * 3
        return MoistureMonth(number, ones, ones, ones, row, change, top, 0.0, 0.0, ())

    return run_month


def test_the_months_of_a_common_year():
    assert sum(MONTH_SECONDS) == 365 * 86400.0
    assert MONTH_SECONDS[1] == 28 * 86400.0


WINTER = [0.02, 0.02, 0.01, -0.01, -0.02, -0.03, -0.03, -0.03, -0.02, -0.01, 0.01, 0.02]


@pytest.mark.parametrize("trial", range(1, 13))
def test_forward_from_a_dry_month_and_back_from_a_wet_one(trial):
    year = run_year(months_that_gain(WINTER), 3, trial)
    assert year.starting_month == 11
    assert [month.month for month in year.months] == [11, 12, *range(1, 11)]
    assert year.verdict == "dries"
    assert year.peak.peak == pytest.approx(0.08)
    assert year.peak.peak_month == 3
    assert year.dry_month == 7


def test_two_wet_seasons_begin_with_the_one_met_first():
    gains = [0.0, 0.01, 0.0, -0.1, 0.0, 0.0, 0.01, 0.0, -0.1, 0.0, 0.0, 0.0]
    assert run_year(months_that_gain(gains), 3, 10).starting_month == 2
    assert run_year(months_that_gain(gains), 3, 6).starting_month == 7


def test_all_year_wet_begins_with_the_trial_month_and_stays():
    year = run_year(months_that_gain([0.01] * 12), 3, 5)
    assert (year.starting_month, year.verdict, year.dry_month) == (5, "accumulates", None)
    assert year.water[1] == pytest.approx(0.12)
    assert year.peak.peak_month == 4


def test_traces_are_carried_on_but_not_called_water():
    year = run_year(months_that_gain([TRACE / 20.0] * 12), 3)
    assert year.verdict == "none"
    assert year.wet == ()
    assert year.water[1] == pytest.approx(0.6 * TRACE)


def test_water_at_the_beginning_is_carried_from_the_trial_month():
    year = run_year(months_that_gain([-0.01] * 12), 3, 4, water=(0.0, 0.035, 0.0))
    assert year.starting_month == 4
    assert year.dry_month == 7
    assert year.peak.peak == 0.035


def test_the_dry_month_is_that_of_the_last_interface():
    def run_month(number, water):
        row = tuple(max(0.0, mass - loss) for mass, loss in zip(water, (0.0, 0.02, 0.01, 0.0), strict=True))
        ones = (1.0,) * 4
        return MoistureMonth(number, ones, ones, ones, row, ones, tuple(water), 0.0, 0.0, ())

    year = run_year(run_month, 4, 1, water=(0.0, 0.05, 0.05, 0.0))
    assert [(one.interface, one.dry_month) for one in year.wet] == [(1, 3), (2, 5)]
    assert year.dry_month == 5


def test_a_month_that_is_none_is_refused():
    with pytest.raises(ValueError, match="13 is no month"):
        run_year(months_that_gain(WINTER), 3, 13)
