"""Sides of an enclosure: which an assembly has, which a name means, and which questions their absence earns."""

import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st

from speccheck.document.assembly import KINDS
from speccheck.survey.enclosure import Bounds, sides_meant, sides_of, unnamed_sides
from speccheck.survey.unshown import side_gaps
from speccheck.tables.junction_kinds import junction_kinds


@pytest.mark.parametrize(
    ("kind", "name", "meant"),
    [
        # what these words mean on a drawing: common practice, no source
        ("wall", "base", ("base",)),
        ("wall", "head", ("top",)),
        ("wall", "top-north", ("top",)),
        ("wall", "north_base", ("base",)),
        ("wall", "ends", ("left", "right")),
        ("wall", "start", ("left",)),
        ("wall", "perimeter", ("base", "top", "left", "right")),
        ("wall", "top-edge", ("top",)),
        ("wall", "floor-line", ("floor-line",)),
        ("below-grade-wall", "foot", ("base",)),
        ("roof", "eaves", ("eave",)),
        ("roof", "verge", ("rake",)),
        ("roof", "edges", ("eave", "rake", "ridge")),
        ("roof", "valley", ("valley",)),
        ("slab", "long-edges", ("perimeter",)),
        ("floor", "anything", ("perimeter",)),
        ("ceiling", "edge", ("perimeter",)),
    ],
)
def test_which_sides_a_name_means(kind, name, meant):
    assert sides_meant(Bounds(kind), name) == meant


@given(st.sampled_from(KINDS), st.text("abcdefghij-_", min_size=1, max_size=12))
def test_any_name_means_some_side(kind, name):
    assert sides_meant(Bounds(kind), name)


def test_declared_sides_override_the_usual_ones():
    bounds = Bounds("wall", ("base", "party"))
    assert sides_of(bounds) == ("base", "party")
    assert sides_meant(bounds, "base") == ("base",)
    assert unnamed_sides({"w": bounds}, [("w", "base")]) == {"w": ("party",)}


@given(st.data())
def test_naming_every_side_leaves_none(data):
    assemblies = {f"a{n}": Bounds(kind) for n, kind in enumerate(data.draw(st.lists(st.sampled_from(KINDS))))}
    named = [(name, side) for name, bounds in assemblies.items() for side in sides_of(bounds)]
    assert unnamed_sides(assemblies, named) == {}
    assert unnamed_sides(assemblies, []) == {name: sides_of(one) for name, one in assemblies.items()}
    if named:
        left_out = data.draw(st.sampled_from(named))
        found = unnamed_sides(assemblies, [one for one in named if one != left_out])
        assert found == {left_out[0]: (left_out[1],)}


def questions(assemblies, named):
    unnamed = unnamed_sides(assemblies, named)
    lone = [name for name in assemblies if name not in {one for one, _ in named}]
    gaps = side_gaps(assemblies, unnamed, lone, junction_kinds())
    return list(dict.fromkeys(gap.question for found in gaps.values() for gap in found))


WALL, ROOF, SLAB = Bounds("wall"), Bounds("roof"), Bounds("slab")


def test_a_wall_alone_earns_one_question():
    assert questions({"w": WALL}, []) == ["How is the air barrier of w carried on to what it meets?"]


def test_assemblies_without_any_junction_earn_one_question():
    assert questions({"wall": WALL, "roof": ROOF}, []) == [
        "How does the air barrier of wall meet that of roof?"
    ]
    assert questions({"a": WALL, "b": WALL, "roof": ROOF, "slab": SLAB}, []) == [
        "How do the air barriers of a, b, roof and slab meet?"
    ]


def test_a_junction_the_enclosure_must_have_is_asked_for():
    named = [("wall", "base"), ("slab", "perimeter"), ("wall", "ends"), ("roof", "ridge")]
    assert questions({"wall": WALL, "roof": ROOF, "slab": SLAB}, named) == [
        "How does the air barrier of wall meet that of roof?",  # the eave
        "How is the air barrier carried on at the rakes of roof?",
    ]


def test_one_question_for_one_kind_of_side_however_many_walls():
    walls = {f"w{n}": WALL for n in range(12)}
    named = [(name, side) for name in walls for side in ("base", "top")]
    asked = questions(walls, named)
    assert len(asked) == 1
    assert asked[0].startswith("How is the air barrier carried on at the ends of w0, w1")


def test_what_bounds_a_garage_or_a_neighbour_is_part_of_the_enclosure(facts_of):
    for outside in ("garage", "attic", "crawlspace", "neighbour", "ground"):
        facts = facts_of(
            yaml.safe_load(f"""
            speccheck: 1
            assemblies:
              w:
                kind: wall
                outside: {outside}
                layers: [{{id: b, material: plywood, thickness: 12 mm, controls: [air]}}]
            junctions:
              base: {{kind: wall-slab, joins: [w.base], air: [{{from: w.b, to: w.b, by: acrylic-tape}}]}}
        """)
        )
        assert facts.value("project.sides_unshown") == ("w.top", "w.left", "w.right")
        assert facts["project.air_line_closed"].value is None
