"""The red line: what it says in words, and that its drawing says the same to eyes, to readers and to machines."""

import copy
import re
from itertools import pairwise
from pathlib import Path
from typing import Any
from xml.etree import ElementTree

import pytest
import yaml
from hypothesis import given, settings
from hypothesis import strategies as st

from speccheck.report.drawing.ring import Segment, Stop, draw_ring, standalone
from speccheck.report.drawing.tour import tours
from speccheck.report.red_line import red_line, red_line_file, red_line_text
from speccheck.survey import survey

EXAMPLES = Path(__file__).parents[3] / "examples"
STUDIO = EXAMPLES / "studio" / "studio-mistakes.yaml"
SVG = "{http://www.w3.org/2000/svg}"


@pytest.fixture(scope="module")
def surveyed(loaded):
    return lambda given: survey(loaded(given).document)


@pytest.fixture(scope="module")
def studio(surveyed):
    return surveyed(STUDIO.read_text("utf-8"))


def words_of(svg: str) -> list[str]:
    return [element.text or "" for element in ElementTree.fromstring(svg).iter(f"{SVG}text")]


def test_the_line_of_a_studio_with_mistakes(studio):
    line = red_line(studio)
    assert line.closed is False
    assert line.verdict == "The pen lifts at 3 places."
    assert [stop.place for stop in line.of("open")] == ["long-wall-to-slab", "eave", "stove-flue"]
    assert {segment.name: (segment.layer, segment.side) for segment in line.segments} == {
        "long-wall": ("long-wall.film", "inside"),
        "gable-wall": ("gable-wall.sheathing", "outside"),
        "roof": ("roof.membrane", "inside"),
        "slab": ("slab.concrete", "inside"),
    }


def test_its_text(studio, snapshot):
    snapshot("red-line-studio.txt", red_line_text(studio))


def test_its_drawing(studio, snapshot):
    # after a wanted change look at the drawing itself before the golden file is rewritten
    snapshot("red-line-studio.svg", red_line_file(studio))


def test_the_drawing_tells_gaps_by_place_and_words_and_not_by_colour_alone(studio):
    svg = red_line_file(studio)
    root = ElementTree.fromstring(svg)
    words = words_of(svg)
    assert words.count("open") == 3  # a word at each gap of the ring
    assert any(text.startswith("eave (wall-roof): wanted: long-wall.film to") for text in words)
    shapes = [element.get("class") for element in root.iter() if element.get("class")]
    assert shapes.count("tag-open") == 6  # a black square in the ring and in the key
    assert shapes.count("lift") == 6  # the line ends in a bar on either side of each gap
    assert root.get("role") == "img"
    title, desc = (root.find(f"{SVG}{name}") for name in ("title", "desc"))
    assert title.text.startswith("The red line")
    assert "It stops at" in desc.text
    assert root.get("aria-labelledby") == f"{title.get('id')} {desc.get('id')}"


def test_the_same_facts_draw_the_same_bytes(surveyed, studio):
    assert red_line_file(surveyed(STUDIO.read_text("utf-8"))) == red_line_file(studio)


def test_a_closed_line(surveyed):
    found = surveyed((EXAMPLES / "studio" / "studio.yaml").read_text("utf-8"))
    line = red_line(found)
    assert line.closed is True
    assert line.verdict == "The air barrier closes round the building."
    assert "open" not in words_of(red_line_file(found))


def test_a_wall_alone_draws_its_sides_as_not_shown(surveyed):
    found = surveyed((EXAMPLES / "ten-lines.yaml").read_text("utf-8"))
    line = red_line(found)
    assert line.closed is None
    assert [stop.place for stop in line.of("unshown")] == ["wall.base", "wall.top", "wall.left", "wall.right"]
    assert words_of(red_line_file(found)).count("?") == 4


def test_names_and_words_of_a_document_cannot_slip_into_the_drawing(surveyed):
    data: dict[str, Any] = yaml.safe_load(STUDIO.read_text("utf-8"))
    data["junctions"]["eave"]["kind"] = '<script>alert("&")</script>\x07'
    svg = red_line_file(surveyed(data))
    ElementTree.fromstring(svg)
    assert "<script" not in svg
    assert re.search(r"[\x00-\x08]", svg) is None


def test_two_buildings_are_two_rings(surveyed):
    data: dict[str, Any] = yaml.safe_load(STUDIO.read_text("utf-8"))
    data["assemblies"]["shed"] = copy.deepcopy(data["assemblies"]["slab"])
    data["junctions"]["shed"] = {"kind": "edge", "joins": ["shed.perimeter"]}
    line = red_line(surveyed(data))
    assert line.parts == 2
    assert "2 groups of assemblies that meet nowhere" in line.verdict
    assert words_of(red_line_file(surveyed(data))).count("inside") == 2


NAMES = [f"part-{n}" for n in range(9)]


@settings(max_examples=60, deadline=None)
@given(st.data())
def test_a_way_round_passes_everything_and_comes_back(data):
    assemblies = NAMES[: data.draw(st.integers(1, 9))]
    several = st.lists(st.sampled_from(assemblies), min_size=1, max_size=3, unique=True)
    meets = {f"j{n}": tuple(one) for n, one in enumerate(data.draw(st.lists(several, max_size=12)))}
    ways = tours(assemblies, meets)
    passed = [name for way in ways for name, _ in way]
    assert set(passed) == set(assemblies)
    for way in ways:
        for (name, stop), (after, _) in zip(way, [*way[1:], way[0]], strict=True):
            if len(way) > 1:
                assert {name, after} <= set(meets[stop])
    assert len(ways) == len({frozenset(name for name, _ in way) for way in ways})


def test_a_ring_passes_each_assembly_once():
    ring = {f"j{n}": (NAMES[n], NAMES[(n + 1) % 6]) for n in range(6)}
    (way,) = tours(NAMES[:6], ring)
    assert [name for name, _ in way] == NAMES[:6]


@settings(max_examples=40, deadline=None)
@given(st.data())
def test_any_building_can_be_drawn(data):
    names = data.draw(st.lists(st.text(min_size=1, max_size=20), min_size=1, max_size=6, unique=True))
    segments = [
        Segment(name, data.draw(st.sampled_from(["", f"{name}.x"])), "inside", data.draw(st.sampled_from(["wall", "roof"])))
        for name in names
    ]  # fmt: skip
    states = st.sampled_from(["joined", "open", "unshown"])
    stops = [
        Stop(f"s{n}", data.draw(st.sampled_from(["junction", "opening", "penetration", "side"])), "k",
             tuple(data.draw(st.lists(st.sampled_from(names), min_size=1, max_size=3, unique=True))),
             data.draw(states), data.draw(st.text(max_size=200)))
        for n in range(data.draw(st.integers(0, 8)))
    ]  # fmt: skip
    svg = standalone(draw_ring(segments, stops, "A sentence.", "x"))
    assert ElementTree.fromstring(svg).tag == f"{SVG}svg"


def test_a_town_is_listed_where_it_cannot_be_drawn():
    names = [f"w{n}" for n in range(60)]
    segments = [Segment(name, f"{name}.x", "inside", "wall") for name in names]
    stops = [
        Stop(f"j{n}", "junction", "corner", (names[n], names[n + 1]), "open", "wanted") for n in range(59)
    ]
    words = words_of(standalone(draw_ring(segments, stops, "A sentence.", "x")))
    assert any(text.startswith("Too many assemblies to draw") for text in words)
    assert sum(text.endswith("(corner): wanted") for text in words) == 59


@given(
    st.lists(st.text("abcdefgh-", min_size=3, max_size=12), min_size=2, max_size=6, unique=True), st.data()
)
@settings(max_examples=40, deadline=None)
def test_no_name_in_the_ring_covers_another(names, data):
    segments = [Segment(name, f"{name}.concrete", "inside", "wall") for name in names]
    stops = [
        Stop(f"j{n}", "junction", "base", (one, other), "joined", "by tape")
        for n, (one, other) in enumerate(pairwise(names))
    ]
    stops += [
        Stop(f"p{n}", "penetration", "pipe", (data.draw(st.sampled_from(names)),), "joined", "by tape")
        for n in range(data.draw(st.integers(0, 9)))
    ]
    root = ElementTree.fromstring(draw_ring(segments, stops, "It closes.", "x").svg)
    inner = [
        element
        for element in root.iter()
        if element.tag.endswith("text") and (element.text or "") in {*names, "concrete", "inside"}
    ]
    assert {element.text for element in inner} >= set(names)
    boxes = [_box(element) for element in inner]
    for n, (left, top, right, bottom) in enumerate(boxes):
        for other in boxes[n + 1 :]:
            assert right <= other[0] or other[2] <= left or bottom <= other[1] or other[3] <= top


def _box(element: ElementTree.Element) -> tuple[float, float, float, float]:
    """Return what a line of text covers, with letters of 7 units on 12."""
    x, y, width = float(element.attrib["x"]), float(element.attrib["y"]), 7.0 * len(element.text or "")
    left = x - {"middle": width / 2, "end": width}.get(element.attrib.get("text-anchor", ""), 0.0)
    return left, y - 9.0, left + width, y + 2.0
