"""Series, parallel paths, isothermal planes, ISO 6946 limits and temperatures against printed examples."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from speccheck.physics.heat import (
    heat_flux,
    interface_temperatures,
    iso_6946_limits,
    isothermal_planes,
    layer_resistance,
    material_resistance,
    parallel_path,
    section_paths,
    series_resistance,
    surface_temperature,
    temperature_factor,
)

resistances = st.floats(0.01, 20.0)


@st.composite
def layers(draw):
    """One layer of one or two parts."""
    if draw(st.booleans()):
        return [(1.0, draw(resistances))]
    share = draw(st.floats(0.02, 0.98))
    return [(1.0 - share, draw(resistances)), (share, draw(resistances))]


sections = st.lists(layers(), min_size=1, max_size=5)


def plain(*values):
    return [[(1.0, value)] for value in values]


class TestPrintedWalls:
    """Walls whose resistance is printed somewhere."""

    def test_textbook_frame_wall(self):
        # A heat-transfer textbook, ch. 3, wood frame wall of a house in a desert town (inputs read, answers memory).
        films_and_boards = [0.03, 0.14, 0.23, 0.079, 0.12]
        paths = [(0.75, [*films_and_boards, 2.45]), (0.25, [*films_and_boards, 0.63])]
        assert series_resistance(paths[0][1]) == pytest.approx(3.05, abs=0.01)
        assert series_resistance(paths[1][1]) == pytest.approx(1.23, abs=0.01)
        assert 1 / parallel_path(paths) == pytest.approx(0.449, abs=0.001)
        assert parallel_path(paths) == pytest.approx(2.23, abs=0.01)
        assert 100 * heat_flux(parallel_path(paths), 22.0, -2.0) == pytest.approx(1078, abs=2)
        # The other averaging gives 2.02 on the same numbers (computed): the two must not be confused.
        assert isothermal_planes([*plain(*films_and_boards), [(0.75, 2.45), (0.25, 0.63)]]) == pytest.approx(
            2.02, abs=0.01
        )

    def test_textbook_frame_wall_with_a_misread_batt(self):
        # Negative control: circulating copies carry 2.52 for the batt, which does not give the printed answer.
        films_and_boards = [0.03, 0.14, 0.23, 0.079, 0.12]
        wrong = parallel_path([(0.75, [*films_and_boards, 2.52]), (0.25, [*films_and_boards, 0.63])])
        assert wrong != pytest.approx(2.23, abs=0.01)
        assert 100 * heat_flux(wrong, 22.0, -2.0) != pytest.approx(1078, abs=2)

    def test_frame_wall_with_foam_sheathing(self):
        # ASHRAE Fundamentals ch. 25 (2005) and 27 (2009, 2013), inch-pound example (memory), in h·ft²·°F/Btu.
        both = [0.68, 0.45, 4.0, 0.81, 0.17]
        paths = [(0.75, [*both, 13.0]), (0.25, [*both, 4.38])]
        assert series_resistance(paths[0][1]) == pytest.approx(19.1, abs=0.05)
        assert series_resistance(paths[1][1]) == pytest.approx(10.5, abs=0.05)
        assert 1 / parallel_path(paths) == pytest.approx(0.063, abs=0.0005)
        assert parallel_path(paths) == pytest.approx(15.9, abs=0.1)
        assert isothermal_planes([*plain(*both), [(0.75, 13.0), (0.25, 4.38)]]) == pytest.approx(
            14.8, abs=0.1
        )

    def test_frame_wall_in_si(self):
        # ASHRAE Fundamentals 2021 ch. 27 example 3 (read). It prints 0.36 for U and takes 2.78 from the rounded U.
        both = [0.03, 0.11, 0.70, 0.08, 0.12]
        wall = [*plain(*both), [(0.75, 2.30), (0.25, 0.77)]]
        assert layer_resistance(wall[-1]) == pytest.approx(1.54, abs=0.005)
        assert isothermal_planes(wall) == pytest.approx(2.58, abs=0.005)
        assert 1 / parallel_path(section_paths(wall)) == pytest.approx(0.36, abs=0.005)
        assert series_resistance([*both, 0.77]) == pytest.approx(1.81, abs=0.005)
        # Negative control: the printed 3.31 of the insulated path is not the sum of its printed parts, 3.34.
        assert series_resistance([*both, 2.30]) != pytest.approx(3.31, abs=0.01)

    def test_sandwich_panel(self):
        # ASHRAE Fundamentals 2021 ch. 27 example 1 (read): 4.70 in the text; it counts the board as 0.07.
        foam = material_resistance(0.150, 0.035)
        assert foam == pytest.approx(4.29, abs=0.005)
        total = series_resistance([0.030, 0.107, 0.011, 0.07, foam, 0.079, 0.120])
        assert total == pytest.approx(4.70, abs=0.01)
        assert 1 / total == pytest.approx(0.21, abs=0.005)
        # Negative control: the table beside it prints 5.70, with another foam.
        assert total != pytest.approx(5.70, abs=0.5)

    def test_flat_roof(self):
        # ASHRAE Fundamentals 2021 ch. 27 example 2 (read); the printed total is 0.01 below the sum of its parts.
        total = series_resistance([0.16, 0.09, 4.97, 0.52, 0.06, 0.04])
        assert total == pytest.approx(5.83, abs=0.011)
        assert 1 / total == pytest.approx(0.17, abs=0.005)

    def test_insulated_concrete_block(self):
        # ASHRAE Fundamentals 2021 ch. 27 example 4 (read): isothermal planes.
        block = [(0.190, 0.09), (0.810, 2.60)]
        assert layer_resistance(block) == pytest.approx(0.413, abs=0.001)
        assert isothermal_planes([*plain(0.12, 0.045, 0.03), block]) == pytest.approx(0.608, abs=0.001)

    def test_canadian_frame_wall(self):
        # A public assembly sheet (read; the lumber value 0.0085 per mm memory): 38 x 89 mm, 23 % framing.
        studs = [(0.23, 0.0085 * 89), (0.77, 2.46)]
        assert layer_resistance(studs) == pytest.approx(1.62, abs=0.01)
        assert isothermal_planes([[(1.0, 0.38)], studs]) == pytest.approx(2.0, abs=0.01)

    def test_canadian_zone_4_wall(self):
        # National Building Code of Canada 2010-2020, note A-9.36.2.4.(1) (memory); 2.78 is the zone 4 figure (read).
        studs = [(0.23, 1.19), (0.77, 3.34)]
        assert layer_resistance(studs) == pytest.approx(2.36, abs=0.005)
        assert isothermal_planes([*plain(0.03, 0.11, 0.08, 0.08, 0.12), studs]) == pytest.approx(
            2.78, abs=0.005
        )

    def test_composite_masonry(self):
        # A heat-transfer textbook, ch. 3, composite masonry-foam wall (inputs read, answers memory).
        bed, brick = 0.16 / 0.22, 0.16 / 0.72
        unit = [(0.015 / 0.25, bed), (0.22 / 0.25, brick), (0.015 / 0.25, bed)]
        wall = [*plain(1 / 10, 0.03 / 0.026, 0.02 / 0.22), unit, *plain(0.02 / 0.22, 1 / 25)]
        total = isothermal_planes(wall)
        assert total / 0.25 == pytest.approx(6.85, abs=0.03)
        assert 0.25 * heat_flux(total, 20.0, -10.0) == pytest.approx(4.38, abs=0.025)
        assert 15 * heat_flux(total, 20.0, -10.0) == pytest.approx(263, abs=1.5)
        # Negative control: a circulating solution leaves the outside film out and adds the conductance of the group.
        wrong = (total - 0.04 - layer_resistance(unit)) / 0.25 + 0.25 / layer_resistance(unit)
        assert wrong != pytest.approx(6.85, abs=0.03)

    def test_single_pane(self):
        # A heat-transfer textbook, example 3-2 (inputs read, answers memory).
        parts = [1 / 10, 0.008 / 0.78, 1 / 40]
        assert series_resistance(parts) / 1.2 == pytest.approx(0.1127, abs=1e-4)
        assert 1.2 * heat_flux(series_resistance(parts), 20.0, -10.0) == pytest.approx(266, abs=1)
        assert interface_temperatures(parts, 20.0, -10.0)[1] == pytest.approx(-2.2, abs=0.1)

    # ASHRAE 90.1-2016 table A2.2.3 (read): insulation above deck, films 0.17 and 0.61, in Btu/(h·ft²·°F).
    @pytest.mark.parametrize(
        ("rated", "transmittance"),
        [
            (0, 1.282),
            (1, 0.562),
            (2, 0.360),
            (3, 0.265),
            (4, 0.209),
            (5, 0.173),
            (6, 0.147),
            (7, 0.129),
            (8, 0.114),
            (9, 0.102),
            (10, 0.093),
            (15, 0.063),
            (20, 0.048),
            (25, 0.039),
            (30, 0.032),
            (35, 0.028),
            (40, 0.025),
            (45, 0.022),
            (50, 0.020),
            (55, 0.018),
            (60, 0.016),
        ],
    )
    def test_roof_table(self, rated, transmittance):
        assert round(1 / series_resistance([0.17, 0.61, rated]), 3) == transmittance
        # Negative control: the horizontal-flow film of 0.68 does not give the table at its thin end.
        if rated <= 2:
            assert round(1 / series_resistance([0.17, 0.68, rated]), 3) != transmittance

    # ASHRAE 90.1 appendix A assembly values (read in commentary), US units, framing 25 %, films and boards.
    @pytest.mark.parametrize(
        ("cavity", "stud", "continuous", "transmittance"),
        [
            (0.91, 4.38, 12, 0.064),
            (11, 4.38, 5, 0.063),
            (13, 4.38, 3.8, 0.064),
            (15, 4.38, 3, 0.064),
            (0.91, 6.88, 12, 0.062),
            (18, 6.88, 2, 0.057),
            (20, 6.88, 2, 0.054),
            (21, 6.88, 2, 0.053),
            (18, 6.88, 3.8, 0.051),
            (20, 6.88, 4, 0.048),
            (21, 6.88, 4.2, 0.047),
        ],
    )
    def test_frame_wall_table(self, cavity, stud, continuous, transmittance):
        path = parallel_path([(0.75, [2.05, cavity, continuous]), (0.25, [2.05, stud, continuous])])
        assert round(1 / path, 3) == transmittance

    def test_cavity_insulation_is_no_substitute_for_continuous(self):
        # A trade article on continuous insulation (read): in the cavity loses 16 % against R-13 + R-7.5.
        base = 2.05
        cavity_only = parallel_path([(0.75, [base, 20.5]), (0.25, [base, 6.88])])
        combined = parallel_path([(0.75, [base, 13.0, 7.5]), (0.25, [base, 4.38, 7.5])])
        assert 1 - cavity_only / combined == pytest.approx(0.16, abs=0.01)
        # Negative control: relative to the better wall it reads 19.6 %, another figure.
        assert combined / cavity_only - 1 != pytest.approx(0.16, abs=0.01)

    def test_continuous_insulation_added_after_averaging_overstates(self):
        inside_each_path = parallel_path([(0.75, [2.05, 13.0, 7.5]), (0.25, [2.05, 4.38, 7.5])])
        added_afterwards = parallel_path([(0.75, [2.05, 13.0]), (0.25, [2.05, 4.38])]) + 7.5
        assert added_afterwards < inside_each_path
        assert inside_each_path - added_afterwards > 0.5


class TestIso6946:
    """The combined method."""

    WALL = (
        [(1.0, 0.13)],
        [(1.0, 0.02 / 0.13)],
        [(0.875, 0.18 / 0.04), (0.125, 0.18 / 0.13)],
        [(1.0, 0.02 / 0.13)],
        [(1.0, 0.04)],
    )

    def test_textbook_wall(self):
        # A German textbook on building physics, sect. 2.3.4.2 (read): limits 4.12 and 3.99, mean 4.06, U 0.25.
        paths = section_paths(self.WALL)
        assert [series_resistance(path) for _, path in paths] == pytest.approx([4.978, 1.862], abs=0.001)
        limits = iso_6946_limits(paths, self.WALL)
        assert limits.upper == pytest.approx(4.12, abs=0.005)
        assert limits.lower == pytest.approx(3.99, abs=0.005)
        assert limits.mean == pytest.approx(4.06, abs=0.01)
        assert 1 / limits.mean == pytest.approx(0.25, abs=0.005)
        assert limits.max_relative_error == pytest.approx(0.016, abs=0.0005)
        assert limits.method_holds

    def test_textbook_wall_with_misprinted_boards(self):
        # Negative control: the notes list the boards as 10 mm, which does not give the printed path resistances.
        thin = [[(1.0, 0.01 / 0.13)] if layer == [(1.0, 0.02 / 0.13)] else layer for layer in self.WALL]
        assert series_resistance(section_paths(thin)[0][1]) == pytest.approx(4.824, abs=0.001)
        assert iso_6946_limits(section_paths(thin), thin).mean != pytest.approx(4.06, abs=0.01)

    def test_a_bridge_too_strong_for_the_method(self):
        steel = [[(1.0, 0.17)], [(0.99, 4.0), (0.01, 0.002)]]
        limits = iso_6946_limits(section_paths(steel), steel)
        assert limits.upper / limits.lower > 1.5
        assert not limits.method_holds

    def test_paths_and_layers_of_different_sections_are_refused(self):
        with pytest.raises(ValueError, match="paths and layers differ"):
            iso_6946_limits([(1.0, [1.0])], plain(2.0))

    @given(sections)
    def test_lower_never_exceeds_upper(self, section):
        limits = iso_6946_limits(section_paths(section), section)
        assert limits.lower <= limits.upper * (1 + 1e-9)
        assert limits.lower * (1 - 1e-9) <= limits.mean <= limits.upper * (1 + 1e-9)
        assert 0 <= limits.max_relative_error + 1e-9 < 1

    @given(sections)
    def test_framing_in_line_conducts_between_the_limits(self, section):
        aligned = parallel_path(section_paths(section, aligned=True))
        assert isothermal_planes(section) <= aligned * (1 + 1e-9)

    @given(sections, st.integers(0, 4), st.floats(0.01, 5.0))
    def test_more_resistance_in_any_layer_never_lowers_the_section(self, section, place, more):
        place %= len(section)
        thicker = [
            [(part, r + more) if index == place else (part, r) for part, r in layer]
            for index, layer in enumerate(section)
        ]
        assert parallel_path(section_paths(thicker)) > parallel_path(section_paths(section))
        assert isothermal_planes(thicker) > isothermal_planes(section)


class TestCrossingLayers:
    """Several framed layers in one section."""

    STUDS, BATTENS = [(0.8, 3.0), (0.2, 1.0)], [(0.9, 0.18), (0.1, 0.4)]

    def test_crossing_areas_multiply(self):
        paths = section_paths([self.STUDS, self.BATTENS])
        assert [part for part, _ in paths] == pytest.approx([0.72, 0.08, 0.18, 0.02])
        assert [path for _, path in paths] == [(3.0, 0.18), (3.0, 0.4), (1.0, 0.18), (1.0, 0.4)]

    def test_framing_in_line_overlaps(self):
        paths = section_paths([self.STUDS, self.BATTENS], aligned=True)
        assert [part for part, _ in paths] == pytest.approx([0.8, 0.1, 0.1])
        assert [path for _, path in paths] == [(3.0, 0.18), (1.0, 0.18), (1.0, 0.4)]

    def test_equal_framing_in_line_leaves_two_paths(self):
        paths = section_paths([[(0.77, 3.0), (0.23, 1.0)], [(0.77, 2.0), (0.23, 0.6)]], aligned=True)
        assert [path for _, path in paths] == [(3.0, 2.0), (1.0, 0.6)]

    def test_framing_in_line_bridges_more_than_crossing(self):
        # Two layers framed alike: in line, timber runs right through.
        layer = [(0.85, 3.0), (0.15, 1.0)]
        assert parallel_path(section_paths([layer, layer], aligned=True)) < parallel_path(
            section_paths([layer, layer])
        )

    @given(sections, st.booleans())
    def test_areas_add_up_to_one(self, section, aligned):
        paths = section_paths(section, aligned=aligned)
        assert sum(part for part, _ in paths) == pytest.approx(1.0)
        assert all(len(path) == len(section) for _, path in paths)


class TestTemperatures:
    """Interface temperatures and the temperature factor."""

    def test_concrete_wall_of_course_notes(self):
        # University of Iceland course notes, ch. 2, tables 2.7-a and 2.7-b (read).
        parts = [0.13, 0.025 / 1.20, 0.100 / 0.036, 0.180 / 1.95, 0.020 / 1.40, 0.04]
        assert series_resistance(parts) == pytest.approx(3.075, abs=0.006)
        assert 1 / series_resistance(parts) == pytest.approx(0.33, abs=0.005)
        found = interface_temperatures(parts, 20.0, -5.0)
        assert found[0] == 20.0
        assert found[1:] == pytest.approx([18.9, 18.8, -3.8, -4.6, -4.7, -5.0], abs=0.1)

    def test_masonry_wall_of_textbook(self):
        # A German textbook on building physics, sect. 2.4 (read); printed q uses the rounded U.
        parts = [0.13, 0.015 / 0.51, 0.24 / 0.16, 0.1 / 0.035, 0.115 / 0.68, 0.04]
        assert 1 / series_resistance(parts) == pytest.approx(0.212, abs=0.0005)
        assert heat_flux(series_resistance(parts), 20.0, -10.0) == pytest.approx(6.36, abs=0.02)
        assert interface_temperatures(parts, 20.0, -10.0)[1:-1] == pytest.approx(
            [19.17, 18.99, 9.47, -8.67, -9.75], abs=0.02
        )

    def test_timber_wall_of_textbook(self):
        # The same textbook, sect. 13.2.5 example a (read), with the German inside film of 0.25.
        found = interface_temperatures([0.25, 0.019 / 0.127, 0.0, 4.0, 0.019 / 0.127, 0.04], 20.0, -5.0)
        assert found[1:-1] == pytest.approx([18.6, 17.8, 17.8, -4.0, -4.8], abs=0.06)

    def test_flat_roof_of_textbook(self):
        # The same textbook, sect. 13.2.5 example b (read).
        found = interface_temperatures([0.25, 0.18 / 2.1, 0.0, 3.5, 0.0, 0.04], 20.0, -5.0)
        assert [found[1], found[2], found[4]] == pytest.approx([18.4, 17.8, -4.7], abs=0.06)

    def test_frame_wall_at_dew_point_method(self):
        # ASHRAE Fundamentals 2021 ch. 27 example 8 (read).
        found = interface_temperatures([0.12, 0.08, 1.90, 0.11, 0.18, 0.03], 21.0, -6.6)
        assert found == pytest.approx([21.0, 19.6, 18.7, -2.9, -4.2, -6.3, -6.6], abs=0.06)

    def test_frame_wall_in_inch_pound(self):
        # ASHRAE Fundamentals ch. 23 to 27 by edition, dew-point example (memory), °F.
        found = interface_temperatures([0.68, 0.45, 11.0, 0.62, 1.0, 0.17], 70.0, 20.0)
        assert found[1:-1] == pytest.approx([67.6, 66.0, 26.4, 24.2, 20.6], abs=0.2)

    # A Swiss course on building envelope physics, lecture 5 (read; the rest of the wall, 0.51, is fitted): the inside
    # film falls behind furniture and must enter the total too.
    @pytest.mark.parametrize(("film", "surface"), [(8.0, 16.0), (2.0, 10.1), (1.0, 6.8)])
    def test_falling_inside_film(self, film, surface):
        total = 1 / film + 0.51
        found = surface_temperature(temperature_factor(total, 1 / film), 20.0, 0.0)
        assert found == pytest.approx(surface, abs=0.1)
        assert interface_temperatures([1 / film, 0.51], 20.0, 0.0)[1] == pytest.approx(found)

    def test_temperature_factor_of_textbook(self):
        # DIN 4108-2 cl. 6 in textbook notes (read): surfaces for fRsi 0.70, 0.56 and 0.48 at 20 / -5 °C.
        found = [surface_temperature(factor, 20.0, -5.0) for factor in (0.7, 0.56, 0.48)]
        assert found == pytest.approx([12.5, 9.0, 7.0], abs=0.05)
        # Negative control: the text's 12.6 °C for 0.70 belongs to 0.705.
        assert found[0] != pytest.approx(12.6, abs=0.05)

    def test_temperature_factor_needs_one_film_throughout(self):
        # Computed: U 1.0 reckoned with 0.13, then taken with 0.25, gives 0.75; reckoned with 0.25 throughout 0.777.
        assert temperature_factor(1.0 - 0.13 + 0.25, 0.25) == pytest.approx(0.777, abs=0.001)
        assert temperature_factor(1.0, 0.25) == pytest.approx(0.75)

    @given(st.lists(resistances, min_size=1, max_size=8), st.floats(-40, 40), st.floats(-40, 40))
    def test_reversal_is_symmetric(self, parts, one, other):
        there = interface_temperatures(parts, one, other)
        back = interface_temperatures(parts[::-1], other, one)
        assert there == pytest.approx(back[::-1], abs=1e-9)
        assert (there[0], there[-1]) == (one, other)

    @given(st.lists(resistances, min_size=1, max_size=8))
    def test_temperatures_fall_outward_and_stay_between(self, parts):
        found = interface_temperatures(parts, 20.0, -10.0)
        assert len(found) == len(parts) + 1
        assert list(found) == sorted(found, reverse=True)

    @given(st.permutations([0.13, 2.5, 0.04, 0.0, 7.0]))
    def test_series_ignores_order(self, parts):
        assert series_resistance(parts) == series_resistance(sorted(parts))

    @given(st.lists(resistances, min_size=2, max_size=6))
    def test_factor_agrees_with_profile(self, parts):
        factor = temperature_factor(series_resistance(parts), parts[0])
        assert surface_temperature(factor, 20.0, -5.0) == pytest.approx(
            interface_temperatures(parts, 20.0, -5.0)[1], abs=1e-9
        )


@pytest.mark.parametrize(
    ("function", "arguments"),
    [
        (material_resistance, (0.1, 0.0)),
        (material_resistance, (-0.1, 1.0)),
        (series_resistance, ([1.0, -0.1],)),
        (series_resistance, ([float("nan")],)),
        (layer_resistance, ([(0.5, 1.0), (0.4, 1.0)],)),
        (layer_resistance, ([],)),
        (layer_resistance, ([(1.2, 1.0), (-0.2, 1.0)],)),
        (parallel_path, ([(0.5, [1.0]), (0.5, [0.0])],)),
        (parallel_path, ([(0.5, [1.0])],)),
        (section_paths, ([[(0.5, 1.0)]],)),
        (interface_temperatures, ([0.0, 0.0], 20.0, 0.0)),
        (interface_temperatures, ([1.0], float("inf"), 0.0)),
        (heat_flux, (0.0, 20.0, 0.0)),
        (temperature_factor, (0.2, 0.25)),
        (surface_temperature, (1.1, 20.0, 0.0)),
    ],
)
def test_impossible_sections_are_refused(function, arguments):
    with pytest.raises(ValueError, match=r"must|cannot"):
        function(*arguments)


def test_a_part_without_resistance_shorts_its_plane():
    assert layer_resistance([(0.9, 3.0), (0.1, 0.0)]) == 0.0
    assert layer_resistance([(1.0, 3.0), (0.0, 0.0)]) == 3.0
