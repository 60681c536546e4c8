"""Facts of a junction beside its lines: kind, what meets, hollows, sides claimed twice; contact; season; systems."""

import copy
from typing import Any

import pytest
import yaml

HOUSE: dict[str, Any] = yaml.safe_load("""
speccheck: 1
project: {place: {zone: 6A}, sealing-months: [7, 10]}
products:
  film: {family: polyamide-film, system: Grey}
assemblies:
  wall:
    kind: wall
    framing: {spacing: 16 in}
    layers:
      - {id: film, product: film, controls: [air]}
      - {id: fill, material: mineral-wool-batt, thickness: 140 mm, framed: true}
      - {id: board, material: plywood, thickness: 12 mm}
  slab:
    kind: slab
    layers: [{id: concrete, material: concrete, thickness: 100 mm, controls: [air]}]
junctions:
  base:
    kind: wall-slab
    joins: [wall.base, slab.perimeter]
    thermal: continuous
    air: [{from: wall.film, to: slab.concrete, by: acoustical-sealant-bead, system: grey}]
openings:
  window: {kind: window, in: wall, frame: pvc-rigid, air: [{from: window.frame, to: wall.film, by: acrylic-tape}]}
""")


def changed(**base: Any) -> dict[str, Any]:
    data = copy.deepcopy(HOUSE)
    data["junctions"]["base"] |= base
    return data


def test_the_kind_is_found_by_another_word_for_it(facts_of):
    facts = facts_of(HOUSE)
    assert facts.value("base.kind") == "wall-slab"
    assert facts.value("base.kind_id") == "wall-to-slab"
    assert facts.value("base.kind_known") is True
    assert facts.value("base.hollow") is False
    assert facts.value("base.reviewer_question").startswith("What seals the bottom plate")


def test_an_unknown_kind_is_kept_and_a_misspelt_one_has_neighbours(facts_of):
    facts = facts_of(changed(kind="wall-to-slabb"))
    assert facts.value("base.kind_known") is False
    assert facts.value("base.near_kinds") == ("wall-to-slab",)
    assert facts["base.kind_id"].inapplicable
    assert facts_of(changed(kind="the odd corner by the stair")).value("base.near_kinds") == ()


def test_what_meets(facts_of):
    facts = facts_of(HOUSE)
    assert facts.value("base.assembly_kinds") == ("wall", "slab")
    assert facts.value("base.outsides") == ("outdoors", "ground")
    assert facts.value("base.framing_families") == ("wood", "none")


@pytest.mark.parametrize("key", ["blocked", "drained", "kick-out"])
def test_what_is_not_said_is_unknown_with_its_question(facts_of, key):
    name = key.replace("-", "_")
    fact = facts_of(HOUSE)[f"base.{name}"]
    assert fact.value is None
    assert " base" in fact.missing[0].question
    for value in (True, False):
        assert facts_of(changed(**{key: value})).value(f"base.{name}") is value


def test_thermal_continuity_is_counted(facts_of):
    assert facts_of(HOUSE).value("project.thermal_gap_count") == 0
    facts = facts_of(changed(thermal="interrupted"))
    assert facts.value("project.thermal_gap_count") == 1
    assert facts_of(changed(thermal=None)).value("project.thermal_unshown_count") == 1


@pytest.mark.parametrize(
    ("sides", "joins", "shared"),
    [
        (None, ["wall.left"], ()),
        (None, ["wall.base", "slab.perimeter"], ("slab.perimeter and wall.base by base",)),
        (None, ["wall.base-north", "slab.north"], ()),
        (["base", "top"], ["wall.base"], ("wall.base by base",)),
    ],
)
def test_a_side_that_can_meet_one_thing_only_is_claimed_once(facts_of, sides, joins, shared):
    data = copy.deepcopy(HOUSE)
    if sides:
        data["assemblies"]["wall"]["sides"] = sides
    data["junctions"]["other"] = {"kind": "corner", "joins": joins}
    assert facts_of(data).value("other.sides_shared") == shared


def test_systems_are_compared_where_a_product_names_one(facts_of):
    facts = facts_of(HOUSE)
    assert facts.value("base.air_systems_mixed") == ()
    assert facts.value("base.air_systems_unsaid") == ()
    assert facts.value("window.air_systems_unsaid") == ("acrylic-tape on wall.film",)
    link = {**HOUSE["junctions"]["base"]["air"][0], "system": "Blue"}
    assert facts_of(changed(air=[link])).value("base.air_systems_mixed") == (
        "acoustical-sealant-bead on wall.film",
    )


def test_the_season_of_sealing_is_that_of_the_coldest_month_named(facts_of):
    facts = facts_of(HOUSE)
    # sealing table: acoustical sealant from 4 °C, acrylic tape from -10 °C, both by common trade figures
    assert facts.value("project.sealing_limit") == 4.0
    assert facts.value("project.sealing_limit_means") == ("acoustical-sealant-bead",)
    both = facts.value("climate.sealing_temperature")
    warm = copy.deepcopy(HOUSE)
    warm["project"]["sealing-months"] = [7]
    assert both < facts_of(warm).value("climate.sealing_temperature")
    assert facts.value("climate.coldest_month_temperature") < both
    untold = copy.deepcopy(HOUSE)
    del untold["project"]["sealing-months"]
    assert facts_of(untold)["climate.sealing_temperature"].missing[0].place == "project"


def test_a_sheet_of_the_air_barrier_states_its_own_lowest_temperature(facts_of):
    sheeted = copy.deepcopy(HOUSE)
    name, product = next(iter(sheeted["products"].items()))
    product["application-temperature"] = "50 °F"
    facts = facts_of(sheeted)
    assert facts.value("project.sealing_limit") == pytest.approx(10.0)
    assert facts.value("project.sealing_limit_means") == (name,)
    assert facts["project.sealing_limit"].origin.value == "product"
    product["application-temperature"] = "-20 °C"  # the sealant still wants 4 °C
    assert facts_of(sheeted).value("project.sealing_limit") == 4.0
    for assembly in sheeted["assemblies"].values():
        for layer in assembly["layers"]:
            layer["controls"] = [one for one in layer.get("controls", []) if one != "air"]
    product["application-temperature"] = "50 °F"  # a sheet that is no part of the air barrier does not count
    assert facts_of(sheeted).value("project.sealing_limit") == 4.0


def test_a_means_is_held_against_the_frame_it_is_stuck_to(facts_of):
    data = copy.deepcopy(HOUSE)
    data["openings"]["window"]["air"][0]["by"] = "rubberised-asphalt-tape"
    facts = facts_of(data)
    # sealing table: plasticisers of PVC and asphalt do not mix (flashing tape deck, read)
    assert facts.value("window.air_unsuited") == ("rubberised-asphalt-tape on window.frame",)
    assert facts.value("window.air_connected") is False
    assert facts.value("project.air_gap_places") == ("window",)


def test_parts_of_a_frame(facts_of):
    data = copy.deepcopy(HOUSE)
    data["openings"]["window"]["air"][0]["at"] = ["head", "jambs"]
    facts = facts_of(data)
    assert facts.value("window.air_connected") is False
    assert facts.value("window.air_open_parts") == ("sill",)
    data["openings"]["window"]["air"].append(
        {"from": "window.frame", "to": "wall.film", "by": "acrylic-tape", "at": ["sill"]}
    )
    assert facts_of(data).value("window.air_connected") is True


def test_contact_of_insulation_and_air_barrier(facts_of):
    facts = facts_of(HOUSE)
    assert facts.value("wall.insulation_touches_air_barrier") is True
    assert facts.value("wall.fill.inner_neighbour") == "polyamide-film"
    assert facts.value("wall.fill.outer_neighbour") == "plywood"
    assert facts.value("wall.film.inner_neighbour") == "room"
    assert facts.value("wall.board.outer_neighbour") == "beyond"
    data = copy.deepcopy(HOUSE)
    data["assemblies"]["wall"]["layers"].insert(
        1, {"id": "gap", "material": "air-cavity", "thickness": "20 mm"}
    )
    assert facts_of(data).value("wall.insulation_touches_air_barrier") is False
    assert facts["slab.insulation_touches_air_barrier"].inapplicable
