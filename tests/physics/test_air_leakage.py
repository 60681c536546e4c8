"""Leakage flows, areas, geometry and air density against printed values."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from speccheck.physics.air_leakage import (
    DRY_AIR_DENSITY,
    air_change_rate,
    air_changes_from_air_permeability,
    air_density,
    air_permeability,
    air_permeability_from_air_changes,
    flow_at_pressure,
    leakage_area,
    leakage_flow,
    stagnation_pressure,
)

CUBIC_FOOT_PER_MINUTE = 0.3048**3 / 60
SQUARE_INCH = 0.0254**2


class TestPowerLaw:
    """Flow at another pressure."""

    def test_ignored_baseline(self):
        # A support note of a maker of test fans (read): ignoring a baseline of -2.5 Pa at 50 Pa reads about 3 % low.
        assert flow_at_pressure(1.0, 50.0, 52.5) - 1 == pytest.approx(0.0328, abs=0.001)
        assert 0.030 < 1 - flow_at_pressure(1.0, 50.0, 47.5) < 0.035

    # Exact data of C 80, n 0.65 in m³/h (computed: regression).
    @pytest.mark.parametrize(
        ("pressure", "flow"),
        [(10, 357.35), (20, 560.74), (30, 729.83), (40, 879.89), (50, 1017.23), (60, 1145.22)],
    )
    def test_round_trip_of_made_up_house(self, pressure, flow):
        assert flow_at_pressure(80.0, 1.0, pressure) == pytest.approx(flow, abs=0.006)

    # A university course book (read): n 0.6434, C 53.3956 m³/h; the flows at 50 and 4 Pa are computed.
    @pytest.mark.parametrize(("pressure", "flow"), [(50, 661.77), (25, 423.65), (10, 234.94), (4, 130.29)])
    def test_course_book_house(self, pressure, flow):
        assert flow_at_pressure(53.395623, 1.0, pressure, 0.643449) == pytest.approx(flow, abs=0.02)

    @given(st.floats(0.001, 10), st.floats(1, 100), st.floats(1, 100), st.floats(0.5, 1.0))
    def test_there_and_back(self, flow, pressure, target, exponent):
        there = flow_at_pressure(flow, pressure, target, exponent)
        assert flow_at_pressure(there, target, pressure, exponent) == pytest.approx(flow)

    @given(st.floats(1, 100), st.floats(1, 100))
    def test_more_pressure_more_flow(self, one, other):
        low, high = sorted((one, other))
        assert flow_at_pressure(1.0, 50.0, low) <= flow_at_pressure(1.0, 50.0, high)

    def test_no_pressure_no_flow(self):
        assert flow_at_pressure(1.0, 50.0, 0.0) == 0.0


class TestGeometry:
    """Air changes and air permeability do not convert without volume and area."""

    def test_made_up_house(self):
        # Computed: 0.57216 m³/s at 50 Pa in 300 m³.
        assert air_change_rate(0.57216, 300.0) == pytest.approx(6.87, abs=0.005)

    def test_definition_in_inch_pound(self):
        # ANSI/RESNET/ICC 380 (memory): ACH50 = CFM50·60/volume.
        assert air_change_rate(1000 * CUBIC_FOOT_PER_MINUTE, 20000 * 0.3048**3) == pytest.approx(3.0)

    @given(st.floats(0, 20), st.floats(50, 5000), st.floats(50, 5000))
    def test_round_trip(self, changes, volume, area):
        permeability = air_permeability_from_air_changes(changes, volume, area)
        assert air_changes_from_air_permeability(permeability, volume, area) == pytest.approx(changes)

    def test_one_house_two_geometries(self):
        compact = air_permeability_from_air_changes(3.0, 500.0, 400.0)
        spread = air_permeability_from_air_changes(3.0, 500.0, 600.0)
        assert compact == pytest.approx(1.5 * spread)
        assert compact == air_permeability(3.0 * 500.0 / 3600.0, 400.0)


class TestAreas:
    """Leakage areas, orifices and wind."""

    def test_inch_pound_constant(self):
        # ANSI/RESNET/ICC 380 (memory): ELA = 0.055 in² per CFM50, from n 0.65, 4 Pa, Cd 1.
        at_4 = flow_at_pressure(CUBIC_FOOT_PER_MINUTE, 50.0, 4.0)
        assert leakage_area(at_4, 4.0) / SQUARE_INCH == pytest.approx(0.055, abs=0.0002)

    # CAN/CGSB-149.10 against ASTM E779 (memory, 1.88 at n 0.65; others computed).
    @pytest.mark.parametrize(("exponent", "ratio"), [(0.50, 1.637), (0.65, 1.878), (0.70, 1.966)])
    def test_canadian_area_is_almost_twice_the_american(self, exponent, ratio):
        american = leakage_area(flow_at_pressure(1.0, 50.0, 4.0, exponent), 4.0)
        canadian = leakage_area(flow_at_pressure(1.0, 50.0, 10.0, exponent), 10.0, 0.611)
        assert canadian / american == pytest.approx(ratio, abs=0.001)

    def test_course_book_house(self):
        # Computed from the read C and n: ELA 140.4 cm², EqLA 262.1 cm².
        assert leakage_area(130.29 / 3600, 4.0) * 1e4 == pytest.approx(140.4, abs=0.1)
        assert leakage_area(234.94 / 3600, 10.0, 0.611) * 1e4 == pytest.approx(262.1, abs=0.1)

    def test_orifice_in_inch_pound(self):
        # A page on air-leakage formulas (read): 0.05 inWG gives 895 fpm and, through 2 ft², about 1800 cfm.
        speed = leakage_flow(1.0, 0.05 * 249.089) / 0.3048 * 60
        assert speed == pytest.approx(895, abs=1.5)
        assert speed * 2 == pytest.approx(1800, abs=50)

    @pytest.mark.parametrize(("pressure", "litres"), [(1, 0.50), (2, 0.71), (4, 1.0)])
    def test_one_square_inch(self, pressure, litres):
        # Computed with Cd 0.6.
        assert 1000 * leakage_flow(SQUARE_INCH, pressure, 0.6) == pytest.approx(litres, abs=0.01)

    def test_wind(self):
        # University of Iceland course notes, ch. 4, examples 4.1 and 4.2 (read): 5 m/s, 1.25 kg/m³.
        pressure = stagnation_pressure(5.0, 1.25)
        assert pressure == pytest.approx(15.6, abs=0.1)
        assert pressure * (0.7 + 0.5) == pytest.approx(18.7, abs=0.1)
        # Negative control: the notes print 18.7 Pa for a coefficient difference of 1.0 as well, a copy slip.
        assert pressure * (0.7 + 0.3) != pytest.approx(18.7, abs=0.1)

    @given(st.floats(1e-6, 1.0), st.floats(1, 100), st.floats(0.1, 1.0))
    def test_area_and_flow_are_one_question(self, area, pressure, coefficient):
        assert leakage_area(
            leakage_flow(area, pressure, coefficient), pressure, coefficient
        ) == pytest.approx(area)


class TestDensity:
    """Equations of EN 13829 / ISO 9972 (vapour term read, density memory); values computed apart from this code."""

    @pytest.mark.parametrize(("temperature", "density"), [(20, 1.19884), (0, 1.29079), (-10, 1.34065)])
    def test_half_humid_air(self, temperature, density):
        assert air_density(temperature) == pytest.approx(density, rel=1e-4)

    def test_correction_between_two_climates(self):
        indoors, outdoors = (air_density(temperature, 0.5, 100800.0) for temperature in (21.0, 2.0))
        assert (indoors, outdoors) == pytest.approx((1.18822, 1.27453), rel=1e-4)
        assert indoors / outdoors == pytest.approx(0.93228, rel=1e-4)

    def test_dry_air(self):
        assert air_density(20.0, 0.0) == pytest.approx(DRY_AIR_DENSITY, abs=0.0001)


@pytest.mark.parametrize(
    ("function", "arguments"),
    [
        (flow_at_pressure, (1.0, 0.0, 50.0)),
        (flow_at_pressure, (1.0, 50.0, -1.0)),
        (flow_at_pressure, (1.0, 50.0, 4.0, 0.4)),
        (flow_at_pressure, (-1.0, 50.0, 4.0)),
        (air_change_rate, (1.0, 0.0)),
        (air_permeability, (1.0, 0.0)),
        (air_changes_from_air_permeability, (-1.0, 1.0, 1.0)),
        (leakage_area, (1.0, 0.0)),
        (leakage_flow, (1.0, 4.0, 1.2)),
        (stagnation_pressure, (-1.0,)),
        (air_density, (80.0,)),
        (air_density, (20.0, 1.5)),
    ],
)
def test_impossible_leaks_are_refused(function, arguments):
    with pytest.raises(ValueError, match="must"):
        function(*arguments)
