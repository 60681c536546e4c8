"""The vocabulary and what is entered: every fact has a name and a type in it, and every name is entered somewhere."""

from typing import Any

import pytest
import yaml

from speccheck.judgement.library import load_pack, pack_ids
from speccheck.quantity import Kind
from speccheck.survey import VOCABULARY
from speccheck.survey.vocabulary import SEEN_FROM, SUBJECTS

RICH = yaml.safe_load("""
speccheck: 1
project:
  place: {zip: "04101"}
  use: dwelling
  adopted: [us/irc-2021, us/no-such-edition]
  indoor: {temperature: 21 °C, humidity: 35 %, humidity-class: 3, cooled: false, humidified: false}
  volume: 400 m³
  floor-area: 140 m²
  enclosure-area: 420 m²
  storeys: 2
  built: 1962
  annual-rain: 1100 mm
  sealing-months: [9, 10, 11]
  ventilation: mechanical
  combustion: sealed
  airtightness: {target: 1.5 ACH50}
  air-barrier-lead: site foreman
products:
  membrane:
    family: variable-permeance-membrane
    permeance: {dry-cup: 0.8 perm, wet-cup: 11 perm}
    air-permeance: 0.0005 L/(s·m²) at 75 Pa
    exposure-limit: 60 d
    evidence: [{property: permeance, method: ASTM E96 procedure A}, {property: air-permeance, method: ASTM E2178}]
  sheet: {permeance: {cup-not-stated: 5 perm}}
  board: {family: xps, permeability: 1 perm-in}
assemblies:
  wall:
    kind: wall
    drying: both
    framing: {width: 38 mm, spacing: 406 mm, fraction: 0.23}
    stated: {effective-r: R-20, u-factor: 0.28 W/(m²·K), air-leakage: 0.04 cfm/ft2 at 75 Pa}
    layers:
      - {id: lining, material: gypsum-board, thickness: 12.7 mm, finish: latex-paint}
      - {id: service, material: mineral-wool-batt, thickness: 45 mm, framing: {width: 45 mm, spacing: 600 mm}}
      - {id: control, product: membrane, controls: [air, vapour], sealed: [laps, edges], exposure: 30 d}
      - {id: fill, material: mineral-wool-batt, thickness: 140 mm, framed: true, density: 40 kg/m³}
      - {id: osb, material: osb, thickness: 11 mm, controls: [air], moisture-content: 16 %}
      - {id: foam, product: board, thickness: 50 mm, interrupted-by: [girts], controls: [thermal]}
      - {id: wrap, material: housewrap-microporous, controls: [water]}
      - {id: cavity, material: air-cavity, thickness: 19 mm, ventilation: ventilated}
      - {id: cladding, material: wood-siding, thickness: 19 mm}
  steel:
    kind: wall
    framing: {material: steel, spacing: 16 in, width: 41 mm, steel-thickness: 1.1 mm}
    layers:
      - {id: lining, material: gypsum-board, thickness: 12.7 mm}
      - {id: mystery, product: sheet}
      - {id: fill, material: glass-fibre-batt, thickness: 3.5 in, thermal-resistance: R-13, framed: true}
      - {id: sheathing, material: gypsum-sheathing-glass-mat, thickness: 12.7 mm}
  slab:
    kind: slab
    edge: {insulation: R-10, depth: 4 ft}
    layers: [{id: concrete, material: concrete, thickness: 100 mm, surface: rough}]
junctions:
  corner:
    kind: wall-wall
    joins: [wall.end, steel.start]
    air: [{from: wall.control, to: steel.sheathing, by: acrylic-tape}]
    water: [{from: wall.wrap, to: steel.sheathing, by: acrylic-tape}]
    vapour: [{from: wall.control, to: steel.sheathing, by: acrylic-tape}]
    thermal: continuous
    blocked: true
    drained: true
    kick-out: true
openings:
  window:
    kind: window
    in: wall
    u-factor: 1.4 W/(m²·K)
    sill-pan: true
    drained: true
    frame: pvc-rigid
    water: [{from: window.frame, to: wall.wrap, by: acrylic-tape}]
    air: [{from: window.frame, to: wall.control, by: acrylic-tape}]
penetrations:
  flue: {kind: flue, in: wall, sealed-by: mechanical trade, air: [{from: flue.ring, to: wall.control, by: acrylic-tape}]}
waivers:
  - {rule: vapour.falls-outward, place: wall, reason: agreed with the moisture engineer, agreed-by: engineer, until: 2027-01-01}
""")

BY_AREA: dict[str, Any] = {
    **RICH,
    "project": {**RICH["project"], "airtightness": {"target": "0.25 cfm/ft2 at 50 Pa"}},
}
BY_DEGREES: dict[str, Any] = {**RICH, "project": {"place": {"degree-days": "4200 K·d"}}}

TYPES = {"number": float, "text": str, "truth": bool, "texts": tuple}


def documents() -> list[dict[str, Any]]:
    return [
        RICH,
        BY_AREA,
        BY_DEGREES,
        *(start for id_ in pack_ids() for start in load_pack(id_).starts.values()),
    ]


@pytest.fixture(scope="module")
def facts(checked):
    """All facts of all documents, those that the judgement enters too."""
    return [fact for data in documents() for fact in checked(data).surveyed.facts()]


def test_every_fact_entered_is_in_the_vocabulary(facts):
    assert {fact.name for fact in facts} - set(VOCABULARY) == set()


def test_every_fact_entered_has_the_declared_type(facts):
    wrong = {
        (fact.name, type(fact.value).__name__, VOCABULARY[fact.name].type)
        for fact in facts
        if fact.value is not None and type(fact.value) is not TYPES[VOCABULARY[fact.name].type]
    }
    assert wrong == set()


def test_every_name_of_the_vocabulary_is_entered_with_a_value_somewhere(facts):
    assert set(VOCABULARY) - {fact.name for fact in facts if fact.known} == set()


def test_every_text_fact_in_a_list_holds_texts(facts):
    assert all(isinstance(one, str) for fact in facts if isinstance(fact.value, tuple) for one in fact.value)


def test_ranges_hold_their_value(facts):
    for fact in facts:
        if fact.low is not None and fact.high is not None:
            assert fact.low <= fact.value <= fact.high, fact


def test_an_unknown_fact_says_what_is_missing_and_an_idle_one_why(facts):
    for fact in facts:
        if fact.origin.value == "unknown":
            assert fact.missing, fact
            assert all(gap.question.endswith("?") for gap in fact.missing), fact.missing
        if fact.origin.value == "inapplicable":
            assert fact.method, fact


def test_a_computed_number_names_its_inputs(facts):
    bare = {
        fact.name
        for fact in facts
        if fact.origin.value == "computed"
        and isinstance(fact.value, float)
        and fact.value != 0.0
        and not fact.inputs
    }
    # counts are taken from the document as a whole, and these from one declared entry; anything else must be traceable
    counted = {name for name in bare if name.endswith(("_count", "_parts", "_lines"))}
    single = {
        "layer.position",
        "layer.framing_fraction",
        "waiver.days_left",
        "project.airtightness_target_75",
    }
    assert bare - counted <= single


def test_assumed_lines_are_sentences_about_something(facts):
    for fact in facts:
        for line in fact.assumed:
            assert line == line.strip()
            assert len(line) > 10


def test_every_name_has_a_known_subject_kind_and_meaning():
    kinds = {kind.value for kind in Kind} | {"number", "text", "texts", "truth", "sd"}
    for name, fact in VOCABULARY.items():
        assert fact.subject in SUBJECTS, name
        assert fact.kind in kinds, (name, fact.kind)
        assert fact.meaning[-1] in ".?", name


def test_every_subject_sees_itself_the_project_and_the_climate():
    for subject, seen in SEEN_FROM.items():
        assert {"project", "climate"} <= set(seen) | ({"project"} if subject == "project" else set())
        assert subject in seen or subject == "edition"
