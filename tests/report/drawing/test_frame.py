"""Where layers lie on the sheet: one scale, no tag over another."""

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from speccheck.report.drawing import DrawnLayer
from speccheck.report.drawing.frame import LEAST, Frame, extents, spread

thicknesses = st.lists(st.one_of(st.none(), st.floats(0.0002, 2.0)), min_size=1, max_size=60)


def layer(number: int, thickness: float | None, sheet: bool = False) -> DrawnLayer:
    return DrawnLayer(number, f"layer-{number}", thickness, "other", sheet)


@given(thicknesses)
def test_layers_fill_the_depth_and_those_to_scale_share_one_scale(found: list[float | None]) -> None:
    layers = [layer(i, d) for i, d in enumerate(found, 1)]
    places, scale = extents(layers, 300.0)
    assert places[0].start == 0.0
    assert places[-1].end == pytest.approx(300.0)
    assert all(a.end == b.start for a, b in pairwise(places))
    assert all(place.width > 0 for place in places)
    for one, place in zip(layers, places, strict=True):
        if place.scaled:
            assert one.thickness is not None
            assert place.width == pytest.approx(one.thickness * scale, rel=1e-9)


def test_a_wall_is_drawn_in_its_proportions() -> None:
    # 12.5 + 140 + 11 mm over 327 units: two units a millimetre, to be checked by hand
    places, scale = extents([layer(1, 0.0125), layer(2, 0.140), layer(3, 0.011)], 327.0)
    assert [round(place.width, 6) for place in places] == [25.0, 280.0, 22.0]
    assert scale == pytest.approx(2000.0)


def test_a_sheet_and_a_thickness_not_shown_are_no_part_of_the_scale() -> None:
    places, _ = extents([layer(1, 0.1), layer(2, 0.0003, sheet=True), layer(3, None)], 300.0)
    assert [place.scaled for place in places] == [True, False, False]


def test_a_layer_too_thin_to_see_is_widened_and_said_to_be_out_of_scale() -> None:
    places, _ = extents([layer(1, 1.0), layer(2, 0.001)], 300.0)
    assert places[1].width >= LEAST * 0.99
    assert not places[1].scaled


@given(st.lists(st.floats(0, 300), min_size=1, max_size=18))
def test_tags_keep_their_order_and_their_gap(wanted: list[float]) -> None:
    wanted = sorted(wanted)
    places = spread(wanted, 16.0, 0.0, 300.0)
    assert len(places) == len(wanted)
    assert all(b - a >= 16.0 - 1e-6 for a, b in pairwise(places))
    assert all(-1e-6 <= place <= 300.0 + 1e-6 for place in places)


@given(st.lists(st.floats(0, 300), min_size=1, max_size=8))
def test_tags_that_do_not_crowd_stay_where_they_are(wanted: list[float]) -> None:
    wanted = sorted(wanted)
    if all(b - a >= 16.0 for a, b in pairwise(wanted)):
        assert spread(wanted, 16.0, 0.0, 300.0) == pytest.approx(wanted, abs=1e-9)


def test_a_lying_roof_has_its_inside_below() -> None:
    roof = Frame(True, True, 10.0, 20.0, 200.0, 100.0)
    floor = roof._replace(outside_up=False)
    assert roof.at(0.0, 0.0) == (10.0, 220.0)
    assert floor.at(0.0, 0.0) == (10.0, 20.0)
    assert roof.box(0.0, 50.0, 0.0, 100.0) == (10.0, 170.0, 100.0, 50.0)
