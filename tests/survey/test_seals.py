"""Means of sealing on what they are put on: what carries a line, what does not, and what is asked."""

import pytest
import yaml

from speccheck.survey.seals import End, seal
from speccheck.tables.construction import sealing_means, sealing_means_ids, substrate_of
from speccheck.tables.materials import material_ids


def joined(by, *materials):
    return seal(by, [End(f"x.{material}", material) for material in materials])


def test_a_tape_that_suits_both_faces_carries():
    one = joined(["acrylic-tape"], "plywood", "polyethylene-film")
    assert one == (True, (), (), (), (), (), ())


@pytest.mark.parametrize(
    ("by", "material"),
    [
        # Contractor's study and military guide specification, read: no curing sealant against bitumen.
        ("polyurethane-or-hybrid-sealant-bead", "bituminous-membrane"),
        # common practice, no source: silicone does not stick to polyethylene, bitumen swells EPDM
        ("silicone-sealant-bead", "polyethylene-film"),
        ("rubberised-asphalt-tape", "epdm-membrane"),
        ("low-expansion-foam", "polyethylene-film"),
    ],
)
def test_a_means_that_does_not_hold_carries_nothing(by, material):
    one = joined([by], "plywood", material)
    assert not one.carries
    assert one.unsuited == (f"{by} on x.{material}",)


@pytest.mark.parametrize(
    "word", ["batt", "mineral-wool", "loose-fill", "staples", "nails", "lap", "by-others"]
)
def test_fibre_staples_and_a_bare_lap_are_no_seal(word):
    # WAC Table R402.4.1.1 and NBC 9.25.3.3, read
    one = joined([word], "plywood")
    assert not one.carries
    assert one.no_seal == (word,)
    assert joined([word, "acrylic-tape"], "plywood").carries  # a tape over the staples


def test_two_means_together_hold_where_one_of_them_does():
    one = joined(["silicone-sealant-bead", "acoustical-sealant-bead"], "polyethylene-film", "plywood")
    assert one.carries
    assert one.unsuited == ("silicone-sealant-bead on x.polyethylene-film",)  # it harms all the same


def test_a_primer_is_asked_for_where_it_is_wanted():
    assert joined(["acrylic-tape"], "concrete").unaided == ("acrylic-tape on x.concrete wants a primer",)
    assert joined(["acrylic-tape", "primer"], "concrete").unaided == ()
    assert joined(["acrylic-tape", "membrane-adhesive-cartridge"], "concrete").unaided == ()
    assert joined(["acrylic-tape"], "concrete").carries


def test_what_the_table_does_not_rate_needs_the_makers_word():
    assert joined(["closed-cell-foam-sill-seal"], "osb").unrated == ("closed-cell-foam-sill-seal on x.osb",)
    assert joined(["site-made-goo"], "osb").unknown == ("site-made-goo",)
    assert joined(["site-made-goo"], "osb").carries


@pytest.mark.parametrize(
    ("by", "surface", "field", "words"),
    [
        # Sealing table, common practice: acrylic neither on damp nor on rough concrete; a gasket does not follow a
        # rough face; a sealant bead fills it.
        ("acrylic-tape", "damp", "unsuited", "acrylic-tape on slab.top (damp)"),
        ("acrylic-tape", "rough", "unsuited", "acrylic-tape on slab.top (rough)"),
        ("closed-cell-foam-sill-seal", "rough", "unsuited", "closed-cell-foam-sill-seal on slab.top (rough)"),
        ("butyl-tape", "rough", "unaided", "butyl-tape on slab.top (rough) wants a primer"),
        ("butyl-tape", "smooth", "unaided", "butyl-tape on slab.top wants a primer"),
    ],
)
def test_the_face_of_concrete_counts(by, surface, field, words):
    one = seal([by], [End("slab.top", "concrete", surface=surface)])
    assert getattr(one, field) == (words,)
    assert one.carries is (field != "unsuited")


def test_a_face_the_table_does_not_rate_needs_the_makers_word():
    damp = seal(["acrylic-tape"], [End("w.ply", "plywood", surface="damp")])
    assert damp.unrated == ("acrylic-tape on w.ply (damp)",)
    assert seal(["acrylic-tape"], [End("w.osb", "osb", surface="rough")]).unaided
    assert joined(["acrylic-tape"], "osb").unaided == ()
    brick = [seal(["acrylic-tape"], [End("w.b", "clay-brick", surface=s)]).carries for s in (None, "rough")]
    assert brick == [False, False]  # brick is rated as it comes


def test_a_leaky_end_carries_nothing():
    one = seal(["acrylic-tape"], [End("w.felt", "asphalt-felt", leaky=True), End("w.ply", "plywood")])
    assert not one.carries
    assert one.leaky == ("w.felt",)


def test_an_end_of_no_known_material_is_not_judged():
    assert seal(["acrylic-tape"], [End("window.frame"), End("w.ply", "plywood")]).carries


def test_every_means_on_every_material_gives_an_answer():
    for means in sealing_means_ids():
        for material in material_ids():
            one = joined([means], material)
            rating = sealing_means(means).ratings.get(substrate_of(material) or "")
            assert one.carries == (rating not in ("poor", "incompatible"))


HOUSE = """
speccheck: 1
assemblies:
  wall:
    kind: wall
    layers:
      - {{id: board, material: {board}, thickness: 12 mm, controls: [air]}}
junctions:
  round: {{kind: corner, joins: [wall.perimeter], air: [{{from: wall.board, to: wall.board, by: {by}}}]}}
"""


@pytest.mark.parametrize(
    ("board", "by", "closed", "fact", "words"),
    [
        ("plywood", "acrylic-tape", True, "air_unsuited", ()),
        ("plywood", "staples", False, "air_no_seal", ("staples",)),
        ("fibreboard-sheathing", "acrylic-tape", False, "air_unable", ("wall.board",)),
        ("brick-veneer", "acrylic-tape", False, "air_unsuited", ("acrylic-tape on wall.board",)),
        ("concrete", "acrylic-tape", True, "air_unaided", ("acrylic-tape on wall.board wants a primer",)),
    ],
)
def test_what_cannot_carry_the_line_opens_it_and_is_named_there(facts_of, board, by, closed, fact, words):
    facts = facts_of(yaml.safe_load(HOUSE.format(board=board, by=by)))
    assert facts.value("project.air_line_closed") is closed
    assert facts.value(f"round.{fact}") == words
