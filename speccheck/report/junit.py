"""The report as JUnit XML: a suite for each document, a test case for each rule at each place.

JUnit knows four outcomes, and a server acts on one of them, which it calls ``failure``. It stands here for a finding
that counts toward the exit status, no more, and its ``type`` says in our words what it is: a warning outside a
published limit, a caution, a referral, a question. What is waived, or as in the baseline, is ``skipped`` with the
reason. A document that cannot be read is an ``error``.
"""

from collections.abc import Sequence
from typing import NamedTuple
from xml.etree import ElementTree

from speccheck.document import Problem
from speccheck.document.problem import printable
from speccheck.judgement.finding import Finding, Level
from speccheck.report.counting import counts, findings_that_count
from speccheck.report.formats import Format, Manner, Run
from speccheck.report.remedies import led
from speccheck.report.summary import summarise
from speccheck.report.wording import DEFERRAL, limit_words, margin_words
from speccheck.uses.baseline import Against
from speccheck.uses.check import Checked

__all__ = ["FORMAT", "KINDS"]

KINDS = {
    "outside": "warn (outside a published limit)",
    "caution": "warn (caution)",
    "refer": "refer",
    "ask": "ask",
}
"""The types of what counts."""
_LONGEST = 8_000


class _Case(NamedTuple):
    """One test case: its outcome is empty where nothing keeps it from holding."""

    name: str
    outcome: str = ""
    kind: str = ""
    message: str = ""
    body: str = ""


def _part(checked: Checked, manner: Manner, against: Against | None) -> tuple[_Case, ...]:
    counting = findings_that_count(checked.findings, manner.fail_on, against)
    return tuple(
        _case(finding, manner, finding.key in counting) for finding in summarise(checked.findings).findings
    )


def _case(finding: Finding, manner: Manner, counting: bool) -> _Case:
    name = f"{finding.rule} at {finding.place}"
    if counting:
        return _Case(name, "failure", KINDS[finding.severity], finding.reason, _body(finding, manner))
    if finding.level is Level.WAIVED:
        return _Case(name, "skipped", "waived", f"waived: {finding.waiver}")
    if counts(finding.severity, manner.fail_on):
        return _Case(name, "skipped", "", f"{finding.severity}, as in the baseline: {finding.reason}")
    return _Case(name, body="" if finding.level is Level.PASS else f"{finding.severity}: {finding.reason}")


def _body(finding: Finding, manner: Manner) -> str:
    lines = [finding.title, finding.reason]
    if finding.measured is not None:
        lines.append(f"{limit_words(finding.measured, manner.units)}; {margin_words(finding, manner.units)}")
    lines += [f"Ask: {question}" for question in dict.fromkeys(gap.question for gap in finding.gaps)]
    lines += [f"{lead} {remedy}" for lead, remedy in led(finding.do, finding.do_is)]
    lines += [f"Source: {source}" for source in finding.sources]
    where = f"{finding.file}:{finding.line}:{finding.column}" if finding.line else finding.file
    return "\n".join(printable(line, _LONGEST) for line in (*lines, f"At: {where}", DEFERRAL))


def _unread(problems: Sequence[Problem]) -> tuple[_Case, ...]:
    texts = [problem.text() for problem in problems]
    return (_Case("the document can be read", "error", "could not be read", texts[0], "\n".join(texts)),)


def _whole(run: Run) -> str:
    suites = [(one.digest.file, one.part) for one in run.told]
    suites += [(name, _unread(problems)) for name, problems in run.unread]
    everything = [case for _, cases in suites for case in cases]
    root = ElementTree.Element("testsuites", {"name": "speccheck", **_totals(everything, skipped=False)})
    for number, (name, cases) in enumerate(suites):
        shown = printable(name, _LONGEST)
        suite = ElementTree.SubElement(
            root, "testsuite", {"name": shown, "id": str(number), **_totals(cases, skipped=True)}
        )
        for case in cases:
            _add(suite, case, shown)
    ElementTree.indent(root, " ")
    return f"<?xml version='1.0' encoding='UTF-8'?>\n{ElementTree.tostring(root, encoding='unicode')}\n"


def _totals(cases: Sequence[_Case], *, skipped: bool) -> dict[str, str]:
    outcomes = [case.outcome for case in cases]
    totals = {"tests": len(cases), "failures": outcomes.count("failure"), "errors": outcomes.count("error")}
    totals |= {"skipped": outcomes.count("skipped")} if skipped else {}
    return {name: str(count) for name, count in totals.items()}


def _add(suite: ElementTree.Element, case: _Case, classname: str) -> None:
    element = ElementTree.SubElement(
        suite, "testcase", {"name": printable(case.name, _LONGEST), "classname": classname}
    )
    if not case.outcome:
        if case.body:
            ElementTree.SubElement(element, "system-out").text = printable(case.body, _LONGEST)
        return
    attributes = {"message": printable(case.message, _LONGEST)}
    attributes |= {"type": case.kind} if case.kind and case.outcome != "skipped" else {}
    child = ElementTree.SubElement(element, case.outcome, attributes)
    child.text = case.body or None


FORMAT = Format(_part, _whole, ".xml")
"""For the page of test results of a build server."""
