"""Text and JSON of the same documents: what both must tell, what neither may do, and golden copies of a few."""

import json
import re
from collections import Counter
from pathlib import Path
from typing import Any

import jsonschema
import pytest
import yaml

from speccheck.judgement.finding import SEVERITIES
from speccheck.judgement.library import load_pack, pack_ids
from speccheck.report.plain import json_text, plain_report
from speccheck.report.summary import summarise, worst
from speccheck.report.text import text_report
from speccheck.report.trace import facts_text
from speccheck.report.wording import DEFERRAL, LABELS
from speccheck.schemas import generated

HOUSE = """
speccheck: 1
project:
  name: Garden house
  place: {zone: 6A}
  use: dwelling
  adopted: [us/irc-2021]
  indoor: {temperature: 21 °C, humidity: 35 %}
products:
  film: {family: variable-permeance-membrane, permeance: {dry-cup: 0.8 perm, wet-cup: 11 perm}}
assemblies:
  north-wall:
    kind: wall
    framing: {spacing: 16 in}
    layers:
      - {id: lining, material: gypsum-board, thickness: 12.7 mm, finish: latex-paint}
      - {id: control, product: film, controls: [air, vapour]}
      - {id: fill, material: mineral-wool-batt, thickness: 5.5 in, thermal-resistance: R-23, framed: true}
      - {id: sheathing, material: osb, thickness: 11 mm}
      - {id: weather, material: housewrap-microporous, controls: [water]}
      - {id: cavity, material: air-cavity, thickness: 19 mm, ventilation: ventilated}
      - {id: cladding, material: wood-siding, thickness: 19 mm}
  slab:
    kind: slab
    layers:
      - {id: concrete, material: concrete, thickness: 100 mm, controls: [air]}
      - {id: foam, material: xps, thickness: 100 mm}
junctions:
  base:
    kind: wall-slab
    joins: [north-wall.base, slab.perimeter]
    air: [{from: north-wall.control, to: slab.concrete, by: preformed-adhesive-bead}]
openings:
  window: {kind: window, in: north-wall, air: [{from: window.frame, to: north-wall.control, by: acrylic-tape}]}
"""
OPEN = HOUSE.replace(
    "by: preformed-adhesive-bead}]",
    "by: preformed-adhesive-bead}]\n  corner: {kind: wall-wall, joins: [north-wall.end], air: []}",
)
FOIL = HOUSE.replace(
    "      - {id: weather,",
    "      - {id: foam, material: polyiso-foil-faced, thickness: 25 mm}\n      - {id: weather,",
)
LITTLE = """
speccheck: 1
assemblies:
  wall:
    kind: wall
    layers:
      - {material: gypsum-board, thickness: 12.7 mm}
      - {material: mineral-wool-batt, thickness: 140 mm}
      - {material: osb, thickness: 11 mm}
"""
WAIVED = (
    FOIL
    + """
waivers:
  - rule: condensation.outboard-share-suits-the-room
    place: north-wall
    reason: A moisture engineer has seen the wall.
    agreed-by: engineer of record
    until: 2026-06-30
"""
)
DOCUMENTS = {"house": HOUSE, "open": OPEN, "foil": FOIL, "little": LITTLE, "waived": WAIVED}


@pytest.fixture(scope="module")
def reports(checked):
    """Return what is told of every document, and of every start document of the packs that ship."""
    found = {name: checked(text) for name, text in DOCUMENTS.items()}
    for id_ in pack_ids():
        for name, start in load_pack(id_).starts.items():
            found[f"{id_}:{name}"] = checked(yaml.safe_load(yaml.safe_dump(start)))
    return found


class TestText:
    """The report for a terminal."""

    @pytest.mark.parametrize("width", [40, 80, 120])
    @pytest.mark.parametrize("full", [False, True])
    def test_width_is_kept_and_no_line_ends_in_a_space(self, reports, width, full):
        for name, one in reports.items():
            for line in text_report(one, width, full=full).split("\n"):
                assert len(line) <= width, (name, line)
                assert line == line.rstrip(), (name, line)

    @pytest.mark.parametrize("width", [40, 80, 120])
    def test_facts_keep_the_width(self, reports, width):
        for name in DOCUMENTS:
            one = reports[name]
            lines = facts_text(list(one.surveyed.facts()), width).split("\n")
            assert all(len(line) <= width and line == line.rstrip() for line in lines)

    def test_a_name_that_turns_the_line_round_is_escaped(self, checked):
        text = text_report(checked(HOUSE.replace("Garden house", '"\\u202Eesrever"')), full=True)
        assert "\\u202eesrever" in text
        assert all(character.isprintable() or character == "\n" for character in text)

    @pytest.mark.parametrize("name", ["\\e[31mRED", "\\a", "\\e]0;title\\a"])
    def test_a_name_that_would_steer_the_terminal_is_refused(self, loaded, name):
        from speccheck.document import Unreadable

        with pytest.raises(Unreadable) as caught:
            loaded(HOUSE.replace("Garden house", f'"{name}"'))
        assert str(caught.value).isprintable()

    def test_a_file_name_that_would_steer_the_terminal_is_escaped(self):
        from speccheck.document.load import load_bytes
        from speccheck.uses.check import KNOWN, check

        one = check(load_bytes(HOUSE.encode(), "\x1b[2J\u202e.yaml", KNOWN))
        text = text_report(one, full=True)
        assert all(character.isprintable() or character == "\n" for character in text)
        assert "\\x1b[2J" in text

    def test_it_is_readable_without_colour(self, reports):
        for name, one in reports.items():
            text = text_report(one, full=True)
            for finding in one.findings:
                if finding.severity in ("outside", "caution", "refer", "waived"):
                    assert LABELS[finding.severity] in text, name
                    assert finding.title.split()[0] in text, name

    def test_the_verdict_comes_first_and_nothing_is_approved(self, reports):
        for one in reports.values():
            text = text_report(one)
            assert "Verdict: " in "\n".join(text.split("\n")[:3])
            flat = " ".join(text.split())
            assert DEFERRAL in flat
            assert not re.search(
                r"\b(approved|compliant|complies|failed|fails)\b", flat.replace(DEFERRAL, ""), re.I
            )

    def test_questions_are_never_repeated(self, reports):
        for name, one in reports.items():
            questions = [question.question for question in summarise(one.findings).questions]
            assert len(questions) == len(set(questions)), name
            told = plain_report([one])["documents"][0]["questions"]
            assert [question["question"] for question in told] == questions

    def test_the_most_telling_question_comes_first(self, reports):
        for one in reports.values():
            waiting = [len(question.waiting) for question in summarise(one.findings).questions]
            assert waiting == sorted(waiting, reverse=True)

    def test_every_finding_that_warns_is_told_with_reason_source_and_place(self, reports):
        for name, one in reports.items():
            flat = " ".join(text_report(one, 120, full=True).split())
            for finding in one.findings:
                if finding.level == "warn":
                    assert " ".join(finding.reason.split()) in flat, name
                    assert finding.rule in flat
                    assert all(" ".join(source.split()) in flat for source in finding.sources), name

    @pytest.mark.parametrize(("system", "kept", "gone"), [("us", "R-", "m²·K/W"), ("si", "m²·K/W", "R-23")])
    def test_units_on_request(self, reports, system, kept, gone):
        heading = text_report(reports["house"], 80, system).split("north-wall (wall", 1)[1].split("\n")[0]
        assert kept in heading
        assert gone not in heading

    def test_waived_is_shown_with_its_reason(self, reports):
        text = text_report(reports["waived"])
        assert LABELS["waived"] in text
        assert "A moisture engineer has seen the wall" in " ".join(text.split())


class TestJson:
    """The report for machines."""

    SCHEMA = json.loads(
        generated()["report.schema.json"]
    )  # tests/test_package.py holds the published file to it

    @pytest.mark.parametrize("facts", [False, True])
    def test_it_fits_the_published_schema(self, reports, facts):
        jsonschema.Draft202012Validator.check_schema(self.SCHEMA)
        validator = jsonschema.Draft202012Validator(self.SCHEMA)
        chosen = [reports[name] for name in DOCUMENTS] if facts else list(reports.values())
        validator.validate(json.loads(json_text(plain_report(chosen, facts=facts))))

    def test_the_schema_can_refuse(self, reports):
        validator = jsonschema.Draft202012Validator(self.SCHEMA)
        report = plain_report([reports["house"]])
        for spoil in (
            lambda r: r.pop("verdict"),
            lambda r: r["documents"][0].pop("findings"),
            lambda r: r["documents"][0]["findings"][0].update(level="approved"),
            lambda r: r.update(extra=1),
        ):
            spoilt = json.loads(json_text(report))
            spoil(spoilt)
            assert list(validator.iter_errors(spoilt))

    def test_unread_documents_are_in_it(self, loaded):
        from speccheck.document import Unreadable

        with pytest.raises(Unreadable) as caught:
            loaded(
                "speccheck: 1\nassemblies: {wall: {kind: tower, layers: [{material: osb, thickness: 5}]}}\n"
            )
        report = json.loads(json_text(plain_report([], [("bad.yaml", caught.value.problems)])))
        jsonschema.Draft202012Validator(self.SCHEMA).validate(report)
        assert report["verdict"] == "unread"
        assert report["unread"][0]["file"] == "bad.yaml"
        assert all(problem["line"] == 2 for problem in report["unread"][0]["problems"])

    # What readers of the report rely on; a key may be added, not taken away, within one form.
    KEYS = (
        "rule", "pack", "level", "strength", "title", "subject", "place", "path", "line", "column", "reason", "measured",
        "observed", "consequence", "confidence", "why", "do", "sources", "from-memory", "disputed", "assumed", "questions",
        "withheld", "waiver",
    )  # fmt: skip

    def test_keys_that_readers_rely_on(self, reports):
        report = plain_report([reports["house"]], facts=True)
        assert {
            "speccheck-report",
            "version",
            "verdict",
            "counts",
            "deferral",
            "conventions",
            "documents",
            "unread",
        } <= set(report)
        document = report["documents"][0]
        assert {
            "file",
            "project",
            "verdict",
            "counts",
            "packs",
            "editions-not-held",
            "findings",
            "questions",
            "assumed",
            "cautions",
            "facts",
        } <= set(document)
        for finding in document["findings"]:
            assert set(finding) >= set(self.KEYS)
        measured = next(f["measured"] for f in document["findings"] if f["measured"])
        assert {
            "fact",
            "kind",
            "observed",
            "limit",
            "sense",
            "margin",
            "low",
            "high",
            "turns-within-range",
        } <= set(measured)
        assert {"place", "name", "kind", "value", "origin", "inputs", "assumed", "missing"} <= set(
            document["facts"][0]
        )

    def test_form_one(self, reports):
        assert plain_report([reports["house"]])["speccheck-report"] == 1

    def test_no_value_that_json_does_not_know(self, reports):
        text = json_text(plain_report([reports[name] for name in DOCUMENTS], facts=True))
        assert not re.search(r"\b(NaN|Infinity)\b", text)
        json.loads(text, parse_constant=pytest.fail)


class TestBothTellTheSame:
    """Text and JSON rest on one summary."""

    def test_counts_and_verdict(self, reports):
        for name, one in reports.items():
            document = plain_report([one])["documents"][0]
            counted = Counter(finding.severity for finding in one.findings)
            assert document["counts"] == {severity: counted.get(severity, 0) for severity in SEVERITIES}, name
            assert document["verdict"] == worst(counted) == summarise(one.findings).verdict, name
            assert len(document["findings"]) == len(one.findings)

    def test_order_is_worst_first_within_a_place(self, reports):
        rank = {severity: index for index, severity in enumerate(SEVERITIES)}
        for one in reports.values():
            for group in summarise(one.findings).groups:
                ranks = [rank[finding.severity] for finding in group.findings]
                assert ranks == sorted(ranks)


@pytest.mark.parametrize("name", DOCUMENTS)
def test_golden_text(reports, snapshot, name):
    snapshot(f"{name}.txt", text_report(reports[name], 80))


@pytest.mark.parametrize("name", DOCUMENTS)
def test_golden_json(reports, snapshot, name):
    report: dict[str, Any] = plain_report([reports[name]])
    report.pop("version")  # it changes with every release
    snapshot(f"{name}.json", json_text(report))


def test_golden_files_are_all_used():
    used = {f"{name}.{form}" for name in DOCUMENTS for form in ("txt", "json")}
    assert {path.name for path in (Path(__file__).parent / "snapshots").iterdir()} == used
