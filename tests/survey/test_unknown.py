"""What is not shown: it leaves exactly its dependants unknown, the questions travel with them, nothing else moves."""

import copy
from typing import Any

import pytest
import yaml

WALL: dict[str, Any] = yaml.safe_load("""
speccheck: 1
project: {place: {zone: 6A}, indoor: {temperature: 21 °C, humidity: 35 %}}
assemblies:
  wall:
    kind: wall
    framing: {spacing: 16 in, fraction: 0.23, conductivity: 0.12 W/(m·K)}
    layers:
      - {id: lining, material: gypsum-board, thickness: 12.7 mm, finish: latex-paint}
      - {id: control, product: film, controls: [air, vapour]}
      - {id: fill, product: batt, thickness: 5.5 in, framed: true}
      - {id: board, product: panel, thickness: 11 mm}
      - {id: cavity, material: air-cavity, thickness: 19 mm, ventilation: ventilated}
      - {id: siding, material: wood-siding, thickness: 19 mm}
products:
  film: {family: variable-permeance-membrane, permeance: {dry-cup: 0.8 perm, wet-cup: 11 perm}, air-permeance: 0.001 L/(s·m²) at 75 Pa}
  batt:
    family: mineral-wool-batt
    thermal-resistance: R-23
    permeance: {dry-cup: 30 perm, wet-cup: 40 perm}
    air-permeance: 5 L/(s·m²) at 75 Pa
  panel:
    conductivity: 0.1 W/(m·K)
    permeance: {dry-cup: 1.5 perm, wet-cup: 3 perm}
    air-permeance: 0.001 L/(s·m²) at 75 Pa
""")


def without(*path: str) -> dict[str, Any]:
    """Return the wall with one value taken out."""
    data = copy.deepcopy(WALL)
    *above, last = path
    here = data
    for step in above:
        here = here[step]
    del here[last]
    return data


def resting_on(facts, *names: str) -> set[str]:
    """Return all facts that rest on these, by the inputs each fact names."""
    found = set(names)
    by_key = {fact.key: name for name, fact in facts.items()}
    grown = True
    while grown:
        more = {
            name
            for name, fact in facts.items()
            if name not in found and any(by_key.get(key) in found for key in fact.inputs)
        }
        grown = bool(more)
        found |= more
    return found


CASES = {
    "humidity": (("project", "indoor", "humidity"), ("project.indoor_rh",), ("project", "indoor humidity")),
    "dry cup of the film": (
        ("products", "film", "permeance", "dry-cup"),
        ("wall.control.permeance_dry", "film.permeance_dry"),
        ("film", "dry-cup permeance"),
    ),
    "wet cup of the panel": (
        ("products", "panel", "permeance", "wet-cup"),
        ("wall.board.permeance_wet", "panel.permeance_wet"),
        ("panel", "wet-cup permeance"),
    ),
    "conductivity of the panel": (
        ("products", "panel", "conductivity"),
        ("wall.board.resistance", "wall.board.conductivity"),
        ("panel", "thermal resistance"),
    ),
    "air permeance of the panel": (
        ("products", "panel", "air-permeance"),
        ("wall.board.air_permeance", "wall.board.air_impermeable", "panel.air_permeance"),
        ("panel", "air permeance"),
    ),
}

# Facts that fall back on the other cup by their definition, which says so in their method.
FALLBACK = {
    "wall.sd_outside",
    "wall.sd_ratio",
    "wall.interior_drying_permeance",
    "wall.exterior_drying_permeance",
}


@pytest.mark.parametrize("name", CASES)
def test_exactly_the_dependants_are_unknown(facts_of, name):
    path, roots, gap = CASES[name]
    full, bare = facts_of(WALL), facts_of(without(*path))
    allowed = resting_on(full, *roots)
    lost = {key for key, fact in full.items() if fact.known and not (key in bare and bare[key].known)}
    assert set(roots) <= lost
    # nothing but dependants, and the film's class and retarder that a missing cup may move
    assert lost <= allowed | {k for k in lost if k in bare and gap in {g.key for g in bare[k].missing}}
    for key in lost:
        if key not in bare or key in roots:  # a conductivity is entered only where it is stated
            continue
        assert gap in {g.key for g in bare[key].missing}, (key, bare[key].missing)
    # every dependant is unknown with the reason, or falls back on something else and says so
    for key in allowed - lost:
        if full[key].known and key in bare and bare[key].known:
            said = (bare[key].method, bare[key].assumed) != (full[key].method, full[key].assumed)
            assert said or key in FALLBACK, key


@pytest.mark.parametrize("name", CASES)
def test_nothing_else_moves(facts_of, name):
    path, roots, gap = CASES[name]
    full, bare = facts_of(WALL), facts_of(without(*path))
    allowed = resting_on(full, *roots) | FALLBACK
    told = {
        "properties_stated",
        "indoor_humidity_by",
        "states_one_cup_only",
        "permeance_by_cup",
        "permeance_dry",
        "permeance_wet",
        "air_permeance",
    }
    declared = {"resistance_declared", "permeance_declared", "air_permeance_declared"}
    for key, fact in full.items():
        if key in allowed or key.rpartition(".")[2] in told | declared:
            continue
        if key in bare and gap in {g.key for g in bare[key].missing}:
            continue
        if key not in bare:
            assert fact.name in ("layer.conductivity",), key  # entered only where it is stated
            continue
        assert (bare[key].value, bare[key].origin) == (fact.value, fact.origin), key


def test_the_chain_of_reasons_leads_from_the_verdict_to_the_question(facts_of):
    facts = facts_of(without("project", "indoor", "humidity"))
    fact = facts["wall.plane_margin"]
    assert fact.value is None
    by_key = {one.key: one for one in facts.values()}
    chain = [fact]
    while chain[-1].inputs:
        (chain,) = [[*chain, by_key[key]] for key in chain[-1].inputs if by_key[key].missing]
    assert [one.name for one in chain] == [
        "assembly.plane_margin", "project.indoor_dew_point", "project.indoor_vapour_pressure", "project.indoor_rh",
    ]  # fmt: skip
    assert {gap.question for one in chain for gap in one.missing} == {
        "Which relative humidity is kept indoors in winter?"
    }


def test_a_cup_not_named_is_asked_for_and_neither_cup_takes_it(facts_of):
    data = without("products", "film", "permeance")
    data["products"]["film"]["permeance"] = {"cup-not-stated": "5 perm"}
    facts = facts_of(data)
    assert facts["wall.control.permeance_unstated"].value == pytest.approx(5 * 57.2135e-12, rel=1e-5, abs=0)
    for cup in ("dry", "wet"):
        (gap,) = facts[f"wall.control.permeance_{cup}"].missing
        assert gap.question == "By which cup was the 5 perm of film tested, dry or wet?"


def test_air_permeance_without_its_pressure_is_asked_for(facts_of):
    data = copy.deepcopy(WALL)
    data["products"]["film"]["air-permeance"] = "0.001 L/(s·m²)"
    facts = facts_of(data)
    assert facts["wall.control.air_permeance"].missing[0].wanted == "test pressure of the air permeance"


class TestStandingIn:
    """Table values that stand in are named, with where they come from; declared values lean on nothing."""

    def test_declared_values_assume_nothing(self, facts_of):
        assert facts_of(WALL)["wall.fill.resistance"].assumed == ()

    @pytest.mark.parametrize(
        ("fact", "words"),
        [
            ("wall.lining.resistance", "thermal resistance of wall.lining from the material table"),
            ("wall.lining.permeance_dry", "dry-cup permeance of wall.lining from the material table"),
            ("wall.siding.permeance_wet", "wet-cup permeance of wall.siding from the material table"),
        ],
    )
    def test_a_table_value_says_so(self, facts_of, fact, words):
        found = facts_of(WALL)[fact]
        assert found.origin.value == "table"
        assert found.source
        assert len(found.assumed) == 1
        assert found.assumed[0].startswith(words)

    def test_what_rests_on_it_says_it_too(self, facts_of):
        facts = facts_of(WALL)
        assert any("wall.lining" in line for line in facts["wall.effective_r"].assumed)
        assert any("outdoor climate" in line for line in facts["wall.plane_temperature"].assumed)

    def test_set_point_and_framing_share_are_assumed_and_said(self, facts_of):
        data = without("project", "indoor", "temperature")
        del data["assemblies"]["wall"]["framing"]["fraction"]
        facts = facts_of(data)
        assert facts.value("project.indoor_temperature") == 21.0
        assert facts["project.indoor_temperature"].origin.value == "assumed"
        assert any("framing fraction 0.25" in line for line in facts["wall.effective_r"].assumed)
        assert any("21 °C" in line for line in facts["wall.plane_temperature"].assumed)

    def test_a_range_of_the_table_reaches_what_rests_on_it(self, facts_of):
        facts = facts_of(WALL)
        for name in ("wall.interior_permeance_dry", "wall.r_series", "wall.inboard_r", "wall.sd_inside"):
            fact = facts[name]
            assert fact.low is not None, name
            assert fact.low <= fact.value <= fact.high, name
            assert fact.low < fact.high, name


def test_a_value_outside_a_method_is_asked_about_and_never_crashes(facts_of):
    data = copy.deepcopy(WALL)
    data["project"]["indoor"]["humidity"] = "0 %"  # no vapour pressure has no dew point
    fact = facts_of(data)["project.indoor_dew_point"]
    assert fact.value is None
    assert "Are the values declared right?" in fact.missing[0].question
    assert fact.missing[0].path == ("project",)
