"""The air barrier as a walk: closed rings, open places, two lines side by side, and order that must not matter."""

import copy
import itertools
from typing import Any

import pytest
import yaml
from hypothesis import given, settings
from hypothesis import strategies as st

HOUSE: dict[str, Any] = yaml.safe_load("""
speccheck: 1
project: {place: {zone: 6A}, indoor: {humidity: 35 %}}
assemblies:
  wall:
    kind: wall
    framing: {spacing: 16 in}
    layers:
      - {id: lining, material: gypsum-board, thickness: 12.7 mm}
      - {id: control, material: variable-permeance-membrane, controls: [air, vapour]}
      - {id: fill, material: mineral-wool-batt, thickness: 140 mm, framed: true}
      - {id: sheathing, material: osb, thickness: 11 mm, controls: [air]}
  roof:
    kind: roof
    framing: {spacing: 24 in}
    layers:
      - {id: control, material: variable-permeance-membrane, controls: [air, vapour]}
      - {id: fill, material: mineral-wool-batt, thickness: 240 mm, framed: true}
      - {id: deck, material: plywood, thickness: 18 mm}
  slab:
    kind: slab
    layers:
      - {id: concrete, material: concrete, thickness: 100 mm, controls: [air]}
      - {id: foam, material: xps, thickness: 100 mm}
junctions:
  eave: {kind: wall-roof, joins: [wall.top, roof.perimeter], air: [{from: wall.control, to: roof.control, by: acrylic-tape}]}
  base: {kind: wall-slab, joins: [wall.base, slab.perimeter], air: [{from: wall.control, to: slab.concrete, by: membrane-adhesive-cartridge}]}
  corner: {kind: wall-wall, joins: [wall.left, wall.right], air: [{from: wall.control, to: wall.control, by: acrylic-tape}]}
openings:
  window: {kind: window, in: wall, air: [{from: window.frame, to: wall.control, by: acrylic-tape}]}
penetrations:
  duct: {kind: duct, in: roof, air: [{from: duct.ring, to: roof.control, by: acrylic-tape}]}
""")

CONNECTIONS = [
    ("junctions", "eave"),
    ("junctions", "base"),
    ("junctions", "corner"),
    ("openings", "window"),
    ("penetrations", "duct"),
]


def changed(**parts: Any) -> dict[str, Any]:
    return {**copy.deepcopy(HOUSE), **parts}


def with_air(part: str, name: str, air: Any) -> dict[str, Any]:
    data = copy.deepcopy(HOUSE)
    if air is None:
        del data[part][name]["air"]
    else:
        data[part][name]["air"] = air
    return data


def test_a_closed_line(facts_of):
    facts = facts_of(HOUSE)
    assert facts.value("project.air_line_closed") is True
    assert facts.value("project.air_gap_count") == 0
    assert facts.value("project.air_unshown_count") == 0
    assert (
        facts.value("project.air_line_count") == 2
    )  # the membranes with the slab, and the sheathing on its own
    for name in ("wall", "roof", "slab"):
        assert facts.value(f"{name}.air_barrier_connected") is True


@pytest.mark.parametrize(("part", "name"), CONNECTIONS)
def test_no_connection_opens_the_line_exactly_there(facts_of, part, name):
    facts = facts_of(with_air(part, name, []))
    assert facts.value("project.air_line_closed") is False
    assert facts.value("project.air_gap_count") == 1
    assert facts["project.air_line_closed"].method.endswith(f" {name}")
    open_ = [other for _, other in CONNECTIONS if facts.value(f"{other}.air_connected") is not True]
    assert open_ == [name]


@pytest.mark.parametrize(("part", "name"), CONNECTIONS)
def test_a_connection_not_shown_is_asked_for_there(facts_of, part, name):
    facts = facts_of(with_air(part, name, None))
    closed = facts["project.air_line_closed"]
    assert closed.value is None
    assert [(gap.place, gap.path) for gap in closed.missing] == [(name, (part, name))]
    assert facts.value("project.air_unshown_count") == 1
    assert facts.value("project.air_gap_count") == 0


def test_a_place_shown_open_outweighs_one_not_shown(facts_of):
    data = with_air("junctions", "eave", [])
    del data["openings"]["window"]["air"]
    facts = facts_of(data)
    assert facts.value("project.air_line_closed") is False
    assert facts.value("wall.air_barrier_connected") is False


def test_a_connection_that_ends_at_a_layer_that_holds_no_air_does_not_count(facts_of):
    data = with_air("junctions", "eave", [{"from": "wall.control", "to": "roof.deck", "by": "acrylic-tape"}])
    facts = facts_of(data)
    assert facts.value("eave.air_connected") is False
    assert facts.value("eave.air_unconnected") == ("roof",)
    assert facts.value("project.air_line_closed") is False


def test_two_lines_do_not_mend_each_other(facts_of):
    # The window meets the outer line of the wall while everything else runs by the inner one: neither is closed.
    data = with_air(
        "openings", "window", [{"from": "window.frame", "to": "wall.sheathing", "by": "acrylic-tape"}]
    )
    facts = facts_of(data)
    assert facts.value("window.air_connected") is True
    assert facts.value("project.air_line_closed") is False
    assert facts.value("project.air_gap_places") == ("window",)
    assert facts.value("project.air_missing_connections") == ("window: wall.control to window.frame",)
    assert facts.value("window.air_wanted") == ("wall.control to window.frame",)


def test_two_lines_that_meet_at_one_side_only_do_not_mend_each_other_either(facts_of):
    # Joined at the base, the outer line is still open at the eave: air that passes the window's hole in the inner line
    # runs up between the two and out.
    data = with_air(
        "openings", "window", [{"from": "window.frame", "to": "wall.sheathing", "by": "acrylic-tape"}]
    )
    data["junctions"]["base"]["air"].append(
        {"from": "wall.sheathing", "to": "slab.concrete", "by": "gap-foam"}
    )
    assert facts_of(data).value("project.air_line_closed") is False


def test_connections_of_another_place_do_not_close_a_junction(facts_of):
    # The roof and the slab are on one line by way of the wall; a junction of roof and slab needs a connection of its own.
    data = changed()
    data["junctions"]["porch"] = {"kind": "roof-slab", "joins": ["roof.low", "slab.edge"], "air": []}
    facts = facts_of(data)
    assert facts.value("porch.air_connected") is False
    assert facts["project.air_line_closed"].method.endswith(" porch")


def test_three_assemblies_need_two_connections(facts_of):
    data = changed()
    data["junctions"] = {
        "corner": {"kind": "wall-roof", "joins": ["wall.top", "roof.eave", "slab.perimeter"],
                   "air": [{"from": "wall.control", "to": "roof.control", "by": "acrylic-tape"}]},
    }  # fmt: skip
    facts = facts_of(data)
    assert facts.value("corner.air_unconnected") == ("slab",)
    data["junctions"]["corner"]["air"].append(
        {"from": "slab.concrete", "to": "wall.control", "by": "gap-foam"}
    )
    assert facts_of(data).value("corner.air_unconnected") == ()


def test_an_assembly_without_air_barrier_is_asked_about(facts_of):
    data = changed()
    data["assemblies"]["slab"]["layers"][0].pop("controls")
    data["junctions"]["base"]["air"] = [{"from": "wall.control", "to": "slab.concrete", "by": "gap-foam"}]
    facts = facts_of(data)
    assert facts["slab.air_barrier"].missing[0].question == "Which layer of slab is the air barrier?"
    assert facts.value("slab.air_barrier_named") is False
    assert facts.value("base.air_connected") is False


def test_an_assembly_that_meets_nothing_is_asked_about(facts_of):
    data = changed()
    del data["junctions"]["eave"]
    facts = facts_of(data)
    assert facts.value("roof.junctions_shown") is False
    assert facts["roof.air_barrier_connected"].missing[0].wanted == "junctions"


def test_ring_of_connections(facts_of):
    # Round the corner and back: a ring of four walls, opened at each place in turn.
    layers = [{"id": "sheet", "material": "housewrap-microporous", "controls": ["air"]}]
    names = ["north", "east", "south", "west"]
    joints = {
        f"{a}-{b}": {"kind": "wall-wall", "joins": [f"{a}.end", f"{b}.start"],
                     "air": [{"from": f"{a}.sheet", "to": f"{b}.sheet", "by": "acrylic-tape"}]}
        for a, b in itertools.pairwise([*names, "north"])
    }  # fmt: skip
    data = {
        "speccheck": 1,
        "assemblies": {name: {"kind": "wall", "sides": ["start", "end"], "layers": layers} for name in names},
        "junctions": joints,
    }
    assert facts_of(data).value("project.air_line_closed") is True
    for joint in joints:
        opened = copy.deepcopy(data)
        opened["junctions"][joint]["air"] = []
        facts = facts_of(opened)
        # the line still reaches all walls the other way round, and yet the corner is open
        assert facts.value("project.air_line_count") == 1
        assert [name for name in joints if not facts.value(f"{name}.air_connected")] == [joint]
        assert facts.value("project.air_line_closed") is False


def seen(facts) -> dict[str, object]:
    def alike(value: object) -> object:
        return frozenset(value) if isinstance(value, tuple) else value

    return {
        name: (alike(fact.value), fact.origin, {gap.key for gap in fact.missing})
        for name, fact in facts.items()
    }


@settings(max_examples=25, deadline=None)
@given(st.data())
def test_order_of_declaration_never_matters(facts_of, data):
    house = copy.deepcopy(HOUSE)
    opened = data.draw(st.sampled_from([None, *CONNECTIONS]))
    if opened is not None:
        house[opened[0]][opened[1]]["air"] = []
    shuffled: dict[str, Any] = {}
    for key in data.draw(st.permutations(list(house))):
        value = house[key]
        if key in ("assemblies", "junctions", "openings", "penetrations"):
            value = {name: value[name] for name in data.draw(st.permutations(list(value)))}
        shuffled[key] = value
    for junction in shuffled["junctions"].values():
        junction["joins"] = data.draw(st.permutations(junction["joins"]))
    before, after = seen(facts_of(house)), seen(facts_of(shuffled))
    # lists hold the order as declared; what they hold is the same
    assert after == before
