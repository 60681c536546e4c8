"""Correction factors, zone method and modified zone method against the handbook and the code tables."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from speccheck.physics.metal_framing import (
    STEEL_CONDUCTIVITY,
    MetalStud,
    correction_factor,
    effective_cavity_resistance,
    framed_transmittance,
    modified_zone_resistance,
    modified_zone_width,
    zone_method_width,
)

INCH = 0.0254
US_R = 0.1761102

# IECC table C402.1.4.1, 3.5 in studs (memory; the 0.46 read in a trade article), h·ft²·°F/Btu.
FACTORS_16 = ((13.0, 0.46), (15.0, 0.43))
FACTORS_24 = ((13.0, 0.55), (15.0, 0.52))

# ASHRAE 90.1 table A9.2-2, effective R of the framed layer: depth and spacing [in], nominal, effective.
# at 16 in read; at 24 in read through assembly values; rest memory.
TABLE = [
    (3.5, 16, 11, 5.5),
    (3.5, 16, 13, 6.0),
    (3.5, 16, 15, 6.4),
    (3.5, 24, 11, 6.6),
    (3.5, 24, 13, 7.2),
    (3.5, 24, 15, 7.8),
    (6, 16, 19, 7.1),
    (6, 16, 21, 7.4),
    (6, 24, 19, 8.6),
    (6, 24, 21, 9.0),
]


class TestCorrectionFactor:
    """The method of the codes."""

    @pytest.mark.parametrize(
        ("nominal", "table", "effective"),
        [
            (13.0, FACTORS_16, 5.98),
            (15.0, FACTORS_16, 6.45),
            (13.0, FACTORS_24, 7.15),
            (15.0, FACTORS_24, 7.8),
            (19.0, ((19.0, 0.37), (21.0, 0.35)), 7.03),
            (25.0, ((25.0, 0.31),), 7.75),
        ],
    )
    def test_code_rows(self, nominal, table, effective):
        # The effective column of the same table (memory).
        assert effective_cavity_resistance(nominal, table) == pytest.approx(effective, abs=0.005)

    def test_between_rows_is_a_straight_line(self):
        assert correction_factor(14.0, FACTORS_16) == pytest.approx(0.445)

    @pytest.mark.parametrize("nominal", [0.0, 11.0, 12.99, 15.01, 21.0])
    def test_outside_the_table_is_unknown(self, nominal):
        assert correction_factor(nominal, FACTORS_16) is None
        assert effective_cavity_resistance(nominal, FACTORS_16) is None

    # Commercial limits that 90.1 effective R reproduces with of boards and films (limits read): 13 + continuous.
    @pytest.mark.parametrize(
        ("continuous", "limit"),
        [(5.0, 0.077), (7.5, 0.064), (10.0, 0.055), (12.5, 0.049), (15.6, 0.042), (18.8, 0.037)],
    )
    def test_commercial_limits(self, continuous, limit):
        assert framed_transmittance(2.05 + continuous, 6.0) == pytest.approx(limit, abs=0.0005)

    # ASHRAE 90.1 steel rows of appendix A (R-0, R-11, R-13, R-19 read points).
    @pytest.mark.parametrize(
        ("effective", "continuous", "transmittance"),
        [
            (0.79, 0, 0.352),
            (5.5, 0, 0.132),
            (6.0, 0, 0.124),
            (6.0, 3.8, 0.084),
            (7.1, 0, 0.109),
            (7.1, 7.5, 0.060),
            (7.2, 0, 0.108),
            (8.6, 0, 0.094),
        ],
    )
    def test_appendix_rows(self, effective, continuous, transmittance):
        assert round(framed_transmittance(2.05 + continuous, effective), 3) == transmittance

    def test_handbook_wall(self):
        # ASHRAE Fundamentals 2021 ch. 27 (read): factor 0.50 on 1.94 between two faces of 0.08 gives 1.13 m²·K/W.
        effective = effective_cavity_resistance(1.94, [(1.94, 0.50)])
        assert effective is not None
        assert 1 / framed_transmittance(0.16, effective) == pytest.approx(1.13, abs=0.005)

    def test_cavity_insulation_is_no_substitute_for_continuous(self):
        # A trade article on continuous insulation (read): in a steel cavity loses 40 % against R-13 + R-7.5. The
        # 0.36 for in a 6 in cavity lies between the code's rows.
        deep = effective_cavity_resistance(20.5, [(19.0, 0.37), (21.0, 0.35)])
        assert deep is not None
        loss = 1 - framed_transmittance(2.05 + 7.5, 13 * 0.46) / framed_transmittance(2.05, deep)
        assert loss == pytest.approx(0.40, abs=0.01)

    def test_nominal_resistance_is_never_taken_whole(self):
        assert framed_transmittance(2.05, 13.0) < framed_transmittance(2.05, 13 * 0.46) / 1.5


class TestZoneWidth:
    """How wide a stud disturbs."""

    def test_energy_handbook(self):
        # An energy management handbook, sect. 9.3.3, figure 9.7 (read): 1.25 in stud, half-inch boards, 16 in spacing.
        width = zone_method_width(1.25 * INCH, 0.5 * INCH)
        assert width / INCH == pytest.approx(2.25)
        assert 16 - width / INCH == pytest.approx(13.75)

    def test_bare_metal_counts_half_an_inch(self):
        assert zone_method_width(1.25 * INCH, 0.0) == zone_method_width(1.25 * INCH, 0.5 * INCH)

    def test_modified_width_of_handbook(self):
        # ASHRAE Fundamentals 2021 ch. 27 example 5 (read).
        assert modified_zone_width(0.038, 0.051, 1.71) == pytest.approx(0.125, abs=0.0005)

    def test_factor_two_is_the_zone_method(self):
        assert modified_zone_width(0.038, 0.051, 2.0) == zone_method_width(0.038, 0.051)


class TestModifiedZone:
    """Resistance from the zone that studs disturb."""

    STUD = MetalStud(spacing=0.406, depth=0.089, flange=0.038, thickness=0.0010, conductivity=1 / 0.0208)

    def test_handbook_wall(self):
        # ASHRAE Fundamentals 2021 ch. 27 example 5 (read): 2.71 m²·K/W, U 0.369; it prints 0.203 for the web where its
        # own formula gives 0.206.
        found = modified_zone_resistance(
            self.STUD, modified_zone_width(0.038, 0.051, 1.71), 0.089 * 23.92, 1.47, 0.043
        )
        assert found == pytest.approx(2.71, abs=0.01)
        assert 1 / found == pytest.approx(0.369, abs=0.0015)

    def test_conductivity_default_is_that_of_the_handbook(self):
        assert pytest.approx(1 / 0.0208, rel=0.002) == STEEL_CONDUCTIVITY

    def test_wide_zone_is_held_to_the_spacing(self):
        assert modified_zone_resistance(self.STUD, 5.0, 2.1, 1.5, 0.1) == modified_zone_resistance(
            self.STUD, 0.406, 2.1, 1.5, 0.1
        )

    def test_zone_narrower_than_the_flange(self):
        # A negative zone factor is possible in the method; the flange then fills the zone and the wall stays ordinary.
        narrow = modified_zone_resistance(self.STUD, modified_zone_width(0.038, 0.013, -0.5), 2.1, 0.2, 0.2)
        assert 0.4 < narrow < 2.5

    @given(
        st.floats(0.005, 0.4),
        st.floats(0.005, 0.4),
        st.floats(0.5, 5.0),
        st.floats(0.05, 4.0),
        st.floats(0.05, 1.0),
    )
    def test_a_wider_zone_never_resists_more(self, one, other, cavity, outboard, inboard):
        narrow, wide = sorted((max(one, 0.038), max(other, 0.038)))
        less = modified_zone_resistance(self.STUD, wide, cavity, outboard, inboard)
        assert less <= modified_zone_resistance(self.STUD, narrow, cavity, outboard, inboard) * (1 + 1e-9)

    @given(st.floats(0.038, 0.4), st.floats(0.5, 5.0), st.floats(0.05, 4.0), st.floats(0.05, 1.0))
    def test_between_steel_alone_and_no_stud(self, width, cavity, outboard, inboard):
        found = modified_zone_resistance(self.STUD, width, cavity, outboard, inboard)
        assert outboard + inboard < found < outboard + inboard + cavity

    def test_a_stud_of_insulation_is_no_stud(self):
        ghost = MetalStud(0.406, 0.089, 0.038, 0.001, conductivity=0.089 / 2.1)
        assert modified_zone_resistance(ghost, 0.125, 2.1, 1.5, 0.1) == pytest.approx(3.7)

    @pytest.mark.parametrize(("depth", "spacing", "nominal", "effective"), TABLE)
    def test_clear_wall_lies_above_the_code_table(self, depth, spacing, nominal, effective):
        # The plain zone method on 43 mil studs behind 5/8 in boards, R-2.05 of boards and films (computed): it keeps the
        # order of the table and exceeds it, by less than a tenth at 3.5 in and less than three tenths at 6 in.
        stud = MetalStud(spacing * INCH, depth * INCH, 1.5 * INCH, 0.043 * INCH)
        width = zone_method_width(stud.flange, 0.625 * INCH)
        whole = modified_zone_resistance(stud, width, nominal * US_R, 0.81 * US_R, 1.24 * US_R) / US_R
        assert effective < whole - 2.05 < effective * (1.10 if depth < 4 else 1.30)
        assert whole - 2.05 < nominal


@pytest.mark.parametrize(
    ("function", "arguments"),
    [
        (correction_factor, (-1.0, FACTORS_16)),
        (correction_factor, (13.0, ())),
        (correction_factor, (13.0, ((15.0, 0.43), (13.0, 0.46)))),
        (correction_factor, (13.0, ((13.0, 1.46),))),
        (framed_transmittance, (0.0, 0.0)),
        (zone_method_width, (0.0, 0.01)),
        (modified_zone_width, (0.038, 0.2, -0.5)),
        (MetalStud, (0.4, 0.002, 0.038, 0.001)),
        (MetalStud, (0.4, 0.09, 0.5, 0.001)),
        (MetalStud, (0.4, 0.09, 0.038, -0.001)),
        (modified_zone_resistance, (TestModifiedZone.STUD, 0.1, 0.0, 1.0, 1.0)),
        (modified_zone_resistance, (TestModifiedZone.STUD, 0.1, 2.0, -1.0, 1.0)),
    ],
)
def test_impossible_framing_is_refused(function, arguments):
    with pytest.raises(ValueError, match=r"must|needed"):
        function(*arguments)
