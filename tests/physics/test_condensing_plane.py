"""The condensing plane against printed examples and the arithmetic behind two code tables."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from speccheck.physics.condensing_plane import (
    condensing_plane,
    critical_humidity,
    outboard_share,
    plane_temperature,
    ratio_from_share,
    required_outboard_resistance,
    required_outboard_share,
    share_from_ratio,
)
from speccheck.physics.psychrometrics import dew_point, vapour_pressure

resistances = st.floats(0.05, 15.0)


def celsius(fahrenheit):
    return (fahrenheit - 32.0) / 1.8


def fahrenheit(celsius):
    return celsius * 1.8 + 32.0


class TestPrinted:
    """Examples printed somewhere."""

    # A trade-journal article on exterior foam (read): 70 °F and 50 % in, 32 °F out, R-11 in the cavity, films ignored.
    @pytest.mark.parametrize(("foam", "plane", "above"), [(7.0, 47.0, False), (14.0, 53.0, True)])
    def test_two_foam_sheathed_walls(self, foam, plane, above):
        found = condensing_plane(11.0, foam, celsius(70.0), celsius(32.0), 0.5)
        assert fahrenheit(found.temperature) == pytest.approx(plane, abs=0.5)
        assert fahrenheit(found.dew_point) == pytest.approx(50.0, abs=1.0)
        assert (found.margin > 0.0) is above

    def test_foam_needed(self):
        # Computed from the same article.
        dew = dew_point(vapour_pressure(celsius(70.0), 0.5))
        assert required_outboard_resistance(11.0, dew, celsius(70.0), celsius(32.0)) == pytest.approx(
            10.5, abs=0.05
        )

    def test_humidity_a_wall_is_good_for(self):
        # ASHRAE Fundamentals 2021 ch. 27 example 7 (read): plane 4.3 °C, 34 % (its indoor saturation of 2476 Pa is
        # 0.4 % low).
        assert outboard_share(3.54, 1.14) == pytest.approx(0.24, abs=0.005)
        assert plane_temperature(3.54, 1.14, 21.0, -1.0) == pytest.approx(4.3, abs=0.1)
        found = critical_humidity(plane_temperature(3.54, 1.14, 21.0, -1.0), 21.0)
        assert found.value == pytest.approx(0.34, abs=0.006)
        assert not found.never_reached

    # IRC table R702.7.1 / R702.7(3) (zone 6 and 7/8 rows read second-hand, rest memory): share of the tabulated R.
    @pytest.mark.parametrize(
        ("exterior", "shares"),
        [
            ((2.5, 3.75), (0.161, 0.158)),
            ((5, 7.5), (0.278, 0.273)),
            ((7.5, 11.25), (0.366, 0.360)),
            ((10, 15), (0.435, 0.429)),
            ((12.5, 20), (0.490, 0.500)),
        ],
    )
    def test_share_behind_the_code_table(self, exterior, shares):
        assert outboard_share(13.0, exterior[0]) == pytest.approx(shares[0], abs=0.001)
        assert outboard_share(20.0, exterior[1]) == pytest.approx(shares[1], abs=0.001)

    # Outdoor °F at which the plane meets the dew point of 70 °F and 35 % (computed, mean of the two rows): the table is
    # a criterion of its own and does not follow from this arithmetic.
    @pytest.mark.parametrize(
        ("exterior", "outdoors"),
        [((2.5, 3.75), 35.7), ((5, 7.5), 30.2), ((7.5, 11.25), 24.7), ((10, 15), 19.2), ((12.5, 20), 12.8)],
    )
    def test_outdoors_behind_the_code_table(self, exterior, outdoors):
        dew = fahrenheit(dew_point(vapour_pressure(celsius(70.0), 0.35)))
        shares = [outboard_share(cavity, r) for cavity, r in zip((13.0, 20.0), exterior, strict=True)]
        found = [(dew - share * 70.0) / (1 - share) for share in shares]
        assert sum(found) / 2 == pytest.approx(outdoors, abs=0.15)
        for share, outside in zip(shares, found, strict=True):
            assert required_outboard_share(dew, 70.0, outside) == pytest.approx(share)

    # National Building Code of Canada 9.25.5.2 (bins read, ratios memory): ratio, share, outdoor °C at which the plane
    # meets the dew point of 20 °C and 35 % (computed).
    @pytest.mark.parametrize(
        ("ratio", "share", "outdoors"),
        [
            (0.20, 0.1667, 0.9),
            (0.30, 0.2308, -0.7),
            (0.35, 0.2593, -1.5),
            (0.40, 0.2857, -2.3),
            (0.50, 0.3333, -3.9),
            (0.55, 0.3548, -4.7),
            (0.60, 0.3750, -5.5),
            (0.65, 0.3939, -6.3),
            (0.75, 0.4286, -7.8),
        ],
    )
    def test_canadian_ratio(self, ratio, share, outdoors):
        assert share_from_ratio(ratio) == pytest.approx(share, abs=5e-5)
        assert ratio_from_share(share_from_ratio(ratio)) == pytest.approx(ratio)
        # Negative control: the ratio is not the share.
        assert share_from_ratio(ratio) != pytest.approx(ratio, abs=0.01)
        dew = dew_point(vapour_pressure(20.0, 0.35))
        assert plane_temperature(1.0, ratio, 20.0, outdoors) == pytest.approx(dew, abs=0.05)

    # Ratios of four walls, centre of cavity (computed: regression, not evidence); second figure without film and siding.
    @pytest.mark.parametrize(
        ("cavity", "foam", "ratio", "share", "bare"),
        [
            (2.11, 0.88, 0.422, 0.297, 0.364),
            (3.34, 0.88, 0.280, 0.219, 0.241),
            (3.34, 1.32, 0.400, 0.286, 0.362),
            (3.87, 1.76, 0.455, 0.313, 0.421),
        ],
    )
    def test_ratio_with_and_without_cladding(self, cavity, foam, ratio, share, bare):
        inboard = 0.12 + 0.08 + 0.108 + cavity
        found = outboard_share(inboard, foam + 0.11 + 0.03)
        assert found == pytest.approx(share, abs=0.002)
        assert ratio_from_share(found) == pytest.approx(ratio, abs=0.002)
        assert ratio_from_share(outboard_share(inboard, foam)) == pytest.approx(bare, abs=0.002)


class TestFrostAndCaps:
    """Below zero, and above the indoor temperature."""

    def test_a_freezing_plane_says_so(self):
        found = condensing_plane(3.0, 0.2, 20.0, -10.0, 0.3)
        assert found.freezing
        assert found.temperature < 0.0
        # Saturation over ice (a frost point) bears less indoor humidity than supercooled water would; computed with
        # the water branch at -8.1 °C: 333.7/2337 = 14.3 %.
        assert found.critical_humidity.value < 0.143 * 0.97

    def test_a_plane_warmer_than_the_room_never_condenses(self):
        summer = condensing_plane(3.0, 1.0, 22.0, 35.0, 0.6)
        assert summer.critical_humidity.value == 1.0
        assert summer.critical_humidity.never_reached
        assert not summer.freezing

    def test_plane_at_room_temperature_reaches_at_saturation(self):
        found = critical_humidity(20.0, 20.0)
        assert found.value == 1.0
        assert not found.never_reached

    def test_warm_outdoors_asks_for_nothing(self):
        assert required_outboard_share(5.0, 20.0, 8.0) == 0.0
        assert required_outboard_share(20.0, 20.0, 8.0) == 1.0


class TestLaws:
    """What must hold for any wall."""

    @given(resistances, resistances, resistances, st.floats(-30, 15))
    def test_more_outboard_never_makes_a_colder_plane(self, inboard, outboard, more, outside):
        bare = plane_temperature(inboard, outboard, 20.0, outside)
        assert plane_temperature(inboard, outboard + more, 20.0, outside) >= bare

    @given(resistances, resistances, resistances, st.floats(-30, 15))
    def test_more_inboard_never_makes_a_warmer_plane(self, inboard, outboard, more, outside):
        bare = plane_temperature(inboard, outboard, 20.0, outside)
        assert plane_temperature(inboard + more, outboard, 20.0, outside) <= bare

    @given(resistances, resistances)
    def test_plane_lies_between_the_climates(self, inboard, outboard):
        assert -10.0 <= plane_temperature(inboard, outboard, 20.0, -10.0) <= 20.0

    @given(st.floats(-40, 40), st.floats(-40, 40))
    def test_critical_humidity_rises_with_the_plane(self, one, other):
        cold, warm = sorted((one, other))
        assert critical_humidity(cold, 20.0).value <= critical_humidity(warm, 20.0).value

    @given(st.floats(0.15, 0.95), st.floats(-30, 0), resistances)
    def test_the_share_required_brings_the_plane_to_its_dew_point(self, humidity, outside, inboard):
        dew = dew_point(vapour_pressure(20.0, humidity))
        if dew <= outside:
            assert required_outboard_share(dew, 20.0, outside) == 0.0
            return
        needed = required_outboard_resistance(inboard, dew, 20.0, outside)
        plane = condensing_plane(inboard, needed, 20.0, outside, humidity)
        assert plane.margin == pytest.approx(0.0, abs=1e-9)
        assert plane.critical_humidity.value == pytest.approx(humidity, rel=1e-9)

    @given(st.floats(0, 0.999))
    def test_ratio_and_share_round_trip(self, share):
        assert share_from_ratio(ratio_from_share(share)) == pytest.approx(share)


@pytest.mark.parametrize(
    ("function", "arguments"),
    [
        (plane_temperature, (0.0, 0.0, 20.0, 0.0)),
        (plane_temperature, (-1.0, 2.0, 20.0, 0.0)),
        (plane_temperature, (1.0, 2.0, float("nan"), 0.0)),
        (ratio_from_share, (1.0,)),
        (share_from_ratio, (-0.1,)),
        (required_outboard_share, (5.0, 0.0, 0.0)),
        (required_outboard_share, (25.0, 20.0, 0.0)),
        (required_outboard_resistance, (2.0, 20.0, 20.0, 0.0)),
        (condensing_plane, (1.0, 1.0, 20.0, 0.0, 0.0)),
    ],
)
def test_impossible_planes_are_refused(function, arguments):
    with pytest.raises(ValueError, match=r"must|cannot|leaves nothing"):
        function(*arguments)
