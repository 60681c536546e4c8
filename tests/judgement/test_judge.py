"""The judge on small packs of our own: what comes first, what is asked, what stays silent, what is shown as broken."""

import copy
from typing import Any

import pytest

from speccheck.judgement.finding import Level
from speccheck.judgement.pack import Pack, pack_from_plain
from speccheck.judgement.verification import verify_pack

WALL = """
speccheck: 1
project:
  place: {zone: 5A}
  indoor: {humidity: 35 %}
assemblies:
  wall:
    kind: wall
    layers:
      - {id: lining, material: gypsum-board, thickness: 12.7 mm}
      - id: fill
        material: mineral-wool-batt
        thickness: 140 mm
        thermal-resistance: 3 m²·K/W
      - {id: board, material: osb, thickness: 11 mm, controls: [air]}
"""

RULE: dict[str, Any] = {
    "id": "test.rule",
    "title": "A rule of the tests",
    "status": "stable",
    "since": "0.1",
    "looks-at": "assembly",
    "holds": "assembly.insulation_r >= parameter.least",
    "parameters": {"least": {"value": "R-20", "kind": "thermal-resistance"}},
    "measured": "assembly.insulation_r",
    "limit": "parameter.least",
    "sense": "at-least",
    "when-not": "caution",
    "consequence": "energy",
    "confidence": "high",
    "says": {"pass": "Enough: {{ assembly.insulation_r }}.", "warn": "Only {{ assembly.insulation_r }}."},
    "why": "It is here so that the judge has something to judge.",
    "do": ["Add insulation."],
    "limits": ["It looks at nothing but insulation."],
    "sources": [{"source": "common_practice"}],
    "examples": [
        {"name": "one that holds", "start": "wall", "expect": {"level": "pass", "place": "wall"}},
        {"name": "one that does not", "start": "wall", "expect": {"level": "warn", "place": "wall"}},
    ],
}


def pack(*rules: dict[str, Any], **more: Any) -> Pack:
    written = {
        "pack": "test/pack",
        "title": "Tests",
        "edition": "1",
        "jurisdiction": "tests",
        "about": "A pack of the tests.",
        "rules": list(rules),
        **more,
    }
    return pack_from_plain(verify_pack(written))


def rule(**more: Any) -> dict[str, Any]:
    """Return the rule with some keys changed; None takes one out."""
    changed = copy.deepcopy(RULE)
    for name, value in more.items():
        changed[name.replace("_", "-")] = value
    plain = {key: value for key, value in changed.items() if value is not None}
    if "holds" in more and "measured" not in more:
        for key in ("measured", "limit", "sense"):
            plain.pop(key, None)
    return plain


@pytest.fixture(scope="module")
def found(checked):
    """Return what judges a document by one rule and gives its findings."""

    def run(document: str, **more: Any) -> list[Any]:
        result = checked(document, [pack(rule(**more))])
        return [finding for finding in result.findings if finding.rule == "test.rule"]

    return run


class TestOutcomes:
    """Pass, warn with its strength, refer, ask."""

    def test_holds(self, found):
        (finding,) = found(WALL, parameters={"least": {"value": "R-15", "kind": "thermal-resistance"}})
        assert (finding.level, finding.strength) == (Level.PASS, "")
        assert finding.reason == "Enough: R-17 (3 m²·K/W)."
        assert finding.do == ()
        assert finding.measured.margin == pytest.approx(3 - 15 * 0.1761102, rel=1e-6)

    @pytest.mark.parametrize(
        ("outcome", "level", "strength"),
        [
            ("outside", "warn", "outside"),
            ("caution", "warn", "caution"),
            ("refer", "refer", ""),
            ("ask", "ask", ""),
        ],
    )
    def test_does_not_hold(self, found, outcome, level, strength):
        says = {**RULE["says"], "refer": "Ask an engineer.", "ask": "What makes up for it?"}
        (finding,) = found(WALL, when_not=outcome, says=says)
        assert (finding.level, finding.strength) == (level, strength)
        if outcome == "ask":
            assert [gap.question for gap in finding.gaps] == ["What makes up for it?"]
        if level in ("warn", "refer"):
            assert finding.do == ("Add insulation.",)

    def test_at_most(self, found):
        (finding,) = found(
            WALL,
            holds="assembly.insulation_r <= parameter.least",
            measured="assembly.insulation_r",
            sense="at-most",
        )
        assert finding.level == "pass"
        assert finding.measured.margin == pytest.approx(20 * 0.1761102 - 3, rel=1e-6)

    def test_a_finding_tells_where_it_stands(self, found):
        (finding,) = found(WALL)
        assert (finding.file, finding.line, finding.column) == ("document.yaml", 8, 5)  # the value of `wall:`
        assert finding.path == ("assemblies", "wall")

    def test_a_finding_about_a_layer_points_at_the_layer(self, found):
        text = {"pass": "Known.", "warn": "Too thin."}
        findings = found(
            WALL,
            looks_at="layer",
            holds="layer.thickness >= 0.1",
            parameters={},
            says=text,
            applies="layer.insulation",
        )
        assert [(f.place, f.line, f.column) for f in findings] == [("wall.fill", 11, 9)]
        assert findings[0].path == ("assemblies", "wall", "layers", 1)


class TestBands:
    """The first band whose condition is true is taken; the rest of the way is the rule's own outcome."""

    BANDS = (
        {"when": "assembly.insulation_r < 1.0", "outcome": "refer", "says": "Far off."},
        {"when": "assembly.insulation_r < 2.0", "outcome": "outside", "says": "Off."},
    )

    @pytest.mark.parametrize(
        ("r", "level", "reason"),
        [
            ("0.5", "refer", "Far off."),
            ("1.5", "outside", "Off."),
            ("2.5", "caution", "Only R-14.2 (2.5 m²·K/W)."),
            ("9", "pass", None),
        ],
    )
    def test_in_order(self, found, r, level, reason):
        document = WALL.replace("3 m²·K/W", f"{r} m²·K/W")
        (finding,) = found(document, bands=list(self.BANDS))
        assert finding.severity == level
        assert reason is None or finding.reason == reason


class TestNotKnown:
    """Needs come before the condition; what is unknown is asked, what does not apply is silent."""

    BARE = WALL.replace("    - {id: board, material: osb", "    - {id: board, product: board").replace(
        "assemblies:", "products: {board: {name: a board}}\nassemblies:", 1
    )

    def test_a_needed_value_that_is_unknown_is_asked_for(self, found):
        (finding,) = found(self.BARE, needs=["assembly.effective_r"])
        assert finding.level == "ask"
        assert [gap.key for gap in finding.gaps] == [("board", "thermal resistance")]
        assert finding.reason == "Not shown, so this cannot be judged: thermal resistance."
        assert finding.measured is None or finding.measured.observed == 3.0

    def test_without_the_need_it_is_judged(self, found):
        (finding,) = found(self.BARE)
        assert finding.level == "warn"

    def test_own_words_for_what_is_not_shown(self, found):
        says = {**RULE["says"], "ask": "The whole cannot be told."}
        (finding,) = found(self.BARE, needs=["assembly.effective_r"], says=says)
        assert finding.reason == "The whole cannot be told."

    def test_an_unknown_condition_of_application_is_asked_for(self, found):
        (finding,) = found(self.BARE, applies="assembly.effective_r > 1.0")
        assert finding.level == "ask"

    def test_one_condition_that_is_false_ends_it_whatever_is_unknown(self, found):
        assert found(self.BARE, applies=["assembly.effective_r > 1.0", 'assembly.kind == "roof"']) == []
        assert found(self.BARE, applies=['assembly.kind == "roof"', "assembly.effective_r > 1.0"]) == []

    def test_inapplicable_is_silent(self, found):
        assert found(WALL, needs=["assembly.stud_depth"]) == []
        assert found(WALL, holds="assembly.stated_r >= parameter.least") == []
        assert found(WALL, applies="assembly.framing_fraction > 0.1") == []

    def test_a_hole_never_counts_as_true(self, found):
        # `a || b` with a unknown and b true would be true in the plain language
        (finding,) = found(self.BARE, holds='assembly.effective_r > 100.0 || assembly.kind == "wall"')
        assert finding.level == "ask"

    def test_of_several_conditions_one_is_enough(self, found):
        (finding,) = found(self.BARE, holds=["assembly.effective_r > 0.1", 'assembly.kind == "wall"'])
        assert finding.level == "pass"

    def test_of_several_conditions_none_holds_and_one_is_open(self, found):
        (finding,) = found(self.BARE, holds=["assembly.effective_r > 0.1", 'assembly.kind == "roof"'])
        assert finding.level == "ask"

    @pytest.mark.parametrize("broken", ["1.0 / (assembly.insulation_r - assembly.insulation_r) > 2.0"])
    def test_a_condition_that_breaks_is_referred_in_plain_sight(self, found, broken):
        (finding,) = found(WALL, holds=broken)
        assert finding.level == "refer"
        assert finding.reason.startswith(
            "This rule could not be evaluated here: the expression divides by zero"
        )


class TestTables:
    """Rows chosen by facts."""

    @staticmethod
    def run(found, zone: str, rows: dict[str, Any], **more: Any) -> list[Any]:
        table = {"least": {"by": "climate.zone", "kind": "thermal-resistance", "rows": rows, **more}}
        return found(
            WALL.replace("zone: 5A", f'zone: "{zone}"'),
            parameters={},
            tables=table,
            holds="assembly.insulation_r >= table.least",
            measured="assembly.insulation_r",
            limit="table.least",
        )

    def test_row_of_the_zone(self, found):
        (finding,) = self.run(found, "5A", {"5": "R-20", "5A": "R-15"})
        assert finding.level == "pass"
        assert finding.measured.limit == pytest.approx(15 * 0.1761102, rel=1e-6)

    def test_a_zone_without_row_of_its_own_falls_back_to_its_number(self, found):
        (finding,) = self.run(found, "5B", {"5": "R-20", "5A": "R-15"})
        assert finding.measured.limit == pytest.approx(20 * 0.1761102, rel=1e-6)

    def test_no_row_is_silent(self, found):
        assert self.run(found, "2A", {"5": "R-20"}) == []

    def test_two_facts_choose_a_row(self, found):
        rows = {"5/wall": "R-20", "5/roof": "R-60"}
        (finding,) = self.run(found, "5A", rows, **{"and-by": "assembly.kind"})
        assert finding.measured.limit == pytest.approx(20 * 0.1761102, rel=1e-6)

    def test_an_unknown_zone_is_asked_for(self, found):
        table = {"least": {"by": "climate.zone", "kind": "thermal-resistance", "rows": {"5": "R-20"}}}
        document = WALL.replace("  place: {zone: 5A}\n", "")
        (finding,) = found(
            document, parameters={}, tables=table, holds="assembly.insulation_r >= table.least"
        )
        assert finding.level == "ask"
        assert "Where does the building stand" in finding.gaps[0].question

    def test_alternatives(self, found):
        table = {
            "ways": {
                "by": "climate.zone", "kind": "options", "kinds": {"cavity": "thermal-resistance"},
                "rows": {"5": [{"cavity": "R-30"}, {"cavity": "R-13"}]},
            },
        }  # fmt: skip
        (finding,) = found(
            WALL,
            parameters={},
            tables=table,
            holds='options.ways.exists(o, assembly.insulation_r >= o["cavity"])',
        )
        assert finding.level == "pass"


class TestAirLine:
    """No pass for vapour while the air barrier is not shown to be closed."""

    @pytest.mark.parametrize(
        ("junction", "level", "withheld"),
        [
            ("", "ask", True),
            ("junctions: {base: {kind: wall-slab, joins: [wall.perimeter], air: []}}", "ask", True),
            (
                "junctions: {base: {kind: wall-slab, joins: [wall.perimeter], air: [{from: wall.board, to: wall.board, by: gap-foam}]}}",
                "pass",
                False,
            ),
        ],
    )
    def test_pass_is_withheld(self, found, junction, level, withheld):
        (finding,) = found(WALL + junction, presumes_air_line=True, holds="assembly.insulation_r > 1.0")
        assert (finding.level, finding.withheld) == (level, withheld)

    def test_a_warning_is_not_withheld(self, found):
        (finding,) = found(WALL, presumes_air_line=True)
        assert (finding.level, finding.withheld) == ("warn", False)


class TestRanges:
    """A limit inside the range of table values is said; what is assumed travels with the finding."""

    TABLE = WALL.replace("\n        thermal-resistance: 3 m²·K/W", "").replace(
        "mineral-wool-batt", "cellulose-dense-pack"
    )

    def test_a_limit_within_the_range_turns(self, found, facts_of):
        fact = facts_of(self.TABLE)["wall.insulation_r"]
        assert fact.low < fact.high
        for limit, turns in (
            ((fact.low + fact.value) / 2, True),
            (fact.low / 2, False),
            (fact.high * 2, False),
        ):
            least = {"least": {"value": f"{limit} m²·K/W", "kind": "thermal-resistance"}}
            (finding,) = found(self.TABLE, parameters=least)
            assert finding.measured.turns is turns
            assert (finding.measured.low, finding.measured.high) == (fact.low, fact.high)
            assert any("wall.fill from the material table" in line for line in finding.assumed)

    def test_declared_values_never_turn(self, found):
        (finding,) = found(WALL)
        assert finding.measured.turns is False
        assert finding.assumed == ()


def test_a_rule_yields_to_one_with_more_authority(checked):
    echo = {**rule(), "id": "test.echo", "yields-to": ["test.rule"]}
    both = checked(WALL, [pack(rule(), echo)])
    assert [f.rule for f in both.findings if f.rule.startswith("test.")] == ["test.rule"]
    alone = checked(WALL, [pack(echo)])
    assert [f.rule for f in alone.findings if f.rule.startswith("test.")] == ["test.echo"]
    # where the other does not warn, this one speaks
    easy = {**rule(parameters={"least": {"value": "R-1", "kind": "thermal-resistance"}})}
    assert {f.rule: f.level for f in checked(WALL, [pack(easy, echo)]).findings if f.rule.startswith("test.")} == {
        "test.rule": "pass", "test.echo": "warn",
    }  # fmt: skip


def test_rules_keep_their_own_parameters_of_one_name(checked):
    low = {**rule(parameters={"least": {"value": "R-1", "kind": "thermal-resistance"}}), "id": "test.low"}
    levels = {
        f.rule: f.level for f in checked(WALL, [pack(rule(), low)]).findings if f.rule.startswith("test.")
    }
    assert levels == {"test.rule": "warn", "test.low": "pass"}


def test_a_question_names_the_numbers_of_its_rule(found):
    # also where a value the rule needs is missing, and where that keeps it from being told whether it applies
    bare = WALL.replace("        thermal-resistance: 3 m²·K/W\n", "").replace(
        "        thickness: 140 mm\n", ""
    )
    says = {**RULE["says"], "ask": "Is it {{ parameter.least }} or more?"}
    for more in ({}, {"applies": "assembly.insulation_r >= 0.0"}):
        (finding,) = found(bare, says=says, **more)
        assert (finding.level, finding.reason) == ("ask", "Is it R-20 (3.52 m²·K/W) or more?")


def test_a_question_names_a_row_that_what_is_known_chooses(found):
    bare = WALL.replace("        thermal-resistance: 3 m²·K/W\n", "").replace(
        "        thickness: 140 mm\n", ""
    )
    rows = {
        "by": "climate.zone_2021",
        "kind": "options",
        "kinds": {"cavity": "thermal-resistance", "boards": "number"},
    }
    tables = {"row": {**rows, "rows": {"5": [{"cavity": "R-20"}, {"cavity": "R-13", "boards": 2.0}]}}}
    says = {**RULE["says"], "ask": "Is it {{ options.row }}?"}
    (finding,) = found(bare, says=says, tables=tables)
    words = "R-20 (3.52 m²·K/W) between the framing, or R-13 (2.29 m²·K/W) between the framing with 2 boards"
    assert finding.reason == f"Is it {words}?"


@pytest.mark.parametrize(("given", "told"), [({}, "choices"), ({"do-is": "steps"}, "steps")])
def test_a_finding_tells_choices_from_steps(found, given, told):
    (single,) = found(WALL, **given)
    (double,) = found(WALL, do=["Add insulation.", "Open the outside."], **given)
    assert (single.do_is, double.do_is) == ("", told)
