"""The drawings: well-formed, the same bytes each time, and described in words."""

import re
import xml.etree.ElementTree as ET
from itertools import accumulate, pairwise
from math import sin

import pytest
from hypothesis import given
from hypothesis import strategies as st

from speccheck.report.drawing import (
    DrawnLayer,
    DrawnMember,
    InterfaceYear,
    YearOfMoisture,
    draw_lines,
    draw_section,
    draw_year,
)
from speccheck.report.drawing.lines import straightened
from speccheck.report.drawing.svg import Canvas, number
from speccheck.survey.profile import Point, SectionLines

SVG = "{http://www.w3.org/2000/svg}"
WALL = (
    DrawnLayer(1, "lining", 0.0125, "gypsum", False),
    DrawnLayer(2, "film", None, "sheet", True, ("air", "vapour")),
    DrawnLayer(3, "fill", 0.14, "batt", False, ("thermal",), DrawnMember(0.038, 0.4, False)),
    DrawnLayer(4, "sheathing", 0.011, "panel", False, plane=True),
    DrawnLayer(5, "cavity", 0.02, "air", False, vented=True),
    DrawnLayer(6, "cladding", None, "timber", False),
)
PROFILE = SectionLines(
    points=(
        Point(0, 0.0, 20.0, 900.0, 2338.0, 0.0),
        Point(0, 1.0, 19.0, 850.0, 2197.0, 0.0),
        Point(1, 0.0, 19.0, 850.0, 2197.0, 0.0),
        Point(1, 1.0, 19.0, 500.0, 2197.0, 0.0),
        Point(2, 0.0, 19.0, 500.0, 2197.0, 0.0),
        Point(2, 1.0, -4.0, 437.0, 437.0, 2e-8),
        Point(3, 0.0, -4.0, 437.0, 437.0, 2e-8),
        Point(3, 1.0, -5.0, 350.0, 401.0, 0.0),
    ),
    dew_point=5.4,
    plane=3,
)
MONTHS = ("January", "February")
YEAR = YearOfMoisture(
    MONTHS,
    (InterfaceYear("between fill and sheathing", (-4.0, 0.0), (1.0, 0.9), (0.25, 0.1)),),
    "ISO 13788:2012",
    "Water gathers in January.",
)


def parsed(svg: str) -> ET.Element:
    return ET.fromstring(svg.replace("<svg ", '<svg xmlns="http://www.w3.org/2000/svg" ', 1))


def words(svg: str) -> list[str]:
    drawn = parsed(svg)
    return [text.text or "" for tag in ("text", "tspan") for text in drawn.iter(f"{SVG}{tag}")]


@pytest.mark.parametrize("kind", ["wall", "below-grade-wall", "roof", "ceiling", "floor", "slab"])
def test_a_section_is_well_formed_steady_and_described(kind: str) -> None:
    drawing = draw_section(WALL, kind, "north-wall", "x")
    assert drawing == draw_section(WALL, kind, "north-wall", "x")
    root = parsed(drawing.svg)
    assert root.attrib["role"] == "img"
    named = root.attrib["aria-labelledby"].split()
    found = {element.attrib.get("id"): element.text for element in root}
    assert [found[name] for name in named] == [drawing.title, drawing.description]
    for layer in WALL:
        assert f"{layer.number} {layer.name}" in drawing.description
    assert "2 film, sheet or membrane, controls air and vapour" in drawing.description
    assert (
        "3 fill, batt or fill insulation, 140 mm, 5 1/2 in, controls heat, crossed by wood framing"
        in drawing.description
    )
    assert (
        "4 sheathing, wood panel, 11 mm, 7/16 in, its inner face is the condensing plane"
        in drawing.description
    )


def test_a_section_says_what_is_not_to_scale_and_what_nobody_controls() -> None:
    shown = words(draw_section(WALL, "wall", "north-wall", "x").svg)
    assert "Not to scale: 6" in shown
    assert "?" in shown
    assert "none named" in shown  # nothing controls water
    assert "140 mm" in shown
    assert "5 1/2 in" in shown
    assert any(text.endswith(" in") and "/" in text and "mm" in text for text in shown)  # the scale bar
    assert [text for text in shown if text.isdigit()] == ["1", "2", "3", "4", "5", "6"]


def test_everything_lies_on_the_sheet() -> None:
    for kind in ("wall", "roof", "slab"):
        many = [DrawnLayer(n, f"l{n}", 0.01 * (n % 7 + 1), "other", n % 5 == 0) for n in range(1, 81)]
        root = parsed(draw_section(many, kind, "w", "x").svg)
        width, height = map(float, root.attrib["viewBox"].split()[2:])
        for circle in root.iter(f"{SVG}circle"):
            assert 0 <= float(circle.attrib["cx"]) <= width
            assert 0 <= float(circle.attrib["cy"]) <= height
        for text in root.iter(f"{SVG}text"):
            assert 0 <= float(text.attrib["y"]) <= height


@pytest.mark.parametrize("kind", ["wall", "roof", "floor"])
def test_lines_show_condensation_and_say_where(kind: str) -> None:
    drawing = draw_lines(WALL, kind, "north-wall", "x", [("winter mean", PROFILE)])
    assert "Condensation by diffusion between layers 3 and 4" in drawing.description
    assert "inner face of layer 4, is at -4 °C (24.8 °F)" in drawing.description
    classes = [element.attrib.get("class") for element in parsed(drawing.svg).iter()]
    assert {"heat-line", "vapour-line", "saturation-line", "dew-line", "plane-line", "wet"} <= set(classes)
    assert classes.count("wet") == 3  # both panels and the key


def test_dry_lines_say_so_and_hatch_nothing() -> None:
    dry = PROFILE._replace(points=tuple(p._replace(condensing=0.0) for p in PROFILE.points))
    drawing = draw_lines(WALL, "wall", "north-wall", "x", [("winter mean", dry)])
    assert "no condensation by diffusion" in drawing.description
    assert [e.attrib.get("class") for e in parsed(drawing.svg).iter()].count("wet") == 1  # the key alone


def test_seasons_and_months_share_their_axes_and_have_a_group_each() -> None:
    warm = PROFILE._replace(
        points=tuple(p._replace(temperature=p.temperature + 15.0) for p in PROFILE.points)
    )
    drawing = draw_lines(WALL, "wall", "north-wall", "x", [("winter mean", PROFILE), ("July", warm)])
    groups = list(parsed(drawing.svg).iter(f"{SVG}g"))
    assert [group.attrib["class"] for group in groups] == ["when w1", "when w2"]
    heights = [
        [y for _, y in corners(line.attrib["d"])]
        for group in groups
        for line in group.iter(f"{SVG}path")
        if line.attrib["class"] == "heat-line"
    ]
    lifted = {round(cold - warm, 1) for cold, warm in zip(*heights, strict=True)}
    assert (
        len(lifted) <= 2
    )  # one scale, so that 15 K are the same height everywhere, to the rounding of a coordinate
    assert max(lifted) - min(lifted) <= 0.11


def corners(path: str) -> list[tuple[float, float]]:
    """Return the corners of a path whose steps are told by their distance."""
    found = [float(n) for n in re.findall(r"-?[0-9]*\.?[0-9]+", path)]
    return list(accumulate(pairs(found), lambda a, b: (a[0] + b[0], a[1] + b[1])))


def pairs(numbers: list[float]) -> list[tuple[float, float]]:
    return list(zip(numbers[::2], numbers[1::2], strict=True))


@given(st.lists(st.tuples(st.floats(-500, 500), st.floats(-500, 500)), min_size=2, max_size=30))
def test_a_curve_told_by_steps_goes_through_its_points(points: list[tuple[float, float]]) -> None:
    canvas = Canvas(360.0, "x")
    canvas.curve(points, "heat-line")
    for (x, y), (wanted_x, wanted_y) in zip(
        corners(re.findall(r' d="([^"]*)"', canvas.parts[0])[0]), points, strict=True
    ):
        assert (x, y) == pytest.approx((wanted_x, wanted_y), abs=0.0501)


def test_a_curve_keeps_its_shape_to_a_tenth_of_a_unit() -> None:
    curve = [(float(x), 50.0 * sin(x / 30)) for x in range(200)]
    kept = straightened(curve)
    assert len(kept) < 60
    assert kept[0] == curve[0]
    assert kept[-1] == curve[-1]
    for x, y in curve:
        (x1, y1), (x2, y2) = next(pair for pair in pairwise(kept) if pair[0][0] <= x <= pair[1][0])
        assert abs(y - (y1 + (y2 - y1) * (x - x1) / (x2 - x1))) < 0.2


def test_a_year_says_when_it_is_wettest() -> None:
    drawing = draw_year(YEAR, "north-wall", "x")
    assert (
        "most humid in January at 100 %, most water in January, 250 g/m² (0.819 oz/ft²)"
        in drawing.description
    )
    shown = words(drawing.svg)
    assert {"100", "90", "250"} <= set(shown)


def test_a_year_with_a_month_short_is_refused() -> None:
    short = YEAR.interfaces[0]._replace(mass=(0.1,))
    with pytest.raises(ValueError, match="not one value for each month"):
        draw_year(YEAR._replace(interfaces=(short,)), "north-wall", "x")


def test_hostile_names_stay_text() -> None:
    bad = '</text><script>alert(1)</script>"\x00\x1b'
    layers = [layer._replace(name=bad) for layer in WALL]
    drawing = draw_section(layers, "wall", bad, "x")
    root = parsed(drawing.svg)
    assert not list(root.iter(f"{SVG}script"))
    assert "\x1b" not in drawing.svg


def test_numbers_have_one_decimal_at_most() -> None:
    assert [number(x) for x in (1.0, -0.04, 2.449, 10.25)] == ["1", "0", "2.4", "10.2"]
    canvas = Canvas(10, "x")
    canvas.line(0.123, 0, 1, 1, "a")
    assert 'x1="0.1"' in canvas.parts[0]
