"""The temperature factor each month asks for, against cases by humidity class."""

import pytest

from speccheck.physics.monthly_balance import MonthlyClimate
from speccheck.physics.surface_year import surface_year

# Required factor at 80 % by humidity class in the reference climate (case C5, worked out beside this code).
BY_CLASS = {2: (12, 0.593, 12.27), 3: (2, 0.773, 15.45), 4: (2, 0.924, 18.48)}
CLASS_3 = {1: 0.765, 2: 0.773, 3: 0.676, 4: 0.496, 10: 0.625, 11: 0.733, 12: 0.772}


@pytest.mark.parametrize("humidity_class", BY_CLASS)
def test_governing_month_by_class(reference_year, humidity_class):
    governs = surface_year(reference_year(humidity_class)).governs
    month, factor, temperature = BY_CLASS[humidity_class]
    assert governs.month == month
    assert governs.factor == pytest.approx(factor, abs=0.001)
    assert governs.temperature == pytest.approx(temperature, abs=0.01)


def test_each_month_of_class_three(reference_year):
    year = surface_year(reference_year(3))
    for month, factor in CLASS_3.items():
        assert year.months[month - 1].factor == pytest.approx(factor, abs=0.001)


def test_the_fixed_value_of_the_german_standard():
    # DIN 4108-2: 20 °C and 50 % in, -5 °C out; 12.6 °C at the surface and 0.70 (read); exactly 0.705.
    climate = MonthlyClimate((20.0,) * 12, (1168.5,) * 12, (-5.0,) * 12, (321.0,) * 12)
    governs = surface_year(climate).governs
    assert governs.temperature == pytest.approx(12.6, abs=0.05)
    assert governs.factor == pytest.approx(0.705, abs=0.001)


def test_a_climate_never_colder_outside_asks_for_nothing():
    climate = MonthlyClimate((24.0,) * 12, (1800.0,) * 12, (24.0,) * 6 + (31.0,) * 6, (3000.0,) * 12)
    year = surface_year(climate)
    assert year.governs is None
    assert all(month.factor is None for month in year.months)


def test_a_drier_surface_criterion_asks_for_more(reference_year):
    climate = reference_year(2)
    assert surface_year(climate, 0.6).governs.factor > surface_year(climate, 0.8).governs.factor
    assert surface_year(climate, 1.0).governs.factor < surface_year(climate, 0.8).governs.factor
