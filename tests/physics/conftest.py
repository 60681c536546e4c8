"""The reference year and sections of the moisture tests."""

import pytest

from speccheck.physics.indoor_climate import by_humidity_class
from speccheck.physics.moisture_section import MoistureLayer, MoistureSection
from speccheck.physics.monthly_balance import MonthlyClimate
from speccheck.physics.psychrometrics import vapour_pressure

# A made-up year without a station, for which independent implementations were run.
TEMPERATURES = (-1.0, 0.0, 4.0, 9.0, 14.0, 17.0, 18.0, 18.0, 14.0, 9.0, 4.0, 1.0)
HUMIDITIES = (0.85, 0.84, 0.78, 0.72, 0.70, 0.70, 0.72, 0.74, 0.78, 0.83, 0.88, 0.88)


@pytest.fixture(scope="session")
def reference_year():
    """Twelve months of the reference climate indoors by a humidity class."""

    def of_class(humidity_class):
        outside = [vapour_pressure(t, rh) for t, rh in zip(TEMPERATURES, HUMIDITIES, strict=True)]
        rooms = [by_humidity_class(t, p, humidity_class) for t, p in zip(TEMPERATURES, outside, strict=True)]
        return MonthlyClimate(
            (20.0,) * 12, tuple(room.pressure for room in rooms), TEMPERATURES, tuple(outside)
        )

    return of_class


@pytest.fixture(scope="session")
def section_of():
    """A section from (R, sd) pairs, inside first."""

    def build(*layers, inside_film=0.13, outside_film=0.04):
        return MoistureSection(tuple(MoistureLayer(*layer) for layer in layers), inside_film, outside_film)

    return build
