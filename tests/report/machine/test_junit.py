"""JUnit XML: well-formed, of the shape build servers read, and with their words only where ours say the same."""

from xml.etree import ElementTree

import pytest

from speccheck.document import Mark, Problem
from speccheck.judgement.finding import Level
from speccheck.report.junit import KINDS

UNREAD = (
    (
        "lots/bad.yaml",
        (Problem("'5' has no unit", "a length", "write 5 mm", (), Mark(3, 8), "lots/bad.yaml"),),
    ),
)

# The schema of the xUnit plug-in of a common build server (junit-10.xsd): attributes and children of each element,
# those required marked. From memory.
SHAPE = {
    "testsuites": ({"name", "time", "tests", "failures", "disabled", "errors"}, set(), {"testsuite"}),
    "testsuite": (
        {"name", "tests", "failures", "errors", "group", "time", "skipped", "timestamp", "hostname", "id", "package", "file", "log", "url", "version"},
        {"name", "tests"},
        {"testsuite", "properties", "testcase", "system-out", "system-err"},
    ),
    "testcase": (
        {"name", "assertions", "time", "timestamp", "classname", "status", "class", "file", "line", "log", "group", "url"},
        {"name"},
        {"skipped", "error", "failure", "rerunFailure", "rerunError", "flakyFailure", "flakyError", "system-out", "system-err"},
    ),
    "failure": ({"type", "message"}, set(), set()),
    "error": ({"type", "message"}, set(), set()),
    "skipped": ({"type", "message"}, set(), set()),
    "system-out": (set(), set(), set()),
}  # fmt: skip


def check_shape(element: ElementTree.Element) -> None:
    allowed, required, children = SHAPE[element.tag]
    assert required <= set(element.keys()) <= allowed, element.tag
    for child in element:
        assert child.tag in children, (element.tag, child.tag)
        check_shape(child)


@pytest.fixture(scope="module")
def root(documents, written) -> ElementTree.Element:
    return ElementTree.fromstring(written("junit", *documents.values(), unread=UNREAD))


def test_shape_and_totals(root):
    check_shape(root)
    for suite in root:
        cases = suite.findall("testcase")
        assert int(suite.get("tests")) == len(cases)
        for outcome, total in (("failure", "failures"), ("error", "errors"), ("skipped", "skipped")):
            assert int(suite.get(total)) == len(suite.findall(f"testcase/{outcome}"))
    for total in ("tests", "failures", "errors"):
        assert int(root.get(total)) == sum(int(suite.get(total)) for suite in root)


def test_the_shape_can_refuse():
    with pytest.raises(AssertionError):
        check_shape(
            ElementTree.fromstring('<testsuites><testsuite name="a" tests="1" verdict="x"/></testsuites>')
        )


def test_a_case_for_each_rule_at_each_place(root, documents):
    for suite, checked in zip(root, documents.values(), strict=False):
        assert suite.get("name") == checked.loaded.name
        names = [case.get("name") for case in suite]
        assert sorted(names) == sorted(f"{f.rule} at {f.place}" for f in checked.findings)


def test_outcomes(root, documents):
    wall = documents["lots/wall.yaml"]
    cases = {case.get("name"): case for case in root[list(documents).index("lots/wall.yaml")]}
    for finding in wall.findings:
        case = cases[f"{finding.rule} at {finding.place}"]
        outcome = next((child for child in case if child.tag != "system-out"), None)
        if finding.severity in KINDS:
            assert (outcome.tag, outcome.get("type")) == ("failure", KINDS[finding.severity])
            assert outcome.get("message") == finding.reason
            assert "Nothing here is an approval" in outcome.text
        elif finding.level is Level.WAIVED:
            assert outcome.tag == "skipped"
            assert "Settled at the first review." in outcome.get("message")
        else:
            assert outcome is None


def test_only_what_counts_is_called_by_that_word(documents, written):
    wall = documents["lots/wall.yaml"]
    for fail_on, wanted in (("outside", {"outside"}), ("caution", {"outside", "caution"}), ("never", set())):
        root = ElementTree.fromstring(written("junit", wall, fail_on=fail_on))
        kinds = {failure.get("type") for failure in root.iter("failure")}
        assert kinds <= {KINDS[severity] for severity in wanted}
        assert len(list(root.iter("failure"))) == sum(f.severity in wanted for f in wall.findings)


def test_what_is_as_in_the_baseline_is_skipped_with_the_reason(documents, written):
    wall = documents["lots/wall.yaml"]
    root = ElementTree.fromstring(written("junit", wall, older=wall))
    assert not list(root.iter("failure"))
    messages = [skipped.get("message") for skipped in root.iter("skipped")]
    assert sum("as in the baseline" in message for message in messages) == sum(
        f.severity in KINDS for f in wall.findings
    )


def test_a_document_that_cannot_be_read_is_an_error(root):
    (error,) = root.iter("error")
    assert error.get("message") == "lots/bad.yaml:3:8: '5' has no unit. Expected a length. Do: write 5 mm."


def test_no_documents_at_all(written):
    assert ElementTree.fromstring(written("junit")).get("tests") == "0"
