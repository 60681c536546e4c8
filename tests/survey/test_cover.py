"""What covers foam toward the room, what faces moving air, on what a joint rests: facts read off the declared order."""

import pytest

from speccheck.survey import Origin

WALL = """
speccheck: 1
project: {{place: {{zone: 6A}}}}
products: {{panel: {{name: a panel}}}}
assemblies:
  wall:
    kind: wall
    framing: {{spacing: 16 in}}
    layers:
{inner}
      - {{id: foam, material: xps, thickness: 50 mm}}
      - {{id: board, material: gypsum-sheathing-glass-mat, thickness: 12.7 mm}}
"""


def _wall(*inner: str) -> str:
    return WALL.format(inner="\n".join(f"      - {layer}" for layer in inner))


@pytest.mark.parametrize(
    ("inner", "gypsum", "panel", "masonry"),
    [
        (("{material: gypsum-board, thickness: 12.7 mm}",), 0.0127, 0.0, 0.0),
        (("{id: a, material: gypsum-board, thickness: 12.7 mm}", "{material: gypsum-board, thickness: 9.5 mm}"), 0.0222, 0.0, 0.0),
        (("{material: plywood, thickness: 18 mm}",), 0.0, 0.018, 0.0),
        (("{material: concrete, thickness: 100 mm}", "{material: osb, thickness: 11 mm}"), 0.0, 0.011, 0.1),
        (("{material: softwood-board, thickness: 20 mm}",), 0.0, 0.0, 0.0),
    ],
)  # fmt: skip
def test_cover_adds_up_what_lies_inboard(facts_of, inner, gypsum, panel, masonry):
    facts = facts_of(_wall(*inner))
    found = [facts.value(f"wall.foam.{name}_inboard") for name in ("gypsum", "wood_panel", "masonry")]
    assert found == pytest.approx([gypsum, panel, masonry])


def test_cover_of_unknown_thickness_asks_for_it(facts_of):
    facts = facts_of(_wall("{material: gypsum-board}"))
    assert [gap.wanted for gap in facts["wall.foam.gypsum_inboard"].missing] == ["thickness"]
    assert facts.value("wall.foam.masonry_inboard") == 0.0


def test_cover_of_unknown_kind_asks_what_it_is(facts_of):
    facts = facts_of(_wall("{product: panel, thickness: 18 mm}"))
    assert [gap.wanted for gap in facts["wall.foam.gypsum_inboard"].missing] == ["generic family"]


def test_cover_is_asked_of_foam_only(facts_of):
    facts = facts_of(_wall("{material: gypsum-board, thickness: 12.7 mm}"))
    assert facts["wall.board.gypsum_inboard"].origin is Origin.INAPPLICABLE


@pytest.mark.parametrize(
    ("outer", "moving"),
    [
        ("{material: osb, thickness: 11 mm}", False),
        ("{material: air-cavity, thickness: 19 mm, ventilation: ventilated}", True),
        ("{material: air-cavity, thickness: 19 mm, ventilation: vented}", True),
        ("{material: air-cavity, thickness: 19 mm, ventilation: drained}", False),
        ("{material: air-cavity, thickness: 19 mm, ventilation: none}", False),
        ("{material: air-cavity, thickness: 19 mm}", None),
    ],
)
def test_insulation_faces_moving_air_by_the_next_layer(facts_of, outer, moving):
    text = f"""
speccheck: 1
assemblies:
  wall:
    kind: wall
    layers:
      - {{id: fill, material: mineral-wool-batt, thickness: 100 mm}}
      - {outer}
      - {{id: cladding, material: vinyl-siding}}
"""
    fact = facts_of(text)["wall.fill.faces_moving_air"]
    assert fact.value is moving
    if moving is None:
        assert [gap.wanted for gap in fact.missing] == ["ventilation of the cavity"]


def test_outermost_insulation_faces_moving_air(facts_of):
    text = """
speccheck: 1
assemblies: {wall: {kind: wall, layers: [{id: fill, material: mineral-wool-board, thickness: 100 mm}]}}
"""
    assert facts_of(text).value("wall.fill.faces_moving_air") is True


def test_a_connection_rests_alone_on_its_only_means(facts_of):
    text = """
speccheck: 1
assemblies: {wall: {kind: wall, layers: [{id: board, material: osb, thickness: 11 mm, controls: [air]}]}}
junctions:
  base:
    kind: wall-to-slab
    joins: [wall.perimeter]
    air:
      - {from: wall.board, to: wall.board, by: [staples, acrylic-tape]}
      - {from: wall.board, to: wall.board, by: epdm-gasket}
      - {from: wall.board, to: wall.board, by: [batt]}
"""
    facts = facts_of(text)
    assert facts.value("base.air_means") == ("staples", "acrylic-tape", "epdm-gasket", "batt")
    assert facts.value("base.air_sole_means") == ("epdm-gasket", "batt")


@pytest.mark.parametrize(("control", "words"), [("air", "air barrier"), ("water", "water-resistive barrier")])
def test_a_barrier_that_is_not_named_is_not_shown(facts_of, control, words):
    bare = "speccheck: 1\nassemblies: {wall: {kind: wall, layers: [{id: board, material: osb, thickness: 11 mm%s}]}}"
    fact = facts_of(bare % "")[f"wall.{control}_barrier"]
    assert [(gap.wanted, gap.question) for gap in fact.missing] == [
        (words, f"Which layer of wall is the {words}?")
    ]
    assert facts_of(bare % f", controls: [{control}]").value(f"wall.{control}_barrier") == ("board",)


# R-23 at 5.5 in: usual for mineral batts, the table's own range reaches a little higher; R-30 does not exist there.
def test_usual_resistance_is_the_upper_end_of_the_table(facts_of):
    text = """
speccheck: 1
assemblies:
  wall:
    kind: wall
    layers:
      - {id: fill, material: mineral-wool-batt, thickness: 5.5 in, thermal-resistance: R-23}
      - {id: thin, material: mineral-wool-batt, thermal-resistance: R-15}
"""
    facts = facts_of(text)
    assert 23 / 5.678 <= facts.value("wall.fill.resistance_usual_high") < 26 / 5.678
    assert facts["wall.thin.resistance_usual_high"].origin is Origin.INAPPLICABLE
    assert facts.value("wall.thin.resistance_declared") is True
