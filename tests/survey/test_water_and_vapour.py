"""Water and vapour by the same walk: joined, stopped, not shown, lapped the wrong way, and what need not be shown."""

import copy
from typing import Any

import pytest
import yaml

HOUSE: dict[str, Any] = yaml.safe_load("""
speccheck: 1
assemblies:
  wall:
    kind: wall
    layers:
      - {id: lining, material: gypsum-board, thickness: 12.7 mm, controls: [vapour]}
      - {id: board, material: plywood, thickness: 12 mm, controls: [air]}
      - {id: wrap, material: housewrap-microporous, controls: [water]}
  roof:
    kind: roof
    layers:
      - {id: film, material: polyamide-film, controls: [air, vapour]}
      - {id: underlay, material: roof-underlay-vapour-open, controls: [water]}
  slab:
    kind: slab
    layers:
      - {id: concrete, material: concrete, thickness: 100 mm, controls: [air]}
      - {id: film, material: underslab-vapour-barrier, controls: [water, vapour]}
junctions:
  base: {kind: wall-to-slab, joins: [wall.base, slab.perimeter]}
  eave: {kind: wall-to-eave, joins: [wall.top, roof.perimeter]}
  tub: {kind: tub-on-exterior-wall, joins: [wall.tub]}
openings:
  window: {kind: window, in: wall}
""")


def house(**water: Any) -> dict[str, Any]:
    data = copy.deepcopy(HOUSE)
    for name, links in water.items():
        part = "openings" if name in data["openings"] else "junctions"
        data[part][name]["water"] = links
    return data


def link(one, other, **more):
    return [{"from": one, "to": other, "by": "acrylic-tape", **more}]


def test_what_is_not_shown_is_asked_for_where_the_barrier_ends(facts_of):
    facts = facts_of(HOUSE)
    assert (
        facts.value("project.water_unshown_count") == 3
    )  # base, eave, window; behind a tub it passes on in itself
    assert facts.value("project.water_unshown_places") == ("base", "eave", "window")
    assert facts.value("project.water_gap_count") == 0
    gap = facts["eave.water_connected"].missing[0]
    assert gap.question == "How is the water barrier of wall and roof carried on at eave?"
    assert gap.path == ("junctions", "eave")


def test_joined_and_stopped(facts_of):
    facts = facts_of(house(eave=link("roof.underlay", "wall.wrap"), base=[], window=[]))
    assert facts.value("eave.water_connected") is True
    assert facts.value("base.water_connected") is False
    assert facts.value("base.water_unconnected") == ("wall", "slab")
    assert facts.value("window.water_connected") is False
    assert facts.value("project.water_gap_count") == 2
    assert facts.value("project.water_unshown_count") == 0


def test_a_barrier_led_onto_the_edge_of_a_slab_goes_on(facts_of):
    assert facts_of(house(base=link("wall.wrap", "slab.concrete"))).value("base.water_connected") is True
    # from a layer that keeps no water off it does not
    assert facts_of(house(base=link("wall.board", "slab.concrete"))).value("base.water_connected") is False


def test_a_lap_needs_no_tape_that_holds(facts_of):
    data = house(base=[{"from": "wall.wrap", "to": "slab.film", "by": "lap"}])
    assert facts_of(data).value("base.water_connected") is True


@pytest.mark.parametrize(
    ("one", "other", "over", "order"),
    [
        # Shingle order: International Residential Code R703.2, read: the upper layer over the lower.
        ("wall.wrap", "slab.film", "from", "shingled"),
        ("wall.wrap", "slab.film", "to", "turned"),
        ("slab.film", "wall.wrap", "to", "shingled"),
        ("slab.film", "wall.wrap", "from", "turned"),
        ("wall.wrap", "slab.film", None, "unsaid"),
    ],
)
def test_laps_at_the_base(facts_of, one, other, over, order):
    facts = facts_of(house(base=link(one, other, **({"over": over} if over else {}))))
    assert facts.value("base.water_lap_order") == order
    assert facts.value("base.water_laps_turned") == (
        ("slab.film over wall.wrap",) if order == "turned" else ()
    )
    assert facts.value("project.water_laps_unsaid") == (order == "unsaid")


@pytest.mark.parametrize(("kind", "order"), [("wall-to-eave", "shingled"), ("roof-to-wall", "turned")])
def test_a_roof_laps_over_the_wall_below_it_and_under_the_wall_above_it(facts_of, kind, order):
    data = house(eave=link("roof.underlay", "wall.wrap", over="from"))
    data["junctions"]["eave"]["kind"] = kind
    assert facts_of(data).value("eave.water_lap_order") == order


def test_of_two_walls_the_upper_laps_over_the_lower(facts_of):
    data = copy.deepcopy(HOUSE)
    data["assemblies"]["upper"] = copy.deepcopy(data["assemblies"]["wall"])
    storey = {"kind": "rim-joist", "joins": ["wall.top", "upper.base"]}
    data["junctions"]["storey"] = {**storey, "water": link("upper.wrap", "wall.wrap", over="from")}
    assert facts_of(data).value("storey.water_lap_order") == "shingled"
    data["junctions"]["storey"] = {**storey, "water": link("upper.wrap", "wall.wrap", over="to")}
    assert facts_of(data).value("storey.water_laps_turned") == ("wall.wrap over upper.wrap",)


def test_the_water_barrier_of_a_wall_to_a_garage_is_not_asked_for(facts_of):
    data = copy.deepcopy(HOUSE)
    data["assemblies"]["wall"]["outside"] = "garage"
    facts = facts_of(data)
    assert facts["window.water_connected"].inapplicable
    assert facts.value("project.water_unshown_count") == 2  # roof and slab still end somewhere


def test_vapour_is_counted_where_it_is_shown_to_stop(facts_of):
    data = copy.deepcopy(HOUSE)
    data["junctions"]["eave"]["vapour"] = []
    data["junctions"]["base"]["vapour"] = link("wall.lining", "slab.film")
    facts = facts_of(data)
    assert facts.value("eave.vapour_connected") is False
    assert facts.value("eave.vapour_unconnected") == ("wall", "roof")
    assert facts.value("base.vapour_connected") is True
    assert facts.value("project.vapour_gap_count") == 1
