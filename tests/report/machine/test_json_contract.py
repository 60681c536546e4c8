"""The contract of the JSON report and of the JSON comparison: whoever reads form 1 today reads it tomorrow.

``contract/form-1.txt`` lists every key of the report with its type, ``contract/compare-1.txt`` those of a comparison. A key may be added, and is then added there with
``--update-snapshots``; one that is renamed, taken away or given another type misleads a reader and wants a new form:
raise REPORT_FORMAT, and begin ``form-2.txt``.
"""

import json
from pathlib import Path
from typing import Any

import jsonschema
import pytest

from speccheck.document import Mark, Problem
from speccheck.judgement.finding import SEVERITIES
from speccheck.report.compare_schema import ComparisonForm
from speccheck.report.compare_text import plain_comparison
from speccheck.report.plain import REPORT_FORMAT
from speccheck.report.schema import ReportForm, json_schema
from speccheck.uses.side_by_side import compare_files

CONTRACTS = Path(__file__).parent / "contract"
FORMS = {f"form-{REPORT_FORMAT}.txt": (ReportForm, 80), "compare-1.txt": (ComparisonForm, 25)}
"""Each list with the model behind it, and how many keys it holds at least."""
UNREAD = (
    ("lots/bad.yaml", (Problem("'5' has no unit", "a length", "", ("a", 0), Mark(3, 8), "lots/bad.yaml"),)),
)


def keys(schema: dict[str, Any], form: Any, path: str = "") -> dict[str, str]:
    """Return every key of a form by its path, with its type in words."""
    form = schema["$defs"][form["$ref"].rpartition("/")[2]] if "$ref" in form else form
    found: dict[str, str] = {}
    if "properties" in form:
        for name, inner in form["properties"].items():
            at = f"{path}.{name}" if path else name
            found[at] = words(inner)
            found |= keys(schema, inner, at)
    for inner in form.get("anyOf", ()):
        found |= keys(schema, inner, path)
    if isinstance(form.get("items"), dict):
        found |= keys(schema, form["items"], f"{path}[]")
    return found


def words(form: Any) -> str:
    if "$ref" in form:
        return "object"
    if "anyOf" in form:
        return " or ".join(sorted(words(inner) for inner in form["anyOf"]))
    if "const" in form:
        return f"always {form['const']}"
    return (
        "array of " + words(form["items"])
        if form.get("type") == "array" and form.get("items")
        else form["type"]
    )


@pytest.fixture(scope="module")
def form() -> dict[str, str]:
    schema = json_schema()
    return keys(schema, schema)


@pytest.mark.parametrize("name", FORMS)
def test_no_key_of_this_form_is_lost_or_changed(name, request):
    model, least = FORMS[name]
    schema = model.model_json_schema(by_alias=True)
    form, path = keys(schema, schema), CONTRACTS / name
    if request.config.getoption("--update-snapshots"):
        kept = _contract(path) if path.is_file() else {}
        path.parent.mkdir(exist_ok=True)
        lines = (f"{key}: {kind}\n" for key, kind in sorted({**form, **kept}.items()))
        path.write_text("".join(lines), "utf-8")
    contract = _contract(path)
    assert len(contract) > least
    assert {path: form.get(path, "gone") for path in contract} == contract, (
        "raise the version of the form, and begin a new list"
    )
    assert set(form) - set(contract) == set(), "new keys: add them with --update-snapshots"


def _contract(path: Path) -> dict[str, str]:
    lines = path.read_text("utf-8").splitlines()
    return dict(line.split(": ", 1) for line in lines)


def test_the_list_would_miss_a_key_that_is_renamed(form):
    assert "documents[].findings[].place" in form
    assert "documents[].findings[].measured.margin" in form
    assert "documents[].baseline.moves[].margin-before" in form


@pytest.mark.parametrize("facts", [False, True])
def test_what_is_written_fits_and_closes_the_form(documents, written, changed, facts):
    validator = jsonschema.Draft202012Validator(json_schema())
    newer = changed(lambda data: data["assemblies"]["wall"]["layers"].pop(0))
    older = documents["lots/wall.yaml"]
    for text in (
        written("json", *documents.values(), unread=UNREAD, facts=facts),
        written("json", newer, older=older, facts=facts),
        written("json"),
    ):
        report = json.loads(text)
        assert [error.message for error in validator.iter_errors(report)] == []
        for spoil in (
            lambda r: r.update(more=1),
            lambda r: r.update({"speccheck-report": REPORT_FORMAT + 1}),
            lambda r: r.pop("counts"),
        ):
            broken = json.loads(text)
            spoil(broken)
            assert not validator.is_valid(broken)


def test_the_envelope_comes_first_and_says_what_it_is(written):
    text = written("json")
    assert text.startswith(f'{{\n "speccheck-report": {REPORT_FORMAT},\n "version": ')
    report = json.loads(text)
    assert (report["documents"], report["unread"], report["verdict"]) == ([], [], "pass")
    assert list(report["counts"]) == list(SEVERITIES)


def test_severity_is_level_and_strength_in_one_word(documents, written):
    report = json.loads(written("json", *documents.values()))
    findings = [finding for document in report["documents"] for finding in document["findings"]]
    for finding in findings:
        if finding["level"] == "warn":
            assert finding["severity"] == finding["strength"]
        elif finding["withheld"]:
            assert finding["severity"] == "held-back"
        else:
            assert finding["severity"] == finding["level"]
    for document in report["documents"]:
        told = [finding["severity"] for finding in document["findings"]]
        assert document["counts"] == {severity: told.count(severity) for severity in SEVERITIES}
    assert report["counts"] == {s: sum(d["counts"][s] for d in report["documents"]) for s in SEVERITIES}


def test_a_baseline_says_what_moved_and_how(documents, written, changed):
    newer = changed(lambda data: data["assemblies"]["wall"]["layers"].pop(0))
    (document,) = json.loads(written("json", newer, older=documents["lots/wall.yaml"]))["documents"]
    moves = document["baseline"]["moves"]
    assert {move["trend"] for move in moves} <= {"new", "worse", "unsure", "better", "gone"}
    now = {(f["rule"], f["place"]): f for f in document["findings"]}
    for move in moves:
        finding = now.get((move["rule"], move["place"]))
        assert (finding["severity"] if finding else None) == move["after"]
        if move["trend"] == "gone":
            assert (finding, move["counts"]) == (None, False)
        if finding and finding["measured"] and move["margin-after"] is not None:
            assert finding["measured"]["margin"] == move["margin-after"]
    trends = document["baseline"]["trends"]
    assert sum(trends.values()) - trends["same"] == len(moves)


def test_a_comparison_fits_and_closes_its_form(tmp_path, documents, changed, written):
    validator = jsonschema.Draft202012Validator(ComparisonForm.model_json_schema(by_alias=True))
    newer = changed(lambda data: data["assemblies"]["wall"]["layers"].pop(0))
    for facts in (True, False):
        paths = []
        for name, one in (("older.json", documents["lots/wall.yaml"]), ("newer.json", newer)):
            paths.append(tmp_path / name)
            paths[-1].write_text(written("json", one, facts=facts), "utf-8")
        plain = plain_comparison(compare_files(*paths))
        assert [error.message for error in validator.iter_errors(plain)] == []
        (pair,) = plain["pairs"]
        assert pair["moves"]
        assert (pair["facts"] is None) == (not facts)
        for spoil in (
            lambda r: r.update(more=1),
            lambda r: r.update({"speccheck-compare": 2}),
            lambda r: r["pairs"][0]["moves"][0].pop("trend"),
        ):
            broken = json.loads(json.dumps(plain))
            spoil(broken)
            assert not validator.is_valid(broken)
