"""A report read back: what it keeps, and every way a file is no report, told with its place."""

import json
from typing import Any

import pytest

from speccheck.document import Unreadable
from speccheck.report.plain import REPORT_FORMAT, json_text, plain_report
from speccheck.uses import report_file
from speccheck.uses.compare import record_of
from speccheck.uses.report_file import FORM, read_report

WALL = """
speccheck: 1
project: {place: {zone: 6A}, adopted: [us/irc-2021]}
assemblies:
  wall:
    kind: wall
    framing: {spacing: 16 in}
    layers: [{material: mineral-wool-batt, thickness: 5.5 in, framed: true}, {material: osb, thickness: 11 mm}]
"""


@pytest.fixture(scope="module")
def document(checked):
    return checked(WALL)


@pytest.fixture
def report(document) -> dict[str, Any]:
    return json.loads(json_text(plain_report([document], facts=True)))


def told(path) -> str:
    with pytest.raises(Unreadable) as caught:
        read_report(path)
    (problem,) = caught.value.problems
    return problem.text().removeprefix(f"{path}:").strip()


def test_the_form_read_is_the_form_written():
    assert FORM == REPORT_FORMAT


def test_what_is_read_is_what_was_written(document, report, tmp_path):
    path = tmp_path / "report.json"
    path.write_text(json.dumps(report), "utf-8")
    (kept,) = read_report(path)
    assert (kept.file, kept.verdict) == (document.loaded.name, report["documents"][0]["verdict"])
    written = {record.key: record for record in map(record_of, document.findings)}
    assert {record.key for record in kept.records} == set(written)
    for record in kept.records:
        other = written[record.key]
        assert record[:7] == other[:7]
        # a report keeps ten digits
        assert record.margin == (None if other.margin is None else pytest.approx(other.margin, rel=1e-9))
    effective = document.surveyed.ledger.page("assembly", "wall")["effective_r"]
    kind, value = kept.facts[("wall", "assembly.effective_r")]
    assert (kind, value) == ("thermal-resistance", pytest.approx(effective.value, rel=1e-9))


def test_a_report_without_facts_has_none(document, tmp_path):
    path = tmp_path / "report.json"
    path.write_text(json_text(plain_report([document])), "utf-8")
    assert read_report(path)[0].facts is None


DO = "Do: write it anew with `speccheck check ... --format json --out FILE`."


@pytest.mark.parametrize(
    ("content", "message"),
    [
        (b'{"speccheck-report": 1,\n  "documents": [}', f"2:17: this is not JSON: Expecting value. Expected a report in JSON. {DO}"),
        (b"", f"1:1: this is not JSON: Expecting value. Expected a report in JSON. {DO}"),
        (b"speccheck: 1\n", f"1:1: this is not JSON: Expecting value. Expected a report in JSON. {DO}"),
        (b"[]", f"this is JSON, but not a report. Expected the key `speccheck-report`. {DO}"),
        (b'{"version": "2.1.0", "runs": []}', f"this is JSON, but not a report. Expected the key `speccheck-report`. {DO}"),
        (b'{"speccheck-report": 2}', f"speccheck-report: the report has form 2. Expected form 1. {DO}"),
        (b'{"speccheck-report": true}', f"speccheck-report: the report has form True. Expected form 1. {DO}"),
        (b'{"speccheck-report": 1}', f"documents: nothing stands here. Expected a list. {DO}"),
        (b'{"speccheck-report": 1, "documents": [5]}', f"documents[0]: 5 stands here. Expected an object. {DO}"),
        (b"\xff\xfe{", f"byte 1 is not UTF-8. Expected a report in JSON. {DO}"),
        (b"[" * 100_000, f"this is not JSON: maximum recursion depth exceeded while decoding a JSON array from a unicode string. Expected a report in JSON. {DO}"),
    ],
)  # fmt: skip
def test_what_is_no_report(content, message, tmp_path):
    path = tmp_path / "old.json"
    path.write_bytes(content)
    assert told(path) == message


@pytest.mark.parametrize(
    ("change", "message"),
    [
        (lambda f: f.pop("rule"), "documents[0].findings[0].rule: nothing stands here. Expected text."),
        (lambda f: f.update(severity="bad"), "documents[0].findings[0].severity: 'bad' stands here. Expected one of outside, "),
        (lambda f: f.update(measured=[]), "documents[0].findings[0].measured: [] stands here. Expected an object or null."),
        (lambda f: f.update(measured={"fact": "x", "kind": "y", "observed": "3"}), "documents[0].findings[0].measured.observed: '3' stands here. Expected a number."),
        (lambda f: f.update(measured={"fact": "x", "kind": "y", "observed": 1e999}), "documents[0].findings[0].measured.observed: a number without end stands here. Expected a number."),
        (lambda f: f.update(measured={"fact": "x", "kind": "y", "observed": True}), "documents[0].findings[0].measured.observed: True stands here."),
    ],
)  # fmt: skip
def test_a_report_that_was_tampered_with_is_told_at_its_place(report, change, message, tmp_path):
    change(report["documents"][0]["findings"][0])
    path = tmp_path / "old.json"
    path.write_text(json.dumps(report), "utf-8")
    assert told(path).startswith(message)


def test_a_file_that_is_not_there_and_one_that_is_no_file(tmp_path):
    assert told(tmp_path / "none.json").startswith("there is no such file.")
    assert told(tmp_path).startswith("this is not an ordinary file.")


def test_a_file_too_large_is_refused_before_it_is_parsed(tmp_path, monkeypatch):
    monkeypatch.setattr(report_file, "LARGEST", 1000)
    path = tmp_path / "old.json"
    path.write_bytes(b"[" * 1001)
    assert told(path).startswith("the file has more than 1000 bytes.")
