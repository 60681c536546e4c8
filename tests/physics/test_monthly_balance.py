"""The monthly balance against reference years worked out by other means, and what must hold of any year."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from speccheck.physics.moisture_section import MoistureLayer, MoistureSection, profile_of, strips_of
from speccheck.physics.moisture_year import MONTH_SECONDS
from speccheck.physics.monthly_balance import (
    MonthlyClimate,
    drying_time,
    long_run,
    monthly_balance,
)
from speccheck.physics.taut_string import line_under

# Reference years of our own for ISO 13788:2012 clause 6 (memory): computed by half-hour stepping and by a
# complementarity solution, not by this code. Sections inside first; masses in g/m² at the end of each month.
WALL = ((0.05, 0.1), (0.0, 2.0), (4.0, 0.16), (0.06, 3.0))
ROOF = ((0.14, 0.9), (0.0, 20.0), (4.0, 6.0), (0.03, 100.0))
TWO_PLANES = ((0.05, 0.5), (3.0, 0.1), (0.1, 3.0), (1.0, 0.1), (0.05, 5.0))

WALL_CLASS_2 = [61.07, 153.23, 249.29, 331.88, 361.21, 298.86, 135.83, 0, 0, 0, 0, 0]
WALL_CLASS_3 = [26.74, 142.32, 301.35, 467.81, 613.99, 699.63, 674.75, 532.84, 326.37, 104.93, 0, 0]
ROOF_CLASS_3 = [4.48, 15.46, 29.95, 45.16, 58.62, 67.92, 69.17, 62.12, 50.34, 37.41, 25.53, 21.84]
INNER_PLANE = [34.85, 163.03, 309.58, 434.65, 398.09, 143.87, 0, 0, 0, 0, 0, 0]
OUTER_PLANE = [32.5, 68.85, 104.68, 135.63, 160.51, 164.87, 90.01, 0, 0, 0, 0, 0]


def grams(year, interface):
    return [1000.0 * month.water[interface] for month in year.months]


class TestReferenceYears:
    """C1 to C3 of the reference cases, month by month."""

    def test_one_plane_that_dries(self, section_of, reference_year):
        year = monthly_balance(section_of(*WALL), reference_year(2))
        plane = strips_of(section_of(*WALL)).faces(2)[1]
        assert year.verdict == "dries"
        assert year.starting_month == 11
        assert grams(year, plane) == pytest.approx(WALL_CLASS_2, rel=0.001, abs=0.1)
        assert [water.interface for water in year.wet] == [plane]
        assert 1000 * year.peak.peak == pytest.approx(361.21, rel=0.001)
        assert year.peak.peak_month == 3
        assert year.dry_month == 6
        january = next(month for month in year.months if month.month == 1)
        assert january.temperatures[plane] == pytest.approx(-0.51, abs=0.005)
        assert january.saturation[plane] == pytest.approx(585.4, abs=0.1)
        assert january.change[plane] / MONTH_SECONDS[0] == pytest.approx(3.58666e-08, rel=0.001, abs=0.0)
        assert january.humidities[plane] == pytest.approx(1.0)

    def test_the_humidity_class_nearly_doubles_it(self, section_of, reference_year):
        year = monthly_balance(section_of(*WALL), reference_year(3))
        assert year.starting_month == 10
        assert grams(year, year.peak.interface) == pytest.approx(WALL_CLASS_3, rel=0.001, abs=0.1)
        assert 1000 * year.peak.peak == pytest.approx(699.63, rel=0.001)
        assert year.dry_month == 8

    def test_a_roof_that_keeps_water(self, section_of, reference_year):
        roof = section_of(*ROOF, inside_film=0.10)
        year = monthly_balance(roof, reference_year(3))
        assert year.verdict == "accumulates"
        assert year.starting_month == 10
        assert year.dry_month is None
        assert grams(year, year.peak.interface) == pytest.approx(ROOF_CLASS_3, rel=0.001, abs=0.1)
        assert 1000 * year.peak.residual == pytest.approx(21.84, abs=0.1)
        assert 1000 * year.peak.peak == pytest.approx(69.17, abs=0.1)
        assert year.peak.peak_month == 4

    def test_the_same_roof_over_a_drier_room_dries(self, section_of, reference_year):
        year = monthly_balance(section_of(*ROOF, inside_film=0.10), reference_year(2))
        assert (year.verdict, year.dry_month) == ("dries", 8)
        assert 1000 * year.peak.peak == pytest.approx(38.48, abs=0.1)

    def test_two_planes_and_a_month_cut_in_two(self, section_of, reference_year):
        section = section_of(*TWO_PLANES)
        strips = strips_of(section)
        inner, outer = strips.faces(1)[1], strips.faces(3)[1]
        year = monthly_balance(section, reference_year(2))
        assert year.starting_month == 11
        assert grams(year, inner) == pytest.approx(INNER_PLANE, rel=0.001, abs=0.1)
        assert grams(year, outer) == pytest.approx(OUTER_PLANE, rel=0.001, abs=0.1)
        january = next(month for month in year.months if month.month == 1)
        assert january.temperatures[outer] == pytest.approx(-0.57, abs=0.005)
        assert january.temperatures[inner] == pytest.approx(4.72, abs=0.005)
        march = next(month for month in year.months if month.month == 3)
        assert march.change[inner] < 0.0 < march.change[outer]
        may = next(month for month in year.months if month.month == 5)
        assert may.dried == (inner,)

    def test_without_the_cut_the_other_plane_is_wrong(self, section_of, reference_year):
        # Stepping by the hour, which knows no cut, comes to the same; a whole month at one rate does not.
        section, climate = section_of(*TWO_PLANES), reference_year(2)
        strips = strips_of(section)
        outer = strips.faces(3)[1]
        assert stepped(strips, climate, 11, 7, 730)[outer] * 1000 == pytest.approx(90.01, abs=0.1)
        assert abs(stepped(strips, climate, 11, 7, 1)[outer] * 1000 - 90.01) > 1.0


def stepped(strips, climate, start, months, steps):
    """Return the water after some months of equal steps at the rate of their beginning."""
    water = [0.0] * len(strips.positions)
    for month in range(start - 1, start - 1 + months):
        month %= 12
        profile = profile_of(
            strips,
            climate.inside_temperature[month],
            climate.outside_temperature[month],
            climate.inside_pressure[month],
            climate.outside_pressure[month],
        )
        for _ in range(steps):
            line = line_under(strips.positions, profile.ceiling, [j for j, mass in enumerate(water) if mass])
            for j, rate in zip(line.contacts, line.rates, strict=True):
                water[j] = max(0.0, water[j] + rate * MONTH_SECONDS[month] / steps)
    return water


RESISTANCES = st.sampled_from([0.0, 1e-9, 0.05, 0.25, 1.0, 4.0, 30.0])
DIFFUSION = st.sampled_from([0.0, 1e-9, 1e-4, 0.02, 0.5, 2.0, 50.0, 1e5, math.inf])
WEATHER = st.lists(st.floats(-35.0, 38.0), min_size=12, max_size=12)
PRESSURES = st.lists(st.floats(0.0, 6000.0), min_size=12, max_size=12)


@st.composite
def hostile_years(draw):
    layers = draw(st.lists(st.builds(MoistureLayer, RESISTANCES, DIFFUSION), min_size=1, max_size=8))
    climate = MonthlyClimate(
        (draw(st.floats(5.0, 30.0)),) * 12,
        tuple(draw(PRESSURES)),
        tuple(draw(WEATHER)),
        tuple(draw(PRESSURES)),
    )
    return MoistureSection(tuple(layers), 0.13, 0.04), climate


class TestAnyYear:
    """What holds of every year."""

    @settings(max_examples=60, deadline=None)
    @given(hostile_years())
    def test_the_account_closes_and_nothing_is_lost_to_a_hostile_section(self, case):
        section, climate = case
        year = monthly_balance(section, climate)
        inflow = math.fsum(month.inflow for month in year.months)
        outflow = math.fsum(month.outflow for month in year.months)
        gross = math.fsum(abs(month.inflow) + abs(month.outflow) for month in year.months)
        assert inflow - outflow == pytest.approx(math.fsum(year.water), abs=1e-9 * gross + 1e-15, rel=0.0)
        for month in year.months:
            assert min(month.water) >= 0.0
            assert all(map(math.isfinite, (*month.water, *month.pressures, month.inflow, month.outflow)))
        wetted = math.fsum(max(0.0, change) for month in year.months for change in month.change)
        dried = math.fsum(max(0.0, -change) for month in year.months for change in month.change)
        assert wetted - dried == pytest.approx(
            math.fsum(year.water), abs=1e-12 * (wetted + dried) + 1e-15, rel=0.0
        )

    @settings(max_examples=60, deadline=None)
    @given(hostile_years())
    def test_the_verdict_says_what_the_months_say(self, case):
        year = monthly_balance(*case)
        peaks = [max(month.peak) for month in year.months]
        if year.verdict == "none":
            assert max(peaks) <= 1e-5
            assert year.peak is None
        elif year.verdict == "dries":
            assert max(year.water) <= 1e-5 < max(peaks)
            assert year.dry_month is not None
        else:
            assert max(year.water) > 1e-5
            assert year.dry_month is None

    @settings(max_examples=30, deadline=None)
    @given(hostile_years())
    def test_the_mirrored_section_in_mirrored_climates_holds_the_mirrored_water(self, case):
        section, climate = case
        counts = [1] * len(section.layers)
        mirrored_section = MoistureSection(section.layers[::-1], 0.04, 0.13)
        mirrored_climate = MonthlyClimate(
            climate.outside_temperature,
            climate.outside_pressure,
            climate.inside_temperature,
            climate.inside_pressure,
        )
        year = monthly_balance(section, climate, counts=counts)
        mirrored = monthly_balance(mirrored_section, mirrored_climate, counts=counts)
        held = max(max(month.peak) for month in year.months)
        if held < 1e3:  # beyond it a film without resistance pours, and rounding with it
            assert mirrored.water == pytest.approx(year.water[::-1], rel=1e-4, abs=1e-4 * held + 1e-9)

    @pytest.mark.parametrize("humidity_class", [2, 3])
    def test_ten_times_the_resistance_takes_ten_times_as_long(
        self, section_of, reference_year, humidity_class
    ):
        # The rates fall by ten and the planes stay the same, as long as nothing dries in between.
        climate = reference_year(humidity_class)
        light = monthly_balance(section_of(*ROOF, inside_film=0.10), climate)
        heavy = monthly_balance(section_of(*((r, 10.0 * sd) for r, sd in ROOF), inside_film=0.10), climate)
        assert heavy.peak.interface == light.peak.interface
        assert heavy.peak.peak == pytest.approx(light.peak.peak / 10.0, rel=1e-3)


class TestStartingMonth:
    """The search for the month to begin with."""

    @pytest.mark.parametrize("trial", range(1, 13))
    def test_any_trial_month_finds_the_same_beginning(self, section_of, reference_year, trial):
        year = monthly_balance(section_of(*WALL), reference_year(2), trial_month=trial)
        assert year.starting_month == 11
        assert year.peak.peak == pytest.approx(0.36121, rel=0.001)

    def test_a_dry_section_runs_from_the_trial_month(self, section_of, reference_year):
        year = monthly_balance(section_of((0.05, 10.0), (4.0, 0.2), (0.05, 0.02)), reference_year(2))
        assert (year.verdict, year.starting_month, year.wet) == ("none", 10, ())
        assert len(year.months) == 12

    def test_a_section_wet_all_year_begins_with_the_trial_month(self, section_of):
        cold = MonthlyClimate((20.0,) * 12, (1500.0,) * 12, (-10.0,) * 12, (200.0,) * 12)
        year = monthly_balance(section_of((2.0, 0.1), (0.1, 50.0)), cold, trial_month=4)
        assert (year.verdict, year.starting_month) == ("accumulates", 4)
        assert year.peak.dry_month is None


class TestLongRun:
    """Years after the first."""

    def test_a_year_that_dries_repeats(self, section_of, reference_year):
        run = long_run(section_of(*WALL), reference_year(2))
        assert run.settled == 1
        assert len(run.years) == 1

    def test_a_roof_that_accumulates_gains_the_same_every_year(self, section_of, reference_year):
        # Wet from its first year on, each later year is the same sum of rates: more than the first, which began dry.
        run = long_run(section_of(*ROOF, inside_film=0.10), reference_year(3), years=4)
        totals = [1000 * math.fsum(residual) for residual in run.residuals]
        assert run.settled is None
        assert totals[0] == pytest.approx(21.84, abs=0.1)
        assert totals[3] - totals[2] == pytest.approx(totals[2] - totals[1], rel=1e-9)
        assert 1000 * run.yearly_gain == pytest.approx(totals[3] - totals[2], rel=1e-9)

    def test_years_are_bounded(self, section_of, reference_year):
        with pytest.raises(ValueError, match="years must be 1 to 100"):
            long_run(section_of(*WALL), reference_year(2), years=0)


class TestDryingTime:
    """Water enclosed in a layer (ISO 13788:2012 clause 7, memory)."""

    def test_an_open_layer_dries_sooner_than_a_tight_one(self, section_of, reference_year):
        open_time = drying_time(section_of((0.1, 0.1), (2.0, 0.1), (0.1, 0.2)), reference_year(2), 1)
        tight_time = drying_time(section_of((0.1, 5.0), (2.0, 0.1), (0.1, 5.0)), reference_year(2), 1)
        assert open_time is not None
        assert tight_time is not None
        assert open_time < tight_time

    def test_between_foils_it_never_dries(self, section_of, reference_year):
        section = section_of((0.1, math.inf), (2.0, 0.1), (0.1, math.inf))
        assert drying_time(section, reference_year(2), 1) is None

    def test_by_hand(self, section_of):
        # One temperature, 20 °C at half saturation: 1168.5 Pa drive 2·2e-10·1168.5/1.05 kg/(m²·s), so that 1 kg takes
        # 2.25e6 s = 26 days: gone in the first month.
        still = MonthlyClimate((20.0,) * 12, (1168.5,) * 12, (20.0,) * 12, (1168.5,) * 12)
        section = section_of((0.1, 1.0), (0.1, 0.1), (0.1, 1.0))
        assert drying_time(section, still, 1, start_month=1) == 1
        assert drying_time(section, still, 1, mass=1.25, start_month=1) == 2

    def test_what_cannot_be_is_refused(self, section_of, reference_year):
        section = section_of((0.1, 0.0), (2.0, 0.0), (0.1, 1.0))
        with pytest.raises(ValueError, match="open to the air"):
            drying_time(section, reference_year(2), 0)
        with pytest.raises(ValueError, match="no layer 3"):
            drying_time(section, reference_year(2), 3)
        with pytest.raises(ValueError, match="above zero"):
            drying_time(section, reference_year(2), 2, mass=0.0)
        with pytest.raises(ValueError, match="years must be"):
            drying_time(section, reference_year(2), 2, start_month=13)


class TestClimate:
    """Twelve of everything, and numbers."""

    def test_a_missing_month_is_refused(self):
        with pytest.raises(ValueError, match="outside temperature: a year has twelve months, not 11"):
            MonthlyClimate((20.0,) * 12, (1000.0,) * 12, (0.0,) * 11, (500.0,) * 12)

    def test_what_is_no_number_is_refused(self):
        with pytest.raises(ValueError, match="inside pressure"):
            MonthlyClimate((20.0,) * 12, (math.nan,) * 12, (0.0,) * 12, (500.0,) * 12)
        with pytest.raises(ValueError, match="outside pressure must not be negative"):
            MonthlyClimate((20.0,) * 12, (1000.0,) * 12, (0.0,) * 12, (-1.0,) * 12)

    def test_a_trial_month_that_is_none_is_refused(self, section_of, reference_year):
        with pytest.raises(ValueError, match="0 is no month"):
            monthly_balance(section_of(*WALL), reference_year(2), trial_month=0)

    def test_saturated_all_year_at_one_temperature_is_no_condensation(self, section_of):
        wet = MonthlyClimate((10.0,) * 12, (1227.3,) * 12, (10.0,) * 12, (1227.3,) * 12)
        assert monthly_balance(section_of((1.0, 1.0), (0.0, 0.5)), wet).verdict == "none"
