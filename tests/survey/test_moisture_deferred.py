"""Moisture is worked out when it is asked for: a check that asks for none does not pay for it, and each fact comes once."""

import json
from collections import Counter
from pkgutil import resolve_name

import pytest
from typer.testing import CliRunner

from speccheck.cli.app import app
from speccheck.judgement.judge import judge
from speccheck.judgement.library import load_pack
from speccheck.survey import survey
from speccheck.survey.ledger import Page
from speccheck.survey.moisture import MOISTURE_FACTS


def of(room):
    """Return the name of what enters the facts of a room."""
    module, _, named = room.partition(".")
    return f"speccheck.survey.moisture.{module}.enter_{named or module}"


ROOMS = (
    *("year", "bounds", "surface", "drying", "periods", "summer"),
    *("limits.dry_limit", "limits.drying_limit", "limits.outboard_limit"),
    *("damp_limits.surface_limit", "damp_limits.wood_limit"),
)

WALL = """
speccheck: 1
project: {place: {zone: 6A}, indoor: {temperature: 21 °C, humidity: 35 %}}
assemblies:
  wall:
    kind: wall
    framing: {material: softwood, fraction: 0.23}
    layers:
      - {id: lining, material: gypsum-board, thickness: 12.7 mm, finish: latex-paint}
      - {id: control, material: variable-permeance-membrane}
      - {id: fill, material: mineral-wool-batt, thickness: 140 mm, framed: true}
      - {id: sheathing, material: osb, thickness: 11 mm}
      - {id: cavity, material: air-cavity, thickness: 19 mm, ventilation: ventilated}
      - {id: siding, material: wood-siding, thickness: 19 mm}
"""


class EnteredError(AssertionError):
    """A room of moisture was entered."""


@pytest.fixture
def tripwire(monkeypatch):
    def trip(_):
        raise EnteredError

    for room in ROOMS:
        monkeypatch.setattr(of(room), trip)


@pytest.fixture
def surveyed(loaded):
    return lambda: survey(loaded(WALL).document)


class TestNotAskedFor:
    """Nothing is worked out before it is asked for."""

    def test_a_survey_works_out_none(self, surveyed, tripwire):
        found = surveyed()
        names = {name for page in found.ledger for name in page.facts}
        assert not names & {f"assembly.{name}" for name in MOISTURE_FACTS}

    @pytest.mark.parametrize("pack", ["practice/air", "practice/thermal", "codes/us/irc-2021"])
    def test_rules_that_name_none_work_out_none(self, surveyed, tripwire, pack):
        assert judge(surveyed(), [load_pack(pack)])

    def test_rules_that_name_them_do(self, surveyed, tripwire):
        # the tripwire itself: a rule on condensation asks for the year
        with pytest.raises(EnteredError):
            judge(surveyed(), [load_pack("practice/condensation")])

    def test_listing_the_facts_does(self, surveyed, tripwire):
        with pytest.raises(EnteredError):
            list(surveyed().facts())

    def test_one_fact_works_out_its_own_room_alone(self, surveyed, monkeypatch):
        page = surveyed().ledger.page("assembly", "wall")
        assert page.fact("assembly.period_condensed").known
        assert page.fact("assembly.moisture_verdict").name in page.facts
        assert page.table is not None
        assert "assembly.drying_net" not in page.facts
        assert "assembly.outboard_r_to_add" not in page.facts

    def test_a_subject_sees_them_from_its_layers(self, surveyed):
        found = surveyed()
        layer = next(one for one in found.of_kind("layer") if one.place == "wall.sheathing")
        assert layer.fact("assembly.moisture_verdict").known
        assert layer.fact("layer.drying_outward").known


class TestAskedFor:
    """All facts are there once all are asked for, each entered once."""

    def test_facts_hold_them_all(self, surveyed):
        names = Counter(fact.name for fact in surveyed().facts() if fact.place == "wall")
        assert {f"assembly.{name}" for name in MOISTURE_FACTS} <= set(names)
        assert max(names.values()) == 1

    def test_each_is_entered_once(self, surveyed, monkeypatch):
        entered = Counter()
        enter = Page.enter

        def counted(page, fact):
            entered[page.place, fact.name] += 1
            return enter(page, fact)

        monkeypatch.setattr(Page, "enter", counted)
        found = surveyed()
        for name in ("drying_net", "moisture_verdict", "humidity_drying_in_year", "summer_margin"):
            found.ledger.page("assembly", "wall").fact(f"assembly.{name}")
        found.settle()
        found.settle()
        moisture = {
            key: count for key, count in entered.items() if key[1].partition(".")[2] in MOISTURE_FACTS
        }
        assert len([key for key in moisture if key[0] == "wall"]) == len(MOISTURE_FACTS)
        assert set(moisture.values()) == {1}

    def test_each_room_is_entered_once(self, surveyed, monkeypatch):
        entered = Counter()

        def counting(room, work):
            def enter(case):
                entered[room] += 1
                return work(case)

            return enter

        for room in ROOMS:
            monkeypatch.setattr(of(room), counting(room, resolve_name(of(room))))
        found = surveyed()
        list(found.facts())
        list(found.facts())
        assert entered == dict.fromkeys(ROOMS, 1)

    def test_in_any_order_they_are_the_same(self, surveyed):
        def told(order):
            page = surveyed().ledger.page("assembly", "wall")
            for name in order:
                page.fact(f"assembly.{name}")
            return {name: page.fact(f"assembly.{name}") for name in MOISTURE_FACTS}

        assert told(MOISTURE_FACTS) == told(reversed(MOISTURE_FACTS))

    def test_the_command_that_lists_facts_shows_them(self, tmp_path):
        file = tmp_path / "wall.yaml"
        file.write_text(WALL, "utf-8")
        called = CliRunner().invoke(app, ["facts", str(file), "--format", "json"])
        assert called.exit_code == 0
        names = {fact["name"] for fact in json.loads(called.stdout)["facts"]}
        assert {f"assembly.{name}" for name in MOISTURE_FACTS} <= names

    def test_settling_ends_where_a_room_fails(self, surveyed, monkeypatch):
        # a room that cannot be entered leaves its facts unknown with a question, and is not tried again
        tried = Counter()

        def fail(_):
            tried["year"] += 1
            raise ZeroDivisionError("division by zero")

        monkeypatch.setattr(of("year"), fail)
        found = surveyed()
        found.settle()
        page = found.ledger.page("assembly", "wall")
        assert tried["year"] == 1
        (gap,) = page.fact("assembly.moisture_verdict").missing
        assert gap.question == "wall: division by zero. Are the values declared right?"
        assert gap.path == ("assemblies", "wall")
        assert page.fact("assembly.drying_net").known

    def test_no_insulation_asks_for_nothing(self, loaded):
        bare = "speccheck: 1\nassemblies: {wall: {kind: wall, layers: [{material: concrete, thickness: 200 mm}]}}\n"
        page = survey(loaded(bare).document).ledger.page("assembly", "wall")
        for name in MOISTURE_FACTS:
            if not name.startswith(("frsi", "humidity_surface")):
                assert page.fact(f"assembly.{name}").method == "no insulation"
        assert page.fact("assembly.frsi").known
